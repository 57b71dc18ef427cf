"""Rules about the conditions under which measured demand may stand for the existing load."""

import numpy as np

from branchwright.checks.service_capacity.interval_data.case import Case
from branchwright.checks.service_capacity.interval_data.collected import DOUBTFUL, NOT_MEASURED
from branchwright.checks.service_capacity.interval_data.data_quality import coverage_percent, runs_of
from branchwright.checks.service_capacity.interval_data.demand import greatest_place
from branchwright.checks.service_capacity.interval_data.normalising import Grid
from branchwright.checks.service_capacity.interval_data.rules.rule import book_of, data_rule
from branchwright.findings import Finding, Provided, Required

LEAST_COVERAGE_PERCENT = 98.0
LEAST_MONTH_PERCENT = 90.0
LONG_ZERO_MINUTES = 360
"""Common practice, no source: what may be missing of the whole and of a month, and for how long an occupied dwelling
draws nothing at all."""

LONGEST_METERED_MINUTES = 60


def _grid(case: Case) -> Grid:
    if case.grid is None:
        raise TypeError("The rule did not say that it needs the series.")
    return case.grid


def _days(grid: Grid) -> float:
    return len(grid.energies_wh) * grid.interval_minutes / 1440


@data_rule("interval-data-duration", subject="readings", needs_edition=True)
def interval_data_duration(case: Case) -> Finding:
    """Do the readings span the time that the method asks for?

    Applies: always.
    Rests on: the provision on measured demand: a year's data, or, where they are not to be had, 30 days recorded
    continuously over 15 minutes, without generation.
    Missing facts: undetermined between 30 days and a year of 15-minute readings where generation is not stated. What
    else the short recording asks for, the review of the capacity judges.
    """
    rule = interval_data_duration
    edition = book_of(case).edition
    provision = edition.provision(rule.concept)
    grid, days = _grid(case), _days(_grid(case))
    year, short = provision.number("year_days"), provision.number("short_days")
    fine = grid.interval_minutes <= provision.number("short_minutes")
    cited = rule.cited(edition)
    if days >= year or days < short or not fine:
        why = (
            ""
            if fine or days >= year
            else f" The shorter recording of {short:g} days asks for 15-minute readings."
        )
        return rule.at_least(
            days,
            short if fine and days < short else year,
            "d",
            f"From the first to the last interval there are {days:g} days; a year's data are {year:g}.{why}",
            cited,
            case.series_pointer,
        )
    message = f"{days:g} days are no year, and do as the recording of {short:g} days only where there is no generation"
    if case.stated.has_generation or case.signs_of_generation:
        return rule.finding(
            "fail",
            f"{message}; there is.",
            citation=cited,
            pointer=case.stated.pointer("has_generation"),
            required=Required(year, "d", "at-least"),
            provided=Provided(days, "d"),
        )
    if case.stated.has_generation is None:
        return rule.undetermined(
            case.stated.pointer("has_generation"), f"{message}, which is not stated.", cited
        )
    return rule.at_least(days, short, "d", f"{message}; there is none.", cited, case.series_pointer)


@data_rule("interval-data-coverage", subject="readings")
def interval_data_coverage(case: Case) -> Finding:
    """Are hardly any readings missing?

    Applies: always.
    Rests on: common practice, no source: 98 percent of the intervals have a reading. Zeros for six hours and more may
    be gaps that were sent as zeros.
    Missing facts: undetermined where the coverage suffices only if such zeros are readings.
    """
    rule = interval_data_coverage
    grid = _grid(case)
    there = ~np.isnan(grid.energies_wh)
    expected = len(there)
    covered = coverage_percent(int(np.count_nonzero(there)), expected)
    runs = runs_of(there & (grid.energies_wh == 0))
    long_zeros = int(runs.lengths[runs.lengths * grid.interval_minutes >= LONG_ZERO_MINUTES].sum())
    surely = coverage_percent(int(np.count_nonzero(there)) - long_zeros, expected)
    missing = case.quality.gap_count
    where = f"; {missing} gaps, the longest of {_longest_gap(case)}" if missing else ""
    message = f"{covered:g} percent of {expected} intervals have a reading{where}."
    if covered >= LEAST_COVERAGE_PERCENT > surely:
        return rule.finding(
            "undetermined",
            f"{message} {long_zeros} of them are zeros in runs of six hours or more: an empty house, or gaps sent as "
            f"zeros? Without them it is {surely:g} percent.",
            citation=None,
            provided=Provided(surely, "%"),
            required=Required(LEAST_COVERAGE_PERCENT, "%", "at-least"),
        )
    return rule.finding(
        "pass" if covered >= LEAST_COVERAGE_PERCENT else "fail",
        message,
        citation=None,
        required=Required(LEAST_COVERAGE_PERCENT, "%", "at-least"),
        provided=Provided(covered, "%"),
    )


def _longest_gap(case: Case) -> str:
    longest = max(case.quality.gaps, key=lambda gap: gap.minutes)
    return f"{longest.minutes} minutes from {longest.start}"


