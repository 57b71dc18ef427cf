"""What an answer asks a person to state, to verify or to look at elsewhere; each case by hand from the rules' pages."""

import pytest
from pydantic import ValidationError
from tests.checks.circuits import Json, by_rule, designed, outcomes, reviewed
from tests.checks.test_remedies_by_rule import sound, with_

BREAKER = "/installed/breaker_rating_a"
UNGROUNDED = "/installed/ungrounded_size"
GROUNDING = "/installed/grounding_size"
NEEDED = {
    BREAKER: "Needs the breaker's rating, which is not stated.",
    UNGROUNDED: "Needs the size of the ungrounded conductors, which is not stated.",
    GROUNDING: "Needs the size of the grounding conductor, which is not stated.",
}
NEEDS = {
    "overcurrent-continuous-load": (BREAKER,),
    "breaker-standard-rating": (BREAKER,),
    "greatest-overcurrent-device": (BREAKER,),
    "receptacle-rating": (BREAKER,),
    "point-rating": (BREAKER,),
    "ground-fault-protection": (BREAKER,),
    "conductor-continuous-load": (UNGROUNDED,),
    "conductor-corrected-ampacity": (UNGROUNDED,),
    "cable-size": (UNGROUNDED,),
    "raceway-temperature": (UNGROUNDED,),
    "terminal-sizes": (UNGROUNDED,),
    "voltage-drop-target": (UNGROUNDED,),
    "voltage-drop-suggestion": (UNGROUNDED,),
    "conductor-overcurrent-protection": (BREAKER, UNGROUNDED),
    "small-conductor-protection": (BREAKER, UNGROUNDED),
    "grounding-conductor-size": (BREAKER, UNGROUNDED, GROUNDING),
}
"""The sizes without which a rule cannot judge: a circuit's breaker, conductors and grounding conductor."""


def without(field: str) -> Json:
    request = sound()
    del request["installed"][field.rsplit("/", 1)[1]]
    return request


@pytest.mark.parametrize("rule", NEEDS)
@pytest.mark.parametrize("missing", NEEDED)
def test_a_rule_names_the_size_that_it_cannot_do_without(rule: str, missing: str) -> None:
    finding = by_rule(reviewed(without(missing)))[rule]
    if missing in NEEDS[rule]:
        assert (finding["outcome"], finding["pointer"]) == ("undetermined", missing)
        assert finding["message"] == NEEDED[missing]
    else:
        assert finding["pointer"] != missing
        assert not finding["message"].startswith("Needs ")


def test_a_design_says_what_could_not_be_chosen() -> None:
    # 1000 A: the breaker of 1600 A is beyond table 250.122 as far as the codebook has it, which ends at 1200 A.
    request = sound(1000)
    del request["installed"]
    del request["run"][0]["raceway_trade_size"]
    answer = designed(request)
    assert answer["design"] is None
    finding = by_rule(answer)["grounding-conductor-size"]
    assert (finding["outcome"], finding["pointer"]) == ("undetermined", "/conductors/material")
    assert finding["message"] == "Needs the size of the grounding conductor, which could not be chosen."


def verified(request: Json) -> dict[str, tuple[str, str]]:
    answer = reviewed(request)
    assert len({item["pointer"] for item in answer["to_verify"]}) == len(answer["to_verify"])
    return {item["pointer"]: (item["stated"], item["evidence"]) for item in answer["to_verify"]}


def test_what_is_stated_is_to_be_seen_and_what_is_not_is_named() -> None:
    found = verified(sound())
    assert found == {
        "/breaker/terminals/temperature_rating_c": ("75", "marking on the breaker"),
        "/breaker/terminals/largest": ("not stated, not judged", "marking on the breaker"),
        "/breaker/terminals/torque": ("not stated: read the marking", "marking on the breaker"),
        "/charger/terminals/temperature_rating_c": ("75", "marking on the charger"),
        "/charger/power_factor": ("not stated, taken as 1", "data sheet of the charger"),
        "/charger/terminals/largest": ("not stated, not judged", "marking on the charger"),
        "/charger/terminals/torque": ("not stated: read the marking", "marking on the charger"),
        "/charger/setting_access": ("restricted", "how the setting is reached"),
        "/breaker/listed_for_panel": ("listed", "label of the panel"),
        "/run/0/ambient_c": ("not stated, taken as 30 degC", "hottest hour where the segment lies"),
        "/run/0/other_current_carrying_conductors": ("not stated, taken as none", "inside of the raceway"),
    }


