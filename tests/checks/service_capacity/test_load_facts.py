"""Facts of a dwelling that are missing, contradict each other, or cannot be: what each of them does."""

from typing import Any

import pytest
from pydantic import ValidationError
from tests.checks.service_capacity.dwellings import (
    D1A,
    D2A,
    asked,
    by,
    calculated,
    demand_of,
    failing,
    findings,
)

from branchwright.checks.service_capacity.dwelling_load import LoadCalculationRequest
from branchwright.codebook import EditionBook, Provision, ProvisionLacking

Json = dict[str, Any]

EMPTY: Json = {"floor_area_ft2": 0}
HUNDRED_A: Json = {"system": "split-phase-120-240", "rating_a": 100}


def outcome(answer: Json, rule: str) -> str:
    return str(findings(answer)[rule]["outcome"])


# ------------------------------------------------------------------------------------ missing facts


def test_without_floor_area_no_method_has_a_total() -> None:
    dwelling = {name: value for name, value in D2A.items() if name != "floor_area_ft2"}
    answer = calculated(asked("nec-2023", dwelling, service={**HUNDRED_A, "rating_a": 200}))
    for method in answer["methods"]:
        assert method["total_va"] is method["current_a"] is method["least_service_rating_a"] is None
        assert method["neutral_va"] is None
        assert method["verdict"] == "undetermined"
    finding = findings(answer)["calculated-load"]
    assert (finding["outcome"], finding["pointer"]) == ("undetermined", "/dwelling/floor_area_ft2")
    assert outcome(answer, "service-rating") == "undetermined"
    by_standard = findings(answer)["service-by-standard-method"]
    assert (by_standard["outcome"], by_standard["pointer"]) == ("undetermined", "/dwelling/floor_area_ft2")
    assert answer["verdict"] == "undetermined"


def test_without_a_supply_loads_stand_and_currents_do_not() -> None:
    request = {"edition": "nec-2023", "dwelling": D1A}
    answer = calculated(request)
    standard, optional, existing = answer["methods"]
    assert standard["total_va"] == 18600
    assert standard["current_a"] is standard["rounded_current_a"] is standard["neutral_current_a"] is None
    assert standard["least_service_rating_a"] is None
    assert (standard["permitted"], optional["permitted"], existing["permitted"]) == (True, None, None)
    finding = findings(answer)["calculated-load"]
    assert (finding["outcome"], finding["pointer"]) == ("undetermined", "/service")


def test_a_charger_by_its_current_needs_the_voltage() -> None:
    dwelling = {**D1A, "chargers": [{"charging_current_a": 32}]}
    answer = calculated({"edition": "nec-2023", "dwelling": dwelling})
    assert all(method["total_va"] is None for method in answer["methods"])
    told = calculated({"edition": "nec-2023", "dwelling": {**D1A, "chargers": [{"nameplate_va": 7680}]}})
    assert told["methods"][0]["total_va"] == 18600 + 7680


def test_managed_chargers_by_their_nameplates_need_the_voltage_of_the_setting() -> None:
    dwelling = {
        **EMPTY,
        "chargers": [{"nameplate_va": 11_520, "managed_by": "garage"}],
        "load_management": [{"name": "garage", "control_setting_a": 20}],
    }
    answer = calculated({"edition": "nec-2023", "dwelling": dwelling})
    assert all(method["total_va"] is None for method in answer["methods"])
    assert findings(answer)["calculated-load"]["pointer"] == "/service"


def test_the_place_is_echoed_and_its_amendments_are_not_examined() -> None:
    answer = calculated(asked("nec-2023", D1A, jurisdiction="Springfield"))
    assert answer["jurisdiction"] == "Springfield"
    assert "amendments in force in Springfield" in answer["not_examined"]


def test_a_charger_of_which_nothing_is_known() -> None:
    answer = calculated(asked("nec-2023", {**EMPTY, "chargers": [{"name": "garage"}]}))
    finding = findings(answer)["calculated-load"]
    assert (finding["outcome"], finding["pointer"]) == ("undetermined", "/dwelling/chargers/0")


def test_without_a_rating_nothing_is_judged() -> None:
    answer = calculated(asked("nec-2023", D1A))
    assert answer["verdict"] == "no-failure-found"
    assert {method["verdict"] for method in answer["methods"]} == {None}
    for rule in ("service-rating", "service-by-standard-method", "least-service-rating"):
        assert outcome(answer, rule) == "not-applicable"


