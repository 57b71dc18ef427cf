"""Numbers, orders of dates and marks of quality as files write them; what leaves a doubt is not guessed."""

import re
from collections.abc import Iterable
from typing import Final, Literal, TypeAlias

from branchwright.checks.service_capacity.interval_data.collected import MARKS
from branchwright.checks.service_capacity.interval_data.facts import GREATEST_VALUE
from branchwright.checks.service_capacity.interval_data.time_stamps import day_and_month_places

DecimalMark: TypeAlias = Literal["point", "comma"]

_WITH_POINT: Final = re.compile(
    r"[+-]?(?:[0-9]+|[0-9]{1,3}(?:,[0-9]{3})+)?(?:\.[0-9]*)?(?:[eE][+-]?[0-9]{1,3})?"
)
_WITH_COMMA: Final = re.compile(
    r"[+-]?(?:[0-9]+|[0-9]{1,3}(?:\.[0-9]{3})+)?(?:,[0-9]*)?(?:[eE][+-]?[0-9]{1,3})?"
)
_THOUSANDS: Final = re.compile(r"[+-]?[1-9][0-9]{0,2}(?:[.,][0-9]{3})+")
"""What may be a whole number with its thousands parted, or a number with three decimals."""

_WORDS: Final = {
    "measured": (
        "",
        "0",
        "14",
        "17",
        "18",
        "19",
        "a",
        "actual",
        "m",
        "measured",
        "r",
        "real",
        "ok",
        "valid",
        "validated",
    ),
    "edited": ("7", "edited", "manual"),
    "estimated": ("8", "9", "e", "est", "estimate", "estimated"),
    "questionable": ("10", "questionable", "suspect"),
    "derived": ("11", "15", "derived", "calculated"),
    "projected": ("12", "projected", "forecast"),
    "mixed": ("13", "mixed"),
}
"""How exports mark a value: the words of the trade, and the numbers of Green Button (NAESB ESPI, QualityOfReading)."""

MARK_OF_WORD: Final = {word: MARKS.index(mark) for mark, words in _WORDS.items() for word in words}
UNKNOWN: Final = MARKS.index("unknown")


class NoNumber(ValueError):
    """A text that is no number, or none of a meter."""


def parse_number(text: str, mark: DecimalMark) -> float:
    """Return the number that a text is; raise NoNumber where it is none."""
    stripped = text.strip().replace("\u00a0", "")
    pattern, parting, decimal = (_WITH_POINT, ",", ".") if mark == "point" else (_WITH_COMMA, ".", ",")
    if not pattern.fullmatch(stripped) or not any(character.isdigit() for character in stripped):
        raise NoNumber(f"it is no number with a decimal {mark}.")
    try:
        value = float(stripped.replace(parting, "").replace(decimal, "."))
    except ValueError:
        raise NoNumber(f"it is no number with a decimal {mark}.") from None
    if abs(value) > GREATEST_VALUE:
        raise NoNumber(f"it is beyond {GREATEST_VALUE:g}.")
    return value


def decimal_mark_of(texts: Iterable[str], delimiter: str) -> DecimalMark | None:
    """Return the decimal mark that the numbers leave no doubt about; None where they do, or contradict each other.

    Without point or comma either does. Three digits after a comma leave it open whether it parts thousands; after a
    point they do only between semicolons, where commas are likely decimals.
    """
    surely: set[DecimalMark] = set()
    maybe: set[DecimalMark] = set()
    for text in texts:
        points, commas = text.count("."), text.count(",")
        if not points and not commas:
            continue
        if points and commas:
            surely.add("point" if text.rindex(".") > text.rindex(",") else "comma")
        elif points > 1 or commas > 1:
            surely.add("comma" if points else "point")
        elif _THOUSANDS.fullmatch(text.strip()):
            maybe.add("point" if points else "comma")
        else:
            surely.add("point" if points else "comma")
    if surely:
        return surely.pop() if len(surely) == 1 else None
    if "comma" in maybe or (maybe and delimiter == ";"):
        return None
    return "point"


def date_order_of(texts: Iterable[str]) -> str | None:
    """Return the order of day and month in dates that end with the year; None where they leave a doubt.

    Dates in another form leave none.
    """
    day_first, month_first, either = False, False, False
    for text in texts:
        places = day_and_month_places(text)
        if places is None:
            continue
        either = True
        first, second = places
        day_first = day_first or first > 12
        month_first = month_first or second > 12
    if not either:
        return "year-month-day"
    if day_first == month_first:
        return None
    return "day-month-year" if day_first else "month-day-year"


def has_short_year(texts: Iterable[str]) -> bool:
    """Return whether a date ends with a year of two digits."""
    return any(re.match(r"[0-9]{1,2}([-/.])[0-9]{1,2}\1[0-9]{2}(?![0-9])", text.strip()) for text in texts)
