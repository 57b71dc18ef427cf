"""The conditions of one segment before any size is chosen: ambient, column, count of conductors, caps, cover."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from branchwright.calculations.ampacity import rooftop_ambient_c
from branchwright.checks.circuits.facts import Length, Segment, Underground
from branchwright.codebook import MethodFacts
from branchwright.findings import Sourced
from branchwright.quantities.conductor_sizes import RANK, ConductorSize
from branchwright.quantities.lengths import inches

if TYPE_CHECKING:
    from branchwright.checks.circuits.given import Given

SMALL_DWELLINGS = frozenset({"one-family", "two-family"})


@dataclass(slots=True)
class SegmentConditions:
    """One segment with everything about it that does not depend on a size."""

    index: int
    facts: Segment
    method: MethodFacts
    length_ft: float
    location: str
    base_ambient_c: float
    adder: Sourced | None
    ambient_c: float
    start_column: int
    cap: Sourced | None
    cap_column: int | None
    insulated_cap: Sourced | None
    insulated_cap_column: int | None
    insulated_cap_rank: int
    print_column: int | None
    insulation_permitted: bool
    correction: Sourced | None
    others: int
    conductor_count: int
    adjustment: Sourced
    is_nipple: bool
    listed_c: float | None
    correction_factor: float
    adjustment_percent: float
    ground: str | None

    def cap_column_of(self, size: ConductorSize) -> int | None:
        """Return the column that caps a size here, if any: the cable's own, or the one in thermal insulation."""
        if self.insulated_cap_column is None or RANK[size] > self.insulated_cap_rank:
            return self.cap_column
        return min(self.insulated_cap_column, self.cap_column or self.insulated_cap_column)


def conditions_of(given: "Given", index: int, segment: Segment) -> SegmentConditions:
    """Return the conditions of a segment; what is not stated is taken by the assumption, and noted as unknown."""
    edition = given.edition
    method = edition.methods[segment.wiring_method]
    # Below grade a raceway is wet inside and a cable lies in the wet, whatever is stated.
    location: str | None = "wet" if segment.underground else segment.location
    if location is None:
        given.unknown.add(f"/run/{index}/location")
        location = "wet" if given.assumption == "worst" else "dry"
    stated_ambient = given.base_ambient_c if segment.ambient_c is None else segment.ambient_c
    clearance = segment.rooftop_clearance
    adder = None if clearance is None else _rooftop_adder(given, clearance, method)
    ambient = stated_ambient
    if adder is not None:
        ambient = rooftop_ambient_c.value(stated_ambient, adder.number)
    start, permitted = _start_column(given, method, location, segment)
    correction = edition.ambient_correction(ambient, start)
    others = segment.other_current_carrying_conductors
    if others is None:
        others = 0 if method.is_raceway else 2 * ((segment.bundled_cables or 1) - 1)
    count = given.ungrounded_count + given.neutral_counts + others
    nipple = method.is_raceway and _is_nipple(given, index, segment)
    short = nipple if method.is_raceway else _is_short_bundle(given, method, segment)
    adjustment = edition.count_adjustment(1 if short else count)
    cap = method.cap_c
    insulated_cap = method.insulated_cap_c if segment.in_thermal_insulation else None
    listed: float | None = segment.raceway_temperature_rating_c
    if listed is None:
        listing = method.listed_c[location]
        listed = None if listing is None else listing.number
    elif not method.is_raceway:
        listed = None
    return SegmentConditions(
        index=index,
        facts=segment,
        method=method,
        length_ft=segment.length.ft,
        location=location,
        base_ambient_c=stated_ambient,
        adder=adder,
        ambient_c=ambient,
        start_column=start,
        cap=cap,
        cap_column=None if cap is None else int(cap.number),
        insulated_cap=insulated_cap,
        insulated_cap_column=None if insulated_cap is None else int(insulated_cap.number),
        insulated_cap_rank=RANK[method.insulated_cap_up_to],
        print_column=start if method.marked_rating else None,
        insulation_permitted=permitted,
        correction=correction,
        others=others,
        conductor_count=count,
        adjustment=adjustment,
        is_nipple=nipple,
        listed_c=listed,
        correction_factor=0.0 if correction is None else correction.number,
        adjustment_percent=adjustment.number,
        ground=None if segment.underground is None else _ground(given, segment.underground),
    )


def _ground(given: "Given", underground: Underground) -> str:
    """Return what lies above a buried segment, as the cover table names it."""
    under = underground.under
    if under != "dwelling-driveway":
        return under
    occupancy = given.facts.premises.occupancy if given.facts.premises else None
    if occupancy is None:
        given.unknown.add("/premises/occupancy")
        return "street" if given.assumption == "worst" else under
    return under if occupancy in SMALL_DWELLINGS else "street"


def _is_short_bundle(given: "Given", method: MethodFacts, segment: Segment) -> bool:
    """Return whether a cable lies in its bundle for too short a way to be adjusted for it."""
    always_above = method.bundle_count
    if (
        always_above is not None
        and segment.in_thermal_insulation
        and (segment.bundled_cables or 1) > always_above.number
    ):
        return False
    longest = given.edition.provision("bundling").number("longest_in")
    return inches(segment.length.value, segment.length.unit) <= longest


def _rooftop_adder(given: "Given", clearance: Length, method: MethodFacts) -> Sourced | None:
    rule = given.edition.provision("rooftop")
    if method.is_raceway and given.insulation == rule.values["exempt_insulation"].name:
        return None
    height = inches(clearance.value, clearance.unit)
    if height >= rule.number("clearance_in"):
        return None
    # Below both clearances the readings agree, and neither needs to be consulted.
    if (
        height >= rule.limit("clearance_smaller_in")
        and given.book.reading("rooftop-clearance") == "three-quarters-inch"
    ):
        return None
    return rule.values["adder_c"]


def _start_column(given: "Given", method: MethodFacts, location: str, segment: Segment) -> tuple[int, bool]:
    """Return the column that correction starts from, and whether the insulation may be there at all."""
    if method.marked_rating and segment.cable and segment.cable.conductor_temperature_rating_c:
        return segment.cable.conductor_temperature_rating_c, True
    if method.start_c is not None:
        return int(method.start_c.number), True
    temperatures = given.edition.insulation_temperatures
    here = temperatures.get((given.insulation, location))
    if here is not None:
        return int(here.number), True
    # Not permitted here: a rule says so, and the lowest column keeps the other figures on the safe side.
    return 60, False


def _is_nipple(given: "Given", index: int, segment: Segment) -> bool:
    """A short raceway with an enclosure at both ends: panel, charger or a point of the run."""
    longest = given.edition.provision("nipple").number("longest_in")
    if inches(segment.length.value, segment.length.unit) > longest:
        return False
    ends = {point.after_segment for point in given.facts.points or ()}
    starts_at_enclosure = index == 0 or index - 1 in ends
    stops_at_enclosure = index == len(given.facts.run) - 1 or index in ends
    return starts_at_enclosure and stops_at_enclosure
