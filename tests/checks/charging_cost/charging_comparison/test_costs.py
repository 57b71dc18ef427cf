"""What charging costs, by hand: one meter and two, the house repriced, pay-back, and where it breaks even."""

from decimal import Decimal
from typing import Any

import pytest
from tests.checks.charging_cost.charging_comparison.comparisons import (
    WEEK,
    Json,
    by_clock,
    charging,
    compared,
    comparison,
    flat,
    option,
    separate_meter,
)

HOUSE = {"kind": "annual-energy", "kwh_per_year": 7300}


def monthly(amount: str, **stated: Any) -> Json:
    return {"name": "customer charge", "amount": amount, "per": "month", **stated}


def money(annual: Json) -> list[Decimal]:
    return [
        Decimal(annual[name]) for name in ("with_charging", "without_charging", "charging", "house_repriced")
    ]


@pytest.mark.source(
    "worked by hand: 7300 kWh of the house and 3650 kWh of the vehicle at 10 cents, 12 times 8 dollars"
)
def test_one_meter_on_the_present_tariff() -> None:
    answer = compared(comparison(flat(fixed_charges=[monthly("8")]), house_load=HOUSE))
    found = option(answer, "flat")
    assert money(found["annual"]) == [Decimal("1191.00"), Decimal("826.00"), Decimal("365.00"), 0]
    assert found["per_kwh"] == "0.100000"
    assert found["per_distance"] is None
    assert found["charged_kwh"] == 3650
    assert sum(Decimal(month["total"]) for month in found["months"]) == Decimal("1191.00")
    january = {line["kind"]: line for line in found["months"][0]["lines"]}
    # 31 days of 20 and 10 kWh.
    assert (january["energy"]["quantity"], january["energy"]["rate"]) == ("930.0", "0.10")
    assert (january["fixed"]["quantity"], january["fixed"]["amount"]) == ("1", "8")
    assert {line["account"] for line in found["months"][0]["lines"]} == {"house"}


@pytest.mark.source("worked by hand: an even house takes 7/24 of its energy from 23 to 6 o'clock")
def test_a_tariff_for_both_reprices_the_house() -> None:
    asked = comparison(
        flat(),
        by_clock(night="0.05", day="0.15"),
        house_load=HOUSE,
        schedules=[{"kind": "least-cost"}, {"kind": "on-arrival"}],
        house_tariff="flat",
    )
    answer = compared(asked)
    found = option(answer, "by clock")
    # 365 nights of 7 h, one of them an hour shorter and one an hour longer; 8760 h.
    house = 7300 * (7 / 24 * 0.05 + 17 / 24 * 0.15)
    repriced = house - 730
    assert float(found["annual"]["house_repriced"]) == pytest.approx(repriced, abs=0.06)
    # 10 kWh a night fit into 7 h at 7.68 kW.
    assert float(found["annual"]["with_charging"]) == pytest.approx(house + 3650 * 0.05, abs=0.06)
    assert float(found["annual"]["charging"]) == pytest.approx(repriced + 3650 * 0.05, abs=0.06)
    assert Decimal(found["annual"]["without_charging"]) == Decimal("730.00")
    # From 18 o'clock on 10 kWh are charged by day.
    arriving = option(answer, "by clock", schedule=1)
    assert float(arriving["annual"]["with_charging"]) == pytest.approx(house + 3650 * 0.15, abs=0.06)
    assert [each["rank"] for each in answer["options"]] == [1, 2, 3, 4]
    costs = [Decimal(each["annual"]["with_charging"]) for each in answer["options"]]
    assert costs == sorted(costs)


