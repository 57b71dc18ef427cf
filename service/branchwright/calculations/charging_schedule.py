"""When a vehicle charges within its stays: arrays in, arrays out.

Shapes: N nights, M intervals that the longest of them touches. A night's row holds the intervals from its arrival on;
where it touches fewer, the last ones have no room. Energies in kWh at the wall, powers in kW, times in h, prices per
kWh. Room is the energy that an interval can take: the charger's power times the hours of the interval in which the
vehicle is there and may charge.
"""

from dataclasses import dataclass
from typing import Final

import numpy as np

from branchwright.calculations.arrays import Floats, Whole

HALVINGS: Final = 40
"""After so many the level of a power is known to a millionth of a millionth of itself."""


@dataclass(slots=True, frozen=True)
class Delivery:
    """What each night brings, shape (N,) each, kWh at the wall.

    `charged` is what is charged, `owed` what the battery still lacks at departure and a later night may make up,
    `lost` what was needed and is never made up.
    """

    charged: Floats
    owed: Floats
    lost: Floats

    @property
    def unmet_kwh(self) -> float:
        """Energy that is never made up, what is owed after the last night included."""
        return float(self.lost.sum() + (self.owed[-1] if len(self.owed) else 0.0))


def delivered(need: Floats, most: Floats, battery_kwh: float | None) -> Delivery:
    """Return what each night brings, in order: what it needs and what is owed, as far as it has room.

    The first night begins with nothing owed. Nobody owes more than the battery holds: what is beyond was not driven.

    Args:
        need: what each night needs by itself, shape (N,).
        most: what each night has room for, shape (N,).
        battery_kwh: what the battery takes at the wall from empty to full; None where nothing is made up later.

    >>> delivered(np.array([9.0, 4.0, 3.0]), np.array([8.0, 4.0, 8.0]), 20.0).charged
    array([8., 4., 4.])
    """
    if battery_kwh is None:
        charged = np.minimum(need, most)
        return Delivery(charged, np.zeros(len(need)), need - charged)
    found: list[tuple[float, float, float]] = []
    owed = 0.0
    for needed, room in zip(need.tolist(), most.tolist(), strict=True):
        wanted = min(owed + needed, battery_kwh)
        lost = owed + needed - wanted
        charged_kwh = min(wanted, room)
        owed = wanted - charged_kwh
        found.append((charged_kwh, owed, lost))
    columns = np.array(found, dtype=np.float64).reshape(-1, 3).T
    return Delivery(*columns)


def in_order(room: Floats, energy: Floats) -> Floats:
    """Return the energy in each interval where each night fills its first ones, shape (N, M).

    >>> in_order(np.array([[2.0, 2.0, 2.0]]), np.array([3.0]))
    array([[2., 1., 0.]])
    """
    before = np.cumsum(room, axis=1)
    before -= room
    np.subtract(energy[:, None], before, out=before)
    np.maximum(before, 0.0, out=before)
    return np.minimum(before, room, out=before)


def cheapest_first(room: Floats, price: Floats, energy: Floats) -> Floats:
    """Return the energy in each interval where each night fills its cheapest ones, shape (N, M); of equals the first.

    No other way to charge the same energy in the same room costs less, as long as a kWh of an interval has one price.

    >>> cheapest_first(np.array([[2.0, 2.0, 2.0]]), np.array([[0.3, 0.1, 0.1]]), np.array([3.0]))
    array([[0., 2., 1.]])
    """
    order = np.argsort(price, axis=1, kind="stable")
    filled = in_order(np.take_along_axis(room, order, axis=1), energy)
    found = np.empty_like(room)
    np.put_along_axis(found, order, filled, axis=1)
    return found


def cheapest_first_with_surplus(
    room: Floats, surplus: Floats, export_price: Floats, import_price: Floats, energy: Floats
) -> Floats:
    """Return the energy in each interval where the first kWh, up to a surplus, cost what their export would bring.

    Each interval is two: as much as the surplus at the one price, the rest at the other. That is the cheapest way where
    no export brings more than its import costs; elsewhere the surplus cannot be left out, and it may not be.

    >>> cheapest_first_with_surplus(
    ...     np.array([[2.0, 2.0]]), np.array([[0.5, 0.0]]), np.array([[0.05, 0.05]]), np.array([[0.3, 0.1]]),
    ...     np.array([1.0]),
    ... )
    array([[0.5, 0.5]])
    """
    nights, intervals = room.shape
    rooms, prices = np.empty((nights, 2 * intervals)), np.empty((nights, 2 * intervals))
    np.minimum(room, surplus, out=rooms[:, ::2])
    np.subtract(room, rooms[:, ::2], out=rooms[:, 1::2])
    prices[:, ::2] = export_price
    prices[:, 1::2] = import_price
    filled = cheapest_first(rooms, prices, energy)
    return np.asarray(filled[:, ::2] + filled[:, 1::2])


def surplus_first(room: Floats, surplus: Floats, import_price: Floats, energy: Floats) -> Floats:
    """Return the energy in each interval where each night takes the surplus in order, then its cheapest intervals.

    >>> surplus_first(
    ...     np.array([[2.0, 2.0]]), np.array([[0.5, 0.0]]), np.array([[0.3, 0.1]]), np.array([1.0])
    ... )
    array([[0.5, 0.5]])
    """
    free = np.minimum(room, surplus)
    taken = in_order(free, energy)
    return taken + cheapest_first(room - free, import_price, energy - taken.sum(axis=1))


def least_level_kw(hours: Floats, other_kw: Floats, power_kw: float, energy: Floats) -> Floats:
    """Return the least power of house and vehicle together that lets each night have its energy, kW, shape (N,).

    Below that level the vehicle takes what the house leaves of it, at most its own power. The level is the upper end
    of a bisection, so that it is always enough.

    Args:
        hours: hours of each interval in which the vehicle may charge, shape (N, M).
        other_kw: what else the meter takes, shape (N, M); below zero where it delivers.
        power_kw: greatest power of charging.
        energy: what each night charges, shape (N,); no more than it has room for.
    """
    low = np.where(hours > 0, other_kw, np.inf).min(axis=1, initial=np.inf)
    low = np.where(np.isfinite(low), low, 0.0)
    high = np.where(hours > 0, other_kw, -np.inf).max(axis=1, initial=-np.inf) + power_kw
    high = np.where(np.isfinite(high), high, 0.0)
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        enough = (hours * np.clip(middle[:, None] - other_kw, 0.0, power_kw)).sum(axis=1) >= energy
        high = np.where(enough, middle, high)
        low = np.where(enough, low, middle)
    return high


def room_below(hours: Floats, other_kw: Floats, power_kw: float, level_kw: Floats) -> Floats:
    """Return the room that each interval has below a level of house and vehicle together, kWh; all (N, M).

    >>> room_below(np.array([[1.0, 0.5]]), np.array([[2.0, 6.0]]), 7.0, np.array([[8.0, 9.0]]))
    array([[6. , 1.5]])
    """
    return np.asarray(hours * np.clip(level_kw - other_kw, 0.0, power_kw))


def over_the_year(intervals: Whole, energy: Floats, count: int) -> Floats:
    """Return the energy of all nights in each interval of a year, kWh, shape (count,).

    >>> over_the_year(np.array([[0, 1], [1, 2]]), np.array([[1.0, 2.0], [3.0, 4.0]]), 4)
    array([1., 5., 4., 0.])
    """
    return np.bincount(intervals.ravel(), energy.ravel(), count).astype(np.float64, copy=False)
