"""Every answer to a situation: units are those of the quantity, outcomes follow from the two values that are shown.

Units by hand from the glossary and the endings of names in DEVELOPERS.md; nothing is taken from the engine.
"""

import re

import pytest
from tests.checks.circuits import Json, by_rule
from tests.checks.situations import Asked, asked_of, requests
from tests.checks.test_every_answer import holds_for_every_answer
from tests.situations.test_situations import at_pointer

UNITS_BY_RULE = {
    "supply-phases": {"count"},
    "current-setting": {"A"},
    "setting-label": {"text"},
    "overcurrent-continuous-load": {"A"},
    "breaker-standard-rating": {"A", "text"},
    "greatest-overcurrent-device": {"A"},
    "breaker-listed-for-panel": {"text"},
    "receptacle-configuration": {"text", "count"},
    "receptacle-rating": {"A"},
    "receptacle-listing": {"text"},
    "conductor-continuous-load": {"A"},
    "conductor-corrected-ampacity": {"A"},
    "conductor-overcurrent-protection": {"A"},
    "small-conductor-protection": {"A"},
    "terminal-materials": {"text"},
    "terminal-sizes": {"size"},
    "terminal-torque": {"lbf-in", "lbf-ft", "N-m", "text"},
    "neutral-size": {"A", "text"},
    "grounding-conductor-size": {"size"},
    "wiring-method-location": {"text"},
    "conductor-insulation-location": {"text"},
    "wiring-method-underground": {"text"},
    "burial-cover": {"in", "mm", "text"},
    "cable-size": {"size"},
    "raceway-fill": {"%"},
    "raceway-temperature": {"degC"},
    "raceway-ambient": {"degC"},
    "points-on-run": {"1"},
    "point-rating": {"A"},
    "voltage-drop-target": {"%"},
    "voltage-drop-suggestion": {"%"},
    "ground-fault-protection": {"text"},
    "disconnecting-means": {"text"},
    "emergency-shutoff": {"text"},
}
UNITS_BY_ENDING = {
    "a": "A",
    "v": "V",
    "c": "degC",
    "kft": "ohm/kft",
    "ohm": "ohm",
    "ft": "ft",
    "in": "in",
    "in2": "in2",
    "cmil": "cmil",
    "percent": "%",
    "size": "size",
    "material": "text",
    "factor": "1",
    "correction": "1",
    "others": "count",
}
UNITS_OF_STEPS = {
    "load": "A",
    "least-breaker-current": "A",
    "breaker-rating": "A",
    "termination-column": "degC",
    "least-ampacity-before-correction": "A",
    "terminal-ampacity": "A",
    "run-ampacity": "A",
    "protected-ampacity": "A",
    "permitted-breaker": "A",
    "grounding-conductor-by-breaker": "size",
    "grounding-conductor-area": "cmil",
    "run-resistance": "ohm",
    "run-reactance": "ohm",
    "voltage-drop": "V",
    "voltage-drop-percent": "%",
    "length-at-higher-ampacity": "ft",
    "length-at-lower-ampacity": "ft",
    "short-length-limit": "ft",
    "segment-correction": "1",
    "segment-corrected-ampacity": "A",
    "segment-ampacity": "A",
    "segment-adjustment": "%",
    "segment-rooftop-ambient": "degC",
    "segment-conductors-area": "in2",
    "segment-cable-area": "in2",
    "segment-fill": "%",
    "segment-operating-temperature": "degC",
    "segment-resistance": "ohm",
    "segment-reactance": "ohm",
    "segment-length": "ft",
}
SMALLER_MEANS_LATER = [f"{number} AWG" for number in (14, 12, 10, 8, 6, 4, 3, 2, 1)]
SIZES = [*SMALLER_MEANS_LATER, "1/0 AWG", "2/0 AWG", "3/0 AWG", "4/0 AWG", "250 kcmil"]


def what_holds_of_every_answer_holds_of_the_situations(asked: list[Asked]) -> None:
    for kind, request, answer in asked:
        holds_for_every_answer(kind, request, answer)


def units_of_findings(asked: list[Asked]) -> None:
    for _, _, answer in asked:
        for rule, finding in by_rule(answer).items():
            assert re.fullmatch(r"[a-z]+([ -][a-z]+)*", finding["subject"]), finding
            for part in (finding["required"], finding["provided"]):
                if part is not None:
                    assert part["unit"] in UNITS_BY_RULE[rule], (rule, part)
            if finding["required"] and finding["provided"]:
                assert finding["required"]["unit"] == finding["provided"]["unit"], finding


def units_of_steps(asked: list[Asked]) -> None:
    for _, _, answer in asked:
        for step in answer["steps"]:
            assert step["unit"] == UNITS_OF_STEPS[re.sub(r"^segment-\d+-", "segment-", step["id"])], step
            for each, given in step["inputs"].items():
                ending = re.sub(r"_\d+$", "", each).rsplit("_", 1)[-1]
                if ending in UNITS_BY_ENDING:
                    assert given["unit"] == UNITS_BY_ENDING[ending], (step["id"], each, given)


def inputs_come_from_where_they_say(asked: list[Asked]) -> None:
    for kind, request, answer in asked:
        whole = {"request": request, "design": answer["design"]}
        for step in answer["steps"]:
            for each, given in step["inputs"].items():
                where, _, pointer = given["origin" if "origin" in given else "from"].partition(":")
                if where not in whole or given["unit"] not in ("A", "%", "degC", "size", "text", "1"):
                    continue
                stated = at_pointer(whole[where], pointer)
                if stated is not None and not isinstance(stated, dict):
                    assert stated == given["value"], (kind, step["id"], each, given)


