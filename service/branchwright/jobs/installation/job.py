"""The job that is taken off: its circuit as designed, what was stated beside it, and the needs found so far."""

from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Final, Literal, TypeAlias

from branchwright.checks.circuits.answers import Design
from branchwright.checks.circuits.circuit import Circuit
from branchwright.checks.circuits.facts import Depth, Length, Point
from branchwright.findings import StepInput
from branchwright.jobs.installation.answers import Group
from branchwright.jobs.installation.facts import JobFacts, SegmentSite, Waste
from branchwright.jobs.installation.price_facts import Condition, PriceBook
from branchwright.quantities.lengths import UNITS_PER_FOOT
from branchwright.questions.ledger import StepLedger, stated

Finish: TypeAlias = Literal["count", "pieces", "length", "sticks", "road"]
"""How a quantity is made up: counted, counted with waste, measured, bought in whole sticks, or driven."""

CABLE_PERCENT: Final = 7.5
RACEWAY_PERCENT: Final = 7.5
FITTINGS_PERCENT: Final = 15.0
CONSUMABLES_PERCENT: Final = 3.5
CABLE_ENDS_M: Final = 2.5
"""Taken where nothing is stated: the middle of what is usual, 5 to 10 % of cable and raceway, 10 to 20 % of fittings,
2 to 5 % for small parts and 2 to 3 m of ends; common practice, no source.
"""

STICK_FT: Final = 10.0
STICK_M: Final = 3.0
"""Sticks of raceway where feet are used, and where metres are; common practice, no source."""


@dataclass(slots=True)
class Need:
    """One thing, or one task, that the job needs: how much of it, and why.

    `amount` is a count, feet or miles. `key` is None where a missing fact leaves open which thing it is. `condition` is
    that of a task along the run.
    """

    group: Group
    item: str
    key: str | None
    amount: StepInput
    why: str
    rests_on: list[str]
    finish: Finish = "count"
    condition: Condition | None = None


@dataclass(slots=True)
class Job:
    """What is taken off, and the working of it. `circuit_at` and `facts_at` say where they stand in the request."""

    circuit: Circuit
    design: Design
    facts: JobFacts
    circuit_at: str
    facts_at: str
    book: PriceBook
    ledger: StepLedger = field(default_factory=StepLedger)
    needs: list[Need] = field(default_factory=list["Need"])
    _entered: set[str] = field(default_factory=set[str])

    def need(self, need: Need) -> None:
        """Enter something that the job needs, unless it is none at all."""
        if need.amount.value:
            self.needs.append(need)

    @property
    def points(self) -> tuple[Point, ...]:
        """The devices and splices between the segments."""
        return self.circuit.facts.points or ()

    @property
    def waste(self) -> Waste:
        """What is stated of waste."""
        return self.facts.waste or Waste()

    def site_of(self, segment: int) -> tuple[int, SegmentSite] | None:
        """Return what is stated of the site along a segment, with its place; the first where there are two."""
        site = self.facts.site
        for place, stated_site in enumerate((site and site.segments) or ()):
            if stated_site.segment == segment:
                return place, stated_site
        return None

    def is_buried(self, segment: int) -> bool:
        """Return whether a segment lies underground."""
        return self.circuit.facts.run[segment].underground is not None

    def condition_of(self, segment: int) -> Condition | None:
        """Return the condition under which a segment is worked at: open if none is stated, none underground."""
        if self.is_buried(segment):
            return None
        site = self.site_of(segment)
        return (site[1].condition if site else None) or "open"

    def length(self, segment: int) -> StepInput:
        """Return the length of a segment in feet."""
        return self._feet(
            f"segment-{segment}-length",
            "length of the segment",
            self.circuit.facts.run[segment].length,
            f"{self.circuit_at}/run/{segment}/length",
            segment,
        )

    def ends(self) -> StepInput:
        """Return the two ends of a conductor together, in feet."""
        ends = self.waste.cable_ends
        if ends is not None:
            return self._feet(
                "cable-ends", "ends of a conductor", ends, self.facts_at + "/waste/cable_ends", None
            )
        metres = self.constant("usual-cable-ends", "ends of a conductor, usual", CABLE_ENDS_M, "m")
        return self._converted("cable-ends", "ends of a conductor", metres, None)

    def percent(self, name: Literal["cable", "raceway", "fittings", "consumables"]) -> StepInput:
        """Return a stated waste in percent, or the usual one."""
        of = self.waste
        found, usual = {
            "cable": (of.cable_percent, CABLE_PERCENT),
            "raceway": (of.raceway_percent, RACEWAY_PERCENT),
            "fittings": (of.fittings_percent, FITTINGS_PERCENT),
            "consumables": (of.consumables_percent, CONSUMABLES_PERCENT),
        }[name]
        if found is not None:
            return stated(found, "%", f"{self.facts_at}/waste/{name}_percent")
        return self.constant(f"usual-{name}-percent", f"{name}, usual percentage", usual, "%")

    def constant(self, step_id: str, quantity: str, value: float, unit: str) -> StepInput:
        """Return a figure of common practice as a step of its own, entered once."""
        return self._once(step_id, quantity, f"{value:g}", {}, value, unit, None)

    def one(self) -> StepInput:
        """Return the count of a single thing."""
        return self.constant("one", "one", 1.0, "count")

    def total(self, step_id: str, quantity: str, parts: Iterable[StepInput], unit: str) -> StepInput:
        """Return the sum of some figures; a single one needs no step."""
        found = list(parts)
        if len(found) == 1:
            return found[0]
        inputs = {f"part_{place}": part for place, part in enumerate(found)}
        value = 0.0
        for part in found:
            value += float(part.value)
        return self._once(step_id, quantity, " + ".join(inputs) or "0", inputs, value, unit, None)

    def stick_ft(self, key: str | None) -> StepInput:
        """Return the length in feet of the sticks that a raceway is bought in: of 3 m where its price is metric."""
        price = self.book.prices.get(key) if key else None
        if price is None or not price.unit.endswith("m"):
            return self.constant("stick", "length of a stick", STICK_FT, "ft")
        metres = self.constant("stick-m", "length of a stick", STICK_M, "m")
        return self._converted("stick-of-3-m", "length of a stick", metres, None)

    def _feet(
        self, step_id: str, quantity: str, length: Length | Depth, pointer: str, segment: int | None
    ) -> StepInput:
        given = stated(length.value, length.unit, pointer + "/value")
        return given if length.unit == "ft" else self._converted(step_id, quantity, given, segment)

    def _converted(self, step_id: str, quantity: str, given: StepInput, segment: int | None) -> StepInput:
        for unit, per_foot in UNITS_PER_FOOT.items():
            if unit == given.unit:
                value = float(given.value) / per_foot
                expression = f"length / {per_foot:g}"
                return self._once(step_id, quantity, expression, {"length": given}, value, "ft", segment)
        raise ValueError(f"{given.unit} is no unit of length.")

    def _once(
        self,
        step_id: str,
        quantity: str,
        expression: str,
        inputs: dict[str, StepInput],
        value: float,
        unit: str,
        segment: int | None,
    ) -> StepInput:
        if step_id not in self._entered:
            self._entered.add(step_id)
            self.ledger.work_out(step_id, quantity, expression, inputs, value, unit, None, segment)
        return StepInput(value, unit, "step:" + step_id)
