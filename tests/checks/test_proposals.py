"""Which changes are tried for a failing rule, in which order, and which remedy each of several failures gets."""

import copy
import json
from typing import Any

import pytest
from tests.checks.circuits import Json, by_rule, designed, reviewed

from branchwright.checks.circuits import CircuitDesignRequest, CircuitReviewRequest
from branchwright.checks.circuits.circuit import Circuit
from branchwright.checks.circuits.design import judged_design
from branchwright.checks.circuits.facts import CircuitFacts
from branchwright.checks.circuits.judging import REVIEW_RULES, installed_circuit, judge
from branchwright.checks.circuits.proposals import DESIGN_CANDIDATES, REVIEW_CANDIDATES, Change
from branchwright.findings import Finding
from branchwright.questions.readings import bind

LUGS = {"temperature_rating_c": 75, "materials": ["copper", "aluminum"]}
PRESENT = {"present": True, "readily_accessible": True, "lockable_open": True}


def asked(current_a: float = 48, **run: Any) -> Json:
    """What a design is asked: a hardwired charger on 30 ft of EMT at a one-family dwelling."""
    segment: Json = {"wiring_method": "emt", "length": {"value": 30, "unit": "ft"}, "location": "dry"}
    return {
        "edition": "nec-2023",
        "premises": {"occupancy": "one-family", "charger_location": "garage"},
        "supply": {"system": "split-phase-120-240"},
        "charger": {
            "charging_current_a": current_a,
            "connection": {"kind": "hardwired"},
            "terminals": copy.deepcopy(LUGS),
        },
        "breaker": {"terminals": copy.deepcopy(LUGS), "listed_for_panel": True},
        "conductors": {"material": "copper", "insulation": "THWN-2"},
        "run": [segment | run],
    }


def sound(
    current_a: float = 48,
    breaker_a: float = 60,
    size: str = "6 AWG",
    grounding: str | None = "10 AWG",
    **run: Any,
) -> Json:
    """An installed circuit that nothing is wrong with, for 48 A at 60 A as it stands."""
    request = asked(current_a, **run)
    request["installed"] = {
        "breaker_rating_a": breaker_a,
        "ungrounded_size": size,
        "ground_fault_protection": "breaker",
    }
    if grounding is not None:
        request["installed"]["grounding_size"] = grounding
    return request


def plugged(request: Json, configuration: str, **facts: Any) -> Json:
    """The request with the charger on a receptacle instead of its own lugs."""
    del request["charger"]["terminals"]
    request["charger"]["connection"] = {
        "kind": "receptacle",
        "configuration": configuration,
        "terminals": copy.deepcopy(LUGS),
        **facts,
    }
    return request


def _tried(request: Json, rule: str) -> list[Change]:
    """Every change that is proposed for a rule that fails, in the order in which they are tried."""
    facts: CircuitFacts
    circuit: Circuit
    findings: list[Finding]
    if "installed" in request:
        review_request = CircuitReviewRequest.model_validate_json(json.dumps(request))
        facts, circuit = (
            review_request,
            installed_circuit(review_request, bind(review_request.edition, review_request.readings)),
        )
        findings = judge(circuit, REVIEW_RULES)
        candidates = REVIEW_CANDIDATES
    else:
        facts = CircuitDesignRequest.model_validate_json(json.dumps(request))
        judged = judged_design(facts)
        circuit, findings, candidates = judged.circuit, judged.findings, DESIGN_CANDIDATES
    (finding,) = (finding for finding in findings if finding.rule == rule)
    assert finding.outcome == "fail"
    return [
        change
        for rules, propose in candidates
        if rule in rules
        for change in propose(facts, circuit, finding)
    ]


def tried(request: Json, rule: str) -> dict[str, list[object]]:
    """The values that are proposed for each field, fields and values in the order in which they are tried."""
    found: dict[str, list[object]] = {}
    for change in _tried(request, rule):
        found.setdefault(change.pointer, []).append(change.proposed)
    return found


SETTING = "/charger/charging_current_a"
SIZE = "/installed/ungrounded_size"
BREAKER = "/installed/breaker_rating_a"


