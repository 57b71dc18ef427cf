"""Questions with long bodies: their forms, their limits, their room, and that nobody else has to wait for them."""

from __future__ import annotations

import asyncio
import json
import threading
from typing import Annotated, Any, ClassVar

import httpx
import pytest
from fastapi import APIRouter, Query
from pydantic import BaseModel, ConfigDict, FailFast, Field
from tests.http_api.conftest import Client
from tests.http_api.test_refusals import JSON, refused

from branchwright.http_api.app import create_app
from branchwright.http_api.long_questions import ANSWERED_AT_ONCE, LongQuestionRoute
from branchwright.http_api.problems import UNREADABLE_BODY, ProblemError
from branchwright.http_api.routes import JsonQuestionRoute
from branchwright.http_api.settings import Settings

CSV = {"Content-Type": "text/csv"}


class Sum(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True)

    values: Annotated[list[Annotated[float, Field(strict=True)]], FailFast()]
    label: str | None = None


class How(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True)

    column: Annotated[Annotated[str, Field(min_length=1)] | None, Field(description="A name.")] = None
    first: Annotated[int, Field(ge=0)] = 0
    unit: str = "Wh"


class Answer(BaseModel):
    total: float
    how: dict[str, Any]
    verdict: str


def sum_csv(body: bytes, query: How) -> Answer:
    try:
        rows = body.decode().split()
    except UnicodeDecodeError as error:
        raise ProblemError(UNREADABLE_BODY, f"not UTF-8 at byte {error.start}") from error
    return Answer(total=sum(map(float, rows)), how=query.model_dump(), verdict="fail")


class SumRoute(LongQuestionRoute):
    other_bodies: ClassVar = {"text/csv": sum_csv}


router = APIRouter(route_class=SumRoute)


@router.post("/v1/sums")
def add(body: Sum, query: Annotated[How, Query()]) -> Answer:
    return Answer(total=sum(body.values), how=query.model_dump(), verdict="undetermined")


plain = APIRouter(route_class=LongQuestionRoute)
at_work: list[int] = []
most_at_work: list[int] = []
released = threading.Event()


@plain.post("/v1/long-waits")
def wait_long(body: Sum) -> Answer:
    """Keep a thread busy until it is released, and note how many do so at once."""
    at_work.append(1)
    most_at_work.append(len(at_work))
    assert released.wait(30)
    at_work.pop()
    return Answer(total=0, how={}, verdict="fail")


def client_with(**settings: Any) -> Client:
    return Client(create_app(Settings(**settings), extra_routers=[router, plain]), "http://127.0.0.1")


@pytest.fixture(scope="module")
def client() -> Client:
    return client_with()


def test_each_form_is_answered(client):
    assert client.post("/v1/sums", json={"values": [1, 2]}).json()["total"] == 3
    assert client.post("/v1/sums", content=b"1\n2.5\n", headers=CSV).json()["total"] == 3.5


def test_a_form_that_is_not_read_is_named_with_those_that_are(client):
    problem = refused(
        client.post("/v1/sums", content=b"<a/>", headers={"Content-Type": "application/xml"}),
        415,
        "unsupported-media-type",
    )
    assert problem["detail"] == "Send the body with Content-Type: application/json or text/csv, in UTF-8."


@pytest.mark.parametrize(
    "headers",
    [
        {},
        {"Content-Type": "text/plain"},
        {"Content-Type": "text/csv; charset=latin-1"},
        {"Content-Type": "text/csv-schema"},
        [("Content-Type", "text/csv"), ("Content-Type", "application/json")],
        CSV | {"Content-Encoding": "gzip"},
        CSV | {"Content-Encoding": "br"},
        CSV | {"Content-Encoding": "deflate, identity"},
    ],
)
def test_other_media_types_and_any_encoding_are_refused(client, headers):
    refused(client.post("/v1/sums", content=b"1", headers=headers), 415, "unsupported-media-type")


