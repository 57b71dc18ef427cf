"""Raceways: fill, temperature listing and ambient limit."""

from dataclasses import dataclass

from branchwright.calculations.conductor_temperature import operating_temperature_c
from branchwright.calculations.raceway_fill import (
    circle_area_in2,
    conductors_area_in2,
    fill_percent,
    same_size_count,
)
from branchwright.checks.circuits.circuit import Circuit, Sizes, neutral_count, once_per_circuit
from branchwright.checks.circuits.given import Given, SegmentConditions
from branchwright.checks.circuits.rules.rule import rule
from branchwright.codebook import MethodFacts
from branchwright.findings import Finding, Sourced
from branchwright.quantities.conductor_sizes import ConductorSize
from branchwright.quantities.lengths import inches
from branchwright.quantities.trade_sizes import TradeSize

REFERENCE_COLUMN = 75
"""The column that the operating temperature is computed from; the provision on it names the same."""


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


def nearest_trade_size(given: Given, segment: SegmentConditions, sizes: Sizes) -> TradeSize | None:
    """Return the smallest trade size that takes the conductors, else the largest made; None if it cannot be known."""
    content = filling(given, segment, sizes)
    trade_size: TradeSize | None = None
    if content is not None:
        for trade_size in raceway_of(given, segment).areas_in2:
            if fill(given, segment, content, trade_size).holds:
                break
    return trade_size


@once_per_circuit
def fills(circuit: Circuit) -> dict[int, Fill]:
    """Return the fill of each segment whose raceway and content are known, by the segment's index."""
    found: dict[int, Fill] = {}
    for segment in circuit.given.segments:
        trade_size = circuit.sizes.trade_sizes[segment.index]
        if trade_size is not None:
            content = filling(circuit.given, segment, circuit.sizes)
            if content is not None:
                found[segment.index] = fill(circuit.given, segment, content, trade_size)
    return found


@rule("raceway-fill", subject="raceway", concept="raceway_fill", needs=("ungrounded", "grounding"))
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
            why = f"The trade size of segment {segment.index} is not stated."
            if not segment.method.is_raceway and sleeve is None:
                pointer = f"/run/{segment.index}/sleeve_method"
                why = f"Segment {segment.index} is a cable, and the kind of its sleeve is not stated."
            elif not segment.method.is_raceway and not (
                segment.facts.cable and segment.facts.cable.outside_diameter
            ):
                pointer = f"/run/{segment.index}/cable/outside_diameter"
                why = (
                    f"Segment {segment.index} is a cable in a sleeve, and its outside diameter is not stated."
                )
            elif (
                segment.facts.other_current_carrying_conductors
                and not segment.facts.other_conductors_area_in2
            ):
                pointer = f"/run/{segment.index}/other_conductors_area_in2"
                why = f"Segment {segment.index} holds other conductors whose area is not stated."
            unknown = unknown or raceway_fill.undetermined(pointer, why, cited)
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


def operating_c(given: Given, segment: SegmentConditions, size: ConductorSize) -> float | None:
    """Return the conductor's temperature in degC at the load; None for a size without ampacity."""
    ampacity = given.edition.ampacities_a.get((size, given.material, REFERENCE_COLUMN))
    if ampacity is None:
        return None
    return operating_temperature_c.value(
        segment.ambient_c,
        REFERENCE_COLUMN,
        given.base_ambient_c,
        given.load_a,
        ampacity,
        segment.adjustment_percent,
    )


def within_listing(given: Given, breaker_a: float, size: ConductorSize) -> bool:
    """Return whether a size operates within the temperature listing of every raceway, by the reading in force."""
    return all(
        _within(given, segment, breaker_a, size) for segment in given.segments if segment.listed_c is not None
    )


def _by_column(given: Given, segment: SegmentConditions) -> bool:
    """Return whether the other reading is in force here: wet liquidtight listed for no more than 60 degC."""
    return (
        segment.method.is_liquidtight
        and segment.location != "dry"
        and segment.listed_c is not None
        and segment.listed_c <= 60
        and given.book.reading("liquidtight-temperature") == "sixty-degree-column"
    )


