"""What is found in the facts of a comparison: each rule, passing and failing, with the place and both values."""

from typing import Any

import pytest
from tests.checks.charging_cost.charging_comparison.comparisons import (
    WEEK,
    Json,
    by_clock,
    charging,
    compared,
    comparison,
    finding,
    findings,
    flat,
    rate,
    separate_meter,
)

from branchwright.checks.charging_cost.charging_comparison import RULES

HOURS = 8760


def series(count: int = HOURS, start: str = "2027-01-01T00:00:00-07:00", minutes: int = 60) -> Json:
    """Return a house of 0.5 kWh in each interval."""
    return {"kind": "intervals", "start": start, "interval_minutes": minutes, "energy_kwh": [0.5] * count}


def fails(answer: Json, rule: str, pointer: str, stops: bool = True) -> Json:
    """Return the failing finding of a rule; nothing is priced where it stops."""
    found = finding(answer, rule)
    assert (found["outcome"], found["pointer"]) == ("fail", pointer), found["message"]
    assert answer["verdict"] == "fail"
    assert bool(answer["options"]) is not stops
    if stops:
        assert (answer["windows"], answer["worked_bill"], answer["steps"]) == ([], None, [])
    return found


def sides(found: Json) -> tuple[Any, Any]:
    """Return what a finding provides and requires."""
    return found["provided"]["value"], found["required"]["value"]


def test_a_sound_comparison_has_no_failure() -> None:
    answer = compared(comparison())
    assert answer["verdict"] == "no-failure-found"
    assert {each["rule"] for each in answer["findings"]} == {rule.name for rule in RULES}


def test_every_rule_says_what_it_asks() -> None:
    for each in RULES:
        assert each.name.startswith("charging-")
        for part in ("Applies:", "Rests on:", "Missing facts:"):
            assert part in each.prose, each.name


def test_options_are_counted() -> None:
    tariffs = [flat(f"tariff {number}") for number in range(20)]
    asked = comparison(
        *tariffs, schedules=[{"kind": "on-arrival"}] * 3, arrangements=["whole-house", "own-meter"]
    )
    found = fails(compared(asked), "charging-comparison-size", "/tariffs")
    assert sides(found) == (120, 100)
    del asked["tariffs"][16:]
    assert finding(compared(asked), "charging-comparison-size")["outcome"] == "pass"


@pytest.mark.source(
    "worked by hand: 50 options of 8 energy prices of 10 tiers, 30 riders and 30 fixed charges"
)
def test_lines_are_counted() -> None:
    tiers = [{"up_to_kwh": 10 * number + 10, "per_kwh": "0.1"} for number in range(9)] + [{"per_kwh": "0.1"}]
    rates = [
        rate(
            f"{3 * at:02}:00",
            f"{3 * at + 3:02}:00" if at < 7 else "00:00",
            "0.1",
            f"period {at}",
            tiers=tiers,
        )
        for at in range(8)
    ]
    charges = [{"name": f"charge {number}", "amount": "1", "per": "month"} for number in range(30)]
    riders = [{"name": f"rider {number}", "percent": "1"} for number in range(30)]
    tariffs = [
        flat(f"tariff {number}", energy_rates=rates, fixed_charges=charges, riders=riders)
        for number in range(5)
    ]
    asked = comparison(*tariffs, schedules=[{"kind": "least-cost"}] * 10)
    found = fails(compared(asked), "charging-comparison-size", "/tariffs")
    # Ten searches of twelve bills each for each of five tariffs.
    assert sides(found) == (5 * 10 * 12 * (80 + 30 + 30), 24_000)
    asked = comparison(*tariffs[:1], schedules=[{"kind": "on-arrival"}] * 10)
    assert not [each for each in compared(asked)["findings"] if each["outcome"] == "fail"]


