"""What a rule of a study is: one question, asked of the facts or of what was simulated with them."""

from collections.abc import Callable
from dataclasses import dataclass

from branchwright.calculations.arrays import Floats
from branchwright.calculations.charging_simulation import Course
from branchwright.checks.service_capacity.managed_charging.given import Given
from branchwright.checks.service_capacity.managed_charging.simulation import Simulation
from branchwright.codebook import ProvisionLacking
from branchwright.findings import Finding, Provided, Required
from branchwright.findings.finding import Force
from branchwright.questions.rules import RuleOf

CONCEPT = "energy-management-load"
"""What all of them serve: the provision by which a control setting stands for the load."""


@dataclass(slots=True, frozen=True)
class Studied:
    """What was simulated at the stated setting; `available` is what the management leaves, A, shape (K + 1,)."""

    simulation: Simulation
    available: Floats
    course: Course


Judge = Callable[[Given, Studied | None], Finding]


class Rule(RuleOf):
    """A rule of a study; one that no section of the code asks for cites nothing.

    `stops` says with which outcomes nothing is simulated.
    """

    consults: frozenset[str] = frozenset()

    def __init__(
        self, judge: Judge, name: str, subject: str, concept: str, force: Force, stops: frozenset[str]
    ) -> None:
        """Keep the parts; the function's docstring is the rule's prose."""
        super().__init__(name, subject, concept, force, judge.__doc__ or "")
        self.function = judge
        self.stops = stops

    def __call__(self, given: Given, studied: Studied | None = None) -> Finding:
        """Judge the facts; undetermined where the edition has no such provision."""
        try:
            return self.function(given, studied)
        except ProvisionLacking as lacking:
            return self.undetermined(None, str(lacking))

    def differs(self, provided: int, required: int, message: str, pointer: str) -> Finding:
        """Return that a number of things is another than it must be."""
        return self.finding(
            "fail",
            message,
            citation=None,
            pointer=pointer,
            required=Required(float(required), "count", "equal"),
            provided=Provided(float(provided), "count"),
        )


def rule(
    name: str,
    *,
    subject: str,
    concept: str = CONCEPT,
    force: Force = "requirement",
    stops: tuple[str, ...] = (),
) -> Callable[[Judge], Rule]:
    """Make a rule of a function."""

    def wrap(judge: Judge) -> Rule:
        return Rule(judge, name, subject, concept, force, frozenset(stops))

    return wrap
