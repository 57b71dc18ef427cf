"""Circuits: what circuit does this charger need, and does this one hold?"""

from branchwright.checks.circuits.answers import CircuitDesignAnswer, CircuitReviewAnswer
from branchwright.checks.circuits.design import design
from branchwright.checks.circuits.facts import CircuitDesignRequest, CircuitFacts, CircuitReviewRequest
from branchwright.checks.circuits.review import review
from branchwright.checks.circuits.rules import RULES, Rule

__all__ = [
    "RULES",
    "CircuitDesignAnswer",
    "CircuitDesignRequest",
    "CircuitFacts",
    "CircuitReviewAnswer",
    "CircuitReviewRequest",
    "Rule",
    "design",
    "review",
]
