"""Rules about the vehicle's need: whether current, battery and hours can bring it."""

from branchwright.checks.charging_cost.charging_comparison.energy_need import (
    DISTANCE_OF,
    kwh_per_distance,
    units_in,
)
from branchwright.checks.charging_cost.charging_comparison.given import Given
from branchwright.checks.charging_cost.charging_comparison.need_facts import DistanceEachDay
from branchwright.checks.charging_cost.charging_comparison.rules.rule import rule
from branchwright.findings import Finding
from branchwright.questions.fields import LEAST_SIGNALLED_A
from branchwright.questions.local_days import WEEKDAYS

LEAST_CONSUMPTION = 8.0
GREATEST_CONSUMPTION = 60.0
"""kWh for 100 km that a road vehicle charged at home may use: wide of the 15 to 22 of common practice, no source."""


@rule("charging-least-current", subject="charging current", stops=("fail",))
def charging_least_current(given: Given) -> Finding:
    """Is there the least current that a vehicle is offered?

    Applies: always.
    Rests on: the pilot signal of SAE J1772 offers 6 A at least; a charger or a vehicle that allows less never charges.
    Missing facts: an onboard limit that is not stated limits nothing.
    """
    is_charger = given.current_a == given.request.charging.charger.charging_current_a
    pointer = "charger/charging_current_a" if is_charger else "vehicle/onboard_limit_a"
    return charging_least_current.at_least(
        given.current_a,
        float(LEAST_SIGNALLED_A),
        "A",
        f"Charger and vehicle allow {given.current_a:g} A; a vehicle is offered 6 A at least.",
        None,
        f"/charging/{pointer}",
    )


@rule("charging-onboard-limit", subject="charging current", force="recommendation")
def charging_onboard_limit(given: Given) -> Finding:
    """Does the vehicle take all that the charger offers?

    Applies: where an onboard limit is stated, as a recommendation: a setting above it brings nothing.
    Rests on: the lesser of charger and vehicle decides; the year is priced with that.
    Missing facts: an onboard limit that is not stated is not judged.
    """
    vehicle = given.request.charging.vehicle
    if vehicle is None or vehicle.onboard_limit_a is None:
        return charging_onboard_limit.not_applicable("No onboard limit is stated.")
    offered = given.request.charging.charger.charging_current_a
    return charging_onboard_limit.at_most(
        offered,
        vehicle.onboard_limit_a,
        "A",
        f"The charger offers {offered:g} A, the vehicle takes {vehicle.onboard_limit_a:g} A.",
        None,
        "/charging/charger/charging_current_a",
    )


@rule("charging-consumption", subject="energy need", force="recommendation")
def charging_consumption(given: Given) -> Finding:
    """Is the consumption one that a road vehicle can have?

    Applies: where the need is stated as a distance, as a recommendation: it finds units that were mixed up.
    Rests on: common practice, no source: 15 to 22 kWh for 100 km in mild weather; 8 to 60 are let pass.
    Missing facts: none are asked for.
    """
    need = given.request.charging.energy_need
    if not isinstance(need, DistanceEachDay):
        return charging_consumption.not_applicable("The need is stated as energy.")
    stated = need.consumption
    per_km = units_in(DISTANCE_OF[stated.unit], "km") * kwh_per_distance(stated.value, stated.unit)
    found = round(100 * per_km, 6)
    message = f"{stated.value:g} {stated.unit} are {found:.4g} kWh for 100 km."
    pointer = "/charging/energy_need/consumption"
    if found < LEAST_CONSUMPTION:
        return charging_consumption.at_least(found, LEAST_CONSUMPTION, "kWh/100 km", message, None, pointer)
    return charging_consumption.at_most(found, GREATEST_CONSUMPTION, "kWh/100 km", message, None, pointer)


@rule("charging-battery", subject="battery")
def charging_battery(given: Given) -> Finding:
    """Does the need of every day fit into the battery, on the worst winter day too?

    Applies: where a battery is stated.
    Rests on: nobody drives on more than the battery holds between two charges at home.
    Missing facts: a battery that is not stated is not judged.
    """
    need = given.need
    if need.battery_wall_kwh is None:
        return charging_battery.not_applicable("No battery is stated.")
    most = max(need.worst_day_factor, *need.months)
    day = max(range(7), key=need.by_weekday.__getitem__)
    needed = round(float(need.by_weekday[day]) * most, 6)
    kind = "distance" if isinstance(need.facts, DistanceEachDay) else "kwh"
    return charging_battery.at_most(
        needed,
        round(need.battery_wall_kwh, 6),
        "kWh",
        f"Up to {needed:g} kWh at the wall are needed on {WEEKDAYS[day]}; the battery takes "
        f"{need.battery_wall_kwh:.4g} kWh from empty to full.",
        None,
        f"/charging/energy_need/{kind}_by_weekday",
    )


@rule("charging-worst-day", subject="energy need")
def charging_worst_day(given: Given) -> Finding:
    """Is at least as much needed on the worst winter day as on a mean day of its month?

    Applies: where a factor of the worst day is stated.
    Rests on: the worst day of a month is none with less than the month's mean; windows are judged on that day.
    Missing facts: a factor that is not stated is the greatest of the months, which is to be verified.
    """
    need = given.need
    if need.facts.worst_day_factor is None:
        return charging_worst_day.not_applicable("No factor of the worst winter day is stated.")
    greatest = max(need.months)
    return charging_worst_day.at_least(
        need.worst_day_factor,
        greatest,
        "1",
        f"The worst winter day needs {need.worst_day_factor:g} times as much as a mild one, the mean day of the month "
        f"of most need {greatest:g} times.",
        None,
        "/charging/energy_need/worst_day_factor",
    )


@rule("charging-need-in-window", subject="schedules", needs_year=True)
def charging_need_in_window(given: Given) -> list[Finding]:
    """Do the hours of each schedule bring what the worst winter day needs?

    Applies: always; one finding for each schedule.
    Rests on: hours from arrival to departure, or of the timer's windows within, times the lesser current of charger and
    vehicle at the stated voltage, on the night of the months of most need that is shortest of it. What a battery may
    make up in later nights does not count here.
    Missing facts: winter factors that are not stated are 1, which is to be verified.
    """
    found: list[Finding] = []
    for place, worst in enumerate(given.worst_days):
        if worst is None:
            found.append(
                charging_need_in_window.passed("Nothing is needed on any day.", "/charging/energy_need")
            )
            continue
        would = (
            f" {worst.current_that_would_do_a:g} A would do."
            if worst.shortfall_kwh and worst.current_that_would_do_a is not None
            else " No current that a charger offers and the vehicle takes would do."
            if worst.shortfall_kwh
            else ""
        )
        found.append(
            charging_need_in_window.at_least(
                worst.deliverable_kwh,
                worst.needed_kwh,
                "kWh",
                f"The worst winter day needs {worst.needed_kwh:.2f} kWh; the night of {worst.date} brings up to "
                f"{worst.deliverable_kwh:.2f} kWh in {worst.hours:g} h.{would}",
                None,
                f"/schedules/{place}",
            )
        )
    return found
