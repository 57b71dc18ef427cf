"""When a part of a tariff applies: a season or a day type on which dates, a rate or an event in which minutes."""

from datetime import date

from branchwright.checks.charging_cost.tariffs.calendar_facts import DayType, Season
from branchwright.questions.local_days import WEEKDAYS, minutes_of

DAY_MINUTES = 1440
QUARTERS = 96
"""Quarter hours of a day of 24 h."""


def season_has(season: Season, day_of_year: str) -> bool:
    """Return whether a day MM-DD lies in a season; one whose end is before its beginning goes over the new year."""
    if season.begin <= season.end:
        return season.begin <= day_of_year <= season.end
    return day_of_year >= season.begin or day_of_year <= season.end


def is_of_day_type(day_type: DayType, weekday: int, *, is_holiday: bool) -> bool:
    """Return whether a holiday, or a day that is none, of a weekday (0 for Monday) is of a day type."""
    if is_holiday and day_type.holidays in ("included", "excluded"):
        return day_type.holidays == "included"
    return WEEKDAYS[weekday] in day_type.weekdays


def minutes_between(begin: str, end: str) -> tuple[tuple[int, int], ...]:
    """Return the spans of minutes of a day from one clock time to another; at or before it: both ends of the day.

    >>> minutes_between("22:00", "07:00"), minutes_between("00:00", "00:00")
    (((0, 420), (1320, 1440)), ((0, 1440),))
    """
    first, last = minutes_of(begin), minutes_of(end)
    if first < last:
        return ((first, last),)
    if first == last:
        return ((0, DAY_MINUTES),)
    return ((0, last), (first, DAY_MINUTES)) if last else ((first, DAY_MINUTES),)


def calendar_date(stated: str) -> date | None:
    """Return a stated date YYYY-MM-DD; None where the calendar has no such day."""
    try:
        return date.fromisoformat(stated)
    except ValueError:
        return None