def test_markings_that_are_stated_need_no_reading() -> None:
    request = with_(
        sound(),
        breaker__terminals__largest="2 AWG",
        charger__terminals__smallest="14 AWG",
        charger__terminals__torque={"value": 20, "unit": "lbf-in"},
        charger__power_factor=0.95,
        run__0__ambient_c=25,
        run__0__other_current_carrying_conductors=0,
        run__0__raceway_temperature_rating_c=90,
        breaker__listed_for_panel=False,
        points=[{"after_segment": 0, "kind": "splice"}],
    )
    del request["conductors"]["insulation"]
    del request["charger"]["rated_current_a"]
    found = verified(request)
    assert "/breaker/terminals/largest" not in found
    assert "/charger/terminals/largest" not in found
    assert "/charger/terminals/torque" not in found
    assert "/run/0/ambient_c" not in found
    assert "/run/0/other_current_carrying_conductors" not in found
    assert found["/charger/power_factor"] == ("0.95", "data sheet of the charger")
    assert found["/run/0/raceway_temperature_rating_c"] == ("90", "print on the raceway")
    assert found["/breaker/listed_for_panel"] == ("not listed", "label of the panel")
    assert found["/charger/rated_current_a"] == ("not stated, taken as 48 A", "nameplate of the charger")
    assert found["/conductors/insulation"] == ("not stated, taken as THWN-2", "print on the conductor")
    assert found["/points/0/terminals/temperature_rating_c"] == (
        "not stated, taken as unmarked",
        "marking on the device",
    )


def test_each_cable_of_a_run_is_to_be_seen() -> None:
    request = sound(size="4 AWG", grounding="4 AWG")
    nm_b = {"wiring_method": "nm-b", "length": {"value": 20, "unit": "ft"}, "location": "dry"}
    mc = {**nm_b, "wiring_method": "mc", "in_thermal_insulation": False}
    printed = {"conductor_temperature_rating_c": 90, "grounding_size": "8 AWG"}
    request["run"] = [nm_b, request["run"][0], mc, {**mc, "cable": printed}]
    del request["conductors"]["insulation"]
    found = verified(request)
    assert found["/run/0/in_thermal_insulation"] == ("not stated, taken as not", "where the cable lies")
    assert found["/run/0/cable/grounding_size"] == (
        "not stated: at least as designed or installed",
        "print on the cable",
    )
    # NM-B is always marked for 90 degC conductors, 334.112; MC is as printed on it.
    assert "/run/0/cable/conductor_temperature_rating_c" not in found
    assert found["/run/2/cable/conductor_temperature_rating_c"] == (
        "not stated, taken as 75 degC",
        "print on the cable",
    )
    assert found["/run/3/cable/conductor_temperature_rating_c"] == ("90", "print on the cable")
    assert "/run/2/in_thermal_insulation" not in found
    assert "/run/1/in_thermal_insulation" not in found
    assert "/run/0/other_current_carrying_conductors" not in found
    assert "/run/1/other_current_carrying_conductors" in found
    assert "/run/3/cable/grounding_size" not in found
    assert "/conductors/insulation" in found
    request["run"] = [nm_b]
    assert "/conductors/insulation" not in verified(request)


@pytest.mark.source("NEC 2026, 625.4 asks for qualified persons; no edition before it does")
@pytest.mark.parametrize(
    ("edition", "persons"), [("nec-2017", 0), ("nec-2020", 0), ("nec-2023", 0), ("nec-2026", 1)]
)
def test_who_installed_it_is_not_examined_where_that_is_asked_for(edition: str, persons: int) -> None:
    answer = reviewed({**sound(), "edition": edition})
    assert sum("qualified persons" in item for item in answer["not_examined"]) == persons
    assert not any("amendments in force" in item for item in answer["not_examined"])
    answer = reviewed({**sound(), "edition": edition, "jurisdiction": "Springfield"})
    assert "amendments in force in Springfield" in answer["not_examined"]


