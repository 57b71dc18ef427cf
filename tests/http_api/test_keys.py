"""Keys as an operator makes, replaces and revokes them, and as a client gets them wrong (RFC 9110, 11; RFC 6750)."""

import base64
import hmac
import re

import httpx
import pytest
from click.testing import CliRunner
from tests.http_api.served import Served

from branchwright.cli import main
from branchwright.http_api import security
from branchwright.http_api.security import create_key

KEY, HASH = create_key()
NEXT_KEY, NEXT_HASH = create_key()


def refused(answer):
    """Assert that an answer is a whole refusal."""
    assert answer.status_code == 401
    assert answer.headers["content-type"] == "application/problem+json"
    problem = answer.json()
    assert (problem["type"], problem["status"]) == ("/problems/unauthorized", 401)
    assert re.fullmatch(
        r'Bearer realm="branchwright"(, error="invalid_token")?', answer.headers["www-authenticate"]
    )
    assert answer.headers["cache-control"] == "no-store"
    assert KEY not in answer.text
    return answer


def test_a_key_is_replaced_without_a_gap_and_revoked(make_client, good):
    """Old key alone, both, new key alone: what an operator sets one after the other."""

    def asked(hashes, key):
        client = make_client(api_key_hashes=hashes)
        return client.post("/v1/questions", json=good, headers={"Authorization": f"Bearer {key}"})

    assert asked((HASH,), KEY).status_code == 200
    refused(asked((HASH,), NEXT_KEY))
    assert asked((HASH, NEXT_HASH), KEY).status_code == 200
    assert asked((HASH, NEXT_HASH), NEXT_KEY).status_code == 200
    assert asked((NEXT_HASH,), NEXT_KEY).status_code == 200
    refused(asked((NEXT_HASH,), KEY))


@pytest.mark.parametrize(
    "credentials",
    [
        "Basic {pair}",
        "Basic {key}",
        "Digest {key}",
        "Token {key}",
        "{key}",
        "Bearer={key}",
        "Bearer\t{key}",
        "Bearer,{key}",
        "Bearer {key}, Bearer {key}",
        "Bearer {key} {key}",
        'Bearer "{key}"',
        "Bearer token={key}",
        "Bearer {upper}",
        "Bearer {shorter}",
        "Bearer {hash}",
        "Bearer ",
        " ",
    ],
)
def test_a_key_in_another_form_is_refused(make_client, good, credentials):
    client = make_client(api_key_hashes=(HASH,))
    pair = base64.b64encode(f"user:{KEY}".encode()).decode()
    sent = credentials.format(key=KEY, pair=pair, upper=KEY.upper(), shorter=KEY[:-1], hash=HASH)
    refused(client.post("/v1/questions", json=good, headers={"Authorization": sent}))


@pytest.mark.source("RFC 9110, 11.1: the name of a scheme is matched without regard to case")
@pytest.mark.parametrize("scheme", ["Bearer", "bearer", "BEARER", "bEaReR"])
def test_the_name_of_the_scheme_may_be_written_in_any_case(make_client, good, scheme):
    client = make_client(api_key_hashes=(HASH,))
    answer = client.post("/v1/questions", json=good, headers={"Authorization": f"{scheme} {KEY}"})
    assert answer.status_code == 200


@pytest.mark.source("RFC 9110, 11.4: one or more spaces stand before the credentials")
def test_more_than_one_space_may_stand_before_the_key(make_client, good):
    client = make_client(api_key_hashes=(HASH,))
    answer = client.post("/v1/questions", json=good, headers={"Authorization": f"Bearer   {KEY}"})
    assert answer.status_code == 200


@pytest.mark.parametrize(
    "query", ["access_token={key}", "api_key={key}", "key={key}", "Authorization=Bearer%20{key}"]
)
def test_a_key_in_the_address_is_no_key(make_client, good, query):
    refused(make_client(api_key_hashes=(HASH,)).post(f"/v1/questions?{query.format(key=KEY)}", json=good))


@pytest.mark.parametrize("name", ["X-API-Key", "Cookie", "Proxy-Authorization", "WWW-Authenticate"])
def test_a_key_in_another_header_is_no_key(make_client, good, name):
    headers = {name: f"Bearer {KEY}"}
    refused(make_client(api_key_hashes=(HASH,)).post("/v1/questions", json=good, headers=headers))


