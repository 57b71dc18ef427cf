"""A second judgement on whether a service carries its chargers, by hand-written arithmetic with exact fractions.

It imports nothing of the service; loads come from `load_oracle`. Sources: NEC 220.70, 220.83, 220.87, 230.42, 408.36,
625.42, 705.12 and 750.30 of 2023 with their counterparts; the project's reference on domain facts, "Measured demand"
and "Load management".
"""

import copy
from fractions import Fraction
from math import floor

from tests.checks.service_capacity import load_oracle
from tests.checks.service_capacity.load_facts import Home, Json, exact

CONTINUOUS = Fraction(5, 4)
MEASURED = Fraction(5, 4)
YEAR_DAYS = 365
SHORT_DAYS = 30
SHORT_MINUTES = 15
LEAST_CHARGING_A = 6
"""SAE J1772: 10 percent duty; below it a charger stops."""

LEAST_CURRENTS_COUNT = {"nec-2026"}
"""120.7: the least operating current of each controlled load is added to what nobody controls."""

READINGS = {
    "charger-on-service": "at-125-percent",
    "measured-with-generation": "refused",
    "measured-demand-interval": "fifteen-minutes",
}

Holds = bool | None


def both(outcomes: list[Holds]) -> Holds:
    """Return False if one fails, else None if one is unknown, else True."""
    if False in outcomes:
        return False
    return None if None in outcomes else True


