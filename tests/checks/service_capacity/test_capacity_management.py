"""Energy management: its setting, its monitors, and what happens when its link is lost."""

import pytest
from tests.checks.service_capacity.capacity_requests import (
    MANAGEMENT,
    YEAR,
    asked,
    at,
    calculated,
    finding,
    outcome,
    reviewed,
)

EDITIONS = ("nec-2017", "nec-2020", "nec-2023", "nec-2026")
MANAGED = asked(
    existing_load={**YEAR, "measured_demand_w": 12_000},
    chargers=[{"charging_current_a": 48}],
    management=MANAGEMENT,
)
"""15 000 VA, 62.5 A, are there; 48 A at 125 percent take the service to 122.5 A."""


@pytest.mark.parametrize("edition", EDITIONS)
def test_management_that_meets_every_condition_holds(edition: str) -> None:
    request = {**MANAGED, "edition": edition}
    assert reviewed(request)["verdict"] == "no-failure-found"
    assert reviewed(at(request, "/management", None))["verdict"] == "fail"


@pytest.mark.source(
    "The reference of the project, load management: 750.30(C) and its practice; 6 A of SAE J1772"
)
@pytest.mark.parametrize(
    ("fact", "value", "rule", "expected"),
    [
        ("control_setting_a", 81, "service-capacity", "fail"),
        ("control_setting_a", 101, "control-setting-range", "fail"),
        ("control_setting_a", 100, "control-setting-range", "pass"),
        ("fail_safe_current_a", None, "lost-link-current", "undetermined"),
        ("fail_safe_current_a", None, "lost-link-capacity", "undetermined"),
        ("fail_safe_current_a", None, "fail-safe-current", "undetermined"),
        ("fail_safe_current_a", 48, "lost-link-current", "fail"),
        ("fail_safe_current_a", 50, "lost-link-current", "fail"),
        ("fail_safe_current_a", 47, "lost-link-current", "pass"),
        # 62.5 A and 125 percent of 30 A are 100 A; 31 A are 1.25 A more.
        ("fail_safe_current_a", 30, "lost-link-capacity", "pass"),
        ("fail_safe_current_a", 31, "lost-link-capacity", "fail"),
        ("fail_safe_current_a", 5.9, "fail-safe-current", "fail"),
        ("fail_safe_current_a", 6, "fail-safe-current", "pass"),
        ("fail_safe_current_a", 0, "fail-safe-current", "pass"),
        ("monitored_legs", None, "monitored-legs", "undetermined"),
        ("monitored_legs", 1, "monitored-legs", "fail"),
        ("monitored_legs", 0, "monitored-legs", "fail"),
        ("monitored_legs", 2, "monitored-legs", "pass"),
        ("monitored_legs", 3, "monitored-legs", "fail"),
        ("listed", None, "management-listing", "undetermined"),
        ("listed", False, "management-listing", "fail"),
        ("access", None, "management-access", "undetermined"),
        ("access", "unrestricted", "management-access", "fail"),
        ("link_loss_tested", None, "link-loss-test", "undetermined"),
        ("link_loss_tested", False, "link-loss-test", "fail"),
    ],
)
def test_each_condition_is_a_rule_of_its_own(fact: str, value: object, rule: str, expected: str) -> None:
    answer = reviewed(at(MANAGED, f"/management/{fact}", value))
    found = finding(answer, rule)
    assert found["outcome"] == expected
    if expected != "pass":
        assert answer["verdict"] == expected


@pytest.mark.source("Article 750 of 2017 and 2020 has no words on listing and access, from memory")
@pytest.mark.parametrize("edition", ["nec-2017", "nec-2020"])
def test_earlier_editions_ask_for_neither_listing_nor_access(edition: str) -> None:
    request = {**MANAGED, "edition": edition}
    for rule, fact, value in (
        ("management-listing", "listed", False),
        ("management-access", "access", "unrestricted"),
    ):
        assert outcome(at(request, f"/management/{fact}", value), rule) == "not-applicable"


