"""The dates that count as holidays for a tariff: a country's public calendar by the tariff's own choice, and its dates.

A holiday that falls on a weekend may be observed on another day, by rules that each country has. The library behind
this lists both days; the tariff says which of them counts. An observed New Year's Day may lie in the year before.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from functools import lru_cache
from typing import Protocol

import holidays

from branchwright.checks.charging_cost.tariffs.calendar_facts import ObservedHolidays, calendar_date
from branchwright.checks.charging_cost.tariffs.facts import Tariff

STATED = "date stated in the tariff"
ENGLISH = "en_US"
ASSUMED_RULE: ObservedHolidays = "both"
KNOWN_IN_FULL = {"IN": range(2001, 2036)}
"""Years outside which the library lists a part of the holidays, and says so in a warning."""

FARTHEST_DAYS = 10
"""Farther than this no holiday is observed from its own day."""


@dataclass(slots=True, frozen=True)
class PublicHoliday:
    """One day of one holiday: its own or the one on which it is observed; `of` is the name of the holiday itself."""

    day: date
    name: str
    of: str
    is_observed_elsewhere: bool
    is_observed_day: bool

    def counts(self, rule: ObservedHolidays) -> bool:
        """Return whether this day of the holiday counts."""
        if rule == "observed-day":
            return not self.is_observed_elsewhere
        return rule == "both" or not self.is_observed_day


class Calendar(Protocol):
    """What is asked of the library's calendar of one country."""

    start_year: int
    end_year: int
    subdivisions: tuple[str, ...]
    default_language: str | None
    supported_languages: tuple[str, ...]


@lru_cache(maxsize=1)
def known_countries() -> tuple[str, ...]:
    """Return the codes of the countries whose calendars are known."""
    return tuple(holidays.list_supported_countries(include_aliases=False))


def known_subdivisions(country: str) -> tuple[str, ...]:
    """Return the codes of a known country's parts with holidays of their own."""
    return tuple(sorted(_calendar(country).subdivisions))


def known_years(country: str) -> range:
    """Return the years of a known country's calendar."""
    calendar = _calendar(country)
    return KNOWN_IN_FULL.get(country) or range(calendar.start_year, calendar.end_year + 1)


def _calendar(country: str) -> Calendar:
    calendar: Calendar = getattr(holidays, country)
    return calendar


@lru_cache(maxsize=256)
def public_holidays(country: str, subdivision: str | None, year: int) -> tuple[PublicHoliday, ...]:
    """Return every day of a year that is a holiday's own or on which one is observed, in order of date and name.

    Raises:
        KeyError: country or subdivision is not known.
    """
    if country not in known_countries():
        raise KeyError(country)
    if subdivision is not None and subdivision not in known_subdivisions(country):
        raise KeyError(subdivision)
    # What is observed before a new year belongs to the year after, and the other way round.
    years = [known for known in (year - 1, year, year + 1) if known in known_years(country)]
    own = _listed(country, subdivision, years, observed=False)
    origins = {
        entry: _origin(*entry, own) for entry in _listed(country, subdivision, years, observed=True) - own
    }
    moved = set(origins.values())
    found = [PublicHoliday(day, name, name, (day, name) in moved, False) for day, name in own]
    found += [
        PublicHoliday(day, name, name if origin is None else origin[1], False, True)
        for (day, name), origin in origins.items()
    ]
    return tuple(
        sorted((item for item in found if item.day.year == year), key=lambda item: (item.day, item.name))
    )


def _listed(
    country: str, subdivision: str | None, years: list[int], *, observed: bool
) -> set[tuple[date, str]]:
    """Return date and name of each holiday that the library lists, by its names in English where it has them."""
    if not years:
        return set()
    calendar = _calendar(country)
    # Without a stated language the library takes that of the environment.
    language = ENGLISH if ENGLISH in calendar.supported_languages else calendar.default_language
    listed = holidays.country_holidays(
        country, subdiv=subdivision, years=years, observed=observed, language=language
    )
    return {(day, name) for day in listed for name in listed.get_list(day)}


def _origin(day: date, name: str, own: Iterable[tuple[date, str]]) -> tuple[date, str] | None:
    """Return the holiday that is observed on a day under some name: one that the name names, else the nearest."""
    near = [entry for entry in own if abs((entry[0] - day).days) <= FARTHEST_DAYS]
    named = [entry for entry in near if entry[1].partition(" (")[0] in name]
    return min(
        named or near, key=lambda entry: (abs((entry[0] - day).days), entry[0], entry[1]), default=None
    )


def names_of_holidays(country: str, subdivision: str | None, first: int, last: int) -> tuple[str, ...]:
    """Return the names of the holidays of some years, by which a tariff may choose them.

    Raises:
        KeyError: country or subdivision is not known.
    """
    found = {
        holiday.of
        for year in range(first, last + 1)
        for holiday in public_holidays(country, subdivision, year)
    }
    return tuple(sorted(found))


def chosen_holidays(tariff: Tariff, year: int) -> list[PublicHoliday]:
    """Return the holidays of a year that count for a tariff, without the dates that it states.

    Raises:
        KeyError: its country or subdivision is not known.
    """
    if tariff.country is None:
        return []
    names = tariff.holiday_names
    return [
        holiday
        for holiday in public_holidays(tariff.country, tariff.subdivision, year)
        if holiday.counts(tariff.observed_holidays or ASSUMED_RULE) and (names is None or holiday.of in names)
    ]


def holiday_dates(tariff: Tariff, first: date, last: date) -> dict[date, str]:
    """Return the dates from one to another that count as holidays for a tariff, with their names, in order.

    A country, subdivision or date that is not known brings none; findings say so.
    """
    found: dict[date, str] = {}
    for year in range(first.year, last.year + 1):
        try:
            chosen = chosen_holidays(tariff, year)
        except KeyError:
            break
        for holiday in chosen:
            earlier = found.get(holiday.day)
            found[holiday.day] = holiday.name if earlier is None else f"{earlier}; {holiday.name}"
    for stated in tariff.holiday_dates or ():
        day = calendar_date(stated)
        if day is not None:
            found.setdefault(day, STATED)
    return {day: found[day] for day in sorted(found) if first <= day <= last}
