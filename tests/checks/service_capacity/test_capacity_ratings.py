"""Service, main breaker, busbar and conductors: each judged by itself; and facts that contradict each other."""

import pytest
from tests.checks.service_capacity.capacity_requests import (
    HOUSE,
    SPLIT_PHASE,
    YEAR,
    asked,
    at,
    calculated,
    finding,
    outcome,
    reviewed,
)

FULL = asked(service={**SPLIT_PHASE, "main_breaker_a": 100, "busbar_rating_a": 125})
"""41.67 A and 125 percent of 24 A: 71.67 A, which round to 72 A."""


@pytest.mark.parametrize(
    ("pointer", "rule"),
    [
        ("/service/rating_a", "service-capacity"),
        ("/service/main_breaker_a", "main-breaker-capacity"),
        ("/service/busbar_rating_a", "busbar-capacity"),
    ],
)
def test_each_rating_is_judged_by_itself(pointer: str, rule: str) -> None:
    for rating, expected in ((72, "pass"), (71, "fail")):
        found = finding(reviewed(at(FULL, pointer, rating)), rule)
        assert found["outcome"] == expected
        assert (found["provided"]["value"], found["required"]["value"]) == (rating, 72)
        assert found["pointer"] == pointer


@pytest.mark.source("NEC 220.5(B) (2023): fractions of an ampere below 0.5 may be dropped")
@pytest.mark.parametrize(("total", "expected"), [(100.49, "pass"), (100.5, "fail")])
def test_fractions_of_an_ampere_are_rounded_as_the_edition_does(total: float, expected: str) -> None:
    request = at(asked(), "/existing_load/measured_demand_w", (total - 30) * 240 / 1.25)
    assert outcome(request, "service-capacity") == expected


def test_the_limit_is_the_least_of_the_ratings() -> None:
    assert reviewed(FULL)["capacity"]["limit_a"] == 100
    assert reviewed(at(FULL, "/service/main_breaker_a", 80))["capacity"]["limit_a"] == 80
    assert reviewed(at(FULL, "/service/busbar_rating_a", 70))["capacity"]["limit_a"] == 70


@pytest.mark.source("NEC 230.90(A) and 408.36, from memory")
def test_a_main_breaker_is_above_neither_service_nor_busbar() -> None:
    request = at(FULL, "/service/main_breaker_a", 125)
    assert outcome(request, "main-breaker-within-service") == "fail"
    assert outcome(request, "busbar-protection") == "pass"
    assert outcome(at(request, "/service/busbar_rating_a", 100), "busbar-protection") == "fail"


BACKFED = at(FULL, "/service/backfeed_breaker_a", 40)


@pytest.mark.source(
    "NEC 705.12(B) (2023), from memory: 120 percent of the busbar, the source at the opposite end"
)
@pytest.mark.parametrize(
    ("facts", "expected"),
    [
        # 100 A and 40 A on 125 A: 120 percent are 150 A.
        ({"backfeed_opposite_main": True}, "pass"),
        ({"backfeed_opposite_main": False}, "fail"),
        ({}, "undetermined"),
        ({"backfeed_opposite_main": True, "backfeed_breaker_a": 50}, "pass"),
        ({"backfeed_opposite_main": True, "backfeed_breaker_a": 51}, "fail"),
        # 125 percent of 32 A are 40 A, whatever the breaker.
        ({"backfeed_opposite_main": True, "backfeed_breaker_a": 60, "backfeed_output_a": 32}, "pass"),
        ({"backfeed_opposite_main": True, "backfeed_output_a": 40.1}, "fail"),
        ({"busbar_rating_a": 140}, "pass"),
        ({"busbar_rating_a": None}, "undetermined"),
    ],
)
def test_a_busbar_with_two_supplies_is_held_against_both(facts: dict[str, object], expected: str) -> None:
    request = BACKFED
    for name, value in facts.items():
        request = at(request, f"/service/{name}", value)
    assert outcome(request, "busbar-with-backfeed") == expected


def test_a_breaker_below_its_sources_output_is_a_contradiction() -> None:
    request = at(BACKFED, "/service/backfeed_output_a", 33)
    found = finding(reviewed(request), "backfeed-breaker")
    assert (found["outcome"], found["required"]["value"]) == ("fail", 41.25)


CONDUCTORS = {
    "material": "copper",
    "size": "4 AWG",
    "terminal_temperature_rating_c": 75,
    "carry_entire_load": True,
}


def with_conductors(**facts: object) -> dict[str, object]:
    stated = {**CONDUCTORS, **facts}
    return asked(
        occupancy="one-family",
        service={
            **SPLIT_PHASE,
            "conductors": {name: value for name, value in stated.items() if value is not None},
        },
    )


