"""What the editions count unlike, and what is read two ways in them."""

from typing import Any

import pytest
from tests.checks.service_capacity.dwellings import D1A, D2A, EDITIONS, asked, by, calculated, demand_of

Json = dict[str, Any]

EMPTY: Json = {"floor_area_ft2": 0}


def appliance(rating_va: float, **others: Any) -> Json:
    return {"rating_va": rating_va, "fastened_in_place": True, "motor": False, **others}


@pytest.mark.source(
    "Continuing-education page on 120.13 of 2026: 2 VA for services and feeders; 3 VA before, Annex D1(a)"
)
@pytest.mark.parametrize(
    "edition, lighting_va", [("nec-2017", 5100), ("nec-2020", 5100), ("nec-2023", 5100), ("nec-2026", 4575)]
)
def test_lighting(edition: str, lighting_va: float) -> None:
    """1500 ft2 with three circuits: 9000 VA by 3 VA, 7500 VA by 2 VA, 35 percent of what exceeds 3000 VA."""
    assert demand_of(by(asked(edition, D1A), "standard"), "lighting") == lighting_va


@pytest.mark.source(
    "Trade magazine's print of 120.82(B) of 2026: 8 kVA and 2 VA; Annex D2(a) for the editions before"
)
@pytest.mark.parametrize("edition, pool_va", [("nec-2023", 17_880), ("nec-2026", 8000 + 0.4 * 20_200)])
def test_first_part_of_the_optional_method(edition: str, pool_va: float) -> None:
    assert demand_of(by(asked(edition, D2A), "optional-new"), "pool") == pool_va


@pytest.mark.source(
    "Forum quotations of 220.53: of 2017 without, of 2020 with a least rating of 500 W or 1/4 hp"
)
@pytest.mark.parametrize(
    "fourth, early_va, late_va",
    [
        (appliance(499), 0.75 * 3499, 3499),
        (appliance(500), 0.75 * 3500, 0.75 * 3500),
        (appliance(400, motor=True, motor_hp=0.25), 0.75 * 3400, 0.75 * 3400),
        (appliance(400, motor=True, motor_hp=0.2), 0.75 * 3400, 3400),
        (appliance(400, fastened_in_place=False, on_own_circuit=True), 3400, 3400),
    ],
)
def test_fourth_appliance(fourth: Json, early_va: float, late_va: float) -> None:
    dwelling = {**EMPTY, "appliances": [appliance(1000)] * 3 + [fourth]}
    for edition in EDITIONS:
        expected = early_va if edition == "nec-2017" else late_va
        assert demand_of(by(asked(edition, dwelling), "standard"), "appliances") == expected, edition


@pytest.mark.source(
    "Manufacturer's guide to 220.53 of 2023; before it, the continuous load is left out of the reduction"
)
@pytest.mark.parametrize("edition", EDITIONS)
def test_charger_is_no_fourth_appliance(edition: str) -> None:
    dwelling = {**EMPTY, "appliances": [appliance(1000)] * 3, "chargers": [{"charging_current_a": 32}]}
    found = by(asked(edition, dwelling), "standard")
    assert demand_of(found, "appliances") == 3000
    assert demand_of(found, "chargers") == 7680


CHARGERS = {
    "small": ({"charging_current_a": 16}, {"nec-2023": 7200}, 3840),
    "at its rating": ({"charging_current_a": 48, "rated_current_a": 48}, {}, 11_520),
    "by its nameplate alone": ({"nameplate_va": 9600}, {}, 9600),
    "set lower, restricted": (
        {"charging_current_a": 32, "rated_current_a": 48, "setting_access": "restricted"},
        {"nec-2017": 11_520},
        7680,
    ),
    "set lower, unrestricted": (
        {"charging_current_a": 32, "rated_current_a": 48, "setting_access": "unrestricted"},
        {"nec-2020": 7680},
        11_520,
    ),
    "set lower, plugged in": (
        {
            "charging_current_a": 32,
            "rated_current_a": 48,
            "setting_access": "restricted",
            "connection": "receptacle",
        },
        {"nec-2023": 7680, "nec-2026": 7680},
        11_520,
    ),
    "set lower than a nameplate in VA": (
        {"charging_current_a": 24, "nameplate_va": 11_520, "setting_access": "restricted"},
        {"nec-2017": 11_520, "nec-2023": 7200},
        5760,
    ),
}


