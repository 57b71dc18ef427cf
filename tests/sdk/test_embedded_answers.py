"""The service in the caller's process answers as a served one does, and fails as it does."""

import asyncio
from collections.abc import Iterator
from typing import Any

import httpx
import pytest
from tests.contract.document import OPERATIONS, Operation
from tests.sdk.embedding import DESIGN
from tests.sdk.serving import serving

from branchwright.checks import circuits
from branchwright.http_api import app
from branchwright.http_api.app import create_app, create_embedded_app
from branchwright.http_api.settings import Settings
from branchwright_sdk import (
    AsyncClient,
    BranchwrightError,
    Client,
    InvalidRequest,
    NotConfigured,
    NotFound,
    ServiceFailed,
    UnexpectedAnswer,
)
from branchwright_sdk.embedded import Blocking, InProcess

# Of a response over HTTP, what the server adds, and what is different each time.
OF_THE_SERVER = {"date", "connection", "x-request-id"}


@pytest.fixture(scope="module")
def address() -> Iterator[str]:
    with serving(create_app(Settings())) as base_url:
        yield base_url


def questions() -> Iterator[Any]:
    """Every method of the SDK, with every example that the document shows of its operation."""
    for operation in OPERATIONS.values():
        names = operation.description["x-client"]
        if operation.method == "post":
            for name, body in operation.body_examples.items():
                call = (names["resource"], f"{names['method']}_from", (body,), {})
                yield pytest.param(*call, id=f"{operation.name}-{name}")
                yield pytest.param(
                    names["resource"], names["method"], (), body, id=f"{operation.name}-{name}-kw"
                )
            for media_type, other in names.get("bodies", {}).items():
                for name, text in operation.examples_in(media_type).items():
                    yield pytest.param(
                        names["resource"],
                        other["method"],
                        (text.encode(),),
                        {},
                        id=f"{other['method']}-{name}",
                    )
        else:
            yield pytest.param(
                names["resource"], names["method"], (), path_examples(operation), id=operation.name
            )


def path_examples(operation: Operation) -> dict[str, str]:
    return {
        parameter["name"]: parameter["schema"]["examples"][0]
        for parameter in operation.description.get("parameters", [])
        if parameter["in"] == "path"
    }


def call(client: Any, resource: str, method: str, arguments: Any, keywords: Any) -> Any:
    return getattr(getattr(client, resource).with_raw_response, method)(*arguments, **keywords)


def test_every_method_is_asked_below() -> None:
    asked = {tuple(question.values[:2]) for question in questions()}
    with Client.embedded() as client:
        offered = {
            (resource, method)
            for resource in vars(client)
            if not resource.startswith("_")
            for method in vars(getattr(client, resource).with_raw_response)
        }
    assert asked == offered


@pytest.mark.parametrize(("resource", "method", "arguments", "keywords"), list(questions()))
def test_an_embedded_service_answers_as_a_served_one(
    address: str, resource: str, method: str, arguments: Any, keywords: Any
) -> None:
    question = (resource, method, arguments, keywords)

    async def later() -> Any:
        async with AsyncClient.embedded() as client:
            return await call(client, *question)

    with Client(address) as client:
        served = call(client, *question)
    with Client.embedded() as client:
        embedded = call(client, *question)
    assert served.status_code == 200
    for answer in (embedded, asyncio.run(later())):
        assert answer.status_code == 200
        assert answer.content == served.content
        assert answer.parse() == served.parse()
        assert answer.request_id
        headers = [
            {name: value for name, value in response.headers.items() if name not in OF_THE_SERVER}
            for response in (answer, served)
        ]
        assert headers[0] == headers[1]


RAW: dict[str, dict[str, Any]] = {
    "no JSON": {"content": b"{", "headers": {"Content-Type": "application/json"}},
    "no field": {"json": {}},
    "wrong fields": {"json": {**DESIGN, "edition": "nec-1897", "colour": "red"}},
    "too long": {"content": b" " * 2_000_000, "headers": {"Content-Type": "application/json"}},
    "no media type": {"content": b"{}"},
    "no answer that is accepted": {"json": DESIGN, "headers": {"Accept": "text/html"}},
    "wrong method": {"method": "PUT", "json": DESIGN},
    "wrong path": {"url": "/v1/circuit-design", "json": DESIGN},
}


