"""The numbers of the pictures about money, held against a calendar and a bill that are worked out here, day by day."""

import itertools
from collections.abc import Iterator
from datetime import date, timedelta
from decimal import ROUND_HALF_UP, Decimal
from typing import Any

import pytest

DAYS_OFF = {
    date(2027, month, day)
    for month, day in [
        *((1, 1), (1, 18), (2, 15), (5, 31), (6, 18), (7, 5)),
        *((9, 6), (10, 11), (11, 11), (11, 25), (12, 24), (12, 31)),
    ]
}
"""Of the year 2027, on the day on which they are observed: 19 June and 25 December are Saturdays, 4 July is a Sunday,
and the New Year of 2028 is a Saturday.
"""

FORWARD, BACK = date(2027, 3, 14), date(2027, 11, 7)
WINTER_FACTORS = [Decimal(text) for text in ("1.3", "1.2", "1.1", *["1"] * 7, "1.1", "1.2")]
FUEL, TAX_PERCENT = Decimal("0.004"), Decimal(3)
PRICES = {
    ("summer", True): Decimal("0.33"),
    ("summer", False): Decimal("0.125"),
    ("winter", True): Decimal("0.20"),
    ("winter", False): Decimal("0.11"),
}
"""By season, and whether the hour is dear: those of the guide on tariffs."""

LAW = "5 U.S.C. 6103: public holidays, and those observed on Friday or Monday; read off a calendar by hand"


def days(month: int) -> Iterator[date]:
    day = date(2027, month, 1)
    while day.month == month:
        yield day
        day += timedelta(days=1)


def hours(day: date) -> list[int]:
    """What the clock shows at the begin of each hour: 2 o'clock is skipped in March, 1 o'clock comes twice in fall."""
    return [hour for hour in range(24) if not (day == FORWARD and hour == 2)] + [1] * (day == BACK)


def season(day: date) -> str:
    return "summer" if 6 <= day.month <= 9 else "winter"


def is_dear(day: date, hour: int) -> bool:
    begin = 15 if season(day) == "summer" else 17
    return day.weekday() < 5 and day not in DAYS_OFF and begin <= hour < 20


def cents(amount: Decimal) -> Decimal:
    return amount.quantize(Decimal("0.01"), ROUND_HALF_UP)


def billed(energy: dict[Decimal, Decimal], fixed: Decimal) -> Decimal:
    """Return a month's bill of energy in kWh by its price."""
    lines = [cents(kwh * price) for price, kwh in energy.items()]
    lines += [cents(sum(energy.values(), Decimal(0)) * FUEL), fixed]
    return sum(lines, Decimal(0)) + cents(sum(lines, Decimal(0)) * TAX_PERCENT / 100)


def year(house: str, charging: str | None) -> Decimal:
    """Return a year of bills: the house by one price or by the hour, and when the vehicle charges on which meter."""
    total = Decimal(0)
    for month in range(1, 13):
        by_hour = {price: Decimal(0) for price in PRICES.values()}
        on_one = Decimal(0)
        for day in days(month):
            for hour in hours(day):
                by_hour[PRICES[season(day), is_dear(day, hour)]] += 1
                on_one += 1
        need = 12 * WINTER_FACTORS[month - 1]
        nights = [day for day in days(month) if day.weekday() < 5]
        for day in nights:
            dear = charging == "on-arrival" and is_dear(day, 18)
            by_hour[PRICES[season(day), dear]] += need if charging else 0
        if house == "by the hour":
            total += billed(by_hour, Decimal("9.50"))
            continue
        own = house == "vehicle meter"
        with_vehicle = need * len(nights) if charging and not own else 0
        total += billed({Decimal("0.13"): on_one + with_vehicle}, Decimal("9.00"))
        if own:
            price = Decimal("0.19") if charging == "on-arrival" else Decimal("0.07")
            total += billed({price: need * len(nights)}, Decimal(0)) + Decimal("4.00")
    return total


