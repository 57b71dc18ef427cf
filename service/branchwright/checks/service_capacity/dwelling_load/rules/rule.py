"""What a rule of a load calculation is: one question about the dwelling or its service, answered by one finding."""

from collections.abc import Callable

from branchwright.checks.service_capacity.dwelling_load.case import LoadCase
from branchwright.codebook import ProvisionLacking
from branchwright.findings import Finding
from branchwright.findings.finding import Force
from branchwright.questions.rules import RuleOf


class LoadRule(RuleOf):
    """A rule of a load calculation."""

    consults: frozenset[str] = frozenset()
    """Readings decide on the loads, before any rule is asked."""

    def __init__(
        self, function: Callable[[LoadCase], Finding], name: str, subject: str, concept: str, force: Force
    ) -> None:
        """Keep the parts; the function's docstring is the rule's prose."""
        super().__init__(name, subject, concept, force, function.__doc__ or "")
        self.function = function

    def __call__(self, case: LoadCase) -> Finding:
        """Judge the facts; undetermined where the edition lacks a provision."""
        try:
            return self.function(case)
        except ProvisionLacking as lacking:
            return self.undetermined(None, str(lacking))


def rule(
    name: str, *, subject: str, concept: str, force: Force = "requirement"
) -> Callable[[Callable[[LoadCase], Finding]], LoadRule]:
    """Make a rule of a function."""

    def wrap(function: Callable[[LoadCase], Finding]) -> LoadRule:
        return LoadRule(function, name, subject, concept, force)

    return wrap
