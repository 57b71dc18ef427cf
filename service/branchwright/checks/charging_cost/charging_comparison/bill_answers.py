"""The bills in the answer of a comparison: month by month, and the one month that is worked out."""

from dataclasses import dataclass
from typing import Annotated, Literal, TypeAlias

from pydantic import Field

from branchwright.findings.open_enums import open_enum
from branchwright.questions.money_fields import Money

Account: TypeAlias = Literal["house", "charging"]

ACCOUNT = "house: the house's meter, which bills the vehicle too where there is no other. charging: the vehicle's own."


@dataclass(slots=True)
class ComparedLine:
    """One line of a bill."""

    account: Annotated[str, open_enum(Account, ACCOUNT)]
    kind: Annotated[
        str,
        Field(
            description="What it is for, by the words of tariff reviews; meter for the meter's own charge."
        ),
    ]
    name: str
    season: str | None
    period: str | None
    tier: Annotated[int | None, Field(description="Place of the tier, from 0.")]
    quantity: Annotated[Money, Field(description="What is billed, in `unit`.")]
    unit: Annotated[str, Field(description="Unit of the quantity, such as kWh, kW, day or month.")]
    rate: Annotated[
        Money, Field(description="Price of one unit; percent of the quantity where its unit is money.")
    ]
    amount: Money


@dataclass(slots=True)
class ComparedMonth:
    """The bills of one month, all accounts together."""

    month: Annotated[str, Field(description="YYYY-MM.")]
    lines: list[ComparedLine]
    total: Money


@dataclass(slots=True)
class PeriodEnergy:
    """Net energy of one period on one date, through one meter."""

    account: Annotated[str, open_enum(Account, ACCOUNT)]
    season: str | None
    period: str
    taken_kwh: Annotated[float, Field(description="From the grid, kWh.")]
    delivered_kwh: Annotated[float, Field(description="To the grid, kWh.")]


@dataclass(slots=True)
class WorkedDay:
    """The energy of one date by period."""

    date: str
    kwh_by_period: list[PeriodEnergy]


@dataclass(slots=True)
class WorkedMonth:
    """The month whose bill the steps work out: energy day by day, then the lines."""

    option: Annotated[int, Field(description="Rank of the option whose bill it is.")]
    month: Annotated[str, Field(description="YYYY-MM.")]
    days: list[WorkedDay]
    lines: list[ComparedLine]
    total: Money
