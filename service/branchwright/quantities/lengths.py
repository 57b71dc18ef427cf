"""Lengths in the units that a request may use, turned into feet.

The foot is exactly 0.3048 m and the inch exactly 0.0254 m
(international yard and pound agreement of 1959; NIST Special Publication 811).
"""

from typing import Final, Literal, TypeAlias

LengthUnit: TypeAlias = Literal["ft", "in", "m", "mm"]

METRIC: Final[frozenset[LengthUnit]] = frozenset({"m", "mm"})

UNITS_PER_FOOT: Final[dict[LengthUnit, float]] = {"ft": 1.0, "in": 12.0, "m": 0.3048, "mm": 304.8}
"""How many of each unit make one foot."""


KM_PER_MI: Final = 1.609344
"""How many kilometres make one mile, of 5280 feet."""


def feet(value: float, unit: LengthUnit) -> float:
    """Return a length in feet.

    >>> feet(3.048, "m")
    10.0
    """
    return value / UNITS_PER_FOOT[unit]


def inches(value: float, unit: LengthUnit) -> float:
    """Return a length in inches.

    >>> inches(2.0, "ft")
    24.0
    """
    return feet(value, unit) * 12.0


def millimetres(value: float, unit: LengthUnit) -> float:
    """Return a length in millimetres, rounded to a millionth, so that binary fractions do not move it off a limit.

    >>> millimetres(0.45, "m")
    450.0
    """
    return round(feet(value, unit) * UNITS_PER_FOOT["mm"], 6)
