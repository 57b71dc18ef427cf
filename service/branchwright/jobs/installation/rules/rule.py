"""What a rule of an estimate is: one question, asked of what was stated and taken off. None cites a code."""

from collections.abc import Callable

from branchwright.findings import Finding, Provided, Required
from branchwright.findings.finding import Force
from branchwright.jobs.installation.case import Case
from branchwright.questions.rules import RuleOf

MOST_NAMED = 5
"""How many places a finding names beside the first."""

Judge = Callable[[Case], Finding]


def listed(names: list[str]) -> str:
    """Return the first names of a list in words, and how many more there are."""
    shown = ", ".join(names[:MOST_NAMED])
    more = len(names) - MOST_NAMED
    return f"{shown} and {more} more" if more > 0 else shown


class Rule(RuleOf):
    """A rule of an estimate."""

    consults: frozenset[str] = frozenset()

    def __init__(self, judge: Judge, name: str, subject: str, force: Force) -> None:
        """Keep the parts; the function's docstring is the rule's prose."""
        super().__init__(name, subject, "", force, judge.__doc__ or "")
        self.function = judge

    def __call__(self, case: Case) -> Finding:
        """Judge the case."""
        return self.function(case)

    def failed(self, message: str, pointer: str, required: Required, provided: Provided) -> Finding:
        """Return what is wrong, and where."""
        return self.finding(
            "fail", message, citation=None, pointer=pointer, required=required, provided=provided
        )


def rule(name: str, *, subject: str, force: Force = "requirement") -> Callable[[Judge], Rule]:
    """Make a rule of a function."""

    def wrap(judge: Judge) -> Rule:
        return Rule(judge, name, subject, force)

    return wrap
