"""Whether a tariff is sound: every rule asked of it, for a review and for whatever else prices with it."""

from collections.abc import Iterable
from datetime import date

from branchwright.checks.charging_cost.tariffs.facts import Tariff
from branchwright.checks.charging_cost.tariffs.given import Given
from branchwright.checks.charging_cost.tariffs.rules import RULES
from branchwright.findings import Finding


def judged_tariff(tariff: Tariff, first: date, prefix: str = "/tariff") -> list[Finding]:
    """Return what every rule finds in a tariff that prices twelve months.

    Args:
        tariff: the tariff.
        first: the first of the first month.
        prefix: JSON pointer of the tariff in the request; the pointers of the findings begin with it.
    """
    return judged(Given(tariff, first, prefix))


def judged(given: Given) -> list[Finding]:
    """Return what every rule finds, in their order."""
    return [finding for rule in RULES for finding in rule(given)]


def can_be_priced(findings: Iterable[Finding]) -> bool:
    """Return whether no requirement fails: what a faulty tariff would cost is nothing to go by."""
    return not any(finding.outcome == "fail" and finding.force == "requirement" for finding in findings)
