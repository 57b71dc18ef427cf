"""The load of a household by one method."""

from collections.abc import Callable
from dataclasses import dataclass

from branchwright.checks.service_capacity.dwelling_load.answers import LoadItem, LoadLine
from branchwright.checks.service_capacity.dwelling_load.demands import Demands
from branchwright.checks.service_capacity.dwelling_load.facts import Method
from branchwright.checks.service_capacity.dwelling_load.household import Household
from branchwright.checks.service_capacity.dwelling_load.methods.current import current_of, rounded
from branchwright.checks.service_capacity.dwelling_load.methods.optional_existing import optional_existing
from branchwright.checks.service_capacity.dwelling_load.methods.optional_new import optional_new
from branchwright.checks.service_capacity.dwelling_load.methods.permission import Permission, permission
from branchwright.checks.service_capacity.dwelling_load.methods.standard import standard
from branchwright.checks.service_capacity.dwelling_load.part import EDITION, Lacking, Part
from branchwright.codebook import ProvisionLacking
from branchwright.findings import StepInput
from branchwright.questions.ledger import StepLedger

ENTRIES: dict[Method, Callable[[Demands, Part], None]] = {
    "standard": standard,
    "optional-new": optional_new,
    "optional-existing": optional_existing,
}
TITLES: dict[Method, str] = {
    "standard": "standard method",
    "optional-new": "optional method for a dwelling",
    "optional-existing": "optional method for an existing dwelling",
}


@dataclass(slots=True)
class MethodLoad:
    """The load by one method. Total, current and rounded current come as inputs of later steps.

    `total` is None where facts are `lacking`, the currents also where the supply is not stated. `permitted` is None
    where a fact is missing, at `permission_pointer`.
    """

    method: Method
    permitted: bool | None
    why: str
    permission_pointer: str | None
    items: list[LoadItem]
    lines: list[LoadLine]
    lacking: list[Lacking]
    total: StepInput | None
    current: StepInput | None
    rounded_current: StepInput | None

    @property
    def total_va(self) -> float | None:
        """The total in VA."""
        return None if self.total is None else float(self.total.value)

    @property
    def current_a(self) -> float | None:
        """The line current in A, unrounded."""
        return None if self.current is None else float(self.current.value)

    @property
    def rounded_current_a(self) -> float | None:
        """The line current in A as the edition rounds it."""
        return None if self.rounded_current is None else float(self.rounded_current.value)


def method_load(
    household: Household,
    method: Method,
    ledger: StepLedger,
    prefix: str = "",
    demands: Demands | None = None,
) -> MethodLoad:
    """Calculate the load by one method and enter its steps.

    Args:
        household: the dwelling with its edition and supply.
        method: the method, permitted or not.
        ledger: where the steps go.
        prefix: begins the id of every step, so that a ledger can hold several households.
        demands: those of the same household, ledger and prefix, where several methods share them.
    """
    shared = demands or Demands(household, ledger, prefix)
    part = shared.part(f"{method}-")
    may = Permission(None, f"The edition has no {TITLES[method]}.", EDITION)
    total = current = in_whole_amperes = None
    try:
        may = permission(household, method)
        ENTRIES[method](shared, part)
        if not part.lacking:
            total = part.add_up("total", f"load by the {TITLES[method]}", part.demands)
            current = current_of(household, part, total)
            if current is not None:
                in_whole_amperes = rounded(household, part, current)
    except ProvisionLacking as lacking:
        part.lacks(EDITION, str(lacking))
    return MethodLoad(
        method,
        may.permitted,
        may.why,
        may.pointer,
        part.items,
        part.lines,
        part.lacking,
        total,
        current,
        in_whole_amperes,
    )
