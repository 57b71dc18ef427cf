"""What a rule of interval data is: one question about the readings, answered by one finding."""

from collections.abc import Callable, Sequence

from branchwright.checks.service_capacity.interval_data.case import Case
from branchwright.checks.service_capacity.interval_data.faults import Kind, pointer_in
from branchwright.codebook import Book, ProvisionLacking
from branchwright.findings import Finding, Provided
from branchwright.findings.finding import Force
from branchwright.questions.rules import RuleOf

CONCEPT = "measured-demand"
"""What all of them serve: the provision that lets measured demand stand for the existing load."""


class DataRule(RuleOf):
    """A rule of interval data.

    `needs_series` and `needs_edition` say without what it is undetermined, `consults` the interpretations that its
    function may ask for.
    """

    def __init__(
        self,
        function: Callable[[Case], Finding],
        name: str,
        subject: str,
        force: Force,
        consults: Sequence[str],
        *,
        needs_series: bool,
        needs_edition: bool,
    ) -> None:
        """Keep the parts; the function's docstring is the rule's prose."""
        super().__init__(name, subject, CONCEPT, force, function.__doc__ or "")
        self.function = function
        self.needs_series = needs_series
        self.needs_edition = needs_edition
        self.consults = frozenset(consults)

    def __call__(self, case: Case) -> Finding:
        """Judge the readings."""
        if self.needs_edition and case.book is None:
            return self.without_edition(case)
        if self.needs_series and case.grid is None:
            return self.undetermined(None, "Needs the series, which could not be made.")
        try:
            return self.function(case)
        except ProvisionLacking as lacking:
            return self.undetermined(None, str(lacking))

    def without_edition(self, case: Case) -> Finding:
        """Return that no edition is stated that the rule could be held against."""
        return self.undetermined(
            case.stated.pointer("edition"),
            "No edition is stated, so there is no provision to hold the readings against.",
        )

    def faulted(self, case: Case, kind: Kind) -> Finding | None:
        """Return the failure that the faults of a kind are; None without any."""
        if not case.faults.of(kind):
            return None
        first = case.faults.first(kind)
        return self.finding(
            "fail",
            case.faults.told(kind),
            citation=None,
            pointer=pointer_in(first.at),
            provided=None if first.given is None else Provided(first.given, "text"),
        )


def book_of(case: Case) -> Book:
    """Return the book of a case whose rule needs an edition; TypeError without one."""
    if case.book is None:
        raise TypeError("The rule did not say that it needs an edition.")
    return case.book


def data_rule(
    name: str,
    *,
    subject: str,
    force: Force = "requirement",
    consults: Sequence[str] = (),
    needs_series: bool = True,
    needs_edition: bool = False,
) -> Callable[[Callable[[Case], Finding]], DataRule]:
    """Make a rule of a function."""

    def wrap(function: Callable[[Case], Finding]) -> DataRule:
        return DataRule(
            function, name, subject, force, consults, needs_series=needs_series, needs_edition=needs_edition
        )

    return wrap