@pytest.mark.parametrize("changes", list(RAW.values()), ids=list(RAW))
def test_an_embedded_service_refuses_as_a_served_one(address: str, changes: dict[str, Any]) -> None:
    request = {"method": "POST", "url": "/v1/circuit-designs", **changes}
    with httpx.Client(base_url=address) as http:
        served = http.request(**request)
    with httpx.Client(
        transport=Blocking(InProcess(create_embedded_app())), base_url="http://any.test"
    ) as http:
        embedded = http.request(**request)
    assert embedded.status_code == served.status_code >= 400
    assert embedded.headers["Content-Type"] == served.headers["Content-Type"] == "application/problem+json"
    assert embedded.headers.get("Allow") == served.headers.get("Allow")
    assert embedded.json() == served.json()


def problem_of(client: Client, question: Any) -> dict[str, Any]:
    with client, pytest.raises(BranchwrightError) as caught:
        question(client)
    members = vars(caught.value)
    return {"class": type(caught.value), **members, "request_id": bool(members["request_id"])}


@pytest.mark.parametrize(
    ("error", "question"),
    [
        (InvalidRequest, lambda client: client.circuits.design_from({**DESIGN, "edition": "nec-1897"})),
        (InvalidRequest, lambda client: client.codebook.list_editions(limit=1000)),
        (NotFound, lambda client: client.codebook.get_rule(rule="raceway-fil")),
    ],
)
def test_an_embedded_service_raises_what_a_served_one_raises(
    address: str, error: type, question: Any
) -> None:
    problem = problem_of(Client.embedded(), question)
    assert problem["class"] is error
    assert problem["errors"]
    assert problem == problem_of(Client(address), question)


def test_a_fault_of_the_service_is_the_same_problem_as_over_http(
    address: str, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    def fault(body: object) -> None:
        raise RuntimeError("the secret is 4711")

    monkeypatch.setattr(circuits, "design", fault)
    headers = {"X-Request-ID": "mine"}
    problems = []
    for client in (Client.embedded(headers=headers), Client(address, headers=headers)):
        with client, pytest.raises(ServiceFailed) as caught:
            client.circuits.design(**DESIGN)
        problems.append(vars(caught.value))
        assert "4711" not in str(caught.value)
    assert problems[0] == problems[1]
    assert (problems[0]["status"], problems[0]["request_id"]) == (500, "mine")
    # the cause is in the log of whoever keeps one
    assert [record.name for record in caplog.records if "4711" in str(record.exc_info)] == [
        "branchwright.errors",
        "branchwright.errors",
    ]

    async def later() -> None:
        async with AsyncClient.embedded(headers=headers) as client:
            await client.circuits.design(**DESIGN)

    with pytest.raises(ServiceFailed) as caught:
        asyncio.run(later())
    assert vars(caught.value) == problems[0]


def test_an_answer_that_breaks_off_is_an_error_of_ours(monkeypatch: pytest.MonkeyPatch) -> None:
    async def breaks_off(scope: Any, receive: Any, send: Any) -> None:
        await send({"type": "http.response.start", "status": 200, "headers": []})
        await send({"type": "http.response.body", "body": b'{"status": ', "more_body": True})
        raise RuntimeError("the secret is 4711")

    monkeypatch.setattr(app, "create_embedded_app", lambda: breaks_off)
    with Client.embedded() as client, pytest.raises(UnexpectedAnswer) as caught:
        client.operations.check_live()
    assert "4711" not in str(caught.value)


@pytest.mark.parametrize("options", [{"timeout": 0}, {"headers": {"a b": "c"}}])
def test_options_that_cannot_work_are_refused(options: dict[str, Any]) -> None:
    with pytest.raises(NotConfigured):
        Client.embedded(**options)


def test_headers_and_views() -> None:
    with Client.embedded(headers={"X-Request-ID": "mine"}) as client:
        assert client.codebook.with_raw_response.list_editions().request_id == "mine"
        view = client.with_options(headers={"X-Request-ID": "other"})
        first = view.codebook.with_raw_response.list_editions()
        assert first.request_id == "other"
        known = view.with_options(headers={"If-None-Match": first.headers["ETag"]})
        assert known.codebook.with_raw_response.list_editions().status_code == 304
        view.close()
        assert client.operations.check_ready().status == "ready"
