"""What a job costs by its charging current: from the low total to the high one, and where most draws lie."""

import json
import re
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from branchwright.jobs.installation import InstallationEstimateRequest, estimate_installation
from page_parts.markdown import blocks, table
from page_parts.pictures.drawing import Drawing, Scale

GUIDE = Path(__file__).parents[2] / "pages" / "guides" / "installation-estimates.md"
CURRENTS_A = (16, 24, 32, 40, 48, 64)


@dataclass(frozen=True)
class Spread:
    """The total of one job in the book's currency: low, P10, P50, likely, P90, high."""

    current_a: int
    low: float
    p10: float
    p50: float
    likely: float
    p90: float
    high: float


@cache
def request() -> dict[str, Any]:
    """Return the guide's own request."""
    (text,) = re.findall(r'^```json title="job\.json"\n(.*?)^```$', GUIDE.read_text("utf-8"), re.M | re.S)
    return dict(json.loads(text))


def asked(current_a: int) -> dict[str, Any]:
    """Return the guide's request for another charging current, priced by the demo book and table."""
    own = {"price_book", "labour_table"}
    job = {name: stated for name, stated in request().items() if name not in own}
    charger = {**job["circuit"]["charger"], "charging_current_a": current_a, "rated_current_a": current_a}
    return {**job, "circuit": {**job["circuit"], "charger": charger}}


@cache
def numbers() -> tuple[Spread, ...]:
    """Return the totals as the engine estimates them."""
    found = []
    for current_a in CURRENTS_A:
        answer = estimate_installation(
            InstallationEstimateRequest.model_validate_json(json.dumps(asked(current_a)))
        )
        if answer.totals is None or answer.risk is None or not answer.totals.is_complete:
            raise ValueError(f"The job at {current_a} A is not wholly priced.")
        total, risk = answer.totals.total, answer.risk
        amounts = (total.low, risk.p10, risk.p50, total.likely, risk.p90, total.high)
        found.append(Spread(current_a, *map(float, amounts)))
    return tuple(found)


def picture() -> str:
    """Return the picture, and its numbers as a table."""
    shown = numbers()
    drawing = Drawing(
        "estimate-spread",
        680,
        384,
        "What the same run costs at six charging currents, and how far the total is spread",
        "A bar for each current from 16 A to 64 A: a thin line from the low total to the high one, a box in which "
        "eight of ten draws lie, and a dot at the one in the middle. The table below has the numbers.",
    )
    left, right, top, bottom = 60, 660, 40, 310
    greatest = 500 * (int(max(spread.high for spread in shown) / 500) + 1)
    across = Scale(0, greatest, left, right)
    drawing.across(across, bottom, range(0, greatest + 1, 500), "total of the job, USD")
    for row, spread in enumerate(shown):
        y = top + 22 + 44 * row
        drawing.words(left - 8, y, f"{spread.current_a} A", "end")
        drawing.line(across(spread.low), y, across(spread.high), y, "axis")
        drawing.box(across(spread.p10), y - 12, across(spread.p90) - across(spread.p10), 24, "band band-1")
        drawing.dot(across(spread.p50), y, "mark mark-2")
    first = shown[0]
    drawing.words(across(first.low) - 6, top + 22, "low", "end")
    drawing.words(across(first.p50), top, "eight of ten draws", "middle")
    drawing.words(across(first.high) + 6, top + 22, "high")
    return blocks(
        drawing.svg(),
        table(
            ("charging current", "low", "P10", "P50", "likely", "P90", "high"),
            [
                (
                    f"{spread.current_a} A",
                    *(
                        f"{amount:.2f}"
                        for amount in (
                            spread.low,
                            spread.p10,
                            spread.p50,
                            spread.likely,
                            spread.p90,
                            spread.high,
                        )
                    ),
                )
                for spread in shown
            ],
        ),
    )
