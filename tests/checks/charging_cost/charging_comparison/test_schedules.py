"""When the vehicle charges: every interval of a year against a second layout in plain Python."""

from collections.abc import Callable
from datetime import date
from typing import Any
from zoneinfo import ZoneInfo

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.checks.charging_cost.charging_comparison.charging_reference import (
    WEEK,
    Charged,
    Night,
    Ring,
    Span,
    charge,
    nights_of,
)
from tests.checks.charging_cost.charging_comparison.comparisons import (
    Json,
    by_clock,
    charged,
    charging,
    comparison,
    flat,
)
from tests.checks.effort import examples

Pieces = list[tuple[int, float]]

ZONES = ("America/Denver", "Europe/London", "Australia/Lord_Howe", "America/Sao_Paulo", "Asia/Kolkata")
TIES = 1e-9


def in_order(pieces: Pieces) -> Pieces:
    return pieces


def cheapest(ring: Ring, night: str, day: str) -> Callable[[Pieces], Pieces]:
    """Take the pieces from 23 to 6 o'clock first where they are cheaper; of those alike the earliest."""
    price = {True: float(night), False: float(day)}

    def order(pieces: Pieces) -> Pieces:
        return sorted(pieces, key=lambda piece: price[not 6 <= ring.shown(piece[0]).hour < 23])

    return order


@st.composite
def stays(draw: st.DrawFn) -> dict[str, Span]:
    """Draw arrival and departure of each weekday, so that no two stays overlap: departures in the morning."""
    found = {}
    for day in WEEK:
        arrival = draw(st.integers(12 * 60, 23 * 60 + 59))
        departure = draw(st.integers(0, 12 * 60 - 1))
        found[day] = (clock(arrival), clock(departure))
    return found


def clock(minute: int) -> str:
    return f"{minute // 60:02}:{minute % 60:02}"


def asked(zone: str, week: dict[str, Span], step: int, **stated: Any) -> Json:
    """Return a comparison with those stays, priced in intervals of a length that the house's load asks for."""
    tariff = by_clock(time_zone=zone)
    if step == 15:
        tariff["critical_peak_events"] = [
            {"date": "2027-07-01", "from": "12:15", "to": "12:30", "per_kwh": "0", "how": "added"}
        ]
    arrival, departure = week["mon"]
    others = [
        {"weekdays": [day], "arrival": week[day][0], "departure": week[day][1]}
        for day in WEEK
        if day != "mon"
    ]
    needs = dict(zip(WEEK, (4, 12, 0, 30.5, 55, 8, 90), strict=True))
    return comparison(
        tariff,
        charging=charging(
            energy_need={"kind": "energy", "basis": "wall", "kwh_by_weekday": needs},
            arrival=arrival,
            departure=departure,
            other_days=others,
            **stated,
        ),
        schedules=[
            {"kind": "on-arrival"},
            {
                "kind": "timer",
                "windows": [{"from": "22:10", "to": "01:05"}, {"from": "00:30", "to": "04:00"}],
            },
            {"kind": "least-cost"},
        ],
    )


@pytest.mark.source(
    "a second layout in plain Python: instants of zoneinfo, a sorted list, a ring of intervals"
)
@pytest.mark.parametrize("first_month", [1, 4])
@pytest.mark.parametrize("battery", [None, 60.0])
@examples(12)
@given(st.sampled_from(ZONES), stays(), st.sampled_from([60, 15]))
def test_every_interval_charges_what_a_second_layout_charges(
    first_month: int, battery: float | None, zone: str, week: dict[str, Span], step: int
) -> None:
    vehicle = {} if battery is None else {"vehicle": {"battery_kwh": battery}}
    stated: Json = {"charging_efficiency": 1}
    request = asked(zone, week, step, **vehicle)
    request["charging"]["energy_need"] |= stated
    request["first_month"] = first_month
    ring = Ring(
        ZoneInfo(zone), date(2027, first_month, 1), 30 if zone.endswith("Howe") and step == 60 else step
    )
    needs = request["charging"]["energy_need"]["kwh_by_weekday"]

    def need(day: date) -> float:
        return float(needs[WEEK[day.weekday()]])

    windows = [("22:10", "01:05"), ("00:30", "04:00")]
    whole, timed = nights_of(ring, week, need), nights_of(ring, week, need, windows)
    expected: list[tuple[list[Night], Callable[[Pieces], Pieces]]] = [
        (whole, in_order),
        (timed, in_order),
        (whole, cheapest(ring, "0.05", "0.20")),
    ]
    for place, (nights, order) in enumerate(expected):
        ours = charged(request, place)
        theirs: Charged = charge(ring, nights, 7.68, order, battery)
        assert len(ours.charging_kwh) == ring.count
        np.testing.assert_allclose(ours.charging_kwh, theirs.kwh, atol=TIES)
        np.testing.assert_allclose(ours.delivery.charged, theirs.by_night, atol=TIES)
        assert ours.delivery.unmet_kwh == pytest.approx(theirs.unmet, abs=TIES)


