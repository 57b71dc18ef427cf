"""Charging cost comparisons as a caller asks for them, and what the engine makes of them inside."""

import json
from typing import Any

from hypothesis import currently_in_test_context, note

from branchwright.checks.charging_cost.charging_comparison import (
    ChargingComparisonRequest,
    compare_charging,
)
from branchwright.checks.charging_cost.charging_comparison.given import Given
from branchwright.checks.charging_cost.charging_comparison.pricing import Choice, Priced, Pricer

Json = dict[str, Any]

WEEK = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")


def rate(begin: str, end: str, per_kwh: str, period: str, **stated: Any) -> Json:
    """Return one energy rate of every day."""
    return {"period": period, "from": begin, "to": end, "tiers": [{"per_kwh": per_kwh}], **stated}


def flat(name: str = "flat", per_kwh: str = "0.10", **stated: Any) -> Json:
    """Return a tariff with one price, changed as stated."""
    return {
        "name": name,
        "currency": "USD",
        "time_zone": "America/Denver",
        "energy_rates": [rate("00:00", "00:00", per_kwh, "all hours")],
        "rounding": {"line": False},
        **stated,
    }


def by_clock(name: str = "by clock", night: str = "0.05", day: str = "0.20", **stated: Any) -> Json:
    """Return a tariff that is cheap from 23 to 6 o'clock, changed as stated."""
    rates = [rate("23:00", "06:00", night, "night"), rate("06:00", "23:00", day, "day")]
    return flat(name, energy_rates=rates, **stated)


def charging(**stated: Any) -> Json:
    """Return 10 kWh at the wall for every day, at 32 A and 240 V from 18 to 7 o'clock, changed as stated."""
    return {
        "energy_need": {"kind": "energy", "basis": "wall", "kwh_by_weekday": dict.fromkeys(WEEK, 10)},
        "charger": {"charging_current_a": 32, "voltage_v": 240},
        "arrival": "18:00",
        "departure": "07:00",
        **stated,
    }


def comparison(*tariffs: Json, **stated: Any) -> Json:
    """Return a comparison of on-arrival charging without a house in 2027, changed as stated."""
    return {
        "tariffs": list(tariffs) or [flat()],
        "year": 2027,
        "house_load": {"kind": "none"},
        "charging": charging(),
        "schedules": [{"kind": "on-arrival"}],
        **stated,
    }


def separate_meter(**stated: Any) -> Json:
    """Return a separate meter of 1000 dollars, changed as stated."""
    return {"installed_cost": "1000", "monthly_charge": "2.50", "discount_rate_percent": 5, **stated}


def request_of(asked: Json) -> ChargingComparisonRequest:
    """Return the request model; in a property test the request is noted, if it is short."""
    body = json.dumps(asked)
    if currently_in_test_context() and len(body) < 20_000:
        note(body)
    return ChargingComparisonRequest.model_validate_json(body)


def compared(asked: Json) -> Json:
    """Return the answer to a comparison, as JSON has it; no infinity and nothing that is no number may be in it."""
    text = compare_charging(request_of(asked)).model_dump_json(by_alias=True)
    return dict(json.loads(text, parse_constant=refused))


def refused(constant: str) -> None:
    raise AssertionError(f"{constant} is no JSON")


def pricer(asked: Json) -> Pricer:
    """Return what prices a request whose facts allow it."""
    return Pricer(Given(request_of(asked)))


def charged(asked: Json, schedule: int = 0, tariff: int = 0) -> Priced:
    """Return one option with one meter for house and vehicle, priced."""
    return pricer(asked).price(Choice(tariff, "whole-house", schedule))


def findings(answer: Json, rule: str) -> list[Json]:
    """Return the findings of one rule."""
    return [finding for finding in answer["findings"] if finding["rule"] == rule]


def finding(answer: Json, rule: str) -> Json:
    """Return the only finding of one rule."""
    (found,) = findings(answer, rule)
    return found


def option(answer: Json, tariff: str, arrangement: str = "whole-house", schedule: int = 0) -> Json:
    """Return one option of an answer."""
    (found,) = [
        each
        for each in answer["options"]
        if (each["tariff"], each["arrangement"], each["schedule"]["index"]) == (tariff, arrangement, schedule)
    ]
    return dict(found)
