"""What the vehicle needs at the wall: by weekday of arrival, by month, and on the worst winter day."""

from functools import cached_property
from typing import Final

import numpy as np

from branchwright.calculations.arrays import Floats
from branchwright.calculations.managed_charging import ASSUMED_EFFICIENCY, wall_energy_kwh
from branchwright.checks.charging_cost.charging_comparison.facts import Charging
from branchwright.checks.charging_cost.charging_comparison.need_facts import (
    ByWeekday,
    ConsumptionUnit,
    DistanceEachDay,
    DistanceUnit,
)
from branchwright.quantities.lengths import KM_PER_MI
from branchwright.questions.local_days import WEEKDAYS

NO_WINTER: Final = (1.0,) * 12

DISTANCE_OF: Final[dict[ConsumptionUnit, DistanceUnit]] = {
    "kWh/100 km": "km",
    "kWh/km": "km",
    "km/kWh": "km",
    "kWh/100 mi": "mi",
    "kWh/mi": "mi",
    "mi/kWh": "mi",
}


def kwh_per_distance(value: float, unit: ConsumptionUnit) -> float:
    """Return a consumption as kWh for one of the distance units that it names.

    >>> kwh_per_distance(30.0, "kWh/100 mi"), kwh_per_distance(4.0, "mi/kWh")
    (0.3, 0.25)
    """
    if unit.startswith("kWh/100"):
        return value / 100
    return 1 / value if unit.endswith("/kWh") else value


def units_in(consumed: DistanceUnit, driven: DistanceUnit) -> float:
    """Return how many distance units of the consumption lie in one of the distance.

    >>> units_in("km", "mi"), units_in("mi", "mi")
    (1.609344, 1.0)
    """
    if consumed == driven:
        return 1.0
    return KM_PER_MI if driven == "mi" else 1 / KM_PER_MI


class Need:
    """The need of a vehicle. Energy is at the wall; `stated` is what the request states for each weekday, (7,)."""

    def __init__(self, charging: Charging) -> None:
        """Read the stated need."""
        self.facts = need = charging.energy_need
        self.efficiency = ASSUMED_EFFICIENCY if need.charging_efficiency is None else need.charging_efficiency
        self.months = need.winter_factor_by_month or NO_WINTER
        greatest = max(self.months)
        self.worst_day_factor = greatest if need.worst_day_factor is None else need.worst_day_factor
        amounts = need.distance_by_weekday if isinstance(need, DistanceEachDay) else need.kwh_by_weekday
        self.stated: Floats = np.array(_week(amounts))
        vehicle = charging.vehicle
        battery_kwh = None if vehicle is None else vehicle.battery_kwh
        self.battery_wall_kwh = (
            None if battery_kwh is None else wall_energy_kwh.value(battery_kwh, self.efficiency)
        )
        """What the battery takes at the wall from empty to full; None where it is not stated."""

    @property
    def distance_unit(self) -> DistanceUnit | None:
        """The unit of its distances; None where it is stated as energy."""
        return self.facts.distance_unit if isinstance(self.facts, DistanceEachDay) else None

    @property
    def uses_efficiency(self) -> bool:
        """Whether the charging efficiency decides anything."""
        return self.facts.basis == "battery" or self.battery_wall_kwh is not None

    @cached_property
    def wall_kwh_per_unit(self) -> float:
        """Energy at the wall for one stated unit: a kWh, or a distance unit."""
        need, energy = self.facts, 1.0
        if isinstance(need, DistanceEachDay):
            consumption = need.consumption
            per_distance = kwh_per_distance(consumption.value, consumption.unit)
            energy = units_in(DISTANCE_OF[consumption.unit], need.distance_unit) * per_distance
        return energy if need.basis == "wall" else wall_energy_kwh.value(energy, self.efficiency)

    @cached_property
    def by_weekday(self) -> Floats:
        """Energy for each weekday of arrival in mild weather, kWh, shape (7,)."""
        return np.asarray(self.stated * self.wall_kwh_per_unit)

    @cached_property
    def winter_months(self) -> list[int]:
        """Months, 0 to 11, in which most is needed; the worst winter day lies in one of them."""
        greatest = max(self.months)
        return [month for month, factor in enumerate(self.months) if factor == greatest]

    def of_nights(self, weekdays: np.ndarray, months: np.ndarray) -> Floats:
        """Return what nights need, by weekday and calendar month (0 to 11) of arrival, kWh, shape (N,)."""
        return np.asarray(self.by_weekday[weekdays] * np.array(self.months)[months])

    def on_the_worst_day(self, weekdays: np.ndarray) -> Floats:
        """Return what nights would need if each were the worst winter day, kWh, shape (N,)."""
        return np.asarray(self.by_weekday[weekdays] * self.worst_day_factor)


def _week(amounts: ByWeekday) -> list[float]:
    return [getattr(amounts, day) or 0.0 for day in WEEKDAYS]
