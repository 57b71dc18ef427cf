"""Disputed provisions: named only where they were consulted, and the other verdict is the true one."""

import json
from typing import Any

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from tests.checks.circuits import Json, designed, outcomes, reviewed
from tests.checks.effort import examples
from tests.checks.strategies import READINGS, any_designs, any_reviews, usual_designs, usual_reviews


def under(request: Json, name: str, reading: str) -> Json:
    """The request with one reading chosen."""
    return {**request, "readings": {**(request.get("readings") or {}), name: reading}}


def consulted(answer: Json) -> dict[str, Any]:
    return {item["name"]: item for item in answer["interpretations"]}


def states_the_other_verdicts(answer: Json, review_request: Json) -> None:
    for name, item in consulted(answer).items():
        stated = (review_request.get("readings") or {}).get(name)
        assert item["reading"] == (stated or READINGS[name][0])
        others = {other["reading"]: other["verdict"] for other in item["other_readings"]}
        assert set(others) == set(READINGS[name]) - {item["reading"]}
        for reading, verdict in others.items():
            assert reviewed(under(review_request, name, reading))["verdict"] == verdict, (name, reading)
        assert item["changes_verdict"] == any(verdict != answer["verdict"] for verdict in others.values())


@examples(120)
@given(st.one_of(any_reviews(), usual_reviews()))
def test_a_review_states_the_verdict_under_every_other_reading(asked: Json) -> None:
    states_the_other_verdicts(reviewed(asked), asked)


@examples(100)
@given(st.one_of(any_designs(), usual_designs()))
def test_a_design_states_the_verdict_of_the_same_sizes_under_every_other_reading(asked: Json) -> None:
    answer = designed(asked)
    assume(answer["design"] is not None)
    states_the_other_verdicts(answer, answer["review_request"])


@examples(100)
@given(st.one_of(any_designs(), usual_designs()))
def test_where_no_design_can_be_made_another_reading_is_designed_for(asked: Json) -> None:
    answer = designed(asked)
    assume(answer["design"] is None)
    for name, item in consulted(answer).items():
        for other in item["other_readings"]:
            assert designed(under(asked, name, other["reading"]))["verdict"] == other["verdict"], name


def test_another_reading_that_allows_a_design_is_said_to() -> None:
    # Nonmetallic-sheathed cable, made up to 2 AWG, and a full damp whip: by the operating temperature 1 AWG is
    # asked for, by the 60 degC column 3 AWG, which the cable is made with.
    lugs = {"temperature_rating_c": 60, "materials": ["copper"]}
    request = {
        "edition": "nec-2023",
        "premises": {"occupancy": "one-family", "charger_location": "outdoors"},
        "supply": {"system": "split-phase-120-240"},
        "charger": {
            "charging_current_a": 48,
            "rated_current_a": 48,
            "setting_access": "restricted",
            "connection": {"kind": "hardwired"},
            "terminals": lugs,
        },
        "breaker": {"terminals": lugs, "listed_for_panel": True},
        "conductors": {"material": "copper"},
        "run": [
            {"wiring_method": "nm-b", "length": {"value": 20, "unit": "ft"}, "location": "dry"},
            {
                "wiring_method": "lfnc-b",
                "length": {"value": 6, "unit": "ft"},
                "location": "damp",
                "other_current_carrying_conductors": 8,
                "other_conductors_area_in2": 0.1688,
            },
        ],
    }
    answer = designed(request)
    assert (answer["verdict"], answer["design"]) == ("fail", None)
    other = designed(under(request, "liquidtight-temperature", "sixty-degree-column"))
    assert other["design"] is not None
    item = consulted(answer)["liquidtight-temperature"]
    assert item["other_readings"] == [{"reading": "sixty-degree-column", "verdict": other["verdict"]}]
    assert item["changes_verdict"]


