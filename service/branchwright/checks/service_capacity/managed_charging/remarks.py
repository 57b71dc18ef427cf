"""What a study says beside its findings: what to verify, what was not examined, and the cautions."""

from typing import Final

from branchwright.calculations.managed_charging import ASSUMED_EFFICIENCY
from branchwright.checks.service_capacity.managed_charging.given import Given
from branchwright.questions.answers import ToVerify
from branchwright.questions.remarks import CAUTIONS

NO_PROOF: Final = (
    "Simulated nights are no proof of safety: that needs listed equipment, verified sensors on every ungrounded "
    "conductor, and a lost link that was tested on site."
)
MEANS: Final = (
    "Readings are means over an interval: within it house and chargers may pass the setting until the management has "
    "answered, which no such readings show."
)
NOT_EXAMINED: Final = [
    "how long the house exceeds the setting within an interval, and starting currents",
    "what the chargers do when their link is lost: POST /v1/service-capacity-reviews asks",
    "the voltage at the hour of charging, the vehicle's taper near full, and the power factor of charging",
    "how the chargers lie on the legs: each is taken to load the largest one",
    "branch circuits beyond their rating, panel, busbar and service conductors",
    "years other than the one of the readings, and loads that are added later",
    "local amendments of the code",
]


def cautions() -> list[str]:
    """Return the cautions of every study."""
    return [NO_PROOF, MEANS, *CAUTIONS]


def not_examined(given: Given) -> list[str]:
    """Return what was not looked at."""
    place = given.request.jurisdiction
    return NOT_EXAMINED if place is None else [*NOT_EXAMINED, f"amendments in force in {place}"]


def to_verify(given: Given) -> list[ToVerify]:
    """Return the facts that were merely declared, or assumed where nothing was stated."""
    request = given.request
    house, management = request.house_load, request.management
    found = [
        ToVerify(
            "/management/control_setting_a", f"{given.setting_a:g}", "setting of the equipment, seen on site"
        )
    ]

    def assumed(pointer: str, taken: str, evidence: str) -> None:
        found.append(ToVerify(pointer, f"not stated, taken as {taken}", evidence))

    if house.leg_currents_a is None:
        evidence = "currents of both legs, measured at the same time"
        if house.leg_assumption is None:
            assumed("/house_load/leg_assumption", "balanced", evidence)
        else:
            found.append(ToVerify("/house_load/leg_assumption", house.leg_assumption, evidence))
        if house.power_factor is None:
            assumed("/house_load/power_factor", "1", "power-quality record of the service")
    if request.service.phases is None:
        assumed("/service/phases", "1", "service entrance")
    if management.margin_a is None:
        assumed("/management/margin_a", "0 A", "settings of the equipment")
    if management.response_s is None:
        assumed("/management/response_s", "less than an interval", "manual of the equipment, a test on site")
    if management.resume_delay_minutes is None:
        delay = f"{given.delay_minutes:g} minutes"
        assumed("/management/resume_delay_minutes", delay, "settings of the equipment")
    if management.sharing is None and len(request.chargers) > 1:
        assumed("/management/sharing", given.sharing, "settings of the equipment")
    for place, charger in enumerate(request.chargers):
        vehicle, pointer = charger.vehicle, f"/chargers/{place}"
        if vehicle is None or vehicle.onboard_limit_a is None:
            assumed(f"{pointer}/vehicle/onboard_limit_a", "no limit", "data sheet of the vehicle")
        for number, session in enumerate(charger.sessions):
            if session.basis is None:
                at = f"{pointer}/sessions/{number}/basis"
                assumed(at, "battery", "where the figure comes from: the vehicle's display, or a meter")
        needs_efficiency = any(session.basis != "wall" for session in charger.sessions)
        if needs_efficiency and (vehicle is None or vehicle.charging_efficiency is None):
            at = f"{pointer}/vehicle/charging_efficiency"
            assumed(at, f"{ASSUMED_EFFICIENCY:g}", "energy at the wall against energy in the battery")
    return found