def test_circuits_that_are_not_stated_count_as_the_least() -> None:
    """1500 ft2: 4500 VA, two circuits and one of 1500 VA each."""
    answer = calculated(asked("nec-2023", {"floor_area_ft2": 1500}, "standard"))
    assert demand_of(answer["methods"][0], "lighting") == 5100
    assumed = {item["pointer"]: item["stated"] for item in answer["to_verify"]}
    assert assumed["/dwelling/small_appliance_circuits"] == "not stated, taken as 2"
    assert assumed["/dwelling/laundry_circuits"] == "not stated, taken as 1"


def appliances_of(**facts: Any) -> Json:
    base = {
        "rating_va": 4500,
        "fastened_in_place": True,
        "on_own_circuit": True,
        "motor": False,
        "voltage_v": 240,
    }
    stated = {name: value for name, value in {**base, **facts}.items() if value is not None}
    return {**EMPTY, "appliances": [stated] * 4}


def test_an_appliance_that_may_not_be_fastened_is_not_reduced() -> None:
    answer = calculated(asked("nec-2023", appliances_of(fastened_in_place=None), "standard"))
    assert demand_of(answer["methods"][0], "appliances") == 18_000
    assert "/dwelling/appliances/0/fastened_in_place" in {item["pointer"] for item in answer["to_verify"]}


def test_a_motor_that_is_not_stated_is_not_added() -> None:
    answer = calculated(asked("nec-2023", appliances_of(motor=None), "standard"))
    assert demand_of(answer["methods"][0], "largest-motor") == 0
    assert "/dwelling/appliances/0/motor" in {item["pointer"] for item in answer["to_verify"]}


def test_a_motor_may_be_told_by_its_rating() -> None:
    dwelling = appliances_of(motor=None, motor_va=1000)
    assert demand_of(by(asked("nec-2023", dwelling), "standard"), "largest-motor") == 250


@pytest.mark.parametrize(
    "facts, at_rating",
    [
        # 18,000 W and 3525 VA of circuits are 89.7 A; 75 percent of the first leave 70.9 A.
        ({"fastened_in_place": None}, {80: "undetermined", 90: "pass", 70: "fail"}),
        # 13,500 and 3525 VA are 70.9 A; with a quarter of 4500 VA they are 75.6 A.
        ({"motor": None}, {75: "undetermined", 76: "pass", 70: "fail"}),
    ],
)
def test_an_unknown_fact_that_decides_makes_it_undetermined(facts: Json, at_rating: dict[float, str]) -> None:
    for rating, expected in at_rating.items():
        request = asked(
            "nec-2023", appliances_of(**facts), "standard", service={**HUNDRED_A, "rating_a": rating}
        )
        answer = calculated(request)
        assert outcome(answer, "service-rating") == expected, rating
        (name,) = facts
        for rule in ("service-rating", "service-by-standard-method"):
            waits = f"depends on /dwelling/appliances/0/{name}, " in findings(answer)[rule]["message"]
            assert waits == (expected == "undetermined")


def test_an_appliance_that_may_be_portable() -> None:
    """Four of 4500 W and the circuits are 89.7 A; portable ones without a circuit of their own leave 14.7 A."""
    for rating, expected in ((90, "pass"), (89, "undetermined"), (15, "undetermined"), (14, "fail")):
        request = asked(
            "nec-2023",
            appliances_of(fastened_in_place=None, on_own_circuit=None),
            "standard",
            service={**HUNDRED_A, "rating_a": rating},
        )
        assert outcome(calculated(request), "service-rating") == expected, rating


def test_unknown_access_to_the_setting() -> None:
    """48 A and the circuits are 62.7 A, 32 A and the circuits 46.7 A."""
    charger = {"charging_current_a": 32, "rated_current_a": 48}
    for rating, expected in ((63, "pass"), (60, "undetermined"), (46, "fail")):
        request = asked(
            "nec-2023",
            {**EMPTY, "chargers": [charger]},
            "standard",
            service={**HUNDRED_A, "rating_a": rating},
        )
        answer = calculated(request)
        assert demand_of(answer["methods"][0], "chargers") == 48 * 240
        assert outcome(answer, "service-rating") == expected, rating
        assert "/dwelling/chargers/0/setting_access" in {item["pointer"] for item in answer["to_verify"]}


