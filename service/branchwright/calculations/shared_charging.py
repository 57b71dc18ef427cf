"""Several vehicles under one control setting, interval by interval.

Shapes as in `charging_simulation`; L places of vehicles that are there at once, B blocks of time side by side, V
chargers, P parts of sessions. The loop runs over the intervals of a block; blocks of different spells and different
control settings are worked together, since nothing passes from one to the other. A spell that is longer than a block
goes on in the next.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final, TypeAlias

import numpy as np
from numpy.typing import NDArray

from branchwright.calculations.arrays import Flags, Floats, Whole
from branchwright.calculations.charging_simulation import NOTHING_KWH, Course, Sessions, Sharing
from branchwright.calculations.current_sharing import SHARES
from branchwright.calculations.long_nights import cut, spells_of

Shifts: TypeAlias = NDArray[np.int16]

BLOCK_INTERVALS: Final = 32
STEP_CELLS: Final = 3_000
"""What one turn of the loop costs by itself, in places: so many are worked in the time that it takes."""

CELLS_AT_ONCE: Final = 200_000
"""Places that are worked at once over settings and blocks: what the caches of a processor hold, about."""


@dataclass(slots=True, frozen=True)
class Round:
    """Blocks of time that are worked side by side: B of them, with L places each.

    `spell` and `begins` are the spell that each block is of and its first interval, `part` the part of a session in
    each place, in the order in which they are served; the number of parts stands for an empty place.
    """

    spell: Whole
    begins: Whole
    part: Whole

    def of(self, rows: Whole) -> "Round":
        """Return some of the blocks."""
        return Round(self.spell[rows], self.begins[rows], self.part[rows])


class SeveralVehicles:
    """Sessions at several chargers that share what the management leaves."""

    def __init__(self, sessions: Sessions, interval_h: float, sharing: Sharing, least_a: float) -> None:
        """Lay out the blocks; they do not depend on the setting."""
        self.worked = 0
        """Work that was done so far, in places times intervals."""
        self._sessions = sessions
        self._interval_h = interval_h
        self._least_a = least_a
        self._share = SHARES[sharing]
        self._cut = cut(sessions, interval_h)
        parts = self._parts = self._cut.parts
        self._spell, self._rounds = _laid_out(parts)
        self._limits_a = np.unique(parts.own_a[parts.own_a > 0.0])
        # Who cannot charge, or is there for no time, is there in no interval. The last of each is an empty place.
        charges = (parts.own_a > 0.0) & (parts.first_h > 0.0)
        self._first = np.append(np.where(charges, parts.first, -1), -1)
        self._last = np.append(np.where(charges, parts.last, -1), -1)
        self._own_a = np.append(parts.own_a, 0.0)
        self._kwh_per_a = np.append(parts.kwh_per_ah * interval_h, 0.0)
        self._first_share = np.append(parts.first_h / interval_h, 0.0)
        self._last_share = np.append(parts.last_h / interval_h, 0.0)

    def work(self, settings: int) -> int:
        """Return about how much work it takes to simulate some settings side by side, in places times intervals."""
        return BLOCK_INTERVALS * sum(STEP_CELLS + settings * each.part.size for each in self._rounds)

    def unmet_kwh(self, available: Floats) -> Floats:
        """Return what each session lacks, shape (C, S), for what the management leaves, shape (C, K + 1)."""
        return self._of_sessions(self._settled(available)[1])

    def course(self, available: Floats, chargers: int) -> Course:
        """Return the course of one setting, interval by interval; what the management leaves has shape (K + 1,)."""
        course = Course.empty(len(available) - 1, chargers, len(self._cut))
        begins_kwh, _ = self._settled(available[None, :])
        ends_kwh = self._run(available[None, :], begins_kwh, np.unique(self._spell), course)
        paused_h = np.zeros(len(self._sessions))
        np.add.at(paused_h, self._cut.session, course.paused_h)
        return Course(course.current_a, course.vehicles, self._of_sessions(ends_kwh)[0], paused_h)

    def _of_sessions(self, ends_kwh: Floats) -> Floats:
        """Return what each session lacks, shape (C, S), of what each part lacks at its end, shape (C, P)."""
        last_of_session = np.append(self._cut.session[1:] != self._cut.session[:-1], True)
        return ends_kwh[:, last_of_session] if len(self._cut) else ends_kwh

    def _settled(self, available: Floats) -> tuple[Floats, Floats]:
        """Return what each part needs when it begins and lacks when it ends, shapes (C, P).

        What is carried over a cut is first taken as nothing. Then it is set to what the part before lacks, and spells
        for which that is something else are worked again, until none is left: the first spell is right from the
        start, so that after each turn at least one more is, and what vehicles carry is soon nothing.
        """
        begins_kwh = np.broadcast_to(self._parts.need_kwh, (len(available), len(self._cut))).copy()
        ends_kwh = begins_kwh.copy()
        spells, carried = np.unique(self._spell), self._cut.carried
        while len(spells):
            found = self._run(available, begins_kwh, spells, None)
            again = np.isin(self._spell, spells)
            ends_kwh[:, again] = found[:, again]
            differs = (begins_kwh[:, carried] != ends_kwh[:, carried - 1]).any(axis=0)
            begins_kwh[:, carried] = ends_kwh[:, carried - 1]
            spells = np.unique(self._spell[carried[differs]])
        return begins_kwh, ends_kwh

    def _run(self, available: Floats, begins_kwh: Floats, spells: Whole, course: Course | None) -> Floats:
        """Work some spells; return what each part lacks at its end, shape (C, P), in the others what it begins with."""
        remaining = np.append(begins_kwh, np.zeros((len(available), 1)), axis=1)
        for each in self._rounds:
            rows = np.flatnonzero(np.isin(each.spell, spells))
            step = max(1, CELLS_AT_ONCE // (len(available) * each.part.shape[1]))
            for at in range(0, len(rows), step):
                self._work(each.of(rows[at : at + step]), available, remaining, course)
        return remaining[:, :-1]

    def _work(self, blocks: Round, available: Floats, remaining: Floats, course: Course | None) -> None:
        """Work some blocks from their first interval to their last, and take what charges from what remains."""
        settings, last, who = len(available), available.shape[1] - 1, blocks.part
        self.worked += BLOCK_INTERVALS * (STEP_CELLS + settings * who.size)
        left = remaining[:, who]
        rows = (settings * len(who), who.shape[1])
        own_a = np.broadcast_to(self._own_a[who], left.shape).reshape(rows)
        kwh_per_a = self._kwh_per_a[who]
        comes, goes = (
            (end[who] - blocks.begins[:, None]).clip(-1, BLOCK_INTERVALS).astype(np.int16)
            for end in (self._first, self._last)
        )
        shares: dict[int, list[tuple[Whole, Whole, Floats]]] = {}
        _enter_shares(shares, comes, comes >= 0, self._first_share[who])
        # Where a vehicle comes and goes within one interval, its coming says for how long it is there.
        _enter_shares(shares, goes, (goes >= 0) & (goes != comes), self._last_share[who])
        for shift in range(BLOCK_INTERVALS):
            there = (comes <= shift) & (goes >= shift)
            active = (left > NOTHING_KWH) & there
            interval = np.minimum(blocks.begins + shift, last)
            current = self._share(
                available[:, interval].ravel(), active.reshape(rows), own_a, self._limits_a, self._least_a
            ).reshape(left.shape)
            energy = current * kwh_per_a
            for block, place, share in shares.get(shift, ()):
                energy[:, block, place] *= share
            np.minimum(energy, left, out=energy)
            left -= energy
            if course is not None:
                hours = np.where(there, self._interval_h, 0.0)
                for block, place, share in shares.get(shift, ()):
                    hours[block, place] = share * self._interval_h
                course.enter(interval, who, self._parts.charger, active[0], current[0], hours)
        remaining[:, who] = left


def _enter_shares(
    shares: dict[int, list[tuple[Whole, Whole, Floats]]], ends: Shifts, chosen: Flags, share: Floats
) -> None:
    """Enter, by interval of a block, which vehicles are there for a share of it only: block, place and share."""
    block, place = np.nonzero(chosen & (ends < BLOCK_INTERVALS))
    shift = ends[block, place]
    for at in np.unique(shift):
        members = shift == at
        entry = (block[members], place[members], share[block[members], place[members]])
        shares.setdefault(int(at), []).append(entry)


def _laid_out(parts: Sessions) -> tuple[Whole, list[Round]]:
    """Return the spell of each part, and the blocks in rounds: the first of every spell, then the second of each."""
    if not len(parts):
        return np.zeros(0, dtype=np.int64), []
    spell, spell_begins, _ = spells_of(parts)
    return spell, list(_rounds(parts, spell, spell_begins))


def _rounds(parts: Sessions, spell: Whole, spell_begins: Whole) -> Iterator[Round]:
    from_block = (parts.first - spell_begins[spell]) // BLOCK_INTERVALS
    blocks = (parts.last - spell_begins[spell]) // BLOCK_INTERVALS - from_block + 1
    part = np.repeat(np.arange(len(parts)), blocks)
    block = np.arange(len(part)) - np.repeat(np.cumsum(blocks) - blocks, blocks) + from_block[part]
    order = np.lexsort((parts.rank[part], spell[part], block))
    part, block = part[order], block[order]
    for number in range(int(block[-1]) + 1):
        members = part[block == number]
        spells, row, sizes = np.unique(spell[members], return_inverse=True, return_counts=True)
        place = np.arange(len(members)) - (np.cumsum(sizes) - sizes)[row]
        places = np.full((len(spells), int(sizes.max())), len(parts))
        places[row, place] = members
        yield Round(spells, spell_begins[spells] + number * BLOCK_INTERVALS, places)
