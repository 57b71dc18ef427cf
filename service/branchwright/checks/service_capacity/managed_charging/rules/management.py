"""Rules about the energy management and what it delivered."""

import numpy as np

from branchwright.calculations.charging_simulation import NOTHING_KWH
from branchwright.calculations.managed_charging import managed_service_a
from branchwright.checks.service_capacity.managed_charging.given import Given
from branchwright.checks.service_capacity.managed_charging.rules.rule import Studied, rule
from branchwright.findings import Finding

SETTING = "/management/control_setting_a"
NOT_SIMULATED = "Nothing was simulated."


@rule("managed-setting-on-service", subject="control setting")
def managed_setting_on_service(given: Given, studied: Studied | None) -> Finding:
    """Is the service rated for the control setting as a continuous load?

    Applies: where the rating of the service is stated.
    Rests on: the setting stands for all that the management holds, at the factor of a continuous load.
    Missing facts: a rating that is not stated is not judged.
    """
    rating_a = given.request.service.rating_a
    provision = given.edition.provision("energy-management-load")
    if rating_a is None:
        return managed_setting_on_service.not_applicable(
            "The rating of the service is not stated.", provision.citation
        )
    counts = managed_service_a.value(provision.number("factor"), given.setting_a, 0.0)
    return managed_setting_on_service.at_most(
        counts,
        rating_a,
        "A",
        f"A control setting of {given.setting_a:g} A counts for {counts:g} A on a service of {rating_a:g} A.",
        provision.citation,
        SETTING,
    )


@rule("managed-house-below-setting", subject="house load")
def managed_house_below_setting(given: Given, studied: Studied | None) -> Finding:
    """Does the house alone stay within the control setting?

    Applies: where something was simulated.
    Rests on: management lowers the chargers and nothing else; where the house alone draws more, it does not hold the
    setting, and the setting cannot stand for the load.
    Missing facts: intervals without a reading are left out.
    """
    if studied is None:
        return managed_house_below_setting.not_applicable(NOT_SIMULATED)
    at = int(np.nanargmax(given.house_a))
    house = given.request.house_load
    pointer = f"/house_load/energy_wh/{at}"
    if house.leg_currents_a is not None:
        pointer = f"/house_load/leg_currents_a/{int(given.values[:, at].argmax())}/{at}"
    greatest = round(given.greatest_house_a, 6)
    return managed_house_below_setting.at_most(
        greatest,
        given.setting_a,
        "A",
        f"The house alone draws {greatest:.1f} A at most on its largest leg; the setting is {given.setting_a:g} A.",
        managed_house_below_setting.cited(given.edition),
        pointer,
    )


@rule("managed-response", subject="response time")
def managed_response(given: Given, studied: Studied | None) -> Finding:
    """Do the chargers follow the house within an interval?

    Applies: where the response time is stated.
    Rests on: house and chargers are compared within the same interval. A response longer than that lets the total pass
    the setting until the chargers have followed, which these readings would not show.
    Missing facts: a response that is not stated is taken as shorter than an interval, which is to be verified.
    """
    response_s = given.request.management.response_s
    if response_s is None:
        return managed_response.not_applicable(
            "No response time is stated; it is taken as below an interval."
        )
    return managed_response.at_most(
        response_s,
        float(given.interval_s),
        "s",
        f"The chargers follow within {response_s:g} s; the readings are {given.interval_s} s apart.",
        None,
        "/management/response_s",
    )


@rule("managed-nights-met", subject="sessions", force="recommendation")
def managed_nights_met(given: Given, studied: Studied | None) -> Finding:
    """Does every vehicle get what it needs on every night?

    Applies: always, as a recommendation: a vehicle that is not full harms nobody.
    Rests on: the request's own needs, simulated interval by interval at the stated setting.
    Missing facts: undetermined where no session lies wholly in the readings.
    """
    if studied is None:
        return managed_nights_met.not_applicable(NOT_SIMULATED)
    simulation = studied.simulation
    nights = len(simulation.nights)
    if not nights:
        return managed_nights_met.undetermined(
            "/house_load", "No session begins and ends within the readings."
        )
    met = int(simulation.met_nights(studied.course.unmet_kwh > NOTHING_KWH).sum())
    return managed_nights_met.at_least(
        float(met),
        float(nights),
        "count",
        f"Every session is met on {met} of {nights} nights.",
        None,
        SETTING,
    )