def test_a_portable_appliance_is_part_of_the_general_load() -> None:
    portable = {"rating_va": 1500, "fastened_in_place": False, "motor": False, "voltage_v": 120}
    for own, counted_va in ((True, 1500), (False, 0), (None, 1500)):
        dwelling = {**EMPTY, "appliances": [{**portable, "on_own_circuit": own}]}
        found = by(asked("nec-2023", dwelling), "standard")
        assert demand_of(found, "appliances") == counted_va
        assert found["neutral_va"] == 3525 + counted_va
        (line,) = [line for line in found["lines"] if line["group"] == "appliances"]
        assert line["connected_va"] == 1500
        pooled = by(asked("nec-2023", dwelling), "optional-new")
        assert demand_of(pooled, "pool") == 4500 + counted_va


@pytest.mark.source("NEC 220.61(A): the neutral carries what is connected to it")
@pytest.mark.parametrize(
    "facts, carried",
    [
        ({"voltage_v": 120}, True),
        ({"voltage_v": 115}, True),
        ({"voltage_v": 240}, False),
        ({"voltage_v": 208}, False),
        ({"voltage_v": 240, "uses_neutral": True}, True),
        ({"uses_neutral": False}, False),
        ({}, True),
    ],
)
def test_what_the_neutral_carries(facts: Json, carried: bool) -> None:
    one = {"rating_va": 2000, "fastened_in_place": True, "motor": False, **facts}
    found = by(asked("nec-2023", {**EMPTY, "appliances": [one]}), "standard")
    assert found["neutral_va"] == 3525 + (2000 if carried else 0)


# ----------------------------------------------------------------------- which methods are permitted


@pytest.mark.source(
    "NEC 220.82(A): one three-wire supply with conductors of 100 A or more; 310.12 for 83 percent"
)
@pytest.mark.parametrize(
    "service, permitted",
    [
        ({"conductor_ampacity_a": 100}, True),
        ({"conductor_ampacity_a": 99.9}, False),
        ({"rating_a": 100, "conductor_ampacity_a": 100}, True),
        ({"rating_a": 125}, True),  # conductors of 103.75 A or more
        ({"rating_a": 110}, None),  # 91.3 A would do
        ({"rating_a": 100}, None),
        ({}, None),
        ({"system": "wye-208y-120", "rating_a": 125}, True),
        ({"system": "wye-208y-120", "phases": 3, "rating_a": 200}, False),
    ],
)
def test_optional_method_for_a_dwelling(service: Json, permitted: bool | None) -> None:
    request = asked("nec-2023", D1A, service={"system": "split-phase-120-240", **service})
    found = by(request, "optional-new")
    assert found["permitted"] is permitted
    assert found["why"].endswith(".")


@pytest.mark.source("NEC 220.83: the service of an existing dwelling that takes on load, on three wires")
def test_optional_method_for_an_existing_dwelling() -> None:
    adding = {**D1A, "chargers": [{"charging_current_a": 32, "new": True}]}
    assert by(asked("nec-2023", adding), "optional-existing")["permitted"] is True
    assert by(asked("nec-2023", D1A), "optional-existing")["permitted"] is None
    three = {"system": "wye-208y-120", "phases": 3}
    assert by(asked("nec-2023", adding, service=three), "optional-existing")["permitted"] is False


def test_a_service_holds_if_one_permitted_method_carries_it() -> None:
    """D2(a) is 90 A by the optional method; by the standard method 5.1 + 8 + 5 + 3.7 + 9 kVA are 128 A."""
    for ampacity, expected in ((100, "pass"), (None, "undetermined"), (95, "fail")):
        service = {**HUNDRED_A, "conductor_ampacity_a": ampacity}
        answer = calculated(asked("nec-2023", D2A, "standard", "optional-new", service=service))
        assert [method["rounded_current_a"] for method in answer["methods"]] == [128, 90]
        assert outcome(answer, "service-rating") == expected
        assert outcome(answer, "service-by-standard-method") == "fail"
        assert answer["methods"][0]["verdict"] == "fail"
        by_optional = {"pass": "pass", "undetermined": "undetermined", "fail": "not-applicable"}
        assert outcome(answer, "service-by-optional-method") == by_optional[expected]
        verdict = {"pass": "no-failure-found"}.get(expected, expected)
        assert answer["verdict"] == verdict


