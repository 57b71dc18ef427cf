"""A way with its changes, judged again, and what it is as an answer and as a remedy."""

from collections.abc import Sequence

from branchwright.checks.service_capacity.capacity_review.answers import Way, WayToFit
from branchwright.checks.service_capacity.capacity_review.case import Case
from branchwright.checks.service_capacity.capacity_review.changes import Change
from branchwright.checks.service_capacity.capacity_review.judging import (
    LOAD_RULES,
    judge,
)
from branchwright.findings import Finding, Remedy, Verdict, verdict_of
from branchwright.findings.citations import Value
from branchwright.questions.changes import stated

HOLDS = ("pass", "not-applicable")


class Tried:
    """A way with its changes, judged again."""

    def __init__(
        self, case: Case, way: Way, changes: Sequence[Change], current_a: float, why: str, to_a: float | None
    ) -> None:
        """Judge the request with the changes made."""
        self.way: Way = way
        self.changes = list(changes)
        self.current_a = current_a
        self.why = why
        self.to_a = to_a
        self.findings = judge(case.with_changes(changes))

    def helps(self, before: Sequence[Finding]) -> bool:
        """Return whether every rating carries the load, nothing fails that did not, and less is open or failing."""
        load_rules = {rule.name for rule in LOAD_RULES}
        failed = {finding.rule for finding in before if finding.outcome == "fail"}
        if any(
            (finding.rule in load_rules and finding.outcome not in HOLDS)
            or (finding.outcome == "fail" and finding.rule not in failed)
            for finding in self.findings
            if finding.force == "requirement"
        ):
            return False
        judged = {finding.rule for finding in self.findings}
        return _open(self.findings) < _open([finding for finding in before if finding.rule in judged])

    def verdict(self, before: Sequence[Finding]) -> Verdict:
        """Return the verdict with the changes made; what other rules found before stands as it was."""
        judged = {finding.rule for finding in self.findings}
        return verdict_of([*self.findings, *(finding for finding in before if finding.rule not in judged)])

    def answer(self, before: Sequence[Finding]) -> WayToFit:
        """Return the way as the answer gives it."""
        return WayToFit(
            self.way,
            self.current_a,
            self.why,
            self.to_a,
            [change.as_json() for change in self.changes],
            self.verdict(before),
        )


def _open(findings: Sequence[Finding]) -> int:
    return sum(finding.force == "requirement" and finding.outcome not in HOLDS for finding in findings)


def remedy_of(case: Case, tried: Tried, findings: Sequence[Finding]) -> Remedy:
    """Return a way as the remedy of a failing finding."""
    first = tried.changes[0]
    return Remedy(
        first.pointer,
        _as_value(stated(case.request, first.pointer)),
        _as_value(first.value) or tried.way,
        [change.as_json() for change in tried.changes],
        tried.why,
        tried.verdict(findings),
    )


def _as_value(given: object) -> Value | None:
    """Return a name or number as an answer gives it; None for what is neither."""
    return given if isinstance(given, (float, str)) else None
