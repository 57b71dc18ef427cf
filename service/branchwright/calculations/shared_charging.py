"""Several vehicles under one control setting, interval by interval, and how they share what is left.

Shapes as in `charging_simulation`; L places of vehicles that are there at once, B blocks of time side by side, V
chargers. The loop runs over the intervals of a block; blocks of different nights and different control settings are
worked together, since nothing passes from one to the other. A night that is longer than a block goes on in the next.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Final

import numpy as np

from branchwright.calculations.charging_simulation import (
    NOTHING_KWH,
    Course,
    Flags,
    Floats,
    Sessions,
    Sharing,
    Whole,
)

BLOCK_INTERVALS: Final = 32
CELLS_AT_ONCE: Final = 200_000
"""Places that are worked at once over settings and blocks: what the caches of a processor hold, about."""


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
    below = 0.0
    for limit in limits_a:
        count = np.count_nonzero(taken >= limit, axis=1)
        fits = count * (limit - below) <= left
        rise = np.where(fits, limit - below, left // np.maximum(count, 1))
        rise[done] = 0.0
        level += rise
        left -= rise * count
        done |= ~fits
        below = limit
    np.minimum(taken, level[:, None], out=taken)
    if np.any(done & (left >= 1.0)):
        more = active & (own_a > level[:, None])
        taken += more & (np.cumsum(more, axis=1) <= np.where(done, left, 0.0)[:, None])
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


@dataclass(slots=True, frozen=True)
class Round:
    """Blocks of time that are worked side by side: B of them, with L places each.

    `begins` is the first interval of each block, `session` the session in each place, in the order of their rank;
    the number of sessions stands for an empty place.
    """

    begins: Whole
    session: Whole


class SeveralVehicles:
    """Sessions at several chargers that share what the management leaves."""

    def __init__(self, sessions: Sessions, interval_h: float, sharing: Sharing, least_a: float) -> None:
        """Lay out the blocks; they do not depend on the setting."""
        self._sessions = sessions
        self._interval_h = interval_h
        self._least_a = least_a
        self._share = SHARES[sharing]
        self._rounds = list(_rounds(sessions))
        self._limits_a = np.unique(sessions.own_a[sessions.own_a > 0.0])
        # The last of each is that of an empty place.
        self._own_a = np.append(sessions.own_a, 0.0)
        self._kwh_per_ah = np.append(sessions.kwh_per_ah, 0.0)
        self._first, self._last = np.append(sessions.first, -1), np.append(sessions.last, -1)
        self._first_h, self._last_h = np.append(sessions.first_h, 0.0), np.append(sessions.last_h, 0.0)

    @property
    def cells(self) -> int:
        """Places times intervals that one setting takes to simulate."""
        return BLOCK_INTERVALS * sum(part.session.size for part in self._rounds)

    def unmet_kwh(self, available: Floats) -> Floats:
        """Return what each session lacks, shape (C, S), for what the management leaves, shape (C, K + 1)."""
        return self._simulate(available, None)

    def course(self, available: Floats, chargers: int) -> Course:
        """Return the course of one setting, interval by interval; what the management leaves has shape (K + 1,)."""
        course = Course.empty(len(available) - 1, chargers, len(self._sessions))
        course.unmet_kwh[:] = self._simulate(available[None, :], course)[0]
        return course

    def _simulate(self, available: Floats, course: Course | None) -> Floats:
        settings, last = len(available), available.shape[1] - 1
        remaining = np.zeros((settings, len(self._sessions) + 1))
        remaining[:, :-1] = self._sessions.need_kwh
        for part in self._rounds:
            step = max(1, CELLS_AT_ONCE // (settings * part.session.shape[1]))
            for at in range(0, len(part.begins), step):
                chosen = part.session[at : at + step]
                begins = part.begins[at : at + step]
                left = remaining[:, chosen].reshape(-1, chosen.shape[1])
                own_a = np.broadcast_to(self._own_a[chosen], (settings, *chosen.shape)).reshape(left.shape)
                for shift in range(BLOCK_INTERVALS):
                    interval = np.minimum(begins + shift, last)
                    hours = self._hours(chosen, interval)
                    there = np.broadcast_to(hours, (settings, *hours.shape)).reshape(left.shape)
                    active = (left > NOTHING_KWH) & (there > 0.0) & (own_a > 0.0)
                    current = self._share(
                        available[:, interval].ravel(), active, own_a, self._limits_a, self._least_a
                    )
                    energy = current.reshape(settings, *chosen.shape) * (hours * self._kwh_per_ah[chosen])
                    left -= np.minimum(energy.reshape(left.shape), left)
                    if course is not None:
                        course.enter(interval, chosen, self._sessions.charger, active, current, hours)
                remaining[:, chosen] = left.reshape(settings, *chosen.shape)
        return remaining[:, :-1]

    def _hours(self, session: Whole, interval: Whole) -> Floats:
        """Return for how long each vehicle is there, shape (B, L), in an interval of each block, shape (B,)."""
        first, last = self._first[session], self._last[session]
        at = interval[:, None]
        hours = np.where((at >= first) & (at <= last), self._interval_h, 0.0)
        hours = np.where(at == last, self._last_h[session], hours)
        return np.where(at == first, self._first_h[session], hours)


def _rounds(sessions: Sessions) -> Iterator[Round]:
    """Yield the blocks: first the first of every night, then the second of those that have one, and so on."""
    if not len(sessions):
        return
    # A night ends where no vehicle is there: where a session begins after every earlier one has ended.
    order = np.argsort(sessions.first, kind="stable")
    begun, ended = sessions.first[order], np.maximum.accumulate(sessions.last[order])
    opens = np.append(True, begun[1:] > ended[:-1])
    night = np.empty(len(order), dtype=np.int64)
    night[order] = np.cumsum(opens) - 1
    night_begins = begun[opens]
    from_block = (sessions.first - night_begins[night]) // BLOCK_INTERVALS
    blocks = (sessions.last - night_begins[night]) // BLOCK_INTERVALS - from_block + 1
    session = np.repeat(np.arange(len(sessions)), blocks)
    block = np.arange(len(session)) - np.repeat(np.cumsum(blocks) - blocks, blocks) + from_block[session]
    order = np.lexsort((sessions.rank[session], night[session], block))
    session, block = session[order], block[order]
    for number in range(int(block[-1]) + 1):
        members = session[block == number]
        nights, row, sizes = np.unique(night[members], return_inverse=True, return_counts=True)
        place = np.arange(len(members)) - (np.cumsum(sizes) - sizes)[row]
        places = np.full((len(nights), int(sizes.max())), len(sessions))
        places[row, place] = members
        yield Round(night_begins[nights] + number * BLOCK_INTERVALS, places)
