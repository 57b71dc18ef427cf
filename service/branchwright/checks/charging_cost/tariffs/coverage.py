"""Whether a tariff prices every kind of quarter hour once: each date of a year, on each weekday, as a holiday and not.

One year shows only some of these: a gap on holidays that fall on a Saturday would come to light in other years.
"""

from collections.abc import Container, Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from functools import cached_property
from itertools import groupby

from branchwright.checks.charging_cost.tariffs.facts import Tariff
from branchwright.checks.charging_cost.tariffs.price_hours import (
    QUARTERS,
    day_prices,
    is_in_season,
    quarters_of,
    rows_of,
)

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
        matches = day_prices(self._tariff, kind.season, kind.weekday, kind.is_holiday).matches
        if (matches == 1).all():
            return
        rows = self._rows_by_quarter(kind)
        for applying, span in groupby(range(QUARTERS), key=rows.__getitem__):
            if len(applying) == 1:
                continue
            quarters = list(span)
            found = Unsound(kind, self._examples.get(kind), quarters[0], quarters[-1] + 1, applying)
            (self.doubles if applying else self.gaps).append(found)

    def _rows_by_quarter(self, kind: DayKind) -> list[tuple[int, ...]]:
        rows: list[tuple[int, ...]] = [()] * QUARTERS
        for place in rows_of(self._tariff, kind.season, kind.weekday, kind.is_holiday):
            rate = self._tariff.energy_rates[place]
            for part in quarters_of(rate.begin, rate.end):
                for quarter in range(QUARTERS)[part]:
                    rows[quarter] = (*rows[quarter], place)
        return rows

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
