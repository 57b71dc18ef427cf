"""Runs the rules over a case, and over a request with changes."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, TypeAlias

from branchwright.checks.service_capacity.capacity_review.case import Case
from branchwright.checks.service_capacity.capacity_review.facts import CapacityReviewRequest
from branchwright.checks.service_capacity.capacity_review.rules import RULES, CapacityRule
from branchwright.codebook import Book
from branchwright.findings import Finding, RemedyChange
from branchwright.questions.changes import changed
from branchwright.questions.fields import Facts

Given: TypeAlias = float | str | bool | Facts | tuple[Facts, ...] | None

LOAD_RULES: tuple[CapacityRule, ...] = tuple(rule for rule in RULES if rule.is_about_load)
"""Rules that hold a load against a rating."""


@dataclass(slots=True, frozen=True)
class Change:
    """A field of the request and what to put there."""

    pointer: str
    value: Given

    def as_json(self) -> RemedyChange:
        """Return the change as an answer gives it."""
        return RemedyChange(self.pointer, _as_json(self.value))


def _as_json(value: Given) -> Any:
    if isinstance(value, Facts):
        return value.model_dump(mode="json", exclude_none=True)
    return [_as_json(item) for item in value] if isinstance(value, tuple) else value


def with_changes(request: CapacityReviewRequest, changes: Sequence[Change]) -> CapacityReviewRequest:
    """Return the request with changes made."""
    for change in changes:
        request = changed(request, change.pointer, change.value)
    return request


def judge(case: Case, rules: Sequence[CapacityRule] = RULES) -> list[Finding]:
    """Return one finding of each rule."""
    return [rule(case) for rule in rules]


def carries(request: CapacityReviewRequest, book: Book, changes: Sequence[Change]) -> bool:
    """Return whether every rating carries the load with changes made, whatever the unknown facts are."""
    # The readings that this consults belong to the question asked here, not to the review's verdict.
    case = Case(with_changes(request, changes), book.afresh())
    return all(finding.outcome in ("pass", "not-applicable") for finding in judge(case, LOAD_RULES))
