"""Bills that a utility, a handbook or a textbook prints with all its lines, and some that are worked by hand.

What a month has drawn is laid into the hours of its periods; which hours is of no matter to the bill.
"""

from decimal import Decimal
from typing import Any

import pytest
from tests.checks.charging_cost.asked_bills import Asked
from tests.checks.charging_cost.reference_pricing import Reference

Json = dict[str, Any]

ZONE = "Etc/GMT+6"
YEAR = 2027


def all_day(*tiers: tuple[float | None, str], period: str = "any-time", **more: Any) -> Json:
    listed = [{"up_to_kwh": end, "per_kwh": price} for end, price in tiers]
    return {"period": period, "from": "00:00", "to": "00:00", "tiers": listed, **more}


def between(period: str, starts: str, ends: str, *tiers: tuple[float | None, str], **more: Any) -> Json:
    return {**all_day(*tiers, period=period), "from": starts, "to": ends, **more}


def tariff(*rates: Json, **more: Any) -> Json:
    return {
        "name": "printed",
        "currency": "USD",
        "time_zone": ZONE,
        "energy_rates": list(rates),
        **more,
    }


def fixed(amount: str, name: str = "customer charge", per: str = "month") -> Json:
    return {"name": name, "amount": amount, "per": per}


def month_bill(
    asked: Json, month: int, kwh: dict[str, float], *, peak_kw: float = 0.0, event_kwh: float = 0.0
) -> Any:
    """Return the bill of a month in which so much is drawn in each period, evenly but for one hour of peak.

    The energy of events lies in their hours and is no part of what the periods draw.
    """
    plain = Reference(asked, YEAR, 60)
    hours: dict[str, list[int]] = {}
    events: list[int] = []
    for place, at in enumerate(plain.intervals):
        if at.month == month - 1:
            if plain.event(at) is None:
                hours.setdefault(plain.rate(at)["period"], []).append(place)
            else:
                events.append(place)
    net = [0.0] * len(plain.intervals)
    for period, drawn in kwh.items():
        first, *others = hours[period]
        net[first] = peak_kw
        for place in others if peak_kw else [first, *others]:
            net[place] = (drawn - peak_kw) / (len(others) if peak_kw else len(others) + 1)
    for place in events:
        net[place] = event_kwh / len(events)
    return Asked(asked, YEAR).bill(net).months[month - 1]


def amounts(bill: Any) -> list[Decimal]:
    return [line.amount for line in bill.lines]


def dollars(*texts: str) -> list[Decimal]:
    return [Decimal(text) for text in texts]


SEYMOUR = pytest.mark.source(
    "City of Seymour, utilities, residential electricity, bill comparison: billing calculation examples, winter at "
    "1200 kWh and summer at 2000 kWh (cityofseymour.org)"
)


def seymour() -> Json:
    seasons = [
        {"name": "summer", "from": "06-01", "to": "09-30"},
        {"name": "winter", "from": "10-01", "to": "05-31"},
    ]
    return tariff(
        all_day((250, "0.064"), (700, "0.049"), (1250, "0.0475"), (None, "0.0446"), season="summer"),
        all_day((250, "0.064"), (700, "0.049"), (None, "0.0446"), season="winter"),
        seasons=seasons,
        fixed_charges=[fixed("7.50", "base customer charge")],
        riders=[
            {"name": "power cost", "per_kwh": "0.085"},
            {"name": "city sales tax", "percent": "1", "is_tax": True},
        ],
    )


@SEYMOUR
def test_falling_tiers_a_cost_of_power_and_a_sales_tax_in_winter() -> None:
    bill = month_bill(seymour(), 1, {"any-time": 1200.0})
    assert amounts(bill) == dollars("16.00", "22.05", "22.30", "7.50", "102.00", "1.70")
    assert bill.total == Decimal("171.55")


@SEYMOUR
def test_falling_tiers_a_cost_of_power_and_a_sales_tax_in_summer() -> None:
    # 550 kWh at 4.75 cents are 26.125: the sheet has 26.13, a half rounded up.
    bill = month_bill(seymour(), 7, {"any-time": 2000.0})
    assert amounts(bill) == dollars("16.00", "22.05", "26.13", "33.45", "7.50", "170.00", "2.75")
    assert bill.total == Decimal("277.88")


@pytest.mark.source("Johnson City Power Board, how to calculate your bill, residential example (jcpb.com)")
def test_one_price_and_an_availability_fee() -> None:
    asked = tariff(all_day((None, "0.0951")), fixed_charges=[fixed("18.48", "availability fee")])
    bill = month_bill(asked, 4, {"any-time": 1110.0})
    assert amounts(bill) == dollars("105.56", "18.48")
    assert bill.total == Decimal("124.04")


GOODLAND = pytest.mark.source(
    "City of Goodland, Kansas, utility rates: example of how to calculate (goodlandks.gov)"
)


