"""Capacity reviews: does the service carry the chargers, and if not, what would make them fit?"""

from typing import TYPE_CHECKING

from branchwright.checks.service_capacity.capacity_review.answers import CapacityReviewAnswer
from branchwright.checks.service_capacity.capacity_review.facts import CapacityReviewRequest
from branchwright.questions.when_asked import when_asked

if TYPE_CHECKING:
    from branchwright.checks.service_capacity.capacity_review.review import review_capacity
    from branchwright.checks.service_capacity.capacity_review.rules import RULES, CapacityRule

__all__ = [
    "RULES",
    "CapacityReviewAnswer",
    "CapacityReviewRequest",
    "CapacityRule",
    "review_capacity",
]

__getattr__ = when_asked(
    __name__,
    {
        "CapacityRule": "rules",
        "RULES": "rules",
        "review_capacity": "review",
    },
)
