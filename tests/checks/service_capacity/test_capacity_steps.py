"""The steps of a capacity review, by hand; and what is assumed and to be verified."""

import pytest
from tests.checks.service_capacity.capacity_requests import (
    HOUSE,
    MANAGEMENT,
    MONTH,
    SPLIT_PHASE,
    YEAR,
    asked,
    at,
    calculated,
    finding,
    reviewed,
    step,
)

Json = dict[str, object]


def value(request: Json, step_id: str) -> object:
    """Return what a step comes to; every step is replayed by the request itself."""
    return step(reviewed(request), step_id)["value"]


def ids(request: Json) -> set[str]:
    return {item["id"] for item in reviewed(request)["steps"]}


def test_a_measured_load_is_worked_out_line_by_line() -> None:
    request = asked(existing_load={**MONTH, "seasonal_load_va": 4000})
    assert value(request, "demand-with-season") == 12_000
    assert value(request, "existing-load") == 15_000
    assert value(request, "with-chargers-charger-0-load") == 24 * 240
    assert value(request, "charging-on-service") == 1.25 * 24 * 240
    assert value(request, "total-load") == 22_200
    assert value(request, "total-current") == 92.5
    assert value(request, "rounded-total-current") == 93
    assert value(request, "existing-current") == 62.5
    assert value(request, "limit") == 100
    assert value(request, "headroom") == 37.5
    assert step(reviewed(request), "existing-load")["citation"] == {
        "publication": "nec-2023",
        "section": "220.87",
    }


def test_a_reading_without_the_addition_has_no_step_for_it() -> None:
    request = asked(readings={"charger-on-service": "at-its-load"})
    assert "charging-on-service" not in ids(request)
    assert value(request, "total-load") == 10_000 + 24 * 240


def test_the_load_at_its_worst_is_worked_out_where_a_fact_is_missing() -> None:
    assert not {name for name in ids(asked()) if name.startswith("at-most")}
    hourly = asked(existing_load={**YEAR, "averaging_minutes": 60, "measured_demand_w": 1000})
    assert value(hourly, "at-most-demand") == 8000
    assert value(hourly, "at-most-existing-load") == 10_000
    assert value(hourly, "at-most-total-load") == 17_200
    bounded = at(hourly, "/existing_load/fifteen_minute_bound_w", 4000)
    assert "at-most-demand" not in ids(bounded)
    assert value(bounded, "at-most-existing-load") == 5000
    motor = {**HOUSE, "appliances": [{"rating_va": 4500, "fastened_in_place": True}]}
    # A quarter of the only motor that there may be: NEC 430.24.
    at_most = value(asked(existing_load=calculated("standard", motor)), "at-most-total-load")
    reported = value(asked(existing_load=calculated("standard", motor)), "total-load")
    assert (at_most, reported) == (18_600 + 4500 + 1125 + 9000, 18_600 + 4500 + 9000)


MANAGED = asked(
    chargers=[{"charging_current_a": 48}] * 2, management={**MANAGEMENT, "fail_safe_current_a": 10}
)


def test_the_control_setting_and_the_lost_link_are_worked_out() -> None:
    assert value(MANAGED, "control-setting-load") == 100
    # Two chargers of 10 A at 240 V, at 125 percent beside 10 000 VA.
    assert value(MANAGED, "lost-link-charging") == 4800
    assert value(MANAGED, "lost-link-charging-on-service") == 6000
    assert value(MANAGED, "lost-link-total-current") == pytest.approx(16_000 / 240)
    beside = at(MANAGED, "/chargers/1", {"charging_current_a": 20, "managed": False})
    # One charger of 10 A, and one of 20 A that nobody holds.
    assert value(beside, "lost-link-charging") == 2400 + 4800
    unknown = at(MANAGED, "/management/fail_safe_current_a", None)
    assert not {name for name in ids(unknown) if name.startswith("lost-link")}
    nobody = at(at(beside, "/chargers/0/managed", False), "/management/fail_safe_current_a", 10)
    assert "control-setting-load" not in ids(nobody)


def test_a_shared_circuit_is_worked_out() -> None:
    shared = asked(
        service={"rating_a": 200, "system": "split-phase-120-240"},
        chargers=[{"charging_current_a": 40}, {"charging_current_a": 32}],
        shared_circuits=[
            {
                "chargers": [0, 1],
                "breaker_a": 60,
                "control_setting_a": 48,
                "fail_safe_current_a": 0,
                "listed": True,
            }
        ],
    )
    assert value(shared, "with-chargers-charger-0-and-others-current") == 48
    assert value(shared, "shared-circuit-0-least-breaker") == 60
    assert value(shared, "shared-circuit-0-share") == 24
    unlisted = at(shared, "/shared_circuits/0/listed", False)
    assert value(unlisted, "with-chargers-charger-0-and-others-current") == 72
    unset = at(shared, "/shared_circuits/0/control_setting_a", None)
    assert "shared-circuit-0-share" not in ids(unset)