@GOODLAND
def test_one_price_and_a_meter_charge() -> None:
    asked = tariff(all_day((None, "0.127")), fixed_charges=[fixed("15.00", "meter charge")])
    assert month_bill(asked, 5, {"any-time": 1000.0}).total == Decimal("142.00")


@GOODLAND
def test_a_demand_of_ten_kilowatts() -> None:
    asked = tariff(
        all_day((None, "0.09")),
        fixed_charges=[fixed("15.00", "meter charge")],
        demand_charges=[{"name": "demand", "per_kw": "9.50", "averaging_minutes": 60}],
    )
    bill = month_bill(asked, 5, {"any-time": 1000.0}, peak_kw=10.0)
    assert amounts(bill) == dollars("90.00", "95.00", "15.00")
    assert bill.total == Decimal("200.00")


RIVER_FALLS = pytest.mark.source(
    "City of River Falls, Wisconsin, time-of-day rates as of 29 September 2020: example of change in use for a "
    "residential customer of 675.54 kWh a month, 45 % of them on-peak (wi-riverfalls.civicplus.com); its fixed charge "
    "of 14.00 is not printed, it is what the example leaves over 675.54 kWh at 11.10 cents"
)
WORKDAY = {"name": "workday", "weekdays": ["mon", "tue", "wed", "thu", "fri"], "holidays": "excluded"}
REST_DAY = {"name": "rest-day", "weekdays": ["sat", "sun"], "holidays": "included"}
RIVER_FALLS_HOLIDAYS = [
    "New Year's Day",
    "Memorial Day",
    "Independence Day",
    "Labor Day",
    "Thanksgiving Day",
    "Christmas Day",
]


def river_falls() -> Json:
    return tariff(
        between("off-peak", "20:00", "08:00", (None, "0.066"), day_type="workday"),
        between("on-peak", "08:00", "20:00", (None, "0.191"), day_type="workday"),
        between("off-peak", "00:00", "00:00", (None, "0.066"), day_type="rest-day"),
        day_types=[WORKDAY, REST_DAY],
        country="US",
        subdivision="WI",
        observed_holidays="observed-day",
        holiday_names=RIVER_FALLS_HOLIDAYS,
        fixed_charges=[fixed("14.00")],
    )


@RIVER_FALLS
def test_the_standard_rate() -> None:
    asked = tariff(all_day((None, "0.111")), fixed_charges=[fixed("14.00")])
    assert month_bill(asked, 9, {"any-time": 675.54}).total == Decimal("88.98")


@RIVER_FALLS
@pytest.mark.parametrize("percent, total", [(45, "96.58"), (35, "88.14"), (30, "83.92"), (25, "79.70")])
def test_time_of_day_with_less_and_less_on_peak(percent: int, total: str) -> None:
    on_peak = 675.54 * percent / 100
    bill = month_bill(river_falls(), 9, {"on-peak": on_peak, "off-peak": 675.54 - on_peak})
    assert bill.total == Decimal(total)


HANDBOOK = pytest.mark.source(
    "Sample tariff for a seasonally differentiated electric rate, and typical electric bill calculation: figure 22-2 "
    "and text of a handbook on combined heat and power (civilengineeringhandbook.tk, heat recovery); August, 200,000 "
    "kWh, 1655 kW, state and city tax of together 5.8 %"
)


@HANDBOOK
def test_a_fuel_credit_a_surcharge_demand_by_season_and_taxes() -> None:
    asked = tariff(
        all_day((None, "0.0589"), season="summer"),
        all_day((None, "0.05242"), season="other periods"),
        seasons=[
            {"name": "summer", "from": "06-01", "to": "09-30"},
            {"name": "other periods", "from": "10-01", "to": "05-31"},
        ],
        fixed_charges=[fixed("71.29", "service charge")],
        demand_charges=[
            {
                "name": "summer demand",
                "season": "summer",
                "per_kw": "10.02",
                "averaging_minutes": 60,
            },
            {
                "name": "other demand",
                "season": "other periods",
                "per_kw": "8.53",
                "averaging_minutes": 60,
            },
        ],
        riders=[
            {"name": "fuel adjustment", "per_kwh": "-0.00123", "is_credit": True},
            {"name": "nuclear decommissioning", "per_kwh": "0.00074"},
            {"name": "state and city tax", "percent": "5.8", "is_tax": True},
        ],
    )
    bill = month_bill(asked, 8, {"any-time": 200_000.0}, peak_kw=1655.0)
    # 11,682.00 is printed for energy with both adjustments: 11,780.00 - 246.00 + 148.00.
    assert amounts(bill) == dollars("11780.00", "16583.10", "71.29", "-246.00", "148.00", "1643.51")
    assert sum(amounts(bill)[:-1]) == Decimal("28336.39")
    assert bill.total == Decimal("29979.90")


