"""Cuts a time in which some vehicle is always there into spells that can be worked side by side.

What a cut carries over is how much each vehicle still needs; `shared_charging` passes it on until it is right.
"""

from dataclasses import dataclass
from typing import Final

import numpy as np

from branchwright.calculations.arrays import Floats, Whole
from branchwright.calculations.charging_simulation import Sessions

DAY_H: Final = 24
LONGEST_DAYS: Final = 1.25


@dataclass(slots=True, frozen=True)
class Parts:
    """Sessions cut into parts, P of them; of most there is one.

    `session` is which session each part belongs to, `carried` which parts go on with what the part before them still
    needs; that stands right before it. What a carried part needs is 0 in `parts`.
    """

    parts: Sessions
    session: Whole
    carried: Whole

    def __len__(self) -> int:
        """Return the number of parts."""
        return len(self.session)


def spells_of(sessions: Sessions) -> tuple[Whole, Whole, Whole]:
    """Return the spell of each session, shape (S,), and the first and last interval of each spell.

    A spell ends where nobody is there: where a session begins after every earlier one has ended.
    """
    order = np.argsort(sessions.first, kind="stable")
    begun, ended = sessions.first[order], np.maximum.accumulate(sessions.last[order])
    opens = np.append(True, begun[1:] > ended[:-1])
    spell = np.empty(len(order), dtype=np.int64)
    spell[order] = np.cumsum(opens) - 1
    closes = np.append(opens[1:], True)
    return spell, begun[opens], ended[closes]


def cut(sessions: Sessions, interval_h: float) -> Parts:
    """Cut each spell of more than a day once a day, where the fewest vehicles can still need energy."""
    if not len(sessions):
        return Parts(sessions, np.zeros(0, dtype=np.int64), np.zeros(0, dtype=np.int64))
    _, begins, ends = spells_of(sessions)
    day = round(DAY_H / interval_h)
    cuts = np.zeros(int(ends.max()) + 2, dtype=np.int64)
    busy = _busy(sessions, interval_h)
    for begin, end in zip(begins.tolist(), ends.tolist(), strict=True):
        at = begin
        while end - at + 1 > LONGEST_DAYS * day:
            window = busy[at + day // 2 : min(at + day + day // 2, end) + 1]
            at += day // 2 + int(np.argmin(window))
            cuts[at] = 1
    # A session has a part more for each cut after its first interval, up to its last.
    crossed = np.cumsum(cuts)
    counts = crossed[sessions.last] - crossed[sessions.first] + 1
    session = np.repeat(np.arange(len(sessions)), counts)
    number = np.arange(len(session)) - np.repeat(np.cumsum(counts) - counts, counts)
    places = np.append(np.flatnonzero(cuts), 0)
    opening = places[np.minimum(crossed[sessions.first[session]] + number - 1, len(places) - 1)]
    closing = places[np.minimum(crossed[sessions.first[session]] + number, len(places) - 1)]
    is_first, is_last = number == 0, number == counts[session] - 1
    first = np.where(is_first, sessions.first[session], opening)
    last = np.where(is_last, sessions.last[session], closing - 1)
    last_h = np.where(is_last, sessions.last_h[session], interval_h)
    # A part of one interval has its length in the first.
    first_h = np.where(is_first, sessions.first_h[session], np.where(first == last, last_h, interval_h))
    parts = Sessions(
        charger=sessions.charger[session],
        first=first,
        last=last,
        first_h=first_h,
        last_h=last_h,
        need_kwh=np.where(is_first, sessions.need_kwh[session], 0.0),
        own_a=sessions.own_a[session],
        kwh_per_ah=sessions.kwh_per_ah[session],
        rank=sessions.rank[session],
    )
    return Parts(parts, session, np.flatnonzero(~is_first))


def _busy(sessions: Sessions, interval_h: float) -> Floats:
    """Return how many vehicles would still need energy at each cut if each had had its own limit all the time."""
    rate = sessions.own_a * sessions.kwh_per_ah * interval_h
    lasts = np.ceil(np.divide(sessions.need_kwh, rate, out=np.zeros(len(rate)), where=rate > 0))
    done = np.minimum(sessions.first + lasts.astype(np.int64), sessions.last + 1)
    change = np.zeros(int(sessions.last.max()) + 3)
    np.add.at(change, sessions.first + 1, 1.0)
    np.add.at(change, np.maximum(done, sessions.first + 1), -1.0)
    return np.cumsum(change)