@pytest.mark.source("worked by hand: 7.68 kW, 15.36 kWh are two hours from 18:30 on; 12.8 kWh end at 20:10")
def test_charging_on_arrival_fills_parts_of_intervals() -> None:
    needs = {"mon": 15.36, "tue": 12.8}
    request = comparison(
        charging=charging(
            energy_need={"kind": "energy", "basis": "wall", "kwh_by_weekday": needs}, arrival="18:30"
        )
    )
    hourly = charged(request).charging_kwh
    monday = 3 * 24  # 4 January 2027
    assert hourly[monday + 18 : monday + 22].tolist() == pytest.approx([3.84, 7.68, 3.84, 0])
    assert hourly[monday + 42 : monday + 46].tolist() == pytest.approx([3.84, 7.68, 1.28, 0])


@pytest.mark.source(
    "worked by hand: the clock of America/Denver skips 2 to 3 on 14 March and repeats 1 on 7 November"
)
def test_nights_of_clock_changes_are_an_hour_shorter_and_longer() -> None:
    needs = {"sat": 100}
    request = comparison(
        charging=charging(
            energy_need={"kind": "energy", "basis": "wall", "kwh_by_weekday": needs},
            arrival="22:00",
            departure="05:00",
        )
    )
    delivered = charged(request).delivery.charged
    ordinary, spring, autumn = 5, 71, 309  # 6 January is a Wednesday; 13 March and 6 November are Saturdays
    assert delivered[ordinary] == 0
    assert delivered[spring] == pytest.approx(6 * 7.68)
    assert delivered[autumn] == pytest.approx(8 * 7.68)
    assert delivered[spring + 7] == pytest.approx(7 * 7.68)


@pytest.mark.source(
    "worked by hand: 2027 ends on a Friday, whose night goes on in the first hours of the same year"
)
def test_the_last_night_is_charged_in_the_first_hours_of_the_year() -> None:
    needs = {"fri": 30.72}
    request = comparison(
        charging=charging(
            energy_need={"kind": "energy", "basis": "wall", "kwh_by_weekday": needs}, arrival="23:00"
        )
    )
    hourly = charged(request).charging_kwh
    assert hourly[-1] == pytest.approx(7.68)
    assert hourly[:4].tolist() == pytest.approx([7.68, 7.68, 7.68, 0])
    # 1 January is a Friday too: its own night begins at 23 o'clock.
    assert hourly[23] == pytest.approx(7.68)
    assert hourly.sum() == pytest.approx(53 * 30.72)


@pytest.mark.source(
    "worked by hand: surplus 2 kWh an hour from 10 to 15 o'clock, 20 kWh from 8 on, the rest after 17"
)
def test_the_surplus_comes_first_and_then_the_cheapest_hours() -> None:
    hours = [0.0] * 10 + [1.0] * 5 + [0.0] * 9
    request = comparison(
        flat(
            energy_rates=[
                {"period": "day", "from": "06:00", "to": "17:00", "tiers": [{"per_kwh": "0.30"}]},
                {"period": "evening", "from": "17:00", "to": "06:00", "tiers": [{"per_kwh": "0.10"}]},
            ]
        ),
        generation={"kind": "annual-energy", "kwh_per_year": 365 * 10, "profile": {"hours": hours}},
        charging=charging(
            energy_need={"kind": "energy", "basis": "wall", "kwh_by_weekday": {"wed": 20}},
            arrival="08:00",
            departure="19:00",
        ),
        schedules=[{"kind": "solar-surplus-first"}, {"kind": "least-cost"}],
    )
    wednesday = 5 * 24  # 6 January 2027
    first = charged(request).charging_kwh[wednesday + 8 : wednesday + 19]
    assert first.tolist() == pytest.approx([0, 0, 2, 2, 2, 2, 2, 0, 0, 7.68, 2.32])
    # Nothing is credited for what flows out, so that the surplus costs nothing and is the cheapest too.
    assert charged(request, 1).charging_kwh[wednesday + 8 : wednesday + 19].tolist() == pytest.approx(first)


