"""Studies managed charging: simulates every interval, judges what was stated, and seeks the smallest setting."""

from branchwright.checks.service_capacity.managed_charging.answers import ManagedChargingAnswer
from branchwright.checks.service_capacity.managed_charging.facts import ManagedChargingRequest


def study_managed_charging(request: ManagedChargingRequest) -> ManagedChargingAnswer:
    """Return what load-managed charging delivers, night by night, and what was found in the facts."""
    raise NotImplementedError
