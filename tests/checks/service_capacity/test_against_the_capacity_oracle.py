"""Holds the capacity review against a second judgement that shares neither code nor tables with it: `capacity_oracle`.

As with the loads, requests are drawn by a seed. What each rule finds must be the same, and so must the figures.
"""

import json
from collections import Counter
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.checks.effort import examples
from tests.checks.service_capacity.capacity_oracle import Review
from tests.checks.service_capacity.capacity_requests import reviewed
from tests.checks.service_capacity.drawn_dwellings import drawn_capacity_request, without_facts

Json = dict[str, Any]

SOURCE = "NEC by the oracle, typed from what pages print of loads, measured demand and load management"
FOUND = {True: ("pass", "not-applicable"), False: ("fail",), None: ("undetermined",)}


def same_review(request: Json) -> Counter[str]:
    """Assert that engine and oracle find the same; return what was seen."""
    said = json.dumps(request)
    second, answer = Review(request), reviewed(request)
    engine = {finding["rule"]: finding["outcome"] for finding in answer["findings"]}
    seen: Counter[str] = Counter()
    for rule, holds in second.outcomes().items():
        assert engine[rule] in FOUND[holds], (rule, holds, engine[rule], said)
        seen[f"{rule} {holds}"] += 1
    assert answer["verdict"] == second.verdict(), said
    for item in answer["interpretations"]:
        for other in item["other_readings"]:
            verdict = second.read_so(item["name"], other["reading"]).verdict()
            assert other["verdict"] == verdict, (item["name"], other, verdict, said)
            seen[f"{item['name']} changes {verdict != answer['verdict']}"] += 1
    capacity = answer["capacity"]
    assert capacity["limit_a"] == float(second.limit_a()), said
    existing, total = second.existing_va(), second.total_a(second.all())
    assert existing is not None, said
    assert total is not None, said
    assert capacity["existing_load_va"] == pytest.approx(float(existing[0]), abs=1e-5), said
    assert capacity["greatest_total_a"] == pytest.approx(float(total[1]), abs=1e-5), said
    for name, place in (("headroom_a", 0), ("least_headroom_a", 1)):
        headroom = float(second.limit_a() - second.current_a(existing[place]))
        assert capacity[name] == pytest.approx(headroom, abs=1e-5), (name, said)
    unmanaged = second.largest_unmanaged_a()
    found = capacity["largest_charging_current_a"]["unmanaged"]
    assert found == (None if unmanaged is None else pytest.approx(float(unmanaged))), (unmanaged, said)
    seen[f"largest {unmanaged is not None}"] += 1
    return seen


@pytest.mark.source(SOURCE)
def test_reviews_of_measured_loads_find_what_the_oracle_finds() -> None:
    seen: Counter[str] = Counter()
    for seed in range(100_000, 100_200):
        seen += same_review(drawn_capacity_request(seed, calculated=False))
    for name in ("service-capacity", "main-breaker-capacity", "busbar-with-backfeed", "lost-link-capacity"):
        assert min(seen[f"{name} True"], seen[f"{name} False"]) > 4, f"{name} was not seen both ways"
    assert min(seen["largest True"], seen["largest False"]) > 12
    for name in (
        "charger-on-service",
        "measured-with-generation",
        "measured-demand-interval",
        "setting-as-rating",
    ):
        assert min(seen[f"{name} changes True"], seen[f"{name} changes False"]) > 0, name


@pytest.mark.source(SOURCE)
def test_reviews_of_calculated_loads_find_what_the_oracle_finds() -> None:
    seen: Counter[str] = Counter()
    for seed in range(200_000, 200_040):
        seen += same_review(drawn_capacity_request(seed, calculated=True))
    for holds in (True, False, None):
        assert seen[f"existing-load-method {holds}"] > 0 or holds is None


@pytest.mark.source(SOURCE)
def test_reviews_with_missing_facts_find_what_the_oracle_finds() -> None:
    seen: Counter[str] = Counter()
    for seed in range(300_000, 300_090):
        request = drawn_capacity_request(seed, calculated=seed % 3 == 0)
        seen += same_review(without_facts(request, seed))
    for name in ("service-capacity", "lost-link-capacity", "monitored-legs", "measured-generation"):
        assert seen[f"{name} None"] > 0, f"{name} was never undetermined"


@pytest.mark.source(SOURCE)
@examples(25)
@given(st.integers(10**6, 10**12), st.booleans(), st.booleans())
def test_any_drawn_review_finds_what_the_oracle_finds(seed: int, calculated: bool, forgetful: bool) -> None:
    request = drawn_capacity_request(seed, calculated=calculated)
    same_review(without_facts(request, seed) if forgetful else request)


# ------------------------------------------------------------- where the engine and the oracle differed


HOUSE: Json = {
    "kind": "measured",
    "measured_demand_w": 9600,
    "averaging_minutes": 15,
    "days": 365,
    "coverage_percent": 100,
    "has_generation": False,
    "occupied": True,
    "seasonal_load_va": 0,
}
"""50 A at 240 V: 1.25 x 9,600 W = 12,000 VA."""


