"""Bills worked by hand, line by line: a pencil, the tariff, and the days of the month."""

from datetime import datetime
from decimal import Decimal
from typing import Any

import numpy as np
import pytest
from tests.checks.charging_cost.tariffs.plain_tariffs import (
    DAY,
    FLAT,
    HALVES,
    NIGHT,
    always,
    asked,
    lines,
    load,
)

pytestmark = pytest.mark.source("worked by hand")

JANUARY, FEBRUARY, MARCH, JUNE, JULY, DECEMBER = 0, 1, 2, 5, 6, 11


def at(month: int, day: int, hour: int, kwh: float) -> Any:
    """Energy in one hour of the year and none else."""
    return lambda clock: kwh if (clock.month, clock.day, clock.hour) == (month, day, hour) else 0.0


def test_one_price_of_energy() -> None:
    # 31 days of 24 kWh at 0.10; February has 28 days.
    bill = asked().bill(load(asked(), always(1.0)))
    assert lines(bill.months[JANUARY]) == [("energy", "744", "74.40")]
    assert lines(bill.months[FEBRUARY]) == [("energy", "672", "67.20")]
    assert bill.total == Decimal("876.00")
    assert [month.month for month in bill.months] == [f"2027-{month:02}" for month in range(1, 13)]
    assert bill.greatest_demand_kw == 1.0


def test_two_periods_of_a_day() -> None:
    # 12 hours of each: 31 x 12 = 372 kWh at 0.30 and at 0.10.
    of = asked(DAY, NIGHT)
    month = of.bill(load(of, always(1.0))).months[JANUARY]
    assert [(line.period, str(line.amount)) for line in month.lines] == [
        ("day", "111.60"),
        ("night", "37.20"),
    ]
    assert month.total == Decimal("148.80")


TIERS = [{"up_to_kwh": 300, "per_kwh": "0.10"}, {"up_to_kwh": 500, "per_kwh": "0.15"}, {"per_kwh": "0.20"}]


def test_tiers_by_the_month() -> None:
    # 744 kWh: 300 at 0.10, 200 at 0.15, 244 at 0.20.
    of = asked({**FLAT, "tiers": TIERS, "allowance_per": "month"})
    month = of.bill(load(of, always(1.0))).months[JANUARY]
    assert lines(month) == [
        ("energy", "300", "30.00"),
        ("energy", "200", "30.00"),
        ("energy", "244", "48.80"),
    ]
    assert [line.tier for line in month.lines] == [0, 1, 2]


def test_tiers_by_the_day() -> None:
    # 10 kWh a day: 310 of the 744 kWh of January at 0.10, 280 of the 672 kWh of February.
    tiers = [{"up_to_kwh": 10, "per_kwh": "0.10"}, {"per_kwh": "0.20"}]
    of = asked({**FLAT, "tiers": tiers, "allowance_per": "day"})
    months = of.bill(load(of, always(1.0))).months
    assert lines(months[JANUARY]) == [("energy", "310", "31.00"), ("energy", "434", "86.80")]
    assert lines(months[FEBRUARY]) == [("energy", "280", "28.00"), ("energy", "392", "78.40")]


def test_what_is_stated_for_a_month_counts_by_days_where_a_season_ends_within_it() -> None:
    # 15 of 30 days of June: half of 300 kWh, of 10.00 a month, and of a demand of 1 kW.
    tiers = [{"up_to_kwh": 300, "per_kwh": "0.10"}, {"per_kwh": "0.20"}]
    of = asked(
        {**FLAT, "season": "first"},
        {**FLAT, "season": "second", "tiers": tiers},
        seasons=HALVES,
        fixed_charges=[{"name": "summer meter", "amount": "10.00", "per": "month", "season": "second"}],
        demand_charges=[{"name": "demand", "per_kw": "4.00", "averaging_minutes": 60, "season": "second"}],
    )
    months = of.bill(load(of, always(1.0))).months
    assert lines(months[JUNE]) == [
        ("energy", "360", "36.00"),
        ("energy", "150", "15.00"),
        ("energy", "210", "42.00"),
        ("demand", "0.5", "2.00"),
        ("fixed", "0.5", "5.00"),
    ]
    assert lines(months[JULY]) == [
        ("energy", "300", "30.00"),
        ("energy", "444", "88.80"),
        ("demand", "1", "4.00"),
        ("fixed", "1", "10.00"),
    ]
    assert lines(months[JANUARY]) == [("energy", "744", "74.40")]


