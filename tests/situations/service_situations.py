"""What the situations about a dwelling's load and about a service's capacity expect, compared with the answers.

A `load` has the request of a load calculation. Expected are, beside verdict, findings, steps and interpretations:

- `expect.methods.<method>`: permitted, total_va, current_a, neutral_va and the other figures of that method
- `expect.methods.<method>.groups.<group>`: what the lines of a group come to, VA

A `capacity` has the request of a capacity review. Expected are, beside the same:

- `expect.capacity.<JSON pointer into the capacity>`
- `expect.ways.<way>`: charging_current_a, upgrade_to_a; `expect.ways_in_order`: all of them, cheapest first
"""

from typing import Any

from tests.checks.circuits import Json
from tests.checks.replay import at_pointer
from tests.checks.service_capacity import capacity_requests, dwellings
from tests.checks.service_capacity.services import by_group, by_method

ASKED = {"load": dwellings.calculated, "capacity": capacity_requests.reviewed}
EXPECTED = {
    "load": {"verdict", "findings", "steps", "interpretations", "within", "methods"},
    "capacity": {
        "verdict",
        "findings",
        "steps",
        "interpretations",
        "within",
        "capacity",
        "ways",
        "ways_in_order",
    },
}


def figures(answer: Json, expected: Json) -> list[tuple[str, Any, Any]]:
    """Return name, found and expected of every figure that is expected of loads and capacities."""
    pairs: list[tuple[str, Any, Any]] = []
    for method, wanted in expected.get("methods", {}).items():
        found = by_method(answer)[method]
        groups = by_group(found)
        pairs += [
            (f"{method} {name}", found[name], value) for name, value in wanted.items() if name != "groups"
        ]
        pairs += [
            (f"{method} {group}", groups.get(group), value)
            for group, value in wanted.get("groups", {}).items()
        ]
    pairs += [
        (pointer, at_pointer(answer["capacity"], pointer), value)
        for pointer, value in expected.get("capacity", {}).items()
    ]
    if "ways" in expected or "ways_in_order" in expected:
        ways = {way["way"]: way for way in answer["capacity"]["ways_to_fit"]}
        pairs += [
            (f"{way} {name}", ways.get(way, {}).get(name), value)
            for way, wanted in expected.get("ways", {}).items()
            for name, value in wanted.items()
        ]
        pairs.append(("ways", list(ways), expected.get("ways_in_order", list(ways))))
    return pairs