@pytest.mark.parametrize("second", ["Bearer {key}", "Bearer wrong", "Basic wrong", ""])
def test_several_authorization_headers_are_refused(make_client, good, second):
    client = make_client(api_key_hashes=(HASH,))
    good_one, other = f"Bearer {KEY}", second.format(key=KEY)
    for values in ([good_one, other], [other, good_one]):
        refused(
            client.post("/v1/questions", json=good, headers=[("Authorization", value) for value in values])
        )


@pytest.mark.parametrize("key", [b"\xe9" * 40, "schlüssel".encode(), b"\x80\xff", b"\xf0\x9f\x94\x91"])
def test_a_key_that_is_not_ascii_is_refused(make_client, good, key):
    client = make_client(api_key_hashes=(HASH,))
    refused(client.post("/v1/questions", json=good, headers={"Authorization": b"Bearer " + key}))


def test_a_very_long_key_is_refused(make_client, good):
    client = make_client(api_key_hashes=(HASH,))
    refused(client.post("/v1/questions", json=good, headers={"Authorization": f"Bearer {'x' * 5_000_000}"}))
    refused(
        client.post("/v1/questions", json=good, headers={"Authorization": f"Bearer {KEY}{'x' * 5_000_000}"})
    )


def test_every_hash_is_compared_in_constant_time(make_client, good, monkeypatch):
    """Whichever key is sent, the same comparisons are made, and none of them with ``==``."""
    made = []

    def compare(one, other):
        made.append((one, other))
        return hmac.compare_digest(one, other)

    monkeypatch.setattr(security, "hmac", type("Watched", (), {"compare_digest": staticmethod(compare)}))
    client = make_client(api_key_hashes=(HASH, NEXT_HASH))
    for key in (KEY, NEXT_KEY, "wrong"):
        made.clear()
        client.post("/v1/questions", json=good, headers={"Authorization": f"Bearer {key}"})
        assert [known for _, known in made] == [HASH, NEXT_HASH]
        assert {len(given) for given, _ in made} == {64}


def test_a_third_hash_is_refused_at_the_start(monkeypatch):
    hashes = [HASH, NEXT_HASH, create_key()[1]]
    monkeypatch.setenv("BRANCHWRIGHT_API_KEY_HASHES", ",".join(hashes))
    result = CliRunner().invoke(main, ["serve"])
    assert result.exit_code == 1
    assert result.stderr == (
        "Error: BRANCHWRIGHT_API_KEY_HASHES: Value error, at most 2 key hashes may be active, 3 were given\n"
    )


@pytest.mark.parametrize(
    ("arguments", "variable"),
    [(["--host", ""], "BRANCHWRIGHT_HOST"), (["--host", "nowhere.example"], "BRANCHWRIGHT_API_KEY_HASHES")],
)
def test_an_option_that_cannot_be_used_is_named(monkeypatch, arguments, variable):
    monkeypatch.delenv("BRANCHWRIGHT_API_KEY_HASHES", raising=False)
    result = CliRunner().invoke(main, ["serve", *arguments])
    assert result.exit_code == 1
    assert variable in result.stderr
    assert isinstance(result.exception, SystemExit), "a traceback"


def test_a_key_from_the_command_line_opens_a_real_service_and_nothing_else_does():
    created = CliRunner().invoke(main, ["keys", "create"])
    printed = dict(line.split(maxsplit=1) for line in created.stdout.splitlines())
    assert set(printed) == {"key", "hash"}
    with Served(BRANCHWRIGHT_API_KEY_HASHES=printed["hash"]) as service:
        with httpx.Client(base_url=service.base_url) as client:
            for path in ("/v1/rules", "/metrics"):
                refused(client.get(path))
                refused(client.get(path, headers={"Authorization": f"Bearer {printed['hash']}"}))
                refused(client.get(path, headers={"Authorization": f"Bearer {'x' * 60_000}"}))
                given = client.get(path, headers={"Authorization": f"bearer {printed['key']}"})
                assert given.status_code == 200
            assert client.get("/health/ready").status_code == 200
        service.stop()
        assert printed["key"] not in service.text
        assert printed["hash"] not in service.text
