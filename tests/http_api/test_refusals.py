"""Paths, methods, media types, sizes: what is refused before anything is computed, and how (RFC 9110)."""

import asyncio
import json

import httpx
import pytest
from tests.http_api.by_hand import run_asgi

JSON = {"Content-Type": "application/json"}


def refused(answer, status, slug):
    """The problem of an answer that must be one."""
    assert answer.status_code == status
    assert answer.headers["content-type"] == "application/problem+json"
    problem = answer.json()
    assert problem["status"] == status
    assert problem["type"] == f"/problems/{slug}"
    assert set(problem) == {"type", "title", "status", "detail", "instance", "errors"}
    return problem


@pytest.mark.parametrize(
    ("path", "suggestion"),
    [
        ("/v1/question", "/v1/questions"),
        ("/v1/questions/", "/v1/questions"),
        ("/health/live/", "/health/live"),
        ("/v2/nothing/of/the/kind", None),
    ],
)
def test_unknown_paths(client, path, suggestion):
    problem = refused(client.post(path, headers=JSON, content=b"{}"), 404, "not-found")
    assert problem["instance"] == path
    expected = f"did you mean {suggestion}?" if suggestion else "/docs lists what there is."
    assert problem["detail"].endswith(expected)


@pytest.mark.source(
    "RFC 9457, 3.1.5: instance is a URI reference; RFC 3986, 2.1: what may not stand in one is encoded"
)
@pytest.mark.parametrize(
    ("asked", "instance"),
    [
        ("/v1/a%0d%0ab", "/v1/a%0D%0Ab"),
        ("/v1/%00", "/v1/%00"),
        ("/v1/a%20b", "/v1/a%20b"),
        ("/v1/%C3%A4;a=1@b", "/v1/%C3%A4;a=1@b"),
        ("/v1/a%3Fb%23c%25", "/v1/a%3Fb%23c%25"),
    ],
)
def test_the_path_that_was_asked_for_is_answered_as_a_reference(client, asked, instance):
    assert refused(client.get(asked), 404, "not-found")["instance"] == instance


def test_a_long_unknown_path_is_cut(client):
    problem = refused(client.get("/" + "p" * 5000), 404, "not-found")
    assert len(problem["instance"]) == 200


@pytest.mark.parametrize(
    ("method", "path", "allow"),
    [
        ("GET", "/v1/questions", "POST"),
        ("HEAD", "/v1/questions", "POST"),
        ("TRACE", "/v1/questions", "POST"),
        ("BREW", "/v1/questions", "POST"),
        ("POST", "/v1/things", "DELETE, GET, HEAD"),
        ("PUT", "/v1/things", "DELETE, GET, HEAD"),
        ("POST", "/health/live", "GET, HEAD"),
        ("POST", "/docs", "GET, HEAD"),
    ],
)
def test_methods_that_are_not_offered(client, method, path, allow):
    answer = client.request(method, path)
    assert answer.status_code == 405
    assert answer.headers["allow"] == allow
    if method == "HEAD":
        assert answer.content == b""
    else:
        assert refused(answer, 405, "method-not-allowed")["detail"] == f"This path offers {allow}."


def test_options_lists_the_methods(client):
    answer = client.request("OPTIONS", "/v1/things")
    assert (answer.status_code, answer.content) == (204, b"")
    assert answer.headers["allow"] == "DELETE, GET, HEAD"


def test_head_is_get_without_the_body(client):
    head, get = client.request("HEAD", "/v1/things"), client.get("/v1/things")
    assert (head.status_code, head.content) == (200, b"")
    assert head.headers["etag"] == get.headers["etag"]
    assert head.headers["content-length"] == str(len(get.content))


@pytest.mark.parametrize(
    "accept",
    [
        None,
        "",
        "*/*",
        "application/*",
        "application/json",
        "APPLICATION/JSON; charset=utf-8",
        "text/html, application/json;q=0.1",
        "text/html, */*;q=0.01",
        "application/json, */*;q=0",
        "application/json;q=0.5, application/*;q=0",
        "application/problem+json, application/json",
    ],
)
def test_accepted(client, good, accept):
    headers = {} if accept is None else {"Accept": accept}
    assert client.post("/v1/questions", json=good, headers=headers).status_code == 200


@pytest.mark.parametrize(
    "accept",
    [
        "text/html",
        "application/xml, text/*",
        "application/problem+json",
        "application/json;q=0",
        "application/json; q=0.0, */*",
        "application/*;q=0, */*;q=0.5",
        "*/*;q=0",
        "application/json;q=none",
        "json",
    ],
)
def test_not_acceptable(client, good, accept):
    for method, path in (("POST", "/v1/questions"), ("GET", "/v1/things")):
        answer = client.request(method, path, json=good, headers={"Accept": accept})
        refused(answer, 406, "not-acceptable")


def test_several_accept_headers_count_as_one(client, good):
    headers = [("Accept", "text/html"), ("Accept", "application/json")]
    assert client.post("/v1/questions", json=good, headers=headers).status_code == 200


@pytest.mark.parametrize(
    "content_type",
    [
        "application/json",
        "Application/JSON",
        "application/json; charset=utf-8",
        'application/json;charset="UTF-8"',
    ],
)
def test_json_bodies(client, good, content_type):
    answer = client.ask(json.dumps(good), headers={"Content-Type": content_type})
    assert answer.status_code == 200