def test_a_search_for_a_break_even_has_its_share_of_the_lines() -> None:
    events = [
        {
            "date": f"2027-{at // 25 + 1:02}-{at % 25 + 1:02}",
            "from": "17:00",
            "to": "18:00",
            "per_kwh": f"0.{at + 100}",
            "how": "added",
        }
        for at in range(250)
    ]
    meter = {"installed_cost": "900", "monthly_charge": "3", "discount_rate_percent": 4}
    long = flat(
        "long",
        critical_peak_events=events,
        minimum_bill={"amount": "5", "per": "month", "counts": ["energy"]},
    )
    asked = comparison(long, schedules=[{"kind": "least-cost"}], separate_meter=meter)
    lines = 251 + len(long.get("fixed_charges", []))
    found = fails(compared(asked), "charging-comparison-size", "/tariffs")
    assert sides(found) == ((2 + 68) * 12 * lines, 24_000)


def test_names_currencies_and_zones_have_to_agree() -> None:
    fails(compared(comparison(flat(), flat())), "charging-tariff-names", "/tariffs/1/name")
    found = fails(
        compared(comparison(flat(), flat("other", currency="EUR"))),
        "charging-currency",
        "/tariffs/1/currency",
    )
    assert sides(found) == ("EUR", "USD")
    asked = comparison(flat(), flat("other", time_zone="America/Chicago"))
    found = fails(compared(asked), "charging-time-zone", "/tariffs/1/time_zone")
    assert sides(found) == ("America/Chicago", "America/Denver")
    answer = compared(comparison(flat(time_zone="America/Denvr")))
    found = fails(answer, "charging-time-zone", "/tariffs/0/time_zone")
    assert "America/Denver" in found["message"]
    assert answer["priced_from"] is None
    assert finding(answer, "charging-house-load")["outcome"] == "undetermined"


def test_an_unsound_tariff_is_told_with_its_own_findings() -> None:
    gap = flat("gap", energy_rates=[rate("06:00", "23:00", "0.1", "day")])
    answer = compared(comparison(flat(), gap))
    fails(answer, "charging-tariffs-sound", "/tariffs/1")
    own = [each for each in answer["findings"] if each["rule"].startswith("tariff-")]
    assert own
    assert all((each["pointer"] or "").startswith("/tariffs/1/") for each in own)
    assert any("23:00" in each["message"] or "00:00" in each["message"] for each in own)


def test_the_house_needs_a_tariff_that_may_serve_it() -> None:
    own = flat("own", arrangements=["own-meter"])
    house = {"kind": "annual-energy", "kwh_per_year": 1000}
    base = {"arrangements": ["own-meter"], "separate_meter": separate_meter()}
    fails(compared(comparison(own, house_load=house, **base)), "charging-house-tariff", "/tariffs")
    found = fails(compared(comparison(flat(), house_tariff="flt")), "charging-house-tariff", "/house_tariff")
    assert sides(found) == ("flt", ["flat"])
    found = fails(
        compared(comparison(flat(), own, house_tariff="own")), "charging-house-tariff", "/house_tariff"
    )
    assert sides(found) == ("own", ["flat"])
    alone = compared(comparison(own, **base))
    assert finding(alone, "charging-house-tariff")["outcome"] == "not-applicable"
    assert alone["options"][0]["annual"]["without_charging"] == "0.00"
    assert {line["account"] for line in alone["options"][0]["months"][0]["lines"]} == {"charging"}


def test_an_arrangement_needs_a_tariff() -> None:
    asked = comparison(
        flat(arrangements=["whole-house", "own-meter"]),
        arrangements=["whole-house", "submeter"],
        separate_meter=separate_meter(),
    )
    answer = compared(asked)
    found = fails(answer, "charging-arrangements", "/arrangements", stops=False)
    assert sides(found) == ("submeter", ["own-meter", "whole-house"])
    assert [(each["tariff"], each["arrangement"]) for each in answer["not_offered"]] == [("flat", "submeter")]


@pytest.mark.source("zoneinfo: 2027 has 8760 h in America/Denver; readings are counted by hand")
def test_a_series_has_to_be_that_of_the_year() -> None:
    for house, pointer, expected in (
        (series(8759), "/house_load/energy_kwh", (8759, 8760)),
        (series(8784), "/house_load/energy_kwh", (8784, 8760)),
        (series(HOURS, minutes=30), "/house_load/energy_kwh", (8760, 17520)),
        (
            series(start="2027-01-01T00:00:00-06:00"),
            "/house_load/start",
            ("2027-01-01T00:00:00-06:00", "2027-01-01T00:00:00-07:00"),
        ),
        (
            series(start="2027-02-30T00:00:00-07:00"),
            "/house_load/start",
            ("2027-02-30T00:00:00-07:00", "2027-01-01T00:00:00-07:00"),
        ),
    ):
        found = fails(compared(comparison(house_load=house)), "charging-house-load", pointer)
        assert sides(found) == expected
    other_offset = series(start="2027-01-01T08:00:00+01:00")
    assert finding(compared(comparison(house_load=other_offset)), "charging-house-load")["outcome"] == "pass"