@pytest.mark.source(
    "Calculation of a monthly bill, section 18.5.1 of a handbook of energy management (civilengineeringhandbook.tk): "
    "17,588 kWh in June; what it prints for the demand of 30 kW, 262.34, is entered as a fixed amount"
)
def test_an_energy_cost_adjustment_below_zero() -> None:
    asked = tariff(
        all_day((None, "0.09444")),
        fixed_charges=[fixed("3.74"), fixed("262.34", "demand of 30 kW")],
        riders=[{"name": "energy cost adjustment", "per_kwh": "-0.017192", "is_credit": True}],
    )
    bill = month_bill(asked, 6, {"any-time": 17_588.0})
    assert amounts(bill) == dollars("1661.01", "3.74", "262.34", "-302.37")
    assert bill.total == Decimal("1624.72")


@pytest.mark.source(
    "Nueces Electric Cooperative, understanding demand (nueceselectric.org): the same 40 kWh in one hour and in ten"
)
@pytest.mark.parametrize("kw, total", [(40.0, "122.00"), (4.0, "14.00")])
def test_the_same_energy_at_two_demands(kw: float, total: str) -> None:
    asked = tariff(
        all_day((None, "0.05")),
        demand_charges=[{"name": "demand", "per_kw": "3.00", "averaging_minutes": 60}],
    )
    net = [kw] * round(40 / kw)
    bills = Asked(asked, YEAR).bill(net + [0.0] * (8760 - len(net)))
    assert bills.months[0].total == Decimal(total)


@pytest.mark.source(
    "A utility's explanation of the baseline credit, as quoted by a customer (solarpaneltalk.com, thread 18224): 10 "
    "cents for each kWh up to 500 kWh a month; 50 dollars at 750 kWh, 25 dollars at 250 kWh"
)
@pytest.mark.parametrize("kwh, credit", [(750.0, "-50.00"), (250.0, "-25.00")])
def test_a_baseline_credit(kwh: float, credit: str) -> None:
    asked = tariff(
        all_day((None, "0.31")),
        credits=[{"name": "baseline credit", "per_kwh": "0.10", "up_to_kwh": 500}],
    )
    assert amounts(month_bill(asked, 2, {"any-time": kwh}))[1] == Decimal(credit)


CRITICAL_PEAK = pytest.mark.source(
    "Exercise on a summer time-of-use rate with critical peaks, after a municipal utility's proposal of 2012 "
    "(solutioninn.com, question 6651568): tiers off-peak, 0.27 on-peak, 0.75 in events; the bills are worked by hand"
)


def critical_peak(events: list[Json], *tiers: tuple[float | None, str]) -> Json:
    return tariff(
        between("off-peak", "19:00", "16:00", *tiers),
        between("on-peak", "16:00", "19:00", (None, "0.27")),
        critical_peak_events=events,
    )


@CRITICAL_PEAK
def test_tiers_off_peak_and_one_price_on_peak() -> None:
    # 700 x 0.0846 + 300 x 0.166 + 800 x 0.27
    asked = critical_peak([], (700, "0.0846"), (None, "0.166"))
    bill = month_bill(asked, 7, {"off-peak": 1000.0, "on-peak": 800.0})
    assert amounts(bill) == dollars("59.22", "49.80", "216.00")
    assert bill.total == Decimal("325.02")


@CRITICAL_PEAK
@pytest.mark.parametrize(
    "how, price, event_kwh, total",
    [
        ("instead", "0.75", 100.0, "356.80"),
        ("instead", "0.75", 0.0, "281.80"),
        ("added", "0.48", 100.0, "356.80"),
    ],
)
def test_events_in_three_peak_periods(how: str, price: str, event_kwh: float, total: str) -> None:
    # 700 x 0.0721 + 300 x 0.1411 + 700 x 0.27 + 100 x 0.75; an event that adds 0.48 to 0.27 comes to the same.
    events = [
        {"date": f"2027-07-{day}", "from": "16:00", "to": "19:00", "per_kwh": price, "how": how}
        for day in ("06", "14", "27")
    ]
    asked = critical_peak(events, (700, "0.0721"), (None, "0.1411"))
    bill = month_bill(asked, 7, {"off-peak": 1000.0, "on-peak": 700.0}, event_kwh=event_kwh)
    assert bill.total == Decimal(total)


BY_HAND = pytest.mark.source("worked by hand")