@pytest.mark.parametrize(
    "headers",
    [
        {},
        {"Content-Type": ""},
        {"Content-Type": "text/plain"},
        {"Content-Type": "text/json"},
        {"Content-Type": "application/jsonl"},
        {"Content-Type": "application/vnd.api+json"},
        {"Content-Type": "application/problem+json"},
        {"Content-Type": "multipart/form-data; boundary=x"},
        {"Content-Type": "application/json; charset=utf-16"},
        {"Content-Type": "application/json; charset=latin-1"},
        [("Content-Type", "application/json"), ("Content-Type", "text/plain")],
        JSON | {"Content-Encoding": "gzip"},
        JSON | {"Content-Encoding": "br"},
        JSON | {"Content-Encoding": "identity, gzip"},
    ],
)
def test_other_media_types(client, good, headers):
    answer = client.post("/v1/questions", content=json.dumps(good).encode(), headers=headers)
    refused(answer, 415, "unsupported-media-type")


def test_identity_is_no_encoding(client, good):
    assert client.ask(json.dumps(good), headers={"Content-Encoding": "Identity"}).status_code == 200


def test_a_body_at_the_limit_is_read_and_one_byte_more_is_not(make_client, good):
    body = json.dumps(good).encode()
    assert make_client(body_limit_bytes=len(body)).ask(body).status_code == 200
    problem = refused(make_client(body_limit_bytes=len(body) - 1).ask(body), 413, "body-too-large")
    assert problem["detail"] == f"The body is longer than the limit of {len(body) - 1} bytes."


def test_the_limit_is_one_mebibyte(client):
    # docs: api.md, Conventions: bodies 1 MiB.
    refused(client.ask(b'"' + b"x" * 1024 * 1024 + b'"'), 413, "body-too-large")
    assert client.ask(b'"' + b"x" * (1024 * 1024 - 2) + b'"').status_code == 422


def test_a_body_of_very_many_values_is_refused_at_once(client, good):
    good["run"] = [0] * 9_900
    assert client.post("/v1/questions", json=good).status_code == 422
    good["run"] = [0] * 10_000
    problem = refused(client.post("/v1/questions", json=good), 413, "body-too-large")
    assert problem["detail"] == "The body has more than 10000 values."


def test_a_streamed_body_is_counted_and_not_kept(client):
    megabyte = b" " * 1_000_000
    taken = 0

    async def hundred_megabytes():
        nonlocal taken
        for _ in range(100):
            taken += len(megabyte)
            yield megabyte

    async def send():
        transport = httpx.ASGITransport(app=client.app)
        async with httpx.AsyncClient(transport=transport, base_url=client.base_url) as http:
            return await http.post("/v1/questions", content=hundred_megabytes(), headers=JSON)

    refused(asyncio.run(send()), 413, "body-too-large")
    assert taken <= 3_000_000


def test_a_declared_length_is_believed_before_a_byte_is_read(client):
    read = []

    async def receive():
        read.append(1)
        return {"type": "http.request", "body": b"", "more_body": True}

    sent = run_asgi(client.app, receive, [(b"content-length", b"104857600")])
    assert sent[0]["status"] == 413
    assert read == []


def test_a_client_that_leaves_gets_nothing_and_breaks_nothing(client):
    async def receive():
        return {"type": "http.disconnect"}

    assert run_asgi(client.app, receive, []) == []


def test_over_capacity(make_client):
    answers = make_client(concurrency_limit=2).ask_many(5)
    assert sorted(answer.status_code for answer in answers) == [200, 200, 429, 429, 429]
    for answer in answers:
        if answer.status_code == 429:
            refused(answer, 429, "over-capacity")
            assert int(answer.headers["retry-after"]) > 0


def test_capacity_comes_back(make_client):
    client = make_client(concurrency_limit=1)
    paths = ("/v1/slow-questions", "/v1/broken-questions", "/v1/slow-questions")
    assert [client.ask_many(1, path)[0].status_code for path in paths] == [200, 500, 200]


def test_no_limit_by_default(client):
    assert {answer.status_code for answer in client.ask_many(20)} == {200}


def test_health_is_answered_at_the_limit(make_client, good):
    client = make_client(concurrency_limit=1)

    async def both():
        transport = httpx.ASGITransport(app=client.app)
        async with httpx.AsyncClient(transport=transport, base_url=client.base_url) as http:
            slow = asyncio.create_task(http.post("/v1/slow-questions", json=good))
            await asyncio.sleep(0.1)
            return [await http.post("/v1/questions", json=good), await http.get("/health/ready"), await slow]

    assert [answer.status_code for answer in asyncio.run(both())] == [429, 200, 200]


def test_draining(make_client, good):
    client = make_client()
    assert client.get("/health/ready").json() == {"status": "ready"}
    client.app.state.draining = True
    for answer in (
        client.get("/health/ready"),
        client.post("/v1/questions", json=good),
        client.get("/v1/things"),
    ):
        refused(answer, 503, "draining")
        assert int(answer.headers["retry-after"]) > 0
    assert client.get("/health/live").json() == {"status": "live"}
    assert client.get("/docs").status_code == 200
