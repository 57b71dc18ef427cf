"""Settings of the chargers: which they have in common, and the largest at which the service carries them."""

from collections.abc import Callable, Sequence

from branchwright.calculations.service_capacity import greatest_continuous_a
from branchwright.checks.service_capacity.capacity_review.case import Case
from branchwright.checks.service_capacity.capacity_review.changes import Change
from branchwright.checks.service_capacity.capacity_review.charging import ChargerLoad, counting
from branchwright.checks.service_capacity.capacity_review.judging import carries
from branchwright.checks.service_capacity.capacity_review.rules.chargers import settings_a
from branchwright.questions.fields import LEAST_SIGNALLED_A


def common_settings_a(case: Case) -> list[float]:
    """Return what all chargers can be set to alike, least first, within what their own circuits take.

    A setting below what the pilot signal can offer is none.
    """
    factor = case.edition.provision("continuous-load").number("factor")
    found = set(settings_a(case.chargers[0])).intersection(*(settings_a(one) for one in case.chargers[1:]))
    limits = [
        greatest_continuous_a.value(charger.facts.circuit_breaker_a, factor)
        for charger in case.chargers
        if charger.facts.circuit_breaker_a is not None
    ]
    return sorted(
        setting
        for setting in found
        if setting >= LEAST_SIGNALLED_A and all(setting <= limit for limit in limits)
    )


def largest_of(ladder: Sequence[float], holds: Callable[[float], bool]) -> float | None:
    """Return the largest value of a rising ladder that holds, if any; every value below one that holds does too."""
    low, high = 0, len(ladder)
    while low < high:
        middle = (low + high) // 2
        if holds(ladder[middle]):
            low = middle + 1
        else:
            high = middle
    return ladder[low - 1] if low else None


def largest_unmanaged_a(case: Case) -> float | None:
    """Return the largest common setting at which the service carries the chargers without management."""
    alone = Change("/management", None)
    return largest_of(
        common_settings_a(case),
        lambda setting: carries(case, [alone, *set_to(case, setting, restrict=False)]),
    )


def set_to(case: Case, setting_a: float, *, restrict: bool) -> list[Change]:
    """Return the changes that set every charger to a current.

    The nameplate stays what it is: where none is stated, the old setting is it. Access to the setting is restricted
    where it is not stated, and with `restrict` also where it is stated not to be.
    """
    found: list[Change] = []
    for charger in case.chargers:
        facts = charger.facts
        if setting_a != facts.charging_current_a:
            found.append(Change(charger.pointer + "/charging_current_a", setting_a))
        if setting_a < charger.rated_a:
            if facts.rated_current_a is None:
                found.append(Change(charger.pointer + "/rated_current_a", charger.rated_a))
            if counting(facts, case.book.afresh()) is not True and (restrict or facts.setting_access is None):
                found.append(Change(charger.pointer + "/setting_access", "restricted"))
    return found


def replaced_by(case: Case, rated_a: float) -> list[Change]:
    """Return the changes that put a charger of a smaller rating in place of every one that exceeds it."""
    found: list[Change] = []
    for charger in case.chargers:
        if _exceeds(charger, rated_a):
            found.append(Change(charger.pointer + "/charging_current_a", rated_a))
            found.append(Change(charger.pointer + "/rated_current_a", rated_a))
    return found


def _exceeds(charger: ChargerLoad, rated_a: float) -> bool:
    return charger.facts.charging_current_a > rated_a or charger.rated_a > rated_a
