"""Capacity reviews against what is published: control settings, shared circuits, service conductors."""

import pytest
from tests.checks.service_capacity.capacity_requests import (
    HOUSE,
    MANAGEMENT,
    YEAR,
    asked,
    calculated,
    finding,
    outcome,
    reviewed,
    step,
    ways,
)

D15_HOUSE_VA = 29_040 - 12_000
"""What the dwelling of example D15 has without its charger."""

D15 = asked(
    edition="nec-2026",
    readings={"charger-on-service": "at-its-load"},
    # A year's demand that stands for the example's load: the example does not say what the load is made of.
    existing_load={**YEAR, "measured_demand_w": D15_HOUSE_VA / 1.25},
    chargers=[{"charging_current_a": 50, "rated_current_a": 50}],
)


@pytest.mark.source("NEC 2026, Annex D, example D15, quoted in Electrical Contractor magazine, 2026")
def test_a_charger_of_12_000_va_takes_a_dwelling_of_100_a_to_121_a() -> None:
    capacity = reviewed(D15)["capacity"]
    assert capacity["charger_load_va"] == 12_000
    assert capacity["total_va"] == 29_040
    assert capacity["total_a"] == 121


@pytest.mark.source("NEC 2026, Annex D, example D15, quoted in Electrical Contractor magazine, 2026")
def test_a_service_of_100_a_carries_it_by_a_control_setting_alone() -> None:
    assert reviewed(D15)["verdict"] == "fail"
    assert outcome(D15, "service-capacity") == "fail"
    managed = reviewed({**D15, "management": MANAGEMENT})
    assert managed["verdict"] == "no-failure-found"
    assert managed["capacity"]["managed_total_a"] == 100
    # 71 A that nobody controls, and the 6 A of the pilot signal (SAE J1772): 77 A.
    least = finding(managed, "managed-least-load")
    assert (least["outcome"], least["required"]["value"]) == ("pass", 77)


@pytest.mark.source("NEC 220.70 (2023): the setting counts as one continuous load, so 80 A on 100 A")
@pytest.mark.parametrize(
    ("setting", "expected"), [(80, "pass"), (80.01, "fail"), (81, "fail"), (100, "fail")]
)
def test_a_control_setting_counts_at_125_percent(setting: float, expected: str) -> None:
    request = asked(
        chargers=[{"charging_current_a": 48}], management={**MANAGEMENT, "control_setting_a": setting}
    )
    assert outcome(request, "service-capacity") == expected


THREE_OF_30_A = asked(
    service={"rating_a": 200, "system": "split-phase-120-240"},
    readings={"charger-on-service": "at-its-load"},
    chargers=[{"charging_current_a": 30} for _ in range(3)],
    shared_circuits=[
        {
            "chargers": [0, 1, 2],
            "breaker_a": 100,
            "control_setting_a": 80,
            "fail_safe_current_a": 0,
            "listed": True,
        }
    ],
)
V6 = (
    "A continuing-education page on 625.42 (2023): three chargers of 30 A on a circuit of 100 A, held to 80 A"
)


@pytest.mark.source(V6)
def test_three_chargers_of_30_a_share_80_a_of_a_circuit_of_100_a() -> None:
    answer = reviewed(THREE_OF_30_A)
    assert answer["verdict"] == "no-failure-found"
    assert finding(answer, "shared-circuit-setting")["provided"]["value"] == 100
    # 80 A and not 90 A are the load.
    assert answer["capacity"]["charger_load_va"] == 80 * 240
    assert step(answer, "shared-circuit-0-share")["value"] == pytest.approx(26.67, abs=0.01)


@pytest.mark.source(V6)
def test_81_a_are_too_much_for_that_circuit() -> None:
    request = asked(**THREE_OF_30_A)
    request["shared_circuits"][0]["control_setting_a"] = 81
    assert outcome(request, "shared-circuit-setting") == "fail"


@pytest.mark.source(V6)
def test_the_share_that_is_proposed_is_in_whole_amperes() -> None:
    # 80 A of headroom: a service of 100 A that carries 20 A.
    alone = asked(
        existing_load={**YEAR, "measured_demand_w": 20 * 240 / 1.25},
        readings={"charger-on-service": "at-its-load"},
        chargers=THREE_OF_30_A["chargers"],
    )
    way = ways(reviewed(alone))["shared-circuit"]
    (circuit,) = way["changes"][0]["value"]
    assert (circuit["control_setting_a"], circuit["breaker_a"]) == (80, 100)
    assert way["charging_current_a"] == 26


def conductors(size: str, material: str, rating_a: float, **others: object) -> dict[str, object]:
    return asked(
        occupancy="one-family",
        service={
            "rating_a": rating_a,
            "system": "split-phase-120-240",
            "conductors": {
                "material": material,
                "size": size,
                "terminal_temperature_rating_c": 75,
                "carry_entire_load": True,
                **others,
            },
        },
    )