@BY_HAND
@pytest.mark.parametrize(
    "counts, lines, total",
    [
        (["energy", "fixed"], ["12.00", "8.00", "30.00"], "50.00"),
        (["energy"], ["12.00", "8.00", "38.00"], "58.00"),
        (["fixed"], ["12.00", "8.00", "42.00"], "62.00"),
    ],
)
def test_what_does_not_count_comes_on_top_of_the_minimum(
    counts: list[str], lines: list[str], total: str
) -> None:
    asked = tariff(
        all_day((None, "0.12")),
        fixed_charges=[fixed("8.00")],
        minimum_bill={"amount": "50.00", "per": "month", "counts": counts},
    )
    bill = month_bill(asked, 3, {"any-time": 100.0})
    assert amounts(bill) == dollars(*lines)
    assert bill.total == Decimal(total)


@BY_HAND
def test_a_minimum_for_each_day_and_a_tax_on_it() -> None:
    # 0.40 x 30 days are 12.00; 10 kWh are 1.20, so that 10.80 are lacking; 5 % of 12.00 are 0.60.
    asked = tariff(
        all_day((None, "0.12")),
        minimum_bill={"amount": "0.40", "per": "day", "counts": ["energy"]},
        riders=[{"name": "sales tax", "percent": "5", "is_tax": True}],
    )
    bill = month_bill(asked, 6, {"any-time": 10.0})
    assert amounts(bill) == dollars("1.20", "10.80", "0.60")
    assert bill.total == Decimal("12.60")


@pytest.mark.source(
    "worked by hand; that a season's share of the allowance goes by days is common practice, no source"
)
def test_an_allowance_of_a_month_that_a_season_splits() -> None:
    # June of 30 days: summer begins on the 16th, so that half of 600 kWh are in each season. 400 kWh are drawn in each.
    asked = tariff(
        all_day((600, "0.10"), (None, "0.20"), season="spring", period="spring hours"),
        all_day((600, "0.30"), (None, "0.50"), season="summer", period="summer hours"),
        seasons=[
            {"name": "summer", "from": "06-16", "to": "09-15"},
            {"name": "spring", "from": "09-16", "to": "06-15"},
        ],
    )
    bill = month_bill(asked, 6, {"spring hours": 400.0, "summer hours": 400.0})
    assert amounts(bill) == dollars("30.00", "20.00", "90.00", "50.00")


@BY_HAND
@pytest.mark.parametrize("half, line", [("up", "0.13"), ("even", "0.12")])
def test_half_a_cent(half: str, line: str) -> None:
    # 1 kWh at 12.5 cents.
    asked = tariff(all_day((None, "0.125")), rounding={"line": True, "half": half})
    assert month_bill(asked, 6, {"any-time": 1.0}).total == Decimal(line)


@pytest.mark.source("worked by hand; ISO 4217: the yen has no smaller coin, the dinar of Kuwait a thousandth")
@pytest.mark.parametrize("currency, total", [("JPY", "12"), ("KWD", "12.346"), ("USD", "12.35")])
def test_the_smallest_coin_of_the_currency(currency: str, total: str) -> None:
    asked = {**tariff(all_day((None, "0.123456"))), "currency": currency}
    bill = month_bill(asked, 6, {"any-time": 100.0})
    assert bill.total == Decimal(total)
    assert f"{bill.total:f}" == total


@BY_HAND
def test_a_rider_in_percent_of_what_it_names() -> None:
    # 10 % of energy: 5.00; 2 % of energy and fixed: 1.24; 4 % of all before taxes: 2.73.
    asked = tariff(
        all_day((None, "0.10")),
        fixed_charges=[fixed("12.00")],
        riders=[
            {"name": "fuel", "percent": "10", "applies_to": ["energy"]},
            {"name": "city fee", "percent": "2", "applies_to": ["energy", "fixed"]},
            {"name": "tax", "percent": "4", "is_tax": True},
        ],
    )
    bill = month_bill(asked, 6, {"any-time": 500.0})
    assert amounts(bill) == dollars("50.00", "12.00", "5.00", "1.24", "2.73")
    assert bill.total == Decimal("70.97")


@BY_HAND
def test_a_day_of_25_hours_is_billed_by_the_hour() -> None:
    # One kWh in each hour of November 2027 in New York: 721 hours, 271 of them from 22:00 to 07:00.
    asked = {
        **tariff(
            between("night", "22:00", "07:00", (None, "0.10")),
            between("day", "07:00", "22:00", (None, "0.20")),
        ),
        "time_zone": "America/New_York",
    }
    quantities = {
        line.period: line.quantity for line in Asked(asked, YEAR).bill([1.0] * 8760).months[10].lines
    }
    assert quantities == {"night": Decimal(271), "day": Decimal(450)}


@pytest.mark.source("worked by hand: 31, 29 and 31 days of 2028")
def test_days_are_counted_where_a_charge_is_for_each_day() -> None:
    asked = tariff(all_day((None, "0.10")), fixed_charges=[fixed("0.50", per="day")])
    months = Asked(asked, 2028).bill([0.0] * 8784).months
    assert [month.total for month in months[:3]] == dollars("15.50", "14.50", "15.50")
