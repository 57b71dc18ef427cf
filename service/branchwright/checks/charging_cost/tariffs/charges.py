"""What a tariff charges in each month of a year, laid out once and applied to any load.

Every charge takes one of five forms: energy by tiers, a stated sum, demand, a percentage of other lines, or a
minimum of them.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Literal, TypeAlias

from branchwright.calculations.arrays import Flags
from branchwright.checks.charging_cost.tariffs.bills import BilledKind
from branchwright.checks.charging_cost.tariffs.price_facts import DemandCharge

Ends: TypeAlias = list[Decimal | None]


@dataclass(slots=True, frozen=True)
class StatedEnd:
    """Where a tier ends as the tariff states it, in kWh, and where that stands."""

    up_to_kwh: float
    place: str


@dataclass(slots=True, frozen=True)
class TierEnds:
    """Where tiers end: `of_month[month]` in kWh, None of an open one.

    `stated` is what the tariff says of each, `days[month]` how many days of how many of the month count; with
    `is_daily` so many kWh are meant for each day.
    """

    of_month: list[Ends]
    stated: list[StatedEnd | None]
    is_daily: bool
    days: list[tuple[int, int]]


@dataclass(slots=True, frozen=True)
class EnergyCharge:
    """A price of energy, by tiers or without.

    `of` says which energy: taken from the grid or delivered to it in the classes that `classes` marks, or taken in
    the added events of the place `group`, which is None of all others. `rates` are what a kWh costs in each tier,
    below zero where it is credited; `places` where the rates stand in the tariff.
    """

    kind: BilledKind
    name: str
    season: str | None
    period: str | None
    of: Literal["taken", "delivered", "added"]
    classes: Flags
    group: int | None
    ends: TierEnds
    rates: list[Decimal]
    places: list[str]


@dataclass(slots=True, frozen=True)
class StatedSum:
    """A sum that does not depend on use: `quantity[month]` months or days of it."""

    kind: BilledKind
    name: str
    season: str | None
    quantity: list[Decimal]
    unit: str
    rate: Decimal
    place: str
    arrangements: Sequence[str] | None


@dataclass(slots=True, frozen=True)
class Demand:
    """A price of demand: `share[month]` is the part of the month that it covers."""

    charge: DemandCharge
    share: list[Decimal]
    place: str


@dataclass(slots=True, frozen=True)
class Percentage:
    """A percentage of the lines of some kinds, None of all before it; `share[month]` is the part of the month."""

    kind: BilledKind
    name: str
    season: str | None
    of: frozenset[BilledKind] | None
    share: list[Decimal]
    percent: Decimal
    place: str


@dataclass(slots=True, frozen=True)
class Minimum:
    """The least that lines of some kinds come to: `quantity[month]` months or days of its amount."""

    of: frozenset[BilledKind]
    quantity: list[Decimal]
    unit: str
    amount: Decimal
    place: str


Charge: TypeAlias = EnergyCharge | StatedSum | Demand | Percentage | Minimum

HUNDRED = Decimal(100)


def factor_of(percentages: Sequence[Percentage], kind: BilledKind, month: int) -> Decimal:
    """Return what a line of one kind comes to with riders and taxes in percent of it, as a multiple of it."""
    with_riders, with_taxes, on_all = Decimal(1), Decimal(0), Decimal(0)
    for each in percentages:
        share = each.percent * each.share[month] / HUNDRED
        if each.of is None:
            # A tax on the whole bill; it is taken of no other tax.
            on_all += share if kind != "tax" else 0
        elif kind in each.of:
            if each.kind == "tax":
                with_taxes += share
            else:
                with_riders += share
    return with_riders * (1 + on_all) + with_taxes


COUNTED: dict[str, tuple[BilledKind, ...]] = {
    "energy": ("energy", "all-energy", "critical-peak", "export"),
    "demand": ("demand",),
    "fixed": ("fixed",),
    "credits": ("credit",),
    "riders": ("rider",),
}
"""The kinds of lines that each word of a minimum bill counts."""

CHARGED: dict[str, tuple[BilledKind, ...]] = {
    "energy": ("energy", "all-energy"),
    "critical-peak": ("critical-peak",),
    "demand": ("demand",),
    "fixed": ("fixed",),
}
"""The kinds of lines that each word of a rider in percent is taken of."""
