"""What a rule is: one question, asked of a service with its chargers, answered by one finding."""

from collections.abc import Callable, Sequence

from branchwright.checks.service_capacity.capacity_review.case import Case
from branchwright.checks.service_capacity.capacity_review.spans import Span
from branchwright.codebook import ProvisionLacking
from branchwright.findings import Citation, Finding, Provided, Required
from branchwright.findings.finding import Force
from branchwright.questions.rules import RuleOf


class CapacityRule(RuleOf):
    """A rule of capacity reviews and the function that judges a case.

    `is_about_load` says whether less charging, management or a larger rating can mend its failure, `consults` the
    interpretations that its own function may ask for; those of the loads are consulted with them.
    """

    def __init__(
        self,
        function: Callable[[Case], Finding],
        name: str,
        subject: str,
        concept: str,
        force: Force,
        *,
        is_about_load: bool,
        consults: Sequence[str],
    ) -> None:
        """Keep the parts; the function's docstring is the rule's prose."""
        super().__init__(name, subject, concept, force, function.__doc__ or "")
        self.function = function
        self.is_about_load = is_about_load
        self.consults = frozenset(consults)

    def __call__(self, case: Case) -> Finding:
        """Judge a case; a provision that the edition lacks makes the finding undetermined."""
        try:
            return self.function(case)
        except ProvisionLacking as lacking:
            return self.undetermined(None, str(lacking))

    def carries(
        self, rating_a: float, load_a: Span, message: str, citation: Citation, pointer: str, waits_for: str
    ) -> Finding:
        """Return whether a rating reaches a load: undetermined where only its best reaches it."""
        finding = self.at_least(rating_a, load_a.greatest, "A", message, citation, pointer)
        if load_a.least <= rating_a < load_a.greatest:
            finding.outcome = "undetermined"
            finding.message += waits_for
        return finding

    def states(
        self, fact: bool | None, yes: str, no: str, asked: str, citation: Citation | None, pointer: str
    ) -> Finding:
        """Return whether a yes-or-no fact is stated to be so; undetermined where nothing is stated."""
        if fact is None:
            return self.undetermined(pointer, f"It is not stated whether {asked}.", citation)
        return self.finding(
            "pass" if fact else "fail",
            f"It is stated that {yes if fact else no}.",
            citation=citation,
            pointer=pointer,
            required=Required("yes", "text", "equal"),
            provided=Provided("yes" if fact else "no", "text"),
        )


def rule(
    name: str,
    *,
    subject: str,
    concept: str,
    force: Force = "requirement",
    is_about_load: bool = False,
    consults: Sequence[str] = (),
) -> Callable[[Callable[[Case], Finding]], CapacityRule]:
    """Make a rule of a function."""

    def wrap(function: Callable[[Case], Finding]) -> CapacityRule:
        return CapacityRule(
            function, name, subject, concept, force, is_about_load=is_about_load, consults=consults
        )

    return wrap
