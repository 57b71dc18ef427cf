"""From a pandas Series or DataFrame to interval data. Nothing here imports pandas: whoever has one has it already."""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import TYPE_CHECKING, Any, Literal, Protocol, cast

from .errors import FieldError, InvalidRequest
from .field_errors import child, short

if TYPE_CHECKING:
    from . import mappings

_READINGS = "/series/readings"


class SeriesLike(Protocol):
    """What is asked of a pandas Series: its labels, and its values as Python's own."""

    @property
    def index(self) -> Iterable[Any]:
        """Return the labels: the time of each reading."""
        ...

    def tolist(self) -> list[Any]:
        """Return the values."""
        ...


class FrameLike(Protocol):
    """What is asked of a pandas DataFrame: its labels, and a column by name."""

    @property
    def index(self) -> Iterable[Any]:
        """Return the labels: the time of each row."""
        ...

    @property
    def columns(self) -> Iterable[Any]:
        """Return the names of the columns."""
        ...

    def __getitem__(self, name: Any, /) -> Any:
        """Return a column."""
        ...


def interval_series(
    data: SeriesLike | FrameLike,
    *,
    unit: Literal["energy-wh", "energy-kwh", "power-w", "power-kw", "register-wh", "register-kwh"],
    stamps_at: Literal["start", "end"],
    column: object = None,
    quality_column: object = None,
) -> mappings.StampedSeries:
    """Return the readings of a pandas Series or DataFrame as `series` of `client.services.read_interval_data`.

        client.services.read_interval_data(series=interval_series(meter, unit="energy-kwh", stamps_at="start"))

    The index holds the times (a DatetimeIndex or a PeriodIndex, of which the start is taken). Times without a zone
    are sent without one: the question then needs its `time_zone`. Readings go as they stand, in their order, with
    gaps and duplicates, so that the answer can name them; a value that is missing (NaN, None, NA) goes as null.

    Args:
      data: A Series, or a DataFrame.
      unit: What the values are; it cannot be told from them.
      stamps_at: Whether a time is the start or the end of its interval.
      column: The column of a DataFrame that holds the values; may be left out where there is no other.
      quality_column: The column that says how each value came about, in the words of the contract.

    Raises InvalidRequest, naming the reading, for what is no time or no number, and for a column that is not there.
    """
    values, qualities = _columns(data, column, quality_column)
    readings: list[mappings.StampedReading] = []
    for position, (stamp, value) in enumerate(zip(data.index, values, strict=True)):
        reading: mappings.StampedReading = {"at": _at(stamp, position), "value": _value(value, position)}
        if qualities is not None and not _is_missing(qualities[position]):
            reading["quality"] = qualities[position]
        readings.append(reading)
    return {"kind": "stamped", "unit": unit, "stamps_at": stamps_at, "readings": readings}


def _columns(data: object, column: object, quality_column: object) -> tuple[list[Any], list[Any] | None]:
    """Return the values and, where there are any, the qualities."""
    if not hasattr(data, "columns"):
        if column is not None or quality_column is not None:
            raise _unusable("", "a Series has no columns", str(column or quality_column))
        return cast("SeriesLike", data).tolist(), None
    frame = cast("FrameLike", data)
    names = list(frame.columns)
    others = [name for name in names if name != quality_column]
    if column is None and len(others) != 1:
        raise _unusable("", "column says which of several columns holds the values", str(names))
    chosen = others[0] if column is None else column
    for name in (chosen,) if quality_column is None else (chosen, quality_column):
        if names.count(name) != 1:
            raise _unusable("", "there is no such column, or more than one", str(name))
    qualities = None if quality_column is None else frame[quality_column].tolist()
    return frame[chosen].tolist(), qualities


def _at(stamp: Any, position: int) -> str:
    """Return a time as ISO 8601; of a period, its start."""
    moment = getattr(stamp, "start_time", stamp)
    if _is_missing(stamp) or not hasattr(moment, "isoformat"):
        raise _unusable(child(child(_READINGS, position), "at"), "is no time", str(stamp))
    text: str = moment.isoformat()
    return text


def _value(value: Any, position: int) -> float | None:
    if _is_missing(value):
        return None
    try:
        return float(value)
    except (TypeError, ValueError):
        raise _unusable(child(child(_READINGS, position), "value"), "is no number", str(value)) from None


def _is_missing(value: Any) -> bool:
    """Return whether a value is None, NaN, NaT or NA: what is unequal to itself, or will not say."""
    if value is None or (isinstance(value, float) and math.isnan(value)):
        return True
    try:
        return bool(value != value)
    except TypeError:  # NA is neither equal nor unequal
        return True


def _unusable(pointer: str, message: str, given: object) -> InvalidRequest:
    return InvalidRequest.before_sending(FieldError(pointer, message, "invalid", short(given)))
