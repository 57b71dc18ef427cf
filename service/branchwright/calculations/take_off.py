"""Quantities of an installation: lengths with waste, whole sticks, what joins and what fastens them, hours of work.

Where a figure is rounded up it is first rounded to a millionth, so that binary fractions do not buy one more.
"""

from math import ceil

from branchwright.calculations.calculation import calculation


@calculation(
    "conductors with waste and ends", "count * (length_ft * (1 + waste_percent / 100) + ends_ft)", "ft"
)
def bought_conductor_ft(count: float, length_ft: float, waste_percent: float, ends_ft: float) -> float:
    """Return the feet to buy of a number of conductors, or cables, that are drawn in one piece.

    Each is as long as the run, longer by the waste, and has two ends of ends_ft together.
    Source: common practice, no source.

    >>> round(bought_conductor_ft(3.0, 40.0, 7.5, 8.0), 6)
    153.0
    """
    return count * (length_ft * (1 + waste_percent / 100) + ends_ft)


@calculation("conductors to pull", "count * length_ft", "ft")
def pulled_ft(count: float, length_ft: float) -> float:
    """Return the feet of conductor that are pulled into a raceway, each over its length. Source: arithmetic.

    >>> pulled_ft(3.0, 40.0)
    120.0
    """
    return count * length_ft


@calculation("raceway with waste", "length_ft * (1 + waste_percent / 100)", "ft")
def bought_raceway_ft(length_ft: float, waste_percent: float) -> float:
    """Return the feet to buy of a raceway. Source: common practice, no source.

    >>> bought_raceway_ft(40.0, 10.0)
    44.0
    """
    return length_ft * (1 + waste_percent / 100)


@calculation("whole sticks", "ceil(round(bought_ft / stick_ft, 6))", "count")
def sticks_count(bought_ft: float, stick_ft: float) -> float:
    """Return how many sticks hold a length: whole ones are bought. Source: arithmetic.

    >>> sticks_count(44.0, 10.0)
    5.0
    """
    return float(ceil(round(bought_ft / stick_ft, 6)))


@calculation("couplings between sticks", "max(0, ceil(round(length_ft / stick_ft, 6)) - 1)", "count")
def couplings_count(length_ft: float, stick_ft: float) -> float:
    """Return how many couplings join the sticks of one segment: one fewer than sticks. Source: arithmetic.

    >>> couplings_count(40.0, 10.0)
    3.0
    """
    return float(max(0, ceil(round(length_ft / stick_ft, 6)) - 1))


@calculation(
    "straps by the support rule",
    "max(0, ceil(round((length_ft * 12 - 2 * within_in) / interval_in, 6))) + 1",
    "count",
)
def straps_count(length_ft: float, within_in: float, interval_in: float) -> float:
    """Return the fewest straps of a segment with a box at either end.

    One strap stands within within_in of each box and none is farther than interval_in from the next; a segment of
    twice within_in or less has one that serves both boxes. Source: geometry of the support rule, such as
    NEC 358.30(A): within 3 ft of a box and every 10 ft.

    >>> straps_count(40.0, 36.0, 120.0)
    5.0
    """
    return float(max(0, ceil(round((length_ft * 12 - 2 * within_in) / interval_in, 6))) + 1)


@calculation("pieces with waste", "ceil(round(built_in * (1 + waste_percent / 100), 6))", "count")
def bought_pieces_count(built_in: float, waste_percent: float) -> float:
    """Return how many fittings to buy for those that are built in. Source: common practice, no source.

    >>> bought_pieces_count(8.0, 15.0)
    10.0
    """
    return float(ceil(round(built_in * (1 + waste_percent / 100), 6)))