@pytest.mark.source("worked by hand")
def test_a_meter_of_its_own_bears_charges_of_its_own() -> None:
    charges = [
        monthly("8"),
        monthly("3", name="for own meters", arrangements=["own-meter"]),
        monthly("1.25", name="for submeters", arrangements=["submeter"]),
    ]
    asked = comparison(
        flat(fixed_charges=charges),
        house_load=HOUSE,
        arrangements=["submeter", "own-meter", "whole-house"],
        separate_meter=separate_meter(),
        submeter={"installed_cost": "300", "monthly_charge": "1"},
    )
    answer = compared(asked)
    # Of the house: 730 and 12 times 8. Of the vehicle: 365, 12 times 8, 12 times its own, 12 times its meter's.
    assert option(answer, "flat")["annual"]["charging"] == "365.00"
    assert money(option(answer, "flat", "own-meter")["annual"]) == [
        Decimal("826.00") + Decimal("365.00") + 12 * (8 + 3 + Decimal("2.50")),
        Decimal("826.00"),
        Decimal("365.00") + 12 * (8 + 3 + Decimal("2.50")),
        0,
    ]
    assert option(answer, "flat", "submeter")["annual"]["charging"] == str(
        Decimal("365.00") + 12 * (8 + Decimal("1.25") + 1)
    )
    lines = option(answer, "flat", "own-meter")["months"][0]["lines"]
    assert [(line["account"], line["kind"]) for line in lines] == [
        ("house", "energy"),
        ("house", "fixed"),
        ("charging", "energy"),
        ("charging", "fixed"),
        ("charging", "fixed"),
        ("charging", "meter"),
    ]


@pytest.mark.source("worked by hand: generation behind the house's meter does not reach a meter beside it")
def test_generation_does_not_reach_a_separate_meter() -> None:
    noon = [0.0] * 11 + [1.0] * 2 + [0.0] * 11
    asked = comparison(
        flat(),
        house_load={"kind": "none"},
        generation={"kind": "annual-energy", "kwh_per_year": 3650, "profile": {"hours": noon}},
        charging=charging(arrival="08:00", departure="17:00"),
        schedules=[{"kind": "solar-surplus-first"}, {"kind": "least-cost"}],
        arrangements=["whole-house", "own-meter", "submeter"],
        separate_meter=separate_meter(monthly_charge="0"),
    )
    answer = compared(asked)
    # 10 kWh a day from 11 to 13 o'clock are all that is charged.
    assert option(answer, "flat")["annual"]["with_charging"] == "0.00"
    assert option(answer, "flat", schedule=1)["annual"]["with_charging"] == "0.00"
    for arrangement in ("own-meter", "submeter"):
        assert option(answer, "flat", arrangement, 1)["annual"]["with_charging"] == "365.00"
        assert any(
            each["arrangement"] == arrangement and "surplus" in each["why"] for each in answer["not_offered"]
        )
    assert len(answer["options"]) == 4


@pytest.mark.source("worked by hand: a distance of 40 mi at 30 kWh for 100 mi costs 1.20 at 10 cents")
def test_the_cost_of_a_distance() -> None:
    need = {
        "kind": "distance",
        "basis": "wall",
        "distance_by_weekday": dict.fromkeys(WEEK, 40),
        "distance_unit": "mi",
        "consumption": {"value": 30, "unit": "kWh/100 mi"},
    }
    answer = compared(comparison(charging=charging(energy_need=need)))
    assert option(answer, "flat")["per_distance"] == {"amount": "0.030000", "unit": "mi"}
    # Half of it is not charged in an hour at 6 kW; what was driven with the other half costs the same.
    short = charging(
        energy_need=need,
        charger={"charging_current_a": 25, "voltage_v": 240},
        arrival="18:00",
        departure="19:00",
    )
    cut = option(compared(comparison(charging=short)), "flat")
    assert cut["charged_kwh"] == pytest.approx(2190)
    assert cut["per_distance"] == {"amount": "0.030000", "unit": "mi"}
    assert cut["unmet_kwh"] == pytest.approx(2190)


@pytest.mark.source("worked by hand: charging less is cheaper, and no answer to the need")
def test_options_that_meet_the_need_come_first() -> None:
    asked = comparison(
        flat("cheap", "0.01"),
        flat("dear", "0.90"),
        schedules=[{"kind": "timer", "windows": [{"from": "03:00", "to": "04:00"}]}, {"kind": "on-arrival"}],
    )
    ranked = [(each["tariff"], each["schedule"]["index"]) for each in compared(asked)["options"]]
    assert ranked == [("cheap", 1), ("dear", 1), ("cheap", 0), ("dear", 0)]


def paying(kwh: float, **stated: Any) -> Json:
    """A house at 20 cents beside which a meter of its own brings 5 cents by night."""
    needs = dict.fromkeys(WEEK, kwh)
    return comparison(
        flat("house", "0.20", arrangements=["whole-house"]),
        by_clock("vehicle", night="0.05", day="0.50", arrangements=["own-meter"]),
        house_load=HOUSE,
        charging=charging(energy_need={"kind": "energy", "basis": "wall", "kwh_by_weekday": needs}),
        schedules=[{"kind": "least-cost"}],
        arrangements=["whole-house", "own-meter"],
        separate_meter=separate_meter(**stated),
    )