@pytest.mark.parametrize("rating, expected", [(80, "fail"), (200, "pass")])
def test_the_least_load_is_held_against_the_service(rating: float, expected: str) -> None:
    """Of several methods that carry the load, or do not, the one with the least load is named: D2(a) has 90 A."""
    service = {**HUNDRED_A, "rating_a": rating, "conductor_ampacity_a": 200}
    answer = calculated(asked("nec-2023", D2A, "standard", "optional-new", service=service))
    finding = findings(answer)["service-rating"]
    assert finding["outcome"] == expected
    assert finding["required"]["value"] == 90
    assert finding["provided"] == {"value": rating, "unit": "A"}


def test_no_method_that_was_asked_for_is_permitted() -> None:
    service = {"system": "wye-208y-120", "phases": 3, "rating_a": 200}
    answer = calculated(asked("nec-2023", D1A, "optional-new", service=service))
    assert outcome(answer, "service-rating") == "undetermined"
    assert answer["methods"][0]["verdict"] is None


def test_what_each_method_says_is_no_requirement() -> None:
    answer = calculated(asked("nec-2023", D1A))
    advisory = {name for name, finding in findings(answer).items() if finding["force"] == "recommendation"}
    assert advisory == {
        "heat-pump-listed-once",
        "service-by-standard-method",
        "service-by-optional-method",
        "service-by-existing-dwelling-method",
    }


def test_methods_come_once_and_in_order() -> None:
    request = asked("nec-2023", D1A, "optional-existing", "standard", "optional-existing")
    assert [method["method"] for method in calculated(request)["methods"]] == [
        "standard",
        "optional-existing",
    ]


# ---------------------------------------------------------------------------- contradictions, in a 200


CONTRADICTIONS = {
    "charger set above its rating": (
        {"chargers": [{"charging_current_a": 48, "rated_current_a": 40}]},
        "dwelling-charger-setting",
        "/dwelling/chargers/0/charging_current_a",
    ),
    "charger set above its nameplate in VA": (
        {"chargers": [{"nameplate_va": 7200}, {"charging_current_a": 48, "nameplate_va": 9600}]},
        "dwelling-charger-setting",
        "/dwelling/chargers/1/charging_current_a",
    ),
    "second charger set above its rating": (
        {
            "chargers": [
                {"charging_current_a": 16, "rated_current_a": 48, "setting_access": "restricted"},
                {"charging_current_a": 33, "rated_current_a": 32},
                {"charging_current_a": 32, "rated_current_a": 32},
            ]
        },
        "dwelling-charger-setting",
        "/dwelling/chargers/1/charging_current_a",
    ),
    "load management that is not stated": (
        {"chargers": [{"charging_current_a": 48, "managed_by": "garage"}]},
        "dwelling-load-management",
        "/dwelling/chargers/0/managed_by",
    ),
    "two load managements of one name": (
        {"load_management": [{"name": "garage", "control_setting_a": setting} for setting in (40, 60)]},
        "dwelling-load-management",
        "/dwelling/load_management/0/name",
    ),
    "too few small-appliance circuits": (
        {"small_appliance_circuits": 1},
        "small-appliance-circuits",
        "/dwelling/small_appliance_circuits",
    ),
    "no laundry circuit": ({"laundry_circuits": 0}, "laundry-circuits", "/dwelling/laundry_circuits"),
    "range beyond the table": (
        {"ranges": [{"kind": "range", "rating_w": 12_000}, {"kind": "range", "rating_w": 27_001}]},
        "cooking-rating",
        "/dwelling/ranges/1/rating_w",
    ),
    "motor larger than its appliance": (
        {"appliances": [{"rating_va": 1000, "motor_va": 1200}]},
        "motor-within-rating",
        "/dwelling/appliances/0/motor_va",
    ),
    "motor larger than its cooling": (
        {"cooling": [{"rating_va": 1000, "motor_va": 1200}]},
        "motor-within-rating",
        "/dwelling/cooling/0/motor_va",
    ),
    "motor of an appliance without one": (
        {"appliances": [{"rating_va": 1000, "motor": False, "motor_hp": 0.5}]},
        "motor-within-rating",
        "/dwelling/appliances/0/motor",
    ),
    "central heating in two units": (
        {"heating": [{"rating_w": 9000, "kind": "central", "separately_controlled_units": 2}]},
        "heating-control",
        "/dwelling/heating/0/kind",
    ),
    "heat pump among the cooling": (
        {
            "heat_pumps": [{"name": "Heat pump", "compressor_va": 5760}],
            "cooling": [{"name": "heat  pump", "rating_va": 4000}],
        },
        "listed-once",
        "/dwelling/heat_pumps/0/name",
    ),
    "charger among the appliances": (
        {
            "appliances": [{"name": "car charger", "rating_va": 7680}],
            "chargers": [{"name": "car charger", "charging_current_a": 32}],
        },
        "listed-once",
        "/dwelling/chargers/0/name",
    ),
}


