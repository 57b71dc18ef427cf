"""The price of a kWh by month and hour of the clock, as a review finds it: the fuller the colour, the dearer."""

import json
import re
from dataclasses import dataclass
from functools import cache
from itertools import groupby
from pathlib import Path
from typing import Any

from branchwright.checks.charging_cost.tariffs import TariffReviewRequest, review_tariff
from page_parts.markdown import blocks, table
from page_parts.pictures.drawing import Drawing, Scale

GUIDE = Path(__file__).parents[2] / "pages" / "guides" / "tariffs.md"
SHADES = 5
HOURS = 24


@dataclass(frozen=True)
class Heat:
    """Mean prices by month, 24 of each, per kWh in the tariff's currency, with riders and taxes."""

    currency: str
    months: dict[str, tuple[float, ...]]

    @property
    def limits(self) -> tuple[float, ...]:
        """Return where the shades begin and end, from the least price to the greatest."""
        prices = [price for month in self.months.values() for price in month]
        least, width = min(prices), (max(prices) - min(prices)) / SHADES
        return tuple(least + place * width for place in range(SHADES + 1))

    def shade(self, price: float) -> int:
        """Return the shade of a price: how many shades begin at or below it, less one."""
        return sum(price >= limit for limit in self.limits[1:-1])


@cache
def request() -> dict[str, Any]:
    """Return the guide's own request."""
    (text,) = re.findall(r'^```json title="tariff\.json"\n(.*?)^```$', GUIDE.read_text("utf-8"), re.M | re.S)
    return dict(json.loads(text))


@cache
def numbers() -> Heat:
    """Return the prices as the engine reviews them."""
    asked = TariffReviewRequest.model_validate_json(json.dumps(request()))
    answer = review_tariff(asked)
    if not answer.price_by_month_and_hour:
        raise ValueError("Nothing was priced.")
    return Heat(
        asked.tariff.currency,
        {month.month: tuple(map(float, month.per_kwh)) for month in answer.price_by_month_and_hour},
    )


def picture() -> str:
    """Return the picture, and its numbers as a table."""
    shown = numbers()
    limits = shown.limits
    drawing = Drawing(
        "price-heat",
        680,
        440,
        "Mean price of a kWh by month and by hour of the clock",
        f"Twelve rows of 24 boxes in {SHADES} shades, from {limits[0]:.3f} to {limits[-1]:.3f} {shown.currency} a kWh; "
        "the fuller the colour, the dearer. Afternoons and evenings of the summer months are fullest, evenings of the "
        "others less so. The table below has the price of every hour.",
    )
    left, right, top, bottom = 76, 660, 52, 340
    across = Scale(0, HOURS, left, right)
    down = Scale(0, len(shown.months), top, bottom)
    drawing.words(4, top - 24, "month", "start", "axis-title")
    for row, (month, prices) in enumerate(shown.months.items()):
        drawing.words(left - 10, down(row + 0.5), month, "end")
        for hour, price in enumerate(prices):
            drawing.box(
                across(hour),
                down(row),
                across(1) - across(0),
                down(1) - down(0),
                f"heat heat-{shown.shade(price)}",
            )
    drawing.across(across, bottom, range(0, HOURS + 1, 3), "hour of the local clock, h")
    wide = (right - left) / SHADES
    drawing.words(4, bottom + 76, f"{shown.currency}/kWh", "start", "axis-title")
    for place in range(SHADES):
        x = left + place * wide
        drawing.box(x, bottom + 66, 20, 20, f"heat heat-{place}")
        drawing.words(x + 26, bottom + 76, f"{limits[place]:.3f}-{limits[place + 1]:.3f}")
    return blocks(
        drawing.svg(),
        table(
            ("month", f"mean price from 00:00 on, {shown.currency} a kWh"),
            [(month, in_words(prices)) for month, prices in shown.months.items()],
        ),
    )


def in_words(prices: tuple[float, ...]) -> str:
    """Return the prices of a day as stretches of hours alike."""
    stretches = []
    hour = 0
    for price, alike in groupby(prices):
        hour += len(list(alike))
        stretches.append(f"{price:.4f} until {hour:02d}:00")
    return ", ".join(stretches)
