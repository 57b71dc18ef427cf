"""Margins are finite numbers or nothing: JSON has no infinity."""

import pytest

from branchwright.checks.circuits import CircuitDesignRequest, design
from branchwright.findings.finding import margin_at_least, margin_at_most


@pytest.mark.parametrize("limit", [0.0, 5e-324])
def test_a_margin_that_is_no_finite_number_is_left_out(limit: float) -> None:
    assert margin_at_least(60.0, limit) is None
    assert margin_at_most(60.0, limit) is None


def test_the_smallest_current_that_the_schema_takes_has_no_infinite_margin() -> None:
    request = {
        "edition": "nec-2023",
        "supply": {"system": "split-phase-120-240"},
        "charger": {"charging_current_a": 5e-324, "connection": {"kind": "hardwired"}},
        "conductors": {"material": "copper"},
        "run": [{"wiring_method": "emt", "length": {"value": 30, "unit": "ft"}, "location": "dry"}],
    }
    margins = [item.margin_percent for item in design(CircuitDesignRequest.model_validate(request)).findings]
    assert float("inf") not in margins