@pytest.mark.source(
    "220.57 of 2023 and 120.57 of 2026; 625.42: nameplate (2017), hardwired setting (2020), restricted setting"
)
@pytest.mark.parametrize("edition", EDITIONS)
@pytest.mark.parametrize("name", CHARGERS)
def test_charger(edition: str, name: str) -> None:
    charger, unlike, otherwise = CHARGERS[name]
    found = by(asked(edition, {**EMPTY, "chargers": [charger]}), "standard")
    assert demand_of(found, "chargers") == unlike.get(edition, otherwise)


@pytest.mark.source("Engineering article of 2026 on 120.57: 7200 VA where the nameplate is not known")
@pytest.mark.parametrize("edition", EDITIONS)
def test_charger_of_unknown_rating(edition: str) -> None:
    found = by(asked(edition, {**EMPTY, "chargers": [{}]}), "standard")
    if edition == "nec-2026":
        assert demand_of(found, "chargers") == 7200
        assert found["total_va"] == demand_of(found, "lighting") + 7200
    else:
        assert found["total_va"] is None


@pytest.mark.source(
    "Forum thread of an examination's candidates: 220.57 stands in part III and not in the optional methods"
)
@pytest.mark.parametrize("method", ["optional-new", "optional-existing"])
def test_optional_methods_take_the_nameplate(method: str) -> None:
    dwelling = {**EMPTY, "chargers": [{"charging_current_a": 16, "new": True}]}
    assert demand_of(by(asked("nec-2023", dwelling), method), "chargers") == 3840


@pytest.mark.source(
    "625.42 (2017, 2020), 220.70 (2023), 120.7 (2026): what the management permits is the load"
)
@pytest.mark.parametrize("edition", EDITIONS)
@pytest.mark.parametrize("setting_a, counted_a", [(40, 40), (96, 96), (200, 96)])
def test_chargers_under_load_management(edition: str, setting_a: float, counted_a: float) -> None:
    dwelling = {
        **EMPTY,
        "chargers": [{"charging_current_a": 48, "managed_by": "garage"}] * 2,
        "load_management": [{"name": "garage", "control_setting_a": setting_a}],
    }
    for method in ("standard", "optional-new"):
        found = by(asked(edition, dwelling), method)
        assert demand_of(found, "chargers") == counted_a * 240
        (line,) = [line for line in found["lines"] if line["group"] == "chargers"]
        assert line["connected_va"] == 96 * 240
        assert line["pointer"] == "/dwelling/load_management/0/control_setting_a"


COOL_5000 = {**EMPTY, "cooling": [{"rating_va": 5000}], "heating": [{"rating_w": 6000}]}


@pytest.mark.source(
    "Training provider's article on 220.60 of 2020: compare again with the largest motor at 125 percent; 2017 without"
)
def test_smaller_load_with_the_largest_motor() -> None:
    """5000 VA of cooling against 6000 W of heating: 1.25 x 5000 is more from 2020 on."""
    early = by(asked("nec-2017", COOL_5000), "standard")
    assert (demand_of(early, "heating"), demand_of(early, "cooling")) == (6000, 0)
    assert demand_of(early, "largest-motor") == 0
    for edition in ("nec-2020", "nec-2023", "nec-2026"):
        late = by(asked(edition, COOL_5000), "standard")
        assert (demand_of(late, "heating"), demand_of(late, "cooling")) == (0, 5000)
        assert demand_of(late, "largest-motor") == 1250


