"""Dates and times as files write them."""

import re
from dataclasses import dataclass
from datetime import date, datetime

from branchwright.checks.service_capacity.interval_data.collected import NO_OFFSET
from branchwright.checks.service_capacity.interval_data.zones import EARLIEST_S, LATEST_S, WALL_EPOCH
from branchwright.questions.local_time import DAY_S

_YEAR_FIRST = re.compile(r"([0-9]{4})([-/.])([0-9]{1,2})\2([0-9]{1,2})")
_YEAR_LAST = re.compile(r"([0-9]{1,2})([-/.])([0-9]{1,2})\2([0-9]{4}|[0-9]{2})")
_TOGETHER = re.compile(r"([0-9]{4})([0-9]{2})([0-9]{2})")
_TIME = re.compile(
    r"([0-9]{1,2})(?::([0-9]{2})(?::([0-9]{2})(?:[.,]0+)?)?)? *(?:([AaPp])\.?[Mm]\.?)? *(Z|UTC|[+-][0-9]{2}:?[0-9]{2})?"
)
_DIGITS_ALONE = re.compile(r"([0-9]{2})([0-9]{2})")

GREATEST_OFFSET_H = 14

CENTURY = 2000
"""Of years with two digits."""


@dataclass(slots=True, frozen=True)
class ParsedTime:
    """A time of day."""

    second: int
    offset: int
    """From UTC in seconds; NO_OFFSET where none is written."""


class NoStamp(ValueError):
    """A text that is no date or time; says what is wrong with it."""


def iso_stamp(text: str) -> tuple[int, int]:
    """Return the clock of an ISO 8601 stamp in seconds, and its offset; raise NoStamp for an impossible one."""
    try:
        moment = datetime.fromisoformat(text)
    except ValueError as error:
        raise NoStamp(f"no such date and time ({error}).") from None
    if moment.microsecond:
        raise NoStamp("it is not on a whole second.")
    offset = moment.utcoffset()
    wall = moment.replace(tzinfo=None) - WALL_EPOCH
    return _within(wall.days * DAY_S + wall.seconds), NO_OFFSET if offset is None else int(
        offset.total_seconds()
    )


def _within(second: int) -> int:
    if not EARLIEST_S <= second <= LATEST_S:
        raise NoStamp("its year is none of a meter reading.")
    return second


def day_and_month_places(text: str) -> tuple[int, int] | None:
    """Return the first two numbers of a date that ends with its year; None for another form."""
    found = _YEAR_LAST.match(text.strip())
    return (int(found[1]), int(found[3])) if found else None


def parse_date(text: str, date_order: str) -> tuple[int, str]:
    """Return the start of a date in seconds, and the text after it.

    `date_order` is that of dates whose year is not first; raises NoStamp for what is no date.
    """
    stripped = text.strip()
    if found := _YEAR_FIRST.match(stripped):
        year, month, day = int(found[1]), int(found[3]), int(found[4])
    elif found := _TOGETHER.match(stripped):
        year, month, day = (int(part) for part in found.groups())
    elif found := _YEAR_LAST.match(stripped):
        first, second, year = int(found[1]), int(found[3]), int(found[4])
        year += CENTURY if len(found[4]) == 2 else 0
        day, month = (first, second) if date_order == "day-month-year" else (second, first)
    else:
        raise NoStamp("it is no date such as 2025-01-31, 01/31/2025 or 31.01.2025.")
    try:
        days = date(year, month, day).toordinal() - date(1970, 1, 1).toordinal()
    except ValueError:
        raise NoStamp("there is no such day.") from None
    return _within(days * DAY_S), stripped[found.end() :].lstrip(" T,")


def parse_time(text: str) -> ParsedTime:
    """Return a time of day, 24:00 included; raise NoStamp for what is none."""
    stripped = text.strip()
    found = _DIGITS_ALONE.fullmatch(stripped)
    if found:
        hour, minute, second, half, zone = int(found[1]), int(found[2]), 0, None, None
    else:
        found = _TIME.fullmatch(stripped)
        if found is None or (found[2] is None and found[4] is None):
            raise NoStamp("it is no time such as 17:45, 17:45:00 or 5:45 PM.")
        hour, minute, second = int(found[1]), int(found[2] or 0), int(found[3] or 0)
        half, zone = found[4], found[5]
    if half is not None:
        if not 1 <= hour <= 12:
            raise NoStamp("there is no such time.")
        hour = hour % 12 + (12 if half in "Pp" else 0)
    if minute > 59 or second > 59 or hour * 3600 + minute * 60 + second > DAY_S:
        raise NoStamp("there is no such time.")
    return ParsedTime(hour * 3600 + minute * 60 + second, _offset(zone))


def _offset(zone: str | None) -> int:
    if zone is None:
        return NO_OFFSET
    if zone in ("Z", "UTC"):
        return 0
    hours, minutes = int(zone[1:3]), int(zone[-2:])
    if hours > GREATEST_OFFSET_H or minutes > 59:
        raise NoStamp("no clock is that far from UTC.")
    return (-1 if zone[0] == "-" else 1) * (hours * 3600 + minutes * 60)
