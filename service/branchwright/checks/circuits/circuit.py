"""A circuit with its sizes, chosen or installed, and the figures that its rules share."""

from collections.abc import Callable
from dataclasses import dataclass, field
from math import fsum
from typing import Any, Literal, TypeVar

from branchwright.calculations.ampacity import corrected_ampacity_a, governing_ampacity_a
from branchwright.calculations.voltage_drop import drop_percent, drop_v, line_ohm, loop_ohm
from branchwright.checks.circuits.facts import CircuitFacts, InstalledDisconnect, TorqueRecord
from branchwright.checks.circuits.given import Given
from branchwright.checks.circuits.segment_conditions import SegmentConditions
from branchwright.quantities.conductor_sizes import RANK, ConductorSize
from branchwright.quantities.trade_sizes import TradeSize

Figure = TypeVar("Figure")

REVIEW_POINTERS = {
    "breaker": "/installed/breaker_rating_a",
    "ungrounded": "/installed/ungrounded_size",
    "neutral": "/installed/neutral_size",
    "grounding": "/installed/grounding_size",
    "protection": "/installed/ground_fault_protection",
    "disconnect": "/installed/disconnect",
    "shutoff": "/installed/emergency_shutoff",
    "label": "/installed/setting_label",
}
DESIGN_POINTERS = {
    "breaker": "/charger/charging_current_a",
    "ungrounded": "/charger/charging_current_a",
    "neutral": "/charger/uses_neutral",
    "grounding": "/conductors/material",
    "protection": "/charger/connection",
    "disconnect": "/charger/rated_current_a",
    "shutoff": "/premises/occupancy",
    "label": "/charger/charging_current_a",
}


@dataclass(slots=True)
class Sizes:
    """What is chosen or installed. None means that it is not stated or could not be chosen."""

    breaker_a: float | None
    ungrounded: ConductorSize | None
    neutral: ConductorSize | None
    grounding: ConductorSize | None
    grounding_material: str
    trade_sizes: list[TradeSize | None]
    grounding_is_the_cables: bool = False
    ground_fault_protection: str | None = None
    disconnect: InstalledDisconnect | None = None
    emergency_shutoff: bool | None = None
    covers_in: dict[int, float] = field(default_factory=dict[int, float])
    setting_label: bool | None = None
    torque_records: tuple[TorqueRecord, ...] | None = None


class Circuit:
    """Given facts and sizes. `minimum_size` is the conductor that the grounding conductor's growth is measured from."""

    __slots__ = (
        "breaker_a",
        "facts",
        "given",
        "is_review",
        "minimum_size",
        "missing",
        "remembered",
        "sizes",
        "ungrounded",
    )

    def __init__(
        self, given: Given, sizes: Sizes, minimum_size: ConductorSize | None, *, is_review: bool
    ) -> None:
        """Join facts and sizes. Rules that need a breaker or a conductor run only where there is one."""
        self.given = given
        self.facts: CircuitFacts = given.facts
        self.sizes = sizes
        self.minimum_size: ConductorSize | None = minimum_size
        self.is_review = is_review
        self.remembered: dict[object, Any] = {}
        self.missing: tuple[str, ...] = ()
        if sizes.breaker_a is None or sizes.ungrounded is None or sizes.grounding is None:
            stated = {
                "breaker": sizes.breaker_a,
                "ungrounded": sizes.ungrounded,
                "grounding": sizes.grounding,
            }
            self.missing = tuple(name for name, size in stated.items() if size is None)
        self.breaker_a: float = sizes.breaker_a or 0.0
        self.ungrounded: ConductorSize = sizes.ungrounded or "14 AWG"

    def pointer(self, what: str) -> str:
        """Return where the caller states a thing: as installed in a review, by what drives it in a design."""
        return REVIEW_POINTERS[what] if self.is_review else DESIGN_POINTERS[what]


def once_per_circuit(function: Callable[[Circuit], Figure]) -> Callable[[Circuit], Figure]:
    """Compute a figure that rules, working and design share only once for each circuit."""

    def figure(circuit: Circuit) -> Figure:
        if function not in circuit.remembered:
            circuit.remembered[function] = function(circuit)
        found: Figure = circuit.remembered[function]
        return found

    figure.__doc__ = function.__doc__
    return figure


