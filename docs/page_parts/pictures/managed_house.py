"""The study that two pictures show: two vehicles at an invented house, under one control setting."""

from functools import cache
from typing import Any

from branchwright.checks.service_capacity.managed_charging import (
    ManagedChargingAnswer,
    ManagedChargingRequest,
    study_managed_charging,
)
from page_parts import invented_house

EDITION = "nec-2023"
SERVICE_A = 100
CONTROL_SETTING_A = 80
SHARING = ("equal", "first-come", "earliest-departure")
OWN_A = (48, 40)
"""What each of the two chargers delivers at most, A."""


def request(sharing: str) -> dict[str, Any]:
    """Return the question: a car that comes home at a quarter to six, and a van that leaves at half past four."""
    return {
        "edition": EDITION,
        "service": {"system": "split-phase-120-240", "rating_a": SERVICE_A},
        "house_load": {
            "start": invented_house.START,
            "interval_minutes": invented_house.INTERVAL_MINUTES,
            "time_zone": invented_house.TIME_ZONE,
            "energy_wh": list(invented_house.energy_wh()),
        },
        "chargers": [
            {
                "name": "car",
                "charging_current_a": OWN_A[0],
                "circuit_breaker_a": 60,
                "sessions": [
                    {
                        "weekdays": ["mon", "tue", "wed", "thu", "fri"],
                        "arrival": "17:45",
                        "departure": "06:45",
                        "energy_kwh": 40,
                        "basis": "wall",
                    }
                ],
            },
            {
                "name": "van",
                "charging_current_a": OWN_A[1],
                "circuit_breaker_a": 50,
                "sessions": [
                    {
                        "weekdays": ["mon", "tue", "wed", "thu", "fri", "sat"],
                        "arrival": "19:30",
                        "departure": "04:30",
                        "energy_kwh": 45,
                        "basis": "wall",
                    }
                ],
            },
        ],
        "management": {
            "control_setting_a": CONTROL_SETTING_A,
            "resume_delay_minutes": 15,
            "sharing": sharing,
        },
    }


@cache
def answer(sharing: str) -> ManagedChargingAnswer:
    """Return the engine's answer, with the vehicles sharing by this rule."""
    return study_managed_charging(ManagedChargingRequest.model_validate(request(sharing)))