@pytest.mark.source("NEC 230.42 and 215.3 (2023) as an interpretation: at 125 percent or at its load")
def test_the_lost_link_counts_by_the_reading_of_chargers_on_the_service() -> None:
    request = at(MANAGED, "/management/fail_safe_current_a", 37)
    # 62.5 A and 37 A, without the quarter.
    readings = {"charger-on-service": "at-its-load"}
    assert outcome({**request, "readings": readings}, "lost-link-capacity") == "pass"
    assert outcome(request, "lost-link-capacity") == "fail"


def test_full_current_on_a_lost_link_is_no_failure_where_the_service_carries_it() -> None:
    request = at(at(MANAGED, "/chargers/0/charging_current_a", 30), "/management/fail_safe_current_a", 30)
    assert outcome(request, "lost-link-current") == "not-applicable"
    assert reviewed(request)["verdict"] == "no-failure-found"
    # Above what the charger is set to it is a contradiction in any case.
    assert outcome(at(request, "/management/fail_safe_current_a", 31), "lost-link-current") == "fail"


def test_every_managed_charger_draws_its_fail_safe_current() -> None:
    request = {**MANAGED, "chargers": [{"charging_current_a": 48}, {"charging_current_a": 48}]}
    # 62.5 A and twice 125 percent of 15 A are 100 A.
    assert outcome(at(request, "/management/fail_safe_current_a", 15), "lost-link-capacity") == "pass"
    assert outcome(at(request, "/management/fail_safe_current_a", 16), "lost-link-capacity") == "fail"


def test_a_charger_that_is_not_managed_counts_in_full_beside_the_lost_link() -> None:
    other = {"charging_current_a": 30, "managed": False}
    request = {**MANAGED, "chargers": [{"charging_current_a": 48}, other]}
    # 62.5 A and 125 percent of 30 A leave nothing.
    assert reviewed(request)["capacity"]["lost_link_total_a"] == pytest.approx(100)
    assert reviewed(request)["verdict"] == "no-failure-found"
    assert outcome(at(request, "/chargers/1/charging_current_a", 31), "lost-link-capacity") == "fail"


def test_management_of_no_charger_is_none() -> None:
    request = at(MANAGED, "/chargers/0/managed", False)
    answer = reviewed(request)
    assert answer["capacity"]["managed_total_a"] is None
    assert finding(answer, "service-capacity")["outcome"] == "fail"


@pytest.mark.source("The reference of the project: 2026 adds each controlled load's least operating current")
def test_the_edition_of_2026_counts_what_cannot_be_lowered() -> None:
    # 92 A and 125 percent of 6 A are 99.5 A; 93 A go beyond.
    for amperes, expected in ((92, "pass"), (93, "fail")):
        request = at(MANAGED, "/existing_load/measured_demand_w", amperes * 240 / 1.25)
        assert outcome({**request, "edition": "nec-2026"}, "managed-least-load") == expected
        assert outcome(request, "managed-least-load") == "not-applicable"


def test_a_calculated_load_is_what_the_fail_safe_current_is_added_to() -> None:
    # 77.5 A by example D1(a) of Annex D; 125 percent of 18 A are 22.5 A.
    request = {**MANAGED, "existing_load": calculated()}
    assert outcome(at(request, "/management/fail_safe_current_a", 18), "lost-link-capacity") == "pass"
    assert outcome(at(request, "/management/fail_safe_current_a", 19), "lost-link-capacity") == "fail"


def test_three_phases_have_three_ungrounded_conductors() -> None:
    service = {"rating_a": 100, "system": "wye-208y-120", "phases": 3}
    request = {**MANAGED, "service": service}
    assert outcome(request, "monitored-legs") == "fail"
    assert outcome(at(request, "/management/monitored_legs", 3), "monitored-legs") == "pass"


BACKFED = {
    **MANAGED,
    "service": {
        "rating_a": 100,
        "system": "split-phase-120-240",
        "busbar_rating_a": 125,
        "backfeed_breaker_a": 40,
        "backfeed_opposite_main": True,
    },
}


