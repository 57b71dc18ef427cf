"""What a load calculation leaves to be verified, and how it names the loads and the steps that it shows."""

from typing import Any

import pytest
from tests.checks.service_capacity.dwellings import D1A, D2A, asked, by, calculated

Json = dict[str, Any]

EMPTY: Json = {"floor_area_ft2": 0, "small_appliance_circuits": 2, "laundry_circuits": 1}
ALWAYS = {"/dwelling/floor_area_ft2": "0", "/occupancy": "not stated, taken as one-family"}
AMPACITY = {"/service/conductor_ampacity_a": "not stated"}


def to_verify(request: Json) -> dict[str, str]:
    found = calculated(request)["to_verify"]
    assert len({item["pointer"] for item in found}) == len(found), "one remark on each fact"
    assert all(item["evidence"] for item in found)
    return {item["pointer"]: item["stated"] for item in found}


PUMP = {"compressor_va": 5760, "supplemental_heat_w": 15_000}
SET_LOWER = {"charging_current_a": 32, "rated_current_a": 48, "setting_access": "restricted"}

ASSUMED: dict[str, tuple[Json, Json]] = {
    "nothing": ({}, {}),
    "central heating": (
        {"heating": [{"rating_w": 9000}]},
        {"/dwelling/heating/0/kind": "not stated, taken as central"},
    ),
    "one unit": (
        {"heating": [{"rating_w": 9000, "kind": "separately-controlled"}]},
        {"/dwelling/heating/0/separately_controlled_units": "not stated, taken as 1"},
    ),
    "no interlock": (
        {"heat_pumps": [PUMP]},
        {"/dwelling/heat_pumps/0/interlocked": "not stated, taken as not"},
    ),
    "no supplemental heat": ({"heat_pumps": [{"compressor_va": 5760}]}, {}),
    "cooling beside a heat pump": (
        {"heat_pumps": [{"compressor_va": 5760}], "cooling": [{"rating_va": 1380}]},
        {"/dwelling/cooling/0/rating_va": "1380"},
    ),
    "cooling alone": ({"cooling": [{"rating_va": 1380}]}, {}),
    "charger at its rating": (
        {"chargers": [{"charging_current_a": 32}]},
        {"/dwelling/chargers/0/rated_current_a": "not stated, taken as 32 A"},
    ),
    "charger by its rating": ({"chargers": [{"rated_current_a": 32}]}, {}),
    "restricted setting": ({"chargers": [SET_LOWER]}, {"/dwelling/chargers/0/setting_access": "restricted"}),
    "setting of unknown access": (
        {"chargers": [{**SET_LOWER, "setting_access": None}]},
        {"/dwelling/chargers/0/setting_access": "not stated, taken as unrestricted"},
    ),
    "managed charger": (
        {
            "chargers": [{"rated_current_a": 48, "managed_by": "garage"}],
            "load_management": [{"name": "garage", "control_setting_a": 24}],
        },
        {"/dwelling/chargers/0/managed_by": "garage"},
    ),
    "appliance of which little is known": (
        {"appliances": [{"rating_va": 1000}]},
        {
            "/dwelling/appliances/0/fastened_in_place": "not stated: counted in full",
            "/dwelling/appliances/0/motor": "not stated, taken as none",
            "/dwelling/appliances/0/voltage_v": "not stated: the neutral is taken to carry it",
        },
    ),
    "portable appliance": (
        {
            "appliances": [
                {"rating_va": 1000, "fastened_in_place": False, "motor_va": 500, "uses_neutral": True}
            ]
        },
        {"/dwelling/appliances/0/on_own_circuit": "not stated: counted"},
    ),
}


@pytest.mark.parametrize("name", ASSUMED)
def test_what_was_assumed_or_merely_declared(name: str) -> None:
    stated, assumed = ASSUMED[name]
    assert to_verify(asked("nec-2023", {**EMPTY, **stated})) == {**ALWAYS, **AMPACITY, **assumed}


def test_an_ampacity_that_is_stated_is_not_asked_for() -> None:
    service = {"system": "split-phase-120-240", "conductor_ampacity_a": 100}
    assert to_verify(asked("nec-2023", EMPTY, service=service)) == ALWAYS
    assert to_verify({"edition": "nec-2023", "dwelling": EMPTY}) == ALWAYS


def test_three_phases_are_taken_as_evenly_loaded() -> None:
    service = {"system": "wye-208y-120", "phases": 3}
    assert "/service/phases" in to_verify(asked("nec-2023", EMPTY, service=service))
    assert "/service/phases" not in to_verify(asked("nec-2023", EMPTY, service={**service, "phases": 1}))


@pytest.mark.source("625.42 of 2020: an adjusted setting of permanently connected equipment")
def test_the_connection_is_asked_for_where_it_decides() -> None:
    for edition, charger, decides in (
        ("nec-2020", SET_LOWER, True),
        ("nec-2020", {**SET_LOWER, "connection": "hardwired"}, False),
        ("nec-2020", {"charging_current_a": 32}, False),
        ("nec-2023", SET_LOWER, False),
    ):
        found = to_verify(asked(edition, {**EMPTY, "chargers": [charger]}))
        assert ("/dwelling/chargers/0/connection" in found) == decides


def test_loads_bear_their_names() -> None:
    dwelling = {
        **D2A,
        "ranges": [
            {"kind": "wall-oven", "rating_w": 8000},
            {"name": "stove", "kind": "range", "rating_w": 9000},
        ],
        "heating": [],
        "cooling": [],
        "appliances": [
            {"rating_va": 1000, "fastened_in_place": True, "motor": False},
            {"name": "sauna", "rating_va": 6000, "fastened_in_place": True, "motor": False},
        ],
    }
    for method in ("standard", "optional-new", "optional-existing"):
        found = by(asked("nec-2023", dwelling), method)
        assert [
            item["item"] for item in found["items"] if item["pointer"] and "/ranges/" in item["pointer"]
        ] == [
            "wall-mounted oven",
            "stove",
        ]
        named = [
            item["item"] for item in found["items"] if item["pointer"] and "/appliances/" in item["pointer"]
        ]
        assert named == ["appliance", "sauna"]


@pytest.mark.parametrize("method", ["standard", "optional-new", "optional-existing"])
def test_heating_and_cooling_are_compared_in_a_step(method: str) -> None:
    dwelling = {**D1A, "heating": [{"rating_w": 9000}], "cooling": [{"rating_va": 5000, "new": True}]}
    steps = {step["id"]: step for step in calculated(asked("nec-2023", dwelling, method))["steps"]}
    (comparison,) = [
        step for name, step in steps.items() if name.endswith(("-heating-or-cooling", "-noncoincident"))
    ]
    assert comparison["expression"].startswith("max(heating")
    assert set(comparison["inputs"]) >= {"heating", "cooling"}
