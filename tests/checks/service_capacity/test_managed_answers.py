"""What an answer to a managed-charging study says: steps that replay, sums that agree, and what it cautions of."""

import hashlib
import re
from itertools import pairwise
from typing import Any

import pytest
import rfc8785
from demandlib import bdew
from hypothesis import given
from hypothesis import strategies as st
from tests.checks.effort import examples
from tests.checks.printed import sections, standard_ratings_a
from tests.checks.replay import replay
from tests.checks.service_capacity import charging_oracle as oracle
from tests.checks.service_capacity.drawn_studies import any_study
from tests.checks.service_capacity.studies import (
    Json,
    by_rule,
    charger,
    energies,
    seeded,
    session,
    studied,
    study,
)
from tests.checks.test_every_answer import citations, is_in_schema

from branchwright.checks.service_capacity.managed_charging import ManagedChargingRequest, smallest
from branchwright.codebook import revision

SCHEMA = ManagedChargingRequest.model_json_schema(by_alias=True)


@st.composite
def any_question(draw: st.DrawFn) -> Json:
    """Any study, in any edition and with anything left out that may be."""
    asked = draw(any_study())
    asked["edition"] = draw(st.sampled_from(["nec-2017", "nec-2020", "nec-2023", "nec-2026"]))
    if draw(st.booleans()):
        asked["jurisdiction"] = "a county"
    if draw(st.booleans()):
        asked["house_load"]["leg_assumption"] = draw(st.sampled_from(["balanced", "all-on-one-leg"]))
    if draw(st.booleans()):
        asked["house_load"]["power_factor"] = 0.93
    if draw(st.booleans()):
        asked["service"] = {"system": "wye-208y-120", "phases": 3, "rating_a": 60}
        asked["chargers"][0]["phases"] = draw(st.sampled_from([1, 3]))
    if draw(st.booleans()):
        energy = asked["house_load"].pop("energy_wh")
        legs = 3 if asked["service"].get("phases") == 3 else 2
        asked["house_load"]["leg_currents_a"] = [
            [None if each is None else round(each * share / 60, 3) for each in energy]
            for share in (1.0, 0.7, 1.1)[:legs]
        ]
    if draw(st.booleans()):
        asked["management"]["margin_a"] = 2
    if draw(st.booleans()):
        for one in asked["chargers"]:
            one["sessions"][0].pop("basis")
            one["vehicle"] = {**one.get("vehicle", {}), "charging_efficiency": 0.9}
    if draw(st.booleans()):
        asked["chargers"][0]["sessions"] *= 2
    return asked


@examples(150)
@given(any_question())
def test_any_study_is_answered_in_full(asked: Json) -> None:
    answer = studied(asked)
    replay(answer, asked)
    findings = by_rule(answer)
    required = [each["outcome"] for each in findings.values() if each["force"] == "requirement"]
    expected = (
        "fail" if "fail" in required else "undetermined" if "undetermined" in required else "no-failure-found"
    )
    assert answer["verdict"] == expected
    for finding in findings.values():
        assert finding["message"].endswith((".", ")"))
        assert finding["pointer"] is None or is_in_schema(finding["pointer"], SCHEMA)
        margin = finding["margin_percent"]
        assert margin is None or margin <= 0 or finding["outcome"] == "pass"
        assert margin is None or margin >= 0 or finding["outcome"] == "fail"
    for item in answer["to_verify"]:
        assert is_in_schema(item["pointer"], SCHEMA), item
    for cited in citations(answer):
        assert cited["publication"] == asked["edition"]
        assert cited["section"] in sections(asked["edition"])
    assert answer["edition"] == asked["edition"]
    assert answer["jurisdiction"] == asked.get("jurisdiction")
    assert answer["provenance"]["input_sha256"] == hashlib.sha256(rfc8785.dumps(asked)).hexdigest()
    assert answer["provenance"]["codebook_revision"] == revision()
    assert any("no proof of safety" in caution for caution in answer["cautions"])
    assert answer["not_examined"]


