"""Wiring methods and insulation in dry, damp and wet locations, and the sizes that cables are made in."""

from branchwright.checks.circuits.circuit import Circuit
from branchwright.checks.circuits.given import Given
from branchwright.checks.circuits.rules.rule import rule
from branchwright.codebook import MethodFacts
from branchwright.findings import Finding, Provided, Required
from branchwright.quantities.conductor_sizes import RANK, ConductorSize


def is_above_made(method: MethodFacts, material: str, size: ConductorSize) -> bool:
    """Return whether a size is above the largest that a cable is made with in a metal; any is, where none is made."""
    made = method.made[material]
    return made is None or RANK[size] > RANK[made[1]]


def is_made(given: Given, breaker_a: float, size: ConductorSize) -> bool:
    """Return whether every cable of the run is made with a size."""
    return _not_made(given, size) is None


def _not_made(given: Given, size: ConductorSize) -> int | None:
    for segment in given.segments:
        if segment.method.is_raceway:
            continue
        made = segment.method.made[given.material]
        if is_above_made(segment.method, given.material, size) or (made and RANK[size] < RANK[made[0]]):
            return segment.index
    return None


@rule(
    "wiring-method-location",
    subject="wiring method",
    concept="wiring_methods",
    waits_for=("location",),
)
def wiring_method_location(circuit: Circuit) -> Finding:
    """May each wiring method be used where its segment lies?

    Applies: always.
    Rests on: the article of each wiring method; nonmetallic-sheathed cable is for dry locations, metal-clad
    cable is in the wet only as listed for it, and a raceway outdoors or underground is wet inside.
    Missing facts: an unknown location counts as wet, and metal-clad cable whose listing is not stated as not
    listed; undetermined where that decides.
    """
    given = circuit.given
    first = given.segments[0]
    unlisted: Finding | None = None
    for segment in given.segments:
        use = segment.method.permitted[segment.location]
        listed = segment.facts.cable.listed_for_wet if segment.facts.cable else None
        below = " (it lies underground)" if segment.facts.underground else ""
        if use == "no" or (use == "listed" and listed is False):
            return wiring_method_location.one_of(
                segment.location,
                [
                    place
                    for place, permitted in segment.method.permitted.items()
                    if permitted == "yes" or (permitted == "listed" and listed)
                ],
                f"Segment {segment.index}: {segment.method.name}{' not listed for it' if use == 'listed' else ''} is "
                f"not permitted in a {segment.location} location{below}.",
                segment.method.location_citation,
                f"/run/{segment.index}/location",
                holds=False,
                segment=segment.index,
            )
        if use == "listed" and listed is None and unlisted is None:
            unlisted = wiring_method_location.undetermined(
                f"/run/{segment.index}/cable/listed_for_wet",
                f"Segment {segment.index}: {segment.method.name} is permitted in a {segment.location} location only "
                "as listed for it, which is not stated.",
                segment.method.location_citation,
            )
    if unlisted is not None:
        return unlisted
    return wiring_method_location.finding(
        "pass",
        "Every wiring method is permitted in the location of its segment.",
        citation=first.method.location_citation,
        pointer="/run",
    )


@rule(
    "conductor-insulation-location",
    subject="conductor insulation",
    concept="insulations",
    waits_for=("location",),
)
def conductor_insulation_location(circuit: Circuit) -> Finding:
    """May the conductors' insulation be used where each raceway lies?

    Applies: to segments in raceways; cables bring their own insulation.
    Rests on: the table of conductor insulations; in wet locations only insulation of a wet-rated type.
    Missing facts: an unknown location counts as wet; undetermined where that decides.
    """
    given = circuit.given
    edition = given.edition
    cited = edition.citation_of("insulations")
    raceways = [segment for segment in given.segments if segment.method.is_raceway]
    for segment in raceways:
        if not segment.insulation_permitted:
            return conductor_insulation_location.one_of(
                given.insulation,
                sorted(
                    name for name, location in edition.insulation_temperatures if location == segment.location
                ),
                f"Segment {segment.index}: {given.insulation} is not permitted in a {segment.location} location.",
                cited,
                "/conductors/insulation",
                holds=False,
                segment=segment.index,
            )
    if not raceways:
        return conductor_insulation_location.not_applicable("No segment is in a raceway.", cited)
    return conductor_insulation_location.finding(
        "pass",
        f"{given.insulation} is permitted in the location of every raceway.",
        citation=cited,
        pointer="/conductors/insulation",
    )


@rule("cable-size", subject="cable", concept="wiring_methods", needs=("ungrounded",))
def cable_size(circuit: Circuit) -> Finding:
    """Is each cable made with conductors of this size?

    Applies: to segments in cable.
    Rests on: the sizes that the article of the cable permits.
    Missing facts: undetermined without the size.
    """
    given = circuit.given
    cables = [segment for segment in given.segments if not segment.method.is_raceway]
    if not cables:
        return cable_size.not_applicable("No segment is a cable.")
    size = circuit.ungrounded
    outside = _not_made(given, size)
    segment = cables[0] if outside is None else given.segments[outside]
    made = segment.method.made[given.material]
    limit = None
    if made is not None:
        too_large = is_above_made(segment.method, given.material, size)
        limit = Required(made[1] if too_large else made[0], "size", "at-most" if too_large else "at-least")
    return cable_size.finding(
        "pass" if outside is None else "fail",
        f"{segment.method.name} with {given.material} of {size} is {'made' if outside is None else 'not made'}.",
        citation=segment.method.sizes_citation,
        pointer=circuit.pointer("ungrounded"),
        segment=segment.index,
        required=limit,
        provided=Provided(size, "size"),
    )
