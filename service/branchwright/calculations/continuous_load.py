"""Continuous loads: what a load of three hours or more asks of breaker and conductor."""

from branchwright.calculations.calculation import calculation


@calculation("least rating for a continuous load", "round(factor * load_a, 6)", "A")
def least_rating_a(factor: float, load_a: float) -> float:
    """Return the least rating or ampacity in A for a continuous load in A.

    Formula: factor times load. Source: NEC 625.41 and 210.19(A), factor 1.25.
    Rounded to a millionth of an ampere, so that binary fractions do not move it across a standard rating.

    >>> least_rating_a(1.25, 48.0)
    60.0
    """
    return round(factor * load_a, 6)
