"""Rules about the house's load and its place in time: whether there is a series that can be simulated."""

import numpy as np

from branchwright.checks.service_capacity.managed_charging.given import Given
from branchwright.checks.service_capacity.managed_charging.rules.rule import Studied, rule
from branchwright.findings import Finding, Provided, Required

MOST_CELLS = 8_000_000
YEAR_DAYS = 365.0


@rule("managed-study-size", subject="study", stops=("fail",))
def managed_study_size(given: Given, studied: Studied | None) -> Finding:
    """Is the study small enough to be simulated in one request?

    Applies: always.
    Rests on: a limit of this service: readings times chargers, at most 8,000,000. That is a year of 15-minute readings
    with 200 chargers; longer studies are asked for part by part.
    Missing facts: none are asked for.
    """
    chargers = len(given.request.chargers)
    return managed_study_size.at_most(
        float(given.readings * chargers),
        float(MOST_CELLS),
        "count",
        f"{given.readings} readings with {chargers} charger{'s' if chargers > 1 else ''}.",
        None,
        "/house_load",
    )


@rule("managed-house-load", subject="house load", stops=("fail", "undetermined"))
def managed_house_load(given: Given, studied: Studied | None) -> Finding:
    """Is the house's load stated in one way, with a list of currents for each leg of the service?

    Applies: always.
    Rests on: either the energy of the whole house or the current of every ungrounded conductor: two, or three of a
    three-phase service, with as many readings each. Nobody can tell which of two statements is meant.
    Missing facts: undetermined where neither is stated, and nothing is simulated.
    """
    house = given.request.house_load
    pointer = "/house_load/leg_currents_a"
    if house.energy_wh is None and house.leg_currents_a is None:
        return managed_house_load.undetermined("/house_load", "State energy_wh or leg_currents_a.")
    if house.leg_currents_a is None:
        return managed_house_load.passed("The energy of the whole house is stated.")
    if house.energy_wh is not None:
        return managed_house_load.finding(
            "fail",
            "Both energy_wh and leg_currents_a are stated; state one of them.",
            citation=None,
            pointer=pointer,
            required=Required(["energy_wh", "leg_currents_a"], "text", "one-of"),
            provided=Provided("both", "text"),
        )
    lengths = [len(leg) for leg in house.leg_currents_a]
    if len(lengths) != given.legs:
        return managed_house_load.differs(
            len(lengths),
            given.legs,
            f"Currents of {len(lengths)} legs are stated; the service has {given.legs} ungrounded conductors.",
            pointer,
        )
    for place, length in enumerate(lengths):
        if length != lengths[0]:
            return managed_house_load.differs(
                length,
                lengths[0],
                f"Leg {place} has {length} readings, leg 0 has {lengths[0]}.",
                f"{pointer}/{place}",
            )
    return managed_house_load.passed("The current of every leg is stated.")


@rule("managed-house-readings", subject="house load", stops=("fail",))
def managed_house_readings(given: Given, studied: Studied | None) -> Finding:
    """Is every reading there, and none of them negative?

    Applies: always.
    Rests on: a house draws no negative current: such a reading is a flow net of generation, behind which the load is
    hidden. The monitors of an energy management must see the load itself.
    Missing facts: undetermined where readings are missing; nothing charges in those intervals. Without any reading
    nothing is simulated.
    """
    house = given.request.house_load
    if managed_house_load(given).outcome != "pass":
        return managed_house_readings.undetermined("/house_load", "Needs the house's load in one way.")
    values = given.values
    pointer = "/house_load/energy_wh" if house.leg_currents_a is None else "/house_load/leg_currents_a"

    def at(place: int) -> str:
        leg, interval = divmod(place, values.shape[1])
        return f"{pointer}/{interval}" if house.leg_currents_a is None else f"{pointer}/{leg}/{interval}"

    negative = np.flatnonzero(values < 0)
    if len(negative):
        first = int(negative[0])
        unit = "Wh" if house.leg_currents_a is None else "A"
        return managed_house_readings.at_least(
            float(values.flat[first]),
            0.0,
            unit,
            f"{len(negative)} readings are negative: generation or export hides the load. State the load itself.",
            None,
            at(first),
        )
    missing = np.flatnonzero(np.isnan(values))
    if len(missing) == values.size or np.isnan(given.house_a).all():
        return managed_house_readings.finding(
            "fail",
            "There is no interval with a reading.",
            citation=None,
            pointer=pointer,
            required=Required(1.0, "count", "at-least"),
            provided=Provided(0.0, "count"),
        )
    if len(missing):
        return managed_house_readings.undetermined(
            at(int(missing[0])),
            f"{len(missing)} of {values.size} readings are missing; nothing charges in those intervals, and what the "
            "house drew in them is not known.",
        )
    return managed_house_readings.passed(f"{values.size} readings, none of them missing or negative.")


@rule("managed-local-clock", subject="time zone", stops=("fail",))
def managed_local_clock(given: Given, studied: Studied | None) -> Finding:
    """Is there such a date, and such a time zone?

    Applies: always.
    Rests on: vehicles come and go by the local clock, so that a zone by its IANA name is needed, with its days of 23
    and 25 hours.
    Missing facts: none are asked for.
    """
    house = given.request.house_load
    if given.begin is None:
        return managed_local_clock.finding(
            "fail",
            "The calendar has no such day.",
            citation=None,
            pointer="/house_load/start",
            required=Required("a day of the calendar", "text", "present"),
            provided=Provided(house.start, "text"),
        )
    if given.zone is None:
        return managed_local_clock.finding(
            "fail",
            "There is no time zone of this name; zones have names like America/Chicago.",
            citation=None,
            pointer="/house_load/time_zone",
            required=Required("an IANA name", "text", "present"),
            provided=Provided(house.time_zone, "text"),
        )
    return managed_local_clock.passed(f"The readings begin at {house.start}, seen in {house.time_zone}.")


@rule("managed-days-covered", subject="house load", force="recommendation")
def managed_days_covered(given: Given, studied: Studied | None) -> Finding:
    """Do the readings cover a year?

    Applies: always, as a recommendation.
    Rests on: common practice, no source: the worst night lies in the season of heating or cooling, and readings that
    leave it out say nothing of it.
    Missing facts: none are asked for.
    """
    return managed_days_covered.at_least(
        round(given.days, 3),
        YEAR_DAYS,
        "days",
        f"The readings cover {given.days:g} days; a season that they leave out may hold the worst night.",
        None,
        "/house_load",
    )
