"""Ways to make the chargers fit, cheapest first, each judged again with the same rules.

The order is common practice, no source: a setting costs nothing, equipment less than a panel, a panel less than a
service. No way removes protection, and none enlarges a breaker on conductors that are there.
"""

from collections.abc import Callable, Iterator, Sequence
from functools import partial

from branchwright.checks.service_capacity.capacity_review.answers import WayToFit
from branchwright.checks.service_capacity.capacity_review.case import Case
from branchwright.checks.service_capacity.capacity_review.changes import Change
from branchwright.checks.service_capacity.capacity_review.facts import EnergyManagement, SharedCircuit
from branchwright.checks.service_capacity.capacity_review.judging import (
    LOAD_RULES,
    carries,
)
from branchwright.checks.service_capacity.capacity_review.managing import (
    greatest_control_setting_a,
    managed,
)
from branchwright.checks.service_capacity.capacity_review.settings import (
    common_settings_a,
    largest_of,
    replaced_by,
    set_to,
)
from branchwright.checks.service_capacity.capacity_review.tried import HOLDS, Tried, remedy_of
from branchwright.checks.service_capacity.capacity_review.upgrades import panel_upgrades, service_upgrades
from branchwright.findings import Finding
from branchwright.questions.fields import GREATEST_CURRENT_A, LEAST_SIGNALLED_A

MENDED = frozenset(rule.name for rule in LOAD_RULES) | {
    "main-breaker-within-service",
    "busbar-protection",
    "busbar-with-backfeed",
    "control-setting-range",
    "management-listing",
    "management-access",
    "monitored-legs",
    "monitor-position",
    "fail-safe-current",
    "lost-link-current",
    "link-loss-test",
    "shared-circuit-management",
    "shared-circuit-setting",
    "shared-circuit-lost-link",
}
"""Rules whose failure a way can mend."""


def ways_to_fit(case: Case, findings: Sequence[Finding]) -> list[WayToFit]:
    """Return the ways that help, cheapest first, and give each failure that one of them ends its remedy."""
    open_load = any(
        finding.outcome == "undetermined"
        for finding in findings
        if finding.rule in {rule.name for rule in LOAD_RULES}
    )
    mendable = [
        finding
        for finding in findings
        if finding.rule in MENDED and finding.outcome == "fail" and finding.force == "requirement"
    ]
    if not open_load and not mendable:
        return []
    found = [tried for propose in LADDER for tried in _first(propose(case), findings)]
    for finding in mendable:
        for tried in found:
            ends = next(item for item in tried.findings if item.rule == finding.rule).outcome in HOLDS
            if ends and finding.remedy is None:
                finding.remedy = remedy_of(case, tried, findings)
    return [tried.answer(findings) for tried in found]


def _first(tries: Iterator[Tried], findings: Sequence[Finding]) -> list[Tried]:
    """Return the first that helps, if any."""
    found = next((tried for tried in tries if tried.helps(findings)), None)
    return [] if found is None else [found]


def _lower_setting(case: Case) -> Iterator[Tried]:
    """A lower setting behind restricted access; where the edition counts no setting, a smaller charger."""
    settings = [
        setting
        for setting in common_settings_a(case)
        if setting < max(charger.facts.charging_current_a for charger in case.chargers)
        or setting < max(charger.current_a.greatest for charger in case.chargers)
    ]
    restrict = partial(set_to, case, restrict=True)
    words = "Set every charger to {setting:g} A, restrict access to the setting, and put it on the label."
    yield from _lowered(case, settings, restrict, words)
    smaller = partial(replaced_by, case)
    yield from _lowered(case, settings, smaller, "Choose chargers rated for no more than {setting:g} A.")


def _lowered(
    case: Case, settings: Sequence[float], changes_at: Callable[[float], list[Change]], words: str
) -> Iterator[Tried]:
    setting = _largest_carried(case, settings, changes_at)
    if setting is not None:
        changes = [*changes_at(setting), *_lower_fail_safe(case, setting)]
        yield Tried(case, "lower-setting", changes, setting, words.format(setting=setting), None)


