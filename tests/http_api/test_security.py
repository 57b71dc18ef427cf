"""Who is let in, and what browsers are told."""

import hashlib

import pytest
from starlette.applications import Starlette
from starlette.routing import Mount

from branchwright.http_api.paths import is_contract_path
from branchwright.http_api.security import create_key

KEY, HASH = create_key()
OTHER_KEY, OTHER_HASH = create_key()


def test_a_key_is_random_and_its_hash_is_sha_256():
    assert KEY != OTHER_KEY
    assert len(KEY) > 40
    assert hashlib.sha256(KEY.encode()).hexdigest() == HASH


@pytest.mark.parametrize(
    ("authorization", "challenge"),
    [
        ([], 'Bearer realm="branchwright"'),
        ([""], 'Bearer realm="branchwright"'),
        (["Basic dXNlcjpwYXNz"], 'Bearer realm="branchwright"'),
        ([KEY], 'Bearer realm="branchwright"'),
        (["Bearer"], 'Bearer realm="branchwright", error="invalid_token"'),
        (["Bearer wrong"], 'Bearer realm="branchwright", error="invalid_token"'),
        ([f"Bearer {KEY}x"], 'Bearer realm="branchwright", error="invalid_token"'),
        ([f"Bearer {HASH}"], 'Bearer realm="branchwright", error="invalid_token"'),
        (["Bearer \xe9"], 'Bearer realm="branchwright", error="invalid_token"'),
        ([f"Bearer {KEY}", f"Bearer {KEY}"], 'Bearer realm="branchwright"'),
    ],
)
@pytest.mark.parametrize("path", ["/v1/questions", "/v1/things", "/v1/nothing", "/v1"])
def test_without_the_key_nothing_under_v1_is_answered(make_client, authorization, challenge, path):
    client = make_client(api_key_hashes=(HASH,))
    headers = [("Authorization", value.encode("latin-1")) for value in authorization]
    answer = client.post(path, headers=headers)
    assert answer.status_code == 401
    assert answer.headers["www-authenticate"] == challenge
    assert answer.headers["content-type"] == "application/problem+json"
    assert answer.json()["type"] == "/problems/unauthorized"
    assert KEY not in answer.text


@pytest.mark.parametrize("key", [KEY, OTHER_KEY], ids=["one", "other"])
@pytest.mark.parametrize("scheme", ["Bearer", "bearer", "BEARER"])
def test_each_of_two_keys_opens(make_client, good, key, scheme):
    client = make_client(api_key_hashes=(HASH, OTHER_HASH))
    answer = client.post("/v1/questions", json=good, headers={"Authorization": f"{scheme} {key}"})
    assert answer.status_code == 200


@pytest.mark.parametrize("path", ["/health/live", "/health/ready", "/openapi.json", "/docs", "/problems"])
def test_no_key_is_needed_elsewhere(make_client, path):
    assert make_client(api_key_hashes=(HASH,)).get(path).status_code == 200


@pytest.mark.parametrize("path", ["/v1/questions", "/health/live", "/docs", "/openapi.json", "/nothing"])
@pytest.mark.parametrize(
    "host",
    [
        "attacker.example",
        "attacker.example:8000",
        "127.0.0.1.attacker.example",
        "localhost.",
        "10.0.0.1",
        "[::2]",
    ],
)
def test_without_keys_other_host_names_are_refused(make_client, host, path):
    """DNS rebinding: a page's own name points at 127.0.0.1, but the Host header still tells it."""
    answer = make_client().get(path, headers={"Host": host})
    assert answer.status_code == 403
    assert answer.json()["type"] == "/problems/host-not-allowed"
    assert host not in answer.text


@pytest.mark.parametrize(
    "host", ["localhost", "LOCALHOST:8000", "127.0.0.1", "127.0.0.1:80", "[::1]", "[::1]:8000"]
)
def test_loopback_names_are_answered(make_client, host):
    assert make_client().get("/health/live", headers={"Host": host}).status_code == 200


@pytest.mark.parametrize("path", ["/api/v1/questions", "/api/v1", "/api/v1/nothing"])
def test_the_key_is_needed_under_a_mount_as_well(make_client, good, path):
    inner = make_client(api_key_hashes=(HASH,))
    client = type(inner)(Starlette(routes=[Mount("/api", inner.app)]))
    assert client.post(path, json=good).status_code == 401
    answer = client.post(path, json=good, headers={"Authorization": f"Bearer {KEY}"})
    assert answer.status_code == (200 if path == "/api/v1/questions" else 404)
    assert client.get("/api/health/live").status_code == 200
    assert client.post("/api/health/live").headers["allow"] == "GET, HEAD"


@pytest.mark.parametrize(
    ("root_path", "path", "keyed"),
    [
        ("", "/v1", True),
        ("", "/v1/rules", True),
        ("", "/v10", False),
        ("", "/health/live", False),
        ("/api", "/api/v1/rules", True),
        ("/api", "/v1/rules", True),
        ("/v", "/v1/rules", True),
        ("/v1", "/v1/v1/rules", True),
        ("/v1", "/v1/docs", False),
    ],
)
def test_paths_are_read_as_the_router_reads_them(root_path, path, keyed):
    assert is_contract_path({"path": path, "root_path": root_path}) is keyed


def test_two_host_headers_are_refused(make_client):
    headers = [("Host", "localhost"), ("Host", "attacker.example")]
    assert make_client().get("/health/live", headers=headers).status_code == 403


def test_keys_or_leave_lift_the_guard(make_client):
    for settings in ({"api_key_hashes": (HASH,)}, {"allow_anonymous": True}):
        client = make_client(base_url="http://chargers.example", **settings)
        assert client.get("/health/live").status_code == 200


def test_anonymous_use_needs_no_key(make_client, good):
    client = make_client(base_url="http://chargers.example", allow_anonymous=True)
    assert client.post("/v1/questions", json=good).status_code == 200


def test_every_answer_carries_the_headers_that_browsers_heed(client, good):
    answers = [
        client.post("/v1/questions", json=good),
        client.post("/v1/questions", content=b"{"),
        client.get("/v1/things"),
        client.get("/docs"),
        client.get("/nothing"),
        client.request("OPTIONS", "/v1/things"),
        client.get("/health/live", headers={"Host": "attacker.example"}),
        client.post("/v1/broken-questions", json=good),
    ]
    for answer in answers:
        assert answer.headers["x-content-type-options"] == "nosniff"
        assert answer.headers["x-frame-options"] == "DENY"
        assert answer.headers["referrer-policy"] == "no-referrer"
        assert not any(name.startswith("access-control-") for name in answer.headers)


def test_answers_to_questions_and_problems_are_not_stored(client, good):
    assert client.post("/v1/questions", json=good).headers["cache-control"] == "no-store"
    assert client.get("/nothing").headers["cache-control"] == "no-store"
    assert client.get("/v1/things").headers["cache-control"] == "private, max-age=3600"
