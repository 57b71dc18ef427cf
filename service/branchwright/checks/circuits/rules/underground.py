"""Segments below grade: the wiring method and its cover."""

from branchwright.checks.circuits.circuit import Circuit
from branchwright.checks.circuits.given import Given
from branchwright.checks.circuits.rules.raceway_fill import raceway_of
from branchwright.checks.circuits.rules.rule import rule
from branchwright.checks.circuits.segment_conditions import SegmentConditions
from branchwright.findings import Finding, Provided, Required, Sourced
from branchwright.quantities.lengths import METRIC, inches, millimetres

MM_PER_INCH = millimetres(1, "in")
WORDS = {
    "dwelling-driveway": "a dwelling's driveway",
    "street": "a street or another driveway",
    "building": "a building",
    "concrete": "a concrete slab",
}


def above(segment: SegmentConditions) -> str:
    """Return in words what lies above a buried segment."""
    return WORDS.get(segment.ground or "", "soil")


def least_cover(given: Given, segment: SegmentConditions, unit: str = "in") -> Sourced | None:
    """Return the least cover of a buried segment in inches or mm; None where it may not be buried there.

    A cable drawn into a buried raceway lies as deep as the raceway.
    """
    column = raceway_of(given, segment).cover_column
    if segment.ground is None or column is None:
        return None
    return given.edition.burial_cover(segment.ground, column, unit)


def prescribed_covers_in(given: Given) -> dict[int, float]:
    """Return the least cover in inches of each buried segment whose cover is not stated, by its index."""
    found: dict[int, float] = {}
    for segment in given.segments:
        if segment.facts.underground is not None and segment.facts.underground.cover is None:
            least = least_cover(given, segment)
            if least is not None:
                found[segment.index] = least.number
    return found


@rule("wiring-method-underground", subject="wiring method", concept="wiring_methods")
def wiring_method_underground(circuit: Circuit) -> Finding:
    """May each wiring method be buried?

    Applies: to segments underground.
    Rests on: the article of each wiring method; metal-clad cable and liquidtight conduit are buried only as
    marked for it. Of a cable in a sleeve the sleeve is what is buried; cables that may not lie underground may
    not lie there in a sleeve either.
    Missing facts: undetermined where such a marking is not stated.
    """
    buried = [segment for segment in circuit.given.segments if segment.facts.underground is not None]
    if not buried:
        return wiring_method_underground.not_applicable("No segment lies underground.")
    unknown: Finding | None = None
    for segment in buried:
        method = segment.method
        if method.underground != "no":
            method = raceway_of(circuit.given, segment)
        listed = segment.facts.listed_for_direct_burial
        pointer = f"/run/{segment.index}/wiring_method"
        if method.underground == "no" or (method.underground == "listed" and listed is False):
            named = method.name + (" without a marking for it" if method.underground == "listed" else "")
            return wiring_method_underground.one_of(
                method.name,
                [name for name, item in circuit.given.edition.methods.items() if item.underground == "yes"],
                f"Segment {segment.index}: {named} may not be buried.",
                method.underground_citation,
                pointer,
                holds=False,
                segment=segment.index,
            )
        if method.underground == "listed" and listed is None and unknown is None:
            unknown = wiring_method_underground.undetermined(
                f"/run/{segment.index}/listed_for_direct_burial",
                f"Segment {segment.index}: {method.name} may be buried only as marked for it, which is not stated.",
                method.underground_citation,
            )
    if unknown is not None:
        return unknown
    return wiring_method_underground.finding(
        "pass",
        "Every buried wiring method may be.",
        citation=buried[0].method.underground_citation,
        pointer=f"/run/{buried[0].index}/wiring_method",
        segment=buried[0].index,
    )


@rule("burial-cover", subject="cover", concept="burial_cover", waits_for=("occupancy",))
def burial_cover(circuit: Circuit) -> Finding:
    """Does each buried segment have its least cover?

    Applies: to segments underground.
    Rests on: the table of least cover by wiring method and by what lies above. A driveway has the row of
    dwellings at one- and two-family dwellings only; the smaller depths for 120 V circuits of 20 A never serve a
    240 V charger. A metric cover is held against the metric print of the table.
    Missing facts: undetermined where a cover is not stated; a design states the least. An unknown occupancy
    counts as no dwelling.
    """
    given = circuit.given
    edition = given.edition
    cited = burial_cover.cited(edition)
    worst: tuple[float, Finding] | None = None
    unknown: Finding | None = None
    for segment in given.segments:
        underground = segment.facts.underground
        if underground is None:
            continue
        pointer = f"/run/{segment.index}/underground/cover"
        metric = underground.cover is not None and underground.cover.unit in METRIC
        unit = "mm" if metric else "in"
        least = least_cover(given, segment, unit)
        if least is None:
            return burial_cover.finding(
                "fail",
                f"Segment {segment.index}: {raceway_of(given, segment).name} may not lie under {above(segment)}"
                f"{'' if segment.method.is_raceway else ' without a raceway that may'}.",
                citation=cited,
                pointer=f"/run/{segment.index}/wiring_method",
                segment=segment.index,
                required=Required("a buried raceway", "text", "present"),
                provided=Provided(segment.method.name, "text"),
            )
        cover = circuit.sizes.covers_in.get(segment.index)
        if underground.cover is not None:
            # Minus zero is zero, and printed so.
            cover = inches(underground.cover.value, underground.cover.unit) + 0.0
            if metric:
                cover = millimetres(underground.cover.value, underground.cover.unit) + 0.0
        if cover is None and least.number == 0:
            # There is no less cover than none.
            cover = 0.0
        if cover is None:
            unknown = unknown or burial_cover.undetermined(
                pointer,
                f"The cover of segment {segment.index} is not stated; at least {least.number:g} {unit}.",
                cited,
            )
            continue
        finding = burial_cover.at_least(
            cover,
            least.number,
            unit,
            f"Segment {segment.index} ({segment.method.name} under {above(segment)}) has {cover:g} {unit} of cover; "
            f"at least {least.number:g} {unit}.",
            cited,
            pointer,
            segment.index,
        )
        spare = (cover - least.number) / (MM_PER_INCH if metric else 1.0)
        if worst is None or spare < worst[0]:
            worst = (spare, finding)
    if unknown is not None and (worst is None or worst[1].outcome != "fail"):
        return unknown
    return worst[1] if worst else burial_cover.not_applicable("No segment lies underground.", cited)
