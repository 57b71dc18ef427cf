"""Pay-back, present value and break-even of a separate meter against closed formulas, tables and a year priced anew."""

from decimal import Decimal
from typing import Any

import pytest
from tests.checks.charging_cost.asked_comparisons import (
    ON_ARRIVAL,
    charging,
    compared,
    comparison,
    each_day,
    timer,
)

from branchwright.calculations.present_value import payback_years, present_worth_years

Json = dict[str, Any]


@pytest.mark.source(
    "uniform series present worth factor (P/A, i, n), tables of engineering economy; from memory, to four digits"
)
@pytest.mark.parametrize(
    "percent, years, factor",
    [(5, 10, 7.7217), (8, 15, 8.5595), (3, 20, 14.8775), (7, 10, 7.0236), (10, 5, 3.7908), (0, 12, 12.0)],
)
def test_what_one_a_year_is_worth(percent: float, years: int, factor: float) -> None:
    assert present_worth_years(percent, years) == pytest.approx(factor, abs=5e-5)


@pytest.mark.source(
    "worked by hand: each year's saving divided by the interest that its outlay would have borne"
)
@pytest.mark.parametrize("percent", [0.0, 1e-7, 0.001, 0.5, 4.0, 25.0, 100.0])
@pytest.mark.parametrize("years", [1, 2, 10, 50])
def test_the_factor_is_the_sum_over_the_years(percent: float, years: int) -> None:
    growth = 1 + Decimal(str(percent)) / 100
    summed = sum(1 / growth**year for year in range(1, years + 1))
    assert present_worth_years(percent, years) == pytest.approx(float(summed), rel=1e-7)


@pytest.mark.source("worked by hand")
def test_simple_payback() -> None:
    assert payback_years(1400.0, 280.0) == 5.0


def day_and_night(name: str, night: str, day: str, **more: Any) -> Json:
    def rate(period: str, starts: str, ends: str, price: str) -> Json:
        tier = {"up_to_kwh": None, "per_kwh": price}
        return {"period": period, "from": starts, "to": ends, "tiers": [tier]}

    return {
        "name": name,
        "currency": "USD",
        "time_zone": "Etc/GMT+7",
        "energy_rates": [rate("night", "22:00", "06:00", night), rate("day", "06:00", "22:00", day)],
        **more,
    }


FLAT = day_and_night("flat", "0.20", "0.20", arrangements=["whole-house"])
OFF_PEAK = day_and_night("off-peak meter", "0.08", "0.30", arrangements=["own-meter"])
METER = {"installed_cost": "1500.00", "monthly_charge": "5.00", "discount_rate_percent": 4, "years": 15}


def asked(kwh: float, **more: Any) -> Json:
    house = {"kind": "annual-energy", "kwh_per_year": 6000}
    return comparison(
        [FLAT, OFF_PEAK],
        charging(each_day(kwh)),
        [timer(("22:00", "06:00"))],
        house_load=house,
        arrangements=["whole-house", "own-meter"],
        separate_meter=METER,
        **more,
    )


def against_present(answer: Json) -> Json:
    return next(each for each in answer["separate_meter"]["against"] if each["against"] == "present-tariff")


BY_HAND = pytest.mark.source(
    "worked by hand: 365 nights, a gap of 12 cents a kWh, 60 dollars a year for the meter"
)


@BY_HAND
def test_saving_payback_and_present_value() -> None:
    # 10 kWh a night are 3650 a year: 438.00 at 12 cents, less 60.00 for the meter.
    found = against_present(compared(asked(10.0)))
    assert Decimal(found["annual_saving"]) == Decimal("378.00")
    assert found["payback_years"] == pytest.approx(1500 / 378, abs=1e-6)
    value = -1500 + sum(378 / 1.04**year for year in range(1, 16))
    assert float(found["net_present_value"]) == pytest.approx(value, abs=0.005)