@pytest.mark.source("worked by hand: hour 4000 of 2027 begins on 16 June at 17 o'clock daylight time")
def test_a_missing_reading_is_told_with_its_place_and_time() -> None:
    house = series()
    house["energy_kwh"][4000] = house["energy_kwh"][4001] = None
    found = fails(
        compared(comparison(house_load=house)), "charging-house-load", "/house_load/energy_kwh/4000"
    )
    assert "2 of 8760" in found["message"]
    assert "2027-06-16T17:00:00-06:00" in found["message"]


def test_a_profile_needs_an_hour_that_weighs() -> None:
    for profile in ({"hours": [0] * 24}, {"hours": [1] * 24, "months": [0] * 12}):
        house = {"kind": "annual-energy", "kwh_per_year": 100, "profile": profile}
        fails(compared(comparison(house_load=house)), "charging-house-load", "/house_load/profile")
        fails(compared(comparison(generation=house)), "charging-generation", "/generation/profile")


def test_generation_is_never_below_zero() -> None:
    generation = series()
    generation["energy_kwh"][25] = -0.1
    found = fails(
        compared(comparison(generation=generation)), "charging-generation", "/generation/energy_kwh/25"
    )
    assert sides(found) == (-0.1, 0)
    assert "2027-01-02T01:00:00-07:00" in found["message"]
    house = compared(comparison(house_load=generation))
    assert house["verdict"] == "no-failure-found"
    assert any(each["pointer"] == "/house_load/energy_kwh" for each in house["to_verify"])


def test_stays_may_not_overlap() -> None:
    early = {"weekdays": ["tue"], "arrival": "05:00", "departure": "06:00"}
    answer = compared(comparison(charging=charging(other_days=[early])))
    found = fails(answer, "charging-stays", "/charging/departure")
    assert "mon" in found["message"]
    assert "07:00" in found["message"]
    late = {"weekdays": ["mon"], "arrival": "20:00", "departure": "19:00"}
    answer = compared(comparison(charging=charging(other_days=[late])))
    fails(answer, "charging-stays", "/charging/other_days/0/departure")
    twice = [{**early, "weekdays": ["tue", "tue"], "arrival": "09:00"}, {**late, "weekdays": ["tue"]}]
    answer = compared(comparison(charging=charging(other_days=twice)))
    fails(answer, "charging-stays", "/charging/other_days/1/weekdays")
    touching = {"weekdays": ["tue"], "arrival": "07:00", "departure": "17:00"}
    answer = compared(comparison(charging=charging(other_days=[touching])))
    assert finding(answer, "charging-stays")["outcome"] == "pass"


@pytest.mark.source("SAE J1772: the pilot signal offers 6 A at least")
def test_the_least_current() -> None:
    weak = charging(charger={"charging_current_a": 5, "voltage_v": 240})
    found = fails(
        compared(comparison(charging=weak)), "charging-least-current", "/charging/charger/charging_current_a"
    )
    assert sides(found) == (5, 6)
    slow = charging(vehicle={"onboard_limit_a": 4})
    fails(compared(comparison(charging=slow)), "charging-least-current", "/charging/vehicle/onboard_limit_a")
    least = charging(charger={"charging_current_a": 6, "voltage_v": 240})
    assert finding(compared(comparison(charging=least)), "charging-least-current")["outcome"] == "pass"


def test_a_setting_above_the_onboard_limit_is_only_a_remark() -> None:
    answer = compared(comparison(charging=charging(vehicle={"onboard_limit_a": 24})))
    found = finding(answer, "charging-onboard-limit")
    assert (found["outcome"], found["force"], sides(found)) == ("fail", "recommendation", (32, 24))
    assert answer["verdict"] == "no-failure-found"