@examples(60)
@given(any_study())
def test_nights_chargers_and_the_whole_time_agree(asked: Json) -> None:
    answer = studied(asked)
    year = answer["year"]
    for part in (answer["nights"], answer["by_charger"]):
        for name in ("needed_kwh", "delivered_kwh", "unmet_kwh", "hours_paused"):
            total = {"needed_kwh": "energy_needed_kwh", "delivered_kwh": "energy_delivered_kwh"}.get(
                name, name
            )
            assert sum(each[name] for each in part) == pytest.approx(year[total], abs=1e-4)
        assert sum(each["sessions"] for each in part) == year["sessions"]
        assert sum(each["sessions_met"] for each in part) == year["sessions_met"]
        for each in part:
            assert each["needed_kwh"] == pytest.approx(each["delivered_kwh"] + each["unmet_kwh"], abs=2e-6)
    unmet = answer["unmet_sessions"]
    assert len(unmet) == min(100, year["sessions"] - year["sessions_met"])
    assert [each["unmet_kwh"] for each in unmet] == sorted(
        (each["unmet_kwh"] for each in unmet), reverse=True
    )
    if answer["nights"]:
        assert year["worst_night"] in answer["nights"]
        assert year["worst_night"]["unmet_kwh"] == max(night["unmet_kwh"] for night in answer["nights"])
        assert answer["worst_day"]["date"] == year["worst_night"]["date"]


def step_values(answer: Json) -> dict[str, Any]:
    return {step["id"]: step["value"] for step in answer["steps"]}


def test_the_fullest_interval_of_the_worst_night_is_worked_out() -> None:
    # 12:00 Wh in a quarter hour are 48 kW, 200 A: a peak at 20 o'clock on the second evening.
    quiet = 480 / 4
    house = [quiet] * 288
    house[96 + 80] = 6000 / 4
    vehicle = {"charging_efficiency": 0.8, "onboard_limit_a": 38}
    night = {**session(energy_kwh=500)}
    del night["basis"]
    asked = study(
        house,
        chargers=[charger(vehicle=vehicle, sessions=[night])],
        management={"control_setting_a": 45, "margin_a": 2, "resume_delay_minutes": 0},
    )
    answer = studied(asked)
    assert answer["year"]["worst_night"]["date"] == "2025-01-02"
    values = step_values(answer)
    assert values["energy-needed"] == 625
    assert values["house-current-176"] == 25
    assert values["own-limit"] == 38
    assert values["charging-limit"] == 18
    assert values["charging-current"] == 18
    assert values["charging-power"] == pytest.approx(4.32)
    assert values["energy-of-interval"] == pytest.approx(1.08)


def test_the_vehicle_that_lacks_most_is_worked_out_and_not_the_one_that_waits_longest() -> None:
    # Of 18 A the first takes its 16 all night and lacks most; for the second two are left, and it waits.
    first = charger(charging_current_a=16, sessions=[session(energy_kwh=500)])
    second = charger(sessions=[session(arrival="18:05", energy_kwh=20)])
    asked = study(
        [120.0] * 288,
        chargers=[first, second],
        management={"control_setting_a": 20, "sharing": "first-come"},
    )
    answer = studied(asked)
    assert [each["charger"] for each in answer["unmet_sessions"]] == [0, 0, 1, 1]
    assert answer["by_charger"][0]["hours_paused"] == 0 < answer["by_charger"][1]["hours_paused"]
    assert step_values(answer)["own-limit"] == 16


@pytest.mark.source("NEC 220.70 of 2023 as trade pages have it: the setting counts 125 percent; NEC 240.6(A)")
def test_the_smallest_service_carries_the_smallest_setting_and_the_house_alone() -> None:
    # Ten kWh in thirteen hours of 10 A: 4 A are enough on average, so 6 A and the house's two.
    slow = charger(sessions=[session(energy_kwh=10)])
    answer = studied(study([120.0] * 288, chargers=[slow]))
    assert answer["smallest"]["control_setting_a"] == 8
    assert answer["smallest"]["house_alone_a"] == 2
    # 1.25 times 8 A are 10 A, which is a standard rating from 2023 on.
    assert answer["smallest"]["service_rating_a"] == 10
    assert (
        studied({**study([120.0] * 288, chargers=[slow]), "edition": "nec-2017"})["smallest"][
            "service_rating_a"
        ]
        == 15
    )
    # A kettle of an afternoon at 50 A lets nobody wait, and asks for 62.5 A.
    kettle = studied(study([*[120.0] * 40, 3000.0, *[120.0] * 247], chargers=[slow]))
    assert kettle["smallest"]["control_setting_a"] == 8
    assert kettle["smallest"]["house_alone_a"] == 50
    assert kettle["smallest"]["service_rating_a"] == 70
    assert "50.0 A" in kettle["smallest"]["why"]


