"""Energy management that would hold: the setting that the service takes, and what else belongs to it."""

from branchwright.calculations.service_capacity import greatest_continuous_a
from branchwright.checks.service_capacity.capacity_review.case import Case
from branchwright.checks.service_capacity.capacity_review.changes import Change
from branchwright.checks.service_capacity.capacity_review.facts import EnergyManagement, MonitorPosition
from branchwright.checks.service_capacity.capacity_review.judging import carries
from branchwright.checks.service_capacity.capacity_review.rules.backfeed import has_backfeed
from branchwright.checks.service_capacity.capacity_review.rules.conductors import is_by_percent
from branchwright.checks.service_capacity.capacity_review.settings import common_settings_a
from branchwright.questions.fields import LEAST_SIGNALLED_A


def greatest_control_setting_a(case: Case) -> float:
    """Return the greatest control setting in A that ratings and conductors take: the stated one, or a whole ampere."""
    factor = case.edition.provision("energy-management-load").number("factor")
    limit = case.limit_a
    if case.ampacity_a is not None and is_by_percent(case) is not True:
        # The percentage for dwellings may not stand for the conductors, which then carry what is held.
        limit = min(limit, case.ampacity_a.least)
    greatest = greatest_continuous_a.value(limit, factor)
    stated = case.management.control_setting_a if case.management else None
    if stated is not None and LEAST_SIGNALLED_A <= stated <= greatest:
        return stated
    return float(int(greatest)) or greatest


def managed(case: Case) -> list[Change] | None:
    """Return the changes that put every charger under management that holds; None where none does.

    What is stated of the management stays where it holds. A fail-safe current that does not, becomes none at all.
    """
    setting = greatest_control_setting_a(case)
    if setting < LEAST_SIGNALLED_A:
        return None
    stated = case.management
    chargers = [
        Change(charger.pointer + "/managed", True)
        for charger in case.chargers
        if charger.facts.managed is False and not case.managed
    ]
    full = min(charger.facts.charging_current_a for charger in case.managed or case.chargers)
    current = stated.fail_safe_current_a if stated else None
    fail_safes = [0.0]
    if current is not None and LEAST_SIGNALLED_A <= current < full:
        fail_safes = [current, 0.0]
    for fail_safe in fail_safes:
        management = EnergyManagement(
            control_setting_a=setting,
            fail_safe_current_a=fail_safe,
            monitored_legs=case.ungrounded_count,
            monitor_position=_position(case),
            listed=True,
            link_loss_tested=True,
            access="restricted",
        )
        changes = [Change("/management", management), *chargers]
        if carries(case, changes):
            return changes
    return None


def _position(case: Case) -> MonitorPosition | None:
    if has_backfeed(case.service) or case.has_generation:
        return "load-side-of-generation"
    return case.management.monitor_position if case.management else None


def largest_managed_a(case: Case) -> float | None:
    """Return the largest common setting of the chargers under management; None where none holds."""
    if managed(case) is None:
        return None
    limit = greatest_control_setting_a(case)
    return max((setting for setting in common_settings_a(case) if setting <= limit), default=None)
