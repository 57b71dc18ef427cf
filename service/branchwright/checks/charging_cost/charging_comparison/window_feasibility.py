"""Whether a schedule's hours bring what the worst winter day needs, and with what current they would."""

from math import ceil, isfinite
from typing import TYPE_CHECKING

import numpy as np

from branchwright.calculations.charging_simulation import NOTHING_KWH
from branchwright.checks.charging_cost.charging_comparison.answers import WorstWinterDay
from branchwright.checks.charging_cost.charging_comparison.stays import Windows

if TYPE_CHECKING:
    from branchwright.checks.charging_cost.charging_comparison.given import Given

DECIMALS = 6


def worst_winter_day(given: "Given", windows: Windows) -> WorstWinterDay | None:
    """Return the night of the months of most need whose hours are shortest of the worst day's need.

    Of nights alike the one with the fewest hours, then the earliest; None where nothing is needed.
    """
    stays, need = given.stays, given.need
    needed = need.on_the_worst_day(stays.weekdays)
    is_winter = np.isin(stays.months, need.winter_months) & (needed > 0)
    nights = np.flatnonzero(is_winter)
    if not len(nights):
        return None
    hours = windows.hours_of_nights[nights]
    short = (needed[nights] - hours * given.power_kw).round(DECIMALS)
    worst = int(np.lexsort((hours, -short))[0])
    night, its_hours = int(nights[worst]), float(hours[worst])
    deliverable, wanted = round(its_hours * given.power_kw, DECIMALS), round(float(needed[night]), DECIMALS)
    return WorstWinterDay(
        date=stays.dates[night].isoformat(),
        needed_kwh=wanted,
        deliverable_kwh=deliverable,
        shortfall_kwh=max(0.0, round(wanted - deliverable, DECIMALS)),
        hours=its_hours,
        current_that_would_do_a=current_that_would_do(given, wanted, its_hours),
    )


def current_that_would_do(given: "Given", needed_kwh: float, hours: float) -> float | None:
    """Return the least whole current that brings an energy in some hours, A; None where none does that is taken."""
    if hours <= 0 or needed_kwh <= NOTHING_KWH:
        return None
    wanted = needed_kwh / (given.kw_per_a * hours)
    vehicle = given.request.charging.vehicle
    limit = None if vehicle is None else vehicle.onboard_limit_a
    if not isfinite(wanted):
        return None
    found = float(ceil(round(wanted, DECIMALS)))
    return None if limit is not None and found > limit else found
