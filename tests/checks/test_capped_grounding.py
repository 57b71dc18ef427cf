"""A grounding conductor that the ungrounded conductors cap says so, and cites the section that caps it."""

from typing import Any

import pytest

from branchwright.checks.circuits import CircuitReviewRequest, review


@pytest.mark.source(
    "NEC 250.122(A) and table 250.122: 8 AWG aluminum for 25 A; the circuit has 10 AWG aluminum"
)
def test_a_capped_grounding_conductor_is_not_said_to_be_asked_for_by_the_breaker() -> None:
    request: dict[str, Any] = {
        "edition": "nec-2023",
        "supply": {"system": "split-phase-120-240"},
        "charger": {
            "charging_current_a": 16,
            "connection": {"kind": "hardwired"},
            "terminals": {"temperature_rating_c": 75, "materials": ["aluminum"]},
        },
        "breaker": {"terminals": {"temperature_rating_c": 75, "materials": ["aluminum"]}},
        "conductors": {"material": "aluminum"},
        "run": [{"wiring_method": "emt", "length": {"value": 20, "unit": "ft"}, "location": "dry"}],
        "installed": {"breaker_rating_a": 25, "ungrounded_size": "10 AWG", "grounding_size": "10 AWG"},
    }
    answer = review(CircuitReviewRequest.model_validate(request))
    finding = next(item for item in answer.findings if item.rule == "grounding-conductor-size")
    assert finding.outcome == "pass"
    assert finding.citation is not None
    assert finding.citation.section == "250.122(A)"
    assert "need not be larger than the ungrounded conductors" in finding.message