@pytest.mark.parametrize("name", CONTRADICTIONS)
def test_a_contradiction_fails_and_names_its_place(name: str) -> None:
    dwelling, rule, pointer = CONTRADICTIONS[name]
    answer = calculated(asked("nec-2023", {"floor_area_ft2": 1500, **dwelling}))
    assert failing(answer) == {rule}
    finding = findings(answer)[rule]
    assert finding["pointer"] == pointer
    assert finding["required"] is not None and finding["provided"] is not None
    assert answer["verdict"] == "fail"


def test_three_phases_of_a_split_phase_system() -> None:
    service = {"system": "split-phase-120-240", "phases": 3}
    answer = calculated(asked("nec-2023", D1A, service=service))
    assert failing(answer) == {"dwelling-supply-phases"}
    assert findings(answer)["dwelling-supply-phases"]["pointer"] == "/service/phases"
    assert answer["methods"][0]["current_a"] == 77.5


def test_a_heat_pump_whose_parts_stand_elsewhere_too_is_pointed_at() -> None:
    pump = {"compressor_va": 5760, "supplemental_heat_w": 15_000}
    cooling = calculated(asked("nec-2023", {**EMPTY, "heat_pumps": [pump], "cooling": [{"rating_va": 5760}]}))
    assert findings(cooling)["heat-pump-listed-once"]["pointer"] == "/dwelling/cooling/0/rating_va"
    heating = calculated(
        asked("nec-2023", {**EMPTY, "heat_pumps": [pump], "heating": [{"rating_w": 15_000}]})
    )
    assert findings(heating)["heat-pump-listed-once"]["pointer"] == "/dwelling/heating/0/rating_w"
    assert heating["verdict"] == "no-failure-found", "a recommendation decides nothing"
    apart = calculated(asked("nec-2023", {**EMPTY, "heat_pumps": [pump], "heating": [{"rating_w": 9000}]}))
    assert outcome(apart, "heat-pump-listed-once") == "pass"


def test_a_setting_above_the_rating_is_counted_as_it_is() -> None:
    dwelling = {**EMPTY, "chargers": [{"charging_current_a": 48, "rated_current_a": 40}]}
    assert demand_of(by(asked("nec-2023", dwelling), "standard"), "chargers") == 48 * 240


def test_a_charger_whose_management_is_unknown_counts_by_itself() -> None:
    dwelling = {
        **EMPTY,
        "chargers": [{"charging_current_a": 48, "managed_by": "garage"}],
        "load_management": [{"name": "driveway", "control_setting_a": 20}],
    }
    assert demand_of(by(asked("nec-2023", dwelling), "standard"), "chargers") == 48 * 240


def test_a_range_beyond_the_table_leaves_the_standard_method_undetermined() -> None:
    dwelling = {**EMPTY, "ranges": [{"kind": "range", "rating_w": 30_000}]}
    answer = calculated(asked("nec-2023", dwelling))
    standard, optional, _ = answer["methods"]
    assert standard["total_va"] is None
    assert standard["neutral_va"] is optional["neutral_va"] is None
    finding = findings(answer)["cooking-rating"]
    assert finding["required"] == {"value": 27_000.0, "unit": "W", "comparison": "at-most"}
    assert finding["provided"] == {"value": 30_000.0, "unit": "W"}
    assert findings(answer)["calculated-load"]["outcome"] == "undetermined"
    assert demand_of(optional, "pool") == 10_000 + 0.4 * (34_500 - 10_000)


def test_too_small_a_service() -> None:
    answer = calculated(asked("nec-2023", EMPTY, "standard", service={**HUNDRED_A, "rating_a": 60}))
    finding = findings(answer)["least-service-rating"]
    assert finding["outcome"] == "fail"
    assert finding["required"] == {"value": 100.0, "unit": "A", "comparison": "at-least"}
    assert outcome(answer, "service-rating") == "pass"


