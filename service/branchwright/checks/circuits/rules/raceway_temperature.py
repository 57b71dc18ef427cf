"""Raceways: the temperature that they are listed for, and their limit on ambient temperature."""

from branchwright.calculations.conductor_temperature import operating_temperature_c
from branchwright.checks.circuits.circuit import Circuit
from branchwright.checks.circuits.given import Given
from branchwright.checks.circuits.rules.rule import rule
from branchwright.checks.circuits.segment_conditions import SegmentConditions
from branchwright.findings import Finding
from branchwright.quantities.conductor_sizes import ConductorSize

REFERENCE_COLUMN = 75
"""The column that the operating temperature is computed from; the provision on it names the same."""


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
