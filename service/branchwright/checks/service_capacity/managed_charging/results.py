"""The answer's tables: nights, sessions that were not met, chargers, the whole time, and the worst day."""

from math import isnan
from typing import Final

import numpy as np

from branchwright.calculations.arrays import Flags, Floats, Whole
from branchwright.calculations.charging_simulation import NOTHING_KWH
from branchwright.checks.service_capacity.managed_charging.answers import (
    DayInterval,
    StudiedCharger,
    StudiedNight,
    StudiedSession,
    StudiedYear,
    WorstDay,
)
from branchwright.checks.service_capacity.managed_charging.rules import Studied
from branchwright.questions.local_time import instant

MOST_UNMET_SESSIONS: Final = 100
DECIMALS: Final = 6


class Results:
    """What one simulated setting comes to."""

    def __init__(self, studied: Studied) -> None:
        """Sum what every session got."""
        self._simulation = simulation = studied.simulation
        self._given = simulation.given
        self._course = course = studied.course
        self._available = studied.available
        self.unmet_kwh: Floats = np.where(course.unmet_kwh > NOTHING_KWH, course.unmet_kwh, 0.0)
        self.is_met: Flags = self.unmet_kwh == 0.0
        house_a = np.append(self._given.house_a, np.nan)
        self.charging_a: Floats = course.current_a.sum(axis=1, dtype=np.float64)
        self.total_a: Floats = house_a + self.charging_a

    def nights(self) -> list[StudiedNight]:
        """Return one entry for each local date of arrival."""
        night, count = self._simulation.night_of, len(self._simulation.nights)
        sessions = np.bincount(night, minlength=count)
        met = np.bincount(night[self.is_met], minlength=count)
        greatest = np.zeros(count)
        np.maximum.at(greatest, night, self._greatest_of_sessions())
        rows = zip(
            [self._date(place) for place in range(count)],
            sessions.tolist(),
            met.tolist(),
            *self._energies_and_hours(night, count),
            _listed(greatest),
            (met == sessions).tolist(),
            strict=True,
        )
        return [StudiedNight(*row) for row in rows]

    def _energies_and_hours(self, group: Whole, count: int) -> tuple[list[float], ...]:
        """Return what was needed, delivered and unmet, kWh, and the hours paused, of each group of sessions."""
        needed, unmet, paused = (
            np.asarray(np.bincount(group, each, count), dtype=np.float64)
            for each in (self._simulation.sessions.need_kwh, self.unmet_kwh, self._course.paused_h)
        )
        return _listed(needed), _listed(needed - unmet), _listed(unmet), _listed(paused)

    def _greatest_of_sessions(self) -> Floats:
        """Return the greatest total current while each session lasts, A; a missing reading counts as none."""
        sessions = self._simulation.sessions
        known = np.append(np.nan_to_num(self.total_a), 0.0)
        ends = np.column_stack([sessions.first, sessions.last + 1]).ravel()
        return np.asarray(np.maximum.reduceat(known, ends)[::2]) if len(ends) else np.zeros(0)

    def worst_night(self) -> int | None:
        """Return the place of the worst night: most unmet, then most hours paused, then the earliest."""
        count = len(self._simulation.nights)
        if not count:
            return None
        night = self._simulation.night_of
        unmet = np.bincount(night, self.unmet_kwh, count)
        paused = np.bincount(night, self._course.paused_h, count)
        return int(np.lexsort((np.arange(count), -paused.round(DECIMALS), -unmet.round(DECIMALS)))[0])

    def worst_session(self) -> int | None:
        """Return the session of the worst night that lacks most, or else waited longest; the first of equals."""
        worst = self.worst_night()
        if worst is None:
            return None
        members = np.flatnonzero(self._simulation.night_of == worst)
        order = np.lexsort((members, -self._course.paused_h[members], -self.unmet_kwh[members]))
        return int(members[order[0]])

    def unmet_sessions(self) -> list[StudiedSession]:
        """Return the sessions that were not met, most unmet first, as many as the answer has room for."""
        unmet = np.flatnonzero(~self.is_met)
        chosen = unmet[np.argsort(-self.unmet_kwh[unmet], kind="stable")][:MOST_UNMET_SESSIONS]
        return [self._session(int(each)) for each in chosen]

    def _session(self, each: int) -> StudiedSession:
        windows, needed = self._simulation.windows, float(self._simulation.sessions.need_kwh[each])
        unmet = float(self.unmet_kwh[each])
        return StudiedSession(
            date=self._date(int(self._simulation.night_of[each])),
            charger=int(windows.charger[each]),
            session=int(windows.session[each]),
            arrival=self._clock(int(windows.arrival[each])),
            departure=self._clock(int(windows.departure[each])),
            needed_kwh=_rounded(needed),
            delivered_kwh=_rounded(needed - unmet),
            unmet_kwh=_rounded(unmet),
            hours_paused=_rounded(self._course.paused_h[each]),
        )

    def chargers(self) -> list[StudiedCharger]:
        """Return one entry for each charger."""
        chargers = self._given.request.chargers
        place, count = self._simulation.windows.charger, len(chargers)
        rows = zip(
            range(count),
            [charger.name for charger in chargers],
            np.bincount(place, minlength=count).tolist(),
            np.bincount(place[self.is_met], minlength=count).tolist(),
            *self._energies_and_hours(place, count),
            strict=True,
        )
        return [StudiedCharger(*row) for row in rows]

    def year(self, nights: list[StudiedNight]) -> StudiedYear:
        """Return what the whole time comes to."""
        given, worst = self._given, self.worst_night()
        met = sum(night.met for night in nights)
        needed, unmet = float(self._simulation.sessions.need_kwh.sum()), float(self.unmet_kwh.sum())
        charging = self.total_a[self.charging_a > 0]
        house_a = given.house_a[~np.isnan(given.house_a)]
        return StudiedYear(
            days=_rounded(given.days),
            nights=len(nights),
            nights_met=met,
            share_met_percent=_rounded(100 * met / len(nights)) if nights else None,
            sessions=len(self.is_met),
            sessions_met=int(self.is_met.sum()),
            sessions_left_out=self._simulation.windows.left_out,
            worst_night=None if worst is None else nights[worst],
            energy_needed_kwh=_rounded(needed),
            energy_delivered_kwh=_rounded(needed - unmet),
            unmet_kwh=_rounded(unmet),
            hours_paused=_rounded(self._course.paused_h.sum()),
            greatest_total_current_a=_rounded(charging.max()) if len(charging) else None,
            greatest_house_current_a=_rounded(given.greatest_house_a),
            hours_house_above_setting=_rounded((house_a > given.setting_a).sum() * given.interval_h),
            intervals_without_reading=len(given.house_a) - len(house_a),
        )

    def worst_day(self) -> WorstDay | None:
        """Return the intervals around the worst night."""
        worst = self.worst_night()
        if worst is None:
            return None
        return WorstDay(
            date=self._date(worst),
            control_setting_a=self._given.setting_a,
            intervals=self._day_of(self._intervals_of(worst)),
        )

    def _day_of(self, intervals: Whole) -> list[DayInterval]:
        """Return some intervals, one after another."""
        clock = self._simulation.clock
        rows = zip(
            [self._clock(second) for second in (clock.begin + intervals * self._given.interval_s).tolist()],
            _known(self._given.house_a[intervals]),
            self._available[intervals].tolist(),
            self.charging_a[intervals].tolist(),
            _known(self.total_a[intervals]),
            self._course.vehicles[intervals].tolist(),
            strict=True,
        )
        return [DayInterval(*row) for row in rows]

    def _intervals_of(self, night: int) -> Whole:
        """Return the intervals from the midnight before a night's arrivals to the next, or to its last departure."""
        clock, interval_s = self._simulation.clock, self._given.interval_s
        index = int(self._simulation.nights[night])
        midnight, next_midnight = (int(clock.days.instants(minutes)[index]) for minutes in (0, 1440))
        departs = int(self._simulation.windows.departure[self._simulation.night_of == night].max())
        first = max(0, (midnight - clock.begin) // interval_s)
        last = min(self._given.readings - 1, (max(next_midnight, departs) - 1 - clock.begin) // interval_s)
        return np.arange(first, last + 1)

    def _date(self, night: int) -> str:
        return self._simulation.clock.days.date(int(self._simulation.nights[night])).isoformat()

    def _clock(self, second: int) -> str:
        zone = self._simulation.clock.days.zone
        return instant(second, zone).isoformat()


def _listed(values: Floats) -> list[float]:
    found: list[float] = values.round(DECIMALS).tolist()
    return found


def _known(values: Floats) -> list[float | None]:
    """Return values, None where one is not known."""
    return [None if isnan(value) else value for value in _listed(values)]


def _rounded(value: float | np.floating) -> float:
    return round(float(value), DECIMALS)
