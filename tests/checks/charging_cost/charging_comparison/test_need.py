"""What the vehicle needs: units, bases, losses and winter by hand arithmetic, and the battery from night to night."""

from typing import Any

import pytest
from tests.checks.charging_cost.charging_comparison.comparisons import (
    WEEK,
    Json,
    charged,
    charging,
    compared,
    comparison,
    option,
    pricer,
)


def needing(need: Json, **stated: Any) -> Json:
    return comparison(charging=charging(energy_need=need, arrival="12:00", departure="11:00", **stated))


def distance(value: float, unit: str, driven: str = "mi", basis: str = "wall", **stated: Any) -> Json:
    """Return 50 units of distance for each Tuesday, of which 2027 has 52."""
    return {
        "kind": "distance",
        "basis": basis,
        "distance_by_weekday": {"tue": 50},
        "distance_unit": driven,
        "consumption": {"value": value, "unit": unit},
        **stated,
    }


@pytest.mark.source("worked by hand; a mile is 1.609344 km by the international agreement of 1959")
@pytest.mark.parametrize(
    ("need", "kwh"),
    [
        (distance(30, "kWh/100 mi"), 15.0),
        (distance(0.3, "kWh/mi"), 15.0),
        (distance(4, "mi/kWh"), 12.5),
        (distance(20, "kWh/100 km", "km"), 10.0),
        (distance(0.2, "kWh/km", "km"), 10.0),
        (distance(5, "km/kWh", "km"), 10.0),
        (distance(20, "kWh/100 km"), 50 * 1.609344 * 0.2),
        (distance(30, "kWh/100 mi", "km"), 50 / 1.609344 * 0.3),
        (distance(4, "mi/kWh", "km"), 50 / 1.609344 / 4),
        (distance(5, "km/kWh"), 50 * 1.609344 / 5),
        (distance(30, "kWh/100 mi", basis="battery", charging_efficiency=0.9), 15 / 0.9),
        (distance(30, "kWh/100 mi", basis="battery"), 15 / 0.85),
        (distance(30, "kWh/100 mi", charging_efficiency=0.9), 15.0),
        ({"kind": "energy", "basis": "wall", "kwh_by_weekday": {"tue": 9}}, 9.0),
        (
            {
                "kind": "energy",
                "basis": "battery",
                "kwh_by_weekday": {"tue": 9},
                "charging_efficiency": 0.75,
            },
            12.0,
        ),
    ],
)
def test_the_need_at_the_wall(need: Json, kwh: float) -> None:
    answer = compared(needing(need))
    assert option(answer, "flat")["charged_kwh"] == pytest.approx(52 * kwh, abs=1e-5)
    assert answer["windows"][0]["nights"] == 52


@pytest.mark.source("worked by hand: 2027 has 4 Tuesdays in January, 5 in March, June, August and November")
def test_winter_belongs_to_the_month_of_arrival() -> None:
    factors = [1.4, 1, 1.1, 1, 1, 1, 1, 1, 1, 1, 1.2, 1]
    need = {
        "kind": "energy",
        "basis": "wall",
        "kwh_by_weekday": {"tue": 10},
        "winter_factor_by_month": factors,
    }
    for first_month in (1, 9):
        asked = needing(need)
        asked["first_month"] = first_month
        months = option(compared(asked), "flat")["months"]
        by_month = {each["month"][5:]: float(each["lines"][0]["quantity"]) for each in months}
        year = 2027 if first_month == 1 else 2028
        tuesdays = {2027: 4, 2028: 4}[year]
        assert by_month["01"] == pytest.approx(tuesdays * 14)
        # March 2027 has five Tuesdays, the last of them on the 30th; March 2028 has four.
        assert by_month["03"] == pytest.approx((5 if year == 2027 else 4) * 11)
        # The night of Tuesday, 30 November 2027 is over before December: charging begins at noon.
        assert by_month["11"] == pytest.approx(5 * 12)
    assert [each["month"] for each in months][:5] == ["2027-09", "2027-10", "2027-11", "2027-12", "2028-01"]


@pytest.mark.source(
    "worked by hand: 9 kWh in the battery are 10 at the wall; 2 h at 32 A and 240 V bring 15.36 kWh"
)
def test_a_battery_carries_what_a_night_leaves_unmet() -> None:
    needs = {"mon": 25, "tue": 5, "wed": 5}
    need = {"kind": "energy", "basis": "wall", "kwh_by_weekday": needs, "charging_efficiency": 0.9}
    stay = {"arrival": "22:00", "departure": "00:00"}
    with_battery = comparison(charging=charging(energy_need=need, vehicle={"battery_kwh": 60}, **stay))
    without = comparison(charging=charging(energy_need=need, **stay))
    monday = 3  # 4 January 2027
    carried = charged(with_battery).delivery
    assert carried.charged[monday : monday + 4].tolist() == pytest.approx([15.36, 14.64, 5.0, 0])
    assert carried.owed[monday : monday + 3].tolist() == pytest.approx([9.64, 0, 0])
    assert carried.unmet_kwh == 0
    left = charged(without).delivery
    assert left.charged[monday : monday + 3].tolist() == pytest.approx([15.36, 5, 5])
    # 52 Mondays.
    assert left.unmet_kwh == pytest.approx(52 * 9.64)
    answer = compared(with_battery)
    window = answer["windows"][0]
    assert (window["nights"], window["nights_met"], window["unmet_kwh"]) == (3 * 52, 2 * 52, 0)
    assert option(answer, "flat")["nights_unmet"] == 52


