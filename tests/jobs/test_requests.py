"""Comparisons over HTTP: what is refused and how it is said, and that the SDK asks the same."""

import asyncio
import json
from collections.abc import Awaitable, Callable
from typing import Any

import httpx
import pytest
from tests.checks.circuits import Json
from tests.jobs.comparisons import compared
from tests.jobs.test_published_steps import request, tubing

from branchwright.http_api.app import create_app
from branchwright.http_api.settings import Settings
from branchwright_sdk import AsyncClient, InvalidRequest

HERE = "http://127.0.0.1"
PATH = "/v1/current-comparisons"
BODY = request(tubing(), currents_a=[32, 40])


def through(question: Callable[[httpx.AsyncClient], Awaitable[Any]]) -> Any:
    async def run() -> Any:
        transport = httpx.ASGITransport(create_app(Settings()))
        async with httpx.AsyncClient(transport=transport, base_url=HERE) as http:
            return await question(http)

    return asyncio.run(run())


def posted(body: str) -> httpx.Response:
    async def question(http: httpx.AsyncClient) -> httpx.Response:
        return await http.post(PATH, content=body, headers={"Content-Type": "application/json"})

    answer: httpx.Response = through(question)
    return answer


def errors(**changed: object) -> list[tuple[str, str, str]]:
    """Pointer, code and message of each error that a changed request is refused with."""
    answer = posted(json.dumps({**BODY, **changed}))
    assert answer.status_code == 422, answer.text
    assert answer.headers["content-type"] == "application/problem+json"
    return [(error["pointer"], error["code"], error["message"]) for error in answer.json()["errors"]]


A_CURRENT = "a number, at least 6, at most 80"
A_LIST = "a list, at least 1 long, at most 40 long or null"
HOURS = "a number, more than 0, at most 24 or null"


@pytest.mark.parametrize(
    ("given", "pointer", "code", "said"),
    [
        ([], "/currents_a", "wrong-length", f"{A_LIST} is needed, a list of 0 was given."),
        ([16] * 41, "/currents_a", "wrong-length", f"{A_LIST} is needed, a list of 41 was given."),
        (16, "/currents_a", "wrong-type", f"{A_LIST} is needed, 16 was given."),
        ("16", "/currents_a", "wrong-type", f"{A_LIST} is needed, the text '16' was given."),
        ({"16": 16}, "/currents_a", "wrong-type", f"{A_LIST} is needed, an object was given."),
        ([16, 5], "/currents_a/1", "out-of-range", f"{A_CURRENT} is needed, 5 was given."),
        ([5.999], "/currents_a/0", "out-of-range", f"{A_CURRENT} is needed, 5.999 was given."),
        ([81], "/currents_a/0", "out-of-range", f"{A_CURRENT} is needed, 81 was given."),
        ([-16], "/currents_a/0", "out-of-range", f"{A_CURRENT} is needed, -16 was given."),
        ([True], "/currents_a/0", "wrong-type", f"{A_CURRENT} is needed, true was given."),
        ([None], "/currents_a/0", "wrong-type", f"{A_CURRENT} is needed, null was given."),
        (
            ["16"],
            "/currents_a/0",
            "wrong-type",
            f"{A_CURRENT} is needed, the text '16' was given; did you mean 16 without quotation marks?",
        ),
    ],
)
def test_currents_that_cannot_be_compared(given: object, pointer: str, code: str, said: str) -> None:
    assert errors(currents_a=given) == [(pointer, code, said)]


@pytest.mark.parametrize(
    ("given", "code", "said"),
    [
        (0, "out-of-range", "0 was given."),
        (-1, "out-of-range", "-1 was given."),
        (24.001, "out-of-range", "24.001 was given."),
        (25, "out-of-range", "25 was given."),
        (True, "wrong-type", "true was given."),
        ([8], "wrong-type", "a list of 1 was given."),
        ("8", "wrong-type", "the text '8' was given; did you mean 8 without quotation marks?"),
        ("22:00", "wrong-type", "the text '22:00' was given."),
    ],
)
def test_nights_of_no_length(given: object, code: str, said: str) -> None:
    assert errors(night_h=given) == [("/night_h", code, f"{HOURS} is needed, {said}")]


@pytest.mark.parametrize("field", ["currents_a", "night_h"])
@pytest.mark.parametrize("number", ["NaN", "Infinity", "-Infinity", "1e999"])
def test_what_is_no_json_number(field: str, number: str) -> None:
    value = f"[{number}]" if field == "currents_a" else number
    answer = posted(json.dumps({**BODY, field: "HERE"}).replace('"HERE"', value))
    assert answer.status_code == 400, answer.text


def test_the_charging_current_is_what_is_compared_and_not_stated() -> None:
    ((pointer, code, said),) = errors(charger={**BODY["charger"], "charging_current_a": 48})
    assert (pointer, code) == ("/charger/charging_current_a", "unknown-field")
    assert said == "'charging_current_a' is not a field here."


def test_near_misses_are_named() -> None:
    assert errors(currents=[16]) == [
        ("/currents", "unknown-field", "'currents' is not a field here; did you mean 'currents_a'?")
    ]
    assert errors(night_hours=8) == [
        ("/night_hours", "unknown-field", "'night_hours' is not a field here; did you mean 'night_h'?")
    ]


def test_a_request_without_a_charger_is_told_so() -> None:
    body = {name: value for name, value in BODY.items() if name != "charger"}
    answer = posted(json.dumps(body))
    assert [(error["pointer"], error["code"]) for error in answer.json()["errors"]] == [
        ("/charger", "missing")
    ]


@pytest.mark.parametrize("currents", [[40, 32], [32, 40, 32.0, 40], [32, 40]])
def test_currents_in_any_order_and_more_than_once_are_no_error(currents: list[float]) -> None:
    answer = posted(json.dumps({**BODY, "currents_a": currents}))
    assert answer.status_code == 200
    assert [row["charging_current_a"] for row in answer.json()["rows"]] == [32, 40]


def test_the_service_answers_what_the_function_does() -> None:
    assert posted(json.dumps(BODY)).json() == compared(BODY)


def test_the_sdk_asks_the_same() -> None:
    async def question(http: httpx.AsyncClient) -> Json:
        client = AsyncClient(HERE, http_client=http)
        answer = await client.circuits.compare_currents(**BODY)
        assert [row.charging_current_a for row in answer.rows] == [32, 40]
        again = await client.circuits.compare_currents_from(BODY)
        assert again == answer
        with pytest.raises(InvalidRequest, match="/night_h"):
            await client.circuits.compare_currents(**BODY, night_h=0)
        return dict(answer.model_dump(mode="json", by_alias=True))

    assert through(question) == compared(BODY)
