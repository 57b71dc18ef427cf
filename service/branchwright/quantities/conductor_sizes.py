"""Conductor sizes as ordered values, from 14 AWG to 250 kcmil.

The order is that of cross-sectional area: 14 AWG is the smallest, 250 kcmil the largest.
Source of the names: ASTM B258 (American Wire Gauge); above 4/0 AWG the area itself names the size.
"""

from typing import Final, Literal, TypeAlias, get_args

ConductorSize: TypeAlias = Literal[
    "14 AWG",
    "12 AWG",
    "10 AWG",
    "8 AWG",
    "6 AWG",
    "4 AWG",
    "3 AWG",
    "2 AWG",
    "1 AWG",
    "1/0 AWG",
    "2/0 AWG",
    "3/0 AWG",
    "4/0 AWG",
    "250 kcmil",
]

SIZES: Final[tuple[ConductorSize, ...]] = get_args(ConductorSize)
"""Every size, smallest first."""

RANK: Final[dict[str, int]] = {size: rank for rank, size in enumerate(SIZES)}
"""Place of a size in the order of area, 0 for 14 AWG."""


def smaller_of(one: ConductorSize, other: ConductorSize) -> ConductorSize:
    """Return the size with the smaller area.

    >>> smaller_of("6 AWG", "1/0 AWG")
    '6 AWG'
    """
    return one if RANK[one] <= RANK[other] else other


def sizes_above(size: ConductorSize) -> tuple[ConductorSize, ...]:
    """Return every size larger than the given one, nearest first.

    >>> sizes_above("3/0 AWG")
    ('4/0 AWG', '250 kcmil')
    """
    return SIZES[RANK[size] + 1 :]
