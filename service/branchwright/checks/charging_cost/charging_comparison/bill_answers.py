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
    """Net energy of one price on one date through one meter, as it was summed, without rounding."""

    account: Annotated[str, open_enum(Account, ACCOUNT)]
    season: Annotated[str | None, Field(description="As the energy rate states it.")]
    period: str
    critical_peak: Annotated[
        str | None,
        open_enum(
            Literal["added", "instead"],
            "How a critical-peak event of these hours meets the price; null where there is none.",
        ),
    ]
    taken_kwh: Annotated[float, Field(description="From the grid, kWh.")]
    delivered_kwh: Annotated[float, Field(description="To the grid, kWh.")]


@dataclass(slots=True)
class WorkedDay:
    """The energy of one date by period; what is nothing is left out."""

    date: str
    kwh_by_period: list[PeriodEnergy]


@dataclass(slots=True)
class MonthDemand:
    """The demand that was measured in one month."""

    month: Annotated[str, Field(description="YYYY-MM.")]
    kw: float


@dataclass(slots=True)
class WorkedDemand:
    """What a demand charge measured."""

    account: Annotated[str, open_enum(Account, ACCOUNT)]
    name: str
    months: Annotated[
        list[MonthDemand],
        Field(
            description="The month of the bill, then those before it that a ratchet looks at, latest first."
        ),
    ]


@dataclass(slots=True)
class WorkedBillAnswer:
    """The month whose bill the steps work out: energy day by day, demands, then the lines."""

    option: Annotated[int, Field(description="Rank of the option whose bill it is.")]
    month: Annotated[str, Field(description="YYYY-MM.")]
    days: list[WorkedDay]
    demands: list[WorkedDemand]
    lines: list[ComparedLine]
    total: Money
