"""Ten thousand distinct requests for circuit designs, such as installers would send; the same at every run.

The other benchmarks import this. To see what it makes, from the root of the repository:

    python tests/benchmarks/circuit_requests.py --show 2

prints how often each trait occurs and two requests.
"""

import argparse
import json
from collections import Counter
from collections.abc import Iterator
from random import Random
from typing import Any

Request = dict[str, Any]

SEED = 625
COUNT = 10_000
# Settings of common chargers; common practice, no source.
HARDWIRED_A = (16, 20, 24, 28, 32, 36, 40, 44, 48, 56, 60, 64, 72, 80)
PLUGGED_A = (16, 24, 28, 32, 36, 40)
EDITIONS = ("nec-2017", "nec-2020", "nec-2023", "nec-2026")
RACEWAYS = ("emt", "emt", "imc", "rmc", "pvc-40", "pvc-80", "fmc", "lfmc", "lfnc-b")
OUTDOORS = ("emt", "imc", "rmc", "pvc-40", "pvc-80", "lfmc", "lfnc-b")
BURIED = ("pvc-40", "pvc-80", "rmc", "uf-b")
CABLES = ("nm-b", "nm-b", "nm-b", "se", "mc", "ac", "uf-b")
INSULATIONS = ("THWN-2", "THWN-2", "THWN-2", "XHHW-2", "THW-2", "RHW-2", "THWN", "THW")
POINTS = ("disconnect", "disconnect", "meter-socket", "submeter", "splice")
BREAKERS_A = (15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100)


def terminals(random: Random, current_a: float, *, lowest: int = 60) -> Request | None:
    """What is marked at the terminals of a device for this current; now and then nobody has looked."""
    if random.random() < 0.08:
        return None
    found: Request = {
        "temperature_rating_c": random.choice(
            [rating for rating in (60, 75, 75, 75, 90) if rating >= lowest]
        ),
        "materials": ["copper"] if random.random() < 0.12 else ["copper", "aluminum"],
    }
    if random.random() < 0.7:
        large = current_a > 40
        found |= {
            "smallest": random.choice(("14 AWG", "12 AWG", "10 AWG") if large else ("14 AWG", "12 AWG")),
            "largest": random.choice(
                ("2 AWG", "1/0 AWG", "250 kcmil") if large else ("4 AWG", "2 AWG", "1 AWG")
            ),
        }
    if random.random() < 0.7:
        found["torque"] = random.choice(
            ({"value": 45, "unit": "lbf-in"}, {"value": 50, "unit": "lbf-in"}, {"value": 5.6, "unit": "N-m"})
        )
    return found


def segment(random: Random, *, outdoors: bool, cable: bool) -> Request:
    """One part of a run."""
    metric = random.random() < 0.15
    feet = round(random.lognormvariate(3.0, 0.8) + 1, 1)
    found: Request = {
        "wiring_method": random.choice(CABLES if cable else OUTDOORS if outdoors else RACEWAYS),
        "length": {"value": round(feet * 0.3048, 2), "unit": "m"}
        if metric
        else {"value": feet, "unit": "ft"},
    }
    if random.random() < 0.95:
        found["location"] = (
            "dry" if cable else random.choice(("wet", "damp") if outdoors else ("dry", "damp"))
        )
    if random.random() < 0.8:
        found["ambient_c"] = random.choice((26, 30, 30, 33, 35, 38, 40, 43, 45))
    if random.random() < 0.15:
        others = random.choice((1, 2, 3, 4, 6))
        found["other_current_carrying_conductors"] = others
        if not cable:
            found["other_conductors_area_in2"] = round(0.0211 * others, 4)
    if outdoors and not cable and random.random() < 0.08:
        found["rooftop_clearance"] = {"value": random.choice((0.5, 0.8, 2, 4)), "unit": "in"}
    if cable and random.random() < 0.5:
        found["cable"] = {"grounding_size": random.choice(("10 AWG", "10 AWG", "8 AWG"))}
    if cable and random.random() < 0.3:
        found["in_thermal_insulation"] = random.random() < 0.5
        found["bundled_cables"] = random.choice((1, 2, 3))
    if outdoors and not cable and random.random() < 0.15:
        found["wiring_method"] = random.choice(BURIED)
        found["underground"] = {"under": random.choice(("soil", "soil", "dwelling-driveway"))}
    return found


