"""Turns chosen sizes into the design that the answer shows, and into the review request that checks it."""

from typing import Any

from branchwright.checks.circuits.answers import (
    Cover,
    Design,
    DesignedBreaker,
    DesignedConductors,
    DesignedRaceway,
    DesignedReceptacle,
    DesignedSegment,
    GovernedBy,
    GroundFaultProtection,
    GroundingConductor,
    Label,
    Measure,
    Need,
    Neutral,
    ShutoffNeed,
    Supports,
    Termination,
    UngroundedConductors,
    VoltageDrop,
)
from branchwright.checks.circuits.circuit import Circuit, segment_ampacity_a, voltage_drop
from branchwright.checks.circuits.given import Given, least_breaker_a, matched_receptacle
from branchwright.checks.circuits.rules.current_setting import SETTING
from branchwright.checks.circuits.rules.disconnecting_means import disconnect_of
from branchwright.checks.circuits.rules.emergency_shutoff import shutoff_of
from branchwright.checks.circuits.rules.ground_fault_protection import protection_of
from branchwright.checks.circuits.rules.raceway_fill import fills
from branchwright.checks.circuits.rules.raceway_temperature import operating_c
from branchwright.checks.circuits.rules.underground import least_cover
from branchwright.checks.circuits.segment_conditions import SegmentConditions
from branchwright.checks.circuits.sizing import Choice
from branchwright.codebook import ProvisionLacking
from branchwright.quantities.conductor_sizes import ConductorSize

DROP_METHODS = {
    1: "resistance at 75 degC and reactance by conductor and raceway, out and back, at the charging current",
    3: "resistance at 75 degC and reactance by conductor and raceway, balanced three-phase, at the charging current",
}


def described(choice: Choice, circuit: Circuit) -> Design | None:
    """Return the design of chosen sizes; None where a size could not be chosen."""
    sizes = choice.sizes
    given = circuit.given
    if sizes.breaker_a is None or sizes.ungrounded is None or sizes.grounding is None:
        return None
    protection = protection_of(circuit)
    needs_disconnect, why_disconnect = disconnect_of(circuit)
    in_raceway = any(segment.method.is_raceway for segment in given.segments)
    drop = voltage_drop(given, sizes.ungrounded)
    rating = given.edition.receptacle_rating(given.receptacle.configuration) if given.receptacle else None
    return Design(
        breaker=DesignedBreaker(
            rating_a=sizes.breaker_a,
            poles=given.ungrounded_count,
            ground_fault_protection=GroundFaultProtection(protection.required, protection.why),
        ),
        conductors=DesignedConductors(
            ungrounded=UngroundedConductors(
                sizes.ungrounded,
                given.material,
                given.insulation if in_raceway else None,
                given.ungrounded_count,
            ),
            neutral=Neutral(sizes.neutral) if sizes.neutral else None,
            grounding=GroundingConductor(
                sizes.grounding, _supplied(circuit) or sizes.grounding, sizes.grounding_material
            ),
        ),
        segments=[_segment(circuit, segment, sizes.ungrounded) for segment in given.segments],
        receptacle=(
            DesignedReceptacle(given.receptacle.configuration, rating.number)
            if given.receptacle and rating is not None
            else None
        ),
        disconnect=Need(needs_disconnect, why_disconnect),
        emergency_shutoff=ShutoffNeed(*shutoff_of(circuit)),
        label=_label(circuit),
        voltage_drop=(
            VoltageDrop(
                round(drop[0], 3),
                round(drop[1], 3),
                f"{DROP_METHODS[given.phases]} and a power factor of {given.power_factor:g}",
            )
            if drop
            else None
        ),
        terminations=[
            Termination(
                place.at,
                Measure(place.marked.torque.value, place.marked.torque.unit)
                if place.marked and place.marked.torque
                else None,
                Measure(place.marked.strip_length.value, place.marked.strip_length.unit)
                if place.marked and place.marked.strip_length
                else None,
                "marking, as stated" if place.marked and place.marked.torque else "read the marking",
            )
            for place in given.terminals
        ],
        governed_by=GovernedBy(
            breaker=_breaker_governed_by(given),
            conductors=choice.conductors_governed_by,
            grounding="grounding-conductor-size",
            raceway="raceway-fill" if in_raceway else None,
        ),
    )