@pytest.mark.source("NEC 310.12 and 110.14(C)(1) (2023): 85 A at 75 degC, 70 A at 60 degC by Table 310.16")
def test_unmarked_terminals_up_to_100_a_leave_the_conductors_open() -> None:
    assert outcome(with_conductors(), "service-conductors") == "pass"
    unmarked = finding(reviewed(with_conductors(terminal_temperature_rating_c=None)), "service-conductors")
    assert unmarked["outcome"] == "undetermined"
    assert unmarked["pointer"] == "/service/conductors/terminal_temperature_rating_c"
    assert outcome(with_conductors(terminal_temperature_rating_c=60), "service-conductors") == "fail"


@pytest.mark.source(
    "NEC 310.12: the entire load of one dwelling unit; 240.4(B): the next higher standard rating"
)
def test_the_percentage_is_for_the_entire_load_of_a_dwelling() -> None:
    for carry, expected in ((False, "fail"), (None, "undetermined"), (True, "pass")):
        assert outcome(with_conductors(carry_entire_load=carry), "service-conductors") == expected
    other = {**with_conductors(), "occupancy": "other"}
    assert outcome(other, "service-conductors") == "fail"
    unknown = at(with_conductors(), "/occupancy", None)
    assert outcome(unknown, "service-conductors") == "undetermined"
    # 3 AWG copper has 100 A at 75 degC and needs no percentage.
    assert outcome(with_conductors(size="3 AWG", carry_entire_load=None), "service-conductors") == "pass"


@pytest.mark.source("NEC Table 310.15(C)(1) (2023): 80 percent for four to six current-carrying conductors")
def test_adjustment_counts_before_the_percentage() -> None:
    # 80 percent of 85 A are 68 A; of the 90 degC column's 95 A, 76 A: both below 83 A.
    for column in (75, 90):
        request = with_conductors(current_carrying_conductors=4, conductor_temperature_rating_c=column)
        found = finding(reviewed(request), "service-conductors")
        assert (found["outcome"], found["provided"]["value"]) == ("fail", {75: 68, 90: 76}[column])


def test_a_stated_ampacity_stands_for_size_and_conditions() -> None:
    assert outcome(with_conductors(size=None, material=None), "service-conductors") == "undetermined"
    for ampacity, expected in ((83, "pass"), (82.9, "fail")):
        request = with_conductors(size=None, material=None, ampacity_a=ampacity)
        assert outcome(request, "service-conductors") == expected


@pytest.mark.source("NEC Table 310.12(A) (2020 and later); the edition of 2017 prints none in its body")
def test_the_printed_table_is_there_from_2020_on() -> None:
    for edition, expected in (
        ("nec-2017", "not-applicable"),
        ("nec-2020", "pass"),
        ("nec-2023", "pass"),
        ("nec-2026", "pass"),
    ):
        assert outcome({**with_conductors(), "edition": edition}, "service-conductor-table") == expected
    assert (
        outcome(at(with_conductors(), "/service/rating_a", 105), "service-conductor-table")
        == "not-applicable"
    )


def test_conductors_without_the_percentage_carry_the_load_itself() -> None:
    request = with_conductors(size=None, material=None, ampacity_a=71, carry_entire_load=False)
    assert outcome(request, "service-conductor-load") == "fail"
    assert outcome(at(request, "/service/conductors/ampacity_a", 72), "service-conductor-load") == "pass"
    assert outcome(with_conductors(), "service-conductor-load") == "not-applicable"


@pytest.mark.source("NEC 625.42(B) (2023): the setting counts behind restricted access; 625.41: 125 percent")
@pytest.mark.parametrize(
    ("edition", "access", "connection", "reading", "counted"),
    [
        ("nec-2023", "restricted", None, None, 24),
        ("nec-2023", "unrestricted", None, None, 48),
        ("nec-2023", "restricted", "receptacle", None, 24),
        ("nec-2020", "unrestricted", "hardwired", None, 24),
        ("nec-2020", "restricted", "receptacle", None, 48),
        ("nec-2017", "restricted", "hardwired", None, 48),
        ("nec-2017", "unrestricted", "hardwired", "setting", 24),
        ("nec-2026", "restricted", None, None, 24),
        ("nec-2026", "unrestricted", None, None, 48),
    ],
)
@pytest.mark.parametrize("existing", [YEAR, calculated("optional-existing")])
def test_a_setting_counts_where_edition_access_and_connection_allow(
    edition: str,
    access: str,
    connection: str | None,
    reading: str | None,
    counted: float,
    existing: dict[str, object],
) -> None:
    charger = {"charging_current_a": 24, "rated_current_a": 48, "setting_access": access}
    if connection:
        charger["connection"] = connection
    request = asked(edition=edition, existing_load=existing, chargers=[charger])
    if reading:
        request["readings"] = {"setting-as-rating": reading}
    assert reviewed(request)["capacity"]["charger_load_va"] == 1.25 * counted * 240


