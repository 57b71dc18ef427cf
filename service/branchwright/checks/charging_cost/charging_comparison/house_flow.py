"""What flows through the house's meter without the vehicle: load and generation in each interval of the year."""

from typing import TypeAlias

import numpy as np

from branchwright.calculations.arrays import Floats
from branchwright.checks.charging_cost.charging_comparison.series_facts import (
    AnnualEnergy,
    AnnualGeneration,
    IntervalEnergy,
    NoLoad,
    Profile,
)
from branchwright.checks.charging_cost.tariffs.local_year import MONTHS, LocalYear

Flow: TypeAlias = NoLoad | AnnualEnergy | AnnualGeneration | IntervalEnergy

SATURDAY = 5


def energy_of(flow: Flow | None, year: LocalYear) -> Floats:
    """Return the energy of each interval of the year, kWh; a series has to fit the year."""
    if isinstance(flow, IntervalEnergy):
        parts = flow.interval_minutes // year.step_minutes
        readings = np.array(flow.energy_kwh, dtype=np.float64)
        return np.repeat(readings / parts, parts) if parts > 1 else readings
    if flow is None or isinstance(flow, NoLoad):
        return np.zeros(year.count)
    weights = np.ones(year.count) if flow.profile is None else weights_of(flow.profile, year)
    total = float(weights.sum())
    return weights * (flow.kwh_per_year / total) if total > 0 else np.zeros(year.count)


def weights_of(profile: Profile, year: LocalYear) -> Floats:
    """Return the weight of each interval of the year."""
    hour = year.minute_of_day // 60
    weights: Floats = np.array(profile.hours)[hour]
    if profile.weekend_hours is not None:
        is_weekend = year.weekdays[year.day_index] >= SATURDAY
        weights = np.where(is_weekend, np.array(profile.weekend_hours)[hour], weights)
    if profile.months is None:
        return weights
    month = year.month_index
    of_month = np.bincount(month, weights, MONTHS)
    wanted = np.roll(np.array(profile.months), 1 - year.first.month)
    # Where a month's hours weigh nothing, there is nowhere to put its energy.
    scale = np.divide(wanted, of_month, out=np.zeros(MONTHS), where=of_month > 0)
    return np.asarray(weights * scale[month])


def has_weight(profile: Profile) -> bool:
    """Return whether a profile has an hour and a month that energy can lie in."""
    hours = [*profile.hours, *(profile.weekend_hours or ())]
    return any(hours) and (profile.months is None or any(profile.months))