def test_more_than_any_service_is_rated_for() -> None:
    dwelling = {**EMPTY, "cooling": [{"rating_va": 1_000_000}] * 2}
    found = by(asked("nec-2023", dwelling), "standard")
    assert found["rounded_current_a"] > 6000
    assert found["least_service_rating_a"] is None


# ------------------------------------------------------------------- an edition without a provision

CONCEPTS = {
    "lighting-load": {"standard"},
    "small-appliance-load": {"standard", "optional-new", "optional-existing"},
    "laundry-load": {"standard", "optional-new", "optional-existing"},
    "range-load": {"standard"},
    "dryer-load": {"standard"},
    "appliance-demand": {"standard"},
    "space-heating-load": {"standard"},
    "noncoincident-load": {"standard"},
    "largest-motor": {"standard"},
    "charger-load": {"standard", "optional-new", "optional-existing"},
    "current-setting": {"standard", "optional-new", "optional-existing"},
    "energy-management-load": {"standard", "optional-new", "optional-existing"},
    "optional-dwelling-load": {"optional-new"},
    "optional-heating-and-cooling": {"optional-new"},
    "existing-dwelling-load": {"optional-existing"},
    "neutral-load": set(),
    "least-service-rating": set(),
    "load-rounding": {"standard", "optional-new", "optional-existing"},
}
"""Provisions that load calculations ask for, and the methods that cannot do without."""


@pytest.mark.parametrize("concept", CONCEPTS)
def test_an_edition_without_a_provision(concept: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """Nothing stands in for a provision that an edition does not have: what needs it is undetermined and names it."""
    known = EditionBook.provision

    def without(self: EditionBook, name: str) -> Provision:
        if name == concept:
            raise ProvisionLacking(self.name, name)
        return known(self, name)

    monkeypatch.setattr(EditionBook, "provision", without)
    dwelling = {
        **D2A,
        "small_appliance_circuits": None,
        "appliances": [{**one, "motor": True} for one in D2A["appliances"]],
        "chargers": [{"charging_current_a": 32, "rated_current_a": 48, "managed_by": "garage", "new": True}],
        "load_management": [{"name": "garage", "control_setting_a": 20}],
    }
    answer = calculated(asked("nec-2023", dwelling, service={**HUNDRED_A, "rating_a": 200}))
    undetermined = {method["method"] for method in answer["methods"] if method["rounded_current_a"] is None}
    assert undetermined == CONCEPTS[concept]
    named = [finding for finding in answer["findings"] if concept in finding["message"]]
    assert named and {finding["outcome"] for finding in named} == {"undetermined"}
    least = {method["least_service_rating_a"] for method in answer["methods"]}
    assert least == {None} or concept != "least-service-rating"


# --------------------------------------------------------------------------- what breaks the schema


@pytest.mark.parametrize(
    "broken",
    [
        {"floor_area_ft2": -1},
        {"floor_area_ft2": "1500"},
        {"floor_area_ft2": float("inf")},
        {"floor_area_m2": 140},
        {"small_appliance_circuits": 2.5},
        {"small_appliance_circuits": True},
        {"ranges": [{"rating_w": 12_000}]},
        {"ranges": [{"kind": "stove", "rating_w": 12_000}]},
        {"ranges": [{"kind": "range", "rating_w": 0}]},
        {"ranges": [{"kind": "range", "rating_kw": 12}]},
        {"appliances": [{"rating_va": 1000, "motor": 1}]},
        {"appliances": [{"rating_va": 1000, "voltage_v": 2400}]},
        {"heating": [{"rating_w": 1000, "separately_controlled_units": 0}]},
        {"chargers": [{"charging_current_a": 0}]},
        {"chargers": [{"charging_current_a": 32, "setting_access": "open"}]},
        {"load_management": [{"control_setting_a": 40}]},
        {"dryers": [{"rating_w": 5000}] * 101},
    ],
)
def test_what_breaks_the_schema_is_refused(broken: Json) -> None:
    with pytest.raises(ValidationError):
        LoadCalculationRequest.model_validate(asked("nec-2023", {"floor_area_ft2": 1500, **broken}))


def test_whole_numbers_may_be_written_with_a_point() -> None:
    request = asked("nec-2023", {"floor_area_ft2": 1500, "small_appliance_circuits": 3.0}, "standard")
    assert demand_of(calculated(request)["methods"][0], "lighting") == 3000 + 0.35 * 7500
