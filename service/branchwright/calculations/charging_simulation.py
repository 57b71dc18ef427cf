"""Managed charging, interval by interval: arrays in, arrays out.

Shapes: K intervals, S sessions, C control settings side by side. Currents in A, energies in kWh at the wall,
durations in h. In every interval the management leaves to the chargers what the house leaves of the setting, in
whole amperes, and nothing below the least current. The means of an interval are all that is seen of it: house and
chargers are held against the setting as means over the same interval.
"""

from dataclasses import dataclass
from typing import Literal, TypeAlias

import numpy as np
from numpy.typing import NDArray

from branchwright.calculations.arrays import Flags, Floats, Whole

Sharing: TypeAlias = Literal["equal", "first-come", "earliest-departure"]

NOTHING_KWH = 1e-9
"""Energy that counts as none: what the rounding of sums over a night may leave."""


@dataclass(slots=True, frozen=True)
class Sessions:
    """Sessions of vehicles at chargers, S of each.

    `first` and `last` are the intervals in which a session begins and ends, `first_h` and `last_h` how long the
    vehicle is there in these two (a session within one interval has it in `first_h`). `kwh_per_ah` is the energy of
    one ampere in one hour, `own_a` the whole amperes that charger, circuit and vehicle allow, `rank` the order in
    which sessions are served. No two sessions of one charger share an interval.
    """

    charger: Whole
    first: Whole
    last: Whole
    first_h: Floats
    last_h: Floats
    need_kwh: Floats
    own_a: Floats
    kwh_per_ah: Floats
    rank: Whole

    def __len__(self) -> int:
        """Return the number of sessions."""
        return len(self.charger)


def available_a(
    leg_a: Floats, settings_a: Floats, margin_a: float, least_a: float, delay_intervals: int
) -> Floats:
    """Return the whole amperes that the management leaves to the chargers, shape (C, K + 1).

    Formula: floor(setting - margin - largest leg of the house); nothing where that is below the least current, where
    the house's current is not known (NaN), and until as many further intervals as the delay have passed with enough
    current. The last column is 0: it stands for the time after the readings. More of the setting never gives
    less: the floor rises with it, and an interval that counts for the delay still does.

    Args:
        leg_a: current of the house on its largest leg, shape (K,); NaN where it is not known.
        settings_a: control settings, shape (C,).
        margin_a: current that is kept free below the setting.
        least_a: least current that a vehicle is offered.
        delay_intervals: intervals with enough current that pass after a pause before charging resumes.

    >>> available_a(np.array([40.0, 76.5, 50.2, 50.2]), np.array([80.0]), 0.0, 6.0, 1)
    array([[40.,  0.,  0., 29.,  0.]])
    """
    found = np.empty((len(settings_a), len(leg_a) + 1))
    found[:, -1] = 0.0
    enough = found[:, :-1]
    np.subtract((settings_a - margin_a)[:, None], leg_a, out=enough)
    np.floor(enough, out=enough)
    permitted = enough >= least_a
    _erode(permitted, delay_intervals)
    # Not by multiplication: nothing times an unknown current is no number.
    np.copyto(enough, 0.0, where=~permitted)
    return found


def _erode(permitted: Flags, intervals: int) -> None:
    """Clear, in place, each interval that has one not permitted among so many before it; shape (C, K)."""
    reached = 1
    while reached < intervals + 1:
        shift = min(reached, intervals + 1 - reached)
        # The right side is a new array: what is read is not what is being written.
        permitted[:, shift:] = permitted[:, shift:] & permitted[:, :-shift]
        reached += shift


