"""What a separate meter has saved after each year, against what it cost."""

from dataclasses import dataclass
from functools import cache

from page_parts.markdown import blocks, table
from page_parts.pictures import compared_bills
from page_parts.pictures.drawing import Drawing, Scale

NAMES = {
    "present-tariff": "the present tariff",
    "whole-house-repriced": "the best one for both",
}


@dataclass(frozen=True)
class Saved:
    """What the meter saves against one way to do without it: by the end of each year from 0 on, money.

    `worth_today` is the same with later savings discounted.
    """

    against: str
    annual: float
    saved: tuple[float, ...]
    worth_today: tuple[float, ...]
    payback_years: float | None
    net_present_value: float


@dataclass(frozen=True)
class PaidBack:
    """The cost of the meter and the savings against it."""

    cost: float
    years: int
    rate_percent: float
    savings: tuple[Saved, ...]


@cache
def numbers() -> PaidBack:
    """Return cost and savings as the engine finds them."""
    found = compared_bills.answer().separate_meter
    if found is None:
        raise ValueError("No separate meter was compared.")
    growth = 1 + found.discount_rate_percent / 100
    savings = []
    for each in found.against:
        annual = float(each.annual_saving)
        worth = [0.0]
        for year in range(1, found.years + 1):
            worth.append(worth[-1] + annual / growth**year)
        savings.append(
            Saved(
                NAMES[each.against],
                annual,
                tuple(annual * year for year in range(found.years + 1)),
                tuple(worth),
                each.payback_years,
                float(each.net_present_value),
            )
        )
    return PaidBack(float(found.installed_cost), found.years, found.discount_rate_percent, tuple(savings))


def picture() -> str:
    """Return the picture, and its numbers as a table."""
    shown = numbers()
    currency = compared_bills.answer().currency
    drawing = Drawing(
        "pay-back",
        680,
        420,
        "What a separate meter has saved after each year, against its installed cost",
        f"A level line at {shown.cost:.0f} {currency} is the cost. Two rising lines are the savings against two ways "
        "to do without the meter; a dot stands where each has brought back the cost. Broken lines below them are the "
        f"same savings discounted at {shown.rate_percent:g} percent a year: one that ends above the cost pays. "
        "The table below has the numbers.",
    )
    left, right, top, bottom = 52, 500, 48, 350
    greatest = 400 * (int(max(max(each.saved) for each in shown.savings) / 400) + 1)
    across = Scale(0, shown.years, left, right)
    up = Scale(0, greatest, bottom, top)
    drawing.upwards(up, left, right, range(0, greatest + 1, 400), f"saved, {currency}")
    drawing.across(across, bottom, range(shown.years + 1), "years")
    drawing.line(left, up(shown.cost), right, up(shown.cost), "limit")
    drawing.words(left + 8, up(shown.cost) - 10, f"installed cost, {shown.cost:.0f}", kind="words limit-name")
    for number, each in enumerate(shown.savings, start=1):
        drawing.path(
            [(across(year), up(saved)) for year, saved in enumerate(each.saved)], f"series series-{number}"
        )
        drawing.path(
            [(across(year), up(saved)) for year, saved in enumerate(each.worth_today)],
            f"series series-{number} discounted",
        )
        drawing.words(right + 8, up(each.saved[-1]), each.against, kind=f"words name-{number}")
        drawing.words(right + 8, up(each.worth_today[-1]), "discounted", kind=f"words name-{number}")
        if each.payback_years is not None and each.payback_years <= shown.years:
            drawing.dot(across(each.payback_years), up(shown.cost), f"mark mark-{number}")
    return blocks(
        drawing.svg(),
        table(
            (
                "against",
                f"saving a year, {currency}",
                "cost is back after",
                f"worth today, {currency}",
                f"net present value, {currency}",
            ),
            [
                (
                    each.against,
                    f"{each.annual:.2f}",
                    "never" if each.payback_years is None else f"{each.payback_years:.1f} years",
                    f"{each.worth_today[-1]:.2f}",
                    f"{each.net_present_value:.2f}",
                )
                for each in shown.savings
            ],
        ),
    )
