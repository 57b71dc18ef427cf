"""What a bill is made of: energy by month and class, tiers, demand, and shares of a month.

Energy is summed in binary floating point and billed in decimals: six digits after the point of a kWh, a thousandth of
a watt-hour. From there on nothing is rounded but money.
"""

from collections.abc import Sequence
from decimal import Decimal

import numpy as np

from branchwright.calculations.arrays import Floats, Whole

QUANTITY_DIGITS = 6
NOTHING = Decimal(0)


def billed_quantity(quantity: float) -> Decimal:
    """Return a quantity as a bill states it: a decimal with six digits after the point.

    Source: our convention; the digits are those that the number shows, so that no binary fraction is carried on.

    >>> billed_quantity(0.1 + 0.2), billed_quantity(412.0)
    (Decimal('0.3'), Decimal('412.0'))
    """
    return Decimal(repr(round(float(quantity), QUANTITY_DIGITS)))


def sums_by_class(energy_kwh: Floats, classes: Whole, count: int) -> Floats:
    """Return the energy in kWh of each class of intervals, shape (count,).

    Args:
        energy_kwh: energy of each interval, shape (N,).
        classes: the class of each interval, 0 to count - 1, shape (N,).
        count: how many classes there are.

    >>> sums_by_class(np.array([1.0, 2.0, 4.0]), np.array([0, 2, 0]), 3)
    array([5., 0., 2.])
    """
    return np.bincount(classes, weights=energy_kwh, minlength=count).astype(np.float64, copy=False)


def tier_quantities(quantity: Decimal, ends: Sequence[Decimal | None]) -> list[Decimal]:
    """Return how much of a quantity lies in each tier.

    Formula: min(quantity, end of the tier) - end of the tier before, and nothing where that is below zero. The last
    tier is open; what lies beyond a last one that has an end is in no tier. Worked by hand: 700 kWh in tiers up to
    300 kWh, up to 500 kWh and open are 300 + 200 + 200.

    >>> [str(part) for part in tier_quantities(Decimal(700), [Decimal(300), Decimal(500), None])]
    ['300', '200', '200']
    """
    parts: list[Decimal] = []
    begin = NOTHING
    for end in ends:
        reached = quantity if end is None or quantity < end else end
        parts.append(max(reached - begin, NOTHING))
        begin = max(begin, reached)
    return parts


def average_power_kw(energy_kwh: Floats, intervals: int, hours: float) -> Floats:
    """Return the average power in kW of each group of so many neighbouring intervals of equal length in hours.

    Formula: energy of the group / time of the group. A last group that is not full is averaged over its whole time.
    Source: definition of demand as energy over time. Worked by hand: 1, 2, 4 and 5 kWh in quarters of an hour are
    12 kWh in one hour, 12 kW.

    >>> average_power_kw(np.array([1.0, 2.0, 4.0, 5.0]), 4, 0.25)
    array([12.])
    """
    if intervals == 1:
        return energy_kwh / hours
    return np.add.reduceat(energy_kwh, np.arange(0, len(energy_kwh), intervals)) / (intervals * hours)


def ratcheted_kw(measured_kw: Floats, percent: float, months: int) -> Floats:
    """Return the demand of each month in kW, held to a share of the greatest of so many months before it.

    Formula: max(measured, percent / 100 * greatest of the months before). The year is taken as a ring: before its
    first month comes its last. Worked by hand: after 10 kW, 80 % hold the next two months at 8 kW.

    >>> ratcheted_kw(np.array([10.0, 4.0, 9.0, 3.0]), 80.0, 2)
    array([10. ,  8. ,  9. ,  7.2])
    """
    count = len(measured_kw)
    before = (np.arange(count) - np.arange(1, months + 1)[:, None]) % count
    return np.asarray(np.maximum(measured_kw, percent / 100 * measured_kw[before].max(axis=0)))


def share_of_month(days: int, days_in_month: int) -> Decimal:
    """Return the share of a month that some of its days are, with six digits after the point.

    Formula: days / days of the month. Common practice, no source: what a tariff states for a month counts by days
    where a season ends within the month.

    >>> share_of_month(15, 31), share_of_month(30, 30)
    (Decimal('0.483871'), Decimal('1'))
    """
    return Decimal(1) if days == days_in_month else billed_quantity(days / days_in_month)


def allowance_kwh(up_to_kwh: float, per_day: bool, days: int, days_in_month: int) -> Decimal:
    """Return where a tier ends in a month in kWh, of which some days count.

    Formula: up_to_kwh * days where it is stated for a day, else up_to_kwh * days / days of the month. Worked by
    hand: 10 kWh a day are 280 kWh in a common February; 500 kWh a month are 250 kWh where 15 of 30 days count.

    >>> allowance_kwh(10.0, True, 28, 28), allowance_kwh(500.0, False, 15, 30)
    (Decimal('280.0'), Decimal('250.0'))
    """
    return billed_quantity(up_to_kwh * days if per_day else up_to_kwh * days / days_in_month)
