"""The current of a load, and what it is rounded to."""

from branchwright.calculations.dwelling_load import (
    line_current_a,
    rounded_current_a,
    three_phase_current_a,
)
from branchwright.checks.service_capacity.dwelling_load.household import Household
from branchwright.checks.service_capacity.dwelling_load.part import Part
from branchwright.findings import StepInput


def current_of(household: Household, part: Part, load: StepInput) -> StepInput | None:
    """Enter the current of a load, all of it taken between the lines; None where the supply is not stated."""
    if household.voltage is None:
        return None
    calculation = line_current_a if household.phases == 1 else three_phase_current_a
    return part.ledger.add(
        calculation.step(
            part.prefix + "current",
            {"load_va": load, "voltage_v": household.voltage},
            household.voltage.citation,
        )
    )


def rounded(household: Household, part: Part, current: StepInput) -> StepInput:
    """Enter a current as the edition rounds it."""
    rule = household.edition.provision("load-rounding")
    return part.ledger.add(
        rounded_current_a.step(
            part.prefix + "rounded-current",
            {"current_a": current, "dropped_below": rule.values["dropped_below"]},
            rule.citation,
        )
    )
