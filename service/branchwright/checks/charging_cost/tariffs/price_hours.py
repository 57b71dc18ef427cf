"""Which energy rate prices which quarter of an hour: by season, weekday, and whether it is a holiday."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from branchwright.calculations.arrays import Whole
from branchwright.checks.charging_cost.tariffs.calendar_facts import DayType, Season
from branchwright.checks.charging_cost.tariffs.facts import Tariff
from branchwright.questions.local_days import WEEKDAYS, minutes_of

Rows: TypeAlias = NDArray[np.int16]

QUARTERS = 96
"""Quarters of an hour of a day by the clock."""

UNPRICED = -1
NO_SEASON = -1


@dataclass(slots=True, frozen=True)
class DayPrices:
    """What prices the quarters of an hour of one kind of date.

    `row` is the first energy rate that matches each, -1 where none does; `matches` how many do. Both have shape (96,).
    """

    row: Rows
    matches: Rows


def quarters_of(begin: str, end: str) -> list[slice]:
    """Return the quarters of an hour between two clock times of one date.

    Where the end is at or before the beginning, both ends of the date are meant.

    >>> quarters_of("14:00", "19:00"), quarters_of("22:00", "07:00")
    ([slice(56, 76, None)], [slice(0, 28, None), slice(88, 96, None)])
    """
    first, last = minutes_of(begin) // 15, minutes_of(end) // 15
    return [slice(first, last)] if first < last else [slice(0, last), slice(first, QUARTERS)]


def is_in_season(season: Season, day: str) -> bool:
    """Return whether a date MM-DD lies in a season, which may go on past the end of the year."""
    if season.begin <= season.end:
        return season.begin <= day <= season.end
    return day >= season.begin or day <= season.end


def seasons_of(seasons: Sequence[Season], days_of_year: Whole) -> Whole:
    """Return the place of the first season that each of some days lies in, -1 where it lies in none, shape (D,).

    A day is 100 x month + day of the month, such as 1231.
    """
    found = np.full(len(days_of_year), NO_SEASON, dtype=np.int64)
    for place in reversed(range(len(seasons))):
        begin, end = (int(each.replace("-", "")) for each in (seasons[place].begin, seasons[place].end))
        from_begin, until_end = days_of_year >= begin, days_of_year <= end
        found[from_begin & until_end if begin <= end else from_begin | until_end] = place
    return found


def has_day(day_type: DayType, weekday: int, is_holiday: bool) -> bool:
    """Return whether a date is of a kind of day; weekdays count from 0 for Monday."""
    if is_holiday and day_type.holidays in ("included", "excluded"):
        return day_type.holidays == "included"
    return WEEKDAYS[weekday] in day_type.weekdays


def looks_at_holidays(tariff: Tariff) -> bool:
    """Return whether some kind of day treats holidays apart."""
    return any(each.holidays in ("included", "excluded") for each in tariff.day_types)


def rows_of(tariff: Tariff, season: str | None, weekday: int, is_holiday: bool) -> Iterator[int]:
    """Yield the places of the energy rates that price a kind of date at some hour."""
    kinds = {each.name for each in tariff.day_types if has_day(each, weekday, is_holiday)}
    for place, rate in enumerate(tariff.energy_rates):
        if rate.season in (None, season) and (rate.day_type is None or rate.day_type in kinds):
            yield place


def prices_of(tariff: Tariff, rows: Iterable[int]) -> DayPrices:
    """Return which of some energy rates prices each quarter of a date that all of them price."""
    row = np.full(QUARTERS, UNPRICED, dtype=np.int16)
    matches = np.zeros(QUARTERS, dtype=np.int16)
    for place in rows:
        rate = tariff.energy_rates[place]
        for part in quarters_of(rate.begin, rate.end):
            row[part] = np.where(matches[part] == 0, place, row[part])
            matches[part] += 1
    return DayPrices(row, matches)
