"""Holds the load calculation against a second one that shares neither code nor tables with it: `load_oracle`.

The requests are drawn by a seeded generator, so that every loop is the same on every run; BRANCHWRIGHT_RANDOM_EXAMPLES
draws others as well. What both calculate must be the same: every group, the neutral, the amperes, whether a method
is permitted.
"""

import json
from collections import Counter
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.checks.effort import examples
from tests.checks.service_capacity import load_oracle
from tests.checks.service_capacity.drawn_dwellings import drawn_load_request
from tests.checks.service_capacity.load_facts import Home
from tests.checks.service_capacity.services import by_group, by_method, load_calculated

Json = dict[str, Any]

SOURCE = "NEC 220 (2017, 2020, 2023) and 120 (2026) by the oracle, typed from the project's reference"


def same_loads(request: Json) -> Counter[str]:
    """Assert that engine and oracle calculate the same; return what was seen."""
    said = json.dumps(request)
    home = Home(request)
    seen: Counter[str] = Counter()
    found = by_method(load_calculated(request))
    assert list(found) == request["methods"], said
    for method, engine in found.items():
        second = load_oracle.load(home, method)
        assert second is not None, said
        groups = by_group(engine)
        for group, demand in second.groups.items():
            assert groups.get(group, 0) == pytest.approx(float(demand), abs=1e-5), (method, group, said)
        assert set(groups) <= set(second.groups), (method, said)
        assert engine["permitted"] is second.permitted, (method, said)
        assert engine["total_va"] == pytest.approx(float(second.total_va), abs=1e-5), (method, said)
        assert engine["current_a"] == pytest.approx(float(second.current_a)), (method, said)
        assert engine["rounded_current_a"] == load_oracle.rounded(second.current_a), (method, said)
        least = load_oracle.least_service_a(home, second.current_a)
        assert engine["least_service_rating_a"] == least, (method, said)
        assert engine["neutral_va"] == pytest.approx(float(second.neutral_va), abs=1e-5), (method, said)
        assert engine["neutral_current_a"] == pytest.approx(float(second.neutral_current_a)), (method, said)
        seen[f"{method} {second.permitted}"] += 1
        seen.update(f"{method} {group}" for group, demand in second.groups.items() if demand)
    return seen


@pytest.mark.source(SOURCE)
def test_loads_are_those_of_the_oracle() -> None:
    seen: Counter[str] = Counter()
    for seed in range(600):
        seen += same_loads(drawn_load_request(seed))
    for group in (
        "lighting",
        "appliances",
        "cooking",
        "dryers",
        "heating-or-cooling",
        "largest-motor",
        "chargers",
    ):
        assert seen[f"standard {group}"] > 60, group
    for method in ("optional-new", "optional-existing"):
        assert min(seen[f"{method} True"], seen[f"{method} False"], seen[f"{method} pool"]) > 30, method


@pytest.mark.source(SOURCE)
@examples(100)
@given(st.integers(10_000, 10**12))
def test_loads_of_any_drawn_dwelling_are_those_of_the_oracle(seed: int) -> None:
    same_loads(drawn_load_request(seed))
