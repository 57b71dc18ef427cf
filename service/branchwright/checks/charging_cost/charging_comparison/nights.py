"""The nights of one schedule: what each brings, and in which intervals of the year it is charged."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from branchwright.calculations.arrays import Floats, Whole
from branchwright.calculations.charging_schedule import (
    Delivery,
    cheapest_first,
    cheapest_first_with_surplus,
    delivered,
    in_order,
    least_level_kw,
    over_the_year,
    room_below,
    surplus_first,
)
from branchwright.checks.charging_cost.charging_comparison.given import Given
from branchwright.checks.charging_cost.charging_comparison.stays import Windows
from branchwright.checks.charging_cost.tariffs.local_year import MONTHS


@dataclass(slots=True, frozen=True)
class Prices:
    """What the next kWh costs, and what one that flows out brings, in each interval of the year, shape (count,)."""

    taken: Floats
    delivered: Floats


class Nights:
    """N nights of a schedule at a need; each way to lay them out gives the energy of each interval of the year, kWh."""

    def __init__(self, given: Given, windows: Windows, needed_kwh: Floats) -> None:
        """Find what each night brings: that depends on no price."""
        self._windows = windows
        self._count = given.year.count
        self._step_h = given.year.step_h
        self._power_kw = given.power_kw
        self._room: Floats = windows.hours * given.power_kw
        most = self._room.sum(axis=1)
        self.delivery: Delivery = delivered(needed_kwh, most, given.need.battery_wall_kwh)

    @property
    def charged(self) -> Floats:
        """What each night charges, shape (N,)."""
        return self.delivery.charged

    @cached_property
    def in_order(self) -> Floats:
        """Charging from the first interval on."""
        return self._over_the_year(in_order(self._room, self.charged))

    def cheapest(self, prices: Prices, surplus: Floats | None, room: Floats | None = None) -> Floats:
        """Return charging in the cheapest intervals; where there is a surplus its kWh cost what they would bring."""
        room = self._room if room is None else room
        taken = prices.taken[self._windows.intervals]
        if surplus is None:
            return self._over_the_year(cheapest_first(room, taken, self.charged))
        brings = prices.delivered[self._windows.intervals]
        return self._over_the_year(
            cheapest_first_with_surplus(room, self._own_part(surplus), brings, taken, self.charged)
        )

    def surplus_first(self, prices: Prices, surplus: Floats) -> Floats:
        """Return charging from the surplus, then in the cheapest intervals."""
        taken = prices.taken[self._windows.intervals]
        return self._over_the_year(surplus_first(self._room, self._own_part(surplus), taken, self.charged))

    def least_levels_kw(self, other_kwh: Floats, month: Whole) -> Floats:
        """Return the least power of all together with which every night has its energy, kW, shape (12,).

        `month` is the month of each interval of the year, (count,). A month in which nothing charges has minus
        infinity.
        """
        levels = least_level_kw(self._windows.hours, self._other_kw(other_kwh), self._power_kw, self.charged)
        found = np.full(MONTHS, -np.inf)
        used = self._windows.hours > 0
        of_cells = month[self._windows.intervals]
        np.maximum.at(found, of_cells[used], np.broadcast_to(levels[:, None], used.shape)[used])
        return found

    def room_below(self, other_kwh: Floats, level_kw: Floats) -> Floats:
        """Return the room below a level of all together in each interval of the year, (count,); kWh, (N, M)."""
        levels = level_kw[self._windows.intervals]
        return room_below(self._windows.hours, self._other_kw(other_kwh), self._power_kw, levels)

    def _other_kw(self, other_kwh: Floats) -> Floats:
        return np.asarray(other_kwh[self._windows.intervals] / self._step_h)

    def _own_part(self, surplus: Floats) -> Floats:
        """Return each night's part of a surplus: all of an interval's, save where two nights share it by hours."""
        return np.asarray(surplus[self._windows.intervals] * self._share)

    @cached_property
    def _share(self) -> Floats:
        hours, intervals = self._windows.hours, self._windows.intervals
        of_all = np.bincount(intervals.ravel(), hours.ravel(), self._count)[intervals]
        return np.divide(hours, of_all, out=np.zeros_like(hours), where=of_all > 0)

    def _over_the_year(self, energy: Floats) -> Floats:
        return over_the_year(self._windows.intervals, energy, self._count)
