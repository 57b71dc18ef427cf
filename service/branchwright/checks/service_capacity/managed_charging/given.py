"""What the stated facts come to before anything is simulated: the house's current, the clock, the chargers' limits."""

from collections.abc import Sequence
from datetime import datetime
from functools import cached_property
from math import ceil, sqrt
from typing import Final

import numpy as np

from branchwright.calculations.arrays import Floats
from branchwright.calculations.charging_simulation import Sharing
from branchwright.checks.service_capacity.managed_charging.facts import ManagedCharger, ManagedChargingRequest
from branchwright.checks.service_capacity.managed_charging.sessions import own_limit
from branchwright.codebook import Book
from branchwright.questions.local_time import seconds_at, zone_named

ASSUMED_DELAY_MINUTES: Final = 15.0
"""Resume delay where none is stated: the usual one of 5 to 15 minutes; common practice, no source."""

ASSUMED_SHARING: Final = "equal"


class Given:
    """The facts of a request, the edition, and what follows from both."""

    def __init__(self, request: ManagedChargingRequest, book: Book) -> None:
        """Bind a request to the edition."""
        self.request = request
        self.book = book
        self.edition = book.edition
        house, management = request.house_load, request.management
        self.interval_h = house.interval_minutes / 60
        self.interval_s = 60 * house.interval_minutes
        self.zone = zone_named(house.time_zone)
        self.begin = _instant(house.start)
        self.voltage_v = self.edition.voltage_between_lines(request.service.system)
        self.to_ground_v = self.edition.voltage_to_ground(request.service.system)
        # A system that has fewer phases than stated is a failing finding.
        greatest = self.edition.greatest_phases(request.service.system).number
        self.phases = int(min(request.service.phases or 1, greatest))
        self.setting_a = management.control_setting_a
        self.margin_a = management.margin_a or 0.0
        delay = management.resume_delay_minutes
        self.delay_minutes = ASSUMED_DELAY_MINUTES if delay is None else delay
        self.delay_intervals = ceil(self.delay_minutes / house.interval_minutes)
        self.sharing: Sharing = management.sharing or ASSUMED_SHARING

    @property
    def readings(self) -> int:
        """How many intervals there are; of the longest leg where they differ."""
        house = self.request.house_load
        return max(len(leg) for leg in (house.leg_currents_a or (house.energy_wh or (),)))

    @property
    def legs(self) -> int:
        """Ungrounded conductors of the service."""
        return 3 if self.phases == 3 else 2

    @property
    def days(self) -> float:
        """Length of the readings in days of 24 h."""
        return self.readings * self.interval_h / 24

    @property
    def is_balanced(self) -> bool:
        """Whether the energy is taken as balanced over the legs; stated or assumed."""
        return self.request.house_load.leg_assumption != "all-on-one-leg"

    @cached_property
    def values(self) -> Floats:
        """The readings as stated, one row for each leg or one for the energy; NaN where one is missing."""
        house = self.request.house_load
        stated: Sequence[Sequence[float | None]] = house.leg_currents_a or (house.energy_wh or (),)
        return np.array(stated, dtype=np.float64)

    @cached_property
    def house_a(self) -> Floats:
        """Current of the house on its largest leg in each interval, A; NaN where a reading is missing."""
        house = self.request.house_load
        if house.leg_currents_a is not None:
            return np.asarray(self.values.max(axis=0))
        apparent_va = 60 * self.values[0] / house.interval_minutes / (house.power_factor or 1.0)
        if not self.is_balanced:
            return np.asarray(apparent_va / self.to_ground_v.number)
        if self.phases == 3:
            return np.asarray(apparent_va / (sqrt(3) * self.voltage_v.number))
        return np.asarray(apparent_va / self.voltage_v.number)

    @cached_property
    def greatest_house_a(self) -> float:
        """Greatest current of the house alone on its largest leg, A."""
        return float(np.nanmax(self.house_a))

    @cached_property
    def own_a(self) -> Floats:
        """Whole amperes that each charger, its circuit and its vehicle allow; 0 below the least current."""
        factor = self.edition.provision("continuous-load").number("factor")
        return np.array([own_limit(charger, factor) for charger in self.request.chargers])

    @cached_property
    def kwh_per_ah(self) -> Floats:
        """Energy in kWh that one ampere brings in one hour at each charger."""
        return np.array([self.kw_per_a(charger) for charger in self.request.chargers])

    def kw_per_a(self, charger: ManagedCharger) -> float:
        """Return the power in kW of one ampere at a charger, at the nominal voltage and unity power factor."""
        volts = self.voltage_v.number * (sqrt(3) if charger.phases == 3 else 1.0)
        return volts / 1000


def _instant(start: str) -> int | None:
    """Return an instant in seconds since 1970; None where the calendar has no such day."""
    try:
        return seconds_at(datetime.fromisoformat(start))
    except ValueError:
        return None
