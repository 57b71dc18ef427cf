"""What the stated facts come to before any size is chosen: load, terminals, and each segment's conditions.

Unknown facts are taken twice: at their worst for judging, and at their best to tell a failure from a
judgement that waits for the missing fact.
"""

from dataclasses import dataclass
from typing import Literal, TypeAlias

from branchwright.calculations.ampacity import rooftop_ambient_c
from branchwright.calculations.continuous_load import least_rating_a
from branchwright.checks.circuits.facts import CircuitFacts, Receptacle, Segment, Terminals
from branchwright.codebook import Book, EditionBook, MethodFacts
from branchwright.findings import Sourced
from branchwright.quantities.lengths import inches

Assumption: TypeAlias = Literal["worst", "best"]

DEFAULT_INSULATION = "THWN-2"


@dataclass(slots=True)
class TerminalsAt:
    """Terminals in the path of the current: their place, their pointer and what is marked there."""

    at: str
    pointer: str
    marked: Terminals | None


@dataclass(slots=True)
class SegmentConditions:
    """One segment with everything about it that does not depend on a size."""

    index: int
    facts: Segment
    method: MethodFacts
    length_ft: float
    location: str
    base_ambient_c: float
    adder: Sourced | None
    ambient_c: float
    start_column: int
    cap_column: int | None
    insulation_permitted: bool
    correction: Sourced | None
    conductor_count: int
    adjustment: Sourced
    is_nipple: bool
    listed_c: float | None
    correction_factor: float
    adjustment_percent: float


def least_breaker_a(edition: EditionBook, load_a: float) -> float:
    """Return the least breaker rating in A for a continuous load, before the step to a standard rating."""
    return least_rating_a.value(edition.provision("continuous-load").number("factor"), load_a)


def least_standard_breaker_a(edition: EditionBook, load_a: float) -> float | None:
    """Return the least standard rating in A of a breaker for a charging load; None beyond the last one."""
    floor = edition.provision("branch-circuit-rating").number("least_a")
    found = edition.standard_rating_at_least(max(least_breaker_a(edition, load_a), floor))
    return None if found is None else found.number


