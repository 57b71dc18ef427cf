"""When a question is asked again, and after how long."""

from datetime import UTC, datetime
from email.utils import format_datetime
from typing import Any

import httpx
import pytest

from .conftest import DESIGN_ANSWER, Service, design

REFUSED = httpx.ConnectError("refused")
# A process that is killed: before it has read the question, while it answers, and after a part of the answer.
BROKEN = [
    httpx.WriteError("broken pipe"),
    httpx.ReadError("connection reset by peer"),
    httpx.RemoteProtocolError("server disconnected without sending a response"),
]


@pytest.mark.parametrize("failure", [REFUSED, *BROKEN, 429, 502, 503, 504])
def test_a_question_is_asked_again(service: Service, failure: Exception | int) -> None:
    failures = [httpx.Response(failure) if isinstance(failure, int) else failure for _ in range(2)]
    answer = service.ask(design, *failures, DESIGN_ANSWER)
    assert answer.verdict == "no-failure-found"
    assert len(service.requests) == 3
    assert len({request.content for request in service.requests}) == 1
    assert service.waits == [0.25, 0.5]


def test_after_the_last_retry_the_failure_is_raised(service: Service) -> None:
    with pytest.raises(service.sdk.ServiceFailed):
        service.ask(design, *[httpx.Response(503)] * 3)
    with pytest.raises(service.sdk.ConnectionFailed):
        service.ask(design, *[REFUSED] * 3)
    assert len(service.requests) == 6


def test_the_number_of_retries_can_be_set(service: Service) -> None:
    with pytest.raises(service.sdk.ServiceFailed):
        service.ask(design, *[httpx.Response(503)] * 8, max_retries=7)
    # doubling from 0.25 s to the longest wait of 4 s, with no randomness taken off
    assert service.waits == [0.25, 0.5, 1, 2, 4, 4, 4]
    service.waits.clear()
    with pytest.raises(service.sdk.ServiceFailed):
        service.ask(lambda client: design(client.with_options(max_retries=0)), httpx.Response(503))
    assert service.waits == []


@pytest.mark.parametrize("failure", [400, 401, 404, 422, 500, 501, httpx.ReadTimeout("slow")])
def test_what_would_not_change_is_not_asked_again(service: Service, failure: Exception | int) -> None:
    with pytest.raises(service.sdk.BranchwrightError):
        service.ask(design, httpx.Response(failure) if isinstance(failure, int) else failure)
    assert len(service.requests) == 1


@pytest.mark.parametrize("random", [0.0, 0.5, 0.999999])
def test_up_to_half_of_a_wait_is_left_to_chance(service: Service, random: float) -> None:
    service.random = random
    service.ask(design, httpx.Response(503), DESIGN_ANSWER)
    assert service.waits == [pytest.approx(0.25 * (1 - random / 2))]
    assert 0.125 < service.waits[0] <= 0.25


def date(service: Service, seconds: float) -> str:
    return format_datetime(datetime.fromtimestamp(service.now + seconds, UTC), usegmt=True)


def test_retry_after_in_seconds_and_as_a_date(service: Service) -> None:
    # RFC 9110 section 10.2.3 allows both forms
    answers = [httpx.Response(429, headers={"Retry-After": value}) for value in ("7", date(service, 12))]
    service.ask(design, *answers, DESIGN_ANSWER)
    assert service.waits == [7, 12]


@pytest.mark.parametrize("value", ["0", "soon", "", "-5", "1.5.2", "Wed, 99 Foo 2026 25:00:00 GMT"])
def test_a_retry_after_that_says_nothing_leaves_our_own_wait(service: Service, value: str) -> None:
    service.ask(design, httpx.Response(503, headers={"Retry-After": value}), DESIGN_ANSWER)
    assert service.waits == [0.25]


def test_a_date_that_has_passed_leaves_our_own_wait(service: Service) -> None:
    service.ask(design, httpx.Response(503, headers={"Retry-After": date(service, -3600)}), DESIGN_ANSWER)
    assert service.waits == [0.25]


def test_a_date_without_a_zone_is_utc(sdk: Any) -> None:
    pacing = sdk.Pacing(clock=lambda: datetime(2026, 1, 1, tzinfo=UTC).timestamp(), random=lambda: 0.0)
    assert pacing.wait_s(0, "Thu, 01 Jan 2026 00:00:09 -0000") == 9


def test_who_asks_for_too_long_a_wait_is_not_asked_again(service: Service) -> None:
    with pytest.raises(service.sdk.TooManyRequests):
        service.ask(design, httpx.Response(429, headers={"Retry-After": "31"}))
    assert service.waits == []
    with pytest.raises(service.sdk.TooManyRequests):
        service.ask(design, httpx.Response(429, headers={"Retry-After": date(service, 86400)}))


def test_the_same_request_id_goes_with_every_attempt(service: Service) -> None:
    def question(client: Any) -> Any:
        return design(client.with_options(headers={"X-Request-ID": "mine"}))

    service.ask(question, REFUSED, DESIGN_ANSWER)
    assert [request.headers["X-Request-ID"] for request in service.requests] == ["mine", "mine"]
