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
from tests.checks.service_capacity.drawn_dwellings import drawn_capacity_request, without_facts
from tests.checks.service_capacity.services import capacity_reviewed

Json = dict[str, Any]

SOURCE = "NEC by the oracle, typed from the project's reference on loads, measured demand and load management"
FOUND = {True: ("pass", "not-applicable"), False: ("fail",), None: ("undetermined",)}


def same_review(request: Json) -> Counter[str]:
    """Assert that engine and oracle find the same; return what was seen."""
    said = json.dumps(request)
    second, answer = Review(request), capacity_reviewed(request)
    engine = {finding["rule"]: finding["outcome"] for finding in answer["findings"]}
    seen: Counter[str] = Counter()
    for rule, holds in second.outcomes().items():
        assert engine[rule] in FOUND[holds], (rule, holds, engine[rule], said)
        seen[f"{rule} {holds}"] += 1
    capacity = answer["capacity"]
    assert capacity["limit_a"] == float(second.limit_a()), said
    existing, total = second.existing_va(), second.total_a(second.chargers)
    if existing is None or total is None:
        assert capacity["total_a"] is None, said
        return seen
    assert capacity["existing_load_va"] == pytest.approx(float(existing[1]), abs=1e-5), said
    assert capacity["total_a"] == pytest.approx(float(total[1]), abs=1e-5), said
    assert capacity["least_total_a"] == pytest.approx(float(total[0]), abs=1e-5), said
    headroom = float(second.limit_a() - second.current_a(existing[1]))
    assert capacity["headroom_a"] == pytest.approx(headroom, abs=1e-5), said
    unmanaged = second.largest_unmanaged_a()
    found = capacity["largest_charging_current_a"]["unmanaged"]
    assert found == (None if unmanaged is None else pytest.approx(float(unmanaged))), (unmanaged, said)
    seen[f"largest {unmanaged is not None}"] += 1
    return seen


@pytest.mark.source(SOURCE)
def test_reviews_of_measured_loads_find_what_the_oracle_finds() -> None:
    seen: Counter[str] = Counter()
    for seed in range(100_000, 100_600):
        seen += same_review(drawn_capacity_request(seed, calculated=False))
    for rule in Review(drawn_capacity_request(100_000, calculated=False)).outcomes():
        assert min(seen[f"{rule} True"], seen[f"{rule} False"]) > 0, f"{rule} was never seen both ways"


@pytest.mark.source(SOURCE)
def test_reviews_of_calculated_loads_find_what_the_oracle_finds() -> None:
    for seed in range(200_000, 200_400):
        same_review(drawn_capacity_request(seed, calculated=True))


@pytest.mark.source(SOURCE)
def test_reviews_with_missing_facts_find_what_the_oracle_finds() -> None:
    seen: Counter[str] = Counter()
    for seed in range(300_000, 300_500):
        seen += same_review(without_facts(drawn_capacity_request(seed, calculated=False), seed))
    for rule in ("service-capacity", "lost-link-capacity", "monitored-legs", "measured-generation"):
        assert seen[f"{rule} None"] > 0, f"{rule} was never undetermined"


@pytest.mark.source(SOURCE)
@examples(60)
@given(st.integers(10**6, 10**12), st.booleans(), st.booleans())
def test_any_drawn_review_finds_what_the_oracle_finds(seed: int, calculated: bool, forgetful: bool) -> None:
    request = drawn_capacity_request(seed, calculated=calculated)
    same_review(without_facts(request, seed) if forgetful else request)
