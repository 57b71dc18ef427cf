"""Runs the rules over a case, and over a case with changes."""

from collections.abc import Sequence

from branchwright.checks.service_capacity.capacity_review.case import Case
from branchwright.checks.service_capacity.capacity_review.changes import Change
from branchwright.checks.service_capacity.capacity_review.rules import RULES, CapacityRule
from branchwright.findings import Finding

LOAD_RULES: tuple[CapacityRule, ...] = tuple(rule for rule in RULES if rule.is_about_load)
"""Rules that hold a load against a rating."""


def judge(case: Case, rules: Sequence[CapacityRule] = RULES) -> list[Finding]:
    """Return one finding of each rule."""
    return [rule(case) for rule in rules]


def carries(case: Case, changes: Sequence[Change]) -> bool:
    """Return whether every rating carries the load with changes made, whatever the unknown facts are."""
    tried = case.with_changes(changes)
    return all(rule(tried).outcome in ("pass", "not-applicable") for rule in LOAD_RULES)
