"""What the next kWh costs, what stops a bill, and how long intervals may be."""

from datetime import date, datetime
from typing import Any
from zoneinfo import ZoneInfo

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.checks.charging_cost.asked_bills import Asked
from tests.checks.charging_cost.strategies import FLOWS, Drawn, Flows, drawn_tariffs
from tests.checks.charging_cost.tariffs.plain_tariffs import (
    DAY,
    FLAT,
    HALVES,
    NIGHT,
    always,
    asked,
    load,
    tariff,
)
from tests.checks.effort import examples

from branchwright.checks.charging_cost.tariffs.bills import UnpriceableError
from branchwright.checks.charging_cost.tariffs.facts import Tariff
from branchwright.checks.charging_cost.tariffs.local_year import local_year
from branchwright.checks.charging_cost.tariffs.priced import PricedTariff, least_step_minutes

BY_HAND = pytest.mark.source("worked by hand")


def index_at(of: Asked, moment: datetime) -> int:
    year = of.priced().year
    return next(at for at in range(year.count) if year.clock(at).replace(tzinfo=None) == moment)


@BY_HAND
def test_the_next_kwh_bears_riders_events_and_taxes() -> None:
    # By day 0.30, with 5 % of energy 0.315, fuel 0.01: 0.325, less a credit of 0.02: 0.305, with 10 % tax 0.3355.
    # An added event of 0.50 comes to 0.525 with the 5 % and 0.5775 with the tax; one of 1.00 instead to
    # (1.05 + 0.01 - 0.02) x 1.1 = 1.144.
    of = asked(
        {**DAY, "export_per_kwh": "0.05"},
        NIGHT,
        riders=[
            {"name": "share", "percent": "5"},
            {"name": "fuel", "per_kwh": "0.01"},
            {"name": "tax", "percent": "10", "is_tax": True},
        ],
        credits=[{"name": "green", "per_kwh": "0.02"}],
        critical_peak_events=[
            {"date": "2027-01-06", "from": "14:00", "to": "15:00", "per_kwh": "0.50", "how": "added"},
            {"date": "2027-01-07", "from": "14:00", "to": "15:00", "per_kwh": "1.00", "how": "instead"},
        ],
    )
    priced = of.priced()
    found = [
        priced.marginal_per_kwh[index_at(of, datetime(2027, 1, day, hour))]
        for day, hour in ((5, 14), (5, 22), (6, 14), (7, 14))
    ]
    assert found == pytest.approx([0.3355, 0.1045, 0.3355 + 0.5775, 1.144])
    assert priced.export_per_kwh[index_at(of, datetime(2027, 1, 5, 14))] == pytest.approx(0.055)
    assert priced.export_per_kwh[index_at(of, datetime(2027, 1, 5, 22))] == 0.0


@BY_HAND
def test_the_tier_that_a_load_reaches_is_the_next_kwhs_price() -> None:
    # 744 kWh in January are past 700, 672 in February are not; the first tier costs 0.10 everywhere.
    tiers = [{"up_to_kwh": 700, "per_kwh": "0.10"}, {"per_kwh": "0.20"}]
    of = asked({**FLAT, "tiers": tiers})
    priced = of.priced()
    assert set(priced.marginal_per_kwh) == {0.1}
    reached = priced.marginal_reached(load(of, always(1.0)))
    assert reached[0] == 0.2
    assert reached[31 * 24] == 0.1
    # 25 kWh on each of 28 days are 700: what comes next is past them.
    full = priced.marginal_reached(
        load(of, lambda clock: 25.0 if clock.hour == 0 and clock.day <= 28 else 0.0)
    )
    assert set(full) == {0.2}


@pytest.mark.source("the difference of two bills of the same tariff")
@examples(40)
@given(drawn_tariffs(), FLOWS, st.data())
def test_one_more_kwh_costs_its_marginal_price_where_the_tariff_is_linear(
    drawn: Drawn, flows: Flows, data: st.DataObject
) -> None:
    # A tax in percent stops at a bill below nothing: where there is one, nothing is credited.
    riders = drawn.tariff["riders"]
    taxed = any(each["is_tax"] and "percent" in each for each in riders)
    plain = {
        **drawn.tariff,
        "demand_charges": [],
        "minimum_bill": None,
        "tiers_on_all_energy": [
            {**each, "tiers": each["tiers"][-1:]} for each in drawn.tariff["tiers_on_all_energy"]
        ],
        "energy_rates": [
            {**rate, "tiers": rate["tiers"][-1:], "export_per_kwh": None}
            for rate in drawn.tariff["energy_rates"]
        ],
        "credits": [] if taxed else [{**each, "up_to_kwh": None} for each in drawn.tariff["credits"]],
        "riders": [each for each in riders if not (taxed and each.get("is_credit"))],
        "rounding": {"line": False},
        "currency": "KWD",
    }
    priced = Asked(plain, drawn.year, drawn.step_minutes, drawn.first_month).priced()
    assert priced.is_linear
    net_kwh = np.abs(np.array(flows.kwh(priced.year.count))) + 1.0
    # So much at once that the bill's own rounding to a thousandth does not count.
    at = data.draw(st.integers(0, priced.year.count - 1))
    more = net_kwh.copy()
    more[at] += 1e6
    difference = priced.bill(more).total - priced.bill(net_kwh).total
    assert float(difference) == pytest.approx(priced.marginal_per_kwh[at] * 1e6, rel=1e-6, abs=0.01)