def asked(chargers: list[Json], **others: Any) -> Json:
    """A review of a 200 A service of split phase."""
    return {
        "edition": "nec-2023",
        "service": {"rating_a": 200, "system": "split-phase-120-240"},
        "existing_load": HOUSE,
        "chargers": chargers,
        **others,
    }


def outcome_of(request: Json, rule: str) -> str:
    """What a rule of the engine finds."""
    return next(found["outcome"] for found in reviewed(request)["findings"] if found["rule"] == rule)


@pytest.mark.source(
    "NEC 625.41: 1.25 x 80 A = 100 A on a breaker of 60 A, whatever is unknown of another charger"
)
def test_a_circuit_that_fails_in_any_case_decides_before_one_that_may() -> None:
    certain = {"charging_current_a": 80, "rated_current_a": 80, "circuit_breaker_a": 60}
    # At its worst this one lacks more: 100 A on 50 A. At its best 20 A are asked for.
    open_ = {"charging_current_a": 16, "rated_current_a": 80, "circuit_breaker_a": 50}
    for chargers in ([certain, open_], [open_, certain]):
        request = asked(chargers)
        assert outcome_of(request, "charger-circuit-breaker") == "fail"
        same_review(request)
    assert outcome_of(asked([open_]), "charger-circuit-breaker") == "undetermined"


@pytest.mark.source(
    "NEC 625.42 and 750.30(C): 1.25 x 90 A on 100 A, and 1.25 x 2 x 48 A on 60 A, fail in any case"
)
@pytest.mark.parametrize(
    ("rule", "fact", "too_much", "breaker_a"),
    [
        ("shared-circuit-setting", "control_setting_a", 90, 100),
        ("shared-circuit-lost-link", "fail_safe_current_a", 48, 60),
    ],
)
def test_a_shared_circuit_that_fails_decides_before_one_that_is_not_stated(
    rule: str, fact: str, too_much: int, breaker_a: int
) -> None:
    usual = {"breaker_a": breaker_a, "control_setting_a": 40, "fail_safe_current_a": 0, "listed": True}
    failing = {**usual, "chargers": [0, 1], fact: too_much}
    unknown = {name: value for name, value in usual.items() if name != fact}
    circuits = [{**unknown, "chargers": [2, 3]}, failing]
    request = asked([{"charging_current_a": 48}] * 4, shared_circuits=circuits)
    assert outcome_of(request, rule) == "fail"
    request = asked([{"charging_current_a": 48}] * 4, shared_circuits=circuits[:1])
    request["chargers"] = [dict(charger) for charger in request["chargers"]]
    assert outcome_of(request, rule) == "undetermined"


@pytest.mark.source(
    "NEC 220.83: 4,500 + 4,500 VA are 8,400 VA, 35 A; two chargers of 80 A count 2 x 100 A unless listed management "
    "holds them to 32 A, which counts 40 A"
)
@pytest.mark.parametrize(("listed", "outcome"), [(True, "pass"), (False, "fail"), (None, "undetermined")])
def test_a_shared_circuit_of_unknown_listing_is_not_taken_at_its_best(
    listed: bool | None, outcome: str
) -> None:
    dwelling = {"floor_area_ft2": 1500, "small_appliance_circuits": 2, "laundry_circuits": 1}
    circuit: Json = {"chargers": [0, 1], "breaker_a": 40, "control_setting_a": 32, "fail_safe_current_a": 0}
    if listed is not None:
        circuit["listed"] = listed
    request = asked(
        [{"charging_current_a": 80}, {"charging_current_a": 80}],
        existing_load={"kind": "calculated", "method": "optional-existing", "dwelling": dwelling},
        shared_circuits=[circuit],
    )
    answer = reviewed(request)
    assert outcome_of(request, "service-capacity") == outcome
    assert answer["capacity"]["greatest_total_a"] == pytest.approx(75 if listed else 235)


@pytest.mark.source(
    "A charger between two lines of three loads each of them with its whole current: circuit theory"
)
def test_chargers_are_not_balanced_over_three_phases() -> None:
    # The oracle shared 48 A by the square root of three at first, and took 28 A for them.
    request = asked([{"charging_current_a": 48}], readings={"charger-on-service": "at-its-load"})
    request["service"] = {"rating_a": 200, "system": "wye-208y-120", "phases": 3}
    existing_a = 12_000 / (3**0.5 * 208)
    assert reviewed(request)["capacity"]["total_a"] == pytest.approx(existing_a + 48)


@pytest.mark.source("A bound on a demand is not below it: the larger of the two is the careful one")
def test_a_bound_below_the_demand_lowers_nothing() -> None:
    # The oracle took the bound as stated at first: 1.25 x 11,520 W instead of 1.25 x 12,800 W.
    record = {**HOUSE, "averaging_minutes": 60, "measured_demand_w": 12_800, "fifteen_minute_bound_w": 11_520}
    answer = reviewed(asked([{"charging_current_a": 16}], existing_load=record))
    assert answer["capacity"]["least_headroom_a"] == pytest.approx(200 - 16_000 / 240)
    assert answer["verdict"] == "fail"
