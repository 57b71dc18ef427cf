"""Chooses the sizes of a circuit: walks the sizes from the smallest with the rules' cheap predicates."""

from bisect import bisect_left
from collections.abc import Callable
from dataclasses import dataclass
from typing import Final, TypeAlias

from branchwright.checks.circuits.circuit import Sizes, terminal_ampacity_a
from branchwright.checks.circuits.facts import CircuitFacts
from branchwright.checks.circuits.given import Given
from branchwright.checks.circuits.rules.conductor_ampacity import (
    carries_corrected_load,
    is_protected,
    is_protected_uncorrected,
    within_small_conductor_limit,
)
from branchwright.checks.circuits.rules.disconnecting_means import SOUND_DISCONNECT, disconnect_need
from branchwright.checks.circuits.rules.emergency_shutoff import shutoff_need
from branchwright.checks.circuits.rules.ground_fault_protection import protection_need
from branchwright.checks.circuits.rules.grounding_conductor import grounding_need
from branchwright.checks.circuits.rules.locations import is_above_made, is_made
from branchwright.checks.circuits.rules.raceway_fill import fill, filling, nearest_trade_size
from branchwright.checks.circuits.rules.raceway_temperature import within_listing
from branchwright.checks.circuits.rules.terminals import is_above_range, take_size
from branchwright.checks.circuits.rules.underground import prescribed_covers_in
from branchwright.checks.circuits.rules.voltage_drop import meets_target
from branchwright.codebook import Book
from branchwright.quantities.conductor_sizes import SIZES, ConductorSize

Predicate: TypeAlias = Callable[[Given, float, ConductorSize], bool]

AMPACITY: Final[tuple[tuple[str, Predicate], ...]] = (
    ("conductor-corrected-ampacity", carries_corrected_load),
    ("conductor-overcurrent-protection", is_protected),
    ("small-conductor-protection", within_small_conductor_limit),
)
"""What, beside the continuous load, makes a size large enough."""

UNCORRECTED: Final[tuple[tuple[str, Predicate], ...]] = (
    ("conductor-overcurrent-protection", is_protected_uncorrected),
    ("small-conductor-protection", within_small_conductor_limit),
)
"""The same before ambient correction and count adjustment."""

GROWTH: Final[tuple[tuple[str, Predicate], ...]] = (
    ("raceway-temperature", within_listing),
    ("voltage-drop-target", meets_target),
)
"""What may ask for more than the minimum."""

BOUNDS: Final[tuple[tuple[str, Predicate], ...]] = (
    ("terminal-sizes", take_size),
    ("cable-size", is_made),
)
"""What a larger size may run into."""

SMALLEST: Final = "smallest-size-made"


@dataclass(slots=True)
class Choice:
    """The sizes chosen. Where `served` is false they are the candidate at which the first limit was met.

    `at_best` says that they serve only with the unknown facts at their best.
    """

    given: Given
    sizes: Sizes
    minimum: ConductorSize | None
    served: bool
    conductors_governed_by: str
    at_best: bool = False


def minimum_size(given: Given) -> ConductorSize | None:
    """Return the size that the grounding conductor's growth is measured from; None where there is none.

    It is the smallest size whose ampacity serves the load and is protected by the breaker: after correction and
    adjustment, or before them where the edition is read to count such growth too.
    """
    return _measured_from(given, _smallest(given, AMPACITY))


def _measured_from(given: Given, corrected: ConductorSize | None) -> ConductorSize | None:
    rule = given.edition.provision("grounding-proportion")
    if rule.values["counts_correction"].name == "no":
        return corrected
    uncorrected = _smallest(given, UNCORRECTED)
    # Where correction asks for nothing more, the readings agree and neither needs to be consulted.
    if uncorrected != corrected and given.book.reading("grounding-growth") == "counts-correction":
        return uncorrected
    return corrected


def _smallest(given: Given, predicates: tuple[tuple[str, Predicate], ...]) -> ConductorSize | None:
    breaker = given.breaker_a
    if breaker is None:
        return None
    for size in _sizes_for_continuous_load(given):
        if _first_rejecting(predicates, given, breaker, size) is None:
            return size
    return None


def _sizes_for_continuous_load(given: Given) -> tuple[ConductorSize, ...]:
    """Return the sizes that carry the continuous load before correction, found without a walk; smallest first."""
    ladder = given.edition.ampacity_ladders[given.material, given.column]
    start = bisect_left(ladder, given.least_ampacity_a)
    # A cable's cap asks for more than the terminals do; the caps only ever rise with the size.
    while start < len(SIZES) and terminal_ampacity_a(given, SIZES[start]) < given.least_ampacity_a:
        start += 1
    return SIZES[start:]


