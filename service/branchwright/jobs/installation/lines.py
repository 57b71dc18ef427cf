"""A line of an estimate with its quantity, and what sums and draws need of it."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from decimal import Context, Decimal
from typing import Final, Literal, TypeAlias

from branchwright.calculations.take_off import bought_pieces_count, sticks_count
from branchwright.findings import StepInput
from branchwright.jobs.installation.answers import EstimateLine, MoneyRange
from branchwright.jobs.installation.job import Finish, Job, Need
from branchwright.jobs.installation.price_keys import Measure
from branchwright.jobs.installation.units import STICKS, length_in, road_in
from branchwright.quantities.money import rounded

End: TypeAlias = Literal["low", "likely", "high"]

ENDS: Final[tuple[End, ...]] = ("low", "likely", "high")
ROOMY: Final = Context(prec=80)
"""Holds every product of the digits that a request may state."""

TIE: Final = "0.00000001"
"""Added in steps before rounding, so that a half goes up also where a binary fraction falls short of it."""

MEASURES: Final[dict[Finish, Measure]] = {
    "count": "count",
    "pieces": "count",
    "length": "length",
    "sticks": "length",
    "road": "road",
}
CHARGERS: Final = "charger/"


@dataclass(slots=True)
class PricedLine:
    """A line with its steps: their names begin with `step`, and hours and amounts are inputs of later ones."""

    line: EstimateLine
    step: str
    hours: dict[End, StepInput] = field(default_factory=dict["End", StepInput])
    amounts: dict[End, StepInput] = field(default_factory=dict["End", StepInput])

    @property
    def bears_consumables(self) -> bool:
        """Whether small parts are reckoned on it: on material save a charger."""
        return self.line.group == "material" and not (self.line.key or "").startswith(CHARGERS)


def as_decimal(figure: float) -> Decimal:
    """Return a rounded figure as the decimal that it is printed as.

    >>> as_decimal(0.1) * 3
    Decimal('0.3')
    """
    return Decimal(repr(figure))


def quantity_of(job: Job, step: str, needs: Sequence[Need], unit: str) -> StepInput:
    """Enter how much of a unit some needs of one key come to, with waste and in whole sticks where they have them."""
    first, name = needs[0], f"{step}-quantity"
    needed = job.total(
        f"{step}-needed", "needed together", [need.amount for need in needs], first.amount.unit
    )
    if first.finish == "pieces":
        inputs = {"built_in": needed, "waste_percent": job.percent("fittings")}
        return job.ledger.add(bought_pieces_count.step(name, inputs, None))
    if first.finish == "sticks" and unit in STICKS:
        inputs = {"bought_ft": needed, "stick_ft": job.stick_ft(first.key)}
        return job.ledger.add(sticks_count.step(name, inputs, None))
    if first.finish in ("length", "sticks"):
        return length_in(job.ledger, name, needed, unit)
    return road_in(job.ledger, name, needed, unit) if first.finish == "road" else needed


def line_of(needs: Sequence[Need], quantity: StepInput, unit: str) -> EstimateLine:
    """Return the line of some needs of one key, without prices."""
    first = needs[0]
    return EstimateLine(
        item=first.item if first.condition is None else f"{first.item}, {first.condition}",
        group=first.group,
        key=first.key,
        quantity=float(quantity.value),
        unit=unit,
        why="; ".join(dict.fromkeys(need.why for need in needs)),
        hours=None,
        unit_price=None,
        amount=None,
        rests_on=list(dict.fromkeys(place for need in needs for place in need.rests_on)),
    )


def product(one: Decimal, other: Decimal, digits: int) -> Decimal:
    """Return a product of exact decimals, rounded half up once.

    >>> product(Decimal("3"), Decimal("0.335"), 2)
    Decimal('1.01')
    """
    return rounded(ROOMY.multiply(one, other), digits)


def range_of(amounts: dict[End, Decimal]) -> MoneyRange:
    """Return the three amounts as an answer shows them."""
    return MoneyRange(amounts["low"], amounts["likely"], amounts["high"])
