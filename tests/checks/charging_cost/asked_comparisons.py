"""Asking for a comparison as a caller would, and looking at the answer as the caller sees it: plain JSON."""

import json
from typing import Any

from branchwright.checks.charging_cost.charging_comparison import ChargingComparisonRequest, compare_charging

Json = dict[str, Any]

EVERY_DAY = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
LEAST_COST = {"kind": "least-cost"}
ON_ARRIVAL = {"kind": "on-arrival"}


def timer(*windows: tuple[str, str]) -> Json:
    return {"kind": "timer", "windows": [{"from": begin, "to": end} for begin, end in windows]}


def each_day(kwh: float, basis: str = "wall", **more: Any) -> Json:
    return {"kind": "energy", "basis": basis, "kwh_by_weekday": dict.fromkeys(EVERY_DAY, kwh), **more}


def charging(
    need: Json,
    *,
    arrival: str = "18:00",
    departure: str = "07:00",
    current_a: float = 32,
    voltage_v: float = 240,
    **more: Any,
) -> Json:
    return {
        "energy_need": need,
        "charger": {"charging_current_a": current_a, "voltage_v": voltage_v},
        "arrival": arrival,
        "departure": departure,
        **more,
    }


def comparison(tariffs: list[Json], vehicle: Json, schedules: list[Json], **more: Any) -> Json:
    return {
        "tariffs": tariffs,
        "year": 2027,
        "house_load": {"kind": "none"},
        "charging": vehicle,
        "schedules": schedules,
        **more,
    }


def compared(asked: Json) -> Json:
    answer = compare_charging(ChargingComparisonRequest.model_validate(asked))
    return json.loads(answer.model_dump_json(by_alias=True))


def option(
    answer: Json, schedule: int = 0, arrangement: str = "whole-house", tariff: str | None = None
) -> Json:
    """Return the one option of a schedule, by its place, an arrangement and a tariff."""
    found = [
        each
        for each in answer["options"]
        if each["schedule"]["index"] == schedule
        and each["arrangement"] == arrangement
        and tariff in (None, each["tariff"])
    ]
    assert len(found) == 1, [each["message"] for each in answer["findings"] if each["outcome"] == "fail"]
    return found[0]
