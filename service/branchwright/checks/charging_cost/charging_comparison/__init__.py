"""Charging cost comparisons: what does charging cost a year, and does a separate meter pay?"""

from typing import TYPE_CHECKING

from branchwright.checks.charging_cost.charging_comparison.answers import ChargingComparisonAnswer
from branchwright.checks.charging_cost.charging_comparison.facts import ChargingComparisonRequest
from branchwright.questions.when_asked import when_asked

if TYPE_CHECKING:
    from branchwright.checks.charging_cost.charging_comparison.comparison import compare_charging
    from branchwright.checks.charging_cost.charging_comparison.rules import RULES, Rule

__all__ = [
    "RULES",
    "ChargingComparisonAnswer",
    "ChargingComparisonRequest",
    "Rule",
    "compare_charging",
]

__getattr__ = when_asked(
    __name__,
    {
        "RULES": "rules",
        "Rule": "rules",
        "compare_charging": "comparison",
    },
)