@pytest.mark.source(
    "NEC 2023, 240.6(A): standard ratings, from 10 A up; Table 310.16: sizes; common settings"
)
def test_for_conductors_too_small_settings_come_before_conductors_and_smaller_breakers_first() -> None:
    # 12 AWG has 25 A at 75 degC; 17 A asks for 21.25 A and the breaker of 30 A is 10 A above 240.4(D).
    found = tried(sound(17, 30, "12 AWG", "10 AWG"), "small-conductor-protection")
    assert list(found) == [BREAKER, SETTING, SIZE]
    assert found[BREAKER] == [25, 20, 15, 10]
    assert found[SETTING] == [16, 12, 8, 6]
    assert found[SIZE][:8] == ["10 AWG", "8 AWG", "6 AWG", "4 AWG", "3 AWG", "2 AWG", "1 AWG", "1/0 AWG"]


@pytest.mark.source("Settings below 100 A: common practice; SAE J1772: 6 A at least")
def test_every_common_setting_is_tried_from_the_greatest_down() -> None:
    found = tried(sound(100, 110, "2 AWG", "6 AWG", raceway_trade_size="2"), "overcurrent-continuous-load")
    assert found[SETTING] == [80, 72, 64, 56, 48, 40, 32, 24, 20, 16, 12, 8, 6]


def test_a_lower_setting_leaves_the_nameplate_and_is_guarded_and_labelled() -> None:
    # 60 A asks for a breaker of 75 A; where no nameplate is stated, the setting so far is it.
    request = sound(60)
    first = {change.pointer: change for change in reversed(_tried(request, "overcurrent-continuous-load"))}
    guarded = (("/charger/setting_access", "restricted"), ("/installed/setting_label", True))
    assert first[SETTING].together == (("/charger/rated_current_a", 60), *guarded)
    request["charger"]["rated_current_a"] = 80
    request["charger"]["setting_access"] = "restricted"
    first = {change.pointer: change for change in reversed(_tried(request, "overcurrent-continuous-load"))}
    assert first[SETTING].together == (("/charger/rated_current_a", 80), *guarded)


def test_access_is_no_remedy_where_the_setting_is_the_rating_or_guarded_already() -> None:
    for rated_a, access, helps in (
        (60, "unrestricted", False),
        (80, "restricted", False),
        (80, "unrestricted", True),
    ):
        request = sound(60)
        request["charger"] |= {"rated_current_a": rated_a, "setting_access": access}
        assert ("/charger/setting_access" in tried(request, "overcurrent-continuous-load")) is helps


@pytest.mark.source("NEC Table 250.122: 10 AWG copper up to 60 A; 240.6(A): 50, 45, 40 A and on below")
def test_for_a_grounding_conductor_the_breaker_is_tried_before_the_one_size_that_serves() -> None:
    found = tried(sound(grounding="12 AWG"), "grounding-conductor-size")
    assert list(found) == [BREAKER, "/installed/grounding_size"]
    assert found[BREAKER] == [50, 45, 40, 35, 30, 25, 20, 15, 10]
    assert found["/installed/grounding_size"] == ["10 AWG"]


@pytest.mark.source("NEC chapter 9, Table 4: trade sizes of EMT; Table 310.16: sizes below 6 AWG")
def test_for_a_raceway_too_full_larger_ones_come_before_smaller_conductors() -> None:
    found = tried(sound(raceway_trade_size="1/2"), "raceway-fill")
    assert list(found) == ["/run/0/raceway_trade_size", SIZE]
    assert found["/run/0/raceway_trade_size"] == ["3/4", "1", "1-1/4", "1-1/2", "2"]
    assert found[SIZE][:4] == ["8 AWG", "10 AWG", "12 AWG", "14 AWG"]
    assert "6 AWG" not in found[SIZE]


@pytest.mark.source("NEC articles 320 to 362 as each test names (from memory); worked out by hand")
def test_other_methods_in_the_wet_leave_out_what_may_not_be_there() -> None:
    # 334.12 and 320.12: NM and AC not in the wet; 348.12: nor FMC.
    request = sound(40, 50, "6 AWG", wiring_method="nm-b", location="wet")
    found = tried(request, "wiring-method-location")
    methods = found.pop("/run/0/wiring_method")
    assert not found
    assert set(methods) == {"emt", "imc", "rmc", "pvc-40", "pvc-80", "lfmc", "lfnc-b", "uf-b", "se", "mc"}