@pytest.mark.source("worked by hand: 0.3 kWh for 100 mi is what someone wrote who meant a mile")
@pytest.mark.parametrize(
    ("value", "unit", "outcome"),
    [
        (0.3, "kWh/100 mi", "fail"),
        (30, "kWh/100 mi", "pass"),
        (30, "kWh/mi", "fail"),
        (3.4, "mi/kWh", "pass"),
    ],
)
def test_a_consumption_that_no_vehicle_has(value: float, unit: str, outcome: str) -> None:
    need = {
        "kind": "distance",
        "basis": "wall",
        "distance_by_weekday": {"mon": 1},
        "distance_unit": "mi",
        "consumption": {"value": value, "unit": unit},
    }
    found = finding(compared(comparison(charging=charging(energy_need=need))), "charging-consumption")
    assert (found["outcome"], found["force"]) == (outcome, "recommendation")


@pytest.mark.source(
    "worked by hand: 20 kWh times 1.6 at the wall; 25 kWh in the battery are 27.78 at the wall"
)
def test_the_need_has_to_fit_into_the_battery() -> None:
    need = {
        "kind": "energy",
        "basis": "wall",
        "kwh_by_weekday": {"mon": 20, "tue": 5},
        "worst_day_factor": 1.6,
        "charging_efficiency": 0.9,
    }
    answer = compared(comparison(charging=charging(energy_need=need, vehicle={"battery_kwh": 25})))
    found = fails(answer, "charging-battery", "/charging/energy_need/kwh_by_weekday", stops=False)
    assert sides(found) == (32, pytest.approx(27.777778))
    need["basis"] = "battery"
    answer = compared(comparison(charging=charging(energy_need=need, vehicle={"battery_kwh": 32})))
    assert finding(answer, "charging-battery")["outcome"] == "pass"


def test_a_timer_outside_the_stay() -> None:
    schedules = [
        {"kind": "on-arrival"},
        {"kind": "timer", "windows": [{"from": "23:00", "to": "05:00"}, {"from": "09:00", "to": "12:00"}]},
    ]
    answer = compared(comparison(schedules=schedules))
    found = fails(answer, "charging-timer-windows", "/schedules/1/windows/1", stops=False)
    assert sides(found) == ("09:00 to 12:00", "within 18:00 to 07:00")


def test_a_surplus_needs_generation_behind_the_same_meter() -> None:
    solar = {"schedules": [{"kind": "on-arrival"}, {"kind": "solar-surplus-first"}]}
    answer = compared(comparison(**solar))
    fails(answer, "charging-solar-surplus", "/generation", stops=False)
    assert len(answer["options"]) == 1
    assert len(answer["not_offered"]) == 1
    generation = {"kind": "annual-energy", "kwh_per_year": 100, "profile": {"hours": [1] * 24}}
    asked = comparison(
        generation=generation, arrangements=["own-meter"], separate_meter=separate_meter(), **solar
    )
    fails(compared(asked), "charging-solar-surplus", "/schedules/1", stops=False)


@pytest.mark.source("worked by hand: 6 h at 16 A and 240 V are 23.04 kWh; 60 kWh ask for 41.67 A")
def test_the_worst_winter_day_has_to_fit_into_the_window() -> None:
    need = {"kind": "energy", "basis": "wall", "kwh_by_weekday": {"mon": 40}, "worst_day_factor": 1.5}
    charger = {"charging_current_a": 16, "voltage_v": 240}
    schedules = [{"kind": "timer", "windows": [{"from": "00:00", "to": "06:00"}]}, {"kind": "on-arrival"}]
    asked = comparison(charging=charging(energy_need=need, charger=charger), schedules=schedules)
    answer = compared(asked)
    timer, arrival = findings(answer, "charging-need-in-window")
    assert (timer["outcome"], timer["pointer"], sides(timer)) == ("fail", "/schedules/0", (23.04, 60))
    assert "42 A would do" in timer["message"]
    # 13 h bring 49.92 kWh.
    assert (arrival["outcome"], sides(arrival)) == ("fail", (49.92, 60))
    assert "20 A would do" in arrival["message"]
    asked["charging"]["vehicle"] = {"onboard_limit_a": 40}
    timer, _ = findings(compared(asked), "charging-need-in-window")
    assert "No current" in timer["message"]
    assert compared(asked)["windows"][0]["worst_day"]["current_that_would_do_a"] is None


