"""A missing fact: what passes without it passes whatever it is, and what fails fails whatever it is."""

import copy
from collections.abc import Iterator

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.checks.circuits import Json, by_rule, designed, outcomes, reviewed
from tests.checks.effort import examples
from tests.checks.strategies import LOCATIONS, usual_designs, usual_reviews


def completions(request: Json, missing: str, place: int) -> Iterator[Json]:
    """The request with every value that the missing fact may have; the first one lacks it."""
    vague = copy.deepcopy(request)
    if missing == "location":
        del vague["run"][place]["location"]
        yield vague
        for location in LOCATIONS:
            run = [*vague["run"]]
            run[place] = {**run[place], "location": location}
            yield {**vague, "run": run}
    elif missing == "access":
        del vague["charger"]["setting_access"]
        yield vague
        for access in ("restricted", "unrestricted"):
            yield {**vague, "charger": {**vague["charger"], "setting_access": access}}
    elif missing == "temperature":
        terminals = vague["breaker"]["terminals"]
        del terminals["temperature_rating_c"]
        yield vague
        # What is not marked counts as 60 degC up to 100 A, where a marking may say 75, and as 75 degC above.
        breaker = request["installed"].get("breaker_rating_a")
        for rating in (60, 75) if breaker is None or breaker <= 100 else (75,):
            marked = {**terminals, "temperature_rating_c": rating}
            yield {**vague, "breaker": {**vague["breaker"], "terminals": marked}}
    elif missing == "occupancy":
        del vague["premises"]["occupancy"]
        yield vague
        for occupancy in ("one-family", "two-family", "multifamily", "other"):
            yield {**vague, "premises": {**vague["premises"], "occupancy": occupancy}}
    elif missing == "protection":
        del vague["installed"]["ground_fault_protection"]
        yield vague
        for protection in ("breaker", "receptacle", "charger", "none"):
            yield {**vague, "installed": {**vague["installed"], "ground_fault_protection": protection}}


@examples(150)
@given(
    st.one_of(usual_reviews(), usual_designs()),
    st.sampled_from(("location", "access", "temperature", "occupancy", "protection")),
    st.data(),
)
def test_a_judgement_without_a_fact_holds_for_every_value_of_it(
    asked: Json, missing: str, data: st.DataObject
) -> None:
    if "installed" not in asked:
        answer = designed(asked)
        if answer["design"] is None:
            return
        asked = answer["review_request"]
    if missing == "protection" and "ground_fault_protection" not in asked["installed"]:
        return
    place = data.draw(st.integers(0, len(asked["run"]) - 1))
    vague, *full = [outcomes(reviewed(request)) for request in completions(asked, missing, place)]
    for rule, outcome in vague.items():
        found = {answer[rule] for answer in full}
        if outcome == "pass":
            assert found <= {"pass", "not-applicable"}, rule
        elif outcome == "fail":
            assert found == {"fail"}, rule
        elif outcome == "not-applicable" and (missing, rule) != ("access", "setting-label"):
            # A setting whose access is unknown does not count, so that it needs no label; known to be restricted
            # it counts, and needs one.
            assert "fail" not in found, rule


@pytest.mark.source("NEC 625.42(B) of 2023: the nameplate counts unless access to the setting is restricted")
def test_what_is_assumed_of_the_setting_and_the_power_factor_is_to_be_verified() -> None:
    request: Json = {
        "edition": "nec-2023",
        "supply": {"system": "split-phase-120-240"},
        "charger": {"charging_current_a": 32, "rated_current_a": 48, "connection": {"kind": "hardwired"}},
        "conductors": {"material": "copper"},
        "run": [{"wiring_method": "emt", "length": {"value": 30, "unit": "ft"}, "location": "dry"}],
    }
    stated = {item["pointer"]: item["stated"] for item in designed(request)["to_verify"]}
    assert stated["/charger/setting_access"] == "not stated, taken as unrestricted: the rated 48 A count"
    assert stated["/charger/power_factor"] == "not stated, taken as 1"
    request["charger"]["setting_access"] = "unrestricted"
    stated = {item["pointer"]: item["stated"] for item in designed(request)["to_verify"]}
    assert stated["/charger/setting_access"] == "unrestricted"


@pytest.mark.source("NEC table 300.5: no cover is asked for in a raceway under a building")
def test_a_raceway_under_a_building_needs_no_stated_cover() -> None:
    request: Json = {
        "edition": "nec-2023",
        "supply": {"system": "split-phase-120-240"},
        "charger": {"charging_current_a": 32, "connection": {"kind": "hardwired"}},
        "conductors": {"material": "copper"},
        "run": [
            {
                "wiring_method": "pvc-40",
                "length": {"value": 30, "unit": "ft"},
                "underground": {"under": "building"},
            }
        ],
        "installed": {"breaker_rating_a": 40, "ungrounded_size": "8 AWG", "grounding_size": "10 AWG"},
    }
    assert by_rule(reviewed(request))["burial-cover"]["outcome"] == "pass"
    request["run"][0]["underground"] = {"under": "soil"}
    assert by_rule(reviewed(request))["burial-cover"]["outcome"] == "undetermined"


@pytest.mark.source(
    "NEC 240.6(A), 334.104, table 310.16: 80 A asks for 100 A, and 2 AWG cable has 95 A at 60 degC"
)
def test_a_design_at_the_best_shows_the_figures_of_the_best() -> None:
    # With the nameplate of 80 A no nonmetallic-sheathed cable serves; with the setting of 6 A 14 AWG does, on 15 A.
    request: Json = {
        "edition": "nec-2023",
        "supply": {"system": "split-phase-120-240"},
        "charger": {"charging_current_a": 6, "rated_current_a": 80, "connection": {"kind": "hardwired"}},
        "conductors": {"material": "copper"},
        "run": [{"wiring_method": "nm-b", "length": {"value": 30, "unit": "ft"}, "location": "dry"}],
    }
    answer = designed(request)
    assert answer["verdict"] == "undetermined"
    assert answer["design"]["breaker"]["rating_a"] == 15
    assert answer["design"]["conductors"]["ungrounded"]["size"] == "14 AWG"
    steps = {step["id"]: step["value"] for step in answer["steps"]}
    assert (steps["load"], steps["breaker-rating"]) == (6, 15)
    assert by_rule(answer)["overcurrent-continuous-load"]["outcome"] == "undetermined"
