"""Least-cost schedules against the optimum that a linear program finds for the same year."""

from collections.abc import Sequence
from datetime import datetime
from random import Random
from typing import Any
from zoneinfo import ZoneInfo

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import linprog
from scipy.sparse import coo_array
from tests.checks.charging_cost.asked_comparisons import LEAST_COST, charging, compared, comparison, option
from tests.checks.charging_cost.interval_prices import next_kwh
from tests.checks.charging_cost.reference_pricing import Reference, fraction
from tests.checks.charging_cost.reference_schedules import Schedules
from tests.checks.charging_cost.strategies import Drawn, Stay, linear_tariffs, stays
from tests.checks.effort import examples

Json = dict[str, Any]

HIGHS = pytest.mark.source("SciPy, scipy.optimize.linprog with the solver HiGHS")

NEAR = 12 * 0.005 + 1e-3
"""Dollars: each month's bill is rounded to a cent."""


def least_cost(priced: Reference, nights: Schedules, other_kwh: Sequence[float]) -> float:
    """Return the least that energy can cost in the year, the house's own and what is fed in included.

    Variables are the energy of each night in each of its intervals, and what each interval takes from the grid and
    feeds into it. Every night gets what it needs, as far as its intervals have room for it.
    """
    prices = np.array(next_kwh(priced))
    credited = [priced.rate(at).get("export_per_kwh") for at in priced.intervals]
    exports = np.array([0.0 if each is None else float(fraction(each)) for each in credited])
    count = len(prices)
    rows, columns, signs, ends, most = [], [], [], list(other_kwh), []
    for night in nights.nights(LEAST_COST):
        room = sum(each for _, each in night.room)
        for place, each in night.room:
            rows += [place, len(ends)]
            columns += [len(most), len(most)]
            signs += [-1.0, 1.0]
            most.append(each)
        ends.append(min(night.need_kwh, room))
    taken, fed = len(most), len(most) + count
    for place in range(count):
        rows += [place, place]
        columns += [taken + place, fed + place]
        signs += [1.0, -1.0]
    solved = linprog(
        np.concatenate([np.zeros(len(most)), prices, -exports]),
        A_eq=coo_array((signs, (rows, columns)), shape=(len(ends), fed + count)).tocsr(),
        b_eq=ends,
        bounds=[*((0, each) for each in most), *[(0, None)] * (2 * count)],
        method="highs",
    )
    assert solved.status == 0, solved.message
    return float(solved.fun)


def fixed_cost(tariff: Json) -> float:
    """Return what the fixed charges of a year cost, with taxes."""
    factor = 1 + sum(float(rider["percent"]) / 100 for rider in tariff["riders"])
    return 12 * factor * sum(float(charge["amount"]) for charge in tariff["fixed_charges"])


def asked_of(drawn: Drawn, stay: Stay, **more: Any) -> Json:
    vehicle = charging(
        {"kind": "energy", "basis": "wall", "kwh_by_weekday": stay.kwh_by_weekday},
        arrival=stay.arrival,
        departure=stay.departure,
        current_a=stay.current_a,
    )
    return comparison(
        [drawn.tariff], vehicle, [LEAST_COST], year=drawn.year, arrangements=["whole-house"], **more
    )


@HIGHS
@examples(8)
@given(linear_tariffs(), stays())
def test_no_schedule_costs_less(drawn: Drawn, stay: Stay) -> None:
    asked = asked_of(drawn, stay)
    answer = compared(asked)
    step = answer["interval_minutes"]
    priced, nights = Reference(drawn.tariff, drawn.year, step), Schedules(asked, step)
    best = least_cost(priced, nights, [0.0] * len(priced.intervals)) + fixed_cost(drawn.tariff)
    assert float(option(answer)["annual"]["with_charging"]) == pytest.approx(best, abs=NEAR)


def series(zone: str, kwh: Sequence[float], step: int) -> Json:
    begins = datetime(2027, 1, 1, tzinfo=ZoneInfo(zone)).isoformat()
    return {"kind": "intervals", "start": begins, "interval_minutes": step, "energy_kwh": list(kwh)}


@HIGHS
@examples(8)
@given(linear_tariffs(exports=True), stays(), st.integers(0, 10**6))
def test_no_schedule_costs_less_where_a_roof_has_a_surplus(drawn: Drawn, stay: Stay, number: int) -> None:
    random = Random(number)  # noqa: S311 - flows to price, no secret
    step = drawn.step_minutes
    priced = Reference(drawn.tariff, drawn.year, step)
    house = [random.randint(0, 900) / 1000 for _ in priced.intervals]
    roof = [random.randint(0, 5000) / 1000 if 480 <= at.minute < 1140 else 0.0 for at in priced.intervals]
    zone = drawn.tariff["time_zone"]
    asked = asked_of(drawn, stay, house_load=series(zone, house, step), generation=series(zone, roof, step))
    answer = compared(asked)
    assert answer["interval_minutes"] == step
    net = [one - other for one, other in zip(house, roof, strict=True)]
    best = least_cost(priced, Schedules(asked, step), net) + fixed_cost(drawn.tariff)
    found = option(answer)
    assert found["least_cost_basis"] == "optimum"
    assert float(found["annual"]["with_charging"]) == pytest.approx(best, abs=NEAR)
