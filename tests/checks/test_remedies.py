"""Remedies are true: the change that is proposed, made by the reader, has the verdict that is stated."""

import copy
from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.checks.circuits import Json, by_rule, designed, outcomes, reviewed
from tests.checks.effort import examples
from tests.checks.strategies import (
    SIZES,
    TRADE_SIZES,
    any_designs,
    any_reviews,
    usual_designs,
    usual_reviews,
)


def marked_torque(request: Json, at: str) -> Json:
    """The torque marked at a place, by the name that torque records give it."""
    places = {
        "breaker": request.get("breaker"),
        "charger": request["charger"],
        "receptacle": request["charger"]["connection"],
    }
    kind, _, index = at.partition("/")
    place = request["points"][int(index)] if kind == "points" else places[kind]
    return dict(place["terminals"]["torque"])


def made(request: Json, remedy: Json) -> Json:
    """The request after the remedy, changed field by field as the remedy says."""
    result = copy.deepcopy(request)
    for change in remedy["changes"]:
        *parents, last = change["pointer"].split("/")[1:]
        here: Any = result
        for name in parents:
            here = here[int(name)] if isinstance(here, list) else here.setdefault(name, {})
        here[int(last) if isinstance(here, list) else last] = change["value"]
    return result


def failing(answer: Json) -> set[str]:
    return {
        name
        for name, finding in by_rule(answer).items()
        if finding["outcome"] == "fail" and finding["force"] == "requirement"
    }


def gives_nothing_up(request: Json, remedy: Json) -> None:
    """No remedy removes protection, enlarges the breaker, raises the current or shrinks what protects."""
    pointer, given_, proposed = remedy["pointer"], remedy["given"], remedy["proposed"]
    if pointer == "/installed/breaker_rating_a":
        assert proposed < request["installed"]["breaker_rating_a"]
    elif pointer == "/installed/ground_fault_protection":
        assert proposed == "breaker"
    elif pointer == "/charger/charging_current_a":
        assert proposed < request["charger"]["charging_current_a"]
    elif pointer.endswith(("grounding_size", "neutral_size", "largest")):
        assert SIZES.index(proposed) > SIZES.index(given_)
    elif pointer.endswith("raceway_trade_size"):
        assert TRADE_SIZES.index(proposed) > TRADE_SIZES.index(given_)
    else:
        assert pointer.rsplit("/", 1)[1] in HARMLESS or pointer.startswith("/installed/torque_records/")


HARMLESS = {
    "setting_label",
    "phases",
    "listed_for_ev_charging",
    "emergency_shutoff",
    "cover",
    "setting_access",
    "listed_for_wet",
    "disconnect",
    "connection",
    "ungrounded_size",
    "insulation",
    "material",
    "wiring_method",
    "raceway_temperature_rating_c",
    "voltage_drop_percent",
}
"""Fields whose change is judged by the whole circuit's verdict alone."""


def remedies_are_true(request: Json, answer: Json, ask: Callable[[Json], Json]) -> None:
    before = failing(answer)
    for name, finding in by_rule(answer).items():
        remedy = finding["remedy"]
        if remedy is None:
            continue
        assert name in before
        gives_nothing_up(request, remedy)
        after = ask(made(request, remedy))
        assert after["verdict"] == remedy["verdict"], (name, remedy)
        assert name not in failing(after)
        # A partial remedy breaks nothing that held.
        assert failing(after) < before
        if remedy["verdict"] == "fail":
            assert failing(after)
    whole = {
        (finding["remedy"]["pointer"], str(finding["remedy"]["proposed"]))
        for finding in answer["findings"]
        if finding["remedy"] is not None and finding["remedy"]["verdict"] != "fail"
    }
    assert len(whole) <= 1, "one change mends the whole circuit, and it is the remedy of every failure"


@examples(120)
@given(st.one_of(usual_reviews(), any_reviews()))
def test_remedies_of_a_review_are_true(asked: Json) -> None:
    remedies_are_true(asked, reviewed(asked), reviewed)


@examples(100)
@given(st.one_of(any_designs(), usual_designs()))
def test_remedies_of_a_design_are_true(asked: Json) -> None:
    remedies_are_true(asked, designed(asked), designed)


@examples(60)
@given(usual_designs(), st.sampled_from(("breaker_rating_a", "ungrounded_size", "grounding_size")))
def test_a_circuit_with_one_thing_wrong_has_a_remedy(asked: Json, wrong: str) -> None:
    answer = designed(asked)
    if answer["design"] is None or asked.get("targets"):
        return
    request = answer["review_request"]
    installed = dict(request["installed"])
    if wrong == "breaker_rating_a":
        # A breaker too large for its conductors has one remedy that needs no new copper: the right breaker.
        installed[wrong] = 2 * installed[wrong] + 100
        if installed[wrong] not in (200, 300, 400, 500, 600):
            return
        review = reviewed({**request, "installed": installed})
    else:
        place = SIZES.index(installed[wrong])
        if place < 2:
            return
        installed[wrong] = SIZES[place - 1]
        review = reviewed({**request, "installed": installed})
    assert review["verdict"] == "fail"
    remedies = [finding["remedy"] for finding in review["findings"] if finding["outcome"] == "fail"]
    assert any(remedy is not None for remedy in remedies)
    assert review["design"] is not None


