"""Which pages a browser lets read the answers. Expected headers are those of the Fetch standard, 3.2 and 4.8."""

import pytest

from branchwright.http_api.security import create_key
from branchwright.http_api.settings import Settings, SettingsError, as_environment, load

KEY, HASH = create_key()
PAGE = "https://tool.example"
OTHER = "https://other.example"
PREFLIGHT = {
    "Origin": PAGE,
    "Access-Control-Request-Method": "POST",
    "Access-Control-Request-Headers": "authorization,content-type",
}


def sharing(answer):
    """The headers by which a browser decides."""
    return {name: text for name, text in answer.headers.items() if name.startswith("access-control-")}


def preflight(client, path="/v1/questions", **headers):
    return client.request("OPTIONS", path, headers=PREFLIGHT | headers)


def words(text):
    return {word.strip().lower() for word in text.split(",")}


def test_off_by_default(make_client, good):
    client = make_client()
    answers = [
        client.post("/v1/questions", json=good, headers={"Origin": PAGE}),
        client.post("/v1/questions", json={}, headers={"Origin": PAGE}),
        preflight(client),
    ]
    assert [answer.status_code for answer in answers] == [200, 422, 204]
    for answer in answers:
        assert sharing(answer) == {}
        assert "vary" not in answer.headers


def test_a_preflight_needs_no_key(make_client):
    client = make_client(api_key_hashes=(HASH,), cors_origins=(PAGE,))
    answer = preflight(client)
    assert (answer.status_code, answer.content) == (204, b"")
    assert answer.headers["access-control-allow-origin"] == PAGE
    assert answer.headers["vary"] == "Origin"
    assert words(answer.headers["access-control-allow-methods"]) == {"get", "head", "post"}
    needed = {"authorization", "content-type", "x-request-id", "if-none-match"}
    assert needed <= words(answer.headers["access-control-allow-headers"])
    assert int(answer.headers["access-control-max-age"]) > 0
    # A key is sent as a header by the page, never as a cookie by the browser.
    assert "access-control-allow-credentials" not in answer.headers
    assert len(answer.headers["x-request-id"]) == 32


def test_a_page_of_a_configured_origin_may_read_every_answer(make_client, good):
    client = make_client(api_key_hashes=(HASH,), cors_origins=(OTHER, PAGE))
    headers = {"Origin": PAGE, "Authorization": f"Bearer {KEY}"}
    answers = [
        client.post("/v1/questions", json=good, headers=headers),
        client.post("/v1/questions", json={}, headers=headers),
        client.post("/v1/questions", json=good, headers={"Origin": PAGE}),
        client.post("/v1/broken-questions", json=good, headers=headers),
        client.get("/v1/things", headers=headers),
        client.get("/nothing", headers={"Origin": PAGE}),
        client.get("/health/ready", headers={"Origin": PAGE}),
    ]
    assert [answer.status_code for answer in answers] == [200, 422, 401, 500, 200, 404, 200]
    for answer in answers:
        assert answer.headers["access-control-allow-origin"] == PAGE
        assert answer.headers["vary"] == "Origin"
        readable = words(answer.headers["access-control-expose-headers"])
        assert {"x-request-id", "etag", "retry-after"} <= readable


@pytest.mark.parametrize(
    "origin",
    [OTHER, "null", "", "http://tool.example", f"{PAGE}:8443", f"{PAGE}.other.example", f"{PAGE}/", "*"],
)
def test_no_other_page_may_read_anything(make_client, good, origin):
    client = make_client(api_key_hashes=(HASH,), cors_origins=(PAGE,))
    headers = {"Origin": origin, "Authorization": f"Bearer {KEY}"}
    answer = client.post("/v1/questions", json=good, headers=headers)
    # The request itself is answered: only the browser is not told to show the answer.
    assert answer.status_code == 200
    assert sharing(answer) == {}
    # A cache must not give this answer to the page that may read it.
    assert answer.headers["vary"] == "Origin"
    refused = preflight(client, Origin=origin)
    assert refused.status_code == 401
    assert refused.headers["content-type"] == "application/problem+json"
    assert sharing(refused) == {}


def test_two_origins_are_none(make_client, good):
    client = make_client(cors_origins=(PAGE,))
    headers = [("Origin", PAGE), ("Origin", OTHER)]
    assert sharing(client.post("/v1/questions", json=good, headers=headers)) == {}


def test_a_request_without_origin_is_answered_as_ever(make_client, good):
    answer = make_client(cors_origins=(PAGE,)).post("/v1/questions", json=good)
    assert answer.status_code == 200
    assert sharing(answer) == {}


def test_options_that_are_no_preflight_list_the_methods(make_client):
    answer = make_client(cors_origins=(PAGE,)).request("OPTIONS", "/v1/things", headers={"Origin": PAGE})
    assert answer.status_code == 204
    assert answer.headers["allow"] == "DELETE, GET, HEAD"
    assert answer.headers["access-control-allow-origin"] == PAGE


@pytest.mark.parametrize(
    "origins",
    [
        PAGE,
        f"{PAGE}, http://localhost:3000",
        "http://127.0.0.1:8080",
        "http://[::1]:8080",
        "https://xn--bcher-kva.example",
    ],
)
def test_origins_are_separated_by_commas(monkeypatch, origins):
    monkeypatch.setenv("BRANCHWRIGHT_CORS_ORIGINS", origins)
    assert load().cors_origins == tuple(origins.split(", "))


def test_worker_processes_are_given_the_origins(monkeypatch):
    settings = Settings(cors_origins=(PAGE, OTHER), tracing=True)
    for name, text in as_environment(settings).items():
        monkeypatch.setenv(name, text)
    assert load() == settings


@pytest.mark.parametrize("keys", ["", HASH], ids=["without keys", "with keys"])
@pytest.mark.parametrize(
    ("origins", "reason"),
    [
        ("*", "origin 1 stands for any page; name each origin"),
        (f"{PAGE},*", "origin 2 stands for any page"),
        ("null", "origin 1 stands for any page"),
        ("tool.example", "http:// or https://"),
        (f"{PAGE}/", "nothing after them"),
        (f"{PAGE}/page", "nothing after them"),
        ("https://*.example", "origin 1 is not an origin"),
        ("https://Tool.example", "lower case"),
        (f"{PAGE}:443", "the port unless it is the usual one"),
        ("http://tool.example:80", "the port unless it is the usual one"),
        ("https://user@tool.example", "origin 1 is not an origin"),
        ("ftp://tool.example", "http:// or https://"),
        ("https://tööl.example", "origin 1 is not an origin"),
    ],
)
def test_what_is_no_origin_is_refused_at_the_start(monkeypatch, keys, origins, reason):
    monkeypatch.setenv("BRANCHWRIGHT_API_KEY_HASHES", keys)
    monkeypatch.setenv("BRANCHWRIGHT_CORS_ORIGINS", origins)
    with pytest.raises(SettingsError, match="BRANCHWRIGHT_CORS_ORIGINS: ") as caught:
        load()
    assert reason in str(caught.value)
    assert "tool.example" not in str(caught.value)
