"""What the next kWh costs: the price of its class with riders and taxes, for schedules."""

from collections.abc import Callable

import numpy as np

from branchwright.calculations.arrays import Floats
from branchwright.checks.charging_cost.tariffs.bills import BilledKind
from branchwright.checks.charging_cost.tariffs.charges import Charge, EnergyCharge, Percentage, factor_of
from branchwright.checks.charging_cost.tariffs.local_year import MONTHS, LocalYear
from branchwright.checks.charging_cost.tariffs.price_classes import PriceClasses
from branchwright.checks.charging_cost.tariffs.usage import Usage

Tier = Callable[[EnergyCharge, int], int]
"""The tier of an energy charge that the next kWh of a month falls in; -1 where it is in none."""


class MarginalPrices:
    """The prices of the next kWh in each of N intervals: for choosing hours, never for a bill."""

    def __init__(self, year: LocalYear, classes: PriceClasses, charges: list[Charge]) -> None:
        """Lay out the prices of the first tiers."""
        self._year = year
        self._classes = classes
        self._count = len(classes.classes)
        self._place = year.month_index * self._count + classes.of_interval
        self._energies = [each for each in charges if isinstance(each, EnergyCharge)]
        self._percentages = [each for each in charges if isinstance(each, Percentage)]
        self._factors: dict[tuple[BilledKind, int], float] = {}
        self.first: Floats = self._prices(lambda charge, month: 0)
        self.export: Floats = -self._by_interval("delivered", lambda charge, month: 0)

    def reached(self, usage: Usage) -> Floats:
        """Return the prices in the tiers that a load reaches, shape (N,)."""

        def tier(charge: EnergyCharge, month: int) -> int:
            energy = float(usage.taken_kwh[month] @ charge.classes)
            for at, end in enumerate(charge.ends.of_month[month]):
                if end is None or energy < float(end):
                    return at
            return -1

        return self._prices(tier)

    def _prices(self, tier: Tier) -> Floats:
        found = self._by_interval("taken", tier)
        for charge in self._energies:
            if charge.group is not None:
                factor = np.array([self._factor(charge.kind, month) for month in range(MONTHS)])
                at = self._classes.added[charge.group].intervals
                found[at] += float(charge.rates[0]) * factor[self._year.month_index[at]]
        found[self._classes.matches == 0] = np.nan
        return found

    def _by_interval(self, of: str, tier: Tier) -> Floats:
        prices = np.zeros((MONTHS, self._count))
        for charge in self._energies:
            if charge.of == of:
                for month in range(MONTHS):
                    at = tier(charge, month)
                    if at >= 0:
                        factor = self._factor(charge.kind, month)
                        prices[month, charge.classes] += float(charge.rates[at]) * factor
        return np.asarray(prices.ravel()[self._place])

    def _factor(self, kind: BilledKind, month: int) -> float:
        """Return what a line of one kind comes to with riders and taxes in percent; asked for again and again."""
        found = self._factors.get((kind, month))
        if found is None:
            found = self._factors[kind, month] = float(factor_of(self._percentages, kind, month))
        return found