def test_a_remedy_never_enlarges_the_breaker_where_that_alone_would_do() -> None:
    # 48 A on 6 AWG behind a 50 A breaker: a 60 A breaker would pass every rule, and is still not proposed.
    segment = {
        "wiring_method": "emt",
        "length": {"value": 30, "unit": "ft"},
        "location": "dry",
        "raceway_trade_size": "1",
    }
    lugs = {"temperature_rating_c": 75, "materials": ["copper"]}
    request = {
        "edition": "nec-2023",
        "premises": {"occupancy": "one-family", "charger_location": "garage"},
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
        "run": [segment],
        "installed": {
            "breaker_rating_a": 50,
            "ungrounded_size": "6 AWG",
            # Grown with the conductors, which 40 A on a 50 A breaker would need only 8 AWG for: 250.122(B).
            "grounding_size": "8 AWG",
            "ground_fault_protection": "breaker",
            "setting_label": True,
        },
    }
    larger = {**request, "installed": {**request["installed"], "breaker_rating_a": 60}}
    assert reviewed(larger)["verdict"] == "no-failure-found"
    review = reviewed(request)
    assert outcomes(review)["overcurrent-continuous-load"] == "fail"
    remedy = by_rule(review)["overcurrent-continuous-load"]["remedy"]
    # 40 A is the largest usual setting that a 50 A breaker carries continuously.
    assert (remedy["pointer"], remedy["proposed"]) == ("/charger/charging_current_a", 40)


@pytest.mark.source("NEC 625.42(B) of 2023: an adjusted setting counts where access to it is restricted")
def test_restricting_access_is_tried_before_a_lower_setting() -> None:
    request = review_of_32_a_setting()
    finding = by_rule(reviewed(request))["conductor-continuous-load"]
    assert finding["outcome"] == "fail"
    changes = {change["pointer"]: change["value"] for change in finding["remedy"]["changes"]}
    assert changes == {"/charger/setting_access": "restricted", "/installed/setting_label": True}


def test_no_breaker_is_proposed_that_the_manufacturer_forbids() -> None:
    request = review_of_32_a_setting()
    request["charger"]["rated_current_a"] = 32
    request["charger"]["markings"] = {"forbids_gfci_breaker": True}
    request["premises"]["charger_location"] = "outdoors"
    request["installed"]["ground_fault_protection"] = "none"
    finding = by_rule(reviewed(request))["ground-fault-protection"]
    assert finding["outcome"] == "fail"
    assert finding["remedy"] is None
    del request["charger"]["markings"]
    finding = by_rule(reviewed(request))["ground-fault-protection"]
    assert finding["remedy"]["proposed"] == "breaker"


def review_of_32_a_setting() -> Json:
    """A 48 A charger set to 32 A by anyone, on a circuit that holds for 32 A: 8 AWG copper at 75 degC, 40 A."""
    lugs = {"temperature_rating_c": 75, "materials": ["copper"]}
    return {
        "edition": "nec-2023",
        "premises": {"occupancy": "one-family", "charger_location": "indoors"},
        "supply": {"system": "split-phase-120-240"},
        "charger": {
            "charging_current_a": 32,
            "rated_current_a": 48,
            "setting_access": "unrestricted",
            "connection": {"kind": "hardwired"},
            "terminals": lugs,
        },
        "breaker": {"terminals": lugs, "listed_for_panel": True},
        "conductors": {"material": "copper"},
        "run": [
            {
                "wiring_method": "emt",
                "length": {"value": 40, "unit": "ft"},
                "location": "dry",
                "raceway_trade_size": "3/4",
            }
        ],
        "installed": {
            "breaker_rating_a": 40,
            "ungrounded_size": "8 AWG",
            "grounding_size": "10 AWG",
            "ground_fault_protection": "none",
        },
    }


@pytest.mark.source("NEC table 250.122: 8 AWG copper with an overcurrent device of 100 A")
def test_a_design_asks_for_a_cable_with_a_larger_grounding_conductor() -> None:
    request = review_of_32_a_setting()
    del request["installed"]
    request["charger"] |= {"charging_current_a": 80, "rated_current_a": 80}
    request["run"] = [
        {
            "wiring_method": "mc",
            "length": {"value": 40, "unit": "ft"},
            "location": "dry",
            "cable": {"grounding_size": "10 AWG"},
        }
    ]
    finding = by_rule(designed(request))["grounding-conductor-size"]
    assert finding["outcome"] == "fail"
    assert (finding["remedy"]["pointer"], finding["remedy"]["proposed"]) == (
        "/run/0/cable/grounding_size",
        "8 AWG",
    )
