"""Whether a tariff prices every kind of quarter hour once: each date of a year, on each weekday, as a holiday and not.

One year shows only some of these: a gap on holidays that fall on a Saturday would come to light in other years.
"""

from collections.abc import Container, Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from functools import cached_property
from itertools import pairwise
from typing import TypeAlias

import numpy as np

from branchwright.checks.charging_cost.tariffs.facts import Tariff
from branchwright.checks.charging_cost.tariffs.price_hours import (
    QUARTERS,
    is_in_season,
    quarters_of,
    rows_of,
)

Span: TypeAlias = tuple[int, int, tuple[int, ...]]
"""First quarter of an hour, the one after the last, and the places of the energy rates that apply."""

WEEKDAY_NAMES = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
DAYS_OF_YEAR = tuple(f"{date(2000, 1, 1) + timedelta(days=after):%m-%d}" for after in range(366))
"""Every day MM-DD that a season can have; 2000 is a leap year."""


@dataclass(slots=True, frozen=True)
class DayKind:
    """What decides which rates apply on a date; weekdays count from 0 for Monday."""

    season: str | None
    weekday: int
    is_holiday: bool


@dataclass(slots=True, frozen=True)
class Unsound:
    """A span of quarter hours of one kind of day that have no price, or those of several rows.

    `begin` and `end` count quarters of an hour from midnight; `day` is the first date of that kind in the twelve
    months, None where they have none, and `rows` are the places of the energy rates that apply.
    """

    kind: DayKind
    day: str | None
    begin: int
    end: int
    rows: tuple[int, ...]


def clock(quarter: int) -> str:
    """Return the clock time at which a quarter of an hour begins.

    >>> clock(57), clock(96)
    ('14:15', '24:00')
    """
    return f"{quarter // 4:02}:{quarter % 4 * 15:02}"


class Coverage:
    """The faults of a tariff's prices, in order of the calendar; `kinds` of quarter hour were tried."""

    def __init__(self, tariff: Tariff, first: date, holidays: Container[date] | None) -> None:
        """Try every kind of day; as holidays where there may be some, whose dates from `first` on are told."""
        self._tariff = tariff
        self._first = first
        self._holidays = holidays
        self._season_of = {day: self._season(day) for day in DAYS_OF_YEAR}
        self._within = np.zeros((len(tariff.energy_rates), QUARTERS), dtype=np.bool_)
        for place, rate in enumerate(tariff.energy_rates):
            for part in quarters_of(rate.begin, rate.end):
                self._within[place, part] = True
        self._known: dict[tuple[int, ...], list[Span]] = {}
        self.gaps: list[Unsound] = []
        self.doubles: list[Unsound] = []
        kinds = list(self._kinds())
        self.tried = len(kinds) * QUARTERS
        for kind in kinds:
            self._try(kind)

    def _kinds(self) -> Iterator[DayKind]:
        for is_holiday in (False,) if self._holidays is None else (False, True):
            for season in dict.fromkeys(self._season_of.values()):
                for weekday in range(7):
                    yield DayKind(season, weekday, is_holiday)

    def _try(self, kind: DayKind) -> None:
        rows = tuple(rows_of(self._tariff, kind.season, kind.weekday, kind.is_holiday))
        if rows not in self._known:
            self._known[rows] = list(self._faults(rows))
        for begin, end, applying in self._known[rows]:
            found = Unsound(kind, self._examples.get(kind), begin, end, applying)
            (self.doubles if applying else self.gaps).append(found)

    def _faults(self, rows: tuple[int, ...]) -> Iterator[Span]:
        """Yield the spans of a day that are priced by none or several of some rows."""
        within = self._within[list(rows)]
        if (within.sum(axis=0) == 1).all():
            return
        changes = np.flatnonzero((within[:, 1:] != within[:, :-1]).any(axis=0)) + 1
        for begin, end in pairwise([0, *changes.tolist(), QUARTERS]):
            applying = tuple(rows[at] for at in np.flatnonzero(within[:, begin]))
            if len(applying) != 1:
                yield begin, end, applying

    def _season(self, day: str) -> str | None:
        return next((season.name for season in self._tariff.seasons if is_in_season(season, day)), None)

    @cached_property
    def _examples(self) -> dict[DayKind, str]:
        """The first date of each kind in the twelve months, as far as they have one."""
        found: dict[DayKind, str] = {}
        holidays = self._holidays
        for after in range(366):
            day = self._first + timedelta(days=after)
            shown = day.isoformat()
            is_holiday = holidays is not None and day in holidays
            found.setdefault(DayKind(self._season_of[shown[5:]], day.weekday(), is_holiday), shown)
        return found