@pytest.mark.parametrize(
    ("more", "is_linear"),
    [
        ({}, True),
        ({"riders": [{"name": "tax", "percent": "10", "is_tax": True}]}, True),
        ({"minimum_bill": {"amount": "1", "per": "month", "counts": ["energy"]}}, False),
        ({"credits": [{"name": "climate", "amount": "5"}]}, True),
        (
            {
                "credits": [{"name": "climate", "amount": "5"}],
                "riders": [{"name": "tax", "percent": "10", "is_tax": True}],
            },
            False,
        ),
        ({"demand_charges": [{"name": "kw", "per_kw": "1", "averaging_minutes": 60}]}, False),
        ({"credits": [{"name": "green", "per_kwh": "0.1", "up_to_kwh": 5}]}, False),
        (
            {
                "tiers_on_all_energy": [
                    {"name": "all", "tiers": [{"up_to_kwh": 1, "per_kwh": "1"}, {"per_kwh": "2"}]}
                ]
            },
            False,
        ),
    ],
)
@BY_HAND
def test_what_makes_a_cost_depend_on_more_than_its_hour(more: Any, is_linear: bool) -> None:
    assert asked(**more).priced().is_linear is is_linear


EARLY = {**DAY, "period": "early", "from": "06:00", "to": "10:00"}


@pytest.mark.parametrize(
    ("rates", "message"),
    [
        ([DAY], "no price at 2027-01-01 00:00"),
        ([DAY, NIGHT, EARLY], "two prices at 2027-01-01 06:00"),
        ([{**FLAT, "season": "first"}], "no price at 2027-06-16 00:00"),
        ([{**FLAT, "day_type": "unknown"}], "no price at 2027-01-01 00:00"),
        ([{**FLAT, "tiers": []}], "no open last tier at /energy_rates/0/tiers"),
        (
            [{**FLAT, "tiers": [{"up_to_kwh": 5, "per_kwh": "1"}]}],
            "no open last tier at /energy_rates/0/tiers",
        ),
    ],
)
@BY_HAND
def test_a_bill_is_refused_where_an_hour_has_not_one_price(rates: Any, message: str) -> None:
    of = asked(*rates, seasons=HALVES)
    with pytest.raises(UnpriceableError, match=message):
        of.bill(load(of, always(0.0)))


@BY_HAND
def test_a_bill_is_refused_where_an_energy_is_no_number() -> None:
    of = asked()
    net_kwh = load(of, always(1.0))
    net_kwh[5000] = np.nan
    with pytest.raises(ValueError, match="no number"):
        of.bill(net_kwh)


@BY_HAND
def test_prices_are_no_number_where_there_is_none() -> None:
    of = asked(DAY)
    prices = of.priced().marginal_per_kwh
    assert np.isnan(prices[0])
    assert prices[12] == 0.3


@pytest.mark.parametrize(
    ("clock", "zone", "minutes"),
    [
        ("08:00", "UTC", 60),
        ("08:30", "UTC", 30),
        ("08:45", "UTC", 15),
        ("08:00", "Australia/Lord_Howe", 30),
        ("08:00", "Nowhere/At_All", 60),
    ],
)
@BY_HAND
def test_intervals_are_as_long_as_prices_and_clock_allow(clock: str, zone: str, minutes: int) -> None:
    of = tariff({**DAY, "from": clock}, {**NIGHT, "to": clock}, time_zone=zone)
    assert least_step_minutes([Tariff.model_validate(of)], date(2027, 1, 1)) == minutes