@pytest.mark.source(
    "NEC 338.12(A)(2), 320.12, 334.12, 348.12: not underground; 340.10, 330.10: UF and MC may (from memory)"
)
def test_other_methods_underground_are_such_as_may_be_buried() -> None:
    buried = {"cover": {"value": 30, "unit": "in"}, "under": "soil"}
    found = tried(sound(wiring_method="fmc", location="wet", underground=buried), "wiring-method-underground")
    assert set(found["/run/0/wiring_method"]) == {
        "emt",
        "imc",
        "rmc",
        "pvc-40",
        "pvc-80",
        "lfmc",
        "lfnc-b",
        "uf-b",
        "mc",
    }


@pytest.mark.source("NEC 334.104: NM to 2 AWG; 320.104: AC to 1 AWG; 340.104: UF to 4/0 AWG (from memory)")
def test_a_cable_is_no_other_method_where_it_is_not_made_so_large() -> None:
    # PVC at 55 degC ambient is above the 50 degC of 352.12(D).
    for size, left_out in (
        ("2 AWG", set()),
        ("1 AWG", {"nm-b"}),
        ("1/0 AWG", {"nm-b", "ac"}),
        ("250 kcmil", {"nm-b", "ac", "uf-b"}),
    ):
        request = sound(40, 50, size, size, wiring_method="pvc-40", ambient_c=55)
        found = tried(request, "raceway-ambient")
        assert {"nm-b", "ac", "uf-b", "mc"} - set(found["/run/0/wiring_method"]) == left_out
        assert "emt" in found["/run/0/wiring_method"]


@pytest.mark.source("NEC 330.10(A)(11): MC in wet locations as listed for it")
def test_listed_cable_comes_before_another_method() -> None:
    request = sound(40, 50, "6 AWG", wiring_method="mc", location="wet", cable={"listed_for_wet": False})
    found = tried(request, "wiring-method-location")
    assert list(found) == ["/run/0/cable/listed_for_wet", "/run/0/wiring_method"]
    assert found["/run/0/cable/listed_for_wet"] == ["true"]
    del request["run"][0]["cable"]
    request["run"][0]["wiring_method"] = "ac"
    assert list(tried(request, "wiring-method-location")) == ["/run/0/wiring_method"]


@pytest.mark.source("NEC Table 300.5(A), metric print: 450 mm for PVC under soil; 18 in otherwise")
@pytest.mark.parametrize(("unit", "given", "least"), [("mm", 300, 450), ("in", 12, 18), ("ft", 1, 18)])
def test_a_deeper_trench_is_asked_for_in_the_unit_that_it_was_stated_in(
    unit: str, given: float, least: float
) -> None:
    request = sound(
        wiring_method="pvc-40", underground={"cover": {"value": given, "unit": unit}, "under": "soil"}
    )
    remedy = by_rule(reviewed(request))["burial-cover"]["remedy"]
    assert (remedy["pointer"], remedy["proposed"]) == ("/run/0/underground/cover", least)
    (change,) = remedy["changes"]
    assert change["value"] == {"value": least, "unit": "mm" if unit == "mm" else "in"}


@pytest.mark.source("NEC Table 300.5(A): 18 in; NEC 210.8(F): outdoor outlets up to 50 A")
def test_of_two_failures_each_gets_its_own_remedy_and_is_told_that_the_other_remains() -> None:
    request = sound(40, 50, "8 AWG", wiring_method="pvc-40")
    request["run"][0]["underground"] = {"cover": {"value": 12, "unit": "in"}, "under": "soil"}
    request["premises"]["charger_location"] = "outdoors"
    request["installed"]["ground_fault_protection"] = "none"
    found = by_rule(reviewed(request))
    assert {name for name, finding in found.items() if finding["outcome"] == "fail"} == {
        "burial-cover",
        "ground-fault-protection",
    }
    cover, protection = found["burial-cover"]["remedy"], found["ground-fault-protection"]["remedy"]
    assert (cover["pointer"], cover["verdict"]) == ("/run/0/underground/cover", "fail")
    assert (protection["pointer"], protection["verdict"]) == ("/installed/ground_fault_protection", "fail")


