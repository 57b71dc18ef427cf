"""Ampacity under the conditions of use."""

from math import fsum

from branchwright.calculations.calculation import calculation


@calculation("corrected ampacity", "round(ampacity_a * correction * adjustment_percent / 100, 6)", "A")
def corrected_ampacity_a(ampacity_a: float, correction: float, adjustment_percent: float) -> float:
    """Return an ampacity in A after ambient correction and conductor-count adjustment.

    Source: NEC 310.15. Published example: 10 AWG at 90 degC, four conductors, EC&M Code Q&A 112.

    >>> corrected_ampacity_a(40.0, 1.0, 80.0)
    32.0
    """
    return round(ampacity_a * correction * adjustment_percent / 100, 6)


@calculation("ambient temperature with rooftop adder", "ambient_c + adder_c", "degC")
def rooftop_ambient_c(ambient_c: float, adder_c: float) -> float:
    """Return the ambient temperature in degC of a raceway close above a roof in the sun. Source: NEC 310.15(B)(2).

    >>> rooftop_ambient_c(40.0, 33.0)
    73.0
    """
    return ambient_c + adder_c


@calculation(
    "length over which a lower ampacity may be disregarded",
    "min(longest_ft, greatest_percent / 100 * high_ft)",
    "ft",
)
def short_length_limit_ft(longest_ft: float, greatest_percent: float, high_ft: float) -> float:
    """Return how long in ft the portions of lower ampacity may be for the higher ampacity to be used.

    The lesser of a fixed length and a share of the length at the higher ampacity.
    Source: NEC 310.14(A)(2) exception.

    >>> short_length_limit_ft(10.0, 10.0, 60.0)
    6.0
    """
    return min(longest_ft, greatest_percent / 100 * high_ft)


def governing_ampacity_a(
    ampacities_a: list[float],
    lengths_ft: list[float],
    exempt: list[bool],
    longest_ft: float,
    greatest_percent: float,
) -> float:
    """Return the ampacity in A that governs a run of segments in series.

    The lowest governs, save where all portions below a higher one are short enough (`short_length_limit_ft`)
    and none of them is `exempt` from the exception. Lengths are summed exactly, so the order of the segments
    does not matter. Source: NEC 310.14(A)(2) and its exception.

    >>> governing_ampacity_a([65.0, 50.0], [90.0, 9.0], [False, False], 10.0, 10.0)
    65.0
    >>> governing_ampacity_a([65.0, 50.0], [80.0, 9.0], [False, False], 10.0, 10.0)
    50.0
    """
    lowest = min(ampacities_a)
    if lowest == max(ampacities_a):
        return lowest
    for candidate in sorted(set(ampacities_a), reverse=True):
        if candidate == lowest:
            break
        below = [place for place, ampacity in enumerate(ampacities_a) if ampacity < candidate]
        if any(exempt[place] for place in below):
            continue
        low_ft = fsum(lengths_ft[place] for place in below)
        high_ft = fsum(length for place, length in enumerate(lengths_ft) if ampacities_a[place] >= candidate)
        if low_ft <= short_length_limit_ft.value(longest_ft, greatest_percent, high_ft):
            return candidate
    return lowest
