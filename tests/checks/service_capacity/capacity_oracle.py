"""A second judgement on whether a service carries its chargers, by hand-written arithmetic with exact fractions.

It imports nothing of the service; loads come from `load_oracle`. A fact that is missing makes a range: the best that
it may be, and the worst. Sources: NEC 220.70, 220.83, 220.87, 230.42, 408.36, 625.41, 625.42, 705.12 and 750.30 of
2023 with their counterparts, as quoted by pages of the trade; what is common practice says so.
"""

import copy
from fractions import Fraction
from math import floor
from typing import TypeAlias

from tests.checks.service_capacity import load_oracle
from tests.checks.service_capacity.load_facts import Home, Json, exact
from tests.checks.service_capacity.load_oracle import rounded
from tests.checks.service_capacity.load_tables import STANDARD_RATINGS_A

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
DWELLING_SERVICES_A = (100, 400)
"""705.12 and 310.12."""

LEAST_COVERAGE_PERCENT = 98
"""Common practice, no source."""

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


def times(factor: Fraction, span: Range) -> Range:
    """Return a range at a factor."""
    return factor * span[0], factor * span[1]


def in_whole(span: Range | None) -> Range | None:
    """220.5(B): a load in whole amperes."""
    return None if span is None else (Fraction(rounded(span[0])), Fraction(rounded(span[1])))


def rated_a(charger: Json) -> Fraction:
    """Return the nameplate current; the charging current where none is stated."""
    return exact(charger.get("rated_current_a") or charger["charging_current_a"])