@pytest.mark.source(
    "NEC 120.7 of 2026 as trade press has it: loads not controlled and least operating currents"
)
@pytest.mark.parametrize("edition, rating", [("nec-2023", 60), ("nec-2026", 80)])
def test_least_operating_currents_count_where_the_edition_counts_them(edition: str, rating: float) -> None:
    # Three vehicles one after another get by with 8 A. The house's 46 A ask for 57.5 A, and with 18 A more for 75.5.
    visits = ["08:00", "11:00", "14:00", "17:00"]
    chargers = [
        charger(sessions=[session(arrival=comes, departure=goes, energy_kwh=3)])
        for comes, goes in pairwise(visits)
    ]
    asked = study([*[120.0] * 10, 46 * 60.0, *[120.0] * 277], chargers=chargers)
    answer = studied({**asked, "edition": edition})
    replay(answer, {**asked, "edition": edition})
    assert answer["smallest"]["control_setting_a"] == 8
    assert answer["smallest"]["service_rating_a"] == rating


@pytest.mark.source(
    "arithmetic: thirteen hours of whole amperes at 240 V, the house's two and a margin of five"
)
@pytest.mark.parametrize("amperes", [6, 7, 19, 30, 41, 52, 63, 74, 79, 80])
@pytest.mark.parametrize("over_kwh", [1e-4, 1.5])
def test_the_smallest_setting_leaves_just_enough(amperes: int, over_kwh: float) -> None:
    # A little more than an ampere less would bring in the whole night.
    need = 13 * 0.24 * (amperes - 1) + over_kwh
    large = charger(charging_current_a=80, circuit_breaker_a=100, sessions=[session(energy_kwh=need)])
    asked = study([120.0] * 288, chargers=[large], management={"control_setting_a": 60.5, "margin_a": 5})
    assert studied(asked)["smallest"]["control_setting_a"] == amperes + 7


@examples(40)
@given(any_study())
def test_the_smallest_service_is_a_standard_rating_that_no_smaller_one_replaces(asked: Json) -> None:
    found = studied(asked)["smallest"]
    if found is None or found["control_setting_a"] is None:
        return
    least = 1.25 * max(found["control_setting_a"], found["house_alone_a"])
    ratings = standard_ratings_a("nec-2023")
    assert found["service_rating_a"] == min(rating for rating in ratings if rating >= least - 1e-5)


def garage(vehicles: int, days: int) -> Json:
    random = seeded(11)
    chargers = [
        charger(
            charging_current_a=32,
            circuit_breaker_a=40,
            sessions=[
                session(
                    arrival=f"{random.randrange(16, 23)}:{random.choice(['00', '10', '45'])}",
                    departure=f"0{random.randrange(5, 9)}:30",
                    energy_kwh=random.randint(8, 40),
                )
            ],
        )
        for _ in range(vehicles)
    ]
    return study(energies(96 * days, 12), chargers=chargers, management={"control_setting_a": 150})


def test_a_search_with_little_work_names_its_resolution(monkeypatch: pytest.MonkeyPatch) -> None:
    # Enough for a few settings.
    monkeypatch.setattr(smallest, "WORK", 1_500_000)
    asked = garage(20, 5)
    asked["management"]["control_setting_a"] = 100
    answer = studied(asked)
    found = answer["smallest"]
    assert not found["is_least"]
    tried = [point["control_setting_a"] for point in answer["by_control_setting"]]
    assert len(tried) == len(set(tried)) == found["settings_tried"] < 20
    ruled_out = int(re.findall(r"below (\d+) A there is less than a night needs", found["why"])[0]) - 1
    between = [ruled_out, *(each for each in tried if ruled_out < each <= found["control_setting_a"])]
    assert len(between) > 2
    assert found["resolution_a"] == max(after - before for before, after in pairwise(between)) > 1
    assert f"at most {found['resolution_a']:g} A apart" in found["why"]
    other = {**asked, "management": {"control_setting_a": found["control_setting_a"]}}
    assert all(oracle.simulate(other).nights().values())