def test_a_timer_that_never_charges_delivers_nothing() -> None:
    schedules = [{"kind": "timer", "windows": [{"from": "09:00", "to": "12:00"}]}]
    answer = compared(comparison(schedules=schedules))
    (option,) = answer["options"]
    assert (option["charged_kwh"], option["per_kwh"], option["unmet_kwh"]) == (0, None, 3650)
    worst = answer["windows"][0]["worst_day"]
    assert (worst["hours"], worst["deliverable_kwh"], worst["current_that_would_do_a"]) == (0, 0, None)


def test_no_need_is_answered() -> None:
    need = {"kind": "energy", "basis": "wall", "kwh_by_weekday": {}}
    asked = comparison(
        charging=charging(energy_need=need),
        arrangements=["whole-house", "own-meter"],
        separate_meter=separate_meter(),
        schedules=[{"kind": "least-cost"}],
    )
    answer = compared(asked)
    assert answer["verdict"] == "no-failure-found"
    assert answer["windows"][0] == {
        "schedule": 0,
        "nights": 0,
        "nights_met": 0,
        "unmet_kwh": 0,
        "worst_day": None,
    }
    assert {each["per_kwh"] for each in answer["options"]} == {None}
    for each in answer["separate_meter"]["against"]:
        assert (each["payback_years"], each["break_even_kwh_per_year"]) == (None, None)


def test_a_separate_meter_without_its_costs() -> None:
    both = {"arrangements": ["whole-house", "own-meter"]}
    answer = compared(comparison(**both))
    found = finding(answer, "charging-separate-meter")
    assert (found["outcome"], answer["verdict"], answer["separate_meter"]) == (
        "undetermined",
        "undetermined",
        None,
    )
    assert len(answer["options"]) == 2
    assert any(each["pointer"] == "/separate_meter/monthly_charge" for each in answer["to_verify"])
    alone = compared(comparison(arrangements=["own-meter"], separate_meter=separate_meter()))
    assert finding(alone, "charging-separate-meter")["outcome"] == "undetermined"
    stated = compared(comparison(separate_meter=separate_meter()))
    assert finding(stated, "charging-separate-meter")["outcome"] == "pass"
    assert {each["arrangement"] for each in stated["options"]} == {"whole-house", "own-meter"}


@pytest.mark.parametrize(
    ("changes", "pointer"),
    [
        ({"tariff": "other"}, "/worked_bill/tariff"),
        ({"schedule": 4}, "/worked_bill/schedule"),
        ({"arrangement": "own-meter"}, "/worked_bill/arrangement"),
    ],
)
def test_the_worked_month_has_to_be_one_of_an_option(changes: Json, pointer: str) -> None:
    wanted = {"tariff": "flat", "arrangement": "whole-house", "schedule": 0, "month": 7, **changes}
    answer = compared(comparison(worked_bill=wanted))
    found = finding(answer, "charging-worked-bill")
    assert (found["outcome"], found["pointer"], answer["worked_bill"]) == ("fail", pointer, None)


def test_what_was_assumed_is_to_be_verified() -> None:
    stated = {each["pointer"] for each in compared(comparison())["to_verify"]}
    assert {
        "/house_tariff",
        "/charging/energy_need/winter_factor_by_month",
        "/charging/energy_need/worst_day_factor",
        "/charging/vehicle/onboard_limit_a",
        "/charging/vehicle/battery_kwh",
        "/charging/charger/phases",
    } <= stated
    even = compared(comparison(house_load={"kind": "annual-energy", "kwh_per_year": 5000}))
    assert any(each["pointer"] == "/house_load/profile" for each in even["to_verify"])
    need = {"kind": "energy", "basis": "battery", "kwh_by_weekday": dict.fromkeys(WEEK, 1)}
    losing = compared(comparison(charging=charging(energy_need=need)))
    assert any("0.85" in each["stated"] for each in losing["to_verify"])