class Review:
    """One request for a review of a service's capacity."""

    def __init__(self, request: Json) -> None:
        """Keep the request with its parts at hand."""
        self.request = request
        self.existing: Json = request["existing_load"]
        self.management: Json | None = request.get("management")
        self.rating_a = exact(request["service"]["rating_a"])
        self.measured = self.existing["kind"] == "measured"

    def reading(self, name: str) -> str:
        """The reading of a disputed provision."""
        return str((self.request.get("readings") or {}).get(name) or READINGS[name])

    def home(self, chargers: list[Json]) -> Home:
        """The dwelling with more chargers; an empty one where the load was measured."""
        dwelling = copy.deepcopy(self.existing.get("dwelling") or {"floor_area_ft2": 0})
        dwelling["chargers"] = [*(dwelling.get("chargers") or []), *chargers]
        return Home(self.request, dwelling)

    # ------------------------------------------------------------------------------------ loads

    def existing_va(self, demand_w: Fraction | None = None) -> Fraction | None:
        """The load that is there: by its method, or 125 percent of what was measured, seasonal load with it."""
        if not self.measured:
            load = load_oracle.load(self.home([]), self.existing["method"])
            return None if load is None else load.total_va
        demand = exact(self.existing["measured_demand_w"]) if demand_w is None else demand_w
        return MEASURED * (demand + exact(self.existing.get("seasonal_load_va") or 0))

    def chargers_va(self, chargers: list[Json]) -> Fraction | None:
        """What chargers add: their nameplates beside a measured load, else the method with them less without."""
        if self.measured:
            return load_oracle.chargers_va(self.home(chargers), part_three=False)
        without = load_oracle.load(self.home([]), self.existing["method"])
        with_them = load_oracle.load(self.home(chargers), self.existing["method"])
        if without is None or with_them is None:
            return None
        return with_them.total_va - without.total_va

    def on_service(self, load_va: Fraction) -> Fraction:
        """230.42, 215.3: a charger's load on the service's devices, by the reading."""
        return load_va * (CONTINUOUS if self.reading("charger-on-service") == "at-125-percent" else 1)

    def current_a(self, load_va: Fraction) -> Fraction:
        """Amperes of a balanced load."""
        return self.home([]).current_a(load_va)

    # -------------------------------------------------------------------- is the measurement fit?

    def one_year(self) -> Holds:
        """220.87: data of a year."""
        days = self.existing.get("days")
        return None if days is None else exact(days) >= YEAR_DAYS

    def measurement_holds(self) -> Holds:
        """220.87 and its exception: a year, or thirty days at fifteen minutes while occupied and with no generation."""
        if not self.measured:
            return True
        generation, year = self.existing.get("has_generation"), self.one_year()
        if year is None:
            return None
        if year:
            refused = self.reading("measured-with-generation") == "refused"
            return True if not refused else None if generation is None else not generation
        averaging = self.existing.get("averaging_minutes")
        return both(
            [
                exact(self.existing["days"]) >= SHORT_DAYS,
                None if averaging is None else exact(averaging) <= SHORT_MINUTES,
                self.existing.get("occupied"),
                None if self.existing.get("seasonal_load_va") is None else True,
                None if generation is None else not generation,
            ]
        )

    def bounds_w(self) -> tuple[Fraction, Fraction] | None:
        """The least and the greatest that the 15-minute demand may be; None where the interval is not stated."""
        demand = exact(self.existing["measured_demand_w"])
        if self.reading("measured-demand-interval") == "as-metered":
            return demand, demand
        averaging = self.existing.get("averaging_minutes")
        if averaging is None:
            return None
        if exact(averaging) <= SHORT_MINUTES:
            return demand, demand
        stated = self.existing.get("fifteen_minute_bound_w")
        return demand, 8 * demand if stated is None else exact(stated)

    # -------------------------------------------------------------------------------- unmanaged

    def carries(self, chargers: list[Json]) -> Holds:
        """Whether existing load and chargers are within the service's rating."""
        added = self.chargers_va(chargers)
        if added is None:
            return None
        if not self.measured:
            existing = self.existing_va()
            return None if existing is None else self.within(existing, added)
        bounds = self.bounds_w()
        if bounds is None:
            return None
        low, high = (self.existing_va(demand) for demand in bounds)
        assert low is not None
        assert high is not None
        if not self.within(low, added):
            return False
        return True if self.within(high, added) else None

    def within(self, existing_va: Fraction, added_va: Fraction) -> bool:
        """Whether a load is within the rating, without rounding."""
        return self.current_a(existing_va + self.on_service(added_va)) <= self.rating_a

    def settings_a(self, charger: Json) -> list[Fraction]:
        """What a charger can be set to: those stated, else whole amperes from six up to its rating."""
        stated = charger.get("settings_a")
        rated = exact(charger.get("rated_current_a") or charger["charging_current_a"])
        if stated is not None:
            return sorted(exact(value) for value in stated if exact(value) <= rated)
        return [Fraction(value) for value in range(LEAST_CHARGING_A, floor(rated) + 1)]

    def largest_unmanaged_a(self, charger: Json) -> Fraction | None:
        """The largest setting of a single charger at which the service carries it."""
        fitting = [
            setting
            for setting in self.settings_a(charger)
            if self.carries([{**charger, "charging_current_a": str(setting)}])
        ]
        return max(fitting, default=None)

    # ---------------------------------------------------------------------------------- managed

    def control_setting_holds(self, setting_a: Fraction) -> bool:
        """220.70: the control setting counts as one continuous load."""
        return CONTINUOUS * setting_a <= self.rating_a

    def fail_safe_holds(self) -> Holds:
        """750.30(C): with the link lost, existing load and fail-safe current are within the rating."""
        assert self.management is not None
        fail_safe, existing = self.management.get("fail_safe_current_a"), self.existing_va()
        if fail_safe is None or existing is None:
            return None
        volt_amperes = self.on_service(exact(fail_safe) * self.home([]).line_v)
        return self.current_a(existing + volt_amperes) <= self.rating_a

    def fail_safe_is_lower(self, charging_a: Fraction) -> Holds:
        """With the link lost a charger falls below its charging current."""
        assert self.management is not None
        fail_safe = self.management.get("fail_safe_current_a")
        return None if fail_safe is None else exact(fail_safe) < charging_a

    def fail_safe_is_possible(self) -> Holds:
        """A charger delivers nothing or no less than six amperes."""
        assert self.management is not None
        fail_safe = self.management.get("fail_safe_current_a")
        return None if fail_safe is None else fail_safe == 0 or exact(fail_safe) >= LEAST_CHARGING_A

    def legs_hold(self) -> Holds:
        """A monitor on each ungrounded conductor."""
        assert self.management is not None
        legs = self.management.get("monitored_legs")
        return None if legs is None else exact(legs) >= (3 if self.home([]).three_phases else 2)