@BY_HAND
def test_the_meter_breaks_even_where_its_present_value_is_nothing() -> None:
    # Saving s = 0.12 e - 60 has to be 1500 / 11.1184 = 134.91, so that e = 1624.3 kWh a year.
    found = against_present(compared(asked(10.0)))
    factor = sum(1 / 1.04**year for year in range(1, 16))
    expected = (1500 / factor + 60) / 0.12
    assert found["break_even_kwh_per_year"] == pytest.approx(expected, rel=1e-3)
    at_it = against_present(compared(asked(found["break_even_kwh_per_year"] / 365)))
    # Twelve bills of two meters are rounded to cents, and each cent counts for the years.
    assert float(at_it["net_present_value"]) == pytest.approx(0.0, abs=0.12 * factor)


@BY_HAND
def test_the_distance_at_which_it_breaks_even() -> None:
    # 30 kWh for 100 miles, at the wall.
    need = {
        "kind": "distance",
        "basis": "wall",
        "distance_by_weekday": dict.fromkeys(("mon", "tue", "wed", "thu", "fri", "sat", "sun"), 30),
        "distance_unit": "mi",
        "consumption": {"value": 30, "unit": "kWh/100 mi"},
    }
    question = {**asked(1.0), "charging": charging(need)}
    found = against_present(compared(question))
    factor = sum(1 / 1.04**year for year in range(1, 16))
    assert found["break_even_distance_unit"] == "mi"
    assert found["break_even_distance_per_year"] == pytest.approx(
        (1500 / factor + 60) / 0.12 / 0.30, rel=1e-3
    )


@BY_HAND
def test_nothing_is_paid_back_where_nothing_is_saved() -> None:
    # 1 kWh a night saves 43.80 and costs 60.00.
    found = against_present(compared(asked(1.0)))
    assert Decimal(found["annual_saving"]) == Decimal("-16.20")
    assert found["payback_years"] is None
    value = -1500 - sum(16.2 / 1.04**year for year in range(1, 16))
    assert float(found["net_present_value"]) == pytest.approx(value, abs=0.005)


@pytest.mark.source(
    "worked by hand: the house of 6000 kWh, even over the hours, pays 30 cents by day and 8 by night"
)
def test_the_alternative_of_one_meter_prices_the_house_anew() -> None:
    # Of 8760 hours 2920 are night: the house costs 6000 x (8 x 0.08 + 16 x 0.30) / 24 = 1360.00, not 1200.00.
    both = {**OFF_PEAK, "arrangements": ["own-meter", "whole-house"]}
    question = {**asked(10.0), "tariffs": [FLAT, both], "house_tariff": "flat"}
    answer = compared(question)
    repriced = next(
        each
        for each in answer["options"]
        if each["tariff"] == "off-peak meter" and each["arrangement"] == "whole-house"
    )
    assert float(repriced["annual"]["house_repriced"]) == pytest.approx(160.0, abs=0.12)
    assert float(repriced["annual"]["charging"]) == pytest.approx(160.0 + 3650 * 0.08, abs=0.12)
    other = next(
        each for each in answer["separate_meter"]["against"] if each["against"] == "whole-house-repriced"
    )
    # The own meter costs 292.00 + 60.00; one meter for both costs 452.00, the present tariff 730.00.
    assert float(other["annual_saving"]) == pytest.approx(100.0, abs=0.12)
    assert float(against_present(answer)["annual_saving"]) == pytest.approx(378.0, abs=0.12)


@pytest.mark.source("worked by hand: 7.68 kW for eight hours are 61.44 kWh; 8 h x 240 V x 40 A are 76.8 kWh")
def test_the_shortfall_of_a_window_and_the_current_that_would_do() -> None:
    vehicle = charging(
        each_day(50.0, winter_factor_by_month=[1.4] + [1.0] * 11), arrival="22:00", departure="06:00"
    )
    answer = compared(comparison([FLAT], vehicle, [ON_ARRIVAL]))
    worst = answer["windows"][0]["worst_day"]
    assert worst["date"].startswith("2027-01")
    assert worst["needed_kwh"] == pytest.approx(70.0)
    assert worst["deliverable_kwh"] == pytest.approx(61.44)
    assert worst["shortfall_kwh"] == pytest.approx(8.56)
    # 70 kWh in eight hours at 240 V are 36.46 A.
    assert worst["current_that_would_do_a"] == 37