@dataclass(slots=True, frozen=True)
class Course:
    """What happens under one setting.

    `current_a` is what each charger draws while its vehicle takes energy, shape (K + 1, V), whole amperes;
    `vehicles` how many are there and still need energy, shape (K + 1,). The last row stands for the time after the
    readings. `unmet_kwh` is what each session lacks and `paused_h` for how long it waited, shape (S,).
    """

    current_a: NDArray[np.int16]
    vehicles: NDArray[np.int32]
    unmet_kwh: Floats
    paused_h: Floats

    @classmethod
    def empty(cls, intervals: int, chargers: int, sessions: int) -> "Course":
        """Return a course in which nothing has happened yet."""
        return cls(
            np.zeros((intervals + 1, chargers), dtype=np.int16),
            np.zeros(intervals + 1, dtype=np.int32),
            np.zeros(sessions),
            np.zeros(sessions),
        )

    def enter(
        self, interval: Whole, session: Whole, charger: Whole, active: Flags, current: Floats, hours: Floats
    ) -> None:
        """Enter one interval of several blocks: shape (B,), and (B, L) of what happens in each place of them."""
        block, place = np.nonzero(active)
        at, who, current = interval[block], session[block, place], current[block, place]
        self.current_a[at, charger[who]] = current
        np.add.at(self.vehicles, at, 1)
        self.paused_h[who] += np.where(current == 0.0, hours[block, place], 0.0)


class OneVehicle:
    """Sessions at a single charger: nothing is shared, so that a session's energy is a sum cut at its need."""

    def __init__(self, sessions: Sessions, interval_h: float) -> None:
        """Lay the intervals of all sessions end to end."""
        self.worked = 0
        """Work that was done so far, in intervals of sessions."""
        self._lengths = lengths = sessions.last - sessions.first + 1
        self._begins = np.cumsum(lengths) - lengths
        self.intervals = np.repeat(sessions.first - self._begins, lengths) + np.arange(int(lengths.sum()))
        self.hours = np.full(len(self.intervals), interval_h)
        self.hours[self._begins + lengths - 1] = sessions.last_h
        self.hours[self._begins] = sessions.first_h
        self._session = np.repeat(np.arange(len(sessions)), lengths)
        self._own_a = sessions.own_a[0]
        self._kwh_per_ah = sessions.kwh_per_ah[0]
        self._need_kwh = sessions.need_kwh

    def work(self, settings: int) -> int:
        """Return about how much work it takes to simulate some settings, in intervals of sessions."""
        return settings * len(self.intervals)

    def unmet_kwh(self, available: Floats) -> Floats:
        """Return what each session lacks, shape (C, S), for what the management leaves, shape (C, K + 1)."""
        self.worked += self.work(len(available))
        current = np.take(available, self.intervals, axis=1)
        np.minimum(current, self._own_a, out=current)
        current *= self.hours
        energy = np.add.reduceat(current, self._begins, axis=1)
        energy *= self._kwh_per_ah
        return np.maximum(self._need_kwh - energy, 0.0)

    def course(self, available: Floats, chargers: int = 1) -> Course:
        """Return the course of one setting, interval by interval; what the management leaves has shape (K + 1,)."""
        course = Course.empty(len(available) - 1, chargers, len(self._need_kwh))
        current = np.minimum(available[self.intervals], self._own_a)
        wants = (self._before(current) < self._need_kwh[self._session] - NOTHING_KWH) & (self.hours > 0.0)
        wants &= self._own_a > 0.0
        at = self.intervals[wants]
        course.current_a[at, 0] = current[wants]
        course.vehicles[at] = 1
        course.paused_h[:] = np.add.reduceat(self.hours * (wants & (current == 0.0)), self._begins)
        course.unmet_kwh[:] = self.unmet_kwh(available[None, :])[0]
        return course

    def _before(self, current: Floats) -> Floats:
        """Return the energy that each interval's session could have had before it, in kWh."""
        place = np.arange(int(self._lengths.max()))
        inside = place < self._lengths[:, None]
        energy = np.zeros(inside.shape)
        energy[inside] = current * self.hours * self._kwh_per_ah
        # Session by session: a sum over the whole year would carry its rounding into the last night.
        return np.asarray((np.cumsum(energy, axis=1) - energy)[inside])