def test_sizes_that_serve_but_fail_are_not_what_another_reading_is_judged_on() -> None:
    # By the nameplate of 40 A the breaker has 50 A, too much for the receptacle of 30 A; by the setting it has 15 A.
    charger = {
        "charging_current_a": 6,
        "rated_current_a": 40,
        "connection": {"kind": "receptacle", "configuration": "14-30"},
    }
    request = {
        "edition": "nec-2017",
        "supply": {"system": "split-phase-120-240"},
        "charger": charger,
        "conductors": {"material": "copper"},
        "run": [{"wiring_method": "emt", "length": {"value": 1, "unit": "ft"}}],
    }
    answer = designed(request)
    assert (answer["verdict"], answer["design"]) == ("fail", None)
    other = designed(under(request, "setting-as-rating", "setting"))
    assert (other["verdict"], other["design"] is None) == ("undetermined", False)
    item = consulted(answer)["setting-as-rating"]
    assert item["other_readings"] == [{"reading": "setting", "verdict": "undetermined"}]
    assert item["changes_verdict"]


@examples(80)
@given(st.one_of(any_reviews(), usual_reviews()), st.sampled_from(sorted(READINGS)))
def test_a_reading_that_was_not_consulted_changes_nothing(asked: Json, name: str) -> None:
    answer = reviewed(asked)
    assume(name not in consulted(answer))
    for reading in READINGS[name]:
        assert outcomes(reviewed(under(asked, name, reading))) == outcomes(answer)


@examples(80)
@given(st.one_of(any_designs(), usual_designs()), st.sampled_from(sorted(READINGS)))
def test_a_reading_that_was_not_consulted_changes_no_design(asked: Json, name: str) -> None:
    answer = designed(asked)
    assume(name not in consulted(answer))
    for reading in READINGS[name]:
        other = designed(under(asked, name, reading))
        assert json.dumps(other["design"]) == json.dumps(answer["design"])
        assert outcomes(other) == outcomes(answer)


@pytest.mark.parametrize(
    "inches, reading, temperature",
    [
        (0.5, "three-quarters-inch", 63),
        (0.8, "seven-eighths-inch", 63),
        (0.8, "three-quarters-inch", 30),
        (0.875, "seven-eighths-inch", 30),
    ],
)
@pytest.mark.source(
    "NEC 310.15(B)(2): 33 degC are added below 7/8 in; one secondary page has 3/4 in for 2023"
)
def test_the_rooftop_adder_follows_the_reading(inches: float, reading: str, temperature: float) -> None:
    request = {
        "edition": "nec-2023",
        "supply": {"system": "split-phase-120-240"},
        "charger": {"charging_current_a": 16, "connection": {"kind": "hardwired"}},
        "conductors": {"material": "copper"},
        "run": [
            {
                "wiring_method": "emt",
                "length": {"value": 20, "unit": "ft"},
                "location": "wet",
                "rooftop_clearance": {"value": inches, "unit": "in"},
            }
        ],
        "readings": {"rooftop-clearance": reading},
    }
    steps = {step["id"]: step for step in designed(request)["steps"]}
    assert steps["segment-0-correction"]["inputs"]["ambient_c"]["value"] == temperature


@pytest.mark.source("NEC 310.15(B)(2) and its exception: conductors of type XHHW-2 are spared the 33 degC")
@pytest.mark.parametrize("method, temperature", [("emt", 30), ("mc", 63)])
def test_the_exception_for_xhhw_2_is_for_conductors_in_raceways(method: str, temperature: int) -> None:
    # A cable has conductors of its own, whatever the request says of those in its raceways.
    request = {
        "edition": "nec-2023",
        "supply": {"system": "split-phase-120-240"},
        "charger": {"charging_current_a": 16, "connection": {"kind": "hardwired"}},
        "conductors": {"material": "copper", "insulation": "XHHW-2"},
        "run": [
            {
                "wiring_method": method,
                "length": {"value": 20, "unit": "ft"},
                "location": "dry",
                "rooftop_clearance": {"value": 0.5, "unit": "in"},
            }
        ],
    }
    steps = {step["id"]: step for step in designed(request)["steps"]}
    assert steps["segment-0-correction"]["inputs"]["ambient_c"]["value"] == temperature
