"""Least-cost charging under a tariff: the optimum where every kWh has one price, else the cheapest of several tries.

Tiers, demand charges and minimum bills make the price of a kWh depend on the others. There the cheapest hours by first
tiers, by the tiers reached, those below a level of power and those outside the periods of demand charges are billed,
and the cheapest bill is kept.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal
from typing import Final

import numpy as np

from branchwright.calculations.arrays import Floats
from branchwright.checks.charging_cost.charging_comparison.given import Given
from branchwright.checks.charging_cost.charging_comparison.nights import Nights, Prices
from branchwright.checks.charging_cost.tariffs.bills import YearBill
from branchwright.checks.charging_cost.tariffs.local_year import MONTHS
from branchwright.checks.charging_cost.tariffs.price_facts import Arrangement
from branchwright.checks.charging_cost.tariffs.priced import PricedTariff

LEVELS: Final = (0.0, 1 / 3, 2 / 3)
"""How far between the least possible power and that of charging at will a level is tried."""


@dataclass(slots=True, frozen=True)
class Meter:
    """A meter on a tariff, and what it costs a month itself."""

    priced: PricedTariff
    arrangement: Arrangement
    monthly_charge: Decimal | None

    def bill(self, net_kwh: Floats) -> YearBill:
        """Return the bills of a load."""
        return self.priced.bill(net_kwh, self.arrangement, self.monthly_charge)


class LeastCost:
    """Least-cost charging of some nights through one meter; `other_kwh` is what else the meter takes, (count,)."""

    def __init__(self, given: Given, nights: Nights, meter: Meter, other_kwh: Floats) -> None:
        """Read the tariff's prices."""
        self._given = given
        self._nights = nights
        self._meter = meter
        self._priced = priced = meter.priced
        self._other_kwh = other_kwh
        self._surplus = surplus_of(other_kwh)
        self._prices = Prices(priced.marginal_per_kwh, priced.export_per_kwh)

    @property
    def is_optimum(self) -> bool:
        """Whether the cheapest hours are known to be the optimum: one price for each kWh, and no export above it."""
        if not self._priced.is_linear:
            return False
        if self._surplus is None:
            return True
        return not bool(((self._prices.delivered > self._prices.taken) & (self._surplus > 0)).any())

    def found(self) -> tuple[Floats, YearBill]:
        """Return the charging of each interval, kWh, and the meter's bills with it."""
        best = self._billed(self._nights.cheapest(self._prices, self._surplus))
        if self.is_optimum:
            return best
        for charging in self._tries(best[0]):
            billed = self._billed(charging)
            if billed[1].total < best[1].total:
                best = billed
        return best

    def _billed(self, charging: Floats) -> tuple[Floats, YearBill]:
        return charging, self._meter.bill(self._other_kwh + charging)

    def _tries(self, first: Floats) -> Iterator[Floats]:
        nights = self._nights
        yield nights.in_order
        if self._surplus is not None:
            yield nights.surplus_first(self._prices, self._surplus)
        reached = first
        for _ in range(2):
            taken = self._priced.marginal_reached(self._other_kwh + reached)
            reached = nights.cheapest(Prices(taken, self._prices.delivered), self._surplus)
            yield reached
        if self._priced.tariff.demand_charges:
            yield from self._tries_for_demand()

    def _tries_for_demand(self) -> Iterator[Floats]:
        nights, prices = self._nights, [self._prices]
        weight = self._demand_weight()
        if weight is not None:
            prices.append(Prices(self._prices.taken + weight, self._prices.delivered))
            yield nights.cheapest(prices[1], self._surplus)
        least, top = self._levels()
        for share in LEVELS:
            level = (least + share * (top - least))[self._given.year.month_index]
            room = nights.room_below(self._other_kwh, level)
            for each in prices:
                yield nights.cheapest(each, self._surplus, room)

    def _demand_weight(self) -> Floats | None:
        """Return what a kW costs in the intervals of demand charges that look at one period alone; None without any."""
        classes = self._priced.classes
        weights = np.zeros(len(classes.classes))
        for charge in self._priced.tariff.demand_charges:
            if charge.period is None:
                continue
            for at, each in enumerate(classes.classes):
                of_period = each.price is not None and classes.prices[each.price].period == charge.period
                if of_period and charge.season in (None, each.season):
                    weights[at] += float(charge.per_kw)
        return np.asarray(weights[classes.of_interval]) if weights.any() else None

    def _levels(self) -> tuple[Floats, Floats]:
        """Return the least power with which every night of a month has its energy, and the most; kW, (12,) each."""
        year = self._given.year
        house = np.full(MONTHS, -np.inf)
        np.maximum.at(house, year.month_index, self._other_kwh / year.step_h)
        least = np.maximum(house, self._nights.least_levels_kw(self._other_kwh, year.month_index))
        return least, np.maximum(house + self._given.power_kw, least)


def surplus_of(other_kwh: Floats) -> Floats | None:
    """Return what a meter delivers in each interval before anything is charged, kWh; None where it never does."""
    return np.maximum(-other_kwh, 0.0) if bool((other_kwh < 0).any()) else None
