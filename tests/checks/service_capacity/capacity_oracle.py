"""A second judgement on whether a service carries its chargers, by hand-written arithmetic with exact fractions.

It imports nothing of the service; loads come from `load_oracle`. A fact that is missing makes a range: the best that
it may be, and the worst. Sources: NEC 220.70, 220.83, 220.87, 230.42, 408.36, 625.41, 625.42, 705.12 and 750.30 of
2023 with their counterparts; the project's reference on domain facts, "Measured demand" and "Load management".
"""

import copy
from fractions import Fraction
from math import floor
from typing import TypeAlias

from tests.checks.service_capacity import load_oracle
from tests.checks.service_capacity.load_facts import Home, Json, exact

CONTINUOUS = Fraction(5, 4)
MEASURED = Fraction(5, 4)
YEAR_DAYS = 365
SHORT_DAYS = 30
SHORT_MINUTES = 15
LEAST_CHARGING_A = 6
"""SAE J1772: 10 percent duty; below it a charger stops."""

EQUIPMENT_RULES = {"nec-2023", "nec-2026"}
"""750.6 and 750.30(C)(3) of 2023, 130.2 of 2026: listed, and settings that not anyone can reach."""

LEAST_CURRENTS_COUNT = {"nec-2026"}
"""120.7: the least operating current of each controlled load is added to what nobody controls."""

BACKFEED_SHARE = Fraction(120, 100)
DWELLING_CONDUCTORS = Fraction(83, 100)

READINGS = {
    "charger-on-service": "at-125-percent",
    "measured-with-generation": "refused",
    "measured-demand-interval": "fifteen-minutes",
}

Holds: TypeAlias = bool | None
Range: TypeAlias = tuple[Fraction, Fraction]


def both(outcomes: list[Holds]) -> Holds:
    """Return False if one fails, else None if one is unknown, else True."""
    if False in outcomes:
        return False
    return None if None in outcomes else True


def at_most(span: Range | None, limit: Fraction) -> Holds:
    """Whether a range lies below a limit: all of it, none of it, or unknown."""
    if span is None:
        return None
    best, worst = span
    return True if worst <= limit else False if best > limit else None


