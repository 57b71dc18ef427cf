"""The triangular distribution: what lies between a low and a high figure with a likely one in between.

Source: Johnson, Kotz and Balakrishnan, Continuous Univariate Distributions, volume 2, section 26.9 (from memory);
the mean and the quantile are held against scipy by tests.
"""

import numpy as np

from branchwright.calculations.arrays import Floats


def triangular_quantiles(low: float, likely: float, high: float, ranks: Floats) -> Floats:
    """Return the figures below which the shares `ranks` of the distribution lie; same shape, each 0 to 1.

    The inverse of the distribution function, which has one branch below the likely figure and one above it. Figures
    that are all alike give that figure.

    >>> triangular_quantiles(0.0, 1.0, 2.0, np.array([0.0, 0.125, 0.5, 1.0])).tolist()
    [0.0, 0.5, 1.0, 2.0]
    """
    span = high - low
    if span <= 0:
        return np.full(ranks.shape, low)
    turn = (likely - low) / span
    found = np.where(
        ranks < turn,
        low + np.sqrt(ranks * (span * (likely - low))),
        high - np.sqrt((1 - ranks) * (span * (high - likely))),
    )
    # Rounding must not carry a figure over an end of its own range.
    return np.clip(found, low, high, out=found)


def triangular_mean(low: float, likely: float, high: float) -> float:
    """Return the mean: a third of the sum of the three figures.

    >>> triangular_mean(1.0, 2.0, 6.0)
    3.0
    """
    return (low + likely + high) / 3