def test_cautions_follow_the_materials() -> None:
    copper = reviewed(sound())["cautions"]
    assert not any("luminum" in caution for caution in copper)
    assert not any("eceptacle" in caution for caution in copper)
    aluminum = reviewed(with_(sound(size="4 AWG", grounding="4 AWG"), conductors__material="aluminum"))[
        "cautions"
    ]
    assert any(caution.startswith("Aluminum terminations") for caution in aluminum)
    receptacle = sound(40, 50, "8 AWG", "10 AWG")
    receptacle["charger"]["connection"] = {"kind": "receptacle", "configuration": "6-50"}
    del receptacle["charger"]["terminals"]
    assert any(caution.startswith("Receptacles overheat") for caution in reviewed(receptacle)["cautions"])


@pytest.mark.parametrize(
    ("marking", "size", "outcome"),
    [
        ({"smallest": "6 AWG"}, "6 AWG", "pass"),
        ({"smallest": "4 AWG"}, "6 AWG", "fail"),
        ({"largest": "6 AWG"}, "6 AWG", "pass"),
        ({"largest": "8 AWG"}, "6 AWG", "fail"),
        ({"smallest": "14 AWG", "largest": "2 AWG"}, "6 AWG", "pass"),
    ],
)
def test_terminals_take_the_sizes_that_they_are_marked_for(marking: Json, size: str, outcome: str) -> None:
    request = sound(size=size)
    request["breaker"]["terminals"] |= marking
    finding = by_rule(reviewed(request))["terminal-sizes"]
    assert finding["outcome"] == outcome
    if outcome == "fail":
        (end,) = marking
        assert finding["pointer"] == f"/breaker/terminals/{end}"
        assert finding["required"] == {
            "value": marking[end],
            "unit": "size",
            "comparison": {"smallest": "at-least", "largest": "at-most"}[end],
        }
        assert finding["provided"] == {"value": size, "unit": "size"}


def test_a_splice_has_no_rating_and_a_device_has_one() -> None:
    for kind, rating_a, outcome in [
        ("splice", None, "not-applicable"),
        ("disconnect", 60, "pass"),
        ("disconnect", 50, "fail"),
        ("disconnect", None, "undetermined"),
    ]:
        request = sound()
        point = {"after_segment": 0, "kind": kind, "terminals": request["breaker"]["terminals"]}
        request["run"] = [request["run"][0], request["run"][0]]
        request["points"] = [point | ({} if rating_a is None else {"rating_a": rating_a})]
        assert by_rule(reviewed(request))["point-rating"]["outcome"] == outcome, (kind, rating_a)


def test_a_ground_fault_device_may_be_left_out_above_50_a_only() -> None:
    # 210.8(F) of 2023: outlets outdoors of 50 A or less and 150 V or less to ground.
    for breaker_a, outcome in ((50, "fail"), (60, "not-applicable")):
        request = sound(40, breaker_a, "6 AWG", "10 AWG")
        request["premises"]["charger_location"] = "outdoors"
        request["installed"]["ground_fault_protection"] = "none"
        assert by_rule(reviewed(request))["ground-fault-protection"]["outcome"] == outcome


@pytest.mark.parametrize("edition", ["nec-2017", "nec-2023"])
def test_a_rating_that_is_not_made_is_answered_with_those_around_it(edition: str) -> None:
    finding = by_rule(reviewed({**with_(sound(), installed__breaker_rating_a=65), "edition": edition}))[
        "breaker-standard-rating"
    ]
    assert finding["outcome"] == "fail"
    permitted = finding["required"]["value"]
    # 240.6(A): within half of 65 A above and below.
    assert permitted == ["35", "40", "45", "50", "60", "70", "80", "90"]


@pytest.mark.parametrize("place", ["breaker__terminals__temperature_rating_c", "supply__phases"])
def test_true_is_no_number_and_a_whole_number_may_have_a_point(place: str) -> None:
    with pytest.raises(ValidationError, match=place.rsplit("__", 1)[1]):
        reviewed(with_(sound(), **{place: True}))
    whole = {"breaker__terminals__temperature_rating_c": 75, "supply__phases": 1}[place]
    assert outcomes(reviewed(with_(sound(), **{place: float(whole)}))) == outcomes(
        reviewed(with_(sound(), **{place: whole}))
    )