def _within(given: Given, segment: SegmentConditions, breaker_a: float, size: ConductorSize) -> bool:
    if _by_column(given, segment):
        return given.edition.ampacities_a.get((size, given.material, 60), 0.0) >= given.least_ampacity_a
    operating = operating_c(given, segment, size)
    return segment.listed_c is not None and operating is not None and operating <= segment.listed_c


@rule(
    "raceway-temperature",
    subject="raceway",
    concept="wiring_methods",
    needs=("ungrounded",),
    waits_for=("setting_access", "location"),
    consults=("liquidtight-temperature",),
)
def raceway_temperature(circuit: Circuit) -> Finding:
    """Does the conductor operate within the temperature that a liquidtight or PVC raceway is listed for?

    Applies: to raceways with a temperature listing.
    Rests on: the temperature of the conductor at the load, computed from its 75 degC ampacity and the ambient,
    stays within the listing; unmarked liquidtight counts as 60 degC where wet or damp and 80 degC where dry.
    By the other reading, conductors in wet liquidtight come from the 60 degC column.
    Missing facts: an unknown location counts as wet.
    """
    given = circuit.given
    size = circuit.ungrounded
    worst: tuple[float, Finding] | None = None
    for segment in given.segments:
        if segment.listed_c is None:
            continue
        cited = segment.method.temperature_citation or segment.method.location_citation
        pointer = f"/run/{segment.index}/raceway_temperature_rating_c"
        if _by_column(given, segment):
            column = given.edition.ampacities_a.get((size, given.material, 60), 0.0)
            least = given.least_ampacity_a
            finding = raceway_temperature.at_least(
                column,
                least,
                "A",
                f"{size} {given.material} has {column:g} A in the 60 degC column that this reading asks for in wet "
                f"liquidtight; the load asks for at least {least:g} A.",
                cited,
                pointer,
                segment.index,
            )
            excess = least - column
        else:
            operating = operating_c(given, segment, size)
            if operating is None:
                return raceway_temperature.finding(
                    "fail",
                    f"{size} {given.material} has no ampacity, so its temperature has no limit.",
                    citation=given.edition.citation_of("ampacity"),
                    pointer=circuit.pointer("ungrounded"),
                    segment=segment.index,
                )
            finding = raceway_temperature.at_most(
                round(operating, 2),
                segment.listed_c,
                "degC",
                f"{size} {given.material} at {given.load_a:g} A operates at {operating:.1f} degC in segment "
                f"{segment.index}, whose raceway is listed for {segment.listed_c:g} degC.",
                cited,
                pointer,
                segment.index,
            )
            finding.outcome = "pass" if operating <= segment.listed_c else "fail"
            excess = operating - segment.listed_c
        if worst is None or excess > worst[0]:
            worst = (excess, finding)
    if worst is None:
        return raceway_temperature.not_applicable(
            "No raceway has a temperature listing that limits the conductor."
        )
    return worst[1]


@rule("raceway-ambient", subject="raceway", concept="wiring_methods")
def raceway_ambient(circuit: Circuit) -> Finding:
    """Is each raceway used within the ambient temperature that its kind is permitted for?

    Applies: to PVC.
    Rests on: rigid PVC conduit is not used above 50 degC ambient unless listed for more.
    Missing facts: no ambient temperature stands for that of the ampacity table.
    """
    worst: tuple[float, Finding] | None = None
    for segment in circuit.given.segments:
        limit = segment.method.ambient_limit_c
        if limit is None:
            continue
        excess = segment.ambient_c - limit.number
        if worst is None or excess > worst[0]:
            finding = raceway_ambient.at_most(
                segment.ambient_c,
                limit.number,
                "degC",
                f"Segment {segment.index} has an ambient of {segment.ambient_c:g} degC; its raceway is permitted up "
                f"to {limit.number:g} degC.",
                segment.method.temperature_citation or limit.citation,
                f"/run/{segment.index}/ambient_c",
                segment.index,
            )
            worst = (excess, finding)
    return (
        worst[1]
        if worst
        else raceway_ambient.not_applicable("No raceway has a limit on ambient temperature.")
    )
