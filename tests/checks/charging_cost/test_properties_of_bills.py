"""What has to hold between two bills, whatever the tariff and the load."""

from copy import deepcopy
from datetime import date
from decimal import Decimal
from fractions import Fraction
from random import Random
from typing import Any
from zoneinfo import ZoneInfo

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from tests.checks.charging_cost.asked_bills import Asked
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
from tests.checks.charging_cost.strategies import (
    FLOWS,
    Drawn,
    Flows,
    Stay,
    drawn_tariffs,
    linear_tariffs,
    stays,
)
from tests.checks.effort import examples

from branchwright.checks.charging_cost.tariffs.local_year import local_year

Json = dict[str, Any]

pytestmark = pytest.mark.source("follows from what a tariff is: arithmetic alone")


def asked(drawn: Drawn, tariff: Json | None = None) -> Asked:
    return Asked(tariff or drawn.tariff, drawn.year, drawn.step_minutes, drawn.first_month)


def count_of(drawn: Drawn) -> int:
    first = date(drawn.year, drawn.first_month, 1)
    return local_year(ZoneInfo(drawn.tariff["time_zone"]), first, drawn.step_minutes).count


def prices_of(tariff: Json) -> list[tuple[Json, str]]:
    """Return every price that a customer pays: where it stands, and under which name."""
    found: list[tuple[Json, str]] = []
    for rate in [*tariff["energy_rates"], *tariff["tiers_on_all_energy"]]:
        found += [(tier, "per_kwh") for tier in rate["tiers"]]
    found += [(charge, "amount") for charge in tariff["fixed_charges"]]
    found += [(charge, "per_kw") for charge in tariff["demand_charges"]]
    found += [(event, "per_kwh") for event in tariff["critical_peak_events"]]
    found += [
        (rider, name)
        for rider in tariff["riders"]
        for name in ("per_kwh", "percent")
        if rider.get(name) is not None
    ]
    if tariff["minimum_bill"] is not None:
        found.append((tariff["minimum_bill"], "amount"))
    return found


@examples(40)
@given(drawn_tariffs(), FLOWS, st.integers(0, 10**6), st.sampled_from(["0.00001", "0.01", "2.5"]))
def test_raising_a_price_never_lowers_a_bill(drawn: Drawn, flows: Flows, number: int, by: str) -> None:
    net = flows.kwh(count_of(drawn))
    before = asked(drawn).bill(net)
    # Rows of one price share the tiers in what is drawn: a copy keeps that, so that they rise together.
    dearer = deepcopy(drawn.tariff)
    prices = prices_of(dearer)
    where, name = prices[number % len(prices)]
    where[name] = str(Decimal(where[name]) + Decimal(by))
    if Decimal(where[name]) >= 0:
        where.pop("is_credit", None)
    after = asked(drawn, dearer).bill(net)
    for one, other in zip(before.months, after.months, strict=True):
        assert other.total >= one.total
    assert after.total >= before.total


@examples(10)
@given(linear_tariffs(), FLOWS, st.integers(0, 10**6))
def test_moving_energy_to_a_cheaper_hour_never_raises_a_bill(drawn: Drawn, flows: Flows, number: int) -> None:
    assume(not flows.exports)
    random = Random(number)  # noqa: S311 - a choice of hours, no secret
    net = flows.kwh(count_of(drawn))
    plain = Reference(drawn.tariff, drawn.year, drawn.step_minutes)
    prices = next_kwh(plain)
    before = asked(drawn).bill(net)
    for _ in range(50):
        one = random.randrange(len(net))
        same_month = [place for place in (one + 7, one + 12, one + 29, one + 201) if place < len(net)]
        for other in same_month:
            if plain.intervals[other].month == plain.intervals[one].month:
                dear, cheap = (one, other) if prices[one] > prices[other] else (other, one)
                moved = round(net[dear] * random.random(), 3)
                net[dear] = round(net[dear] - moved, 3)
                net[cheap] = round(net[cheap] + moved, 3)
    after = asked(drawn).bill(net)
    for month, later in zip(before.months, after.months, strict=True):
        assert later.total <= month.total


@examples(30)
@given(drawn_tariffs(), FLOWS)
def test_a_bill_is_the_sum_of_its_lines(drawn: Drawn, flows: Flows) -> None:
    plain = Reference(drawn.tariff, drawn.year, drawn.step_minutes, drawn.first_month)
    bills = asked(drawn).bill(flows.kwh(count_of(drawn)))
    for month in bills.months:
        lines = sum((Fraction(line.amount) for line in month.lines), Fraction(0))
        assert Fraction(month.total) == (lines if plain.rounds_lines else plain.rounded(lines))
    assert bills.total == sum(month.total for month in bills.months)


