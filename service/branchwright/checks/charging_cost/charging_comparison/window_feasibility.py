"""Whether a schedule's hours bring what the worst winter day needs, and with what current they would."""

from math import ceil, isfinite
from typing import TYPE_CHECKING

import numpy as np

from branchwright.calculations.charging_simulation import NOTHING_KWH
from branchwright.checks.charging_cost.charging_comparison.answers import WorstWinterDay
from branchwright.checks.charging_cost.charging_comparison.stays import Windows
from branchwright.questions.fields import GREATEST_SIGNALLED_A, LEAST_SIGNALLED_A

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
    """Return the least whole current that brings an energy in some hours, A; None where none is offered and taken.

    Source: SAE J1772, whose pilot signal offers 6 to 80 A; a charger that is stated with more offers that.
    """
    if hours <= 0 or needed_kwh <= NOTHING_KWH:
        return None
    wanted = needed_kwh / (given.kw_per_a * hours)
    charging = given.request.charging
    greatest = max(charging.charger.charging_current_a, float(GREATEST_SIGNALLED_A))
    if charging.vehicle is not None and charging.vehicle.onboard_limit_a is not None:
        greatest = min(greatest, charging.vehicle.onboard_limit_a)
    if not isfinite(wanted):
        return None
    found = max(float(ceil(round(wanted, DECIMALS))), float(LEAST_SIGNALLED_A))
    return None if found > greatest else found
