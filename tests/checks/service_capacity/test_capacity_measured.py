"""Every condition of the measured method, by itself."""

import json

import pytest
from tests.checks.service_capacity.capacity_requests import (
    MANAGEMENT,
    MONTH,
    YEAR,
    asked,
    at,
    finding,
    outcome,
    reviewed,
)

from branchwright.checks.service_capacity.interval_data import IntervalDataRequest, read_json

RULE = "NEC 220.87 (2023) and its exception, from the reference of the project"


def test_a_record_that_meets_every_condition_holds() -> None:
    for record in (YEAR, MONTH):
        assert reviewed(asked(existing_load=record))["verdict"] == "no-failure-found"


@pytest.mark.source(RULE)
@pytest.mark.parametrize("edition", ["nec-2017", "nec-2020", "nec-2023", "nec-2026"])
def test_measured_demand_counts_at_125_percent(edition: str) -> None:
    capacity = reviewed(asked(edition=edition))["capacity"]
    assert capacity["existing_load_va"] == 10_000
    # 24 A at 240 V, at 125 percent as the reading in force has it.
    assert capacity["charger_load_va"] == 7200
    assert capacity["total_a"] == pytest.approx(17_200 / 240)
    assert capacity["headroom_a"] == pytest.approx(100 - 10_000 / 240)


@pytest.mark.source(RULE)
def test_the_load_of_another_season_is_part_of_the_demand() -> None:
    capacity = reviewed(asked(existing_load={**MONTH, "seasonal_load_va": 4000}))["capacity"]
    assert capacity["existing_load_va"] == 1.25 * 12_000


@pytest.mark.source(RULE)
@pytest.mark.parametrize(
    ("record", "fact", "value", "rule", "expected"),
    [
        (YEAR, "days", 365, "measured-duration", "pass"),
        (MONTH, "days", 30, "measured-duration", "pass"),
        (MONTH, "days", 29.99, "measured-duration", "fail"),
        (MONTH, "averaging_minutes", 15, "measured-interval", "pass"),
        (MONTH, "averaging_minutes", 15.1, "measured-interval", "fail"),
        (YEAR, "averaging_minutes", 1, "measured-interval", "pass"),
        (MONTH, "occupied", True, "measured-occupied", "pass"),
        (MONTH, "occupied", False, "measured-occupied", "fail"),
        (MONTH, "occupied", None, "measured-occupied", "undetermined"),
        (YEAR, "occupied", False, "measured-occupied", "not-applicable"),
        (MONTH, "seasonal_load_va", None, "measured-season", "undetermined"),
        (MONTH, "seasonal_load_va", 5000, "measured-season", "pass"),
        (YEAR, "seasonal_load_va", None, "measured-season", "not-applicable"),
        (MONTH, "has_generation", True, "measured-generation", "fail"),
        (MONTH, "has_generation", None, "measured-generation", "undetermined"),
        (YEAR, "has_generation", True, "measured-generation", "fail"),
        (YEAR, "has_generation", None, "measured-generation", "undetermined"),
    ],
)
def test_each_condition_is_a_rule_of_its_own(
    record: dict[str, object], fact: str, value: object, rule: str, expected: str
) -> None:
    request = asked(existing_load={**record})
    assert outcome(at(request, f"/existing_load/{fact}", value), rule) == expected


# 98 percent: common practice, no source. What is missing may be the peak, so nothing is said to fail.
@pytest.mark.parametrize(
    ("coverage", "expected"),
    [(100, "pass"), (98, "pass"), (97.99, "undetermined"), (0, "undetermined"), (None, "undetermined")],
)
def test_readings_that_are_missing_leave_the_demand_open(coverage: float | None, expected: str) -> None:
    request = at(asked(), "/existing_load/coverage_percent", coverage)
    assert outcome(request, "measured-coverage") == expected


GENERATION = asked(existing_load={**YEAR, "has_generation": True})


@pytest.mark.source(
    "The reference of the project: generation bars the 30 days; for the year it is read two ways"
)
def test_generation_is_an_interpretation_for_a_year_and_barred_for_a_month() -> None:
    answer = reviewed(GENERATION)
    assert answer["verdict"] == "fail"
    (consulted,) = [item for item in answer["interpretations"] if item["name"] == "measured-with-generation"]
    assert consulted["reading"] == "refused"
    assert consulted["other_readings"] == [{"reading": "measured-gross", "verdict": "no-failure-found"}]
    assert consulted["changes_verdict"] is True
    readings = {"measured-with-generation": "measured-gross"}
    assert reviewed({**GENERATION, "readings": readings})["verdict"] == "no-failure-found"
    month = asked(existing_load={**MONTH, "has_generation": True}, readings=readings)
    assert outcome(month, "measured-generation") == "fail"


def hourly(demand_w: float, **others: object) -> dict[str, object]:
    return asked(existing_load={**YEAR, "averaging_minutes": 60, "measured_demand_w": demand_w, **others})


