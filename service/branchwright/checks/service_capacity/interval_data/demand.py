"""Measured demand: the greatest of the readings, what it bounds, and the steps that lead there."""

from collections.abc import Sequence
from datetime import tzinfo
from math import fsum

import numpy as np

from branchwright.calculations.measured_demand import (
    SHORT_MINUTES,
    average_power_w,
    bound_ratio,
    greatest_span,
    intervals_touched,
    quarter_hour_power_w,
    single_phase_demand_a,
    three_phase_demand_a,
)
from branchwright.checks.service_capacity.interval_data.answers import (
    DataQuality,
    MeasuredDemand,
    MeasuredLoad,
    TypicalFactor,
)
from branchwright.checks.service_capacity.interval_data.normalising import Grid
from branchwright.checks.service_capacity.interval_data.stated import Stated
from branchwright.checks.service_capacity.interval_data.zones import iso
from branchwright.codebook import Book
from branchwright.findings import StepInput
from branchwright.questions.ledger import StepLedger

HOUR_MINUTES = 60
TYPICAL = TypicalFactor(
    1.23,
    1.65,
    2.2,
    "Simulated single homes: greatest quarter of an hour of a year over its greatest hour. The publication is not at "
    "hand; the range decides nothing, since no factor is safe.",
)


def _of_series(grid: Grid, index: int) -> StepInput:
    return StepInput(float(grid.energies_wh[index]), "Wh", f"series:/energy_wh/{index}")


def greatest_place(grid: Grid) -> int:
    """Return the place of the greatest energy, the first of equal ones."""
    return int(np.nanargmax(grid.energies_wh))


def span_of_bound(grid: Grid) -> Sequence[int]:
    """Return the places of the neighbouring intervals whose energy bounds the demand of 15 minutes."""
    count = intervals_touched(grid.interval_minutes)
    first = greatest_span(grid.energies_wh, count)
    return [
        place
        for place in range(first, min(first + count, len(grid.energies_wh)))
        if not np.isnan(grid.energies_wh[place])
    ]


def measured_demand(
    grid: Grid, quality: DataQuality, zone: tzinfo, stated: Stated, book: Book | None, ledger: StepLedger
) -> MeasuredDemand:
    """Return the measured demand of a series, and enter its steps."""
    minutes = StepInput(float(grid.interval_minutes), "min", "series:/interval_minutes")
    at = greatest_place(grid)
    greatest = ledger.add(
        average_power_w.step(
            "greatest-demand", {"energy_wh": _of_series(grid, at), "interval_minutes": minutes}, None
        )
    )
    greatest_w = float(greatest.value)
    bound_w = None if quality.negative or greatest_w <= 0 else _bound(grid, ledger)
    bound_factor = None
    if bound_w is not None:
        bound_factor = float(
            ledger.add(bound_ratio.step("bound-factor", {"part_w": bound_w, "whole_w": greatest}, None)).value
        )
    return MeasuredDemand(
        greatest_w=greatest_w,
        at=iso(grid.instant(at), zone),
        averaging_minutes=grid.interval_minutes,
        total_kwh=round(fsum(np.nan_to_num(grid.energies_wh)) / 1000, 6),
        days=len(grid.energies_wh) * grid.interval_minutes / 1440,
        coverage_percent=quality.coverage_percent or 0.0,
        bound_15_minute_w=None if bound_w is None else float(bound_w.value),
        bound_factor=bound_factor,
        bound_why=_why(grid.interval_minutes, quality, bounded=bound_w is not None),
        typical_factor=TYPICAL if grid.interval_minutes == HOUR_MINUTES else None,
        leg_assumption=stated.legs,
        greatest_a=_amperes(greatest, stated, book, ledger),
    )


def _bound(grid: Grid, ledger: StepLedger) -> StepInput:
    places = span_of_bound(grid)
    inputs = {f"energy_{number}_wh": _of_series(grid, place) for number, place in enumerate(places, 1)}
    touched = ledger.work_out(
        "energy-touched",
        "energy of the intervals that 15 minutes can touch",
        " + ".join(inputs),
        inputs,
        sum(float(each.value) for each in inputs.values()),
        "Wh",
        None,
    )
    return ledger.add(quarter_hour_power_w.step("bound-15-minutes", {"energy_wh": touched}, None))


def _why(minutes: int, quality: DataQuality, *, bounded: bool) -> str:
    if not bounded:
        return "There is no bound: readings below zero, or without load, hide what was drawn."
    count = intervals_touched(minutes)
    gaps = " What was drawn in the gaps is not bounded." if quality.gap_count else ""
    if minutes == SHORT_MINUTES:
        return "The readings are of 15 minutes themselves." + gaps
    if SHORT_MINUTES % minutes == 0:
        return f"The greatest energy of {count} neighbouring readings, which are 15 minutes together." + gaps
    return (
        f"No 15 minutes touch more than {count} neighbouring readings of {minutes} minutes, and a load never gives "
        f"energy back: the greatest energy of {count} of them, taken as if it fell into 15 minutes.{gaps}"
    )


def _amperes(power_w: StepInput, stated: Stated, book: Book | None, ledger: StepLedger) -> float | None:
    """Return the current of the larger leg; None where system or edition is not stated, or they do not go together."""
    if book is None or stated.system is None:
        return None
    edition = book.edition
    phases = stated.phases or 1
    if phases > edition.greatest_phases(stated.system).number:
        return None
    if stated.legs == "all-on-one-leg":
        voltage, current = edition.voltage_to_ground(stated.system), single_phase_demand_a
    else:
        voltage = edition.voltage_between_lines(stated.system)
        current = three_phase_demand_a if phases > 1 else single_phase_demand_a
    step = current.step("greatest-current", {"power_w": power_w, "voltage_v": voltage}, None)
    return float(ledger.add(step).value)


def measured_load(demand: MeasuredDemand, has_generation: bool | None) -> MeasuredLoad:
    """Return the demand as a capacity review takes it: over 15 minutes where the readings are finer."""
    bound = demand.bound_15_minute_w
    finer = demand.averaging_minutes < SHORT_MINUTES and bound is not None and bound < demand.greatest_w
    return MeasuredLoad(
        kind="measured",
        measured_demand_w=bound if finer and bound is not None else demand.greatest_w,
        averaging_minutes=SHORT_MINUTES if finer else demand.averaging_minutes,
        days=demand.days,
        coverage_percent=demand.coverage_percent,
        has_generation=has_generation,
        occupied=None,
        seasonal_load_va=None,
        fifteen_minute_bound_w=bound,
    )
