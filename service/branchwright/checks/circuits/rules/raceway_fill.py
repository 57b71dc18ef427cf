"""Raceways: how far conductors and cables fill them."""

from dataclasses import dataclass

from branchwright.calculations.raceway_fill import (
    circle_area_in2,
    conductors_area_in2,
    fill_percent,
    same_size_count,
)
from branchwright.checks.circuits.circuit import Circuit, Sizes, neutral_count, once_per_circuit
from branchwright.checks.circuits.given import Given
from branchwright.checks.circuits.rules.rule import NEEDED, rule
from branchwright.checks.circuits.segment_conditions import SegmentConditions
from branchwright.codebook import MethodFacts
from branchwright.findings import Finding, Sourced
from branchwright.quantities.lengths import inches
from branchwright.quantities.trade_sizes import TradeSize


@dataclass(slots=True)
class Filling:
    """What goes into a raceway: conductors, their area in square inches, and the limit in percent."""

    count: int
    area_in2: float
    limit: Sourced
    same_in2: float | None


@dataclass(slots=True)
class Fill:
    """The fill of one segment's raceway. Areas in square inches."""

    count: int
    area_in2: float
    trade_size: TradeSize
    percent: float
    limit: Sourced
    holds: bool


def filling(given: Given, segment: SegmentConditions, sizes: Sizes) -> Filling | None:
    """Return what fills a raceway or sleeve, or None where the area of something in it is unknown."""
    if not segment.method.is_raceway:
        return _cable_in_sleeve(given, segment)
    others = segment.facts.other_current_carrying_conductors or 0
    other_area = segment.facts.other_conductors_area_in2
    if others and not other_area:
        return None
    edition = given.edition
    areas = edition.conductor_areas_in2
    insulation = given.insulation
    ungrounded = areas[insulation, sizes.ungrounded or "14 AWG"]
    # A neutral that is there takes room, whether it is needed or not.
    neutrals = 1 if sizes.neutral else neutral_count(given)
    neutral = areas[insulation, sizes.neutral] if neutrals and sizes.neutral else ungrounded
    grounding = areas[insulation, sizes.grounding] if sizes.grounding else 0.0
    count = given.ungrounded_count + 1 + neutrals + others
    same = not other_area and ungrounded == grounding and (not neutrals or neutral == ungrounded)
    return Filling(
        count,
        conductors_area_in2(
            given.ungrounded_count, ungrounded, neutrals, neutral, grounding, other_area or 0.0
        ),
        edition.provision("nipple").values["fill_percent"]
        if segment.is_nipple
        else edition.fill_percent(count),
        ungrounded if same else None,
    )


def _cable_in_sleeve(given: Given, segment: SegmentConditions) -> Filling | None:
    """Return a cable as what fills its sleeve: one conductor of the sheath's diameter."""
    facts = segment.facts
    diameter = facts.cable.outside_diameter if facts.cable else None
    others = facts.other_current_carrying_conductors or (facts.bundled_cables or 1) - 1
    if facts.sleeve_method is None or diameter is None or (others and not facts.other_conductors_area_in2):
        return None
    area = circle_area_in2.value(inches(diameter.value, diameter.unit))
    return Filling(
        1 + others,
        area + (facts.other_conductors_area_in2 or 0.0),
        given.edition.fill_percent(1 + others),
        None,
    )


def raceway_of(given: Given, segment: SegmentConditions) -> MethodFacts:
    """Return a segment's raceway, or the sleeve around its cable."""
    sleeve = segment.facts.sleeve_method
    if sleeve is None or segment.method.is_raceway:
        return segment.method
    return given.edition.methods[sleeve]


def fill(given: Given, segment: SegmentConditions, content: Filling, trade_size: TradeSize) -> Fill:
    """Return the fill of a trade size by what goes into it."""
    raceway = raceway_of(given, segment).areas_in2[trade_size]
    percent = fill_percent.value(content.area_in2, raceway)
    limit = content.limit.number
    holds = percent <= limit or (
        content.same_in2 is not None
        and content.count <= same_size_count.value(limit, raceway, content.same_in2)
    )
    return Fill(content.count, content.area_in2, trade_size, percent, content.limit, holds)