def segment_ampacity_a(given: Given, segment: SegmentConditions, size: ConductorSize) -> float:
    """Return the ampacity in A of a size in one segment, corrected, adjusted and capped; 0 where there is none."""
    table = given.edition.ampacities_a
    corrected = corrected_ampacity_a.value(
        table.get((size, given.material, segment.start_column), 0.0),
        segment.correction_factor,
        segment.adjustment_percent,
    )
    cap = segment.cap_column_of(size)
    if cap is not None:
        return min(corrected, table.get((size, given.material, cap), 0.0))
    return corrected


def run_ampacity_a(given: Given, size: ConductorSize) -> float:
    """Return the ampacity in A of a size over the whole run; the lowest segment governs, exceptions apart."""
    found = given.run_ampacities_a.get(size)
    if found is None:
        segments = given.segments
        found = given.run_ampacities_a[size] = governing_ampacity_a(
            [segment_ampacity_a(given, segment, size) for segment in segments],
            [segment.length_ft for segment in segments],
            # Neither a capped cable nor a place too hot for the insulation may be disregarded.
            [segment.cap_column_of(size) is not None or segment.correction is None for segment in segments],
            given.longest_short_ft,
            given.short_percent,
        )
    return found


def terminal_ampacity_a(given: Given, size: ConductorSize) -> float:
    """Return the ampacity in A of a size before correction, at the termination column and within any cable's cap."""
    return given.edition.ampacities_a.get((size, given.material, given.terminal_column_of(size)), 0.0)


def protected_ampacity_a(given: Given, size: ConductorSize) -> float:
    """Return the ampacity in A that the breaker must protect: the least after correction, at terminals and by cap."""
    return min(run_ampacity_a(given, size), terminal_ampacity_a(given, size))


def least_of_cables(
    given: Given, field: Literal["grounding_size", "neutral_size"], size: ConductorSize | None, pointer: str
) -> tuple[ConductorSize | None, str, int | None]:
    """Return the smallest of a stated size and those that the run's cables bring, its pointer and segment."""
    segment = None
    for conditions in given.segments:
        cable = conditions.facts.cable
        brought: ConductorSize | None = None
        if cable is not None and not conditions.method.is_raceway:
            brought = cable.grounding_size if field == "grounding_size" else cable.neutral_size
        if brought is not None and (size is None or RANK[brought] < RANK[size]):
            size, segment = brought, conditions.index
            pointer = f"/run/{segment}/cable/{field}"
    return size, pointer, segment


def neutral_count(given: Given) -> int:
    """Return how many neutrals the circuit has: one or none."""
    return 1 if given.wants_neutral else 0


def loop_impedance_ohm(given: Given, size: ConductorSize) -> tuple[float, float] | None:
    """Return resistance and reactance in ohm between the lines of the whole run; None for a size without impedance."""
    resistances: list[float] = []
    reactances: list[float] = []
    ohm = loop_ohm if given.phases == 1 else line_ohm
    for segment in given.segments:
        per_kft = given.edition.impedances_ohm.get((size, given.material, segment.method.impedance_column))
        if per_kft is None:
            return None
        resistances.append(ohm.value(per_kft[0], segment.length_ft))
        reactances.append(ohm.value(per_kft[1], segment.length_ft))
    return fsum(resistances), fsum(reactances)


def voltage_drop(given: Given, size: ConductorSize) -> tuple[float, float] | None:
    """Return the drop in V and in percent at the charging current; None for a size without impedance."""
    if size in given.voltage_drops:
        return given.voltage_drops[size]
    impedance = loop_impedance_ohm(given, size)
    drop = None
    if impedance is not None:
        volts = drop_v.value(
            given.voltage_v, given.facts.charger.charging_current_a, *impedance, given.power_factor
        )
        drop = volts, drop_percent.value(volts, given.voltage_v)
    given.voltage_drops[size] = drop
    return drop
