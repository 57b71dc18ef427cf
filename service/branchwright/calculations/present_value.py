"""Whether an outlay pays: pay-back time, and what later savings are worth today."""

from typing import Final

from branchwright.calculations.calculation import calculation

NO_RATE_PERCENT: Final = 1e-6
"""A rate up to this counts as none: over a hundred years it takes less than a millionth off."""


@calculation("payback time", "installed_cost / annual_saving", "years")
def payback_years(installed_cost: float, annual_saving: float) -> float:
    """Return the years after which equal yearly savings have brought back an outlay, without interest.

    Source: definition of the simple payback period (ASTM E1121 works it out with a discount rate of zero).

    >>> payback_years(1200.0, 300.0)
    4.0
    """
    return installed_cost / annual_saving


@calculation(
    "worth today of one a year", "(1 - (1 + rate_percent / 100) ^ (-years)) / (rate_percent / 100)", "years"
)
def discounted_years(rate_percent: float, years: float) -> float:
    """Return what one a year is worth today, paid at each year's end over some years at a rate above zero.

    Formula: the uniform-series present-worth factor, (1 - (1 + r)^-n) / r. Source: tables of engineering economics, as
    for ASTM E917. Published example: 7.722 for 5 % over 10 years.

    >>> round(discounted_years(5.0, 10.0), 3)
    7.722
    """
    rate = rate_percent / 100
    return float((1 - (1 + rate) ** -years) / rate)


def present_worth_years(rate_percent: float, years: int) -> float:
    """Return what one a year is worth today; at a rate that counts as none it is the years themselves.

    >>> present_worth_years(0.0, 10)
    10.0
    """
    return float(years) if rate_percent <= NO_RATE_PERCENT else discounted_years(rate_percent, float(years))