def choose(facts: CircuitFacts, book: Book) -> Choice:
    """Return the smallest breaker, conductors and raceways that serve, or the nearest candidate.

    Unknown facts are taken at their worst. Where no size serves then, but some do at the best, these are chosen:
    judged at the worst they are undetermined, and the findings name the facts that decide.
    """
    choice = _choose(Given(facts, book, "least"))
    if choice.served or not choice.given.unknown:
        return choice
    best = _choose(Given(facts, book, "least", "best"))
    if not best.served:
        return choice
    given = Given(facts, book, best.given.breaker_a)
    return Choice(given, best.sizes, minimum_size(given), True, best.conductors_governed_by, at_best=True)


def _choose(given: Given) -> Choice:
    facts = given.facts
    breaker = given.breaker_a
    material = facts.conductors.grounding_material or facts.conductors.material
    if breaker is None:
        return Choice(given, _sizes(given, None, None, None, material)[0], None, False, SMALLEST)
    minimum: ConductorSize | None = None
    grown_from: ConductorSize | None = None
    serves = False
    sizes_left = _sizes_for_continuous_load(given)
    rejected_by = SMALLEST if len(sizes_left) == len(SIZES) else "conductor-continuous-load"
    candidate: Sizes | None = None
    for size in sizes_left:
        if not serves:
            rejecting = _first_rejecting(AMPACITY, given, breaker, size)
            if rejecting is not None:
                rejected_by = rejecting
                continue
            serves = True
            minimum = _measured_from(given, size)
            # Should the unknown facts prove better, the conductors will have grown from a smaller size.
            grown_from = minimum_size(given.at_best()) if given.unknown else minimum
        rejecting = _first_rejecting(GROWTH, given, breaker, size)
        if rejecting is not None:
            rejected_by = rejecting
            continue
        rejecting = _first_rejecting(BOUNDS, given, breaker, size)
        if rejecting is None or candidate is None:
            sizes, overfull = _sizes(given, breaker, size, grown_from, material)
            if rejecting is None and not overfull:
                return Choice(given, sizes, minimum, True, rejected_by)
            candidate = candidate or sizes
        rejected_by = rejecting or "raceway-fill"
        # Larger conductors only fill a raceway more, and fit no better where this size is too large already.
        if rejecting is None or _is_too_large(given, size):
            break
    if candidate is None:
        candidate, _ = _sizes(given, breaker, SIZES[-1], grown_from, material)
    return Choice(given, candidate, minimum, False, rejected_by)


def _is_too_large(given: Given, size: ConductorSize) -> bool:
    """Return whether a size is above what some terminal takes or some cable of the run is made with."""
    return any(is_above_range(place.marked, size) for place in given.terminals) or any(
        is_above_made(segment.method, given.material, size)
        for segment in given.segments
        if not segment.method.is_raceway
    )


def _first_rejecting(
    predicates: tuple[tuple[str, Predicate], ...], given: Given, breaker: float, size: ConductorSize
) -> str | None:
    for name, holds in predicates:
        if not holds(given, breaker, size):
            return name
    return None


def _sizes(
    given: Given,
    breaker: float | None,
    size: ConductorSize | None,
    grown_from: ConductorSize | None,
    grounding_material: str,
) -> tuple[Sizes, bool]:
    """Return the sizes that follow from breaker and ungrounded conductors with what the design prescribes, and
    whether some raceway takes them in no trade size.
    """
    facts = given.facts
    need = (
        grounding_need(given, breaker, size, grown_from, grounding_material)
        if breaker is not None and size is not None
        else None
    )
    protection = protection_need(given, breaker) if breaker is not None else None
    charger = facts.charger
    sizes = Sizes(
        breaker_a=breaker,
        ungrounded=size,
        neutral=size if given.wants_neutral else None,
        grounding=need.least if need else None,
        grounding_material=grounding_material,
        trade_sizes=[segment.raceway_trade_size for segment in facts.run],
        ground_fault_protection="breaker" if protection and protection.required else None,
        disconnect=SOUND_DISCONNECT if disconnect_need(given)[0] else None,
        emergency_shutoff=True if shutoff_need(given)[0] else None,
        covers_in=prescribed_covers_in(given),
        setting_label=(
            True if charger.rated_current_a and charger.rated_current_a > charger.charging_current_a else None
        ),
    )
    overfull = False
    for segment in given.segments:
        if segment.method.is_raceway or segment.facts.sleeve_method is not None:
            trade_size = sizes.trade_sizes[segment.index]
            content = filling(given, segment, sizes)
            # Unknown other conductors leave the fill undetermined, which is no reason to refuse a size.
            if content is None:
                continue
            if trade_size is None and need is not None:
                trade_size, holds = nearest_trade_size(given, segment, content)
                sizes.trade_sizes[segment.index] = trade_size
                overfull = overfull or not holds
            elif trade_size is not None:
                overfull = overfull or not fill(given, segment, content, trade_size).holds
    return sizes, overfull
