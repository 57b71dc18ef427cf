"""What a rule of a tariff is: one question, asked of the tariff and of the twelve months that it prices."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace

from branchwright.checks.charging_cost.tariffs.given import Given
from branchwright.findings import Finding, Provided, Required
from branchwright.findings.citations import Value
from branchwright.findings.finding import Comparison, Force
from branchwright.questions.near_names import nearest_name
from branchwright.questions.rules import RuleOf

MOST_FAULTS = 10
"""So many places one rule names; a message says how many more there are."""

Judge = Callable[[Given], list[Finding]]


@dataclass(slots=True, frozen=True)
class Fault:
    """One place that is wrong: where within the tariff, why, what is asked for and what is there."""

    place: str
    message: str
    required: Value | list[str]
    provided: Value
    unit: str = "text"
    comparison: Comparison = "equal"


class Rule(RuleOf):
    """A rule of a tariff. None rests on a section of the code, and none cites one."""

    consults: frozenset[str] = frozenset()

    def __init__(self, judge: Judge, name: str, subject: str, force: Force) -> None:
        """Keep the parts; the function's docstring is the rule's prose."""
        super().__init__(name, subject, "", force, judge.__doc__ or "")
        self.function = judge

    def __call__(self, given: Given) -> list[Finding]:
        """Judge a tariff: one finding, or one for each place that is wrong, up to ten."""
        return self.function(given)

    def judged(
        self, given: Given, faults: Iterable[Fault], passed: str, place: str = "", more: int = 0
    ) -> list[Finding]:
        """Return a failing finding for each fault; where there is none, that the place is as it must be.

        `more` are faults beside those that are told.
        """
        found = list(faults)
        if not found:
            return [self.passed(passed, given.at(place))]
        return [self._failing(given, fault) for fault in self._named(found, more)]

    def no_question(self, message: str) -> list[Finding]:
        """Return that the tariff has nothing that the rule looks at."""
        return [self.not_applicable(message)]

    def open_question(self, given: Given, place: str, message: str) -> list[Finding]:
        """Return that a fact is missing."""
        return [self.undetermined(given.at(place), message)]

    def _failing(self, given: Given, fault: Fault) -> Finding:
        return self.finding(
            "fail",
            fault.message,
            citation=None,
            pointer=given.at(fault.place),
            required=Required(fault.required, fault.unit, fault.comparison),
            provided=Provided(fault.provided, fault.unit),
        )

    @staticmethod
    def _named(faults: list[Fault], more: int) -> list[Fault]:
        """Return the first faults; the last of them tells how many others there are."""
        *named, last = faults[:MOST_FAULTS]
        more += len(faults) - len(named) - 1
        if not more:
            return [*named, last]
        return [*named, replace(last, message=f"{last.message} There are {more} more such places.")]


def rule(name: str, *, subject: str, force: Force = "requirement") -> Callable[[Judge], Rule]:
    """Make a rule of a function."""

    def wrap(judge: Judge) -> Rule:
        return Rule(judge, name, subject, force)

    return wrap


def nearest(name: str, known: Sequence[str]) -> str:
    """Return a sentence that names the known name most like an unknown one; nothing where none is like it."""
    found = nearest_name(name, known, 0.6)
    return "" if found is None else f" Perhaps {found} is meant."


def listed(names: Sequence[str]) -> str:
    """Return names as a list in a sentence."""
    return ", ".join(names) if names else "none"
