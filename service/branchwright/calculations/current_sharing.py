"""How several vehicles share in one interval what the management leaves to them.

Shapes: R rows that have nothing to do with each other, L places of vehicles in the order in which they are served.
"""

from collections.abc import Callable
from itertools import pairwise
from typing import Final

import numpy as np

from branchwright.calculations.arrays import Flags, Floats
from branchwright.calculations.charging_simulation import Sharing


def equal_a(available: Floats, active: Flags, own_a: Floats, limits_a: Floats, least_a: float) -> Floats:
    """Return the current of each vehicle, shape (R, L), where all share alike.

    As many of the first as can have the least current take part. All of them get the same whole amperes, save those
    whose own limit is lower; what these leave goes to the others, and what is left of whole amperes goes one each
    to the first that can take one more.

    Args:
        available: whole amperes that are left, shape (R,).
        active: whether there is a vehicle in a place that needs energy, shape (R, L); the first come first.
        own_a: whole amperes that each can take at most, shape (R, L).
        limits_a: the values that occur in own_a, above 0 and ascending.
        least_a: least current that a vehicle is offered.

    >>> own = np.array([[32.0, 8.0, 32.0]])
    >>> equal_a(np.array([40.0]), own > 0.0, own, np.array([8.0, 32.0]), 6.0)
    array([[16.,  8., 16.]])
    """
    places = available // least_a
    if np.any(active.sum(axis=1) > places):
        active = active & (np.cumsum(active, axis=1) <= places[:, None])
    taken = np.where(active, own_a, 0.0)
    level = np.zeros(len(available))
    left = available.copy()
    done = np.zeros(len(available), dtype=bool)
    # The level rises from one own limit to the next; above each of them fewer vehicles take more.
    limits: list[float] = limits_a.tolist()
    for below, limit in pairwise([0.0, *limits]):
        count: Floats = np.count_nonzero(taken >= limit, axis=1).astype(np.float64)
        fits: Flags = count * (limit - below) <= left
        rise: Floats = np.where(fits, limit - below, left // np.maximum(count, 1.0))
        rise[done] = 0.0
        level += rise
        left -= rise * count
        done |= ~fits
    np.minimum(taken, level[:, None], out=taken)
    if np.any(done & (left >= 1.0)):
        more = active & (own_a > level[:, None])
        taken += more & (np.cumsum(more, axis=1) <= left[:, None])
    return taken


def in_turn_a(available: Floats, active: Flags, own_a: Floats, limits_a: Floats, least_a: float) -> Floats:
    """Return the current of each vehicle where each in turn takes what it can; as for `equal_a`.

    A vehicle for which less than the least current is left gets nothing, and so does each after it.

    >>> own = np.array([[32.0, 8.0, 32.0]])
    >>> in_turn_a(np.array([45.0]), own > 0.0, own, np.array([8.0, 32.0]), 6.0)
    array([[32.,  8.,  0.]])
    """
    wanted = np.where(active, own_a, 0.0)
    left = available[:, None] - np.cumsum(wanted, axis=1)
    left += wanted
    left[left < least_a] = 0.0
    return np.asarray(np.minimum(wanted, left))


SHARES: Final[dict[Sharing, Callable[[Floats, Flags, Floats, Floats, float], Floats]]] = {
    "equal": equal_a,
    "first-come": in_turn_a,
    "earliest-departure": in_turn_a,
}
