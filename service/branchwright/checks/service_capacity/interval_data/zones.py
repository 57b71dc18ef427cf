"""Local time: which instant a stamp without offset means, and what a zone's offset is at an instant."""

from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta, tzinfo
from typing import TypeAlias

import numpy as np
import numpy.typing as npt

from branchwright.questions.local_time import DAY_S, instant, seconds_at

Seconds: TypeAlias = npt.NDArray[np.int64]
"""Seconds since 1970: of an instant, or of a clock on the wall as if it stood in UTC."""

WALL_EPOCH = datetime(1970, 1, 1)
EARLIEST = datetime(1970, 1, 2, tzinfo=UTC)
LATEST = datetime(2199, 12, 31, tzinfo=UTC)
EARLIEST_S, LATEST_S = seconds_at(EARLIEST), seconds_at(LATEST)
"""Readings outside are no readings of a meter; within, every zone's arithmetic stays in the calendar."""


def iso(second: int, zone: tzinfo) -> str:
    """Return an instant as ISO 8601 with the zone's offset."""
    return instant(second, zone).isoformat()


def _offset(moment: datetime) -> int:
    offset = moment.utcoffset()
    return 0 if offset is None else int(offset.total_seconds())


def _wall(second: int, zone: tzinfo, fold: int = 0) -> datetime:
    """Return the clock on the wall in a zone, at its first or second passing."""
    return (WALL_EPOCH + timedelta(seconds=second)).replace(tzinfo=zone, fold=fold)


def offsets_at(instants: Seconds, zone: tzinfo) -> Seconds:
    """Return the zone's offset in seconds at each instant."""
    days, place = np.unique(instants // DAY_S, return_inverse=True)
    first = np.array([_offset(instant(int(day) * DAY_S, zone)) for day in days], dtype=np.int64)
    last = np.array([_offset(instant(int(day + 1) * DAY_S, zone)) for day in days], dtype=np.int64)
    found = first[place]
    for index in np.flatnonzero((first != last)[place]):
        found[index] = _offset(instant(int(instants[index]), zone))
    return found


@dataclass(slots=True)
class Placed:
    """Where stamps without offset lie."""

    instants: Seconds
    """Of each stamp; meaningless where it is not placed."""

    never: list[int]
    """Stamps that the clock skipped in spring."""

    unordered: list[int]
    """Stamps of an hour that the clock showed twice, whose order does not tell which passing is meant."""

    single: list[int]
    """First stamps of such an hour of which only one passing is there; it was taken for the first."""


def place_walls(walls: Seconds, zone: tzinfo) -> Placed:
    """Return which instant each reading of the clock on the wall means, in the order in which they stand.

    The hour that the clock shows twice in autumn is resolved by that order alone: two passings one after the other.
    """
    days, place = np.unique(walls // DAY_S, return_inverse=True)
    first = np.array([_offset(_wall(int(day) * DAY_S, zone)) for day in days], dtype=np.int64)
    last = np.array([_offset(_wall(int(day + 1) * DAY_S, zone)) for day in days], dtype=np.int64)
    instants = walls - first[place]
    placed = Placed(instants, [], [], [])
    steps = np.diff(walls)
    falling = bool(np.count_nonzero(steps < 0) > np.count_nonzero(steps > 0))
    for day in np.flatnonzero(first != last):
        twice: list[int] = []
        for index in np.flatnonzero(place == day):
            second = int(walls[index])
            early, late = (_offset(_wall(second, zone, fold)) for fold in (0, 1))
            instants[index] = second - early
            if early < late:
                placed.never.append(int(index))
            elif early > late:
                twice.append(int(index))
        _resolve(placed, walls, twice, zone, falling=falling)
    return placed


def _resolve(placed: Placed, walls: Seconds, twice: list[int], zone: tzinfo, *, falling: bool) -> None:
    """Place the stamps of an hour that the clock showed twice."""
    if not twice:
        return
    ordered = twice[::-1] if falling else twice
    again = [at for at in range(1, len(ordered)) if walls[ordered[at]] <= walls[ordered[at - 1]]]
    if len(again) > 1:
        placed.unordered.extend(twice)
    elif again:
        for index in ordered[again[0] :]:
            second = int(walls[index])
            placed.instants[index] = second - _offset(_wall(second, zone, 1))
    else:
        placed.single.append(ordered[0])


def uneven_days(first: int, last: int, zone: tzinfo) -> list[tuple[date, float]]:
    """Return each local day that is not 24 hours long, from the day of one instant to that of another."""
    found: list[tuple[date, float]] = []
    day, end = instant(first, zone).date(), instant(last, zone).date()
    begun = _midnight(day, zone)
    while day <= end:
        following = day + timedelta(days=1)
        ended = _midnight(following, zone)
        if ended - begun != DAY_S:
            found.append((day, (ended - begun) / 3600))
        day, begun = following, ended
    return found


def _midnight(day: date, zone: tzinfo) -> int:
    return seconds_at(datetime(day.year, day.month, day.day, tzinfo=zone))


def wall_offset(second: int, zone: tzinfo) -> int:
    """Return the zone's offset in seconds when its clock on the wall shows a time, at the first passing."""
    return _offset(_wall(second, zone))
