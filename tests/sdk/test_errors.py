"""Every way in which a question goes unanswered raises an error of the SDK, and only such."""

import pickle
from typing import Any

import httpx
import pytest

from .conftest import DESIGN, Service, design

PROBLEM = {
    "type": "http://service.test/problems/invalid-request",
    "title": "The request breaks the contract",
    "status": 422,
    "detail": "one field",
    "instance": "/v1/circuit-designs",
    "errors": [
        {"pointer": "/charger", "message": "no", "code": "c", "given": "6awg", "allowed": ["6 AWG"], "new": 1}
    ],
}


def test_a_problem_is_read_whole(service: Service) -> None:
    response = httpx.Response(
        422, json=PROBLEM, headers={"Content-Type": "application/problem+json", "X-Request-ID": "abc"}
    )
    with pytest.raises(service.sdk.InvalidRequest) as caught:
        service.ask(design, response)
    problem = caught.value
    assert problem.status == 422
    assert problem.type == PROBLEM["type"]
    assert problem.title == PROBLEM["title"]
    assert problem.detail == "one field"
    assert problem.instance == "/v1/circuit-designs"
    assert problem.request_id == "abc"
    expected = service.sdk.FieldError("/charger", "no", "c", given="6awg", allowed=("6 AWG",))
    assert problem.errors == (expected,)
    assert str(problem) == "422 The request breaks the contract: one field (request abc)\n  /charger: no"


@pytest.mark.parametrize(
    ("status", "name"),
    [
        (400, "InvalidRequest"),
        (401, "NotAuthenticated"),
        (403, "NotAllowed"),
        (404, "NotFound"),
        (405, "Problem"),
        (413, "Problem"),
        (422, "InvalidRequest"),
        (429, "TooManyRequests"),
        (500, "ServiceFailed"),
        (503, "ServiceFailed"),
        (599, "ServiceFailed"),
    ],
)
def test_each_status_has_its_class(service: Service, status: int, name: str) -> None:
    with pytest.raises(service.sdk.BranchwrightError) as caught:
        service.ask(design, httpx.Response(status), max_retries=0)
    assert type(caught.value).__name__ == name
    assert isinstance(caught.value, service.sdk.Problem)
    assert (caught.value.status, caught.value.type) == (status, "about:blank")
    assert caught.value.title


@pytest.mark.parametrize(
    "content",
    [
        b"",
        b"<html>Bad gateway</html>",
        b"[]",
        b'"text"',
        b"\xff",
        b"[" * 100_000,
        b'{"title": 3, "errors": {}, "detail": [], "type": null}',
        b'{"errors": ["text", 3, null]}',
        b'{"errors": null}',
    ],
)
def test_a_problem_may_have_any_content(service: Service, content: bytes) -> None:
    with pytest.raises(service.sdk.ServiceFailed) as caught:
        service.ask(design, httpx.Response(500, content=content))
    assert str(caught.value) == "500 Internal Server Error"
    assert caught.value.errors == ()


@pytest.mark.parametrize(
    ("raised", "name"),
    [
        (httpx.ConnectError("refused"), "ConnectionFailed"),
        (httpx.ConnectTimeout("slow"), "ConnectionFailed"),
        (httpx.RemoteProtocolError("gone"), "ConnectionFailed"),
        (httpx.ReadError("broken"), "ConnectionFailed"),
        (httpx.ProxyError("proxy"), "ConnectionFailed"),
        (httpx.ReadTimeout("slow"), "TimedOut"),
        (httpx.WriteTimeout("slow"), "TimedOut"),
        (httpx.PoolTimeout("busy"), "TimedOut"),
        (httpx.DecodingError("not gzip"), "UnexpectedAnswer"),
    ],
)
def test_nothing_of_httpx_leaks(service: Service, raised: Exception, name: str) -> None:
    with pytest.raises(service.sdk.BranchwrightError) as caught:
        service.ask(design, raised, max_retries=0)
    assert type(caught.value).__name__ == name
    assert caught.value.__cause__ is raised
    assert str(raised) in str(caught.value)


def test_a_body_that_is_not_what_its_encoding_says_is_an_error_of_ours(service: Service) -> None:
    # a stream, so that it is decoded while the client reads it rather than here
    response = httpx.Response(200, headers={"Content-Encoding": "gzip"}, stream=Bytes(b"not gzip"))
    with pytest.raises(service.sdk.UnexpectedAnswer, match="cannot be decoded"):
        service.ask(design, response)


class Bytes(httpx.ByteStream):
    pass


def test_errors_survive_pickling(sdk: Any) -> None:
    problem = sdk.InvalidRequest(
        422, "title", detail="d", errors=[sdk.FieldError("/a", "m", "c")], request_id="r"
    )
    for error in (problem, sdk.UnexpectedAnswer("d", 200, "r"), sdk.TimedOut("late")):
        copy = pickle.loads(pickle.dumps(error))  # noqa: S301, our own bytes
        assert type(copy) is type(error)
        assert str(copy) == str(error)
        assert vars(copy) == vars(error)


def test_a_local_error_keeps_what_pydantic_said(service: Service) -> None:
    with pytest.raises(service.sdk.InvalidRequest) as caught:
        service.ask(lambda client: client.circuits.design(**{**DESIGN, "edition": 3}))
    assert type(caught.value.__cause__).__name__ == "ValidationError"