@examples(25)
@given(drawn_tariffs(), FLOWS, st.integers(2, 12))
def test_a_year_in_two_spans_comes_to_the_same(drawn: Drawn, flows: Flows, month: int) -> None:
    # What lies before the month is billed with nothing after it, and what lies after with nothing before it.
    assume(all(charge["ratchet"] is None for charge in drawn.tariff["demand_charges"]))
    plain = Reference(drawn.tariff, drawn.year, drawn.step_minutes, drawn.first_month)
    net = flows.kwh(len(plain.intervals))
    parts = [
        [
            kwh if (at.month < month - 1) == is_before else 0.0
            for at, kwh in zip(plain.intervals, net, strict=True)
        ]
        for is_before in (True, False)
    ]
    whole = asked(drawn).bill(net)
    before, after = (asked(drawn).bill(part) for part in parts)
    assert whole.months == before.months[: month - 1] + after.months[month - 1 :]
    spans = before.months[: month - 1], after.months[month - 1 :]
    assert whole.total == sum(bill.total for span in spans for bill in span)


@examples(15)
@given(drawn_tariffs(), FLOWS, st.sampled_from([4, 7, 11]))
def test_a_month_is_billed_alike_in_a_year_that_begins_elsewhere(
    drawn: Drawn, flows: Flows, month: int
) -> None:
    assume(all(charge["ratchet"] is None for charge in drawn.tariff["demand_charges"]))
    first, second = ((drawn.year, 1), (drawn.year, month))
    years = [Asked(drawn.tariff, year, drawn.step_minutes, begins) for year, begins in (first, second)]
    intervals = [
        Reference(drawn.tariff, year, drawn.step_minutes, begins).intervals
        for year, begins in (first, second)
    ]
    drawn_kwh = dict(zip((each.starts for each in intervals[0]), flows.kwh(len(intervals[0])), strict=True))
    bills = [
        one.bill([drawn_kwh.get(each.starts, 0.0) for each in span])
        for one, span in zip(years, intervals, strict=True)
    ]
    shared = 13 - month
    assert bills[0].months[month - 1 :] == bills[1].months[:shared]


@examples(40)
@given(drawn_tariffs(), FLOWS, st.randoms(use_true_random=False))
def test_the_order_of_rates_is_of_no_matter(drawn: Drawn, flows: Flows, random: Random) -> None:
    net = flows.kwh(count_of(drawn))
    shuffled = {**drawn.tariff, "energy_rates": list(drawn.tariff["energy_rates"])}
    random.shuffle(shuffled["energy_rates"])
    for one, other in zip(
        asked(drawn).bill(net).months, asked(drawn, shuffled).bill(net).months, strict=True
    ):
        assert one.total == other.total
        assert sorted(amounts(one)) == sorted(amounts(other))


def amounts(bill: Any) -> list[tuple[str, str, Decimal]]:
    return [(line.kind, line.name, line.amount) for line in bill.lines]


@examples(12)
@given(stays(), st.integers(1, 60000))
def test_with_one_price_every_schedule_costs_the_same(stay: Stay, price: int) -> None:
    whole_day = {"up_to_kwh": None, "per_kwh": f"0.{price:05}"}
    tariff = {
        "name": "flat",
        "currency": "USD",
        "time_zone": "America/New_York",
        "energy_rates": [{"period": "any-time", "from": "00:00", "to": "00:00", "tiers": [whole_day]}],
        "rounding": {"line": False},
    }
    vehicle = charging(
        {"kind": "energy", "basis": "wall", "kwh_by_weekday": stay.kwh_by_weekday},
        arrival=stay.arrival,
        departure=stay.departure,
        current_a=48,
    )
    schedules = [ON_ARRIVAL, {"kind": "timer", "windows": stay.windows[:1]}, LEAST_COST]
    answer = compared(comparison([tariff], vehicle, schedules, arrangements=["whole-house"]))
    options = [option(answer, place) for place in range(3)]
    assert {round(each["charged_kwh"], 6) for each in options} == {round(options[0]["charged_kwh"], 6)}
    costs = [float(each["annual"]["charging"]) for each in options]
    # Each of the twelve bills is rounded to a cent.
    assert max(costs) - min(costs) <= 0.12 + 1e-9
