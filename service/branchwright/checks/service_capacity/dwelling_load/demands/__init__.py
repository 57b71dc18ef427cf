"""The loads of a dwelling at the demand factors of the standard method, and what the other methods need of them.

`Demands` works each of them out once for a household and a ledger, whichever methods ask for it.
"""

from functools import cached_property

from branchwright.checks.service_capacity.dwelling_load.demands.appliances import appliance_demand
from branchwright.checks.service_capacity.dwelling_load.demands.chargers import Nameplates, charger_loads
from branchwright.checks.service_capacity.dwelling_load.demands.cooking import CookingDemand, cooking_demand
from branchwright.checks.service_capacity.dwelling_load.demands.dryers import dryer_demand
from branchwright.checks.service_capacity.dwelling_load.demands.lighting import Circuits, lighting_demand
from branchwright.checks.service_capacity.dwelling_load.household import Household
from branchwright.checks.service_capacity.dwelling_load.part import Part
from branchwright.questions.ledger import StepLedger

__all__ = ["CookingDemand", "Demands"]


class Demands:
    """The demands of one household, each worked out at most once."""

    def __init__(self, household: Household, ledger: StepLedger, prefix: str = "") -> None:
        """Bind a household and the ledger of its steps, whose ids bear the prefix."""
        self.household = household
        self.ledger = ledger
        self.prefix = prefix

    def part(self, prefix: str = "") -> Part:
        """Open a part for steps with a further prefix."""
        return Part(self.ledger, self.prefix + prefix)

    @cached_property
    def circuits(self) -> Circuits:
        """Small-appliance and laundry circuits."""
        return Circuits(self.household, self.part())

    @cached_property
    def nameplates(self) -> Nameplates:
        """The chargers at their ratings."""
        return Nameplates(self.household, self.part())

    @cached_property
    def lighting(self) -> Part:
        """General lighting with its circuits, at the parts of the table."""
        return lighting_demand(self.household, self.circuits, self.part())

    @cached_property
    def cooking(self) -> CookingDemand:
        """Cooking appliances by the table."""
        return cooking_demand(self.household, self.part())

    @cached_property
    def dryers(self) -> Part:
        """Dryers by the table."""
        return dryer_demand(self.household, self.part())

    @cached_property
    def appliances(self) -> Part:
        """Other appliances, at less than their load where there are enough of them."""
        return appliance_demand(self.household, self.part())

    @cached_property
    def chargers(self) -> Part:
        """Chargers as the standard method counts them."""
        return charger_loads(self.household, self.nameplates, self.part(), method="standard")
