"""Rules about what flows through the house's meter: whether load and generation are those of the priced year."""

from datetime import datetime

import numpy as np

from branchwright.checks.charging_cost.charging_comparison.given import Given
from branchwright.checks.charging_cost.charging_comparison.house_flow import Flow, has_weight
from branchwright.checks.charging_cost.charging_comparison.rules.rule import Rule, rule
from branchwright.checks.charging_cost.charging_comparison.series_facts import IntervalEnergy, NoLoad
from branchwright.findings import Finding, Provided, Required
from branchwright.questions.local_time import instant, seconds_at


@rule("charging-house-load", subject="house load", stops=("fail",), needs_year=True)
def charging_house_load(given: Given) -> Finding:
    """Is the house's load that of the priced year, without a gap?

    Applies: always.
    Rests on: a series begins where the year begins by the local clock and is as long, with its days of 23 and 25 hours;
    a missing reading is nothing that can be priced. A profile needs an hour, and a month, that weighs something.
    Missing facts: a profile that is not stated is even over the year, which is to be verified.
    """
    return _judged(charging_house_load, given, given.request.house_load, "/house_load")


@rule("charging-generation", subject="generation", stops=("fail",), needs_year=True)
def charging_generation(given: Given) -> Finding:
    """Is the generation that of the priced year, without a gap and never below zero?

    Applies: where generation is stated.
    Rests on: as for the house's load; what a generator draws by night belongs to the load.
    Missing facts: generation that is not stated is none.
    """
    flow = given.request.generation
    if flow is None or isinstance(flow, NoLoad):
        return charging_generation.not_applicable("No generation is stated.")
    found = _judged(charging_generation, given, flow, "/generation")
    if found.outcome == "pass" and isinstance(flow, IntervalEnergy):
        readings = np.array(flow.energy_kwh, dtype=np.float64)
        negative = np.flatnonzero(readings < 0)
        if len(negative):
            place = int(negative[0])
            return charging_generation.at_least(
                float(readings[place]),
                0.0,
                "kWh",
                f"{len(negative)} readings are below zero, the first at {_at(given, flow, place)}.",
                None,
                f"/generation/energy_kwh/{place}",
            )
    return found


def _judged(which: Rule, given: Given, flow: Flow, pointer: str) -> Finding:
    if isinstance(flow, NoLoad):
        return which.passed("There is none.", pointer)
    if isinstance(flow, IntervalEnergy):
        return _series(which, given, flow, pointer)
    if flow.profile is not None and not has_weight(flow.profile):
        return which.at_least(
            0.0,
            1.0,
            "count",
            "No hour, or no month, of the profile weighs anything.",
            None,
            f"{pointer}/profile",
        )
    return which.passed(f"{flow.kwh_per_year:g} kWh a year by a profile.", pointer)


def _series(which: Rule, given: Given, flow: IntervalEnergy, pointer: str) -> Finding:
    year = given.year
    begins = instant(int(year.starts_s[0]), year.zone).isoformat()
    try:
        start = seconds_at(datetime.fromisoformat(flow.start))
    except ValueError:
        return which.equal(flow.start, begins, "The calendar has no such day.", f"{pointer}/start")
    if start != year.starts_s[0]:
        return which.equal(
            flow.start,
            begins,
            f"The series begins at {flow.start}, the year at {begins}.",
            f"{pointer}/start",
        )
    required = year.count * year.step_minutes / flow.interval_minutes
    provided = len(flow.energy_kwh)
    if provided != required:
        ends = instant(year.end_s, year.zone).isoformat()
        return which.finding(
            "fail",
            f"{provided} readings of {flow.interval_minutes} minutes are stated; from {begins} to {ends} there are "
            f"{required:g}.",
            citation=None,
            pointer=f"{pointer}/energy_kwh",
            required=Required(required, "count", "equal"),
            provided=Provided(float(provided), "count"),
        )
    missing = [place for place, energy in enumerate(flow.energy_kwh) if energy is None]
    if missing:
        first = missing[0]
        return which.equal(
            "null",
            "a reading",
            f"{len(missing)} of {provided} readings are missing, the first at {_at(given, flow, first)}.",
            f"{pointer}/energy_kwh/{first}",
        )
    return which.passed(f"{provided} readings from {begins} on, none of them missing.", pointer)


def _at(given: Given, flow: IntervalEnergy, place: int) -> str:
    """Return the local time at which a reading begins."""
    begin = int(given.year.starts_s[0]) + 60 * flow.interval_minutes * place
    return instant(begin, given.year.zone).isoformat()
