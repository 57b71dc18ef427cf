"""Rules about the body: whether it could be read as it stands, and nothing was guessed."""

from branchwright.checks.service_capacity.interval_data.case import Case
from branchwright.checks.service_capacity.interval_data.faults import pointer_in
from branchwright.checks.service_capacity.interval_data.rules.rule import data_rule
from branchwright.findings import Finding, Provided


@data_rule("interval-data-instructions", subject="request", force="recommendation", needs_series=False)
def interval_data_instructions(case: Case) -> Finding:
    """Does everything that was stated mean something for this body?

    Applies: always.
    Rests on: common practice, no source: an instruction that is passed over in silence misleads whoever gave it.
    Missing facts: none are asked for.
    """
    rule = interval_data_instructions
    if not case.unused:
        return rule.passed("Everything that was stated was used.")
    names = ", ".join(case.unused)
    return rule.finding(
        "fail",
        f"Stated, but of no meaning for this body: {names}.",
        citation=None,
        pointer=pointer_in(case.unused[0]),
        provided=Provided(names, "text"),
    )


@data_rule("interval-data-layout", subject="readings", needs_series=False)
def interval_data_layout(case: Case) -> Finding:
    """Is it plain where the readings stand and what they are?

    Applies: always.
    Rests on: common practice, no source: unit, columns and order of dates are stated, or follow from the body without
    doubt; they are never guessed.
    Missing facts: undetermined where the unit, the columns, the length of the intervals, the order of day and month or
    the decimal mark can be told neither from the request nor from the body.
    """
    rule = interval_data_layout
    failed = rule.faulted(case, "layout")
    if failed is not None:
        return failed
    if case.faults.of("missing"):
        first = case.faults.first("missing")
        return rule.undetermined(pointer_in(first.at), case.faults.told("missing"))
    return rule.passed("Unit, places and intervals of the readings are plain.")


@data_rule("interval-data-choice", subject="series of the file", needs_series=False)
def interval_data_choice(case: Case) -> Finding:
    """Does the file have exactly one series that can be the load?

    Applies: to Green Button files, which may hold several usage points, flows and commodities.
    Rests on: common practice, no source: of several series none is taken by chance; the request names the one meant.
    Missing facts: none are asked for.
    """
    rule = interval_data_choice
    if case.candidates is None:
        return rule.not_applicable("The body holds one series.")
    failed = rule.faulted(case, "series")
    return failed or rule.passed(f"One of {case.candidates} series of the file is the load's.")


@data_rule("interval-data-readings", subject="readings", needs_series=False)
def interval_data_readings(case: Case) -> Finding:
    """Could every reading be read?

    Applies: always.
    Rests on: common practice, no source: what cannot be read may have been the greatest.
    Missing facts: an empty value is a gap and no fault; the coverage counts it.
    """
    rule = interval_data_readings
    return rule.faulted(case, "unparsed") or rule.passed(f"{case.counts.readings} readings were read.")


@data_rule("interval-data-time-zone", subject="time stamps", needs_series=False)
def interval_data_time_zone(case: Case) -> Finding:
    """Does every stamp mean one instant?

    Applies: always.
    Rests on: common practice, no source: a clock on the wall without zone means two dozen instants, in spring it skips
    an hour, and in autumn it shows one twice. Which of the two is meant follows from the order of the readings alone.
    Missing facts: fails where stamps have no offset and no time_zone is stated.
    """
    rule = interval_data_time_zone
    return rule.faulted(case, "zone") or rule.passed("Every stamp that was used means one instant.")


@data_rule("interval-data-zone-agreement", subject="time stamps", force="recommendation", needs_series=False)
def interval_data_zone_agreement(case: Case) -> Finding:
    """Do the offsets of the stamps agree with the zone that is stated?

    Applies: where stamps bear offsets and a time_zone is stated as well.
    Rests on: common practice, no source: offsets of another place, or standard time all year, are legal and worth a
    look; the offsets hold.
    Missing facts: not applicable without offsets or zone.
    """
    rule = interval_data_zone_agreement
    placement = case.placement
    if placement is None or placement.own_zone is None or case.stated.time_zone is None:
        return rule.not_applicable("Offsets and a zone are not both stated.")
    if not placement.disagreeing:
        return rule.passed(f"Every offset is that of {case.stated.time_zone}.")
    return rule.finding(
        "fail",
        f"{placement.disagreeing} stamps have an offset that {case.stated.time_zone} does not have at that time, the "
        f"first at {placement.first_disagreeing}. The offsets were taken.",
        citation=None,
        pointer=case.stated.pointer("time_zone"),
        provided=Provided(case.stated.time_zone, "text"),
    )


@data_rule("interval-data-autumn-hour", subject="time stamps", force="recommendation", needs_series=False)
def interval_data_autumn_hour(case: Case) -> Finding:
    """Is the hour that the clock shows twice in autumn there twice?

    Applies: to stamps without offset.
    Rests on: common practice, no source: exports that print the hour once leave one out or add the two up.
    Missing facts: undetermined where it is there once: it is taken for the first of the two.
    """
    rule = interval_data_autumn_hour
    if not case.faults.of("autumn"):
        return rule.passed("No hour of autumn is in doubt.")
    return rule.undetermined(None, case.faults.told("autumn"))


@data_rule("interval-data-order", subject="readings", force="recommendation", needs_series=False)
def interval_data_order(case: Case) -> Finding:
    """Do the readings stand in the order of time?

    Applies: always; blocks of a Green Button file may stand in any order.
    Rests on: common practice, no source: stamps put them in order, but a mixed order is a sign of files put together.
    Missing facts: none are asked for.
    """
    rule = interval_data_order
    counts = case.counts
    if not counts.unsorted:
        return rule.passed("The readings stand in the order of time.")
    place = counts.first_unsorted or ""
    how = (
        "The newest reading stands first"
        if counts.newest_first
        else f"{counts.unsorted} readings stand after a later one"
    )
    return rule.finding(
        "fail",
        f"{how}, the first at {place}. They were put in order.",
        citation=None,
        pointer=pointer_in(place),
        provided=Provided(float(counts.unsorted), "count"),
    )


@data_rule("interval-data-intervals", subject="readings", needs_series=False)
def interval_data_intervals(case: Case) -> Finding:
    """Do all readings cover intervals of one length, side by side?

    Applies: always.
    Rests on: common practice, no source: a demand is an average over one length of time, and energy that overlaps is
    counted twice.
    Missing facts: none are asked for; a length that is not stated is told from the commonest step.
    """
    rule = interval_data_intervals
    failed = rule.faulted(case, "grid")
    if failed is not None or case.grid is None:
        return failed or rule.undetermined(None, "Needs the series, which could not be made.")
    return rule.passed(f"All readings are of {case.grid.interval_minutes} minutes, side by side.")


@data_rule("interval-data-duplicates", subject="readings", needs_series=False)
def interval_data_duplicates(case: Case) -> Finding:
    """Does every interval have one value?

    Applies: always.
    Rests on: common practice, no source: the same reading twice is harmless, two values for one interval are not; the
    greatest is taken, since that is the safe side.
    Missing facts: none are asked for.
    """
    rule = interval_data_duplicates
    failed = rule.faulted(case, "conflict")
    if failed is not None:
        return failed
    again = case.counts.duplicates
    return rule.passed(
        f"{again} readings stand there twice with the same value."
        if again
        else "No interval has two readings."
    )