BACKFED = asked(
    service={
        **SPLIT_PHASE,
        "main_breaker_a": 100,
        "busbar_rating_a": 125,
        "backfeed_breaker_a": 40,
        "backfeed_opposite_main": True,
    }
)


@pytest.mark.source(
    "NEC 705.12(B) (2023), from memory: 120 percent at the opposite end, 125 percent of the output"
)
def test_both_supplies_of_a_busbar_are_worked_out() -> None:
    assert value(BACKFED, "busbar-supplies") == 140
    assert value(BACKFED, "busbar-limit") == 150
    by_output = at(BACKFED, "/service/backfeed_output_a", 20)
    assert value(by_output, "busbar-supplies") == 125
    assert value(at(BACKFED, "/service/backfeed_opposite_main", False), "busbar-limit") == 125
    without_main = at(BACKFED, "/service/main_breaker_a", None)
    assert value(at(without_main, "/service/rating_a", 90), "busbar-supplies") == 130
    for name in ("busbar_rating_a", "backfeed_breaker_a"):
        assert "busbar-supplies" not in ids(at(BACKFED, f"/service/{name}", None))


CONDUCTORS = asked(
    occupancy="one-family",
    service={
        **SPLIT_PHASE,
        "conductors": {"material": "copper", "size": "4 AWG", "carry_entire_load": True},
    },
)


@pytest.mark.source(
    "NEC Table 310.16: 4 AWG copper 70, 85 and 95 A; 310.15(B)(1): 0.88 and 0.91 at 40 degC; 310.12"
)
def test_the_ampacity_of_the_service_conductors_is_worked_out() -> None:
    assert value(CONDUCTORS, "least-service-ampacity") == 83
    # Unmarked terminals of a service up to 100 A: 60 degC at the worst.
    assert value(CONDUCTORS, "service-conductor-ampacity") == 70
    marked = at(CONDUCTORS, "/service/conductors/terminal_temperature_rating_c", 75)
    assert value(marked, "service-conductor-correction") == 1
    assert value(marked, "service-conductor-ampacity") == 85
    hot = at(marked, "/service/conductors/ambient_c", 40)
    assert value(hot, "service-conductor-correction") == 0.88
    assert value(hot, "service-conductor-ampacity") == pytest.approx(85 * 0.88)
    printed = at(hot, "/service/conductors/conductor_temperature_rating_c", 90)
    assert value(printed, "service-conductor-correction") == 0.91
    assert value(printed, "service-conductor-corrected-ampacity") == pytest.approx(95 * 0.91)
    for ampacity in (100, 400):
        stated = at(CONDUCTORS, "/service/conductors", {"ampacity_a": ampacity})
        assert "service-conductor-ampacity" not in ids(stated)
    for rating, there in ((99, False), (100, True), (400, True), (401, False)):
        request = at(CONDUCTORS, "/service/rating_a", rating)
        assert ("least-service-ampacity" in ids(request)) is there


def test_the_worst_of_several_chargers_is_the_one_that_is_named() -> None:
    several = asked(
        service={"rating_a": 400, "system": "split-phase-120-240"},
        chargers=[
            {"charging_current_a": 32, "rated_current_a": 48, "circuit_breaker_a": 60},
            {"charging_current_a": 5, "rated_current_a": 4, "circuit_breaker_a": 60},
            {"charging_current_a": 40, "rated_current_a": 40, "circuit_breaker_a": 45},
        ],
    )
    answer = reviewed(several)
    for rule, pointer in (
        ("charger-setting-within-rating", "/chargers/1/charging_current_a"),
        ("least-charging-current", "/chargers/1/charging_current_a"),
        ("charger-circuit-breaker", "/chargers/2/circuit_breaker_a"),
    ):
        assert (finding(answer, rule)["outcome"], finding(answer, rule)["pointer"]) == ("fail", pointer)


