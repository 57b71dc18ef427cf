"""Capacity reviews: does the service carry the chargers, and if not, what would make them fit?"""

from branchwright.checks.service_capacity.capacity_review.answers import CapacityReviewAnswer
from branchwright.checks.service_capacity.capacity_review.facts import CapacityReviewRequest
from branchwright.checks.service_capacity.capacity_review.review import review_capacity
from branchwright.checks.service_capacity.capacity_review.rules import RULES, CapacityRule

__all__ = ["RULES", "CapacityReviewAnswer", "CapacityReviewRequest", "CapacityRule", "review_capacity"]