def _largest_carried(
    case: Case, settings: Sequence[float], changes_at: Callable[[float], list[Change]]
) -> float | None:
    """Return the largest setting whose changes make the service carry the chargers without management."""
    alone = Change("/management", None)
    return largest_of(settings, lambda setting: carries(case, [alone, *changes_at(setting)]))


def _lower_fail_safe(case: Case, setting_a: float) -> list[Change]:
    """Return the change that keeps a fail-safe current within a lower setting."""
    management = case.management
    if management is None or (management.fail_safe_current_a or 0.0) <= setting_a:
        return []
    return [Change("/management/fail_safe_current_a", setting_a)]


def _energy_management(case: Case) -> Iterator[Tried]:
    """Listed equipment that holds the service below a setting; what is stated of one is put right."""
    changes = managed(case)
    if changes is None:
        return
    setting = greatest_control_setting_a(case)
    greatest = max(charger.facts.charging_current_a for charger in case.chargers)
    management = next(change.value for change in changes if isinstance(change.value, EnergyManagement))
    fail_safe = management.fail_safe_current_a
    without = "stops" if not fail_safe else f"falls to {fail_safe:g} A"
    house = ""
    existing = case.with_changes(changes).with_managed_at_a(0.0)
    if existing is not None:
        left = max(setting - existing.greatest, 0.0)
        house = f" While the house draws its full {existing.greatest:.1f} A, {left:.1f} A are left to charge with."
    why = (
        f"Let listed energy management hold the service at {setting:g} A: a monitor on each of the "
        f"{case.ungrounded_count} ungrounded conductors, access to its settings restricted, and a lost link tested, at "
        f"which every charger {without}.{house}"
    )
    yield Tried(case, "energy-management", changes, min(greatest, setting), why, None)


def _shared_circuit(case: Case) -> Iterator[Tried]:
    """One circuit for all of several chargers, under listed management."""
    count = len(case.chargers)
    if count < 2 or case.request.shared_circuits:
        return
    full = min(sum(charger.facts.charging_current_a for charger in case.chargers), GREATEST_CURRENT_A)

    def circuit_at(setting: float) -> SharedCircuit:
        breaker = case.edition.standard_rating_at_least(case.least_circuit_a(setting))
        return SharedCircuit(
            chargers=tuple(range(count)),
            breaker_a=breaker.number if breaker else case.least_circuit_a(setting),
            control_setting_a=setting,
            fail_safe_current_a=0.0,
            listed=True,
        )

    def changes_at(setting: float) -> list[Change]:
        return [Change("/shared_circuits", (circuit_at(setting),))]

    ladder = [float(setting) for setting in range(LEAST_SIGNALLED_A * count, int(full) + 1)]
    setting = largest_of(ladder, lambda tried: carries(case, changes_at(tried)))
    if setting is None:
        return
    share = float(int(setting / count))
    breaker_a = circuit_at(setting).breaker_a
    why = (
        f"Put the {count} chargers on one circuit of {breaker_a:g} A under listed management that lets them draw "
        f"{setting:g} A together: {share:g} A each when all of them charge. Two ordinary loads never share one."
    )
    yield Tried(case, "shared-circuit", changes_at(setting), share, why, None)


def _panel_upgrade(case: Case) -> Iterator[Tried]:
    current = max(charger.facts.charging_current_a for charger in case.chargers)
    for rating, changes in panel_upgrades(case):
        why = f"Replace the panel by one with a busbar of {rating:g} A"
        if any(change.pointer == "/service/main_breaker_a" for change in changes):
            why = (
                f"Replace panel and main breaker by ones of {rating:g} A, which the service conductors carry"
            )
        yield Tried(case, "panel-upgrade", changes, current, why + ".", rating)


def _service_upgrade(case: Case) -> Iterator[Tried]:
    current = max(charger.facts.charging_current_a for charger in case.chargers)
    for rating, changes in service_upgrades(case):
        why = (
            f"Replace the service by one of {rating:g} A, with conductors, main breaker and panel for it, in agreement "
            "with the utility."
        )
        yield Tried(case, "service-upgrade", changes, current, why, rating)


LADDER: tuple[Callable[[Case], Iterator[Tried]], ...] = (
    _lower_setting,
    _energy_management,
    _shared_circuit,
    _panel_upgrade,
    _service_upgrade,
)
"""What is tried, cheapest first: common practice, no source."""