def test_a_stated_setting_that_meets_every_night_is_where_the_search_begins(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(smallest, "WORK", 0)
    answer = studied(garage(20, 5))
    assert answer["year"]["share_met_percent"] == 100
    assert answer["smallest"]["control_setting_a"] == 150
    assert answer["smallest"]["settings_tried"] == 1


def test_more_work_finds_a_setting_that_is_no_larger(monkeypatch: pytest.MonkeyPatch) -> None:
    asked = garage(20, 5)
    coarse_work = smallest.WORK
    fine = studied(asked)["smallest"]
    monkeypatch.setattr(smallest, "WORK", coarse_work // 1000)
    assert fine["control_setting_a"] <= studied(asked)["smallest"]["control_setting_a"]
    assert fine["resolution_a"] <= 10


def test_the_curve_has_the_stated_setting_and_the_smallest() -> None:
    asked = study(energies(96 * 20, 3), management={"control_setting_a": 37.5})
    answer = studied(asked)
    met = {point["control_setting_a"]: point for point in answer["by_control_setting"]}
    assert met[37.5]["nights_met"] == answer["year"]["nights_met"]
    least = answer["smallest"]["control_setting_a"]
    assert met[least]["share_met_percent"] == 100
    assert met[least - 1]["share_met_percent"] < 100
    settings = list(met)
    assert settings == sorted(settings)
    shares = [point["share_met_percent"] for point in met.values()]
    assert shares == sorted(shares), "with one vehicle more never meets fewer nights"


@pytest.mark.source(
    "BDEW standard load profile H0 of 2025 in the package demandlib: German, averaged; for shape only"
)
def test_a_standard_profile_is_studied_like_any_other_load() -> None:
    profile = bdew.ElecSlp(2025).get_scaled_power_profiles({"h0": 12_000})["h0"]
    energy_wh = [round(float(power) * 250, 3) for power in profile]
    assert sum(energy_wh) == pytest.approx(12e6, rel=1e-4)
    asked = study(
        energy_wh,
        house_load={"start": "2025-01-01T00:00:00+01:00", "time_zone": "Europe/Berlin"},
        chargers=[charger(sessions=[session(energy_kwh=25)]), charger(sessions=[session(arrival="21:30")])],
        management={"control_setting_a": 25},
    )
    answer, expected = studied(asked), oracle.simulate(asked)
    assert {night["date"]: night["met"] for night in answer["nights"]} == expected.nights()
    # An averaged household has no peaks: charging pauses for none, and takes what the evening leaves.
    assert answer["year"]["hours_house_above_setting"] == 0
    assert answer["year"]["greatest_total_current_a"] <= 25
    evening = {each["at"][11:16]: each for each in answer["worst_day"]["intervals"]}
    assert evening["19:00"]["available_a"] < evening["02:00"]["available_a"]


def test_the_worst_day_lasts_to_the_last_departure_of_its_night() -> None:
    answer = studied(study([120.0] * 288, chargers=[charger(sessions=[session(energy_kwh=500)])]))
    times = [each["at"] for each in answer["worst_day"]["intervals"]]
    assert (times[0], times[-1]) == ("2025-01-01T00:00:00-07:00", "2025-01-02T06:45:00-07:00")


def test_what_was_assumed_is_to_be_verified() -> None:
    least: Json = {
        "edition": "nec-2023",
        "service": {"system": "split-phase-120-240"},
        "house_load": {
            "start": "2025-01-01T00:00:00-07:00",
            "interval_minutes": 60,
            "time_zone": "America/Denver",
            "energy_wh": [500.0] * 72,
        },
        "chargers": [
            {
                "charging_current_a": 32,
                "circuit_breaker_a": 40,
                "sessions": [
                    {"weekdays": ["wed"], "arrival": "18:00", "departure": "07:00", "energy_kwh": 10}
                ],
            }
        ]
        * 2,
        "management": {"control_setting_a": 60},
    }
    assumed = {item["pointer"]: item["stated"] for item in studied(least)["to_verify"]}
    for pointer, taken in {
        "/house_load/leg_assumption": "balanced",
        "/house_load/power_factor": "1",
        "/service/phases": "1",
        "/management/margin_a": "0 A",
        "/management/response_s": "less than an interval",
        "/management/resume_delay_minutes": "15 minutes",
        "/management/sharing": "equal",
        "/chargers/1/vehicle/onboard_limit_a": "no limit",
        "/chargers/1/vehicle/charging_efficiency": "0.85",
        "/chargers/1/sessions/0/basis": "battery",
    }.items():
        assert assumed[pointer] == f"not stated, taken as {taken}"
    stated = {
        **least,
        "service": {**least["service"], "phases": 1},
        "house_load": {**least["house_load"], "leg_assumption": "balanced", "power_factor": 1.0},
        "chargers": [
            {
                **least["chargers"][0],
                "vehicle": {"onboard_limit_a": 80, "charging_efficiency": 0.85},
                "sessions": [{**least["chargers"][0]["sessions"][0], "basis": "battery"}],
            }
        ]
        * 2,
        "management": {
            "control_setting_a": 60,
            "margin_a": 0,
            "response_s": 5,
            "resume_delay_minutes": 15,
            "sharing": "equal",
        },
    }
    told, open_to_doubt = studied(stated), studied(least)
    assert not [item for item in told["to_verify"] if item["stated"].startswith("not stated")]
    # What is assumed is what is computed with.
    for name in ("nights", "year", "smallest", "by_control_setting", "worst_day"):
        assert told[name] == open_to_doubt[name]
