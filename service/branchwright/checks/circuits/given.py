"""What the stated facts come to before any size is chosen: load, terminals, and the conditions of the run.

Unknown facts are taken twice: at their worst for judging, and at their best to tell a failure from a
judgement that waits for the missing fact.
"""

from dataclasses import dataclass
from typing import Literal, TypeAlias

from branchwright.calculations.continuous_load import least_rating_a
from branchwright.checks.circuits.facts import CircuitFacts, Receptacle, Terminals
from branchwright.checks.circuits.segment_conditions import conditions_of
from branchwright.codebook import Book, EditionBook
from branchwright.findings import Sourced
from branchwright.quantities.conductor_sizes import ConductorSize
from branchwright.questions.current_setting import setting_counts

Assumption: TypeAlias = Literal["worst", "best"]

DEFAULT_INSULATION = "THWN-2"


@dataclass(slots=True)
class TerminalsAt:
    """Terminals in the path of the current: their place, their pointer and what is marked there."""

    at: str
    pointer: str
    marked: Terminals | None


def least_breaker_a(edition: EditionBook, load_a: float) -> float:
    """Return the least breaker rating in A for a continuous load, before the step to a standard rating."""
    return least_rating_a.value(edition.provision("continuous-load").number("factor"), load_a)


def matched_receptacle(edition: EditionBook, receptacle: Receptacle | None) -> Sourced | None:
    """Return the rating in A of the receptacle that the circuit must have too; None where the edition is content
    with a receptacle of a higher rating.
    """
    if receptacle is None or not edition.provision("receptacle-rating").says("equal_only"):
        return None
    return edition.receptacle_rating(receptacle.configuration)


def least_standard_breaker_a(
    edition: EditionBook, load_a: float, receptacle: Receptacle | None
) -> float | None:
    """Return the least standard rating in A of a breaker for a charging load; None beyond the last one."""
    matched = matched_receptacle(edition, receptacle)
    found = edition.standard_rating_at_least(
        max(
            least_breaker_a(edition, load_a),
            edition.provision("branch-circuit-rating").number("least_a"),
            0.0 if matched is None else matched.number,
        )
    )
    return None if found is None else found.number


class Given:
    """The facts of a circuit under one assumption about unknown ones, and the overcurrent device's rating."""

    __slots__ = (
        "_best",
        "assumption",
        "base_ambient_c",
        "book",
        "breaker_a",
        "capped",
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
        "phases",
        "power_factor",
        "receptacle",
        "run_ampacities_a",
        "segments",
        "short_percent",
        "terminals",
        "to_ground_v",
        "ungrounded_count",
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
        self._best: Given | None = None
        charger = facts.charger
        connection = charger.connection
        self.receptacle = connection if isinstance(connection, Receptacle) else None
        self.load_a, self.load_pointer = self._load()
        self.breaker_a = (
            least_standard_breaker_a(edition, self.load_a, self.receptacle)
            if breaker_a == "least"
            else breaker_a
        )
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
        # A system that has fewer phases than stated is a failing finding; the rest counts with what it has.
        stated_phases = facts.supply.phases or 1
        self.phases = int(min(stated_phases, edition.greatest_phases(facts.supply.system).number))
        self.ungrounded_count = 2 if self.phases == 1 else 3
        counts = edition.provision("neutral-count")
        self.neutral_counts = (
            self.wants_neutral
            and facts.supply.system == "wye-208y-120"
            and counts.says("wye_counts" if self.phases == 1 else "three_phase_counts")
        )
        self.power_factor = charger.power_factor or edition.provision("voltage-drop").number("power_factor")
        self.terminals = self._terminals()
        self.column, self.column_at = self._termination_column()
        self.base_ambient_c = edition.provision("base-ambient").number("ambient_c")
        short = edition.provision("short-length-exception")
        self.longest_short_ft = short.number("longest_ft")
        self.short_percent = short.number("greatest_percent")
        # Figures by size that sizing, rules and working ask for again and again; none depends on a reading.
        self.run_ampacities_a: dict[str, float] = {}
        self.voltage_drops: dict[str, tuple[float, float] | None] = {}
        self.segments = [conditions_of(self, index, segment) for index, segment in enumerate(facts.run)]
        self.capped = [
            segment
            for segment in self.segments
            if segment.cap_column is not None
            or segment.insulated_cap_column is not None
            or segment.print_column is not None
        ]

    def at_best(self) -> "Given":
        """Return the same facts with every unknown one at its best; made once for the readings in force."""
        if self._best is None or self._best.book is not self.book:
            self._best = Given(self.facts, self.book, self.breaker_a, "best")
        return self._best

    def terminal_column_of(self, size: ConductorSize) -> int:
        """Return the column of the lowest-rated terminal, within the cap and the print of any cable of the run."""
        column = self.column
        for segment in self.capped:
            for limit in (segment.cap_column_of(size), segment.print_column):
                if limit is not None and limit < column:
                    column = limit
        return column

    def _load(self) -> tuple[float, str]:
        """Return the current that counts as the load, and where it was stated."""
        charger = self.facts.charger
        setting, rated = charger.charging_current_a, charger.rated_current_a
        if rated is None or rated <= setting:
            return setting, "/charger/charging_current_a"
        if self._setting_counts():
            return setting, "/charger/charging_current_a"
        return rated, "/charger/rated_current_a"

    @property
    def setting_matters(self) -> bool:
        """Whether access to the setting decides which current counts, and is not stated."""
        return "/charger/setting_access" in self.unknown

    def _setting_counts(self) -> bool:
        """Return whether the edition takes an adjusted setting for the rating of this charger."""
        access = self.facts.charger.setting_access
        counts = setting_counts(self.book, access, fastened_in_place=self.receptacle is None)
        if counts is None:
            self.unknown.add("/charger/setting_access")
            return self.assumption != "worst"
        return counts

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