@pytest.mark.source(
    "Moderator of a forum on 220.60 from 2020 on: count the heat, add the cooling as the largest motor"
)
@pytest.mark.parametrize("edition", EDITIONS)
def test_omitted_motor_by_the_other_reading(edition: str) -> None:
    request = asked(edition, COOL_5000, "standard", readings={"omitted-motor": "added"})
    answer = calculated(request)
    (found,) = answer["methods"]
    assert (demand_of(found, "heating"), demand_of(found, "cooling")) == (6000, 0)
    is_read = edition != "nec-2017"
    assert demand_of(found, "largest-motor") == (1250 if is_read else 0)
    assert [item["name"] for item in answer["interpretations"]] == ["omitted-motor"] * is_read


def test_omitted_motor_is_asked_for_only_where_it_matters() -> None:
    beside = {**COOL_5000, "appliances": [appliance(5000, motor=True)]}
    cooling = {**COOL_5000, "cooling": [{"rating_va": 6000}]}
    for dwelling in (beside, cooling, {**COOL_5000, "heating": []}, {**COOL_5000, "cooling": []}):
        assert calculated(asked("nec-2023", dwelling, "standard"))["interpretations"] == []


@pytest.mark.parametrize("edition", EDITIONS)
def test_of_equal_loads_the_one_with_a_motor_is_taken(edition: str) -> None:
    found = by(asked(edition, {**COOL_5000, "heating": [{"rating_w": 5000}]}), "standard")
    assert (demand_of(found, "heating"), demand_of(found, "cooling")) == (0, 5000)
    assert demand_of(found, "largest-motor") == 1250


@pytest.mark.source("Forum threads on 220.60: where another motor is larger, the omitted one adds nothing")
@pytest.mark.parametrize("edition", EDITIONS)
def test_smaller_load_beside_a_larger_motor(edition: str) -> None:
    dwelling = {**COOL_5000, "appliances": [appliance(7200, motor=True)]}
    found = by(asked(edition, dwelling), "standard")
    assert (demand_of(found, "heating"), demand_of(found, "cooling")) == (6000, 0)
    assert demand_of(found, "largest-motor") == 1800


@pytest.mark.source("220.82(C) from memory; Annex D2(a) for five units at 40 percent and D2(b) for cooling")
@pytest.mark.parametrize("edition", EDITIONS)
@pytest.mark.parametrize(
    "conditioning, demand_va",
    [
        ({"heating": [{"rating_w": 10_000, "kind": "central"}]}, 6500),
        ({"heating": [{"rating_w": 10_000}]}, 6500),
        ({"heating": [{"rating_w": 10_000, "separately_controlled_units": 3}]}, 6500),
        ({"heating": [{"rating_w": 10_000, "separately_controlled_units": 4}]}, 4000),
        ({"heating": [{"rating_w": 2500, "kind": "separately-controlled"}] * 4}, 4000),
        ({"heating": [{"rating_w": 2500, "kind": "separately-controlled"}] * 3}, 4875),
        ({"heating": [{"rating_w": 10_000, "kind": "thermal-storage"}]}, 10_000),
        ({"cooling": [{"rating_va": 5000}]}, 5000),
        ({"heat_pumps": [{"compressor_va": 5000}]}, 5000),
        ({"heat_pumps": [{"compressor_va": 5000, "supplemental_heat_w": 10_000}]}, 11_500),
        ({"heat_pumps": [{"compressor_va": 5000, "supplemental_heat_w": 10_000, "interlocked": True}]}, 6500),
        ({"heat_pumps": [{"compressor_va": 7000, "supplemental_heat_w": 10_000, "interlocked": True}]}, 7000),
        ({"heating": [{"rating_w": 10_000}], "cooling": [{"rating_va": 6500}]}, 6500),
        ({"heating": [{"rating_w": 10_000}], "cooling": [{"rating_va": 6501}]}, 6501),
    ],
)
def test_heating_or_cooling_in_the_optional_method(
    edition: str, conditioning: Json, demand_va: float
) -> None:
    found = by(asked(edition, {**EMPTY, **conditioning}), "optional-new")
    assert demand_of(found, "heating", "cooling") == demand_va


