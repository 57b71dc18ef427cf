"""Managed-charging studies as a caller asks for them, and what the engine makes of them inside."""

import json
from random import Random
from typing import Any

from hypothesis import currently_in_test_context, note

from branchwright.checks.service_capacity.managed_charging import (
    ManagedChargingRequest,
    study_managed_charging,
)
from branchwright.checks.service_capacity.managed_charging.given import Given
from branchwright.checks.service_capacity.managed_charging.rules import Studied
from branchwright.checks.service_capacity.managed_charging.study import judged
from branchwright.questions.readings import bind

Json = dict[str, Any]

EVERY_DAY = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"]
YEAR = 35_040
"""Quarter hours of a year of 365 days."""


def seeded(seed: int) -> Random:
    """Return what draws the same numbers every time."""
    return Random(seed)  # noqa: S311 - loads to test with, no secrets


def energies(intervals: int, seed: int, greatest_w: float = 9000.0, minutes: int = 15) -> list[float]:
    """Draw the energy of a house in Wh by interval: a base, two humps a day, and large loads now and then."""
    random = seeded(seed)
    found = []
    for interval in range(intervals):
        hour = interval * minutes / 60 % 24
        power = 250 + random.gammavariate(1.2, 300)
        power += 900 * max(0.0, 1 - abs(hour - 19) / 3) + 500 * max(0.0, 1 - abs(hour - 7) / 2)
        if random.random() < 0.04:
            power += random.uniform(2000, greatest_w)
        found.append(round(power * minutes / 60, 2))
    return found


def charger(**stated: Any) -> Json:
    """Return a charger of 40 A on 50 A whose vehicle comes every evening, changed as stated."""
    return {
        "charging_current_a": 40,
        "circuit_breaker_a": 50,
        "sessions": [session()],
        **stated,
    }


def session(**stated: Any) -> Json:
    """Return a session of every night, changed as stated."""
    return {
        "weekdays": EVERY_DAY,
        "arrival": "18:00",
        "departure": "07:00",
        "energy_kwh": 24,
        "basis": "wall",
        **stated,
    }


def study(energy_wh: list[float | None] | None, **stated: Any) -> Json:
    """Return a study of one vehicle on 100 A in the mountains of the west, changed as stated."""
    house: Json = {
        "start": "2025-01-01T00:00:00-07:00",
        "interval_minutes": 15,
        "time_zone": "America/Denver",
    }
    if energy_wh is not None:
        house["energy_wh"] = energy_wh
    return {
        "edition": "nec-2023",
        "service": {"system": "split-phase-120-240", "rating_a": 100},
        "chargers": [charger()],
        **stated,
        "house_load": {**house, **stated.get("house_load", {})},
        "management": {"control_setting_a": 60, **stated.get("management", {})},
    }


def _request(asked: Json) -> ManagedChargingRequest:
    body = json.dumps(asked)
    if currently_in_test_context() and len(body) < 20_000:
        note(body)
    return ManagedChargingRequest.model_validate_json(body)


def studied(asked: Json) -> Json:
    """Return the answer to a study."""
    answer = study_managed_charging(_request(asked))
    return dict(json.loads(answer.model_dump_json(by_alias=True)))


def simulated(asked: Json) -> Studied:
    """Return what was simulated for a study; a request whose facts do not allow it fails the test."""
    request = _request(asked)
    _, found = judged(Given(request, bind(request.edition, request.readings)))
    assert found is not None, "nothing was simulated"
    return found


def by_rule(answer: Json) -> dict[str, Json]:
    """Return the findings of an answer by the name of their rule."""
    findings = {finding["rule"]: finding for finding in answer["findings"]}
    assert len(findings) == len(answer["findings"]), "two findings of one rule"
    return findings
