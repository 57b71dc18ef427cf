"""A second layout of charging, one night and one interval after another in plain Python.

It imports nothing of the service and no array library: instants are those of `zoneinfo`, cheapest hours are a sorted
list, and the year is a ring.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from itertools import pairwise
from zoneinfo import ZoneInfo

WEEK = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
Span = tuple[str, str]


def minutes(clock: str) -> int:
    hours, rest = clock.split(":")
    return 60 * int(hours) + int(rest)


@dataclass
class Ring:
    """Twelve months of a zone in intervals of some minutes."""

    zone: ZoneInfo
    first: date
    step_minutes: int

    def __post_init__(self) -> None:
        self.begin = self.at(self.first, 0)
        self.end = self.at(date(self.first.year + 1, self.first.month, 1), 0)
        self.count = (self.end - self.begin) // (60 * self.step_minutes)

    def at(self, day: date, minute: int) -> int:
        """Return the second at which the clock shows so many minutes after a date's midnight."""
        shown = datetime(day.year, day.month, day.day) + timedelta(minutes=minute)
        return int(shown.replace(tzinfo=self.zone).timestamp())

    def shown(self, place: int) -> datetime:
        """Return the clock at the beginning of an interval."""
        second = self.begin + 60 * self.step_minutes * place
        return datetime.fromtimestamp(second, UTC).astimezone(self.zone)

    def days(self) -> list[date]:
        found = [self.first]
        while found[-1] + timedelta(days=1) < date(self.first.year + 1, self.first.month, 1):
            found.append(found[-1] + timedelta(days=1))
        return found

    def pieces(self, begin: int, end: int) -> list[tuple[int, float]]:
        """Return the intervals that a span of seconds touches, in order, with the hours of each."""
        step = 60 * self.step_minutes
        cuts = [begin, *range(begin - (begin - self.begin) % step + step, end, step), end]
        return [
            ((one - self.begin) // step % self.count, (other - one) / 3600)
            for one, other in pairwise(cuts)
            if other > one
        ]


@dataclass
class Night:
    """The pieces of one night, and what it needs."""

    day: date
    pieces: list[tuple[int, float]]
    need: float


def nights_of(
    ring: Ring,
    stays: dict[str, Span],
    need: Callable[[date], float],
    windows: Sequence[Span] | None = None,
) -> list[Night]:
    """Return every night of the year; windows are daily and may overlap."""
    spans = {day: spans_of(*stays[day], windows) for day in WEEK}
    found = []
    for day in ring.days():
        pieces = []
        for begin, end in spans[WEEK[day.weekday()]]:
            pieces += ring.pieces(ring.at(day, begin), ring.at(day, end))
        found.append(Night(day, pieces, need(day)))
    return found


def spans_of(arrives: str, departs: str, windows: Sequence[Span] | None) -> list[tuple[int, int]]:
    """Return the spans of minutes in which a vehicle may charge, minute after minute."""
    arrival, departure = minutes(arrives), minutes(departs)
    departure += 1440 if departure <= arrival else 0
    may = [False] * 2880
    for minute in range(arrival, departure):
        may[minute] = windows is None or any(lies_in(minute % 1440, *window) for window in windows)
    edges = [minute for minute in range(2881) if at(may, minute) != at(may, minute - 1)]
    return list(zip(edges[::2], edges[1::2], strict=True))


def at(may: list[bool], minute: int) -> bool:
    return 0 <= minute < len(may) and may[minute]


def lies_in(minute: int, begin: str, end: str) -> bool:
    first, last = minutes(begin), minutes(end)
    return first <= minute < last if first < last else minute >= first or minute < last


@dataclass
class Charged:
    """Energy by interval, what every night got, and what was never made up."""

    kwh: list[float]
    by_night: list[float]
    unmet: float


def charge(
    ring: Ring,
    nights: Sequence[Night],
    power_kw: float,
    order: Callable[[list[tuple[int, float]]], list[tuple[int, float]]],
    battery_kwh: float | None = None,
) -> Charged:
    """Charge one night after another, taking its pieces in an order; an order may cut pieces."""
    kwh, by_night, unmet, owed = [0.0] * ring.count, [], 0.0, 0.0
    for night in nights:
        wanted = night.need + owed
        if battery_kwh is not None and wanted > battery_kwh:
            unmet += wanted - battery_kwh
            wanted = battery_kwh
        left = wanted
        for place, hours in order(night.pieces):
            taken = min(left, hours * power_kw)
            kwh[place] += taken
            left -= taken
        by_night.append(wanted - left)
        owed = left if battery_kwh is not None else 0.0
        unmet += left if battery_kwh is None else 0.0
    return Charged(kwh, by_night, unmet + owed)
