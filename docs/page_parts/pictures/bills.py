"""The bills of a year side by side: what each option of a comparison comes to, by kind of charge."""

from dataclasses import dataclass
from decimal import Decimal
from functools import cache

from page_parts.markdown import blocks, table
from page_parts.pictures import compared_bills
from page_parts.pictures.drawing import Drawing, Scale

PARTS = {
    "energy": "energy",
    "fixed": "fixed and meter",
    "meter": "fixed and meter",
    "rider": "riders and taxes",
    "tax": "riders and taxes",
}
"""What each kind of line is called here, as far as the tariffs of the guide have it."""


@dataclass(frozen=True)
class Bills:
    """What house and vehicle pay in a year by one option, in the tariffs' currency, in parts."""

    rank: int
    name: str
    parts: dict[str, Decimal]
    total: Decimal
    charging: Decimal


@cache
def numbers() -> tuple[Bills, ...]:
    """Return the options in the order of their rank, as the engine prices them."""
    found = []
    for option in compared_bills.answer().options:
        parts = dict.fromkeys(PARTS.values(), Decimal(0))
        for month in option.months:
            for line in month.lines:
                parts[PARTS[line.kind]] += line.amount
        schedule = option.schedule.name or option.schedule.kind
        found.append(
            Bills(
                option.rank,
                f"{option.tariff}, {schedule}",
                parts,
                option.annual.with_charging,
                option.annual.charging,
            )
        )
    return tuple(found)


def house_alone() -> Decimal:
    """Return what the house alone pays in a year today."""
    return compared_bills.answer().options[0].annual.without_charging


def picture() -> str:
    """Return the picture, and its numbers as a table."""
    shown = numbers()
    currency = compared_bills.answer().currency
    alone = house_alone()
    height = 30
    left, right, top = 210, 610, 70
    bottom = top + height * len(shown) + 8
    drawing = Drawing(
        "bills",
        680,
        bottom + 52,
        "Bills of a year by tariff and schedule, house and vehicle together",
        "One bar for each option, the cheapest on top, in three parts: energy, fixed charges with the meter's own, and "
        f"riders with taxes. An upright line at {alone} {currency} is what the house alone pays today. The table "
        "below has the parts.",
    )
    greatest = 400 * (int(max(bills.total for bills in shown) / 400) + 1)
    across = Scale(0, greatest, left, right)
    drawing.across(across, bottom, range(0, greatest + 1, 400), f"a year, {currency}")
    for row, bills in enumerate(shown):
        y = top + 4 + height * row
        drawing.words(left - 8, y + 11, bills.name, "end")
        begun = 0.0
        for place, amount in enumerate(bills.parts.values(), start=1):
            start, end = across(begun), across(begun + float(amount))
            drawing.box(start, y, end - start, 22, f"part part-{place}")
            begun += float(amount)
        drawing.words(across(begun) + 6, y + 11, f"{bills.total}")
    x = across(float(alone))
    drawing.line(x, top - 8, x, bottom, "limit")
    drawing.words(x, top - 18, f"the house alone, {alone}", "middle", "words limit-name")
    x = 8.0
    for place, name in enumerate(shown[0].parts, start=1):
        drawing.box(x, 8, 16, 16, f"part part-{place}")
        drawing.words(x + 22, 16, name)
        x += 60 + 8.2 * len(name)
    return blocks(
        drawing.svg(),
        table(
            (
                "rank",
                "tariff and schedule",
                *(f"{name}, {currency}" for name in shown[0].parts),
                f"all bills, {currency}",
                f"charging, {currency}",
            ),
            [
                (
                    str(bills.rank),
                    bills.name,
                    *(str(amount) for amount in bills.parts.values()),
                    str(bills.total),
                    str(bills.charging),
                )
                for bills in shown
            ],
        ),
    )
