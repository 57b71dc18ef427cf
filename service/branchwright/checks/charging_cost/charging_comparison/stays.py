"""When the vehicle is there and may charge: each night's intervals of the year, and the hours of each that count.

The year is a ring: what a night charges after the last interval is charged in the first ones, so that every night of
the year is whole. A night bears the local date of arrival.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TypeAlias

import numpy as np

from branchwright.calculations.arrays import Floats, Whole
from branchwright.checks.charging_cost.charging_comparison.facts import Charging, TimerWindow
from branchwright.checks.charging_cost.tariffs.local_year import LocalYear
from branchwright.questions.local_days import WEEKDAYS, LocalDays, minutes_of

Span: TypeAlias = tuple[int, int]
"""Begin and end in minutes by the clock, since the midnight before an arrival."""

DAY_MINUTES = 1440


@dataclass(slots=True, frozen=True)
class Windows:
    """What a schedule may use of each night: N nights, M intervals that the longest of them touches.

    `intervals` are places in the year, `hours` what of each the vehicle may charge in, shape (N, M) each.
    """

    intervals: Whole
    hours: Floats

    @property
    def hours_of_nights(self) -> Floats:
        """Hours of each night, shape (N,)."""
        return np.asarray(self.hours.sum(axis=1))


def spans_of_week(charging: Charging) -> list[Span]:
    """Return arrival and departure for each weekday of arrival; where two of other_days name a day the last counts."""
    week = [_span(charging.arrival, charging.departure)] * 7
    for other in charging.other_days or ():
        for day in other.weekdays:
            week[WEEKDAYS.index(day)] = _span(other.arrival, other.departure)
    return week


def within(stay: Span, windows: Sequence[TimerWindow]) -> list[Span]:
    """Return the parts of a stay that lie in daily windows, in order; windows that overlap count once."""
    arrival, departure = stay
    cut: list[Span] = []
    for window in windows:
        begin, end = _span(window.begin, window.end)
        for day in (-DAY_MINUTES, 0, DAY_MINUTES):
            first, last = max(begin + day, arrival), min(end + day, departure)
            if first < last:
                cut.append((first, last))
    found: list[Span] = []
    for first, last in sorted(cut):
        if found and first <= found[-1][1]:
            found[-1] = (found[-1][0], max(last, found[-1][1]))
        else:
            found.append((first, last))
    return found


def _span(begin: str, end: str) -> Span:
    first, last = minutes_of(begin), minutes_of(end)
    return first, last if last > first else last + DAY_MINUTES


class Stays:
    """The stays of a year: N nights, one for each of its local dates."""

    def __init__(self, charging: Charging, year: LocalYear) -> None:
        """Find each night's arrival and departure by the local clock."""
        self._year = year
        self._begin = int(year.starts_s[0])
        self._step_s = 60 * year.step_minutes
        self._days = LocalDays(self._begin, year.end_s, year.zone)
        # A date that a zone skips altogether has no night.
        self._rows: Whole = np.array([(date - self._days.first).days for date in year.dates], dtype=np.int64)
        self.dates = year.dates
        self.weekdays: Whole = year.weekdays
        self.months: Whole = np.array([date.month - 1 for date in year.dates], dtype=np.int64)
        self.week = spans_of_week(charging)
        arrival, departure = self._instants([[span] for span in self.week])[0]
        self._first: Whole = arrival // self._step_s
        touched = -(-departure // self._step_s) - self._first
        columns = np.arange(max(int(touched.max(initial=1)), 1))
        self._left: Whole = (self._first[:, None] + columns) * self._step_s
        self._intervals: Whole = (self._first[:, None] + columns) % year.count

    def whole(self) -> Windows:
        """Return all of every stay."""
        return self._windows([[span] for span in self.week])

    def in_windows(self, windows: Sequence[TimerWindow]) -> Windows:
        """Return the parts of every stay that lie in daily windows."""
        return self._windows([within(span, windows) for span in self.week])

    def _windows(self, week: list[list[Span]]) -> Windows:
        """Return what some spans of each weekday come to."""
        seconds = np.zeros(self._intervals.shape, dtype=np.int64)
        right = self._left + self._step_s
        for begin, end in self._instants(week):
            part = np.minimum(right, end[:, None]) - np.maximum(self._left, begin[:, None])
            seconds += np.maximum(part, 0)
        return Windows(self._intervals, seconds / 3600)

    def _instants(self, week: list[list[Span]]) -> list[tuple[Whole, Whole]]:
        """Return begin and end of the first span of each night, of the second, and so on, s since the year began.

        A night that has fewer has spans of no length.
        """
        found: list[tuple[Whole, Whole]] = []
        for place in range(max(len(spans) for spans in week)):
            begin = np.zeros(len(self._rows), dtype=np.int64)
            end = np.zeros(len(self._rows), dtype=np.int64)
            for span in {spans[place] for spans in week if len(spans) > place}:
                days = [day for day, spans in enumerate(week) if spans[place : place + 1] == [span]]
                chosen = np.isin(self.weekdays, days)
                begin[chosen] = self._days.instants(span[0])[self._rows[chosen]] - self._begin
                end[chosen] = self._days.instants(span[1])[self._rows[chosen]] - self._begin
            # A clock that jumps may bring the end before the begin: then there is no time between them.
            found.append((begin, np.maximum(end, begin)))
        return found