@pytest.mark.source("worked by hand: what is credited for the surplus is more than the night costs")
def test_least_cost_leaves_a_surplus_that_is_worth_more() -> None:
    tariff = by_clock(night="0.05", day="0.20")
    tariff["energy_rates"][1]["export_per_kwh"] = "0.08"
    request = comparison(
        tariff,
        generation={"kind": "annual-energy", "kwh_per_year": 3650, "profile": {"hours": [0] * 12 + [1] * 12}},
        charging=charging(arrival="17:00"),
        schedules=[{"kind": "least-cost"}, {"kind": "solar-surplus-first"}],
    )
    night, surplus = charged(request), charged(request, 1)
    evening = slice(17, 23)
    assert night.charging_kwh[evening].sum() == 0
    # 10 kWh a day over the twelve hours from noon on.
    assert surplus.charging_kwh[evening].sum() == pytest.approx(6 * 10 / 12)
    assert (night.least_cost_basis, surplus.least_cost_basis) == ("optimum", None)
    # Charging 10 kWh each night at 5 cents instead of 5 kWh of surplus at 8 cents.
    assert night.total < surplus.total


@pytest.mark.source("worked by hand: the level of house and vehicle together that brings 22 kWh in a night")
def test_a_demand_charge_is_kept_at_its_least() -> None:
    request = comparison(
        flat(demand_charges=[{"name": "demand", "per_kw": "10", "averaging_minutes": 60}]),
        house_load={
            "kind": "annual-energy",
            "kwh_per_year": 365 * 24,
            "profile": {"hours": [0.5] * 12 + [1.5] * 12},
        },
        charging=charging(
            energy_need={"kind": "energy", "basis": "wall", "kwh_by_weekday": dict.fromkeys(WEEK, 22)},
            arrival="18:00",
            departure="06:00",
        ),
        schedules=[{"kind": "on-arrival"}, {"kind": "least-cost"}],
    )
    least = charged(request, 1)
    assert least.house is not None
    assert least.least_cost_basis == "best-of-tried"
    # Level L over 6 h beside 1.5 kW and 6 h beside 0.5 kW: 6 (L - 1.5) + 6 (L - 0.5) = 22, so that L is 34/12 kW. The
    # night in March that the clock shortens has 5 h of the latter: 11 L = 33.5.
    billed = [line for month in least.house.months for line in month.lines if line.kind == "demand"]
    expected = [34 / 12] * 12
    expected[2] = 33.5 / 11
    assert [float(line.quantity) for line in billed] == pytest.approx(expected, rel=1e-6)
    assert least.total < charged(request, 0).total


@pytest.mark.source(
    "worked by hand: a demand charge looks at the day alone, energy costs the same in every hour"
)
def test_the_hours_of_a_demand_charge_are_left_out() -> None:
    rates = [
        {"period": "day", "from": "06:00", "to": "23:00", "tiers": [{"per_kwh": "0.10"}]},
        {"period": "night", "from": "23:00", "to": "06:00", "tiers": [{"per_kwh": "0.10"}]},
    ]
    demand = {"name": "day", "period": "day", "per_kw": "5", "averaging_minutes": 60}
    request = comparison(
        flat(energy_rates=rates, demand_charges=[demand]),
        schedules=[{"kind": "least-cost"}, {"kind": "on-arrival"}],
    )
    least = charged(request)
    assert least.house is not None
    assert [line.kind for line in least.house.months[3].lines] == ["energy"]
    assert float(charged(request, 1).total - least.total) == pytest.approx(12 * 7.68 * 5, abs=0.1)


@pytest.mark.source(
    "worked by hand: two periods with tiers of their own, the first tier of the night soon full"
)
def test_the_tiers_that_are_reached_decide() -> None:
    rates = [
        {
            "period": "night",
            "from": "23:00",
            "to": "06:00",
            "tiers": [{"up_to_kwh": 10, "per_kwh": "0.05"}, {"per_kwh": "0.40"}],
        },
        {"period": "day", "from": "06:00", "to": "23:00", "tiers": [{"per_kwh": "0.20"}]},
    ]
    request = comparison(flat(energy_rates=rates), schedules=[{"kind": "least-cost"}])
    least = charged(request)
    # All by night: 0.50 + 0.40 (3650 - 120) / 12 a month; most of it belongs to the evening.
    assert least.least_cost_basis == "best-of-tried"
    assert float(least.total) <= 0.20 * 3650
