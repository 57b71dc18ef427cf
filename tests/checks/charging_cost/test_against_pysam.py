"""Bills of a year against a utility-rate module that others wrote, month by month and to the cent.

Its calendar is one of 8760 hours from a Monday, without holidays and changes of the clock: that is set on our side too.
Only the bill is rounded, since the module rounds nothing; what is compared is in whole cents.
"""

from collections.abc import Sequence
from decimal import ROUND_HALF_UP, Decimal
from functools import cache
from itertools import pairwise
from typing import Any

import pytest
from tests.checks.charging_cost import pysam_cases as outside
from tests.checks.charging_cost.asked_bills import Asked, of_kind
from tests.checks.charging_cost.pysam_cases import CASES, SHAPES, YEAR, Case

PYSAM = pytest.mark.source("nrel-pysam, module Utilityrate5: another implementation, in C++")
CENT = Decimal("0.01")
NEAR = 1e-4
"""Dollars; the module sums binary fractions, and hands out some peaks in single precision."""

ENERGY = ("energy", "all-energy")


def cents(amount: float | Decimal) -> Decimal:
    return Decimal(str(round(amount, 8))).quantize(CENT, ROUND_HALF_UP)


@cache
def load(shape: str) -> Sequence[float]:
    return outside.load_kwh(shape)


def billed(case: Case, net_kwh: Sequence[float]) -> Any:
    tariff = {**case.tariff(), "rounding": {"line": False}}
    return Asked(tariff, YEAR).bill(net_kwh)


@PYSAM
@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("case", CASES, ids=[case.name for case in CASES])
def test_every_month_is_equal_to_the_cent(case: Case, shape: str) -> None:
    ours = billed(case, load(shape))
    theirs = outside.priced_by_module(case, load(shape))
    assert len(ours.months) == 12
    for place, month in enumerate(ours.months):
        assert month.total == cents(theirs.total[place])
        assert float(of_kind(month, *ENERGY)) == pytest.approx(theirs.energy[place], abs=NEAR)
        assert float(of_kind(month, "demand")) == pytest.approx(theirs.demand[place], abs=NEAR)
        assert float(of_kind(month, "fixed")) == pytest.approx(theirs.fixed[place], abs=NEAR)
        assert float(of_kind(month, "minimum-bill")) == pytest.approx(theirs.minimum[place], abs=NEAR)
    assert float(ours.total) == pytest.approx(sum(theirs.total), abs=12 * 0.005 + NEAR)


@PYSAM
@pytest.mark.parametrize("shape", SHAPES)
def test_lines_that_are_rounded_differ_by_no_more_than_half_a_cent_each(shape: str) -> None:
    for case in CASES:
        ours = Asked(case.tariff(), YEAR).bill(load(shape))
        theirs = outside.priced_by_module(case, load(shape))
        for place, month in enumerate(ours.months):
            assert abs(float(month.total) - theirs.total[place]) <= 0.005 * len(month.lines) + NEAR


@PYSAM
@pytest.mark.parametrize("months", [11, 3])
def test_a_ratchet_bills_what_the_module_bills(months: int) -> None:
    # The module is told the peaks of the year before; with those of this year the year is a ring, as it is with us.
    net = load("evening peak")
    ends = [0, *outside.MONTH_ENDS]
    peaks = [max(net[first:after]) for first, after in pairwise(ends)]
    case = Case(
        "demand with a ratchet",
        {
            "energy_rates": [outside.all_day("0.041")],
            "demand_charges": [outside.demand_charge("7.20", ratchet={"percent": 85, "months": months})],
        },
        [[1, 1, outside.ENDLESS, outside.KWH, 0.041, 0]],
        more={
            **outside.demand(outside.monthly_demand([7.2] * 12)),
            "ur_enable_billing_demand": 1,
            "ur_billing_demand_lookback_period": months,
            "ur_billing_demand_minimum": 0,
            "ur_billing_demand_lookback_percentages": [[85, 1]] * 12,
            "ur_dc_billing_demand_periods": [[1, 1]],
            "ur_yearzero_usage_peaks": peaks,
        },
    )
    theirs = outside.priced_by_module(case, net)
    assert max(theirs.demand) < 7.2 * max(peaks) + NEAR
    assert any(bill > 7.2 * peak + 1 for bill, peak in zip(theirs.demand, peaks, strict=True))
    assert [month.total for month in billed(case, net).months] == [cents(each) for each in theirs.total]


def exports(case_prices: list[list[float]], ours: dict[str, Any]) -> Case:
    return Case(
        "what is fed in",
        ours,
        case_prices,
        outside.every_month(outside.NIGHT),
        outside.every_month(outside.NIGHT),
    )


@PYSAM
def test_what_is_fed_in_is_credited_hour_by_hour() -> None:
    # Net billing: each hour is drawn or fed in, at the price of its period.
    case = exports(
        [
            [1, 1, outside.ENDLESS, outside.KWH, 0.11, 0.035],
            [2, 1, outside.ENDLESS, outside.KWH, 0.24, 0.062],
        ],
        {
            "energy_rates": [
                outside.rate("night", "22:00", "07:00", "0.11", export_per_kwh="0.035"),
                outside.rate("day", "07:00", "22:00", "0.24", export_per_kwh="0.062"),
            ]
        },
    )
    house, panels = load("evening peak and charging by night"), outside.generation_kwh()
    net = [round(drawn - made, 3) for drawn, made in zip(house, panels, strict=True)]
    assert min(net) < 0
    module = outside.module_of(case, house, panels, outside.NET_BILLING)
    module.ElectricityRates.assign({"ur_nb_apply_credit_current_month": 1})
    module.execute(0)
    theirs = module.Outputs.year1_monthly_utility_bill_w_sys
    assert min(theirs) > 0, "a bill below zero is carried over by the module, and is not by us"
    assert [month.total for month in billed(case, net).months] == [cents(each) for each in theirs]


@PYSAM
def test_quarter_hours_are_summed_and_their_demand_is_averaged() -> None:
    # The module takes powers of quarter hours, and its demand is the greatest of them.
    case = Case(
        "quarter hours",
        {
            "energy_rates": [
                outside.rate("night", "22:00", "07:00", "0.061"),
                outside.rate("day", "07:00", "22:00", "0.143"),
            ],
            "demand_charges": [outside.demand_charge("5.55", averaging_minutes=15)],
        },
        [[1, 1, outside.ENDLESS, outside.KWH, 0.061, 0], [2, 1, outside.ENDLESS, outside.KWH, 0.143, 0]],
        outside.every_month(outside.NIGHT),
        outside.every_month(outside.NIGHT),
        more=outside.demand(outside.monthly_demand([5.55] * 12)),
    )
    hourly = load("evening peak and charging by night")
    powers_kw = [
        round(hourly[quarter // 4] * (0.7, 1.6, 0.9, 0.8)[quarter % 4], 3)
        for quarter in range(4 * outside.HOURS)
    ]
    theirs = outside.module_priced(case, powers_kw)
    tariff = {**case.tariff(), "rounding": {"line": False}}
    ours = Asked(tariff, YEAR, step_minutes=15).bill([power / 4 for power in powers_kw])
    assert [month.total for month in ours.months] == [cents(each) for each in theirs.total]