def test_tiers_on_all_energy_come_on_top_of_the_periods() -> None:
    # 372 + 372 kWh by period; of all 744 the first 500 at 0.01 and 244 at 0.05.
    adder = {"name": "delivery", "tiers": [{"up_to_kwh": 500, "per_kwh": "0.01"}, {"per_kwh": "0.05"}]}
    of = asked(DAY, NIGHT, tiers_on_all_energy=[adder])
    assert lines(of.bill(load(of, always(1.0))).months[JANUARY])[2:] == [
        ("all-energy", "500", "5.00"),
        ("all-energy", "244", "12.20"),
    ]


def test_an_event_instead_of_the_price_and_one_on_top_of_it() -> None:
    # 4 h on the 6th at 1.00 in place of 0.10 and in no tier; 2 h on the 7th at 0.50 on top of it.
    events = [
        {"date": "2027-01-06", "from": "14:00", "to": "18:00", "per_kwh": "1.00", "how": "instead"},
        {"date": "2027-01-07", "from": "14:00", "to": "16:00", "per_kwh": "0.50", "how": "added"},
    ]
    tiers = [{"up_to_kwh": 700, "per_kwh": "0.10"}, {"per_kwh": "0.20"}]
    of = asked({**FLAT, "tiers": tiers}, critical_peak_events=events)
    assert lines(of.bill(load(of, always(1.0))).months[JANUARY]) == [
        ("energy", "700", "70.00"),
        ("energy", "40", "8.00"),
        ("critical-peak", "4", "4.00"),
        ("critical-peak", "2", "1.00"),
    ]


def test_what_flows_out_is_credited_by_the_interval_at_the_price_of_its_period() -> None:
    # Out by day, 12 h x 31 days at 0.05; nothing is credited at night, and night takes are not netted.
    of = asked({**DAY, "export_per_kwh": "0.05"}, NIGHT)
    month = of.bill(load(of, lambda clock: -1.0 if 8 <= clock.hour < 20 else 2.0)).months[JANUARY]
    assert lines(month) == [("energy", "744", "74.40"), ("export", "372", "-18.60")]
    assert month.lines[1].rate == Decimal("-0.05")
    assert month.total == Decimal("55.80")


QUARTERS = {0: 1.0, 15: 2.0, 30: 4.0, 45: 5.0}


def in_quarters(clock: datetime) -> float:
    """1, 2, 4 and 5 kWh in the quarters of one hour of January: 12 kW over the hour, 20 kW over its last quarter."""
    return QUARTERS[clock.minute] if (clock.month, clock.day, clock.hour) == (1, 5, 17) else 0.0


@pytest.mark.parametrize(
    ("minutes", "kw", "amount"), [(60, "12", "48.00"), (30, "18", "72.00"), (15, "20", "80.00")]
)
def test_demand_is_averaged(minutes: int, kw: str, amount: str) -> None:
    of = asked(
        step_minutes=15,
        demand_charges=[{"name": "demand", "per_kw": "4.00", "averaging_minutes": minutes}],
    )
    months = of.bill(load(of, in_quarters)).months
    assert lines(months[JANUARY])[1:] == [("demand", kw, amount)]
    assert lines(months[FEBRUARY]) == []


def test_demand_of_a_period_and_the_least_that_is_billed() -> None:
    # 9 kW at night do not count by day; 3 kW by day are billed as the least 5.
    charges = [
        {"name": "day", "per_kw": "2.00", "averaging_minutes": 60, "period": "day", "least_kw": 5},
        {"name": "any", "per_kw": "1.00", "averaging_minutes": 60},
    ]
    of = asked(DAY, NIGHT, demand_charges=charges)

    def kwh(clock: datetime) -> float:
        return at(1, 4, 9, 3.0)(clock) + at(1, 4, 22, 9.0)(clock)

    months = of.bill(load(of, kwh)).months
    assert lines(months[JANUARY])[2:] == [("demand", "5", "10.00"), ("demand", "9", "9.00")]
    assert lines(months[FEBRUARY]) == [("demand", "5", "10.00")]