def order(value: object) -> float:
    """A number as it is and a size by its place."""
    return SIZES.index(value) if isinstance(value, str) else float(value)  # type: ignore[arg-type]


# Conductors of one size are also permitted by their count, and a grounding conductor may be forgiven a hair.
OTHER_WAYS = {"raceway-fill", "grounding-conductor-size", "terminal-torque"}


def an_outcome_follows_from_what_is_required_and_provided(asked: list[Asked]) -> None:
    for _, _, answer in asked:
        for rule, finding in by_rule(answer).items():
            required, provided = finding["required"], finding["provided"]
            if required is None or provided is None or finding["outcome"] not in ("pass", "fail"):
                continue
            passes, wanted, found = finding["outcome"] == "pass", required["value"], provided["value"]
            match required["comparison"]:
                case "one-of":
                    # A failure may name what else would do, the one that is there among it under a condition.
                    assert isinstance(wanted, list)
                    assert wanted
                    assert not passes or found in wanted, finding
                case "at-least" if rule not in OTHER_WAYS:
                    assert passes == (order(found) >= order(wanted)), finding
                case "at-most" if rule not in OTHER_WAYS:
                    assert passes == (order(found) <= order(wanted)), finding
                case "equal" if rule not in OTHER_WAYS:
                    assert passes == (found == wanted), finding
                case other:
                    assert other in ("present", "at-least", "at-most", "equal")


def a_margin_is_that_of_the_two_values(asked: list[Asked]) -> None:
    for _, _, answer in asked:
        for finding in answer["findings"]:
            if finding["margin_percent"] is None or not finding["required"]["value"]:
                continue
            wanted, found = finding["required"]["value"], finding["provided"]["value"]
            sign = 1 if finding["required"]["comparison"] == "at-least" else -1
            assert finding["margin_percent"] == pytest.approx(sign * (found / wanted - 1) * 100, abs=0.2)


def a_design_says_what_its_findings_and_steps_say(asked: list[Asked]) -> None:
    _, request, answer = asked[0]
    design = answer["design"]
    if design is None or "review_request" not in answer or answer["review_request"] is None:
        return
    steps = {step["id"]: step["value"] for step in answer["steps"]}
    asked = answer["review_request"]["installed"]
    assert design["breaker"]["rating_a"] == asked["breaker_rating_a"]
    assert design["conductors"]["ungrounded"]["size"] == asked["ungrounded_size"]
    assert design["conductors"]["grounding"]["size"] == asked["grounding_size"]
    assert (design["conductors"]["neutral"] or {"size": None})["size"] == asked.get("neutral_size")
    assert design["voltage_drop"]["percent"] == round(steps["voltage-drop-percent"], 3)
    assert design["voltage_drop"]["volts"] == round(steps["voltage-drop"], 3)
    for index, segment in enumerate(design["segments"]):
        stated = request["run"][index]
        assert segment["wiring_method"] == stated["wiring_method"]
        if segment["raceway"] is not None:
            assert segment["raceway"]["fill_percent"] == round(steps[f"segment-{index}-fill"], 2)
            run = answer["review_request"]["run"][index]
            assert segment["raceway"]["trade_size"] == run["raceway_trade_size"]
        if segment["supports"] is not None:
            assert {segment["supports"][part]["unit"] for part in ("within_of_box", "interval")} == {"in"}
        if segment["conductor_temperature_c"] is not None:
            operating = steps[f"segment-{index}-operating-temperature"]
            assert segment["conductor_temperature_c"] == pytest.approx(operating, abs=0.06)
    # What a review is asked for beside the sizes is what the design asks for.
    label = stated_higher(request)
    assert asked.get("setting_label") == (True if label else None)
    shut = {"present": True, "readily_accessible": True, "lockable_open": True}
    assert asked.get("disconnect") == (shut if design["disconnect"]["required"] else None)
    assert asked.get("emergency_shutoff") == (True if design["emergency_shutoff"]["required"] else None)
    marked = [
        {"at": place["at"], "torque": place["torque"]} for place in design["terminations"] if place["torque"]
    ]
    assert (asked.get("torque_records") or []) == marked
    insulated = any(segment["raceway"] is not None for segment in design["segments"])
    assert (design["conductors"]["ungrounded"]["insulation"] is not None) == insulated


def stated_higher(request: Json) -> bool:
    """Whether the charger is set below its rating."""
    charger = request["charger"]
    return charger.get("rated_current_a", 0) > charger["charging_current_a"]


@pytest.mark.source(
    "the units, comparisons and margins that the documentation defines; endings of names by hand"
)
@pytest.mark.parametrize("name", list(requests()))
def test_an_answer_to_a_situation_agrees_with_itself(name: str) -> None:
    # One test for all, so that each situation is asked once, and by a test of its own.
    asked = asked_of(name)
    what_holds_of_every_answer_holds_of_the_situations(asked)
    units_of_findings(asked)
    units_of_steps(asked)
    inputs_come_from_where_they_say(asked)
    an_outcome_follows_from_what_is_required_and_provided(asked)
    a_margin_is_that_of_the_two_values(asked)
    a_design_says_what_its_findings_and_steps_say(asked)