@pytest.mark.source(LAW)
def test_the_prices_by_month_and_hour_are_means_over_the_days(pictures: Any) -> None:
    shown = pictures["price_heat"].numbers()
    assert list(shown.months) == [f"2027-{month:02}" for month in range(1, 13)]
    for month, prices in enumerate(shown.months.values(), start=1):
        for hour, price in enumerate(prices):
            of_days = [PRICES[season(day), is_dear(day, hour)] for day in days(month) if hour in hours(day)]
            mean = sum(of_days, Decimal(0)) / len(of_days)
            assert price == pytest.approx(float((mean + FUEL) * Decimal("1.03")), abs=6e-7)


def test_the_shades_cut_the_prices_into_equal_parts(pictures: Any) -> None:
    shown = pictures["price_heat"].numbers()
    widths = [end - begin for begin, end in itertools.pairwise(shown.limits)]
    assert widths == pytest.approx([widths[0]] * 5)
    prices = [price for month in shown.months.values() for price in month]
    assert (shown.limits[0], shown.limits[-1]) == pytest.approx((min(prices), max(prices)))
    for price in prices:
        begin, end = shown.limits[shown.shade(price)], shown.limits[shown.shade(price) + 1]
        assert begin - 1e-12 <= price <= end + 1e-12


@pytest.mark.source(LAW)
def test_the_bills_side_by_side_are_those_worked_out_day_by_day(pictures: Any) -> None:
    """To the cent. Least cost by the hour moves one night's 12 kWh past midnight, when winter prices begin."""
    shown = {bills.name: bills for bills in pictures["bills"].numbers()}
    expected = {
        f"{tariff}, {schedule}": year(tariff, schedule)
        for tariff in ("one price", "by the hour", "vehicle meter")
        for schedule in ("on-arrival", "from ten")
    }
    assert {name: shown[name].total for name in expected} == expected
    assert pictures["bills"].house_alone() == year("one price", None)
    moved = 12 * (PRICES["summer", False] - PRICES["winter", False]) * Decimal("1.03")
    least = shown["by the hour, least-cost"].total
    assert float(expected["by the hour, from ten"] - least) == pytest.approx(float(moved), abs=0.01)
    for bills in shown.values():
        assert sum(bills.parts.values()) == bills.total
        assert bills.charging == bills.total - year("one price", None)
    totals = [bills.total for bills in pictures["bills"].numbers()]
    assert totals == sorted(totals)


@pytest.mark.source(
    "Uniform-series present-worth factor of engineering economics: 8.1109 for 4 % over 10 years"
)
def test_the_pay_back_is_worked_by_hand(pictures: Any) -> None:
    shown = pictures["pay_back"].numbers()
    present, repriced = shown.savings
    assert present.annual == float(year("one price", "from ten") - year("vehicle meter", "from ten"))
    assert present.payback_years == pytest.approx(950 / 159.94, abs=1e-5)
    for saved in shown.savings:
        assert saved.worth_today[-1] == pytest.approx(8.1109 * saved.annual, abs=0.01)
        assert saved.net_present_value == pytest.approx(saved.worth_today[-1] - 950, abs=0.006)
        assert saved.saved[-1] == pytest.approx(10 * saved.annual)
    assert present.net_present_value > 0 > repriced.net_present_value


def test_a_job_costs_more_with_every_larger_conductor_and_its_spread_is_in_order(pictures: Any) -> None:
    shown = pictures["estimate_spread"].numbers()
    for spread in shown:
        assert spread.low < spread.p10 < spread.p50 < spread.p90 < spread.high
        assert spread.low < spread.likely < spread.high
    # 16, 24, 32 A: 12, 10, 8 AWG with the same devices; 64 A adds a disconnect.
    likely = {spread.current_a: spread.likely for spread in shown}
    assert likely[16] < likely[24] < likely[32] < likely[48] < likely[64]