@pytest.mark.source("NEC 210.21(B)(1) and NEMA WD 6: a 14-50 receptacle is single-phase, with a neutral")
def test_a_receptacle_on_three_phases_is_tried_on_one_before_it_is_hardwired() -> None:
    request = plugged(sound(40, 50, "8 AWG"), "14-50")
    request["supply"] = {"system": "wye-208y-120", "phases": 3}
    request["installed"]["neutral_size"] = "8 AWG"
    assert tried(request, "receptacle-configuration") == {
        "/supply/phases": [1],
        "/charger/connection": ["hardwired"],
    }
    remedy = by_rule(reviewed(request))["receptacle-configuration"]["remedy"]
    assert (remedy["pointer"], remedy["proposed"]) == ("/supply/phases", 1)
    assert remedy["changes"] == [{"pointer": "/supply/phases", "value": 1}]


def test_a_split_phase_system_has_no_third_phase_to_connect() -> None:
    request = asked(40)
    request["supply"]["phases"] = 3
    assert tried(request, "supply-phases") == {"/supply/phases": [1]}
    remedy = by_rule(designed(request))["supply-phases"]["remedy"]
    assert (remedy["pointer"], remedy["proposed"]) == ("/supply/phases", 1)


@pytest.mark.source(
    "NEC Table 310.16, 75 degC: a 14 AWG neutral has 20 A, half of 40 A; sizes above it in order"
)
def test_for_a_neutral_the_setting_comes_first_and_then_each_larger_neutral() -> None:
    request = plugged(sound(40, 50, "8 AWG"), "14-50")
    request["installed"]["neutral_size"] = "14 AWG"
    found = tried(request, "neutral-size")
    assert list(found) == [SETTING, "/installed/neutral_size", "/charger/connection"]
    assert found[SETTING] == [32, 24, 20, 16, 12, 8, 6]
    assert found["/installed/neutral_size"][:5] == ["12 AWG", "10 AWG", "8 AWG", "6 AWG", "4 AWG"]


@pytest.mark.source("NEC 110.14(D): tightened to the marked torque (from memory)")
def test_only_the_terminal_that_was_tightened_wrongly_is_tightened_again() -> None:
    request = sound()
    request["breaker"]["terminals"]["torque"] = {"value": 45, "unit": "lbf-in"}
    request["charger"]["terminals"]["torque"] = {"value": 20, "unit": "lbf-in"}
    request["installed"]["torque_records"] = [
        {"at": "charger", "torque": {"value": 20, "unit": "lbf-in"}},
        {"at": "breaker", "torque": {"value": 90, "unit": "lbf-in"}},
    ]
    assert tried(request, "terminal-torque") == {"/installed/torque_records/1": ["45 lbf-in"]}
    remedy = by_rule(reviewed(request))["terminal-torque"]["remedy"]
    assert remedy["changes"] == [
        {
            "pointer": "/installed/torque_records/1",
            "value": {"at": "breaker", "torque": {"value": 45, "unit": "lbf-in"}},
        }
    ]


@pytest.mark.source("Lugs from 4 AWG up or down to 10 AWG: as marked; Table 310.16: the sizes between")
def test_for_lugs_both_larger_and_smaller_conductors_are_tried_the_setting_first() -> None:
    request = sound()
    request["charger"]["terminals"]["smallest"] = "4 AWG"
    found = tried(request, "terminal-sizes")
    assert list(found) == [SETTING, SIZE]
    assert found[SIZE][:3] == ["4 AWG", "3 AWG", "2 AWG"]
    assert found[SIZE][-4:] == ["8 AWG", "10 AWG", "12 AWG", "14 AWG"]
    assert "6 AWG" not in found[SIZE]


@pytest.mark.source("NEC 334.104: NM-B is made from 14 AWG to 2 AWG (from memory)")
def test_for_a_cable_that_is_not_made_so_large_smaller_sizes_are_tried() -> None:
    found = tried(sound(40, 50, "1 AWG", "1 AWG", wiring_method="nm-b"), "cable-size")
    assert list(found) == [SETTING, SIZE]
    assert found[SIZE].index("1/0 AWG") < found[SIZE].index("2 AWG") < found[SIZE].index("3 AWG")


