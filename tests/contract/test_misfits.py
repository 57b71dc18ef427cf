"""Bad input to the real questions: each place that is wrong is named once, and nothing that is right."""

import copy
import json
from typing import Any

import pytest
from pydantic import ValidationError

from branchwright.checks.circuits import CircuitDesignRequest
from branchwright.cli.demonstration import JOB
from branchwright.http_api.validation import problem_from

Json = dict[str, Any]


def misfits(body: object) -> list[tuple[str, str]]:
    """The pointer and the code of each error of a body that does not fit."""
    with pytest.raises(ValidationError) as refused:
        CircuitDesignRequest.model_validate(body)
    problem = problem_from(refused.value, body, CircuitDesignRequest.model_json_schema()).problem()
    return [(error.pointer, error.code) for error in problem.errors or ()]


def job(**changes: Any) -> Json:
    return {**copy.deepcopy(JOB), **changes}


def with_segment(**changes: Any) -> Json:
    body = job()
    body["run"] = [{**body["run"][0], **changes}]
    return body


def with_charger(**changes: Any) -> Json:
    body = job()
    body["charger"] |= changes
    return body


CASES: dict[str, tuple[Json, list[tuple[str, str]]]] = {
    "an unknown edition": (job(edition="nec-1999"), [("/edition", "not-an-allowed-value")]),
    "an unknown field": (job(panel={}), [("/panel", "unknown-field")]),
    "an unknown field in the only segment": (
        with_segment(lenght=3),
        [("/run/0/lenght", "unknown-field")],
    ),
    "an unknown wiring method": (
        with_segment(wiring_method="emmt"),
        [("/run/0/wiring_method", "not-an-allowed-value")],
    ),
    "a negative length": (
        with_segment(length={"value": -4, "unit": "ft"}),
        [("/run/0/length/value", "out-of-range")],
    ),
    "a length of nothing": (
        with_segment(length={"value": 0, "unit": "ft"}),
        [("/run/0/length/value", "out-of-range")],
    ),
    "an absurd current": (
        with_charger(charging_current_a=1e9),
        [("/charger/charging_current_a", "out-of-range")],
    ),
    "an infinite current": (
        with_charger(charging_current_a=float("inf")),
        [("/charger/charging_current_a", "out-of-range")],
    ),
    "a size as the trade says it": (
        with_charger(terminals={"largest": "6awg"}),
        [("/charger/terminals/largest", "not-an-allowed-value")],
    ),
    "no metals": (
        with_charger(terminals={"materials": []}),
        [("/charger/terminals/materials", "wrong-length")],
    ),
    "one metal that is none": (
        with_charger(terminals={"materials": ["steel"]}),
        [("/charger/terminals/materials/0", "not-an-allowed-value")],
    ),
    "a connection of no kind": (with_charger(connection={}), [("/charger/connection/kind", "missing")]),
    "an empty run": (job(run=[]), [("/run", "wrong-length")]),
    "a faulty point among none": (
        job(points=[{"after_segment": 0.5, "kind": "splice"}]),
        [("/points/0/after_segment", "wrong-type")],
    ),
}


@pytest.mark.parametrize("case", CASES, ids=str)
def test_what_is_wrong_is_named_and_nothing_else(case: str) -> None:
    body, expected = CASES[case]
    assert misfits(body) == expected


def test_every_wrong_place_is_named_at_once() -> None:
    body = job(edition="nec-1999")
    body["run"][0]["location"] = "moist"
    body["run"][1]["ambient_c"] = "warm"
    del body["conductors"]["material"]
    assert sorted(misfits(body)) == [
        ("/conductors/material", "missing"),
        ("/edition", "not-an-allowed-value"),
        ("/run/0/location", "not-an-allowed-value"),
        ("/run/1/ambient_c", "wrong-type"),
    ]


def test_a_near_miss_is_answered_with_a_suggestion() -> None:
    body = with_charger(terminals={"largest": "6awg"})
    with pytest.raises(ValidationError) as refused:
        CircuitDesignRequest.model_validate(body)
    problem = problem_from(refused.value, body, CircuitDesignRequest.model_json_schema()).problem()
    assert "did you mean '6 AWG'?" in json.dumps(problem.model_dump())
