"""Simulates the stated setting, and any other that the search asks for."""

from bisect import bisect_left
from dataclasses import dataclass

import numpy as np

from branchwright.calculations.arrays import Flags, Floats, Whole
from branchwright.calculations.charging_bound import NightlyBound
from branchwright.calculations.charging_simulation import (
    NOTHING_KWH,
    Course,
    OneVehicle,
    Sessions,
    available_a,
)
from branchwright.calculations.shared_charging import SeveralVehicles
from branchwright.checks.service_capacity.managed_charging.given import Given
from branchwright.checks.service_capacity.managed_charging.sessions import (
    Windows,
    sessions_of,
    windows_of,
)
from branchwright.questions.fields import LEAST_SIGNALLED_A
from branchwright.questions.local_days import LocalDays

LEAST_A = float(LEAST_SIGNALLED_A)
CELLS_AT_ONCE = 200_000
"""Settings times intervals that are worked at once: what the caches of a processor hold, about."""


@dataclass(slots=True, frozen=True)
class Clock:
    """The readings' place in time: instants in seconds since 1970, and the local dates that they touch."""

    begin: int
    end: int
    days: LocalDays


class Simulation:
    """The sessions that lie in the readings, ready to be simulated under any setting."""

    def __init__(self, given: Given, clock: Clock) -> None:
        """Lay out the sessions; they do not depend on the setting."""
        self.given = given
        self.clock = clock
        request = given.request
        self.windows: Windows = windows_of(request.chargers, clock.days, clock.begin, clock.end)
        self.sessions: Sessions = sessions_of(
            self.windows,
            given.own_a,
            given.kwh_per_ah,
            clock.begin,
            given.interval_s,
            given.sharing,
        )
        self._one = len(request.chargers) == 1
        self._model = (
            OneVehicle(self.sessions, given.interval_h)
            if self._one and len(self.sessions)
            else SeveralVehicles(self.sessions, given.interval_h, given.sharing, LEAST_A)
        )
        self._settings = 0
        self.nights: Whole
        self.night_of: Whole
        self.nights, self.night_of = np.unique(self.windows.night, return_inverse=True)
        """Indices of the local dates on which a session begins, and the place of each session's date among them."""

    def work(self, settings: int) -> int:
        """Return about how much work it takes to simulate some settings side by side."""
        return settings * self.given.readings + self._model.work(settings)

    @property
    def worked(self) -> int:
        """Work that was done so far, in the same measure."""
        return self._settings * self.given.readings + self._model.worked

    @property
    def is_monotone(self) -> bool:
        """Whether more of a setting never takes energy from any vehicle.

        So it is with one vehicle, and where each takes its turn: the first has at least as much and is done no later,
        which leaves at least as much for the next. Where all share alike it is not: with 11 A the first of two has
        them all, with 12 A it has six.
        """
        return self._one or self.given.sharing != "equal"

    def available(self, settings_a: Floats) -> Floats:
        """Return what the management leaves at some settings, shape (C, K + 1)."""
        given = self.given
        return available_a(given.house_a, settings_a, given.margin_a, LEAST_A, given.delay_intervals)

    def at_stated_setting(self) -> tuple[Floats, Course]:
        """Return what the management leaves at the stated setting, shape (K + 1,), and the course of that."""
        left = self.available(np.array([self.given.setting_a]))[0]
        return left, self._model.course(left, len(self.given.request.chargers))

    def least_possible(self, lowest: int, highest: int) -> int | None:
        """Return the smallest whole setting of a range at which the energy would do; None where it never does.

        No smaller one meets every night, whatever the rule of sharing. With one vehicle nothing is ruled out: it is
        simulated as fast.
        """
        if self._one:
            return lowest
        bound = NightlyBound(self.sessions, self.night_of, self.given.interval_h)

        def would_do(setting: int) -> bool:
            return bound.may_meet_all(self.available(np.array([float(setting)]))[0])

        settings = range(lowest, highest + 1)
        place = bisect_left(settings, True, key=would_do)
        return settings[place] if place < len(settings) else None

    def nights_met(self, settings_a: Floats) -> Whole:
        """Return on how many nights every session is met, for each of some settings, shape (C,)."""
        step = max(1, CELLS_AT_ONCE // self.given.readings)
        parts = [settings_a[at : at + step] for at in range(0, len(settings_a), step)]
        return np.concatenate([self._nights_met(part) for part in parts])

    def _nights_met(self, settings_a: Floats) -> Whole:
        self._settings += len(settings_a)
        unmet = self._model.unmet_kwh(self.available(settings_a)) > NOTHING_KWH
        return np.array([int(self.met_nights(each).sum()) for each in unmet])

    def met_nights(self, unmet: Flags) -> Flags:
        """Return for each night whether none of its sessions is unmet."""
        return np.asarray(np.bincount(self.night_of[unmet], minlength=len(self.nights)) == 0)