@BY_HAND
def test_an_event_can_ask_for_shorter_intervals() -> None:
    event = {"date": "2027-01-06", "from": "14:15", "to": "16:00", "per_kwh": "1", "how": "added"}
    parsed = Tariff.model_validate(tariff(critical_peak_events=[event]))
    assert least_step_minutes([parsed], date(2027, 1, 1)) == 15
    with pytest.raises(ValueError, match="within 60 minutes"):
        PricedTariff(parsed, local_year(ZoneInfo("UTC"), date(2027, 1, 1), 60))


@BY_HAND
def test_demand_is_averaged_over_no_less_than_an_interval() -> None:
    # A charger that comes on at half past draws all its power in two quarters; an hour would show half of it.
    charge = {"name": "kw", "per_kw": "1", "averaging_minutes": 15}
    assert (
        least_step_minutes([Tariff.model_validate(tariff(demand_charges=[charge]))], date(2027, 1, 1)) == 15
    )


NAMES = st.sampled_from([None, "first", "second", "nobody", "day", "night"])
CLOCKS = st.integers(0, 23).map(lambda hour: f"{hour:02}:00")
DATES = st.sampled_from(["2027-02-30", "2027-06-16", "2026-01-01", "2027-12-31"])
DAYS = st.sampled_from(["01-01", "02-29", "06-15", "11-31", "12-31"])
TIERS = st.lists(
    st.fixed_dictionaries(
        {"up_to_kwh": st.none() | st.integers(1, 50), "per_kwh": st.sampled_from(["0.1", "-2"])}
    ),
    max_size=3,
)
UNSOUND = st.fixed_dictionaries(
    {
        "name": st.just("unsound"),
        "currency": st.sampled_from(["USD", "QQQ"]),
        "time_zone": st.just("UTC"),
        "country": st.sampled_from([None, "US", "QQ"]),
        "subdivision": st.sampled_from([None, "CO", "QQ"]),
        "holiday_dates": st.lists(DATES, max_size=2),
        "seasons": st.lists(
            st.fixed_dictionaries({"name": NAMES.filter(bool), "from": DAYS, "to": DAYS}), max_size=3
        ),
        "day_types": st.lists(
            st.fixed_dictionaries(
                {
                    "name": NAMES.filter(bool),
                    "weekdays": st.lists(st.sampled_from(["mon", "sun"]), max_size=3),
                    "holidays": st.sampled_from([None, "included", "excluded", "ignored"]),
                }
            ),
            max_size=3,
        ),
        "energy_rates": st.lists(
            st.fixed_dictionaries(
                {
                    "period": NAMES.filter(bool),
                    "season": NAMES,
                    "day_type": NAMES,
                    "from": CLOCKS,
                    "to": CLOCKS,
                    "tiers": TIERS,
                }
            ),
            max_size=4,
        ),
        "tiers_on_all_energy": st.lists(
            st.fixed_dictionaries({"name": st.just("all"), "season": NAMES, "tiers": TIERS}), max_size=2
        ),
        "demand_charges": st.lists(
            st.fixed_dictionaries(
                {
                    "name": st.just("kw"),
                    "season": NAMES,
                    "period": NAMES,
                    "per_kw": st.just("1"),
                    "averaging_minutes": st.sampled_from([15, 60]),
                }
            ),
            max_size=2,
        ),
        "riders": st.lists(
            st.fixed_dictionaries(
                {
                    "name": st.just("rider"),
                    "season": NAMES,
                    "per_kwh": st.none() | st.just("1"),
                    "percent": st.none() | st.just("-400"),
                    "is_tax": st.booleans(),
                }
            ),
            max_size=2,
        ),
        "critical_peak_events": st.lists(
            st.fixed_dictionaries(
                {
                    "date": DATES,
                    "from": CLOCKS,
                    "to": CLOCKS,
                    "per_kwh": st.sampled_from(["1", "2"]),
                    "how": st.sampled_from(["added", "instead"]),
                }
            ),
            max_size=3,
        ),
    }
)


@pytest.mark.source("the promise that an unsound tariff ends in findings, or in one refusal")
@examples(150)
@given(UNSOUND, FLOWS)
def test_an_unsound_tariff_is_billed_or_refused_and_never_breaks(drawn: Any, flows: Flows) -> None:
    of = Asked(drawn, 2027)
    net_kwh = np.array(flows.kwh(8760))
    priced = of.priced()
    assert len(priced.marginal_per_kwh) == len(priced.export_per_kwh) == 8760
    assert len(priced.marginal_reached(net_kwh)) == 8760
    if priced.unpriceable is None:
        bill = priced.bill(net_kwh)
        assert bill.total == sum(month.total for month in bill.months)
    else:
        with pytest.raises(UnpriceableError):
            priced.bill(net_kwh)
