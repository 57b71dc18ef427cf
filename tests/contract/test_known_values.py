"""Output fields that may grow list the values known today: whatever is answered is among them.

Requests are the documented examples with places drawn afresh, and whole requests drawn from the schema; all fit
the schema, so each must be answered with 200 and an answer that fits the schema of answers. What is only read is
asked for once, as the document's own example has it.
"""

import copy
from collections import defaultdict
from collections.abc import Iterator
from random import Random
from typing import Any

import pytest
from tests.contract.document import (
    DOCUMENT,
    OPERATIONS,
    QUESTIONS,
    Json,
    Operation,
    conforms,
    errors,
    resolved,
)
from tests.contract.places import drawn, varied

REQUESTS = 300
"""Drawn for each question; half of them from examples. A few seconds on one core."""

KNOWN: dict[str, set[str]] = {
    f"{model}.{name}": set(field["x-known-values"])
    for model, schema in DOCUMENT["components"]["schemas"].items()
    for name, field in schema.get("properties", {}).items()
    if "x-known-values" in field
}


def with_event_and_demand(operation: Operation) -> list[Json]:
    """An example whose tariff has an event and a demand charge as well: what draws alone hardly make sound."""
    if operation.name not in ("review_tariff", "compare_charging"):
        return []
    request = copy.deepcopy(next(iter(operation.body_examples.values())))
    tariff = request["tariff"] if "tariff" in request else request["tariffs"][0]
    # The first Monday of the year, in the week that a review shows and the month that a comparison works out.
    tariff["critical_peak_events"] = [
        {"date": "2027-01-04", "from": "17:00", "to": "20:00", "per_kwh": "0.50", "how": "added"}
    ]
    tariff["demand_charges"] = [{"name": "demand", "per_kw": "4.00", "averaging_minutes": 60}]
    if "tariffs" in request:
        request["worked_bill"] = {
            "tariff": tariff["name"],
            "arrangement": "whole-house",
            "schedule": 0,
            "month": 1,
        }
    return [request]


def requests(operation: Operation) -> Iterator[Json]:
    """The same requests at every run."""
    yield from with_event_and_demand(operation)
    random = Random(operation.name)  # noqa: S311
    examples = list(operation.body_examples.values())
    for number in range(REQUESTS):
        if number % 2:
            yield varied(operation.body_schema, random.choice(examples), random)
        else:
            yield drawn(operation.body_schema, random)


def open_values(schema: Json, instance: Any, place: str = "") -> Iterator[tuple[str, str]]:
    """Each value of an answer that stands at a field with known values: (model.field, value)."""
    schema = resolved(schema)
    if "x-known-values" in schema and instance is not None:
        yield place, instance
    for branch in schema.get("anyOf", []):
        if instance is not None and branch.get("type") != "null":
            yield from open_values(branch, instance, place)
    if isinstance(instance, dict):
        for name, inner in schema.get("properties", {}).items():
            yield from open_values(inner, instance[name], f"{schema.get('title')}.{name}")
    elif isinstance(instance, list) and "items" in schema:
        for inner in instance:
            yield from open_values(schema["items"], inner, place)


@pytest.fixture(scope="module")
def emitted(client) -> dict[str, set[str]]:
    """The values that were answered at each field with known values."""
    found: defaultdict[str, set[str]] = defaultdict(set)
    for operation in QUESTIONS:
        answered = operation.response(200)["content"]["application/json"]["schema"]
        for request in requests(operation):
            assert errors(operation.body_schema, request) == [], (
                "the request does not fit: a fault of this test"
            )
            answer = conforms(operation, 200, client.post(operation.path, json=request))
            for place, value in open_values(answered, answer):
                found[place].add(value)
    for operation in (one for one in OPERATIONS.values() if one.method == "get"):
        answered = operation.response(200)["content"]["application/json"]["schema"]
        answer = conforms(operation, 200, client.request("GET", operation.example_path))
        for place, value in open_values(answered, answer):
            found[place].add(value)
    return found


def test_there_are_fields_with_known_values():
    assert {"CircuitDesignAnswer.verdict", "Finding.outcome", "Remedy.verdict"} <= set(KNOWN)


@pytest.mark.parametrize("place", KNOWN)
def test_only_known_values_are_answered(emitted, place):
    assert emitted[place], "no request reached this field"
    assert emitted[place] <= KNOWN[place]


@pytest.mark.parametrize(
    "place",
    ["CircuitDesignAnswer.verdict", "CircuitReviewAnswer.verdict", "Finding.outcome", "Finding.force"],
)
def test_every_known_value_is_reached(emitted, place):
    assert emitted[place] == KNOWN[place]
