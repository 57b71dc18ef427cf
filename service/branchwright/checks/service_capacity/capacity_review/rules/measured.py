"""Whether a record of demand may stand for the existing load: length, interval, coverage, use, season, generation."""

from branchwright.checks.service_capacity.capacity_review.case import Case
from branchwright.checks.service_capacity.capacity_review.measured import BOUND, MeasuredLoad
from branchwright.checks.service_capacity.capacity_review.rules.rule import rule
from branchwright.findings import Finding

LEAST_COVERAGE_PERCENT = 98.0
"""Share of the readings that must be there: common practice, no source."""

CALCULATED = "The existing load is calculated, not measured."


@rule("measured-duration", subject="record of demand", concept="measured-demand")
def measured_duration(case: Case) -> Finding:
    """Is the record of demand long enough?

    Applies: where the existing load is measured.
    Rests on: the greatest demand of one year; or, by the exception, of 30 days, which then have conditions of their
    own.
    Missing facts: none; the length is always stated.
    """
    record = case.existing
    if not isinstance(record, MeasuredLoad):
        return measured_duration.not_applicable(CALCULATED)
    year, short = record.provision.number("year_days"), record.provision.number("short_days")
    days = record.facts.days
    return measured_duration.at_least(
        days,
        year if record.is_year else short,
        "d",
        f"The record has {days:g} days; the rule asks for {year:g}, its exception for {short:g}.",
        measured_duration.cited(case.edition),
        "/existing_load/days",
    )


@rule(
    "measured-interval",
    subject="record of demand",
    concept="measured-demand",
    consults=["measured-demand-interval"],
)
def measured_interval(case: Case) -> Finding:
    """Is the record fine enough to show the greatest demand?

    Applies: where the existing load is measured.
    Rests on: the exception for 30 days names demand averaged over 15 minutes. The rule for a year names no interval:
    read as 15 minutes unless the other reading is chosen. A longer interval hides the peaks within it; then the
    demand as measured and a bound on the 15-minute demand are both judged, and where the two agree, the record is
    fine enough.
    Missing facts: a bound that is not stated follows from the greatest demand alone, which takes it for the whole
    energy of two neighbouring intervals falling into 15 minutes. A bound below the demand is a contradiction.
    """
    record = case.existing
    if not isinstance(record, MeasuredLoad):
        return measured_interval.not_applicable(CALCULATED)
    facts, cited = record.facts, measured_interval.cited(case.edition)
    short = record.provision.number("short_minutes")
    bound = facts.fifteen_minute_bound_w
    if bound is not None and bound < facts.measured_demand_w and not record.is_fine:
        return measured_interval.at_least(
            bound,
            facts.measured_demand_w,
            "W",
            f"No 15-minute demand is stated to exceed {bound:g} W, but {facts.measured_demand_w:g} W were measured.",
            cited,
            BOUND,
        )
    finding = measured_interval.at_most(
        facts.averaging_minutes,
        short,
        "min",
        f"Demand is averaged over {facts.averaging_minutes:g} minutes; {short:g} are asked for.",
        cited,
        "/existing_load/averaging_minutes",
    )
    if record.is_fine or not record.is_year:
        return finding
    if record.is_as_metered:
        finding.outcome = "pass"
        finding.margin_percent = None
        finding.message += " The year's demand is read over the interval of the meter."
        return finding
    if not case.waits_for_a_finer_record:
        finding.outcome = "pass"
        finding.margin_percent = None
        finding.message += (
            f" A finer record would change nothing: the measured {record.demand_w.least:g} W and their bound "
            f"of {record.demand_w.greatest:g} W over {short:g} minutes are judged alike."
        )
        return finding
    finding.outcome = "undetermined"
    finding.message += (
        f" The demand over {short:g} minutes lies between {record.demand_w.least:g} and {record.demand_w.greatest:g} "
        "W, and where in between decides."
    )
    return finding


