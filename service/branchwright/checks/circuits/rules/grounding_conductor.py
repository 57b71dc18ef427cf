"""The grounding conductor's size."""

from dataclasses import dataclass

from branchwright.calculations.grounding import proportional_area_cmil, shortfall_percent
from branchwright.checks.circuits.circuit import Circuit, least_of_cables, once_per_circuit
from branchwright.checks.circuits.given import Given
from branchwright.checks.circuits.rules.rule import rule
from branchwright.findings import Finding, Provided, Required, Sourced
from branchwright.quantities.conductor_sizes import RANK, SIZES, ConductorSize, smaller_of


@dataclass(slots=True)
class GroundingNeed:
    """How the least grounding conductor was found. Areas in circular mils."""

    table: Sourced
    installed: ConductorSize
    minimum: ConductorSize
    grew: bool
    least_cmil: float
    by_area: ConductorSize
    least: ConductorSize


def grounding_need(
    given: Given, breaker_a: float, installed: ConductorSize, minimum: ConductorSize | None, material: str
) -> GroundingNeed | None:
    """Return the least grounding conductor, or None where the table ends below the breaker."""
    edition = given.edition
    table = edition.grounding_conductor(breaker_a, material)
    if table is None:
        return None
    base = SIZES[RANK[table.name]]
    # A circuit that no size can serve has no minimum to have grown from.
    from_size = minimum or installed
    grew = RANK[installed] > RANK[from_size]
    least_cmil = edition.areas_cmil[base].number
    by_area: ConductorSize = base
    if grew:
        least_cmil = proportional_area_cmil.value(
            least_cmil, edition.areas_cmil[installed].number, edition.areas_cmil[from_size].number
        )
        by_area = _size_by_area(given, least_cmil, installed)
    least = smaller_of(by_area, installed)
    while (least, material, 60) not in edition.ampacities_a:
        # The cap may name a size that is not made in this metal: 14 AWG aluminum.
        least = SIZES[RANK[least] + 1]
    return GroundingNeed(table, installed, from_size, grew, least_cmil, by_area, least)


def _size_by_area(given: Given, least_cmil: float, installed: ConductorSize) -> ConductorSize:
    edition = given.edition
    found = edition.size_with_area_at_least(least_cmil)
    if found is None:
        return installed
    if RANK[found] == 0:
        return found
    below = SIZES[RANK[found] - 1]
    # The reading matters only where the next smaller size is nearly enough and the cap does not decide anyway.
    near = shortfall_percent(edition.areas_cmil[below].number, least_cmil) < edition.provision(
        "grounding-proportion"
    ).number("near_miss_percent")
    if (
        near
        and RANK[below] < RANK[installed]
        and given.book.reading("grounding-near-miss") == "within-rounding"
    ):
        return below
    return found


@once_per_circuit
def need_of(circuit: Circuit) -> GroundingNeed | None:
    """Return the grounding conductor that a circuit with breaker and ungrounded conductors needs."""
    return grounding_need(
        circuit.given,
        circuit.breaker_a,
        circuit.ungrounded,
        circuit.minimum_size,
        circuit.sizes.grounding_material,
    )


@rule(
    "grounding-conductor-size",
    subject="grounding conductor",
    concept="grounding-proportion",
    needs=("breaker", "ungrounded", "grounding"),
    waits_for=("temperature_rating_c", "setting_access", "location"),
    consults=("grounding-near-miss",),
)
def grounding_conductor_size(circuit: Circuit) -> Finding:
    """Is the grounding conductor large enough for the breaker and for grown ungrounded conductors?

    Applies: always.
    Rests on: the size by the breaker's rating; where the ungrounded conductors are larger than their ampacity
    asks for, the grounding conductor grows with them in exact proportion of area; it need never be larger than
    they are. Growth that ambient correction or count adjustment asks for does not count from 2020 on; before,
    the text is read two ways.
    Missing facts: undetermined without sizes. A cable's own grounding conductor is judged where it is stated.
    """
    given = circuit.given
    edition = given.edition
    sizes = circuit.sizes
    need = need_of(circuit)
    if need is None:
        return grounding_conductor_size.undetermined(
            circuit.pointer("breaker"),
            f"The grounding table does not reach {circuit.breaker_a:g} A with the sizes known here.",
            edition.citation_of("grounding_conductor"),
        )
    stated = None if sizes.grounding_is_the_cables else sizes.grounding
    found, pointer, segment = least_of_cables(given, "grounding_size", stated, circuit.pointer("grounding"))
    supplied: ConductorSize = found or need.least
    if need.least != need.by_area:
        why = f"it need not be larger than the ungrounded conductors, {need.installed}"
        cited = edition.provision("grounding-greatest").citation
    elif need.grew:
        why = (
            f"the ungrounded conductors grew from {need.minimum} to {need.installed}, "
            f"so at least {need.least_cmil:,.0f} cmil are asked for"
        )
        cited = grounding_conductor_size.cited(edition)
    else:
        why = f"the breaker of {circuit.breaker_a:g} A asks for it"
        cited = need.table.citation
    return grounding_conductor_size.finding(
        "pass" if RANK[supplied] >= RANK[need.least] else "fail",
        f"Grounding conductor of {supplied} {sizes.grounding_material}; at least {need.least}: {why}.",
        citation=cited,
        pointer=pointer,
        segment=segment,
        required=Required(need.least, "size", "at-least"),
        provided=Provided(supplied, "size"),
    )
