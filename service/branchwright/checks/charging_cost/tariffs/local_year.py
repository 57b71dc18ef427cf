"""The year that is priced: twelve local calendar months, cut into intervals of equal length.

The intervals begin at the local midnight of the first day and follow each other without a gap, so that days of 23 and
25 hours, a leap day and a shift of half an hour come out of the zone's own clock.
"""

from datetime import date, datetime, tzinfo
from functools import lru_cache
from itertools import pairwise
from math import gcd
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from branchwright.calculations.arrays import Whole
from branchwright.questions.local_time import DAY_S, instant

Minutes: TypeAlias = NDArray[np.int16]

MONTHS = 12
EPOCH_ORDINAL = date(1970, 1, 1).toordinal()


class LocalYear:
    """The N intervals of twelve local months over D dates; an interval belongs to the date on which it begins.

    Shapes: `starts_s`, `minute_of_day`, `day_index` and `month_index` (N,), `weekdays`, `days_of_year` and
    `month_of_day` (D,), `days_in_month` (12,). `starts_s` are seconds since 1970, `minute_of_day` is what the zone's
    clock shows at the begin of an interval, `weekdays` are 0 for Monday, `days_of_year` 1231 for 31 December. None of
    the arrays can be written to.
    """

    def __init__(self, zone: tzinfo, first: date, step_minutes: int) -> None:
        """Lay out the intervals from the first of a month on.

        Raises:
            ValueError: the first date is not the first of a month, or the year is no whole number of intervals.
        """
        if first.day != 1:
            raise ValueError(f"{first} is not the first of a month.")
        self.zone = zone
        self.first = first
        self.step_minutes = step_minutes
        self.step_h = step_minutes / 60
        begin, end = _bounds(zone, first)
        step = 60 * step_minutes
        if (end - begin) % step:
            raise ValueError(
                f"The year from {first} is no whole number of intervals of {step_minutes} minutes."
            )
        self.end_s = end
        self.starts_s: Whole = np.arange(begin, end, step, dtype=np.int64)
        self.count = len(self.starts_s)
        shown = self.starts_s + _offsets(self.starts_s, zone)
        self.minute_of_day: Minutes = (shown % DAY_S // 60).astype(np.int16)
        ordinals, days = np.unique(shown // DAY_S + EPOCH_ORDINAL, return_inverse=True)
        self.day_index: Whole = days.astype(np.int64)
        self.dates: list[date] = [date.fromordinal(int(ordinal)) for ordinal in ordinals]
        self.place_of_date: dict[date, int] = {day: at for at, day in enumerate(self.dates)}
        self.weekdays: Whole = (ordinals - 1) % 7
        self.days_of_year: Whole = np.array([100 * day.month + day.day for day in self.dates], dtype=np.int64)
        # Where a zone sets its clock back right after midnight, what follows still counts to the year.
        of_day = [MONTHS * (day.year - first.year) + day.month - first.month for day in self.dates]
        self.month_of_day: Whole = np.clip(np.array(of_day, dtype=np.int64), 0, MONTHS - 1)
        self.month_index: Whole = self.month_of_day[self.day_index]
        self.months: list[str] = [f"{_month(first, at):%Y-%m}" for at in range(MONTHS)]
        self.days_in_month: Whole = np.bincount(self.month_of_day, minlength=MONTHS)
        for array in (
            self.starts_s,
            self.minute_of_day,
            self.day_index,
            self.weekdays,
            self.days_of_year,
            self.month_of_day,
            self.month_index,
            self.days_in_month,
        ):
            array.flags.writeable = False

    def clock(self, index: int) -> datetime:
        """Return what the zone's clock shows at the begin of an interval, with its offset."""
        return instant(int(self.starts_s[index]), self.zone)

    def hours_of_days(self) -> NDArray[np.float64]:
        """Return how many hours each date has, shape (D,)."""
        return np.asarray(
            np.bincount(self.day_index, minlength=len(self.dates)) * self.step_h, dtype=np.float64
        )

    def intervals_of_month(self, month: int) -> Whole:
        """Return the intervals of a month of the year, 0 to 11."""
        return np.flatnonzero(self.month_index == month)


@lru_cache(maxsize=16)
def local_year(zone: tzinfo, first: date, step_minutes: int) -> LocalYear:
    """Return the year of a zone; it is laid out once, and shared."""
    return LocalYear(zone, first, step_minutes)


@lru_cache(maxsize=64)
def zone_step_minutes(zone: tzinfo, first: date) -> int:
    """Return the longest of 60, 30 and 15 minutes in which intervals stay on the zone's clock through the year.

    A shift of the clock by half an hour asks for half hours, and so on.
    """
    begin, end = _bounds(zone, first)
    offsets = [_offset(second, zone) for second in (*range(begin, end, DAY_S), end)]
    shifts = {abs(later - earlier) // 60 for earlier, later in pairwise(offsets)}
    step = gcd(60, *shifts)
    return next((minutes for minutes in (60, 30) if step % minutes == 0), 15)


def _month(first: date, after: int) -> date:
    years, month = divmod(first.month - 1 + after, MONTHS)
    return date(first.year + years, month + 1, 1)


def _bounds(zone: tzinfo, first: date) -> tuple[int, int]:
    """Return the instants at which the year begins and ends."""
    return _midnight(first, zone), _midnight(_month(first, MONTHS), zone)


def _midnight(day: date, zone: tzinfo) -> int:
    """Return the instant at which a date begins; where the zone skips its midnight, that of the skip."""
    return int(datetime(day.year, day.month, day.day, tzinfo=zone).timestamp())


def _offset(second: int, zone: tzinfo) -> int:
    shift = instant(second, zone).utcoffset()
    return 0 if shift is None else int(shift.total_seconds())


def _offsets(starts: Whole, zone: tzinfo) -> Whole:
    """Return the seconds by which the zone's clock is ahead of UTC at each of some instants in order, shape (N,).

    The clock is asked once a day, and at every instant only where it shifted between two of these.
    """
    found = np.empty(len(starts), dtype=np.int64)
    a_day = int(DAY_S // (starts[1] - starts[0]))
    offset = _offset(int(starts[0]), zone)
    for begin in range(0, len(starts), a_day):
        span = starts[begin : begin + a_day]
        later = _offset(int(span[0]) + DAY_S, zone)
        asked = later != offset
        found[begin : begin + a_day] = [_offset(int(second), zone) for second in span] if asked else offset
        offset = later
    return found