@pytest.mark.parametrize("content_type", ["text/csv", "Text/CSV", "text/csv; charset=UTF-8; header=present"])
def test_csv_may_name_its_charset(client, content_type):
    assert client.post("/v1/sums", content=b"1", headers={"Content-Type": content_type}).status_code == 200


def test_accept_is_heeded(client):
    answer = client.post("/v1/sums", content=b"1", headers=CSV | {"Accept": "text/csv"})
    refused(answer, 406, "not-acceptable")


def test_what_cannot_be_read_is_a_problem_of_its_own(client):
    problem = refused(client.post("/v1/sums", content=b"1\n\xff", headers=CSV), 400, "unreadable-body")
    assert problem["detail"] == "not UTF-8 at byte 2"
    refused(client.post("/v1/sums", content=b"{", headers=JSON), 400, "invalid-json")
    refused(client.post("/v1/sums", content=b'{"values": [NaN]}', headers=JSON), 400, "invalid-json")


def test_the_query_comes_with_every_form(client):
    params = {"column": "12", "first": "3", "unit": ""}
    for options in ({"content": b"1", "headers": CSV}, {"json": {"values": []}}):
        answer = client.post("/v1/sums", params=params, **options)
        assert answer.json()["how"] == {"column": "12", "first": 3, "unit": ""}


@pytest.mark.parametrize(
    ("query", "pointer", "code"),
    [
        ("colum=a", "query:colum", "unknown-field"),
        ("column=a&column=b", "query:column", "invalid"),
        ("first=-1", "query:first", "out-of-range"),
        ("first=three", "query:first", "wrong-type"),
        ("first=", "query:first", "wrong-type"),
    ],
)
def test_a_query_that_does_not_fit_is_named_before_the_body_is_read(client, query, pointer, code):
    problem = refused(client.post(f"/v1/sums?{query}", content=b"\xff", headers=CSV), 422, "invalid-request")
    assert [(error["pointer"], error["code"]) for error in problem["errors"]] == [(pointer, code)]


def test_what_a_query_may_say_is_never_null(client):
    problem = client.post("/v1/sums?column=", content=b"1", headers=CSV).json()
    assert problem["errors"][0]["allowed"] == ["text, at least 1 characters long"]


def test_a_near_miss_in_the_query_is_answered_with_a_suggestion(client):
    problem = client.post("/v1/sums?colum=a", content=b"1", headers=CSV).json()
    assert problem["errors"][0]["message"] == "'colum' is not a field here; did you mean 'column'?"


def test_the_verdict_is_counted_whatever_the_form(client):
    for options in ({"content": b"1", "headers": CSV}, {"json": {"values": []}}):
        client.post("/v1/sums", **options)
    counted = client.get("/metrics").text
    for verdict in ("fail", "undetermined"):
        assert f'branchwright_verdicts_total{{operation="add_v1_sums_post",verdict="{verdict}"}}' in counted


def test_the_limits_are_those_of_interval_data():
    small = client_with(interval_data_limit_bytes=100, body_limit_bytes=10)
    assert small.post("/v1/sums", content=b"1" * 100, headers=CSV).status_code == 200
    problem = refused(small.post("/v1/sums", content=b"1" * 101, headers=CSV), 413, "body-too-large")
    assert problem["detail"] == "The body is longer than the limit of 100 bytes."


def test_the_limit_is_32_mebibytes(client):
    # docs: api.md, Conventions: interval data 32 MiB.
    limit = 32 * 1024 * 1024
    assert client.post("/v1/sums", content=b"1" + b" " * (limit - 1), headers=CSV).json()["total"] == 1
    refused(client.post("/v1/sums", content=b" " * (limit + 1), headers=CSV), 413, "body-too-large")