class Review:
    """One request for a review of a service's capacity."""

    def __init__(self, request: Json) -> None:
        """Keep the request with its parts at hand."""
        self.request = request
        self.edition = str(request["edition"])
        self.service: Json = request["service"]
        self.existing: Json = request["existing_load"]
        self.chargers: list[Json] = request["chargers"]
        self.management: Json | None = request.get("management")
        self.measured = self.existing["kind"] == "measured"
        self.line_v = self.home([]).line_v

    def reading(self, name: str) -> str:
        """The reading of a disputed provision."""
        return str((self.request.get("readings") or {}).get(name) or READINGS[name])

    def home(self, chargers: list[Json]) -> Home:
        """The dwelling with more chargers; an empty one where the load was measured."""
        dwelling = copy.deepcopy(self.existing.get("dwelling") or {"floor_area_ft2": 0})
        dwelling["chargers"] = [*(dwelling.get("chargers") or []), *chargers]
        return Home(self.request, dwelling)

    def current_a(self, load_va: Fraction) -> Fraction:
        """Amperes of a balanced load."""
        return self.home([]).current_a(load_va)

    def limit_a(self) -> Fraction:
        """The least of service rating, main breaker and busbar."""
        stated = [self.service.get(name) for name in ("rating_a", "main_breaker_a", "busbar_rating_a")]
        return min(exact(value) for value in stated if value is not None)

    # ------------------------------------------------------------------------------------- existing load

    def existing_va(self) -> Range | None:
        """The load that is there: by its method, or 125 percent of what was measured, seasonal load with it."""
        if not self.measured:
            load = load_oracle.load(self.home([]), self.existing["method"])
            return None if load is None else (load.total_va, load.total_va)
        season = exact(self.existing.get("seasonal_load_va") or 0)
        low, high = self.demand_w()
        return MEASURED * (low + season), MEASURED * (high + season)

    def demand_w(self) -> Range:
        """The least and the greatest that the 15-minute demand may be."""
        demand, averaging = (
            exact(self.existing["measured_demand_w"]),
            exact(self.existing["averaging_minutes"]),
        )
        if self.reading("measured-demand-interval") == "as-metered" or averaging <= SHORT_MINUTES:
            return demand, demand
        stated = self.existing.get("fifteen_minute_bound_w")
        return demand, 2 * averaging / SHORT_MINUTES * demand if stated is None else exact(stated)

    def measurement_holds(self) -> Holds:
        """220.87 and its exception: a year, or thirty days at fifteen minutes while occupied and with no generation."""
        if not self.measured:
            return True
        generation = self.existing.get("has_generation")
        if exact(self.existing["days"]) >= YEAR_DAYS:
            refused = self.reading("measured-with-generation") == "refused"
            return True if not refused else None if generation is None else not generation
        return both(
            [
                exact(self.existing["days"]) >= SHORT_DAYS,
                exact(self.existing["averaging_minutes"]) <= SHORT_MINUTES,
                self.existing.get("occupied"),
                None if self.existing.get("seasonal_load_va") is None else True,
                None if generation is None else not generation,
            ]
        )

    # ------------------------------------------------------------------------------------- chargers

    def at_extremes(self, charger: Json) -> tuple[Json, Json]:
        """A charger whose access nobody stated: with its setting held, and with it open."""
        return (
            ({**charger, "setting_access": "restricted"}, {**charger, "setting_access": "unrestricted"})
            if charger.get("setting_access") is None
            else (charger, charger)
        )

    def counted_a(self, charger: Json) -> Range:
        """What a charger counts for: its setting where that holds, else its rating."""
        found = [self.home([]).nameplate_va(one) for one in self.at_extremes(charger)]
        low, high = (value / self.line_v for value in found if value is not None)
        return low, high

    def added_va(self, chargers: list[Json]) -> Range | None:
        """What chargers add: their nameplates beside a measured load, else the method with them less without."""
        found = []
        for extreme in (0, 1):
            taken = [self.at_extremes(charger)[extreme] for charger in chargers]
            if self.measured:
                load_va = load_oracle.chargers_va(self.home(taken), part_three=False)
            else:
                without = load_oracle.load(self.home([]), self.existing["method"])
                with_them = load_oracle.load(self.home(taken), self.existing["method"])
                if without is None or with_them is None:
                    return None
                load_va = with_them.total_va - without.total_va
            if load_va is None:
                return None
            found.append(load_va)
        return found[0], found[1]

    def on_service(self) -> Fraction:
        """230.42, 215.3: the factor on a charger's load on the service's devices, by the reading."""
        return CONTINUOUS if self.reading("charger-on-service") == "at-125-percent" else Fraction(1)

    def total_a(self, chargers: list[Json], more_a: Fraction = Fraction(0)) -> Range | None:
        """Existing load and chargers, and a further charging current per line, A."""
        existing, added = self.existing_va(), self.added_va(chargers)
        if existing is None or added is None:
            return None
        factor, more_va = self.on_service(), more_a * self.line_v
        low, high = (
            self.current_a(there + factor * (new + more_va))
            for there, new in zip(existing, added, strict=True)
        )
        return low, high

    def settings_a(self, charger: Json) -> list[Fraction]:
        """What a charger can be set to: those stated, else whole amperes from six up to its rating."""
        rated = exact(charger.get("rated_current_a") or charger["charging_current_a"])
        stated = charger.get("settings_a")
        if stated is not None:
            return sorted({exact(value) for value in stated if exact(value) <= rated})
        return [Fraction(value) for value in range(LEAST_CHARGING_A, floor(rated) + 1)]

    def common_settings_a(self) -> list[Fraction]:
        """What all chargers can be set to alike."""
        sets = [set(self.settings_a(charger)) for charger in self.chargers]
        return sorted(set.intersection(*sets))

    def largest_unmanaged_a(self) -> Fraction | None:
        """The largest common setting at which the service carries all of them."""
        fitting = [
            setting
            for setting in self.common_settings_a()
            if at_most(
                self.total_a([{**charger, "charging_current_a": setting} for charger in self.chargers]),
                self.limit_a(),
            )
        ]
        return max(fitting, default=None)

    # ------------------------------------------------------------------------------------- requirements

    def settings_hold(self) -> Holds:
        """No charger is set above its rating."""
        return all(
            exact(charger["charging_current_a"])
            <= exact(charger.get("rated_current_a") or charger["charging_current_a"])
            for charger in self.chargers
        )

    def circuits_hold(self) -> Holds:
        """625.41: a charger's own breaker is rated for 125 percent."""
        return both(
            [
                at_most(
                    tuple(CONTINUOUS * value for value in self.counted_a(charger)),  # type: ignore[arg-type]
                    exact(charger["circuit_breaker_a"]),
                )
                for charger in self.chargers
                if charger.get("circuit_breaker_a") is not None
            ]
        )

    def main_holds(self) -> Holds:
        """408.36: the main breaker protects the busbar."""
        main, busbar = self.service.get("main_breaker_a"), self.service.get("busbar_rating_a")
        return True if main is None or busbar is None else exact(main) <= exact(busbar)

    def carried(self) -> Holds:
        """Existing load and chargers, none of them managed, are within the least rating."""
        return at_most(self.total_a(self.chargers), self.limit_a())

    def managed(self) -> list[Json]:
        """The chargers that the management controls."""
        return [charger for charger in self.chargers if charger.get("managed") is not False]

    def unmanaged(self) -> list[Json]:
        """Those that it leaves alone."""
        return [charger for charger in self.chargers if charger.get("managed") is False]

    def management_outcomes(self, management: Json) -> dict[str, Holds]:
        """What is asked of energy management, each by itself."""
        managed, limit = self.managed(), self.limit_a()
        fail_safe = management.get("fail_safe_current_a")
        fail_safe_a = None if fail_safe is None else exact(fail_safe)
        new = self.edition in EQUIPMENT_RULES
        access = management.get("access")
        legs = management.get("monitored_legs")
        return {
            "control-setting": CONTINUOUS * exact(management["control_setting_a"]) <= limit,
            "lost-link": None
            if fail_safe_a is None
            else at_most(self.total_a(self.unmanaged(), fail_safe_a * len(managed)), limit),
            "least-currents": True
            if self.edition not in LEAST_CURRENTS_COUNT
            else at_most(self.total_a(self.unmanaged(), Fraction(LEAST_CHARGING_A * len(managed))), limit),
            "fail-safe-below-charging": both(
                [
                    None if fail_safe_a is None else fail_safe_a < exact(charger["charging_current_a"])
                    for charger in managed
                ]
            ),
            "fail-safe-possible": None
            if fail_safe_a is None
            else fail_safe_a == 0 or fail_safe_a >= LEAST_CHARGING_A,
            "listed": management.get("listed") if new else True,
            "access": True if not new else None if access is None else access == "restricted",
            "legs": None if legs is None else exact(legs) >= (3 if self.home([]).three_phases else 2),
        }
