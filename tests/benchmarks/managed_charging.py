"""How long a study of managed charging takes: one vehicle over a year of quarter hours, and a garage of two hundred.

Run from the root of the repository, on an otherwise idle machine: python tests/benchmarks/managed_charging.py

Prints medians of the processor time of one core. Computation is all that is between a validated request and the parts
of its answer: rules, simulation, curve, search of the smallest setting, tables and steps. At most 20 ms are wanted for
one vehicle. The whole answer adds reading and validating JSON, the hash of the request, and writing JSON. The house's
load is drawn: a base, humps in the morning and the evening, and large loads now and then.
"""

import argparse
import json
import os
import statistics
from collections.abc import Callable
from random import Random
from typing import Any

from design_rate import seconds
from pydantic import TypeAdapter

from branchwright.checks.service_capacity.managed_charging import (
    ManagedChargingAnswer,
    ManagedChargingRequest,
    study_managed_charging,
)
from branchwright.checks.service_capacity.managed_charging.given import Given
from branchwright.checks.service_capacity.managed_charging.study import judged, outcome_of
from branchwright.http_api import strict_json
from branchwright.questions.readings import bind

VALIDATE = TypeAdapter(ManagedChargingRequest).validator.validate_python
SERIALISE = TypeAdapter(ManagedChargingAnswer).serializer.to_json
INTERVALS = 35_040
MOST_MS = 20.0
EVERY_DAY = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"]

Request = dict[str, Any]


def house_wh(scale: float) -> list[float]:
    """The energy of a house in each quarter hour of a year, Wh."""
    random = Random(2025)  # noqa: S311 - a load to measure with, no secret
    found = []
    for interval in range(INTERVALS):
        hour = interval / 4 % 24
        power = 250 + random.gammavariate(1.2, 300)
        power += 900 * max(0.0, 1 - abs(hour - 19) / 3) + 500 * max(0.0, 1 - abs(hour - 7) / 2)
        if random.random() < 0.04:
            power += random.uniform(2000, 9000)
        found.append(round(scale * power / 4, 1))
    return found


def study(chargers: list[Request], setting_a: float, scale: float, sharing: str) -> Request:
    """A study of a year."""
    return {
        "edition": "nec-2023",
        "service": {"system": "split-phase-120-240"},
        "house_load": {
            "start": "2025-01-01T00:00:00-07:00",
            "interval_minutes": 15,
            "time_zone": "America/Denver",
            "energy_wh": house_wh(scale),
        },
        "chargers": chargers,
        "management": {"control_setting_a": setting_a, "sharing": sharing},
    }


def one_vehicle() -> Request:
    """One vehicle that comes every evening."""
    night = {"weekdays": EVERY_DAY, "arrival": "18:10", "departure": "06:55", "energy_kwh": 18}
    return study([{"charging_current_a": 40, "circuit_breaker_a": 50, "sessions": [night]}], 60, 1.0, "equal")


def garage(sharing: str, *, by_day: bool) -> Request:
    """Two hundred vehicles; `by_day` some come in the morning, so that somebody is there at every hour of the year."""
    random = Random(200)  # noqa: S311 - chargers to measure with, no secret
    chargers = []
    for place in range(200):
        comes = random.randrange(360, 600) if by_day and place % 4 == 0 else random.randrange(960, 1380)
        goes = (comes + random.randrange(480, 900)) % 1440
        session = {
            "weekdays": EVERY_DAY,
            "arrival": f"{comes // 60:02}:{comes % 60:02}",
            "departure": f"{goes // 60:02}:{goes % 60:02}",
            "energy_kwh": random.randint(5, 25),
        }
        chargers.append(
            {
                "charging_current_a": random.choice([24, 32, 40]),
                "circuit_breaker_a": 50,
                "sessions": [session],
            }
        )
    return study(chargers, 1500, 60.0, sharing)


def median_ms(work: Callable[[], object], rounds: int) -> float:
    """The median processor time of some work, in ms."""
    return 1000 * statistics.median(seconds(work) for _ in range(rounds))


def computed(question: ManagedChargingRequest) -> object:
    """All that is computed for an answer, its hash apart."""
    given = Given(question, bind(question.edition, question.readings))
    _, studied = judged(given)
    if studied is None:
        raise SystemExit("The study was not simulated.")
    return outcome_of(given, studied)


def main() -> None:
    """Time both and print what the docstring of this module says."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--rounds", type=int, default=31, help="rounds of the one vehicle")
    parser.add_argument("--garage-rounds", type=int, default=3, help="rounds of each garage")
    options = parser.parse_args()
    if hasattr(os, "sched_setaffinity"):
        os.sched_setaffinity(0, {min(os.sched_getaffinity(0))})
    figures: dict[str, float] = {}
    cases = {
        "one vehicle": (one_vehicle(), options.rounds),
        "garage, equal": (garage("equal", by_day=False), options.garage_rounds),
        "garage, first come": (garage("first-come", by_day=False), options.garage_rounds),
        "garage by day and night, equal": (garage("equal", by_day=True), options.garage_rounds),
    }
    for name, (request, rounds) in cases.items():
        body = json.dumps(request).encode()
        question = VALIDATE(strict_json.parse(body))
        answer = study_managed_charging(question)
        smallest = answer.smallest
        if smallest is None:
            raise SystemExit(f"{name}: nothing was simulated.")

        def whole(text: bytes = body) -> object:
            return SERIALISE(study_managed_charging(VALIDATE(strict_json.parse(text))), by_alias=True)

        def computation(asked: ManagedChargingRequest = question) -> object:
            return computed(asked)

        computation_ms, whole_ms = median_ms(computation, rounds), median_ms(whole, rounds)
        figures[name] = round(computation_ms, 1)
        print(
            f"{name:32} computation {computation_ms:8.1f} ms, whole answer {whole_ms:8.1f} ms; "
            f"{smallest.settings_tried} settings tried, smallest {smallest.control_setting_a} A at a resolution of "
            f"{smallest.resolution_a:g} A; request {len(body)} bytes, answer {len(whole())} bytes"
        )
    verdict = "within" if figures["one vehicle"] <= MOST_MS else "MORE THAN"
    print(f"one vehicle: {figures['one vehicle']} ms, {verdict} {MOST_MS:g} ms")
    print(json.dumps({"managed_charging_ms": figures}))


if __name__ == "__main__":
    main()
