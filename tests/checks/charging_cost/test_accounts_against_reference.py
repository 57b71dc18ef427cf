"""Who pays what with one meter or two, against the second pricing: house, generation and vehicle on random tariffs."""

from datetime import datetime
from fractions import Fraction
from random import Random
from typing import Any
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.checks.charging_cost.asked_comparisons import ON_ARRIVAL, charging, compared, comparison, option
from tests.checks.charging_cost.reference_pricing import MICRO, Reference
from tests.checks.charging_cost.reference_schedules import Schedules
from tests.checks.charging_cost.strategies import Drawn, Stay, drawn_tariffs, stays
from tests.checks.effort import examples

Json = dict[str, Any]

REFERENCE = pytest.mark.source("a second implementation, written from the description of a request alone")

WEEKDAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
NEAR = Fraction(1, 1000)
"""Of a dollar: amounts that are not rounded by line differ by what lies below six digits of a quantity."""


@st.composite
def needs(draw: st.DrawFn) -> Json:
    """Draw a need as a distance, in every unit of consumption."""
    unit, value = draw(
        st.sampled_from(
            [
                ("kWh/100 km", 18.5),
                ("kWh/100 mi", 31.0),
                ("kWh/km", 0.175),
                ("kWh/mi", 0.29),
                ("km/kWh", 5.5),
                ("mi/kWh", 3.4),
            ]
        )
    )
    months = st.lists(st.integers(10, 14), min_size=12, max_size=12)
    return {
        "kind": "distance",
        "basis": draw(st.sampled_from(["wall", "battery"])),
        "distance_by_weekday": {
            day: draw(st.integers(0, 60)) for day in draw(st.lists(st.sampled_from(WEEKDAYS), unique=True))
        },
        "distance_unit": draw(st.sampled_from(["mi", "km"])),
        "consumption": {"value": value, "unit": unit},
        "charging_efficiency": draw(st.none() | st.just(0.88)),
        "winter_factor_by_month": draw(st.none() | months.map(lambda all_of: [each / 10 for each in all_of])),
    }


@st.composite
def vehicles(draw: st.DrawFn) -> Json:
    """Draw a vehicle with an onboard limit, three phases and other times on some days."""
    stay: Stay = draw(stays())
    vehicle = charging(
        draw(needs()),
        arrival=stay.arrival,
        departure=stay.departure,
        current_a=stay.current_a,
        vehicle={"battery_kwh": stay.battery_kwh, "onboard_limit_a": draw(st.none() | st.just(13))},
    )
    vehicle["charger"]["phases"] = draw(st.sampled_from([None, 1, 3]))
    if draw(st.booleans()):
        vehicle["other_days"] = [{"weekdays": ["sat", "sun"], "arrival": "11:20", "departure": "17:35"}]
    return vehicle


def of_micro(kwh: list[float]) -> list[float]:
    """Return energies cut to what the second pricing counts in."""
    return [round(each * MICRO) / MICRO for each in kwh]


@REFERENCE
@examples(5)
@given(drawn_tariffs(), drawn_tariffs(), vehicles(), st.integers(0, 10**6))
def test_what_the_accounts_come_to(present: Drawn, other: Drawn, vehicle: Json, number: int) -> None:
    random = Random(number)  # noqa: S311 - flows to price, no secret
    shared = {name: present.tariff[name] for name in ("currency", "time_zone")}
    ours = {"country": None, "subdivision": None, "observed_holidays": None}
    events = [
        event for event in other.tariff["critical_peak_events"] if event["date"][:4] == str(present.year)
    ]
    second = {**other.tariff, **shared, **ours, "name": "other", "critical_peak_events": events}
    tariffs = [{**present.tariff, "name": "present"}, second]
    every = ["whole-house", "own-meter", "submeter"]
    step = 30 if 30 in (present.step_minutes, other.step_minutes) else 60
    step = min(
        [step, *(charge["averaging_minutes"] for each in tariffs for charge in each["demand_charges"])]
    )
    priced = {each["name"]: Reference(each, present.year, step, present.first_month) for each in tariffs}
    intervals = priced["present"].intervals
    house = [random.randint(0, 1500) / 1000 for _ in intervals]
    roof = [random.randint(0, 2500) / 1000 if 480 <= at.minute < 1140 else 0.0 for at in intervals]
    begins = datetime.fromtimestamp(intervals[0].starts, ZoneInfo(shared["time_zone"])).isoformat()
    series = {"kind": "intervals", "start": begins, "interval_minutes": step}
    asked = comparison(
        tariffs,
        vehicle,
        [ON_ARRIVAL],
        year=present.year,
        first_month=present.first_month,
        house_tariff="present",
        house_load={**series, "energy_kwh": house},
        generation={**series, "energy_kwh": roof},
        arrangements=every,
        separate_meter={"installed_cost": "900", "monthly_charge": "4.00", "discount_rate_percent": 3},
        submeter={"installed_cost": "500", "monthly_charge": "2.00"},
    )
    answer = compared(asked)
    assert answer["interval_minutes"] == step
    charged, unmet, short = Schedules(asked, step).charged(ON_ARRIVAL)
    net = [one - less for one, less in zip(house, roof, strict=True)]
    both = of_micro([one + more for one, more in zip(net, charged, strict=True)])
    net, charged = of_micro(net), of_micro(charged)
    alone = total(priced["present"], net, "whole-house")
    for name in priced:
        found = {each: option(answer, 0, each, name) for each in every}
        assert found["own-meter"]["charged_kwh"] == pytest.approx(sum(charged), abs=0.01)
        assert found["own-meter"]["unmet_kwh"] == pytest.approx(unmet, abs=1e-6)
        assert found["own-meter"]["nights_unmet"] == short
        for arrangement, meter in (("own-meter", 4), ("submeter", 2)):
            expected = alone + total(priced[name], charged, arrangement) + 12 * meter
            assert abs(cost(found[arrangement], "with_charging") - expected) <= NEAR
            assert cost(found[arrangement], "house_repriced") == 0
        assert (
            abs(cost(found["whole-house"], "with_charging") - total(priced[name], both, "whole-house"))
            <= NEAR
        )
        repriced = total(priced[name], net, "whole-house") - alone
        assert abs(cost(found["whole-house"], "house_repriced") - repriced) <= NEAR
        assert all(abs(cost(each, "without_charging") - alone) <= NEAR for each in found.values())


def total(priced: Reference, kwh: list[float], arrangement: str) -> Fraction:
    return sum((bill.total for bill in priced.bills(kwh, arrangement)), Fraction(0))


def cost(found: Json, name: str) -> Fraction:
    return Fraction(found["annual"][name])
