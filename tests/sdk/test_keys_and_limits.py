"""What a program sees of a service that wants a key, or is at its limit: asked over loopback, by either client."""

import asyncio
import threading
from collections.abc import Callable
from typing import Any

import httpx
import pytest
from tests.sdk.embedding import Gated
from tests.sdk.serving import serving

from branchwright.http_api.app import create_app
from branchwright.http_api.security import create_key
from branchwright.http_api.settings import Settings
from branchwright_sdk import (
    AsyncClient,
    Client,
    ConnectionFailed,
    NotAllowed,
    NotAuthenticated,
    Pacing,
    TooManyRequests,
)

KEY, KEY_HASH = create_key()
OTHER_KEY, OTHER_HASH = create_key()
UNKNOWN_KEY, _ = create_key()


def blocking(question: Callable[[Any], Any], address: str, **options: Any) -> Any:
    with Client(address, **options) as client:
        return question(client)


def asynchronous(question: Callable[[Any], Any], address: str, **options: Any) -> Any:
    async def later() -> Any:
        async with AsyncClient(address, **options) as client:
            return await question(client)

    return asyncio.run(later())


Ask = Callable[..., Any]


@pytest.fixture(params=[blocking, asynchronous])
def ask(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> Ask:
    for name in ("BRANCHWRIGHT_API_KEY", "BRANCHWRIGHT_BASE_URL"):
        monkeypatch.delenv(name, raising=False)
    asked: Ask = request.param
    return asked


def with_keys(*hashes: str) -> Any:
    return serving(create_app(Settings(api_key_hashes=hashes)))


def editions(client: Any) -> Any:
    return client.codebook.list_editions()


class Waits:
    """What a client does instead of waiting: it keeps the seconds, and does what the test says meanwhile."""

    def __init__(self, meanwhile: Callable[[], object] = lambda: None) -> None:
        self.seconds: list[float] = []
        self.meanwhile = meanwhile
        self.pacing = Pacing(sleep=self._wait, sleep_async=self._wait_later)

    def _wait(self, seconds: float) -> None:
        self.seconds.append(seconds)
        self.meanwhile()

    async def _wait_later(self, seconds: float) -> None:
        self._wait(seconds)


REFUSED: dict[str, tuple[dict[str, Any], str]] = {
    "no key": ({}, "No key was sent."),
    "wrong key": ({"api_key": UNKNOWN_KEY}, "This key is not one of those in force."),
    "hash for key": ({"api_key": KEY_HASH}, "This key is not one of those in force."),
    "wrong scheme": (
        {"headers": {"Authorization": f"Basic {KEY}"}},
        "The Authorization header must be 'Bearer <key>'.",
    ),
    "no scheme": ({"headers": {"Authorization": KEY}}, "The Authorization header must be 'Bearer <key>'."),
}


@pytest.mark.parametrize(("options", "detail"), list(REFUSED.values()), ids=list(REFUSED))
def test_without_a_key_in_force_the_error_says_why_and_where_a_key_goes(
    ask: Ask, options: dict[str, Any], detail: str
) -> None:
    waits = Waits()
    with with_keys(KEY_HASH) as address, pytest.raises(NotAuthenticated) as caught:
        ask(editions, address, pacing=waits.pacing, **options)
    problem = caught.value
    assert (problem.status, problem.type, problem.detail) == (401, "/problems/unauthorized", detail)
    assert problem.request_id
    assert str(problem) == (
        f"401 A valid API key is needed: {detail} (request {problem.request_id})\n"
        "  A key is passed as api_key, or set as BRANCHWRIGHT_API_KEY."
    )
    assert not any(key in text for key in (KEY, UNKNOWN_KEY) for text in (str(problem), repr(problem)))
    assert waits.seconds == []  # asking again would not help


def test_either_of_two_keys_is_accepted_until_it_is_revoked(
    ask: Ask, monkeypatch: pytest.MonkeyPatch
) -> None:
    with with_keys(KEY_HASH, OTHER_HASH) as address:
        for key in (KEY, OTHER_KEY):
            assert ask(editions, address, api_key=key).items
    with with_keys(OTHER_HASH) as address:
        with pytest.raises(NotAuthenticated, match="not one of those in force"):
            ask(editions, address, api_key=KEY)
        monkeypatch.setenv("BRANCHWRIGHT_API_KEY", OTHER_KEY)
        assert ask(editions, address).items


def test_health_needs_no_key(ask: Ask) -> None:
    with with_keys(KEY_HASH) as address:
        assert ask(lambda client: client.operations.check_live(), address).status == "live"
        assert ask(lambda client: client.operations.check_ready(), address).status == "ready"


def test_a_service_without_keys_answers_this_computer_alone(ask: Ask) -> None:
    with with_keys() as address, pytest.raises(NotAllowed, match="localhost") as caught:
        ask(editions, address, headers={"Host": "elsewhere.test"})
    assert (caught.value.status, caught.value.type) == (403, "/problems/host-not-allowed")


def test_https_to_a_service_that_speaks_http(ask: Ask) -> None:
    with with_keys(KEY_HASH) as address, pytest.raises(ConnectionFailed) as caught:
        ask(editions, address.replace("http:", "https:"), api_key=KEY, max_retries=0)
    assert "no connection to https://127.0.0.1" in str(caught.value)
    assert KEY not in str(caught.value)


def occupied(gated: Gated, address: str) -> threading.Thread:
    """Take the only room there is; the thread ends when the question that has it is answered."""
    asking = threading.Thread(
        target=httpx.post, args=(f"{address}/v1/gates",), kwargs={"json": {"open": True}}
    )
    asking.start()
    assert gated.reached.wait(10)
    return asking


def test_at_the_limit_a_question_is_asked_again_after_the_time_that_the_service_states(ask: Ask) -> None:
    gated = Gated()
    with serving(gated.app) as address:
        occupant = occupied(gated, address)

        def make_room() -> None:
            gated.opened.set()
            occupant.join(10)

        waits = Waits(meanwhile=make_room)
        try:
            assert ask(editions, address, pacing=waits.pacing).items
        finally:
            make_room()
    # the Retry-After of the service, 1 s, and not the client's own first wait of at most 0.25 s
    assert waits.seconds == [1.0]


def test_a_service_that_stays_at_its_limit_is_told_apart(ask: Ask) -> None:
    gated = Gated()
    waits = Waits()
    with serving(gated.app) as address:
        occupant = occupied(gated, address)
        try:
            with pytest.raises(TooManyRequests) as caught:
                ask(editions, address, pacing=waits.pacing)
        finally:
            gated.opened.set()
            occupant.join(10)
    assert (caught.value.status, caught.value.type) == (429, "/problems/over-capacity")
    assert "at its limit of 1 requests at once" in str(caught.value)
    assert waits.seconds == [1.0, 1.0]