def design_request(random: Random) -> Request:
    """One request: a charger, how it is connected, and the way to it."""
    location = random.choice(("outdoors", "garage", "garage", "indoors", "accessory-building"))
    plugged = random.random() < 0.3
    current = random.choice(PLUGGED_A if plugged else HARDWIRED_A)
    charger: Request = {"charging_current_a": current}
    if random.random() < 0.9:
        charger["rated_current_a"] = random.choice((current, current, max(current, 48), max(current, 80)))
        charger["setting_access"] = random.choice(("restricted", "restricted", "unrestricted"))
    if plugged:
        charger["connection"] = {
            "kind": "receptacle",
            "configuration": "10-50"
            if random.random() < 0.04
            else random.choice(
                ("14-50", "14-50", "6-50") if current > 24 else ("14-50", "14-30", "6-30", "6-20")
            ),
            "listed_for_ev_charging": random.choice((True, True, False, None)),
            "terminals": terminals(random, current),
        }
    else:
        charger["connection"] = {"kind": "hardwired"}
        charger["uses_neutral"] = random.random() < 0.2
        charger["terminals"] = terminals(random, current)
        if random.random() < 0.4:
            charger["markings"] = {
                "greatest_overcurrent_device_a": next(
                    rating
                    for rating in BREAKERS_A
                    if rating >= 1.25 * charger.get("rated_current_a", current)
                ),
                "forbids_gfci_breaker": random.random() < 0.2,
            }
    cable_first = location != "outdoors" and random.random() < 0.4
    segments = random.choice((1, 1, 2, 2, 3, 4))
    run = [
        segment(
            random,
            outdoors=location == "outdoors" and index == segments - 1,
            cable=cable_first and (index == 0 or random.random() < 0.6),
        )
        for index in range(segments)
    ]
    system = random.choice(("split-phase-120-240", "split-phase-120-240", "wye-208y-120"))
    request: Request = {
        "edition": random.choice(EDITIONS),
        "premises": {
            "occupancy": random.choice(("one-family", "one-family", "two-family", "multifamily", "other")),
            "charger_location": location,
        },
        "supply": {
            "system": system,
            "phases": 3 if system == "wye-208y-120" and not plugged and random.random() < 0.4 else 1,
        },
        "charger": charger,
        "breaker": {
            "terminals": terminals(random, current),
            "listed_for_panel": random.choice((True, True, True, None)),
        },
        "conductors": {
            "material": random.choice(("copper", "copper", "copper", "aluminum")),
            "insulation": random.choice(INSULATIONS),
        },
        "run": run,
    }
    if random.random() < 0.35:
        request["points"] = [
            point(random, current, random.randrange(segments)) for _ in range(random.choice((1, 1, 2)))
        ]
    if random.random() < 0.6:
        request["targets"] = {"voltage_drop_percent": random.choice((2, 3, 3, 5))}
    return request


def point(random: Random, current_a: float, after_segment: int) -> Request:
    """A device or splice on the run."""
    found: Request = {
        "after_segment": after_segment,
        "kind": random.choice(POINTS),
        "terminals": terminals(random, current_a, lowest=75),
    }
    if found["kind"] != "splice":
        found["rating_a"] = random.choice((60, 100, 200) if current_a <= 48 else (100, 200))
    return found


def design_requests(count: int = COUNT, seed: int = SEED) -> list[Request]:
    """``count`` requests of which no two are equal."""
    random = Random(seed)  # noqa: S311
    found: dict[str, Request] = {}
    while len(found) < count:
        request = design_request(random)
        found.setdefault(json.dumps(request, sort_keys=True), request)
    return list(found.values())


def bodies(count: int = COUNT, seed: int = SEED) -> list[bytes]:
    """The same requests as JSON texts."""
    return [json.dumps(request, separators=(",", ":")).encode() for request in design_requests(count, seed)]


def traits(requests: list[Request]) -> Iterator[str]:
    """What is counted of each request."""
    for request in requests:
        yield f"edition: {request['edition']}"
        yield f"connection: {request['charger']['connection']['kind']}"
        yield f"material: {request['conductors']['material']}"
        yield f"system: {request['supply']['system']}"
        yield f"segments: {len(request['run'])}"
        yield f"points: {len(request.get('points', []))}"
        yield from {f"wiring method: {part['wiring_method']}" for part in request["run"]}


def main() -> None:
    """Print the traits of the requests and as many of the requests as asked for."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--count", type=int, default=COUNT)
    parser.add_argument("--show", type=int, default=0, metavar="N", help="print the first N requests")
    options = parser.parse_args()
    requests = design_requests(options.count)
    size = sum(map(len, bodies(options.count))) / len(requests)
    print(f"{len(requests)} distinct requests, {size:.0f} bytes each on average")
    for trait, count in sorted(Counter(traits(requests)).items()):
        print(f"{trait:35} {count / len(requests):6.1%}")
    for request in requests[: options.show]:
        print(json.dumps(request, indent=1))


if __name__ == "__main__":
    main()