@pytest.mark.source("An article on 310.15(B)(7), electrical code connection: 2/0 AWG copper on 200 A, 166 A")
@pytest.mark.parametrize("edition", ["nec-2017", "nec-2020", "nec-2023", "nec-2026"])
def test_2_0_copper_serves_200_a_by_83_percent(edition: str) -> None:
    answer = reviewed({**conductors("2/0 AWG", "copper", 200), "edition": edition})
    found = finding(answer, "service-conductors")
    assert found["outcome"] == "pass"
    assert found["required"]["value"] == 166
    assert found["provided"]["value"] == 175
    assert (
        outcome({**conductors("1/0 AWG", "copper", 200), "edition": edition}, "service-conductors") == "fail"
    )


TABLE = [
    (100, "4 AWG", "2 AWG"),
    (110, "3 AWG", "1 AWG"),
    (125, "2 AWG", "1/0 AWG"),
    (150, "1 AWG", "2/0 AWG"),
    (175, "1/0 AWG", "3/0 AWG"),
    (200, "2/0 AWG", "4/0 AWG"),
    (225, "3/0 AWG", "250 kcmil"),
]
SMALLER = (
    "6 AWG",
    "4 AWG",
    "3 AWG",
    "2 AWG",
    "1 AWG",
    "1/0 AWG",
    "2/0 AWG",
    "3/0 AWG",
    "4/0 AWG",
    "250 kcmil",
)


@pytest.mark.source(
    "NEC Table 310.12(A), from the reference of the project; 83 percent of the rating by Table 310.16"
)
@pytest.mark.parametrize(("rating", "copper", "aluminum"), TABLE)
def test_the_printed_table_and_83_percent_agree(rating: float, copper: str, aluminum: str) -> None:
    for material, printed in (("copper", copper), ("aluminum", aluminum)):
        smaller = SMALLER[SMALLER.index(printed) - 1]
        for rule in ("service-conductors", "service-conductor-table"):
            assert outcome(conductors(printed, material, rating), rule) == "pass"
            assert outcome(conductors(smaller, material, rating), rule) == "fail"


@pytest.mark.source(
    "NEC 310.12: the table only without correction and adjustment; Table 310.15(B)(1): 0.75 at 46-50"
)
def test_corrected_conductors_have_the_percentage_and_not_the_table() -> None:
    hot = conductors("2/0 AWG", "copper", 200, ambient_c=50)
    answer = reviewed(hot)
    assert finding(answer, "service-conductor-table")["outcome"] == "not-applicable"
    found = finding(answer, "service-conductors")
    assert found["outcome"] == "fail"
    assert found["provided"]["value"] == pytest.approx(175 * 0.75)


@pytest.mark.source("NEC Annex D, example D1(a): 18 600 VA, 77.5 A; 220.57 (2023): 7200 VA at least")
def test_a_charger_counts_no_less_than_7200_va_in_the_standard_method_of_2023() -> None:
    request = asked(
        readings={"charger-on-service": "at-its-load"},
        existing_load=calculated("standard", HOUSE),
        chargers=[{"charging_current_a": 16}],
    )
    capacity = reviewed(request)["capacity"]
    assert capacity["existing_load_va"] == 18_600
    assert capacity["headroom_a"] == 22.5
    assert capacity["charger_load_va"] == 7200
    # Earlier and later editions take 16 A at 240 V.
    for edition in ("nec-2017", "nec-2020", "nec-2026"):
        assert reviewed({**request, "edition": edition})["capacity"]["charger_load_va"] == 3840


@pytest.mark.source(
    "NEC 220.83: 8000 VA at 100 percent, the rest at 40; the charger read in full or in the pool"
)
def test_a_charger_counts_in_full_or_in_the_pool_of_the_existing_dwelling_method() -> None:
    readings = {"charger-on-service": "at-its-load"}
    request = asked(
        readings=readings,
        existing_load=calculated("optional-existing", HOUSE),
        chargers=[{"charging_current_a": 40}],
    )
    # 1500 ft2 at 3 VA, three circuits of 1500 VA, 12 000 and 5500 VA: 26 500 VA, of which 8000 count in full.
    full = reviewed(request)["capacity"]
    assert full["existing_load_va"] == 8000 + 0.4 * 18_500
    assert full["charger_load_va"] == 9600
    pooled = reviewed({**request, "readings": {**readings, "charger-in-optional-method": "in-the-pool"}})
    assert pooled["capacity"]["charger_load_va"] == 0.4 * 9600
    consulted = {item["name"]: item for item in pooled["interpretations"]}
    assert consulted["charger-in-optional-method"]["reading"] == "in-the-pool"
