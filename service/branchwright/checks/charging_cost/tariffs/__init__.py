"""Tariff reviews: is this tariff sound, and what does each hour cost?"""

from typing import TYPE_CHECKING

from branchwright.checks.charging_cost.tariffs.answers import TariffReviewAnswer
from branchwright.checks.charging_cost.tariffs.facts import Tariff, TariffReviewRequest
from branchwright.questions.when_asked import when_asked

if TYPE_CHECKING:
    from branchwright.checks.charging_cost.tariffs.review import review_tariff
    from branchwright.checks.charging_cost.tariffs.rules import RULES, Rule

__all__ = [
    "RULES",
    "Rule",
    "Tariff",
    "TariffReviewAnswer",
    "TariffReviewRequest",
    "review_tariff",
]

__getattr__ = when_asked(
    __name__,
    {
        "RULES": "rules",
        "Rule": "rules",
        "review_tariff": "review",
    },
)