class Given:
    """The facts of a circuit under one assumption about unknown ones, and the overcurrent device's rating."""

    __slots__ = (
        "assumption",
        "base_ambient_c",
        "book",
        "breaker_a",
        "column",
        "column_at",
        "edition",
        "facts",
        "insulation",
        "least_ampacity_a",
        "load_a",
        "load_pointer",
        "longest_short_ft",
        "material",
        "neutral_counts",
        "receptacle",
        "run_ampacities_a",
        "segments",
        "short_percent",
        "terminal_column",
        "terminals",
        "to_ground_v",
        "unknown",
        "voltage_drops",
        "voltage_v",
        "wants_neutral",
    )

    def __init__(
        self,
        facts: CircuitFacts,
        book: Book,
        breaker_a: float | Literal["least"] | None,
        assumption: Assumption = "worst",
    ) -> None:
        """Derive the conditions for a breaker: a stated one, the least that serves, or None for an unknown one."""
        edition = book.edition
        self.facts = facts
        self.book = book
        self.edition = edition
        self.assumption: Assumption = assumption
        self.unknown: set[str] = set()
        charger = facts.charger
        connection = charger.connection
        self.receptacle = connection if isinstance(connection, Receptacle) else None
        self.load_a, self.load_pointer = self._load()
        self.breaker_a = least_standard_breaker_a(edition, self.load_a) if breaker_a == "least" else breaker_a
        self.least_ampacity_a = least_rating_a.value(
            edition.provision("conductor-continuous-load").number("factor"), self.load_a
        )
        self.voltage_v = edition.voltage_between_lines(facts.supply.system).number
        self.to_ground_v = edition.voltage_to_ground(facts.supply.system).number
        self.material = facts.conductors.material
        self.insulation = facts.conductors.insulation or DEFAULT_INSULATION
        self.wants_neutral = (
            edition.receptacle_has_neutral(self.receptacle.configuration)
            if self.receptacle is not None
            else charger.uses_neutral is True
        )
        self.neutral_counts = (
            self.wants_neutral
            and facts.supply.system == "wye-208y-120"
            and edition.provision("neutral-count").says("wye_counts")
        )
        self.terminals = self._terminals()
        self.column, self.column_at = self._termination_column()
        self.base_ambient_c = edition.provision("base-ambient").number("ambient_c")
        short = edition.provision("short-length-exception")
        self.longest_short_ft = short.number("longest_ft")
        self.short_percent = short.number("greatest_percent")
        # Figures by size that sizing, rules and working ask for again and again; none depends on a reading.
        self.run_ampacities_a: dict[str, float] = {}
        self.voltage_drops: dict[str, tuple[float, float] | None] = {}
        self.segments = [self._conditions(index, segment) for index, segment in enumerate(facts.run)]
        caps = [segment.cap_column for segment in self.segments if segment.cap_column is not None]
        self.terminal_column = min(self.column, *caps) if caps else self.column

    def _load(self) -> tuple[float, str]:
        """Return the current that counts as the load, and where it was stated."""
        charger = self.facts.charger
        setting, rated = charger.charging_current_a, charger.rated_current_a
        if rated is None or rated <= setting:
            return setting, "/charger/charging_current_a"
        rule = self.edition.provision("current-setting")
        access = charger.setting_access
        if access is None:
            self.unknown.add("/charger/setting_access")
            access = "unrestricted" if self.assumption == "worst" else "restricted"
        if rule.says("counts") and access == rule.values["access"].name:
            return setting, "/charger/charging_current_a"
        return rated, "/charger/rated_current_a"

    def _terminals(self) -> list[TerminalsAt]:
        facts = self.facts
        found = [
            TerminalsAt("breaker", "/breaker/terminals", facts.breaker.terminals if facts.breaker else None)
        ]
        for index, point in enumerate(facts.points or ()):
            found.append(TerminalsAt(f"points/{index}", f"/points/{index}/terminals", point.terminals))
        if self.receptacle is not None:
            found.append(
                TerminalsAt("receptacle", "/charger/connection/terminals", self.receptacle.terminals)
            )
        else:
            found.append(TerminalsAt("charger", "/charger/terminals", facts.charger.terminals))
        return found

    def _termination_column(self) -> tuple[int, str]:
        """Return the temperature column of the lowest-rated terminal, and that terminal."""
        rule = self.edition.provision("termination-temperature")
        small_circuit = self.breaker_a is None or self.breaker_a <= rule.number("circuit_up_to_a")
        unmarked = int(rule.number("unmarked_up_to_c" if small_circuit else "unmarked_above_c"))
        greatest = int(rule.number("greatest_c"))
        column, at = greatest, ""
        for place in self.terminals:
            rating: int | None = place.marked.temperature_rating_c if place.marked else None
            if rating is None:
                if unmarked < greatest:
                    self.unknown.add(place.pointer + "/temperature_rating_c")
                rating = unmarked if self.assumption == "worst" else greatest
            if rating < column or not at:
                column, at = min(rating, greatest), place.at
        return column, at

    def _conditions(self, index: int, segment: Segment) -> SegmentConditions:
        edition = self.edition
        method = edition.methods[segment.wiring_method]
        location: str | None = segment.location
        if location is None:
            self.unknown.add(f"/run/{index}/location")
            location = "wet" if self.assumption == "worst" else "dry"
        stated_ambient = self.base_ambient_c if segment.ambient_c is None else segment.ambient_c
        adder = self._rooftop_adder(segment)
        ambient = stated_ambient
        if adder is not None:
            ambient = rooftop_ambient_c.value(stated_ambient, adder.number)
        start, permitted = self._start_column(method, location)
        correction = edition.ambient_correction(ambient, start)
        count = 2 + self.neutral_counts + (segment.other_current_carrying_conductors or 0)
        length_ft = segment.length.ft
        nipple = method.is_raceway and self._is_nipple(index, segment)
        adjustment = edition.count_adjustment(1 if nipple else count)
        cap = method.cap_c
        listed: float | None = segment.raceway_temperature_rating_c
        if listed is None:
            listing = method.listed_c[location]
            listed = None if listing is None else listing.number
        elif not method.is_raceway:
            listed = None
        return SegmentConditions(
            index=index,
            facts=segment,
            method=method,
            length_ft=length_ft,
            location=location,
            base_ambient_c=stated_ambient,
            adder=adder,
            ambient_c=ambient,
            start_column=start,
            cap_column=None if cap is None else int(cap.number),
            insulation_permitted=permitted,
            correction=correction,
            conductor_count=count,
            adjustment=adjustment,
            is_nipple=nipple,
            listed_c=listed,
            correction_factor=0.0 if correction is None else correction.number,
            adjustment_percent=adjustment.number,
        )

    def _rooftop_adder(self, segment: Segment) -> Sourced | None:
        clearance = segment.rooftop_clearance
        if clearance is None or self.insulation == "XHHW-2":
            return None
        rule = self.edition.provision("rooftop")
        height = inches(clearance.value, clearance.unit)
        if height >= rule.number("clearance_in"):
            return None
        # Below both clearances the readings agree, and neither needs to be consulted.
        if (
            height >= rule.number("clearance_smaller_in")
            and self.book.reading("rooftop-clearance") == "three-quarters-inch"
        ):
            return None
        return rule.values["adder_c"]

    def _start_column(self, method: MethodFacts, location: str) -> tuple[int, bool]:
        """Return the column that correction starts from, and whether the insulation may be there at all."""
        if method.start_c is not None:
            return int(method.start_c.number), True
        temperatures = self.edition.insulation_temperatures
        here = temperatures.get((self.insulation, location))
        if here is not None:
            return int(here.number), True
        # Not permitted here: a rule says so, and the lowest column keeps the other figures on the safe side.
        return 60, False

    def _is_nipple(self, index: int, segment: Segment) -> bool:
        """A short raceway with an enclosure at both ends: panel, charger or a point of the run."""
        longest = self.edition.provision("nipple").number("longest_in")
        if inches(segment.length.value, segment.length.unit) > longest:
            return False
        ends = {point.after_segment for point in self.facts.points or ()}
        starts_at_enclosure = index == 0 or index - 1 in ends
        stops_at_enclosure = index == len(self.facts.run) - 1 or index in ends
        return starts_at_enclosure and stops_at_enclosure
