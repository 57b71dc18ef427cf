"""Schedules and their bills against a second reading of nights and a second pricing, both in plain Python."""

from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given
from tests.checks.charging_cost.asked_comparisons import (
    LEAST_COST,
    ON_ARRIVAL,
    charging,
    compared,
    comparison,
    option,
)
from tests.checks.charging_cost.interval_prices import next_kwh
from tests.checks.charging_cost.reference_pricing import Reference
from tests.checks.charging_cost.reference_schedules import Schedules
from tests.checks.charging_cost.strategies import Drawn, Stay, linear_tariffs, stays
from tests.checks.effort import examples

Json = dict[str, Any]

REFERENCE = pytest.mark.source("a second implementation, written from the description of a request alone")


def asked_of(drawn: Drawn, stay: Stay) -> Json:
    vehicle = charging(
        {
            "kind": "energy",
            "basis": "battery",
            "charging_efficiency": 0.9,
            "kwh_by_weekday": stay.kwh_by_weekday,
        },
        arrival=stay.arrival,
        departure=stay.departure,
        current_a=stay.current_a,
        vehicle={"battery_kwh": stay.battery_kwh},
    )
    schedules = [ON_ARRIVAL, {"kind": "timer", "windows": stay.windows}, LEAST_COST]
    return comparison([drawn.tariff], vehicle, schedules, year=drawn.year, arrangements=["whole-house"])


@REFERENCE
@examples(8)
@given(linear_tariffs(), stays())
def test_what_each_schedule_charges_and_costs(drawn: Drawn, stay: Stay) -> None:
    asked = asked_of(drawn, stay)
    answer = compared(asked)
    step = answer["interval_minutes"]
    priced = Reference(drawn.tariff, drawn.year, step)
    nights = Schedules(asked, step)
    prices = next_kwh(priced)
    for place, schedule in enumerate(asked["schedules"]):
        found = option(answer, place)
        kwh, unmet, short = nights.charged(schedule, prices.__getitem__)
        assert found["charged_kwh"] == pytest.approx(sum(kwh), abs=1e-6)
        assert found["unmet_kwh"] == pytest.approx(unmet, abs=1e-6)
        assert found["nights_unmet"] == short
        bills = priced.bills(kwh)
        assert [Fraction(month["total"]) for month in found["months"]] == [bill.total for bill in bills]
        assert Fraction(found["annual"]["with_charging"]) == sum(bill.total for bill in bills)