def test_findings_are_in_the_units_of_what_they_compare() -> None:
    units = {
        item["rule"]: item["required"]["unit"]
        for item in reviewed(
            {
                **MANAGED,
                "service": {**SPLIT_PHASE, "conductors": {"ampacity_a": 150}},
                "existing_load": {
                    **YEAR,
                    "averaging_minutes": 60,
                    "fifteen_minute_bound_w": 1,
                },
            }
        )["findings"]
        if item["required"] is not None
    }
    assert units["measured-duration"] == "d"
    assert units["measured-interval"] == "W"
    assert units["measured-coverage"] == "%"
    assert units["monitored-legs"] == "count"
    for rule in ("service-capacity", "service-conductor-load", "lost-link-capacity", "lost-link-current"):
        assert units[rule] == "A"
    assert finding(reviewed(asked()), "measured-interval")["required"]["unit"] == "min"


def test_a_load_that_cannot_be_computed_is_named_where_it_stands() -> None:
    dwelling = {name: given for name, given in HOUSE.items() if name != "floor_area_ft2"}
    request = {
        **MANAGED,
        "edition": "nec-2026",
        "service": {**SPLIT_PHASE, "conductors": {"ampacity_a": 150}},
        "existing_load": calculated("standard", dwelling),
    }
    answer = reviewed(request)
    assert finding(answer, "managed-least-load")["pointer"] == "/existing_load"
    assert finding(answer, "lost-link-capacity")["outcome"] == "undetermined"
    # The control setting stands for the load, so what holds it needs no more.
    assert finding(answer, "service-capacity")["outcome"] == "pass"
    alone = reviewed(at(request, "/management", None))
    for rule in ("service-capacity", "service-conductor-load"):
        found = finding(alone, rule)
        assert (found["outcome"], found["pointer"]) == ("undetermined", "/existing_load")


def test_what_is_merely_declared_is_to_be_verified() -> None:
    def to_verify(request: Json) -> dict[str, str]:
        return {item["pointer"]: item["stated"] for item in reviewed(request)["to_verify"]}

    year = to_verify(asked(existing_load={**YEAR, "has_generation": True, "occupied": True}))
    assert year["/existing_load/has_generation"] == "generation"
    assert "/existing_load/occupied" not in year
    assert to_verify(asked(existing_load=MONTH))["/existing_load/occupied"] == "occupied"
    assert "/existing_load/has_generation" not in to_verify(asked())
    unknown = {name: given for name, given in YEAR.items() if name != "has_generation"}
    assert to_verify(asked(existing_load=unknown))["/existing_load/has_generation"] == "not stated"
    assert to_verify(CONDUCTORS)["/service/conductors/conductor_temperature_rating_c"] == (
        "not stated, taken as 75 degC"
    )
    assert to_verify(BACKFED)["/service/backfeed_output_a"] == "not stated, its breaker's rating counts"
    managed = to_verify(MANAGED)
    assert managed["/management/fail_safe_current_a"] == "10"
    assert managed["/management/listed"] == "yes"
    assert managed["/management/access"] == "restricted"
    lowered = asked(chargers=[{"charging_current_a": 24, "rated_current_a": 48}])
    assert to_verify(lowered)["/chargers/0/connection"] == "not stated, taken as hardwired"
    assert to_verify(lowered)["/chargers/0/setting_access"].startswith("not stated, taken as unrestricted")
    assert "/chargers/0/connection" not in to_verify(asked())
    hardwired = at(lowered, "/chargers/0/connection", "hardwired")
    assert "/chargers/0/connection" not in to_verify(hardwired)


def test_what_is_not_stated_of_the_service_is_not_examined() -> None:
    bare, full = reviewed(asked())["not_examined"], reviewed(BACKFED)["not_examined"]
    assert "the busbar: its rating is not stated" in bare
    assert "the main breaker: its rating is not stated" in bare
    assert "the service conductors: they are not stated" in bare
    assert not [item for item in full if "busbar" in item or "main breaker" in item]
    there = reviewed(asked(jurisdiction="a county"))
    assert "amendments in force in a county" in there["not_examined"]


UNITS = {"_a": "A", "_v": "V", "_va": "VA", "_w": "W", "_percent": "%", "_minutes": "min", "_c": "degC"}
"""Endings of the names of inputs, by the convention of `DEVELOPERS.md`."""


@pytest.mark.parametrize(
    "request_",
    [
        BACKFED,
        at(BACKFED, "/service/main_breaker_a", None),
        at(BACKFED, "/service/backfeed_output_a", 20),
        CONDUCTORS,
        MANAGED,
        asked(existing_load={**YEAR, "averaging_minutes": 60}),
    ],
)
def test_inputs_have_the_unit_of_their_name(request_: Json) -> None:
    for item in reviewed(request_)["steps"]:
        for name, given in item["inputs"].items():
            ending = "_" + name.rsplit("_", 1)[-1]
            if ending in UNITS:
                assert given["unit"] == UNITS[ending], (item["id"], name)