@pytest.mark.source(
    "worked by hand; 7.7217 is the present worth of one a year over 10 years at 5 % in printed tables"
)
def test_pay_back_and_net_present_value() -> None:
    answer = compared(paying(10))
    found = answer["separate_meter"]
    # 3650 kWh at 15 cents less, less 12 times 2.50.
    saving = Decimal("3650") * Decimal("0.15") - 30
    for each in found["against"]:
        assert Decimal(each["annual_saving"]) == saving
        assert each["payback_years"] == pytest.approx(1000 / 517.5, abs=1e-6)
        assert float(each["net_present_value"]) == pytest.approx(517.5 * 7.7217 - 1000, abs=0.05)
        # Zero where 0.15 kWh - 30 = 1000 / 7.7217.
        assert each["break_even_kwh_per_year"] == pytest.approx((1000 / 7.7217 + 30) / 0.15, abs=4)
        assert each["break_even_distance_per_year"] is None
    assert [each["against"] for each in found["against"]] == ["present-tariff", "whole-house-repriced"]
    assert (found["installed_cost"], found["years"], found["discount_rate_percent"]) == ("1000", 10, 5.0)
    assert found["option"] == option(answer, "vehicle", "own-meter")["rank"]


@pytest.mark.source("worked by hand: without a rate savings count in full")
def test_without_a_rate_the_value_is_the_sum_of_the_savings() -> None:
    found = compared(paying(10, discount_rate_percent=0, years=4))["separate_meter"]["against"][0]
    assert Decimal(found["net_present_value"]) == 4 * Decimal("517.50") - 1000
    assert found["break_even_kwh_per_year"] == pytest.approx((1000 / 4 + 30) / 0.15, abs=4)


@pytest.mark.source(
    "worked by hand: 182.5 kWh save less than the meter costs a year; more than fits is no answer"
)
def test_a_meter_that_never_pays_has_no_pay_back_but_a_break_even() -> None:
    found = compared(paying(0.5))["separate_meter"]["against"][0]
    # 182.5 kWh at 15 cents less, less 30 dollars; each month's bills are rounded.
    assert float(found["annual_saving"]) == pytest.approx(-2.625, abs=0.06)
    assert found["payback_years"] is None
    assert found["break_even_kwh_per_year"] == pytest.approx((1000 / 7.7217 + 30) / 0.15, rel=0.01)
    # Seven hours a night at 7.68 kW are 19,622 kWh; beyond them the vehicle's tariff costs 50 cents.
    none = compared(paying(0.5, installed_cost="100000"))["separate_meter"]["against"][0]
    assert none["break_even_kwh_per_year"] is None


@pytest.mark.source("worked by hand: the distance goes with the energy")
def test_the_break_even_distance() -> None:
    asked = paying(10)
    asked["charging"]["energy_need"] = {
        "kind": "distance",
        "basis": "battery",
        "charging_efficiency": 0.9,
        "distance_by_weekday": dict.fromkeys(WEEK, 30),
        "distance_unit": "km",
        "consumption": {"value": 18, "unit": "kWh/100 km"},
        "winter_factor_by_month": [1.2] * 12,
    }
    found = compared(asked)["separate_meter"]["against"][0]
    kwh = (1000 / 7.7217 + 30) / 0.15
    assert found["break_even_kwh_per_year"] == pytest.approx(kwh, rel=0.005)
    assert found["break_even_distance_per_year"] == pytest.approx(kwh * 0.9 / 1.2 / 0.18, rel=0.005)
    assert found["break_even_distance_unit"] == "km"


@pytest.mark.source("worked by hand: yen have no smaller coin")
def test_amounts_have_the_digits_of_the_currency() -> None:
    asked = paying(10, installed_cost="100000", monthly_charge="300")
    for tariff in asked["tariffs"]:
        tariff["currency"] = "JPY"
        for rate in tariff["energy_rates"]:
            rate["tiers"][0]["per_kwh"] = str(Decimal(rate["tiers"][0]["per_kwh"]) * 150)
    answer = compared(asked)
    assert answer["currency"] == "JPY"
    for each in answer["options"]:
        assert "." not in each["annual"]["with_charging"]
    for each in answer["separate_meter"]["against"]:
        assert "." not in each["net_present_value"]