def test_a_year_of_readings_is_within_the_number_of_values_and_a_million_is_not(client):
    assert client.post("/v1/sums", json={"values": [1] * 35_040}).json()["total"] == 35_040
    body = b'{"values": [' + b"1," * 1_000_000 + b"1]}"
    problem = refused(client.post("/v1/sums", content=body, headers=JSON), 413, "body-too-large")
    assert problem["detail"] == "The body has more than 1000000 values."


@pytest.mark.parametrize("nested", [False, True])
def test_an_object_with_more_members_than_any_question_has_is_refused_at_once(client, nested):
    def body(count: int) -> dict[str, Any]:
        many = {f"field {number}": number for number in range(count)}
        return {"values": [], "label": [[many]]} if nested else many

    problem = refused(client.post("/v1/sums", json=body(1_001)), 413, "body-too-large")
    assert problem["detail"] == "An object in the body has more than 1000 members."
    assert client.post("/v1/sums", json=body(1_000)).status_code == 422


def test_a_hundred_thousand_wrong_values_are_one_place(client):
    problem = refused(client.post("/v1/sums", json={"values": ["x"] * 100_000}), 422, "invalid-request")
    assert [error["pointer"] for error in problem["errors"]] == ["/values/0"]


def test_a_chunked_gigabyte_is_refused_at_the_limit(client):
    megabyte = b" " * 1_000_000
    taken = 0

    async def gigabyte():
        nonlocal taken
        for _ in range(1_000):
            taken += len(megabyte)
            yield megabyte

    async def send():
        transport = httpx.ASGITransport(app=client.app)
        async with httpx.AsyncClient(transport=transport, base_url=client.base_url) as http:
            return await http.post("/v1/sums", content=gigabyte(), headers=CSV)

    refused(asyncio.run(send()), 413, "body-too-large")
    assert taken <= 35_000_000


def together(client: Client, count: int, content: bytes, until_held: int) -> list[httpx.Response]:
    """Send bodies whose ends wait until ``until_held`` of them have come so far or been refused."""

    async def run() -> list[httpx.Response]:
        transport = httpx.ASGITransport(app=client.app)
        begun = 0
        may_end = asyncio.Event()

        async def body():
            nonlocal begun
            yield content
            begun += 1
            if begun == until_held:
                may_end.set()
            await may_end.wait()
            yield b" "

        async with httpx.AsyncClient(transport=transport, base_url=client.base_url) as http:
            return await asyncio.gather(
                *(http.post("/v1/sums", content=body(), headers=CSV) for _ in range(count))
            )

    return asyncio.run(run())


def test_only_so_many_bytes_are_held_at_once():
    # Room for four of the longest bodies: the fifth is refused, and not kept waiting.
    client = client_with(interval_data_limit_bytes=1_000)
    answers = together(client, 5, b"1".ljust(900), until_held=4)
    assert sorted(answer.status_code for answer in answers) == [200, 200, 200, 200, 429]
    (full,) = [answer for answer in answers if answer.status_code == 429]
    refused(full, 429, "over-capacity")
    assert int(full.headers["retry-after"]) > 0
    # What was held is given back, by those that were refused too.
    assert {answer.status_code for answer in together(client, 4, b"1".ljust(900), until_held=4)} == {200}
    for _ in range(10):
        assert client.post("/v1/sums", content=b"1" * 1_001, headers=CSV).status_code == 413
        assert client.post("/v1/sums", content=b"\xff" * 900, headers=CSV).status_code == 400
    assert {answer.status_code for answer in together(client, 4, b"1".ljust(900), until_held=4)} == {200}


def test_only_so_many_are_worked_on_at_once_and_small_questions_do_not_wait(client):
    at_work.clear()
    most_at_work.clear()
    released.clear()

    async def run() -> list[int]:
        transport = httpx.ASGITransport(app=client.app)
        async with httpx.AsyncClient(transport=transport, base_url=client.base_url) as http:
            long = [
                asyncio.create_task(http.post("/v1/long-waits", json={"values": []}))
                for _ in range(ANSWERED_AT_ONCE + 3)
            ]
            while len(at_work) < ANSWERED_AT_ONCE:
                await asyncio.sleep(0.001)
            await asyncio.sleep(0.05)
            # Were the long ones at work on the event loop, this would never be answered.
            small = await http.get("/v1/editions")
            released.set()
            return [small.status_code, *(answer.status_code for answer in await asyncio.gather(*long))]

    assert asyncio.run(run()) == [200] * (ANSWERED_AT_ONCE + 4)
    assert max(most_at_work) == ANSWERED_AT_ONCE


