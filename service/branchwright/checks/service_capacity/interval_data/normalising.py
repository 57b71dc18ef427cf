"""Puts readings in order on one grid of time, in Wh, and counts what stood in the way."""

from dataclasses import dataclass
from datetime import timedelta

import numpy as np
import numpy.typing as npt

from branchwright.calculations.measured_demand import Energies
from branchwright.checks.service_capacity.interval_data.collected import Collected
from branchwright.checks.service_capacity.interval_data.facts import LONGEST_INTERVAL_MINUTES, MOST_READINGS
from branchwright.checks.service_capacity.interval_data.faults import Faults
from branchwright.checks.service_capacity.interval_data.placing import Placement
from branchwright.checks.service_capacity.interval_data.zones import Seconds
from branchwright.questions.local_time import EPOCH

RISING_READINGS = 24
RISING_SHARE = 0.3
FALLING_SHARE = 0.001
"""Values that rise at three of ten readings and fall at no more than one of a thousand are a register's: common
practice, no source. Energy of intervals falls about as often as it rises."""

DIGITS = 6
"""Of the energies: a millionth of a watt-hour, so that no fraction of binary arithmetic shows."""


@dataclass(slots=True)
class Grid:
    """The readings on one grid of time."""

    start: int
    """The instant at which the first interval starts."""

    interval_minutes: int
    energies_wh: Energies
    """NaN where there is no reading."""

    marks: npt.NDArray[np.uint8]
    told_interval: bool
    """Whether the interval was told from the readings, not stated."""

    def instant(self, index: int) -> int:
        """Return the instant at which an interval starts."""
        return self.start + index * self.interval_minutes * 60


@dataclass(slots=True)
class Counts:
    """What was counted while the readings were put in order."""

    readings: int = 0
    duplicates: int = 0
    conflicting: int = 0
    overlaps: int = 0
    unsorted: int = 0
    first_unsorted: str | None = None
    newest_first: bool = False
    register_like: bool = False