@pytest.mark.source("NEC chapter 9, table 9: 6 AWG in steel over 200 ft drops more than 3 %")
def test_for_a_target_only_larger_conductors_are_tried() -> None:
    request = sound(length={"value": 200, "unit": "ft"})
    request["targets"] = {"voltage_drop_percent": 3}
    found = tried(request, "voltage-drop-target")
    assert list(found) == [SIZE]
    assert found[SIZE][:3] == ["4 AWG", "3 AWG", "2 AWG"]


@pytest.mark.source("NEC 210.8(F): the outlet's protection; markings: the manufacturer forbids the breaker")
def test_no_ground_fault_breaker_is_proposed_where_the_charger_forbids_one() -> None:
    request = sound(40, 50, "8 AWG")
    request["premises"]["charger_location"] = "outdoors"
    request["installed"]["ground_fault_protection"] = "none"
    assert tried(request, "ground-fault-protection") == {"/installed/ground_fault_protection": ["breaker"]}
    request["charger"]["markings"] = {"forbids_gfci_breaker": True}
    assert tried(request, "ground-fault-protection") == {}


@pytest.mark.source("NEC 240.4: a larger breaker would only protect the conductors that are there less")
def test_no_larger_breaker_is_ever_tried() -> None:
    for request, rule in (
        (sound(60), "overcurrent-continuous-load"),
        (sound(size="8 AWG"), "conductor-continuous-load"),
        (sound(60, size="8 AWG"), "conductor-overcurrent-protection"),
    ):
        assert all(rating < 60 for rating in tried(request, rule).get(BREAKER, []))  # type: ignore[operator]


@pytest.mark.source("Charger's own marking: a device of at most 40 A; 48 A asks for 60 A, 32 A for 40 A")
def test_a_design_lowers_what_is_asked_for_and_a_stated_nameplate_stays() -> None:
    request = asked()
    request["charger"]["markings"] = {"greatest_overcurrent_device_a": 40}
    (first, *_) = _tried(request, "greatest-overcurrent-device")
    assert (first.pointer, first.proposed, first.together) == (SETTING, 40, ())
    assert tried(request, "greatest-overcurrent-device") == {SETTING: [40, 32, 24, 20, 16, 12, 8, 6]}
    request["charger"]["rated_current_a"] = 48
    (first, *_) = _tried(request, "greatest-overcurrent-device")
    assert first.together == (("/charger/rated_current_a", 48), ("/charger/setting_access", "restricted"))


@pytest.mark.source(
    "NEC chapter 9, Table 4: what a raceway of a stated trade size cannot take, a larger one may"
)
def test_a_design_takes_a_larger_raceway_before_less_charging() -> None:
    found = tried(asked(raceway_trade_size="1/2"), "raceway-fill")
    assert list(found) == ["/run/0/raceway_trade_size", SETTING]
    assert found["/run/0/raceway_trade_size"] == ["3/4", "1", "1-1/4", "1-1/2", "2"]
    assert found[SETTING] == [40, 32, 24, 20, 16, 12, 8, 6]


@pytest.mark.source("NEC Table 310.16: 48 A asks for 6 AWG at 75 degC; lugs that end at 8 AWG take no more")
def test_a_design_asks_for_larger_lugs_before_less_charging() -> None:
    request = asked()
    request["charger"]["terminals"]["largest"] = "8 AWG"
    assert tried(request, "terminal-sizes") == {
        "/charger/terminals/largest": ["6 AWG"],
        SETTING: [40, 32, 24, 20, 16, 12, 8, 6],
    }


@pytest.mark.source("NEC 210.21(B)(1): 60 A breaker for 48 A, a 14-50 receptacle has 50 A; by hand")
def test_a_design_connects_permanently_before_it_charges_less() -> None:
    found = tried(plugged(asked(), "14-50"), "receptacle-rating")
    assert list(found) == ["/charger/connection", SETTING]
    assert found["/charger/connection"] == ["hardwired"]
