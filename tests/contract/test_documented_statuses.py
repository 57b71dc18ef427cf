"""Every status that the document gives for an operation is produced here, by one request for each pair.

The pairs come from the committed document: a newly documented status without a recipe fails.
"""

import asyncio
import json
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import httpx
import pytest
from tests.contract.client import Client
from tests.contract.document import JSON, OPERATIONS, Operation, conforms

from branchwright.http_api import health
from branchwright.http_api.v1 import (
    circuits,
    codebook,
    costs,
    current_comparisons,
    interval_data,
    managed_charging,
    service_capacity,
)

UNREADABLE = {JSON: b'{"edition": NaN}', "text/csv": b"Start,kWh\n\xff", "application/xml": b"<feed>"}

Recipe = Callable[["Asked", Callable[..., Client], pytest.MonkeyPatch], httpx.Response]


@dataclass(frozen=True)
class Asked:
    """An operation as its document shows it; of a question, with the body in one of its forms."""

    operation: Operation
    media_type: str | None

    @property
    def method(self) -> str:
        return self.operation.method

    @property
    def path(self) -> str:
        return self.operation.example_path

    @property
    def body(self) -> dict[str, Any]:
        """The options that send the first example of a body in this form."""
        if self.media_type is None:
            return {}
        shown = next(iter(self.operation.examples_in(self.media_type).values()))
        content = json.dumps(shown) if self.media_type == JSON else shown
        return {"content": content.encode(), "headers": {"Content-Type": self.media_type}}


FORMS = [
    Asked(operation, media_type)
    for operation in OPERATIONS.values()
    for media_type in operation.media_types or [None]
]
PAIRS = [(asked, status) for asked in FORMS for status in asked.operation.statuses]


def named(asked: Asked, status: int) -> str:
    form = "" if asked.media_type in {None, JSON} else f"-{asked.media_type}"
    return f"{asked.operation.name}{form}-{status}"


def ask(client: Client, asked: Asked, **options: Any) -> httpx.Response:
    """Send the documented example, changed by ``options``: further headers, another body, a query."""
    body = asked.body
    headers = body.pop("headers", {}) | options.pop("headers", {})
    return client.request(asked.method, asked.path, headers=headers, **body | options)


def answered(asked, make_client, monkeypatch):
    return ask(make_client(), asked)


def kept_by_the_caller(asked, make_client, monkeypatch):
    client = make_client()
    etag = ask(client, asked).headers["etag"]
    return ask(client, asked, headers={"If-None-Match": etag})


def unreadable(asked, make_client, monkeypatch):
    return ask(make_client(), asked, content=UNREADABLE[asked.media_type])


def without_a_key(asked, make_client, monkeypatch):
    return ask(make_client(), asked, headers={"Authorization": ""})


def for_another_host(asked, make_client, monkeypatch):
    return ask(make_client(api_key_hashes=()), asked, headers={"Host": "attacker.example"})


def for_an_unknown_name(asked, make_client, monkeypatch):
    return make_client().request(asked.method, asked.operation.path.replace("{", "").replace("}", ""))


def by_another_method(asked, make_client, monkeypatch):
    return make_client().request("PATCH", asked.path)


def in_another_form(asked, make_client, monkeypatch):
    return ask(make_client(), asked, headers={"Accept": "text/html"})


def too_large(asked, make_client, monkeypatch):
    return ask(make_client(body_limit_bytes=100, interval_data_limit_bytes=100), asked)


def as_text(asked, make_client, monkeypatch):
    return ask(make_client(), asked, headers={"Content-Type": "text/plain"})


def beside_the_schema(asked, make_client, monkeypatch):
    if asked.media_type == JSON:
        return ask(make_client(), asked, content=b"{}")
    return ask(make_client(), asked, params={"limit": 0})


def over_the_limit(asked, make_client, monkeypatch):
    """Ask while another request holds the only place: one whose body does not end before this is answered."""

    async def both(http: httpx.AsyncClient) -> httpx.Response:
        begun, may_end = asyncio.Event(), asyncio.Event()
        headers = {"Content-Type": JSON}

        async def endless_body():
            begun.set()
            yield b"{"
            await may_end.wait()

        slow = asyncio.create_task(http.post("/v1/circuit-designs", content=endless_body(), headers=headers))
        await begun.wait()
        refused = await http.request(asked.method, asked.path, **asked.body)
        may_end.set()
        assert (await slow).status_code == 400
        return refused

    return make_client(concurrency_limit=1).run(both)


def in_a_broken_service(asked, make_client, monkeypatch):
    def broken(*_: object, **__: object) -> None:
        raise RuntimeError("the secret is 4711")

    monkeypatch.setattr(circuits.circuits, "design", broken)
    monkeypatch.setattr(circuits.circuits, "review", broken)
    monkeypatch.setattr(current_comparisons.current_comparison, "compare", broken)
    monkeypatch.setattr(service_capacity.dwelling_load, "calculate_load", broken)
    monkeypatch.setattr(service_capacity.capacity_review, "review_capacity", broken)
    monkeypatch.setattr(managed_charging.managed_charging, "study_managed_charging", broken)
    monkeypatch.setattr(costs.tariffs, "review_tariff", broken)
    monkeypatch.setattr(costs.charging_comparison, "compare_charging", broken)
    monkeypatch.setattr(costs.installation, "estimate_installation", broken)
    for name in ("read_json", "read_csv", "read_green_button"):
        monkeypatch.setattr(interval_data.interval_data, name, broken)
    monkeypatch.setattr(codebook, "_paged", broken)
    monkeypatch.setattr(codebook, "_edition", broken)
    monkeypatch.setattr(codebook, "_rules", broken)
    monkeypatch.setattr(health, "Health", broken)
    answer = ask(make_client(), asked)
    assert "4711" not in answer.text
    return answer


def while_draining(asked, make_client, monkeypatch):
    client = make_client()
    client.app.state.draining = True
    return ask(client, asked)


RECIPES: dict[int, Recipe] = {
    200: answered,
    304: kept_by_the_caller,
    400: unreadable,
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


@pytest.mark.parametrize(("asked", "status"), PAIRS, ids=[named(*pair) for pair in PAIRS])
def test_every_documented_status_is_produced_as_described(asked, status, make_client, monkeypatch):
    answer = RECIPES[status](asked, make_client, monkeypatch)
    body = conforms(asked.operation, status, answer)
    if status >= 400:
        assert body["status"] == status
        # Where several problems share a status, the description has the title of each.
        assert body["title"] in asked.operation.response(status)["description"].split(" | ")


UNAFFECTED = [
    (asked, status)
    for asked in FORMS
    for status in (401, 406, 422, 429, 503)
    if status not in asked.operation.statuses
]


@pytest.mark.parametrize(("asked", "status"), UNAFFECTED, ids=[named(*pair) for pair in UNAFFECTED])
def test_where_a_refusal_is_not_documented_the_request_is_answered(asked, status, make_client, monkeypatch):
    """Health without a key, at the limit and while draining; a query where there are no parameters."""
    conforms(asked.operation, 200, RECIPES[status](asked, make_client, monkeypatch))