def test_unknown_access_leaves_open_what_it_decides() -> None:
    charger = {"charging_current_a": 24, "rated_current_a": 80}
    # 41.67 A and 30 A fit, 41.67 A and 100 A do not.
    found = finding(reviewed(asked(chargers=[charger])), "service-capacity")
    assert found["outcome"] == "undetermined"
    assert "/chargers/0/setting_access" in found["message"]


CONTRADICTIONS = [
    ("/chargers/0/rated_current_a", 20, "charger-setting-within-rating"),
    ("/chargers/0/settings_a", [16, 32], "charger-setting-available"),
    ("/chargers/0/charging_current_a", 5, "least-charging-current"),
    ("/chargers/0/circuit_breaker_a", 25, "charger-circuit-breaker"),
    ("/service/phases", 3, "service-phases"),
    ("/service/main_breaker_a", 110, "main-breaker-within-service"),
]


@pytest.mark.parametrize(("pointer", "value", "rule"), CONTRADICTIONS)
def test_facts_that_contradict_each_other_are_failing_findings(
    pointer: str, value: object, rule: str
) -> None:
    assert outcome(asked(), rule) in ("pass", "not-applicable")
    answer = reviewed(at(asked(), pointer, value))
    assert finding(answer, rule)["outcome"] == "fail"
    assert answer["verdict"] == "fail"


@pytest.mark.parametrize(
    ("pointer", "value", "rule"),
    [
        ("/small_appliance_circuits", 1, "small-appliance-circuits"),
        ("/laundry_circuits", 0, "laundry-circuits"),
        ("/ranges/0/rating_w", 27_001, "cooking-rating"),
        ("/chargers", [{"charging_current_a": 48, "rated_current_a": 32}], "dwelling-charger-setting"),
    ],
)
def test_facts_of_the_dwelling_are_judged_as_in_a_load_calculation(
    pointer: str, value: object, rule: str
) -> None:
    request = asked(existing_load=calculated())
    found = finding(reviewed(at(request, "/existing_load/dwelling" + pointer, value)), rule)
    assert found["outcome"] == "fail"
    assert found["pointer"].startswith("/existing_load/dwelling" + pointer)


def test_a_dwelling_without_its_floor_area_tells_nothing() -> None:
    dwelling = {name: value for name, value in HOUSE.items() if name != "floor_area_ft2"}
    answer = reviewed(asked(existing_load=calculated("standard", dwelling)))
    assert answer["verdict"] == "undetermined"
    assert finding(answer, "existing-load-facts")["pointer"] == "/existing_load/dwelling/floor_area_ft2"
    capacity = answer["capacity"]
    assert capacity["existing_load_va"] is capacity["total_a"] is capacity["headroom_a"] is None
    assert capacity["largest_charging_current_a"]["unmanaged"] is None


@pytest.mark.source(
    "NEC 220.82(A) (2023): conductors of 100 A or more; 220.83: a dwelling that takes on load"
)
def test_a_method_that_may_not_be_used_fails() -> None:
    request = asked(existing_load=calculated("optional-new"))
    assert outcome(request, "existing-load-method") == "undetermined"
    for ampacity, expected in ((99, "fail"), (100, "pass")):
        stated = at(request, "/service/conductors", {"ampacity_a": ampacity})
        assert outcome(stated, "existing-load-method") == expected
    assert outcome(asked(existing_load=calculated("optional-existing")), "existing-load-method") == "pass"
    three = {"rating_a": 100, "system": "wye-208y-120", "phases": 3}
    on_three = asked(service=three, existing_load=calculated("optional-existing"))
    assert outcome(on_three, "existing-load-method") == "fail"


@pytest.mark.source("Kirchhoff's current law: a single-phase charger draws its full current from two lines")
def test_on_three_phases_a_charger_counts_in_full_on_its_lines() -> None:
    service = {"rating_a": 100, "system": "wye-208y-120", "phases": 3}
    capacity = reviewed(asked(service=service))["capacity"]
    assert capacity["total_a"] == pytest.approx(10_000 / (3**0.5 * 208) + 1.25 * 24)


def test_what_a_load_calculation_assumes_of_the_dwelling_is_to_be_verified_here_too() -> None:
    dwelling = {"floor_area_ft2": 1500, "appliances": [{"rating_va": 4500}]}
    to_verify = {
        item["pointer"]: item["stated"]
        for item in reviewed(asked(existing_load=calculated("standard", dwelling)))["to_verify"]
    }
    assert to_verify["/existing_load/dwelling/small_appliance_circuits"] == "not stated, taken as 2"
    assert to_verify["/existing_load/dwelling/appliances/0/motor"].startswith("not stated")
    assert to_verify["/chargers/0/rated_current_a"] == "not stated, taken as 24 A"
    assert to_verify["/service/backfeed_breaker_a"] == "not stated, taken as none"