@pytest.mark.source(
    "The reference of the project: monitors on the right side of any backfeed. Kirchhoff's current law"
)
@pytest.mark.parametrize(
    ("position", "busbar", "expected"),
    [
        (None, 125, "undetermined"),
        ("load-side-of-generation", 125, "pass"),
        ("load-side-of-generation", None, "pass"),
        # On the supply side loads may draw 80 A from the service and 40 A from the source.
        ("supply-side-of-generation", 125, "pass"),
        ("supply-side-of-generation", 110, "fail"),
        ("supply-side-of-generation", None, "undetermined"),
    ],
)
def test_monitors_are_held_against_the_source_that_feeds_back(
    position: str | None, busbar: float | None, expected: str
) -> None:
    request = at(at(BACKFED, "/management/monitor_position", position), "/service/busbar_rating_a", busbar)
    assert outcome(request, "monitor-position") == expected


def test_without_a_source_the_position_does_not_matter() -> None:
    assert outcome(MANAGED, "monitor-position") == "not-applicable"
    generating = at(
        {**MANAGED, "readings": {"measured-with-generation": "measured-gross"}},
        "/existing_load/has_generation",
        True,
    )
    assert outcome(generating, "monitor-position") == "undetermined"


def shared(**facts: object) -> dict[str, object]:
    circuit = {
        "chargers": [0, 1],
        "breaker_a": 60,
        "control_setting_a": 48,
        "fail_safe_current_a": 0,
        "listed": True,
        **facts,
    }
    return asked(
        service={"rating_a": 150, "system": "split-phase-120-240"},
        chargers=[{"charging_current_a": 40}, {"charging_current_a": 40}],
        shared_circuits=[{name: value for name, value in circuit.items() if value is not None}],
    )


@pytest.mark.source(
    "NEC 625.40, 625.41 and 625.42 (2023) from the reference of the project; 6 A of SAE J1772"
)
@pytest.mark.parametrize(
    ("facts", "rule", "expected"),
    [
        ({}, "shared-circuit-setting", "pass"),
        ({"control_setting_a": 48.1}, "shared-circuit-setting", "fail"),
        ({"control_setting_a": None}, "shared-circuit-setting", "undetermined"),
        ({"listed": None}, "shared-circuit-management", "undetermined"),
        ({"listed": False}, "shared-circuit-management", "fail"),
        ({"fail_safe_current_a": None}, "shared-circuit-lost-link", "undetermined"),
        # Twice 24 A at 125 percent are 60 A.
        ({"fail_safe_current_a": 24}, "shared-circuit-lost-link", "pass"),
        ({"fail_safe_current_a": 25}, "shared-circuit-lost-link", "fail"),
        ({"chargers": [0, 2]}, "shared-circuit-members", "fail"),
        ({"chargers": [1, 1]}, "shared-circuit-members", "fail"),
        ({"control_setting_a": 12}, "shared-circuit-share", "pass"),
        ({"control_setting_a": 11}, "shared-circuit-share", "fail"),
    ],
)
def test_a_shared_circuit_needs_listed_management(facts: dict[str, object], rule: str, expected: str) -> None:
    assert outcome(shared(**facts), rule) == expected


def test_a_shared_circuit_that_holds_has_no_failure() -> None:
    assert reviewed(shared())["verdict"] == "no-failure-found"


def test_two_ordinary_loads_never_share_a_circuit_and_count_in_full() -> None:
    answer = reviewed(shared(listed=False))
    assert answer["verdict"] == "fail"
    assert answer["capacity"]["charger_load_va"] == 1.25 * 80 * 240
    assert reviewed(shared())["capacity"]["charger_load_va"] == 1.25 * 48 * 240


@pytest.mark.source(
    "NEC 625.40 (2017), from memory: every charger on a circuit of its own, without exception"
)
def test_the_edition_of_2017_knows_no_shared_circuit() -> None:
    assert outcome({**shared(), "edition": "nec-2017"}, "shared-circuit-management") == "fail"


def test_chargers_of_a_shared_circuit_count_alike_beside_a_calculated_load() -> None:
    request = {**shared(), "existing_load": calculated("optional-existing")}
    assert reviewed(request)["capacity"]["charger_load_va"] == 1.25 * 48 * 240