EXISTING = {
    "floor_area_ft2": 2000,
    "ranges": [{"kind": "range", "rating_w": 12_000}],
    "heating": [{"rating_w": 10_000}],
    "cooling": [{"rating_va": 5000}],
}
"""22,500 VA with two small-appliance circuits and a laundry by 3 VA; 20,500 VA by 2 VA."""


def general_va(edition: str) -> float:
    return 20_500 if edition == "nec-2026" else 22_500


@pytest.mark.source(
    "220.83(A); answer of the publisher's staff: heating and cooling, both, at the 40 percent"
)
@pytest.mark.parametrize("edition", EDITIONS)
def test_existing_dwelling_without_new_heating_or_cooling(edition: str) -> None:
    dwelling = {**EXISTING, "chargers": [{"charging_current_a": 32, "new": True}]}
    found = by(asked(edition, dwelling), "optional-existing")
    assert found["permitted"] is True
    assert demand_of(found, "pool") == 8000 + 0.4 * (general_va(edition) + 15_000 - 8000)
    assert demand_of(found, "heating", "cooling") == 0
    assert demand_of(found, "chargers") == 7680


@pytest.mark.source("Magazine article on 220.83 that leaves existing heating and cooling out")
@pytest.mark.parametrize("edition", EDITIONS)
def test_existing_dwelling_by_the_other_reading(edition: str) -> None:
    request = asked(edition, EXISTING, readings={"existing-heating-and-cooling": "left-out"})
    found = by(request, "optional-existing")
    assert demand_of(found, "pool") == pytest.approx(8000 + 0.4 * (general_va(edition) - 8000), abs=1e-6)


@pytest.mark.source(
    "Contractor's page on 220.83(B): the larger of both at 100 percent, 8 kVA of the rest, 40 percent"
)
@pytest.mark.parametrize("edition", EDITIONS)
@pytest.mark.parametrize("added", ["heating", "cooling"])
def test_existing_dwelling_with_new_heating_or_cooling(edition: str, added: str) -> None:
    dwelling = {**EXISTING, added: [{**EXISTING[added][0], "new": True}]}  # type: ignore[index]
    found = by(asked(edition, dwelling), "optional-existing")
    assert demand_of(found, "pool") == 8000 + 0.4 * (general_va(edition) - 8000)
    assert (demand_of(found, "heating"), demand_of(found, "cooling")) == (10_000, 0)


@pytest.mark.source(
    "220.83(B) from memory: four or more separately controlled heaters are among the other loads"
)
@pytest.mark.parametrize("units, pooled", [(3, False), (4, True)])
def test_many_heaters_stay_in_the_pool(units: int, pooled: bool) -> None:
    heating = [{"rating_w": 10_000, "separately_controlled_units": units}]
    dwelling = {**EXISTING, "heating": heating, "cooling": [{"rating_va": 5000, "new": True}]}
    found = by(asked("nec-2023", dwelling), "optional-existing")
    in_pool = 22_500 + (10_000 if pooled else 0)
    assert demand_of(found, "pool") == 8000 + 0.4 * (in_pool - 8000)
    assert demand_of(found, "heating", "cooling") == (5000 if pooled else 10_000)


@pytest.mark.source(
    "Continuing-education page on Table 120.83 of 2026: added heating and cooling are no longer set apart"
)
def test_new_heating_in_2026_by_the_other_reading() -> None:
    dwelling = {**EXISTING, "heating": [{"rating_w": 10_000, "new": True}]}
    request = asked("nec-2026", dwelling, readings={"added-heating-and-cooling": "in-the-pool"})
    assert by(request, "optional-existing")["total_va"] == 8000 + 0.4 * (20_500 + 15_000 - 8000)
    earlier = {**request, "edition": "nec-2023"}
    names = {item["name"] for item in calculated(earlier)["interpretations"]}
    assert "added-heating-and-cooling" not in names