def test_an_answer_that_takes_long_is_worked_on_in_a_thread_and_a_quick_one_is_not():
    threads: list[threading.Thread] = []
    both = APIRouter(route_class=JsonQuestionRoute)

    @both.post("/v1/quick-sums")
    async def quick(body: Sum) -> Answer:
        threads.append(threading.current_thread())
        return Answer(total=sum(body.values), how={}, verdict="fail")

    @both.post("/v1/slow-sums")
    def slow(body: Sum) -> Answer:
        threads.append(threading.current_thread())
        return Answer(total=sum(body.values), how={}, verdict="undetermined")

    asked = Client(create_app(Settings(), extra_routers=[both]), "http://127.0.0.1")
    for path in ("/v1/quick-sums", "/v1/slow-sums"):
        assert asked.post(path, json={"values": [1, 2]}).json()["total"] == 3
        # The limits are those of small questions.
        refused(asked.post(path, content=b" " * 1_048_577, headers=JSON), 413, "body-too-large")
        refused(asked.post(path, json={"values": [1] * 10_001}), 413, "body-too-large")
    assert [thread is threading.current_thread() for thread in threads] == [True, False]
    assert 'verdict="undetermined"' in asked.get("/metrics").text


def test_a_question_that_is_cancelled_keeps_its_place_until_its_thread_ends(client):
    at_work.clear()
    most_at_work.clear()
    released.clear()

    async def run() -> None:
        transport = httpx.ASGITransport(app=client.app)
        async with httpx.AsyncClient(transport=transport, base_url=client.base_url) as http:
            first = [
                asyncio.create_task(http.post("/v1/long-waits", json={"values": []}))
                for _ in range(ANSWERED_AT_ONCE)
            ]
            while len(at_work) < ANSWERED_AT_ONCE:
                await asyncio.sleep(0.001)
            for task in first:
                task.cancel()
            second = asyncio.create_task(http.post("/v1/long-waits", json={"values": []}))
            await asyncio.sleep(0.05)
            assert len(at_work) == ANSWERED_AT_ONCE
            released.set()
            assert (await second).status_code == 200
            ends = await asyncio.gather(*first, return_exceptions=True)
            assert {type(end) for end in ends} == {asyncio.CancelledError}

    asyncio.run(run())
    assert max(most_at_work) == ANSWERED_AT_ONCE


def test_what_fails_in_a_thread_is_a_problem_without_a_trace():
    failing = APIRouter(route_class=LongQuestionRoute)

    @failing.post("/v1/broken-sums")
    def fail(body: Sum) -> Answer:
        raise RuntimeError("the secret is 4711")

    broken_client = Client(create_app(Settings(), extra_routers=[failing]), "http://127.0.0.1")
    problem = refused(broken_client.post("/v1/broken-sums", json={"values": []}), 500, "internal-error")
    assert "4711" not in json.dumps(problem)


@pytest.mark.parametrize("wrong", ["no model", "another name", "no answer"])
def test_an_endpoint_says_what_it_takes_and_gives(wrong):
    def no_model(body: list[float]) -> Answer: ...

    def another_name(question: Sum) -> Answer: ...

    def no_answer(body: Sum): ...

    made = APIRouter(route_class=LongQuestionRoute)
    with pytest.raises(TypeError, match="must"):
        made.post("/v1/wrong", response_model=None)(
            {"no model": no_model, "another name": another_name, "no answer": no_answer}[wrong]
        )
