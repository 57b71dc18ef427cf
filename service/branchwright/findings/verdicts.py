"""The verdict: never more than that no failure was found in what was stated."""

from collections.abc import Iterable
from typing import Literal, TypeAlias

from branchwright.findings.finding import Finding

Verdict: TypeAlias = Literal["no-failure-found", "fail", "undetermined"]


def verdict_of(findings: Iterable[Finding]) -> Verdict:
    """Return fail if a requirement fails, else undetermined if one is, else no-failure-found."""
    verdict: Verdict = "no-failure-found"
    for finding in findings:
        if finding.force == "requirement":
            if finding.outcome == "fail":
                return "fail"
            if finding.outcome == "undetermined":
                verdict = "undetermined"
    return verdict
