"""What each method makes of the same dwelling: its demands side by side, against the rating of its service."""

import json
import re
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from branchwright.checks.service_capacity.dwelling_load import LoadCalculationRequest, calculate_load
from page_parts.markdown import blocks, table
from page_parts.pictures.drawing import Drawing, Scale

GUIDE = Path(__file__).parents[2] / "pages" / "guides" / "load-calculations.md"
VOLTAGE_V = 240
GROUPS = {
    "lighting": "general",
    "cooking": "cooking",
    "dryers": "appliances",
    "appliances": "appliances",
    "cooling": "cooling",
    "largest-motor": "cooling",
    "chargers": "charger",
}
"""Groups of the lines by what they are called here; those that have the same name are drawn as one."""


@dataclass(frozen=True)
class Method:
    """A method: its demands in VA by name, in the order of its lines, and the least service rating in A."""

    name: str
    demands_va: dict[str, float]
    total_va: float
    least_service_a: float


@cache
def request() -> dict[str, Any]:
    """Return the guide's own request."""
    (text,) = re.findall(r'^```json title="house\.json"\n(.*?)^```$', GUIDE.read_text("utf-8"), re.M | re.S)
    return dict(json.loads(text))


@cache
def numbers() -> tuple[Method, ...]:
    """Return what the engine calculates by each method."""
    found = []
    for load in calculate_load(LoadCalculationRequest.model_validate(request())).methods:
        demands: dict[str, float] = {}
        pooled = 0
        for line in load.lines:
            name = GROUPS.get(line.group)
            if name is None:
                name = ("pool in full", "rest of pool")[pooled]
                pooled += 1
            demands[name] = demands.get(name, 0.0) + line.demand_va
        if load.total_va is None or load.least_service_rating_a is None:
            raise ValueError(f"The {load.method} method has no total.")
        found.append(Method(load.method, demands, load.total_va, load.least_service_rating_a))
    return tuple(found)


def picture() -> str:
    """Return the picture, and its numbers as a table."""
    shown = numbers()
    service_a = float(request()["service"]["rating_a"])
    drawing = Drawing(
        "load-methods",
        680,
        300,
        "The load of one dwelling by three methods, against its service",
        "Three bars, one for each method, in parts: "
        + "; ".join(f"{method.name} {method.total_va:.0f} VA" for method in shown)
        + f". An upright line at {service_a:g} A is what the service carries, and every bar passes it. The table below "
        "has the parts.",
    )
    left, right, top, bottom = 150, 666, 52, 230
    across = Scale(0, 45, left, right)
    drawing.across(across, bottom, range(0, 46, 5), "demand, kVA")
    for row, method in enumerate(shown):
        y = top + 8 + 56 * row
        drawing.words(left - 8, y + 18, method.name, "end")
        begun = 0.0
        for place, (name, demand_va) in enumerate(method.demands_va.items()):
            start, end = across(begun / 1000), across((begun + demand_va) / 1000)
            kind = "band band-2" if name == "charger" else f"band band-{place % 2}"
            drawing.box(start, y, end - start, 36, kind)
            drawing.words((start + end) / 2, y + 18, name, "middle")
            begun += demand_va
    x = across(service_a * VOLTAGE_V / 1000)
    drawing.line(x, top - 8, x, bottom, "limit")
    drawing.words(x, top - 20, f"service, {service_a:g} A", "middle", "words limit-name")
    names = list(dict.fromkeys(name for method in shown for name in method.demands_va))
    return blocks(
        drawing.svg(),
        table(
            ("method", *(f"{name}, VA" for name in names), "sum, VA", "least service"),
            [
                (
                    method.name,
                    *(
                        f"{method.demands_va[name]:.0f}" if name in method.demands_va else ""
                        for name in names
                    ),
                    f"{method.total_va:.0f}",
                    f"{method.least_service_a:g} A",
                )
                for method in shown
            ],
        ),
    )