@data_rule("interval-data-months", subject="readings")
def interval_data_months(case: Case) -> Finding:
    """Is no month poorly covered?

    Applies: always.
    Rests on: common practice, no source: 90 percent of every month, since the one with the peak may be the one that
    is missing.
    Missing facts: none are asked for.
    """
    rule = interval_data_months
    poor = [month for month in case.quality.months if month.coverage_percent < LEAST_MONTH_PERCENT]
    if not poor:
        least = min(month.coverage_percent for month in case.quality.months)
        return rule.passed(f"Every month has at least {least:g} percent of its readings.")
    worst = min(poor, key=lambda month: month.coverage_percent)
    named = ", ".join(f"{month.month} ({month.coverage_percent:g} percent)" for month in poor[:12])
    return rule.finding(
        "fail",
        f"Poorly covered: {named}.",
        citation=None,
        required=Required(LEAST_MONTH_PERCENT, "%", "at-least"),
        provided=Provided(worst.coverage_percent, "%"),
    )


@data_rule(
    "interval-data-resolution",
    subject="readings",
    consults=("measured-demand-interval",),
    needs_edition=True,
)
def interval_data_resolution(case: Case) -> Finding:
    """Are the readings fine enough to show the demand?

    Applies: always.
    Rests on: the provision on measured demand, whose exception names 15 minutes while its rule names none; the
    interpretation measured-demand-interval. Longer intervals hide the peak within them.
    Missing facts: undetermined where the readings are coarser than the demand is read to be: the bound says what they
    may hide, and the review of the capacity whether that matters.
    """
    rule = interval_data_resolution
    book = book_of(case)
    cited = rule.cited(book.edition)
    minutes = float(_grid(case).interval_minutes)
    short = book.edition.provision(rule.concept).number("short_minutes")
    if minutes <= short:
        return rule.at_most(
            minutes,
            short,
            "min",
            f"The readings are of {minutes:g} minutes.",
            cited,
            case.series_pointer,
        )
    metered = book.reading("measured-demand-interval") == "as-metered"
    if metered and minutes <= LONGEST_METERED_MINUTES:
        return rule.passed(
            f"The readings are of {minutes:g} minutes, and the meter's interval is read to do.",
            citation=cited,
        )
    bound = case.demand.bound_15_minute_w if case.demand else None
    hidden = f"; no 15 minutes within them exceed {bound:,.0f} W" if bound is not None else ""
    return rule.finding(
        "undetermined",
        f"Readings of {minutes:g} minutes hide the greatest 15 minutes{hidden}.",
        citation=cited,
        required=Required(short, "min", "at-most"),
        provided=Provided(minutes, "min"),
    )


@data_rule(
    "interval-data-generation",
    subject="readings",
    consults=("measured-with-generation",),
    needs_edition=True,
)
def interval_data_generation(case: Case) -> Finding:
    """Do the readings show the load itself, and not what generation left of it?

    Applies: always.
    Rests on: the provision on measured demand and the interpretation measured-with-generation. A net meter hides load:
    readings below zero, zeros by day where export was cut off, and reverse or net flow are signs of it.
    Missing facts: undetermined where generation is not stated and no sign of it is seen.
    """
    rule = interval_data_generation
    book = book_of(case)
    cited = rule.cited(book.edition)
    signs = list(case.signs_of_generation)
    if case.quality.negative:
        signs.append(f"{case.quality.negative} readings are below zero")
    stated = case.stated.has_generation
    clipped = (
        f"{case.quality.clipped} readings by day are zero and hardly any by night"
        if case.quality.clipped
        else ""
    )
    if clipped and stated is False and not signs:
        return rule.undetermined(
            case.stated.pointer("has_generation"),
            f"It is stated that there is no generation, yet {clipped}: export cut off?",
            cited,
        )
    if clipped:
        signs.append(clipped)
    if stated and book.reading("measured-with-generation") == "measured-gross" and not signs:
        return rule.passed(
            "There is generation, and nothing shows that the readings are net of it.", citation=cited
        )
    if signs or stated:
        seen = "; ".join(signs) or "there is generation"
        denied = " It is stated that there is none." if stated is False else ""
        return rule.finding(
            "fail",
            f"The readings may be less than the load: {seen}.{denied}",
            citation=cited,
            pointer=case.stated.pointer("has_generation"),
            provided=Provided(seen, "text"),
        )
    if stated is None:
        return rule.undetermined(
            case.stated.pointer("has_generation"),
            "Whether there is generation is not stated; the readings show no sign of it.",
            cited,
        )
    return rule.passed("There is no generation, and the readings show no sign of it.", citation=cited)


@data_rule("interval-data-greatest-reading", subject="greatest reading")
def interval_data_greatest_reading(case: Case) -> Finding:
    """Was the greatest reading measured?

    Applies: always.
    Rests on: common practice, no source: an estimate of the utility, a projection or a questionable reading is no
    measured demand.
    Missing facts: a reading without mark counts as measured.
    """
    rule = interval_data_greatest_reading
    grid = _grid(case)
    at = greatest_place(grid)
    mark = int(grid.marks[at])
    said = f"The greatest reading ({grid.energies_wh[at]:g} Wh)"
    if mark in NOT_MEASURED or mark in DOUBTFUL:
        kind = "questionable" if mark in DOUBTFUL else "estimated or edited"
        return rule.undetermined(None, f"{said} is marked as {kind}.")
    others = case.quality.estimated + case.quality.questionable
    return rule.passed(f"{said} was measured; {others} others were estimated or are questionable.")