@pytest.mark.source("worked by hand: nobody owes more than the 20 kWh at the wall that the battery takes")
def test_what_no_battery_holds_is_lost() -> None:
    need = {
        "kind": "energy",
        "basis": "wall",
        "kwh_by_weekday": {"mon": 15, "tue": 15},
        "charging_efficiency": 0.9,
    }
    stay = {"arrival": "22:00", "departure": "23:00"}
    asked = comparison(charging=charging(energy_need=need, vehicle={"battery_kwh": 18}, **stay))
    monday, delivery = 3, charged(asked).delivery
    # 7.68 of 15 on Monday; 7.32 + 15 on Tuesday are 2.32 too many; then 7.68 a night until it is full.
    assert delivery.charged[monday : monday + 4].tolist() == pytest.approx([7.68, 7.68, 7.68, 20 - 2 * 7.68])
    assert delivery.lost[monday : monday + 3].tolist() == pytest.approx([0, 2.32, 0])


@pytest.mark.source("worked by hand: the lesser of 48 A and 24 A, at 208 V or at 400 V between three lines")
def test_the_lesser_current_at_the_stated_voltage_decides() -> None:
    need = {"kind": "energy", "basis": "wall", "kwh_by_weekday": dict.fromkeys(WEEK, 500)}
    for charger, kw in (
        ({"charging_current_a": 48, "voltage_v": 208}, 24 * 208 / 1000),
        ({"charging_current_a": 16, "voltage_v": 208}, 16 * 208 / 1000),
        ({"charging_current_a": 48, "voltage_v": 400, "phases": 3}, 24 * 400 * 3**0.5 / 1000),
    ):
        asked = needing(need, charger=charger, vehicle={"onboard_limit_a": 24})
        assert pricer(asked).given.power_kw == pytest.approx(kw)
        assert option(compared(asked), "flat")["greatest_demand_kw"] == pytest.approx(kw, abs=1e-6)


@pytest.mark.source("worked by hand")
@pytest.mark.parametrize(
    ("charger_a", "hours", "needed", "would_do"),
    [(16, 5, 23.04, 20), (16, 6, 23.04, 16), (40, 2, 23.04, 48)],
)
def test_the_worst_winter_day_and_the_current_that_would_do(
    charger_a: float, hours: int, needed: float, would_do: float
) -> None:
    need = {
        "kind": "energy",
        "basis": "wall",
        "kwh_by_weekday": {"thu": needed / 1.6},
        "winter_factor_by_month": [1.3, 1.2, *[1] * 10],
        "worst_day_factor": 1.6,
    }
    asked = needing(need, charger={"charging_current_a": charger_a, "voltage_v": 240})
    asked["schedules"] = [{"kind": "timer", "windows": [{"from": "00:00", "to": f"{hours:02}:00"}]}]
    worst = compared(asked)["windows"][0]["worst_day"]
    delivered = hours * charger_a * 0.24
    # The first Thursday of the month of most need.
    assert worst == {
        "date": "2027-01-07",
        "needed_kwh": pytest.approx(needed),
        "deliverable_kwh": pytest.approx(delivered),
        "shortfall_kwh": pytest.approx(max(0, needed - delivered)),
        "hours": hours,
        "current_that_would_do_a": would_do,
    }


@pytest.mark.source("worked by hand: the clock of America/Denver skips an hour in the night of 13 March 2027")
def test_the_shortest_night_of_the_worst_months_counts() -> None:
    need = {"kind": "energy", "basis": "wall", "kwh_by_weekday": dict.fromkeys(WEEK, 30)}
    asked = comparison(charging=charging(energy_need=need, arrival="23:00", departure="04:00"))
    worst = compared(asked)["windows"][0]["worst_day"]
    assert (worst["date"], worst["hours"], worst["shortfall_kwh"]) == ("2027-03-13", 4, 0)
    # Where most is needed in January, that night is none of the worst.
    need["winter_factor_by_month"] = [1.2, *[1] * 11]
    worst = compared(asked)["windows"][0]["worst_day"]
    assert (worst["date"], worst["hours"], worst["needed_kwh"]) == ("2027-01-01", 5, 36)
