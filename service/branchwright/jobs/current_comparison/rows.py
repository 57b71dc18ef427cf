"""One row of a comparison: what a judged design comes to, in the fields of the answer."""

from branchwright.checks.circuits.answers import Design
from branchwright.checks.circuits.design import JudgedDesign
from branchwright.jobs.current_comparison.answers import ComparedCurrent, ComparedDrop, ComparedRaceway


def row_of(
    judged: JudgedDesign, design: Design | None, power_kw: float, kwh_per_night: float | None
) -> ComparedCurrent:
    """Return the row of a current, its changes and its mark still empty; the design is None where there is none."""
    row = ComparedCurrent(
        charging_current_a=judged.circuit.facts.charger.charging_current_a,
        verdict=judged.verdict,
        failed_rules=_requirements(judged, "fail"),
        undetermined_rules=_requirements(judged, "undetermined"),
        breaker_rating_a=None,
        poles=None,
        ungrounded_size=None,
        neutral_size=None,
        grounding_size=None,
        raceways=[],
        voltage_drop=None,
        conductor_temperature_c=None,
        ground_fault_protection_required=None,
        disconnect_required=None,
        label_required=None,
        power_kw=round(power_kw, 3),
        kwh_per_hour=round(power_kw, 3),
        kwh_per_night=None if kwh_per_night is None else round(kwh_per_night, 3),
        changes=[],
        mark=None,
        cost=None,
    )
    if design is not None:
        _enter(row, design)
    return row


def _requirements(judged: JudgedDesign, outcome: str) -> list[str]:
    return [
        finding.rule
        for finding in judged.findings
        if finding.outcome == outcome and finding.force == "requirement"
    ]


def _enter(row: ComparedCurrent, design: Design) -> None:
    """Enter the sizes and needs of a design."""
    conductors = design.conductors
    row.breaker_rating_a = design.breaker.rating_a
    row.poles = design.breaker.poles
    row.ungrounded_size = conductors.ungrounded.size
    row.neutral_size = conductors.neutral.size if conductors.neutral else None
    row.grounding_size = conductors.grounding.size
    row.raceways = [
        ComparedRaceway(
            index,
            segment.wiring_method,
            segment.raceway.trade_size,
            segment.raceway.fill_percent,
            segment.raceway.fill_limit_percent,
        )
        for index, segment in enumerate(design.segments)
        if segment.raceway is not None
    ]
    if design.voltage_drop is not None:
        row.voltage_drop = ComparedDrop(design.voltage_drop.volts, design.voltage_drop.percent)
    temperatures = [
        segment.conductor_temperature_c
        for segment in design.segments
        if segment.conductor_temperature_c is not None
    ]
    row.conductor_temperature_c = max(temperatures, default=None)
    row.ground_fault_protection_required = design.breaker.ground_fault_protection.required
    row.disconnect_required = design.disconnect.required
    row.label_required = design.label.required