def test_a_ratchet_holds_the_demand_and_takes_the_year_as_a_ring() -> None:
    # 10 kW in December: 80 % hold January and February at 8 kW; March has its own 6 kW, April 80 % of them.
    charge = {
        "name": "demand",
        "per_kw": "1.00",
        "averaging_minutes": 60,
        "ratchet": {"percent": 80, "months": 2},
    }
    of = asked(demand_charges=[charge])

    def kwh(clock: datetime) -> float:
        return at(12, 1, 9, 10.0)(clock) + at(3, 1, 9, 6.0)(clock)

    found = [month.lines[-1].quantity if month.lines else None for month in of.bill(load(of, kwh)).months]
    expected = [8, 8, 6, "4.8", "4.8", None, None, None, None, None, None, 10]
    assert found == [None if each is None else Decimal(each) for each in expected]


def test_fixed_charges_by_month_and_day_and_by_meter() -> None:
    charges = [
        {"name": "customer", "amount": "9.50", "per": "month"},
        {"name": "meter", "amount": "0.20", "per": "day", "arrangements": ["own-meter"]},
        {"name": "loyalty", "amount": "-1.00", "per": "month", "is_credit": True},
    ]
    of = asked(fixed_charges=charges)
    nothing = load(of, always(0.0))
    assert lines(of.bill(nothing, "own-meter").months[JANUARY]) == [
        ("fixed", "1", "9.50"),
        ("fixed", "31", "6.20"),
        ("fixed", "1", "-1.00"),
    ]
    assert lines(of.bill(nothing, "whole-house").months[JANUARY]) == [
        ("fixed", "1", "9.50"),
        ("fixed", "1", "-1.00"),
    ]


def test_credits_are_stated_positive_and_taken_off() -> None:
    # 0.02 for the first 100 kWh at night, 5.00 a month, 0.10 for each of the 15 days of June in the second season.
    credits = [
        {"name": "night", "per_kwh": "0.02", "period": "night", "up_to_kwh": 100},
        {"name": "climate", "amount": "5.00"},
        {"name": "summer", "amount": "0.10", "per": "day", "season": "second"},
    ]
    of = asked(DAY, NIGHT, seasons=HALVES, credits=credits)
    months = of.bill(load(of, always(1.0))).months
    assert lines(months[JUNE])[2:] == [
        ("credit", "100", "-2.00"),
        ("credit", "1", "-5.00"),
        ("credit", "15", "-1.50"),
    ]
    assert lines(months[JANUARY])[2:] == [("credit", "100", "-2.00"), ("credit", "1", "-5.00")]


def test_a_credit_of_a_period_looks_at_no_other() -> None:
    # 12 h of 2 kWh by day and of 1 kWh by night on 31 days: 372 kWh by night at 0.02, 744 by day at 0.01.
    credits = [
        {"name": "night", "per_kwh": "0.02", "period": "night"},
        {"name": "day", "per_kwh": "0.01", "period": "day"},
        {"name": "nobody's", "per_kwh": "0.50", "period": "dusk"},
    ]
    of = asked(DAY, NIGHT, credits=credits)
    months = of.bill(load(of, lambda clock: 2.0 if 8 <= clock.hour < 20 else 1.0)).months
    assert lines(months[JANUARY])[2:] == [("credit", "372", "-7.44"), ("credit", "744", "-7.44")]


def test_a_tax_is_taken_of_no_other_tax() -> None:
    # 744 kWh are 74.40: 10 % are 7.44 and 5 % 3.72, each of the energy alone.
    taxes = [
        {"name": "state", "percent": "10", "is_tax": True},
        {"name": "city", "percent": "5", "is_tax": True},
    ]
    of = asked(riders=taxes)
    assert lines(of.bill(load(of, always(1.0))).months[JANUARY]) == [
        ("energy", "744", "74.40"),
        ("tax", "74.4", "7.44"),
        ("tax", "74.4", "3.72"),
    ]


