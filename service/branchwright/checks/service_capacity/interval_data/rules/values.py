"""Rules about the values: whether they can be what they are said to be."""

import numpy as np

from branchwright.checks.service_capacity.interval_data.case import Case
from branchwright.checks.service_capacity.interval_data.data_quality import GREATEST_SERVICE_W
from branchwright.checks.service_capacity.interval_data.rules.rule import data_rule
from branchwright.findings import Finding, Provided, Required

LEAST_GREATEST_W = 50.0
USUAL_LEAST_W = 300
USUAL_GREATEST_W = 200_000
"""The greatest demand of an occupied dwelling is hardly below 300 W and never below 50 W; above 200 kW it is a large
building's. Common practice, no source."""


@data_rule("interval-data-phases", subject="system", needs_series=False)
def interval_data_phases(case: Case) -> Finding:
    """Does the system have the phases that the meter is said to measure?

    Applies: where system and phases are stated.
    Rests on: the systems that the edition knows; a split-phase system has one phase.
    Missing facts: not applicable where either is not stated; amperes are then left out, or are those of one phase.
    """
    rule = interval_data_phases
    stated = case.stated
    if stated.system is None or stated.phases is None:
        return rule.not_applicable("System and phases are not both stated.")
    if case.book is None:
        return rule.without_edition(case)
    phases = case.book.edition.greatest_phases(stated.system)
    return rule.at_most(
        float(stated.phases),
        phases.number,
        "count",
        f"{stated.phases} phases are stated; {stated.system} has at most {phases.number:g}.",
        phases.citation,
        stated.pointer("phases"),
    )


@data_rule("interval-data-registers", subject="readings", needs_series=False)
def interval_data_registers(case: Case) -> Finding:
    """Are the values those of intervals, and registers read as registers?

    Applies: always.
    Rests on: common practice, no source: values that only ever rise are the meter's register, and taken for energy
    they make a demand that grows by the hour. A register that falls rolled over, or the meter was changed.
    Missing facts: none are asked for.
    """
    rule = interval_data_registers
    failed = rule.faulted(case, "register")
    if failed is not None:
        return failed
    if case.counts.register_like:
        return rule.finding(
            "fail",
            "The values only ever rise, as a register does: they are not energy or power of intervals. State them as "
            "register-wh or register-kwh.",
            citation=None,
            pointer=case.unit_pointer,
            required=Required(["register-wh", "register-kwh"], "text", "one-of"),
        )
    return rule.passed(
        "The values do not rise as a register does." if case.counts.readings else "There are no values."
    )


@data_rule("interval-data-magnitude", subject="readings")
def interval_data_magnitude(case: Case) -> Finding:
    """Are the values of the size that a dwelling's meter shows?

    Applies: always.
    Rests on: common practice, no source, and for the upper end the greatest standard rating of a service: values a
    thousand times off are Wh taken for kWh or the reverse. Nothing is ever mended in silence.
    Missing facts: undetermined where the size is unusual but possible; the sum of the readings beside a bill decides.
    """
    rule = interval_data_magnitude
    grid = case.grid
    if grid is None:
        raise TypeError("The rule needs the series.")
    greatest_w = float(np.nanmax(np.abs(grid.energies_wh))) * 60 / grid.interval_minutes
    total_kwh = float(np.nansum(grid.energies_wh)) / 1000
    provided = Provided(round(greatest_w, 3), "W")
    said = f"The greatest reading is {greatest_w:,.0f} W, the sum {total_kwh:,.1f} kWh"
    if greatest_w > GREATEST_SERVICE_W:
        return rule.finding(
            "fail",
            f"{said}: more than the greatest service carries in {case.quality.out_of_range} readings. Is the unit "
            "right, or does a number stand for a missing value?",
            citation=None,
            pointer=case.unit_pointer,
            required=Required(float(round(GREATEST_SERVICE_W)), "W", "at-most"),
            provided=provided,
        )
    if greatest_w < LEAST_GREATEST_W:
        return rule.finding(
            "fail",
            f"{said}: no occupied dwelling draws so little. Is the unit right?",
            citation=None,
            pointer=case.unit_pointer,
            required=Required(LEAST_GREATEST_W, "W", "at-least"),
            provided=provided,
        )
    if not USUAL_LEAST_W <= greatest_w <= USUAL_GREATEST_W:
        return rule.finding(
            "undetermined",
            f"{said}: unusual for a dwelling. Hold the sum against the bills of the same time.",
            citation=None,
            pointer=case.unit_pointer,
            provided=provided,
        )
    return rule.passed(f"{said}: a size that a dwelling's meter shows.")
