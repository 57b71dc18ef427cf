"""Every status that the document gives for an operation is produced here, by one request for each pair.

The pairs come from the committed document: a newly documented status without a recipe fails.
"""

import asyncio
from collections.abc import Callable
from typing import Any

import httpx
import pytest
from tests.contract.client import Client
from tests.contract.document import OPERATIONS, Operation, conforms

from branchwright.http_api import health
from branchwright.http_api.v1 import circuits, codebook, current_comparisons

JSON = {"Content-Type": "application/json"}
PAIRS = [(operation, status) for operation in OPERATIONS.values() for status in operation.statuses]
EXAMPLES = {
    operation.name: next(iter(operation.body_examples.values()), None) for operation in OPERATIONS.values()
}

Recipe = Callable[[Operation, Callable[..., Client], pytest.MonkeyPatch], httpx.Response]


def ask(client: Client, operation: Operation, **options: Any) -> httpx.Response:
    """Send the documented example of an operation, or what ``options`` put in its place."""
    if operation.method == "post" and "content" not in options:
        options["json"] = EXAMPLES[operation.name]
    return client.request(operation.method, operation.example_path, **options)


def answered(operation, make_client, monkeypatch):
    return ask(make_client(), operation)


def kept_by_the_caller(operation, make_client, monkeypatch):
    client = make_client()
    etag = ask(client, operation).headers["etag"]
    return ask(client, operation, headers={"If-None-Match": etag})


def not_json(operation, make_client, monkeypatch):
    return ask(make_client(), operation, content=b'{"edition": NaN}', headers=JSON)


def without_a_key(operation, make_client, monkeypatch):
    return ask(make_client(), operation, headers={"Authorization": ""})


def for_another_host(operation, make_client, monkeypatch):
    return ask(make_client(api_key_hashes=()), operation, headers={"Host": "attacker.example"})


def for_an_unknown_name(operation, make_client, monkeypatch):
    return make_client().request(operation.method, operation.path.replace("{", "").replace("}", ""))


def by_another_method(operation, make_client, monkeypatch):
    return make_client().request("PATCH", operation.example_path)


def in_another_form(operation, make_client, monkeypatch):
    return ask(make_client(), operation, headers={"Accept": "text/html"})


def too_large(operation, make_client, monkeypatch):
    return ask(make_client(body_limit_bytes=100), operation)


def as_text(operation, make_client, monkeypatch):
    return ask(make_client(), operation, content=b"{}", headers={"Content-Type": "text/plain"})


def beside_the_schema(operation, make_client, monkeypatch):
    if operation.method == "post":
        return ask(make_client(), operation, content=b"{}", headers=JSON)
    return ask(make_client(), operation, params={"limit": 0})


def over_the_limit(operation, make_client, monkeypatch):
    """Ask while another request holds the only place: one whose body does not end before this is answered."""

    async def both(http: httpx.AsyncClient) -> httpx.Response:
        begun, may_end = asyncio.Event(), asyncio.Event()

        async def endless_body():
            begun.set()
            yield b"{"
            await may_end.wait()

        slow = asyncio.create_task(http.post("/v1/circuit-designs", content=endless_body(), headers=JSON))
        await begun.wait()
        refused = await http.request(operation.method, operation.example_path, json=EXAMPLES[operation.name])
        may_end.set()
        assert (await slow).status_code == 400
        return refused

    return make_client(concurrency_limit=1).run(both)


def in_a_broken_service(operation, make_client, monkeypatch):
    def broken(*_: object, **__: object) -> None:
        raise RuntimeError("the secret is 4711")

    monkeypatch.setattr(circuits.circuits, "design", broken)
    monkeypatch.setattr(circuits.circuits, "review", broken)
    monkeypatch.setattr(current_comparisons.current_comparison, "compare", broken)
    monkeypatch.setattr(codebook, "_paged", broken)
    monkeypatch.setattr(codebook, "_edition", broken)
    monkeypatch.setattr(codebook, "_RULES", None)
    monkeypatch.setattr(health, "Health", broken)
    answer = ask(make_client(), operation)
    assert "4711" not in answer.text
    return answer


def while_draining(operation, make_client, monkeypatch):
    client = make_client()
    client.app.state.draining = True
    return ask(client, operation)


RECIPES: dict[int, Recipe] = {
    200: answered,
    304: kept_by_the_caller,
    400: not_json,
    401: without_a_key,
    403: for_another_host,
    404: for_an_unknown_name,
    405: by_another_method,
    406: in_another_form,
    413: too_large,
    415: as_text,
    422: beside_the_schema,
    429: over_the_limit,
    500: in_a_broken_service,
    503: while_draining,
}


@pytest.mark.parametrize(
    ("operation", "status"), PAIRS, ids=[f"{operation.name}-{status}" for operation, status in PAIRS]
)
def test_every_documented_status_is_produced_as_described(operation, status, make_client, monkeypatch):
    answer = RECIPES[status](operation, make_client, monkeypatch)
    body = conforms(operation, status, answer)
    if status >= 400:
        assert body["status"] == status
        assert body["title"] == operation.response(status)["description"]


UNAFFECTED = [
    (operation, status)
    for operation in OPERATIONS.values()
    for status in (401, 406, 422, 429, 503)
    if status not in operation.statuses
]


@pytest.mark.parametrize(
    ("operation", "status"),
    UNAFFECTED,
    ids=[f"{operation.name}-{status}" for operation, status in UNAFFECTED],
)
def test_where_a_refusal_is_not_documented_the_request_is_answered(
    operation, status, make_client, monkeypatch
):
    """Health without a key, at the limit and while draining; a query where there are no parameters."""
    conforms(operation, 200, RECIPES[status](operation, make_client, monkeypatch))