# A quarter of an hour lies in at most two hours: its mean is at most 2 h / 0.25 h = 8 times the hourly demand.
# A service of 100 A at 240 V less 24 A at 125 percent leaves 16 800 VA, which is 13 440 W at 125 percent;
# an eighth of it 1680 W. Fractions below half an ampere are dropped: 100.49 A still fit.
@pytest.mark.parametrize(
    ("demand", "expected"),
    [
        (1_680, "pass"),
        (1_700, "undetermined"),
        (13_440, "undetermined"),
        (13_600, "fail"),
    ],
)
def test_hourly_demand_passes_by_its_bound_fails_as_measured_and_is_open_between(
    demand: float, expected: str
) -> None:
    request = hourly(demand)
    assert outcome(request, "service-capacity") == expected
    # Where both agree the record is fine enough, whatever they agree on.
    assert outcome(request, "measured-interval") == ("undetermined" if expected == "undetermined" else "pass")
    as_metered = {**request, "readings": {"measured-demand-interval": "as-metered"}}
    assert outcome(as_metered, "service-capacity") == ("fail" if expected == "fail" else "pass")


def test_a_bound_from_the_readings_counts_in_place_of_the_general_one() -> None:
    assert outcome(hourly(8000), "service-capacity") == "undetermined"
    assert outcome(hourly(8000, fifteen_minute_bound_w=13_000), "service-capacity") == "pass"
    capacity = reviewed(hourly(8000, fifteen_minute_bound_w=13_000))["capacity"]
    assert capacity["total_a"] == pytest.approx((1.25 * 8000 + 7200) / 240)
    assert capacity["greatest_total_a"] == pytest.approx((1.25 * 13_000 + 7200) / 240)
    assert capacity["least_headroom_a"] == pytest.approx(100 - 1.25 * 13_000 / 240)


def test_a_bound_below_the_demand_is_a_contradiction() -> None:
    found = finding(reviewed(hourly(8000, fifteen_minute_bound_w=7999)), "measured-interval")
    assert found["outcome"] == "fail"
    assert found["pointer"] == "/existing_load/fifteen_minute_bound_w"
    assert (found["provided"]["value"], found["required"]["value"]) == (7999, 8000)


def test_half_hours_are_bounded_by_four_times_their_demand() -> None:
    # 0.5 h / 0.25 h, twice.
    answer = reviewed(hourly(3000, averaging_minutes=30))
    assert answer["capacity"]["greatest_total_a"] == pytest.approx((1.25 * 4 * 3000 + 7200) / 240)


def test_under_management_the_record_matters_for_the_lost_link_alone() -> None:
    request = {
        **hourly(2900),
        "chargers": [{"charging_current_a": 48}],
        "management": MANAGEMENT,
    }
    # By its bound 29 000 VA, 120.8 A, are too much even with every charger off; as measured they are not.
    assert outcome(request, "service-capacity") == "pass"
    assert outcome(request, "lost-link-capacity") == "undetermined"
    assert outcome(request, "measured-interval") == "undetermined"


def test_a_record_without_its_length_breaks_the_schema() -> None:
    with pytest.raises(ValueError, match="days"):
        reviewed(asked(existing_load={name: value for name, value in YEAR.items() if name != "days"}))


@pytest.mark.parametrize(
    ("fact", "value"), [("coverage_percent", 100.1), ("measured_demand_w", -1), ("averaging_minutes", 0)]
)
def test_what_no_record_can_be_breaks_the_schema(fact: str, value: float) -> None:
    with pytest.raises(ValueError, match=fact):
        reviewed(at(asked(), f"/existing_load/{fact}", value))


def test_what_interval_data_answers_with_is_taken_as_it_is() -> None:
    request = {
        "edition": "nec-2023",
        "system": "split-phase-120-240",
        "has_generation": False,
        "series": {
            "kind": "regular",
            "start": "2025-01-01T00:00:00-07:00",
            "interval_minutes": 60,
            # A year of 500 Wh an hour, and once 2000 Wh after 1000 Wh.
            "energy_wh": [*[500.0] * 4000, 1000.0, 2000.0, *[500.0] * 4758],
        },
    }
    read = read_json(IntervalDataRequest.model_validate_json(json.dumps(request)))
    existing = json.loads(read.model_dump_json(by_alias=True))["existing_load"]
    answer = reviewed(asked(existing_load=existing))
    assert finding(answer, "measured-duration")["outcome"] == "pass"
    assert finding(answer, "measured-coverage")["provided"]["value"] == 100
    assert answer["capacity"]["existing_load_va"] == 1.25 * 2000
    # 15 minutes that touch both hours take no more than 3000 Wh: 12 000 W.
    assert answer["capacity"]["greatest_total_a"] == pytest.approx((1.25 * 12_000 + 7200) / 240)
    assert answer["verdict"] == "no-failure-found"
