"""What a rule of a comparison is: one question, asked of the facts before anything is priced."""

from collections.abc import Callable

from branchwright.checks.charging_cost.charging_comparison.given import Given
from branchwright.findings import Finding, Provided, Required
from branchwright.findings.finding import Force
from branchwright.questions.rules import RuleOf

Judge = Callable[[Given], Finding | list[Finding]]


class Rule(RuleOf):
    """A rule of a comparison. None of them cites the code: cost is no question of it.

    `stops` says with which outcomes nothing is priced; `needs_year` whether it can only be asked of a year that can be
    laid out, for tariffs with one known time zone.
    """

    consults: frozenset[str] = frozenset()

    def __init__(
        self, judge: Judge, name: str, subject: str, force: Force, stops: frozenset[str], needs_year: bool
    ) -> None:
        """Keep the parts; the function's docstring is the rule's prose."""
        super().__init__(name, subject, "", force, judge.__doc__ or "")
        self.function = judge
        self.stops = stops
        self.needs_year = needs_year

    def __call__(self, given: Given) -> list[Finding]:
        """Judge the facts; undetermined where there is no year to judge them in."""
        if self.needs_year and given.zone is None:
            return [self.undetermined("/tariffs", "Needs tariffs with one known time zone.")]
        found = self.function(given)
        return found if isinstance(found, list) else [found]

    def equal(self, provided: str, required: str, message: str, pointer: str) -> Finding:
        """Return that one thing named in words is not the one that it must be."""
        return self.finding(
            "fail",
            message,
            citation=None,
            pointer=pointer,
            required=Required(required, "text", "equal"),
            provided=Provided(provided, "text"),
        )

    def none_of(self, provided: str, permitted: list[str], message: str, pointer: str) -> Finding:
        """Return that a name is not among those that there are."""
        return self.one_of(provided, permitted, message, None, pointer, holds=False)


def rule(
    name: str,
    *,
    subject: str,
    force: Force = "requirement",
    stops: tuple[str, ...] = (),
    needs_year: bool = False,
) -> Callable[[Judge], Rule]:
    """Make a rule of a function."""

    def wrap(judge: Judge) -> Rule:
        return Rule(judge, name, subject, force, frozenset(stops), needs_year)

    return wrap