def test_reading_that_flips_the_verdict_is_named() -> None:
    """D2(a) with a charger of 48 A: 21,480 VA and 11,520 are 138 A in full; pooled, 4608 of them are 109 A."""
    dwelling = {**D2A, "chargers": [{"charging_current_a": 48}]}
    service = {"system": "split-phase-120-240", "rating_a": 125}
    request = asked("nec-2023", dwelling, "optional-new", service=service)
    answer = calculated(request)
    assert answer["verdict"] == "fail"
    assert answer["methods"][0]["rounded_current_a"] == 138
    (point,) = answer["interpretations"]
    assert point == {
        "name": "charger-in-optional-method",
        "reading": "full-value",
        "other_readings": [{"reading": "in-the-pool", "verdict": "no-failure-found"}],
        "changes_verdict": True,
    }
    other = calculated({**request, "readings": {"charger-in-optional-method": "in-the-pool"}})
    assert other["verdict"] == "no-failure-found"
    assert other["methods"][0]["rounded_current_a"] == 109


def test_reading_that_was_not_needed_is_not_named() -> None:
    assert calculated(asked("nec-2023", D1A))["interpretations"] == []


@pytest.mark.source("220.61(B) and (C): above 200 A 70 percent, save on three wires of a wye system")
def test_large_neutral() -> None:
    """60,000 VA of 120 V appliances on 240 V: 262.8 A with the circuits; 62.8 of them count 70 percent."""
    heaters = [appliance(20_000, voltage_v=120, fastened_in_place=False, on_own_circuit=True)] * 3
    dwelling = {**EMPTY, "appliances": heaters}
    split = by(asked("nec-2023", dwelling), "standard")
    unreduced = (60_000 + 3000 + 0.35 * 1500) / 240
    assert split["neutral_va"] == 63_525
    assert split["neutral_current_a"] == pytest.approx(200 + 0.7 * (unreduced - 200))
    wye = by(asked("nec-2023", dwelling, service={"system": "wye-208y-120"}), "standard")
    assert wye["neutral_current_a"] == pytest.approx(63_525 / 208)
    three = by(asked("nec-2023", dwelling, service={"system": "wye-208y-120", "phases": 3}), "standard")
    assert three["neutral_current_a"] == pytest.approx(63_525 / (208 * 3**0.5))


@pytest.mark.source("220.61(C): cooking and dryers are not reduced on three wires of a wye system")
def test_neutral_of_a_wye_system() -> None:
    split = by(asked("nec-2023", D1A), "standard")
    assert split["neutral_va"] == 5100 + 0.7 * 8000 + 0.7 * 5500
    wye = by(asked("nec-2023", D1A, service={"system": "wye-208y-120"}), "standard")
    assert wye["neutral_va"] == 5100 + 8000 + 5500


@pytest.mark.source("230.79(C) and (D): 100 A for a one-family dwelling, 60 A for others")
@pytest.mark.parametrize(
    "occupancy, least_a", [("one-family", 100), (None, 100), ("two-family", 60), ("multifamily", 60)]
)
def test_least_service(occupancy: str | None, least_a: float) -> None:
    answer = calculated(asked("nec-2023", EMPTY, "standard", occupancy=occupancy))
    assert answer["methods"][0]["least_service_rating_a"] == least_a
    assumed = [item["pointer"] for item in answer["to_verify"]]
    assert ("/occupancy" in assumed) == (occupancy is None)


@pytest.mark.source("240.6(A): 110 A is the standard rating after 100 A; 220.5(B): 100.4 A are 100 A")
@pytest.mark.parametrize("rating_va, least_a", [(20_400, 100), (20_594, 100), (20_595, 110)])
def test_least_service_follows_the_rounded_current(rating_va: float, least_a: float) -> None:
    """With 3525 VA of circuits: 99.69 A are 100; 100.496 A are 100; 100.5 A are 101, which calls for 110."""
    dwelling = {**EMPTY, "appliances": [appliance(rating_va)]}
    found = by(asked("nec-2023", dwelling), "standard")
    assert found["total_va"] == rating_va + 3525
    assert found["least_service_rating_a"] == least_a