def nearest_trade_size(given: Given, segment: SegmentConditions, content: Filling) -> tuple[TradeSize, bool]:
    """Return the smallest trade size that takes what fills it, or the largest made; and whether it does take it."""
    made = list(raceway_of(given, segment).areas_in2)
    for trade_size in made:
        if fill(given, segment, content, trade_size).holds:
            return trade_size, True
    return made[-1], False


@once_per_circuit
def fills(circuit: Circuit) -> dict[int, Fill]:
    """Return the fill of each segment whose raceway and content are known, by the segment's index."""
    found: dict[int, Fill] = {}
    for segment in circuit.given.segments:
        trade_size = circuit.sizes.trade_sizes[segment.index]
        known = not segment.method.is_raceway or not _unknown_sizes(circuit)
        if trade_size is not None and known:
            content = filling(circuit.given, segment, circuit.sizes)
            if content is not None:
                found[segment.index] = fill(circuit.given, segment, content, trade_size)
    return found


def _unknown_sizes(circuit: Circuit) -> list[str]:
    """Return which of the conductors in a raceway have no size yet."""
    return [name for name in circuit.missing if name in ("ungrounded", "grounding")]


def _lacking(circuit: Circuit, segment: SegmentConditions) -> tuple[str, str]:
    """Return the pointer to what keeps a fill from being known, and that in words."""
    facts = segment.facts
    at = f"/run/{segment.index}"
    if segment.method.is_raceway:
        for name in _unknown_sizes(circuit):
            return circuit.pointer(name), f"Needs {NEEDED[name]}, which is not known."
    elif facts.sleeve_method is None:
        why = f"Segment {segment.index} is a cable, and the kind of its sleeve is not stated."
        return f"{at}/sleeve_method", why
    elif not (facts.cable and facts.cable.outside_diameter):
        why = f"Segment {segment.index} is a cable in a sleeve, and its outside diameter is not stated."
        return f"{at}/cable/outside_diameter", why
    if facts.other_current_carrying_conductors and not facts.other_conductors_area_in2:
        why = f"Segment {segment.index} holds other conductors whose area is not stated."
        return f"{at}/other_conductors_area_in2", why
    return f"{at}/raceway_trade_size", f"The trade size of segment {segment.index} is not stated."


@rule("raceway-fill", subject="raceway", concept="raceway_fill")
def raceway_fill(circuit: Circuit) -> Finding:
    """Do the conductors fill each raceway no more than permitted?

    Applies: to every segment in a raceway, and to cables in a sleeve.
    Rests on: 53, 31 and 40 percent of the area for one, two and more conductors, 60 percent in a nipple; every
    conductor counts, the grounding conductor too, a multiconductor cable as one of the diameter of its sheath; of
    conductors of one size a decimal of 0.8 counts as one.
    Missing facts: undetermined where a trade size, the kind of a sleeve, the diameter of a cable in it, or the
    area of other conductors is unknown.
    """
    given = circuit.given
    cited = given.edition.citation_of("raceway_fill")
    worst: tuple[tuple[bool, float], Finding] | None = None
    unknown: Finding | None = None
    for segment in given.segments:
        pointer = f"/run/{segment.index}/raceway_trade_size"
        sleeve = segment.facts.sleeve_method
        if not segment.method.is_raceway and segment.facts.raceway_trade_size is None and sleeve is None:
            continue
        filled = fills(circuit).get(segment.index)
        if filled is None:
            lacking, why = _lacking(circuit, segment)
            unknown = unknown or raceway_fill.undetermined(lacking, why, cited)
            continue
        badness = (not filled.holds, filled.percent / filled.limit.number)
        if worst is None or badness > worst[0]:
            note = (
                "; as conductors of one size they are permitted by their count"
                if filled.holds and filled.percent > filled.limit.number
                else ""
            )
            finding = raceway_fill.at_most(
                round(filled.percent, 2),
                filled.limit.number,
                "%",
                f"{filled.count} {'conductors fill' if filled.count > 1 else 'cable fills'} trade size "
                f"{filled.trade_size} of segment {segment.index} to "
                f"{filled.percent:.1f} of {filled.limit.number:g} percent{note}.",
                filled.limit.citation,
                pointer,
                segment.index,
            )
            finding.outcome = "pass" if filled.holds else "fail"
            worst = (badness, finding)
    if unknown is not None and (worst is None or worst[1].outcome != "fail"):
        return unknown
    return worst[1] if worst else raceway_fill.not_applicable("No segment is in a raceway.", cited)
