"""The ungrounded conductors' ampacity: before and after correction, and under the breaker."""

from branchwright.checks.circuits.circuit import (
    Circuit,
    protected_ampacity_a,
    run_ampacity_a,
    segment_ampacity_a,
    terminal_ampacity_a,
)
from branchwright.checks.circuits.given import Given
from branchwright.checks.circuits.rules.rule import rule
from branchwright.findings import Finding
from branchwright.quantities.conductor_sizes import ConductorSize
from branchwright.questions.overcurrent import permitted_breaker_a

UNKNOWN = ("temperature_rating_c", "setting_access", "location")


def governing_segment(given: Given, size: ConductorSize) -> int:
    """Return the index of the segment whose ampacity is the one that governs the run."""
    governing = run_ampacity_a(given, size)
    for segment in given.segments:
        if segment_ampacity_a(given, segment, size) == governing:
            return segment.index
    return 0


def carries_corrected_load(given: Given, breaker_a: float, size: ConductorSize) -> bool:
    """Return whether a size carries the load after correction and adjustment."""
    return run_ampacity_a(given, size) >= given.load_a


def is_protected(given: Given, breaker_a: float, size: ConductorSize) -> bool:
    """Return whether the breaker protects a size."""
    return breaker_a <= permitted_breaker_a(given.edition, protected_ampacity_a(given, size))


def is_protected_uncorrected(given: Given, breaker_a: float, size: ConductorSize) -> bool:
    """Return whether the breaker protects a size as it stands in the termination column, before correction."""
    return breaker_a <= permitted_breaker_a(given.edition, terminal_ampacity_a(given, size))


def within_small_conductor_limit(given: Given, breaker_a: float, size: ConductorSize) -> bool:
    """Return whether a small conductor's own limit on the breaker is kept."""
    limit = given.edition.small_conductor_limit(given.material, size)
    return limit is None or breaker_a <= limit.number


@rule(
    "conductor-continuous-load",
    subject="ungrounded conductors",
    concept="conductor-continuous-load",
    needs=("ungrounded",),
    waits_for=UNKNOWN,
)
def conductor_continuous_load(circuit: Circuit) -> Finding:
    """Do the conductors carry 125 percent of the load before correction, at the terminals' temperature column?

    Applies: always.
    Rests on: the ampacity before correction and adjustment, in the column of the lowest-rated terminal and
    within the cap and the print of any cable, is at least 125 percent of the continuous load.
    Missing facts: unmarked terminals count as 60 degC up to 100 A; undetermined where a marking would decide.
    """
    given = circuit.given
    least = given.least_ampacity_a
    ampacity = terminal_ampacity_a(given, circuit.ungrounded)
    column = given.terminal_column_of(circuit.ungrounded)
    by = "its cable" if column < given.column else f"the lowest terminal ({given.column_at})"
    return conductor_continuous_load.at_least(
        ampacity,
        least,
        "A",
        f"{circuit.ungrounded} {given.material} has {ampacity:g} A at the {column} degC column of "
        f"{by}; the load asks for at least {least:g} A.",
        conductor_continuous_load.cited(given.edition),
        circuit.pointer("ungrounded"),
    )


@rule(
    "conductor-corrected-ampacity",
    subject="ungrounded conductors",
    concept="conductor-actual-load",
    needs=("ungrounded",),
    waits_for=UNKNOWN,
)
def conductor_corrected_ampacity(circuit: Circuit) -> Finding:
    """Do the conductors carry the load itself after ambient correction and count adjustment?

    Applies: always; every segment is computed.
    Rests on: the ampacity from the insulation's own column, corrected and adjusted, is at least the load. The
    lowest segment governs, save for a portion that the short-length exception disregards.
    Missing facts: no ambient temperature stands for that of the table; an unknown location counts as wet.
    """
    given = circuit.given
    ampacity = run_ampacity_a(given, circuit.ungrounded)
    segment = governing_segment(given, circuit.ungrounded)
    return conductor_corrected_ampacity.at_least(
        ampacity,
        given.load_a,
        "A",
        f"{circuit.ungrounded} {given.material} has {ampacity:g} A after correction and adjustment; "
        f"the load is {given.load_a:g} A.",
        conductor_corrected_ampacity.cited(given.edition),
        f"/run/{segment}",
        segment,
    )


@rule(
    "conductor-overcurrent-protection",
    subject="ungrounded conductors",
    concept="next-size-up",
    needs=("breaker", "ungrounded"),
    waits_for=UNKNOWN,
)
def conductor_overcurrent_protection(circuit: Circuit) -> Finding:
    """Does the breaker protect the conductors?

    Applies: always.
    Rests on: the least of corrected ampacity, termination-column ampacity and cable cap is protected; where it
    is no standard rating, the next higher standard rating is permitted.
    Missing facts: as for the ampacities.
    """
    given = circuit.given
    ampacity = protected_ampacity_a(given, circuit.ungrounded)
    permitted = permitted_breaker_a(given.edition, ampacity)
    return conductor_overcurrent_protection.at_most(
        circuit.breaker_a,
        permitted,
        "A",
        f"{circuit.ungrounded} {given.material} has {ampacity:g} A to protect, which permits a breaker of at most "
        f"{permitted:g} A; it has {circuit.breaker_a:g} A.",
        conductor_overcurrent_protection.cited(given.edition),
        circuit.pointer("ungrounded"),
    )


@rule(
    "small-conductor-protection",
    subject="ungrounded conductors",
    concept="small-conductor-protection",
    needs=("breaker", "ungrounded"),
)
def small_conductor_protection(circuit: Circuit) -> Finding:
    """Does the breaker keep the limit that small conductors have whatever their ampacity?

    Applies: to copper up to 10 AWG and aluminum up to 10 AWG.
    Rests on: fixed greatest overcurrent devices for small conductors, after everything else.
    Missing facts: undetermined without breaker and size.
    """
    given = circuit.given
    limit = given.edition.small_conductor_limit(given.material, circuit.ungrounded)
    if limit is None:
        return small_conductor_protection.not_applicable(
            f"{circuit.ungrounded} {given.material} is no small conductor.",
            small_conductor_protection.cited(given.edition),
        )
    return small_conductor_protection.at_most(
        circuit.breaker_a,
        limit.number,
        "A",
        f"{circuit.ungrounded} {given.material} takes at most {limit.number:g} A; "
        f"the breaker has {circuit.breaker_a:g} A.",
        limit.citation,
        circuit.pointer("ungrounded"),
    )
