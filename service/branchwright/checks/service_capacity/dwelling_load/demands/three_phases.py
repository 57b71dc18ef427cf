"""How many appliances a demand table is asked for, and what their demand comes to, by the phases of the supply.

On three phases the tables are asked for twice the greatest number of single-phase appliances between any two phases;
what those two phases see is two thirds of the load. The appliances are taken as spread evenly, the largest of them
on the phases that count.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Generic, TypeVar

from branchwright.calculations.dwelling_load import three_phase_count, three_phase_demand_va
from branchwright.checks.service_capacity.dwelling_load.household import Household, Placed
from branchwright.checks.service_capacity.dwelling_load.part import Part
from branchwright.findings import Citation, StepInput

T = TypeVar("T")

LEAST_SPREAD = 2
"""One appliance alone has no others to be spread with."""


@dataclass(slots=True)
class Counted(Generic[T]):
    """The appliances that a demand is taken for, their number, and whether two phases of three see it."""

    units: list[Placed[T]]
    number: StepInput
    is_three_phase: bool

    @property
    def count(self) -> int:
        """Their number, for the table."""
        return len(self.units)


def counted(
    household: Household,
    part: Part,
    step: str,
    units: Sequence[Placed[T]],
    rating: Callable[[T], float],
    citation: Citation,
) -> Counted[T]:
    """Enter how many of one or more appliances count, and return them."""
    ledger = part.ledger
    number = ledger.work_out(
        f"{part.prefix}{step}-number",
        "number of appliances",
        f"{len(units)}",
        {},
        float(len(units)),
        "count",
        None,
    )
    if household.phases == 1 or len(units) < LEAST_SPREAD:
        return Counted(list(units), number, is_three_phase=False)
    number = ledger.add(
        three_phase_count.step(f"{part.prefix}{step}-three-phase-number", {"appliances": number}, citation)
    )
    largest_first = sorted(units, key=lambda unit: rating(unit.facts), reverse=True)
    return Counted(largest_first[: int(float(number.value))], number, is_three_phase=True)


def whole_demand(
    part: Part, step: str, counted_units: Counted[T], demand: StepInput, citation: Citation
) -> StepInput:
    """Enter the load of all three phases where two of them see the demand; else return it as it is."""
    if not counted_units.is_three_phase:
        return demand
    return part.ledger.add(
        three_phase_demand_va.step(f"{part.prefix}{step}-three-phase", {"demand_va": demand}, citation)
    )
