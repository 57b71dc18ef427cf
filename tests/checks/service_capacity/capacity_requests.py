"""Requests for capacity reviews that hold, with facts put in their place one by one."""

import copy
from typing import Any

from tests.checks.circuits import Json
from tests.checks.replay import replay
from tests.checks.service_capacity.dwellings import D1A
from tests.checks.service_capacity.services import capacity_reviewed

SPLIT_PHASE: Json = {"rating_a": 100, "system": "split-phase-120-240"}
YEAR: Json = {
    "kind": "measured",
    "measured_demand_w": 8000,
    "averaging_minutes": 15,
    "days": 365,
    "coverage_percent": 99.5,
    "has_generation": False,
}
"""A year's record: 1.25 times 8000 W are 10 000 VA, 41.67 A at 240 V."""

MONTH: Json = {**YEAR, "days": 30, "occupied": True, "seasonal_load_va": 0}
MANAGEMENT: Json = {
    "control_setting_a": 80,
    "fail_safe_current_a": 0,
    "monitored_legs": 2,
    "listed": True,
    "link_loss_tested": True,
    "access": "restricted",
}
HOUSE: Json = D1A
"""Annex D, example D1(a): 18 600 VA by the standard method at 3 VA per square foot, 77.5 A at 240 V."""


def asked(**facts: Any) -> Json:
    """Return a request of 2023 with a year's record and one charger of 24 A, some facts put in their place."""
    return copy.deepcopy(
        {
            "edition": "nec-2023",
            "service": SPLIT_PHASE,
            "existing_load": YEAR,
            "chargers": [{"charging_current_a": 24}],
            **facts,
        }
    )


def calculated(method: str = "standard", dwelling: Json = HOUSE) -> Json:
    """Return an existing load by a method."""
    return {"kind": "calculated", "method": method, "dwelling": dwelling}


def reviewed(request: Json) -> Json:
    """Return the answer, every step of it replayed."""
    answer = capacity_reviewed(request)
    replay(answer, request)
    return answer


def finding(answer: Json, rule: str) -> Json:
    """Return the one finding of a rule."""
    (found,) = [item for item in answer["findings"] if item["rule"] == rule]
    return dict(found)


def outcome(request: Json, rule: str) -> str:
    """Return what a rule finds of a request."""
    return str(finding(reviewed(request), rule)["outcome"])


def ways(answer: Json) -> dict[str, Json]:
    """Return the ways to fit by name, in their order."""
    return {way["way"]: way for way in answer["capacity"]["ways_to_fit"]}


def step(answer: Json, step_id: str) -> Json:
    """Return a step by its id."""
    (found,) = [item for item in answer["steps"] if item["id"] == step_id]
    return dict(found)


def at(document: Json, pointer: str, value: Any) -> Json:
    """Return a copy of a request with a value put at a JSON pointer."""
    changed = copy.deepcopy(document)
    *path, last = pointer.split("/")[1:]
    here: Any = changed
    for name in path:
        here = here[int(name)] if isinstance(here, list) else here[name]
    if isinstance(here, list):
        here[int(last)] = value
    elif value is None:
        here.pop(last, None)
    else:
        here[last] = value
    return changed


def with_way(request: Json, way: Json) -> Json:
    """Return the request with the changes of a way made, as a caller would make them."""
    for change in way["changes"]:
        request = at(request, change["pointer"], change["value"])
    return request