def normalise(collected: Collected, placement: Placement, faults: Faults) -> tuple[Grid | None, Counts]:
    """Return the readings on one grid, and the counts; no grid, with faults, where there can be none."""
    counts = Counts()
    there = np.flatnonzero(placement.known & ~np.isnan(collected.values))
    counts.readings = len(there)
    if not len(there):
        faults.add(
            "layout",
            collected.place(0) if len(collected.values) else "body",
            "there is no reading to be used.",
        )
        return None, counts
    _count_unsorted(collected, placement, there, counts)
    order = there[np.argsort(placement.instants[there], kind="stable")]
    instants, values = placement.instants[order], collected.values[order]
    lengths = None if collected.lengths is None else collected.lengths[order]
    is_register = collected.unit.startswith("register")
    counts.register_like = not is_register and _only_rises(values)
    interval = _interval_of(collected, placement, lengths, faults)
    if interval is None:
        return None, counts
    blanks = placement.instants[placement.known & np.isnan(collected.values)]
    if collected.at_end and not is_register:
        instants, blanks = instants - interval, blanks - interval
    placed = _on_grid(collected, order, instants, blanks, lengths, interval, faults, counts)
    if placed is None:
        return None, counts
    start, count, slots, kept = placed
    values, order = values[kept], order[kept]
    energies = np.full(count, np.nan)
    marks = np.zeros(count, dtype=np.uint8)
    _fill(collected, order, slots, values, energies, marks, faults, counts)
    if is_register:
        energies = _used_between(collected, energies, start, interval, faults)
        marks = np.maximum(marks[:-1], marks[1:])
        if np.isnan(energies).all():
            faults.add(
                "layout",
                collected.place(0),
                "a register tells energy only where one reading follows another.",
            )
            return None, counts
    wh = np.round(_as_energy(collected.unit, energies, interval // 60), DIGITS)
    told = collected.interval_minutes is None and lengths is None
    return Grid(start, interval // 60, wh, marks, told), counts


def _count_unsorted(
    collected: Collected, placement: Placement, there: npt.NDArray[np.intp], counts: Counts
) -> None:
    instants = placement.instants[there]
    runs: Seconds = np.zeros(len(there), dtype=np.int64)
    if collected.runs is not None:
        runs = np.cumsum(collected.runs, dtype=np.int64)[there]
    # Lifting every block above the one before makes one running maximum serve them all.
    lifted = instants + runs * (int(instants.max()) - int(instants.min()) + 1)
    late = np.flatnonzero(lifted < np.maximum.accumulate(lifted))
    counts.unsorted = len(late)
    if len(late):
        counts.first_unsorted = collected.place(int(there[late[0]]))
        counts.newest_first = bool(np.all(np.diff(instants) <= 0))


def _only_rises(values: Energies) -> bool:
    if len(values) < RISING_READINGS:
        return False
    steps = np.diff(values)
    return bool(
        np.count_nonzero(steps < 0) <= FALLING_SHARE * len(steps)
        and np.count_nonzero(steps > 0) >= RISING_SHARE * len(steps)
    )


def _interval_of(
    collected: Collected, placement: Placement, lengths: Seconds | None, faults: Faults
) -> int | None:
    """Return the length of the intervals in seconds, stated or told from the readings; None, with a fault."""
    if collected.interval_minutes is not None:
        return collected.interval_minutes * 60
    stated = np.empty(0, dtype=np.int64) if lengths is None else lengths[lengths > 0]
    steps = stated if len(stated) else np.diff(np.sort(placement.instants[placement.known]))
    steps = steps[steps > 0]
    if not len(steps):
        faults.add(
            "missing",
            collected.place(0),
            "one reading does not tell how long its interval is: state interval_minutes.",
        )
        return None
    found, often = np.unique(steps, return_counts=True)
    interval = int(found[np.argmax(often)])
    if interval % 60 or interval > LONGEST_INTERVAL_MINUTES * 60:
        faults.add(
            "grid",
            collected.place(0),
            f"the readings are mostly {interval} s apart: only intervals of whole minutes, up to "
            f"{LONGEST_INTERVAL_MINUTES}, can be used.",
        )
        return None
    return interval


def _on_grid(
    collected: Collected,
    order: npt.NDArray[np.intp],
    instants: Seconds,
    blanks: Seconds,
    lengths: Seconds | None,
    interval: int,
    faults: Faults,
    counts: Counts,
) -> tuple[int, int, Seconds, npt.NDArray[np.bool_]] | None:
    """Return where the grid starts and how long it is, the places of the readings on it, and which have one.

    Times that the body has without a value, the blanks, belong to the grid: they are missing, not absent.
    """
    own = np.full(len(instants), interval) if lengths is None else np.where(lengths > 0, lengths, interval)
    steps = np.diff(instants)
    counts.overlaps = int(np.count_nonzero((steps > 0) & (steps < own[:-1])))
    phases, often = np.unique(instants % interval, return_counts=True)
    phase = phases[np.argmax(often)]
    kept = (instants % interval == phase) & (own == interval)
    for index in np.flatnonzero(~kept):
        minutes = f"{own[index] / 60:g}-minute reading"
        faults.add(
            "grid",
            collected.place(int(order[index])),
            f"the {minutes} does not fit the grid of {interval // 60} minutes that the others are on; it was left out.",
            (EPOCH + timedelta(seconds=int(instants[index]))).isoformat(),
        )
    if not kept.any():
        return None
    ends = np.concatenate([instants[kept], blanks[blanks % interval == phase]])
    start, count = int(ends.min()), int(ends.max() - ends.min()) // interval + 1
    if count > MOST_READINGS:
        faults.add(
            "grid",
            collected.place(int(order[kept][-1])),
            f"from the first reading to the last, this one, there are {count} intervals; at most {MOST_READINGS} can "
            "be used.",
        )
        return None
    return start, count, (instants[kept] - start) // interval, kept


def _fill(
    collected: Collected,
    order: npt.NDArray[np.intp],
    slots: Seconds,
    values: Energies,
    energies: Energies,
    marks: npt.NDArray[np.uint8],
    faults: Faults,
    counts: Counts,
) -> None:
    """Put the readings on the grid; of several in one place the greatest."""
    again = np.flatnonzero(np.diff(slots) == 0) + 1
    counts.duplicates = len(again)
    # Ascending by slot, then by value: of those in one place the greatest is written last.
    by_value = np.lexsort((values, slots))
    energies[slots[by_value]] = values[by_value]
    marks[slots[by_value]] = collected.marks[order][by_value]
    for index in again:
        if values[index] != values[index - 1]:
            counts.conflicting += 1
            faults.add(
                "conflict",
                collected.place(int(order[index])),
                f"the interval has a reading of {values[index - 1]:g} already "
                f"({collected.place(int(order[index - 1]))}) and one of {values[index]:g} here; the greatest was "
                "taken.",
            )


def _used_between(
    collected: Collected, registers: Energies, start: int, interval: int, faults: Faults
) -> Energies:
    """Return what was used from each reading of a register to the next; NaN where it fell or one is missing."""
    used = np.diff(registers)
    for index in np.flatnonzero(used < 0):
        faults.add(
            "register",
            (EPOCH + timedelta(seconds=start + (int(index) + 1) * interval)).isoformat(),
            f"the register falls from {registers[index]:g} to {registers[index + 1]:g}: it rolled over, or the meter "
            "was changed or runs backwards. The interval was left out.",
        )
        used[index] = np.nan
    return used


def _as_energy(unit: str, values: Energies, interval_minutes: int) -> Energies:
    """Return values in Wh."""
    if unit.endswith(("-kwh", "-kw")):
        values = values * 1000
    return values * interval_minutes / 60 if unit.startswith("power") else values
