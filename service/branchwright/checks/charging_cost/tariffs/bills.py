"""Bills: the lines of a month, the months of a year."""

from dataclasses import dataclass
from decimal import Decimal
from typing import Literal, TypeAlias

BilledKind: TypeAlias = Literal[
    "energy",
    "all-energy",
    "critical-peak",
    "export",
    "demand",
    "fixed",
    "credit",
    "rider",
    "minimum-bill",
    "tax",
    "meter",
]
"""What a line is for, in the order of the bill; all-energy are tiers on all energy, meter is a meter's own charge."""


class UnpriceableError(ValueError):
    """A tariff that leaves an hour of the year without a price, or prices one twice: no bill can be made of it."""


@dataclass(slots=True, frozen=True)
class BillLine:
    """One line of a bill.

    The amount is quantity x rate; where the unit of the quantity is money, the rate is in percent of it. `tier` is
    the place of the tier from 0, where there are several. `place` is the JSON pointer of the rate within the tariff.
    """

    kind: BilledKind
    name: str
    season: str | None
    period: str | None
    tier: int | None
    quantity: Decimal
    unit: str
    rate: Decimal
    amount: Decimal
    place: str


@dataclass(slots=True, frozen=True)
class MonthBill:
    """The bill of one calendar month, YYYY-MM; the total is rounded, and the sum of its lines where they are."""

    month: str
    lines: list[BillLine]
    total: Decimal


@dataclass(slots=True, frozen=True)
class YearBill:
    """Twelve bills, and the greatest average power of one interval that the meter took from the grid, in kW."""

    months: list[MonthBill]
    total: Decimal
    greatest_demand_kw: float