@rule("measured-coverage", subject="record of demand", concept="measured-demand")
def measured_coverage(case: Case) -> Finding:
    """Are the readings of the record there?

    Applies: where the existing load is measured.
    Rests on: a recording is continuous, and the greatest demand may be among readings that are missing. 98 percent
    is common practice, no source; below it nothing can be told.
    Missing facts: undetermined where the coverage is not stated.
    """
    record = case.existing
    if not isinstance(record, MeasuredLoad):
        return measured_coverage.not_applicable(CALCULATED)
    coverage, pointer = record.facts.coverage_percent, "/existing_load/coverage_percent"
    cited = measured_coverage.cited(case.edition)
    if coverage is None:
        return measured_coverage.undetermined(
            pointer, "It is not stated how many of the readings are there.", cited
        )
    finding = measured_coverage.at_least(
        coverage,
        LEAST_COVERAGE_PERCENT,
        "%",
        f"{coverage:g} percent of the readings are there; at least {LEAST_COVERAGE_PERCENT:g} are asked for, by common "
        "practice.",
        cited,
        pointer,
    )
    if finding.outcome == "fail":
        finding.outcome = "undetermined"
        finding.message += " The greatest demand may be among those that are missing."
    return finding


@rule("measured-occupied", subject="record of demand", concept="measured-demand")
def measured_occupied(case: Case) -> Finding:
    """Was the building occupied while the demand was recorded?

    Applies: where the existing load is measured over less than a year.
    Rests on: the exception asks for a building that is occupied during the recording.
    Missing facts: undetermined where it is not stated.
    """
    record = case.existing
    if not isinstance(record, MeasuredLoad):
        return measured_occupied.not_applicable(CALCULATED)
    cited = measured_occupied.cited(case.edition)
    if record.is_year:
        return measured_occupied.not_applicable("The record covers a year.", cited)
    return measured_occupied.states(
        record.facts.occupied,
        "the building was occupied during the record",
        "the building was not occupied during the record",
        "the building was occupied during the record",
        cited,
        "/existing_load/occupied",
    )


@rule("measured-season", subject="record of demand", concept="measured-demand")
def measured_season(case: Case) -> Finding:
    """Is the load of other seasons in the demand?

    Applies: where the existing load is measured over less than a year.
    Rests on: the exception takes the larger of heating and cooling, and other loads that come with a season, into
    the demand, by measurement or by calculation.
    Missing facts: undetermined where the seasonal load is not stated; 0 states that the record has it.
    """
    record = case.existing
    if not isinstance(record, MeasuredLoad):
        return measured_season.not_applicable(CALCULATED)
    cited, pointer = measured_season.cited(case.edition), "/existing_load/seasonal_load_va"
    seasonal = record.facts.seasonal_load_va
    if record.is_year:
        return measured_season.not_applicable("The record covers every season.", cited)
    if seasonal is None:
        return measured_season.undetermined(
            pointer, "It is not stated which load of other seasons the record lacks.", cited
        )
    message = (
        f"{seasonal:g} VA of other seasons are added to the demand."
        if seasonal
        else "The record is stated to have the load of other seasons."
    )
    return measured_season.finding("pass", message, citation=cited, pointer=pointer)


@rule(
    "measured-generation",
    subject="record of demand",
    concept="measured-demand",
    consults=["measured-with-generation"],
)
def measured_generation(case: Case) -> Finding:
    """Can generation behind the meter have hidden load from the record?

    Applies: where the existing load is measured.
    Rests on: the exception for 30 days is not for premises with generation or peak shaving. Whether that bars a
    year's record as well is read two ways; refused unless the reading is chosen that takes a record of the load
    itself, generation added back.
    Missing facts: undetermined where it is not stated whether there is generation and that would decide.
    """
    record = case.existing
    if not isinstance(record, MeasuredLoad):
        return measured_generation.not_applicable(CALCULATED)
    cited, pointer = measured_generation.cited(case.edition), "/existing_load/has_generation"
    generation = record.facts.has_generation
    if generation is False:
        return measured_generation.one_of(
            "no generation",
            ["no generation"],
            "No generation or peak shaving is stated.",
            cited,
            pointer,
            holds=True,
        )
    if record.is_year and case.book.reading("measured-with-generation") == "measured-gross":
        return measured_generation.finding(
            "pass",
            "The year's demand is taken as that of the load itself, generation added back.",
            citation=cited,
            pointer=pointer,
        )
    if generation is None:
        return measured_generation.undetermined(
            pointer, "It is not stated whether generation or peak shaving can hide load.", cited
        )
    length = "a year's record as well, as the provision is read here" if record.is_year else "this record"
    return measured_generation.one_of(
        "generation",
        ["no generation"],
        f"Generation or peak shaving hides load from the meter; that bars {length}.",
        cited,
        pointer,
        holds=False,
    )
