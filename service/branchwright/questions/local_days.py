"""The local calendar: on which dates each session begins, and which instants its arrival and departure are.

Nights bear the local date of arrival. A clock time that the zone skips in spring is read as that much later, one that
it shows twice in autumn is the first of the two; days of 23 and 25 hours follow from that.
"""

from datetime import date, datetime, timedelta, tzinfo
from functools import cached_property

import numpy as np

from branchwright.calculations.arrays import Whole
from branchwright.questions.local_time import DAY_S, instant

WEEKDAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")


def minutes_of(clock: str) -> int:
    """Return the minutes since midnight of a clock time HH:MM.

    >>> minutes_of("18:30")
    1110
    """
    return 60 * int(clock[:2]) + int(clock[3:])


class LocalDays:
    """The local dates that some readings touch, from the day before the first to the last, D of them."""

    def __init__(self, begin: int, end: int, zone: tzinfo) -> None:
        """Lay out the dates of readings from one instant to another, in seconds since 1970."""
        self.zone = zone
        self.first = instant(begin, zone).date() - timedelta(days=1)
        self._ordinal = self.first.toordinal()
        self.count = (instant(end - 1, zone).date() - self.first).days + 1
        self.weekdays = (self.first.weekday() + np.arange(self.count)) % 7
        self._known: dict[int, Whole] = {}

    def date(self, index: int) -> date:
        """Return a date by its index."""
        return self.first + timedelta(days=index)

    def instants(self, minutes: int) -> Whole:
        """Return the instant of a clock time on each date, shape (D,); from 1440 minutes on it is on the next."""
        found = self._known.get(minutes)
        if found is None:
            days, minutes_of_day = divmod(minutes, 1440)
            begins = self._midnights
            found = begins[days : days + self.count] + 60 * minutes_of_day
            # Only on a day whose length is another does the clock jump.
            for index in np.flatnonzero(np.diff(begins)[days : days + self.count] != DAY_S):
                found[index] = self._instant(int(index) + days, minutes_of_day)
            self._known[minutes] = found
        return found

    @cached_property
    def _midnights(self) -> Whole:
        """The instant at which each date begins, and two more."""
        return np.array([self._instant(index, 0) for index in range(self.count + 2)], dtype=np.int64)

    def _instant(self, index: int, minutes: int) -> int:
        clock = datetime.fromordinal(self._ordinal + index) + timedelta(minutes=minutes)
        return int(clock.replace(tzinfo=self.zone).timestamp())