def _breaker_governed_by(given: Given) -> str:
    """Return the rule that set the breaker: the one that asks for most, the load before the others."""
    by_load = least_breaker_a(given.edition, given.load_a)
    floor = given.edition.provision("branch-circuit-rating").number("least_a")
    matched = matched_receptacle(given.edition, given.receptacle)
    if matched is not None and matched.number > max(by_load, floor):
        # A smaller standard rating that still carries the load is refused for the receptacle's sake alone.
        smaller = max(rating for rating in given.edition.standard_ratings if rating < matched.number)
        return "receptacle-rating" if smaller >= max(by_load, floor) else "overcurrent-continuous-load"
    return "breaker-standard-rating" if floor > by_load else "overcurrent-continuous-load"


def _label(circuit: Circuit) -> Label:
    """Return whether the adjusted setting stands on a label; the edition may be silent about it."""
    given = circuit.given
    charger = given.facts.charger
    if charger.rated_current_a is None or charger.rated_current_a <= charger.charging_current_a:
        return Label(False, None, "the charger is not set below its rating")
    if given.load_pointer != SETTING:
        return Label(False, None, "the setting does not count as the rating")
    try:
        required = given.edition.provision("setting-label").says("label")
    except ProvisionLacking as lacking:
        return Label(None, charger.charging_current_a, str(lacking))
    return Label(required, charger.charging_current_a, "an adjusted setting counts as the rating")


def _supplied(circuit: Circuit) -> ConductorSize | None:
    """Return the grounding conductor that the cable brings, where the whole run is one kind of cable."""
    supplied: set[ConductorSize | None] = {
        segment.facts.cable.grounding_size if segment.facts.cable else None
        for segment in circuit.given.segments
    }
    all_cable = not any(segment.method.is_raceway for segment in circuit.given.segments)
    return supplied.pop() if all_cable and len(supplied) == 1 else None


def _segment(circuit: Circuit, segment: SegmentConditions, size: ConductorSize) -> DesignedSegment:
    given = circuit.given
    filled = fills(circuit).get(segment.index)
    raceway = None
    if filled is not None and segment.method.is_raceway:
        raceway = DesignedRaceway(filled.trade_size, round(filled.percent, 2), filled.limit.number)
    operating = operating_c(given, segment, size)
    cover = least_cover(given, segment)
    support = given.edition.support(segment.method.name, raceway.trade_size if raceway else "any")
    return DesignedSegment(
        wiring_method=segment.method.name,
        ampacity_a=segment_ampacity_a(given, segment, size),
        conductor_temperature_c=None if operating is None else round(operating, 2),
        raceway=raceway,
        supports=(
            Supports(Measure(support[0], "in"), Measure(support[1], "in"), support[2].section)
            if support is not None
            else None
        ),
        cover=(
            Cover(
                Measure(cover.number, "in"), segment.ground, given.edition.citation_of("burial_cover").section
            )
            if cover is not None and segment.ground is not None
            else None
        ),
    )


def review_request(circuit: Circuit, request: dict[str, Any]) -> dict[str, Any]:
    """Return the body of the review of a design: the request as it came, with all that was chosen."""
    sizes = circuit.sizes
    installed: dict[str, Any] = {
        "breaker_rating_a": sizes.breaker_a,
        "ungrounded_size": sizes.ungrounded,
        "neutral_size": sizes.neutral,
        "grounding_size": sizes.grounding,
        "grounding_material": sizes.grounding_material,
        "ground_fault_protection": sizes.ground_fault_protection,
        "disconnect": None if sizes.disconnect is None else sizes.disconnect.model_dump(),
        "emergency_shutoff": sizes.emergency_shutoff,
        "setting_label": sizes.setting_label,
        # As designed, every terminal is tightened to its marking.
        "torque_records": [
            {"at": place.at, "torque": {"value": torque.value, "unit": torque.unit}}
            for place in circuit.given.terminals
            if place.marked and (torque := place.marked.torque)
        ],
    }
    body = dict(request)
    body["installed"] = installed
    body["run"] = [
        segment if trade_size is None else {**segment, "raceway_trade_size": trade_size}
        for segment, trade_size in zip(request["run"], sizes.trade_sizes, strict=True)
    ]
    for index, cover_in in sizes.covers_in.items():
        segment: dict[str, Any] = body["run"][index]
        cover = {"value": cover_in, "unit": "in"}
        body["run"][index] = {**segment, "underground": {**segment["underground"], "cover": cover}}
    return body
