"""Dwellings as published examples state them, and a load calculation asked for as a caller does."""

import json
from typing import Any

from tests.checks.circuits import Json, body_of
from tests.checks.replay import replay

from branchwright.checks.service_capacity.dwelling_load import LoadCalculationRequest, calculate_load

EDITIONS = ("nec-2017", "nec-2020", "nec-2023", "nec-2026")
THREE_VA = ("nec-2017", "nec-2020", "nec-2023")
"""Editions that count 3 VA for each square foot, as the examples of Annex D do."""

SPLIT_PHASE: Json = {"system": "split-phase-120-240"}


def calculated(request: Json) -> Json:
    """Return the answer to a request, every step of it replayed."""
    answer = calculate_load(LoadCalculationRequest.model_validate_json(body_of(request)))
    found: Json = json.loads(answer.model_dump_json(by_alias=True))
    replay(found, request)
    return found


def asked(edition: str, dwelling: Json, *methods: str, **others: Any) -> Json:
    """Return a request for a split-phase dwelling; without methods it asks for all of them."""
    request: Json = {"edition": edition, "service": SPLIT_PHASE, "dwelling": dwelling, **others}
    if methods:
        request["methods"] = list(methods)
    return request


def by(request: Json, method: str) -> Json:
    """Return what one method makes of a request."""
    answer = calculated({**request, "methods": [method]})
    (found,) = answer["methods"]
    return dict(found)


def demand_of(method: Json, *groups: str) -> float:
    """Return the demand of the lines of some groups, VA."""
    return float(sum(line["demand_va"] for line in method["lines"] if line["group"] in groups))


def findings(answer: Json) -> dict[str, Json]:
    """Return the findings of an answer by the name of their rule."""
    found = {finding["rule"]: finding for finding in answer["findings"]}
    assert len(found) == len(answer["findings"]), "two findings of one rule"
    return found


def failing(answer: Json) -> set[str]:
    """Return the rules that fail."""
    return {name for name, finding in findings(answer).items() if finding["outcome"] == "fail"}


D1A: Json = {
    "floor_area_ft2": 1500,
    "small_appliance_circuits": 2,
    "laundry_circuits": 1,
    "ranges": [{"kind": "range", "rating_w": 12000}],
    "dryers": [{"rating_w": 5500}],
}
"""Annex D, example D1(a)."""

D2A: Json = {
    "floor_area_ft2": 1500,
    "small_appliance_circuits": 2,
    "laundry_circuits": 1,
    "ranges": [{"kind": "range", "rating_w": 12000}],
    "dryers": [{"rating_w": 5000}],
    "appliances": [
        {
            "name": "water heater",
            "rating_va": 2500,
            "fastened_in_place": True,
            "motor": False,
            "voltage_v": 240,
        },
        {
            "name": "dishwasher",
            "rating_va": 1200,
            "fastened_in_place": True,
            "motor": False,
            "voltage_v": 120,
        },
    ],
    "heating": [{"rating_w": 9000, "separately_controlled_units": 5}],
    "cooling": [{"rating_va": 1380}],
}
"""Annex D, example D2(a): five rooms of electric heating, a room air conditioner of 6 A at 230 V."""

D2B: Json = {
    "floor_area_ft2": 1500,
    "small_appliance_circuits": 2,
    "laundry_circuits": 1,
    "ranges": [
        {"kind": "wall-oven", "rating_w": 4000},
        {"kind": "wall-oven", "rating_w": 4000},
        {"kind": "counter-cooking-unit", "rating_w": 5100},
    ],
    "dryers": [{"name": "washer and dryer", "rating_w": 5000}],
    "appliances": [
        {
            "name": "water heater",
            "rating_va": 4500,
            "fastened_in_place": True,
            "motor": False,
            "voltage_v": 240,
        },
        {
            "name": "dishwasher",
            "rating_va": 1200,
            "fastened_in_place": True,
            "motor": False,
            "voltage_v": 120,
        },
    ],
    "heating": [{"name": "bathroom heater", "rating_w": 1500, "kind": "separately-controlled"}],
    "cooling": [{"rating_va": 1680} for _ in range(6)],
}
"""Annex D, example D2(b): two ovens of 8 kW together, a cooktop, six air conditioners of 7 A at 240 V."""