def test_riders_minimum_and_taxes_in_their_order() -> None:
    # 744 kWh: 74.40 energy, 9.60 fixed; fuel 0.01 x 744 = 7.44; 5 % of energy alone = 3.72. Energy and riders come
    # to 85.56, and 14.44 are missing to 100. Of all 109.60 the tax is 10 % = 10.96, and 1 % of energy alone 0.74.
    of = asked(
        fixed_charges=[{"name": "customer", "amount": "9.60", "per": "month"}],
        riders=[
            {"name": "city", "percent": "10", "is_tax": True},
            {"name": "fuel", "per_kwh": "0.01"},
            {"name": "transition", "percent": "5", "applies_to": ["energy"]},
            {"name": "energy tax", "percent": "1", "applies_to": ["energy"], "is_tax": True},
        ],
        minimum_bill={"amount": "100.00", "per": "month", "counts": ["energy", "riders"]},
    )
    month = of.bill(load(of, always(1.0))).months[JANUARY]
    assert lines(month) == [
        ("energy", "744", "74.40"),
        ("fixed", "1", "9.60"),
        ("rider", "744", "7.44"),
        ("rider", "74.4", "3.72"),
        ("minimum-bill", "1", "14.44"),
        ("tax", "109.6", "10.96"),
        ("tax", "74.4", "0.74"),
    ]
    assert month.total == Decimal("121.30")


def test_a_minimum_by_the_day_is_not_charged_where_it_is_reached() -> None:
    # 0.50 a day: 15.50 in January, of which 24 kWh leave 13.10 to pay; February's 67.20 are above its 14.00.
    of = asked(minimum_bill={"amount": "0.50", "per": "day", "counts": ["energy"]})
    months = of.bill(
        load(of, lambda clock: 1.0 if clock.month == 2 or (clock.month, clock.day) == (1, 9) else 0.0)
    ).months
    assert lines(months[JANUARY]) == [("energy", "24", "2.40"), ("minimum-bill", "1", "13.10")]
    assert lines(months[FEBRUARY]) == [("energy", "672", "67.20")]


def test_a_tax_is_not_paid_out_where_a_bill_is_below_nothing() -> None:
    of = asked({**FLAT, "export_per_kwh": "0.10"}, riders=[{"name": "tax", "percent": "10", "is_tax": True}])
    months = of.bill(load(of, lambda clock: -1.0 if clock.month == 1 else 1.0)).months
    assert lines(months[JANUARY]) == [("export", "744", "-74.40")]
    assert lines(months[FEBRUARY])[1:] == [("tax", "67.2", "6.72")]


def test_the_meters_own_charge_stands_as_stated() -> None:
    of = asked(riders=[{"name": "tax", "percent": "10", "is_tax": True}])
    bill = of.priced().bill(load(of, always(0.0)), "own-meter", Decimal("4.25"))
    assert lines(bill.months[JANUARY]) == [("meter", "1", "4.25")]
    assert bill.total == Decimal("51.00")


@pytest.mark.parametrize(
    ("currency", "rounding", "amount"),
    [
        ("USD", None, "0.13"),
        ("USD", {"half": "even"}, "0.12"),
        ("KWD", None, "0.125"),
        ("JPY", None, "0"),
        ("USD", {"line": False}, "0.125"),
    ],
)
def test_a_line_is_rounded_to_the_smallest_coin(currency: str, rounding: Any, amount: str) -> None:
    # 1.25 kWh at 0.10 are 0.125.
    of = asked(currency=currency, rounding=rounding)
    month = of.bill(load(of, at(1, 1, 1, 1.25))).months[JANUARY]
    assert month.lines[0].amount == Decimal(amount)


def test_where_lines_are_not_rounded_the_bill_is() -> None:
    # 0.04 kWh in each period at 0.30 and 0.10: 0.012 + 0.004 = 0.016; rounded line by line 0.01 and nothing.
    def kwh(clock: datetime) -> float:
        return at(1, 1, 9, 0.04)(clock) + at(1, 1, 22, 0.04)(clock)

    exact, by_line = asked(DAY, NIGHT, rounding={"line": False}), asked(DAY, NIGHT)
    assert exact.bill(load(exact, kwh)).months[JANUARY].total == Decimal("0.02")
    assert by_line.bill(load(by_line, kwh)).months[JANUARY].total == Decimal("0.01")


def test_quantities_of_many_digits_lose_none() -> None:
    # A billion kWh at 999,999,999,999.99999999: 30 digits before rounding.
    of = asked({**FLAT, "tiers": [{"per_kwh": "999999999999.99999999"}]})
    bill = of.bill(load(of, at(1, 1, 1, 1e9)))
    assert bill.total == Decimal("999999999999999999990.00")


def test_a_load_is_not_written_to() -> None:
    of = asked(DAY, NIGHT)
    net = load(of, lambda clock: 1.0 - clock.hour / 12)
    before = net.copy()
    of.bill(net)
    assert np.array_equal(net, before)
