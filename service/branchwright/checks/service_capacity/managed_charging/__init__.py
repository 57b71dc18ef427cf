"""Managed-charging studies: what does load-managed charging deliver, night by night?"""

from typing import TYPE_CHECKING

from branchwright.checks.service_capacity.managed_charging.answers import ManagedChargingAnswer
from branchwright.checks.service_capacity.managed_charging.facts import ManagedChargingRequest
from branchwright.questions.when_asked import when_asked

if TYPE_CHECKING:
    from branchwright.checks.service_capacity.managed_charging.rules import RULES, Rule
    from branchwright.checks.service_capacity.managed_charging.study import study_managed_charging

__all__ = [
    "RULES",
    "ManagedChargingAnswer",
    "ManagedChargingRequest",
    "Rule",
    "study_managed_charging",
]

__getattr__ = when_asked(
    __name__,
    {
        "RULES": "rules",
        "Rule": "rules",
        "study_managed_charging": "study",
    },
)