class Review:
    """One request for a review of a service's capacity."""

    def __init__(self, request: Json) -> None:
        """Keep the request with its parts at hand."""
        self.request = request
        self.edition = str(request["edition"])
        self.service: Json = request["service"]
        self.existing: Json = request["existing_load"]
        self.chargers: list[Json] = request["chargers"]
        self.circuits: list[Json] = request.get("shared_circuits") or []
        self.management: Json | None = request.get("management")
        self.measured = self.existing["kind"] == "measured"
        self.line_v = self.home([]).line_v

    def reading(self, name: str) -> str:
        """The reading of a disputed provision."""
        return str((self.request.get("readings") or {}).get(name) or READINGS[name])

    def home(self, chargers: list[Json], held: list[Json] | None = None) -> Home:
        """The dwelling with more chargers, and what holds some of them; an empty one where the load was measured."""
        dwelling = copy.deepcopy(self.existing.get("dwelling") or {"floor_area_ft2": 0})
        dwelling["chargers"] = [
            *(dwelling.get("chargers") or []),
            *({**one, "new": True} for one in chargers),
        ]
        dwelling["load_management"] = [*(dwelling.get("load_management") or []), *(held or [])]
        ampacity = (self.service.get("conductors") or {}).get("ampacity_a")
        service = {**self.service, "conductor_ampacity_a": ampacity}
        return Home({**self.request, "service": service}, dwelling)

    def current_a(self, load_va: Fraction) -> Fraction:
        """Amperes of a balanced load."""
        return self.home([]).current_a(load_va)

    def limit_a(self) -> Fraction:
        """The least of service rating, main breaker and busbar."""
        stated = [self.service.get(name) for name in ("rating_a", "main_breaker_a", "busbar_rating_a")]
        return min(exact(value) for value in stated if value is not None)

    # ------------------------------------------------------------------------------------- existing load

    def existing_va(self) -> Range | None:
        """The load that is there: by its method, or 125 percent of what was measured, seasonal load with it.

        The better of the two is what an answer reports.
        """
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
        if stated is None:
            return demand, 2 * averaging / SHORT_MINUTES * demand
        # A bound below the demand is a contradiction of its own; the larger is the careful one meanwhile.
        return demand, max(demand, exact(stated))

    def interval_holds(self) -> Holds:
        """220.87: 15 minutes, or for a year a longer interval where nothing within it decides."""
        averaging = exact(self.existing["averaging_minutes"])
        if averaging <= SHORT_MINUTES:
            return True
        bound = self.existing.get("fifteen_minute_bound_w")
        if bound is not None and exact(bound) < exact(self.existing["measured_demand_w"]):
            return False
        if exact(self.existing["days"]) < YEAR_DAYS:
            return False
        if self.reading("measured-demand-interval") == "as-metered":
            return True
        span = self.total_a(self.all())
        if self.management is not None and self.managed() and not self.carried():
            stated = self.management.get("fail_safe_current_a")
            if stated is None:
                return True
            span = self.total_a(self.uncontrolled(), exact(stated) * len(self.managed()))
        return None if at_most(in_whole(span), self.limit_a()) is None else True

    def measured_outcomes(self) -> dict[str, Holds]:
        """220.87 and its exception: a year, or thirty days at fifteen minutes while occupied and with no generation."""
        if not self.measured:
            return {}
        return {"measured-interval": self.interval_holds(), **self.record_outcomes()}

    def record_outcomes(self) -> dict[str, Holds]:
        """The conditions of the record apart from its interval."""
        generation, coverage = self.existing.get("has_generation"), self.existing.get("coverage_percent")
        covered: Holds = True if coverage is not None and exact(coverage) >= LEAST_COVERAGE_PERCENT else None
        days = exact(self.existing["days"])
        if days >= YEAR_DAYS:
            refused = self.reading("measured-with-generation") == "refused"
            no_generation = None if generation is None else not generation
            return {
                "measured-duration": True,
                "measured-coverage": covered,
                "measured-occupied": True,
                "measured-season": True,
                "measured-generation": no_generation if refused else True,
            }
        return {
            "measured-duration": days >= SHORT_DAYS,
            "measured-coverage": covered,
            "measured-occupied": self.existing.get("occupied"),
            "measured-season": None if self.existing.get("seasonal_load_va") is None else True,
            "measured-generation": None if generation is None else not generation,
        }

    # ------------------------------------------------------------------------------------- chargers

    def at_extremes(self, charger: Json) -> tuple[Json, Json]:
        """A charger whose access nobody stated: with its setting held, and with it open."""
        if charger.get("setting_access") is not None:
            return charger, charger
        return {**charger, "setting_access": "restricted"}, {**charger, "setting_access": "unrestricted"}

    def counted_a(self, charger: Json) -> Range:
        """What a charger counts for: its setting where that holds, else its rating."""
        low, high = (self.home([]).nameplate_va(one) for one in self.at_extremes(charger))
        assert low is not None
        assert high is not None
        return low / self.line_v, high / self.line_v

    def circuit_of(self, charger: Json) -> int | None:
        """The shared circuit that a charger is on, if any."""
        place = next(place for place, one in enumerate(self.chargers) if one is charger)
        for number, circuit in enumerate(self.circuits):
            if place in circuit["chargers"]:
                return number
        return None

    def together(self, places: list[int], extreme: int) -> Home:
        """The dwelling with the chargers at some places, those of a shared circuit held together; 0 best, 1 worst.

        Only listed management of a stated setting holds them for certain.
        """
        chargers, held = [], []
        for number, circuit in enumerate(self.circuits):
            setting, listed = circuit.get("control_setting_a"), circuit.get("listed")
            limit = None if listed is False else setting if listed else None
            if extreme == 0 and listed is not False:
                limit = LEAST_CHARGING_A if setting is None else setting
            if limit is not None and set(circuit["chargers"]) & set(places):
                held.append({"name": f"shared {number}", "control_setting_a": limit})
        names = {one["name"] for one in held}
        for place in places:
            charger = dict(self.at_extremes(self.chargers[place])[extreme])
            name = f"shared {self.circuit_of(self.chargers[place])}"
            if name in names:
                charger["managed_by"] = name
            chargers.append(charger)
        return self.home(chargers, held)

    def added_va(self, places: list[int]) -> Range | None:
        """What chargers add: their nameplates beside a measured load, else the method with them less without."""
        found = []
        for extreme in (0, 1):
            home = self.together(places, extreme)
            if self.measured:
                load_va = load_oracle.chargers_va(home, part_three=False)
            else:
                without = load_oracle.load(self.home([]), self.existing["method"])
                with_them = load_oracle.load(home, self.existing["method"])
                if without is None or with_them is None:
                    return None
                load_va = with_them.total_va - without.total_va
            if load_va is None:
                return None
            found.append(load_va)
        return found[0], found[1]

    def all(self) -> list[int]:
        """The places of all chargers."""
        return list(range(len(self.chargers)))

    def on_service(self) -> Fraction:
        """230.42, 215.3: the factor on a charger's load on the service's devices, by the reading."""
        return CONTINUOUS if self.reading("charger-on-service") == "at-125-percent" else Fraction(1)

    def total_a(self, places: list[int], more_a: Fraction = Fraction(0)) -> Range | None:
        """Existing load and chargers, and a further charging current, A on the busiest line.

        A charger loads two lines with its whole current: on three phases all of them are taken to share a line, and
        only the existing load to be balanced. (This oracle balanced them too, at first: 48 A would have been 28.)
        """
        existing, added = self.existing_va(), self.added_va(places)
        if existing is None or added is None:
            return None
        low, high = (
            self.current_a(there) + self.on_service() * (new / self.line_v + more_a)
            for there, new in zip(existing, added, strict=True)
        )
        return low, high

    def carried(self) -> Holds:
        """Existing load and chargers, none of them managed, are within the least rating."""
        return at_most(in_whole(self.total_a(self.all())), self.limit_a())

    def settings_a(self, charger: Json) -> list[Fraction]:
        """What a charger can be set to: those stated, else whole amperes from six up, and its rating."""
        rated, stated = rated_a(charger), charger.get("settings_a")
        if stated is not None:
            return sorted({exact(value) for value in stated if exact(value) <= rated})
        return sorted({rated, *(Fraction(value) for value in range(LEAST_CHARGING_A, floor(rated) + 1))})

    def largest_unmanaged_a(self) -> Fraction | None:
        """The largest setting that all chargers have, that their circuits take, and at which the service carries them.

        To lower a setting of unknown access is to restrict it; a rating that is not stated was the old setting.
        """
        common = set.intersection(*(set(self.settings_a(charger)) for charger in self.chargers))
        breakers = [exact(one["circuit_breaker_a"]) for one in self.chargers if one.get("circuit_breaker_a")]
        fitting = (
            setting
            for setting in sorted(common, reverse=True)
            if setting >= LEAST_CHARGING_A
            and all(CONTINUOUS * setting <= breaker for breaker in breakers)
            and self.at(setting).loads_hold()
        )
        return next(fitting, None)

    def at(self, setting: Fraction) -> "Review":
        """The same review without management, every charger set to a current."""
        chargers = []
        for charger in self.chargers:
            changed = {**charger, "charging_current_a": setting, "rated_current_a": rated_a(charger)}
            if charger.get("setting_access") is None and setting < rated_a(charger):
                changed["setting_access"] = "restricted"
            chargers.append(changed)
        return Review({**self.request, "chargers": chargers, "management": None})

    def loads_hold(self) -> bool:
        """Whether every rating carries the load, whatever is unknown."""
        return both(list(self.load_outcomes().values())) is True

    # --------------------------------------------------------------------------------- rules, by name

    def charger_outcomes(self) -> dict[str, Holds]:
        """What is asked of the chargers alone."""
        outcomes: dict[str, Holds] = {
            "charger-setting-within-rating": all(
                exact(charger["charging_current_a"]) <= rated_a(charger) for charger in self.chargers
            ),
            "charger-setting-available": all(
                exact(charger["charging_current_a"]) in self.settings_a(charger)
                for charger in self.chargers
                if charger.get("settings_a") is not None
            ),
            "least-charging-current": all(
                exact(charger["charging_current_a"]) >= LEAST_CHARGING_A for charger in self.chargers
            ),
            "charger-circuit-breaker": both(
                [
                    at_most(times(CONTINUOUS, self.counted_a(charger)), exact(charger["circuit_breaker_a"]))
                    for charger in self.chargers
                    if charger.get("circuit_breaker_a") is not None
                ]
            ),
        }
        return outcomes

    def panel_outcomes(self) -> dict[str, Holds]:
        """Main breaker, busbar and what feeds it back, apart from the load."""
        rating, main = exact(self.service["rating_a"]), self.service.get("main_breaker_a")
        busbar, backfeed = self.service.get("busbar_rating_a"), self.backfeed_a()
        phases: Holds = self.home([]).wye or self.service.get("phases") != 3
        outcomes: dict[str, Holds] = {
            "service-phases": phases,
            "main-breaker-within-service": main is None or exact(main) <= rating,
            "busbar-protection": main is None or busbar is None or exact(main) <= exact(busbar),
            "busbar-with-backfeed": True,
            "backfeed-breaker": True,
        }
        if backfeed is None:
            return outcomes
        output, breaker = self.service.get("backfeed_output_a"), self.service.get("backfeed_breaker_a")
        if output is not None and breaker is not None:
            outcomes["backfeed-breaker"] = CONTINUOUS * exact(output) <= exact(breaker)
        if busbar is None:
            return {**outcomes, "busbar-with-backfeed": None}
        supplies = (rating if main is None else exact(main)) + backfeed
        opposite, anywhere = supplies <= BACKFEED_SHARE * exact(busbar), supplies <= exact(busbar)
        place = self.service.get("backfeed_opposite_main")
        outcomes["busbar-with-backfeed"] = (
            opposite if place else anywhere if place is False or anywhere == opposite else None
        )
        return outcomes

    def backfeed_a(self) -> Fraction | None:
        """705.12: 125 percent of the source's output, or its breaker; None where nothing feeds back."""
        output, breaker = self.service.get("backfeed_output_a"), self.service.get("backfeed_breaker_a")
        if output is not None:
            return CONTINUOUS * exact(output)
        return None if breaker is None else exact(breaker)

    def load_outcomes(self) -> dict[str, Holds]:
        """The load against service, main breaker and busbar; the setting of management may stand for it."""
        counted = in_whole(self.total_a(self.all()))
        if self.management is not None and self.managed():
            setting = CONTINUOUS * exact(self.management["control_setting_a"])
            low, high = counted or (setting, setting)
            counted = min(low, setting), min(high, setting)
        ratings = {
            "service-capacity": "rating_a",
            "main-breaker-capacity": "main_breaker_a",
            "busbar-capacity": "busbar_rating_a",
        }
        outcomes = {
            rule: at_most(counted, exact(self.service[name]))
            for rule, name in ratings.items()
            if self.service.get(name) is not None
        }
        ampacity = (self.service.get("conductors") or {}).get("ampacity_a")
        if ampacity is not None and not self.by_percent():
            outcomes["service-conductor-load"] = at_most(counted, exact(ampacity))
        return outcomes

    def by_percent(self) -> bool:
        """310.12: conductors that carry the entire load of a dwelling unit on 120/240 V, from 100 to 400 A."""
        low, high = DWELLING_SERVICES_A
        return (
            low <= exact(self.service["rating_a"]) <= high
            and not self.home([]).wye
            and self.request.get("occupancy") in ("one-family", "two-family", "multifamily")
            and self.service["conductors"].get("carry_entire_load") is True
        )

    def conductor_outcomes(self) -> dict[str, Holds]:
        """310.12 and 240.4(B): 83 percent of the rating, or an ampacity that the next standard rating protects."""
        ampacity = (self.service.get("conductors") or {}).get("ampacity_a")
        if ampacity is None:
            return {}
        rating = exact(self.service["rating_a"])
        if self.by_percent():
            return {"service-conductors": exact(ampacity) >= DWELLING_CONDUCTORS * rating}
        main = exact(self.service.get("main_breaker_a") or rating)
        next_up = min(one for one in STANDARD_RATINGS_A if one >= exact(ampacity))
        return {"service-conductors": main <= next_up}

    def shared_outcomes(self) -> dict[str, Holds]:
        """625.40 and 625.42: chargers that share a circuit, from 2020 and under listed management alone."""
        if not self.circuits:
            return {}
        settings = [circuit.get("control_setting_a") for circuit in self.circuits]
        fail_safes = [circuit.get("fail_safe_current_a") for circuit in self.circuits]
        breakers = [exact(circuit["breaker_a"]) for circuit in self.circuits]
        members = [len(circuit["chargers"]) for circuit in self.circuits]
        return {
            "shared-circuit-management": both([circuit.get("listed") for circuit in self.circuits])
            if self.edition != "nec-2017"
            else False,
            "shared-circuit-setting": both(
                [
                    None if setting is None else CONTINUOUS * exact(setting) <= breaker
                    for setting, breaker in zip(settings, breakers, strict=True)
                ]
            ),
            "shared-circuit-lost-link": both(
                [
                    None if each is None else CONTINUOUS * exact(each) * count <= breaker
                    for each, count, breaker in zip(fail_safes, members, breakers, strict=True)
                ]
            ),
        }

    def managed(self) -> list[int]:
        """The places of the chargers that the management controls."""
        return [place for place in self.all() if self.chargers[place].get("managed") is not False]

    def uncontrolled(self) -> list[int]:
        """Those that it leaves alone, with what shares a circuit with one of them."""
        alone = set(self.all()) - set(self.managed())
        mixed = [set(circuit["chargers"]) for circuit in self.circuits if set(circuit["chargers"]) & alone]
        return sorted(alone.union(*mixed))

    def management_outcomes(self) -> dict[str, Holds]:
        """What is asked of energy management, each by itself."""
        if self.management is None:
            return {}
        outcomes: dict[str, Holds] = {
            "control-setting-range": exact(self.management["control_setting_a"])
            <= exact(self.service["rating_a"])
        }
        if not self.managed():
            return outcomes
        new, access = self.edition in EQUIPMENT_RULES, self.management.get("access")
        legs, ungrounded = self.management.get("monitored_legs"), 3 if self.home([]).three_phases else 2
        return {
            **outcomes,
            **self.lost_link_outcomes(self.management),
            "managed-least-load": True
            if self.edition not in LEAST_CURRENTS_COUNT or self.carried()
            else self.with_managed_at(Fraction(LEAST_CHARGING_A)),
            "management-listing": self.management.get("listed") if new else True,
            "management-access": True if not new else None if access is None else access == "restricted",
            "monitored-legs": None if legs is None else exact(legs) == ungrounded,
            "monitor-position": self.position_holds(self.management),
            "link-loss-test": self.management.get("link_loss_tested"),
        }

    def with_managed_at(self, each_a: Fraction) -> Holds:
        """Existing load, unmanaged chargers, and each managed one at a current, are within the least rating."""
        span = self.total_a(self.uncontrolled(), each_a * len(self.managed()))
        return at_most(in_whole(span), self.limit_a())

    def lost_link_outcomes(self, management: Json) -> dict[str, Holds]:
        """750.30(C): the current falls to one that a charger can offer, and that the service carries."""
        stated = management.get("fail_safe_current_a")
        full = min(exact(self.chargers[place]["charging_current_a"]) for place in self.managed())
        needed = not self.carried()
        if stated is None:
            return {
                "fail-safe-current": None,
                "lost-link-current": None if needed else True,
                "lost-link-capacity": None,
            }
        fail_safe = exact(stated)
        return {
            "fail-safe-current": fail_safe == 0 or fail_safe >= LEAST_CHARGING_A,
            # Full current is no failure where the service carries the chargers without management.
            "lost-link-current": fail_safe < full if needed else fail_safe <= full,
            "lost-link-capacity": self.with_managed_at(fail_safe),
        }

    def position_holds(self, management: Json) -> Holds:
        """Monitors on the supply side of a source see the service alone; the busbar then carries both."""
        generates = self.measured and self.existing.get("has_generation") is True
        backfeed, position = self.backfeed_a(), management.get("monitor_position")
        if backfeed is None and not generates:
            return True
        if position != "supply-side-of-generation":
            return None if position is None else True
        busbar = self.service.get("busbar_rating_a")
        if backfeed is None or busbar is None:
            return None
        return exact(management["control_setting_a"]) + backfeed <= exact(busbar)

    def verdict(self) -> str:
        """What all rules come to."""
        return {True: "no-failure-found", False: "fail", None: "undetermined"}[
            both(list(self.outcomes().values()))
        ]

    def read_so(self, name: str, reading: str) -> "Review":
        """The same review by another reading of one provision."""
        readings = {**(self.request.get("readings") or {}), name: reading}
        return Review({**self.request, "readings": readings})

    def outcomes(self) -> dict[str, Holds]:
        """What each rule finds; what does not apply holds."""
        method = (
            True
            if self.measured
            else load_oracle.permitted(self.together(self.all(), 1), self.existing["method"])
        )
        return {
            "existing-load-method": method,
            **self.conductor_outcomes(),
            **self.shared_outcomes(),
            **self.charger_outcomes(),
            **self.measured_outcomes(),
            **self.panel_outcomes(),
            **self.load_outcomes(),
            **self.management_outcomes(),
        }