def test_coarse_readings_under_a_short_demand_are_said_not_to_show_it() -> None:
    demand = [{"name": "demand", "per_kw": "5", "averaging_minutes": 15}]
    answer = compared(comparison(by_clock(demand_charges=demand), house_load=series()))
    assert any("60 minutes" in each for each in answer["not_examined"])


@pytest.mark.source("SAE J1772: the pilot signal offers 6 A to 80 A")
def test_a_current_that_would_do_is_one_that_a_charger_offers() -> None:
    little = {"kind": "energy", "basis": "wall", "kwh_by_weekday": {"mon": 5}}
    # 5 kWh in 13 h at 240 V are 1.6 A.
    answer = compared(comparison(charging=charging(energy_need=little)))
    assert answer["windows"][0]["worst_day"]["current_that_would_do_a"] == 6
    # 100 kWh in 1 h at 240 V are 416.7 A.
    much = {**little, "kwh_by_weekday": {"mon": 100}}
    answer = compared(comparison(charging=charging(energy_need=much, arrival="22:00", departure="23:00")))
    assert answer["windows"][0]["worst_day"]["current_that_would_do_a"] is None
    assert "No current that a charger offers" in finding(answer, "charging-need-in-window")["message"]


@pytest.mark.source("worked by hand: a mean January day of 1.4 times 20 kWh, a worst one of 20 kWh")
def test_the_worst_day_needs_no_less_than_a_mean_one() -> None:
    need = {
        "kind": "energy",
        "basis": "wall",
        "kwh_by_weekday": dict.fromkeys(WEEK, 20),
        "winter_factor_by_month": [1.4, *[1] * 11],
        "worst_day_factor": 1,
    }
    found = fails(
        compared(comparison(charging=charging(energy_need=need))),
        "charging-worst-day",
        "/charging/energy_need/worst_day_factor",
        stops=False,
    )
    assert sides(found) == (1, 1.4)
    need["worst_day_factor"] = 1.4
    found = finding(compared(comparison(charging=charging(energy_need=need))), "charging-worst-day")
    assert found["outcome"] == "pass"


def test_a_profile_under_a_demand_charge_is_said_to_average_out_its_peaks() -> None:
    house = {"kind": "annual-energy", "kwh_per_year": 9000, "profile": {"hours": [1] * 24}}
    demand = [{"name": "demand", "per_kw": "5", "averaging_minutes": 15}]
    answer = compared(comparison(flat(demand_charges=demand), house_load=house))
    assert any("a profile averages out" in each for each in answer["not_examined"])
    answer = compared(comparison(house_load=house))
    assert not any("a profile averages out" in each for each in answer["not_examined"])


def test_what_becomes_of_a_bill_below_zero_is_said_not_to_be_looked_at() -> None:
    climate = [{"name": "climate", "amount": "400"}]
    answer = compared(comparison(flat(credits=climate)))
    assert float(answer["options"][0]["months"][0]["total"]) < 0
    assert any("below zero" in each for each in answer["not_examined"])
    assert not any("below zero" in each for each in compared(comparison())["not_examined"])


@pytest.mark.source("worked by hand: one hour at 7.68 kW brings 7.68 of 20 kWh, a day of sun all of them")
def test_energy_that_is_not_brought_is_no_saving_of_a_separate_meter() -> None:
    need = {"kind": "energy", "basis": "wall", "kwh_by_weekday": dict.fromkeys(WEEK, 20)}
    stay = charging(energy_need=need, arrival="08:00", departure="17:00")
    hour = {"kind": "timer", "windows": [{"from": "08:00", "to": "09:00"}]}
    sun = {"kind": "annual-energy", "kwh_per_year": 9000, "profile": {"hours": [1] * 24}}
    asked = comparison(
        charging=stay,
        schedules=[hour, {"kind": "solar-surplus-first"}],
        generation=sun,
        arrangements=["whole-house", "own-meter"],
        separate_meter=separate_meter(),
    )
    answer = compared(asked)
    found = answer["separate_meter"]
    ranks = [found["option"], *(each["option"] for each in found["against"])]
    assert len(ranks) == 3
    unmet = [answer["options"][rank - 1]["unmet_kwh"] for rank in ranks]
    assert unmet == pytest.approx([12.32 * 365] * 3)
