"""What an installation estimate answers with: open to growth, every field present."""

from dataclasses import dataclass
from typing import Annotated, Literal, TypeAlias

from pydantic import Field

from branchwright.checks.circuits.answers import Design
from branchwright.findings.open_enums import open_enum
from branchwright.questions.answers import CodeAnswer
from branchwright.questions.money_fields import Money

Group: TypeAlias = Literal["material", "labour", "fee"]


@dataclass(slots=True)
class MoneyRange:
    """An amount at the low, the likely and the high prices."""

    low: Money
    likely: Money
    high: Money


@dataclass(slots=True)
class HoursRange:
    """Hours of work at the low, the likely and the high times."""

    low: float
    likely: float
    high: float


@dataclass(slots=True)
class EstimateLine:
    """One line of the estimate."""

    item: Annotated[str, Field(description="What it is, in words.")]
    group: Annotated[str, open_enum(Group, "Which total it counts in.")]
    key: Annotated[
        str | None,
        Field(
            description="Key of the price book, or of the labour table for labour. Null where a missing fact leaves it "
            "open, and for consumables, which are a percentage."
        ),
    ]
    quantity: Annotated[float, Field(description="In units of the price; of labour in units of its hours.")]
    unit: Annotated[str, Field(description="What one of the quantity is.")]
    why: Annotated[str, Field(description="How the quantity came about.")]
    hours: Annotated[
        HoursRange | None,
        Field(
            description="Of labour: quantity by hours of one unit by the factor of the condition. Else null."
        ),
    ]
    unit_price: Annotated[
        MoneyRange | None,
        Field(description="Price of one unit; of labour the hourly rate. Null where it is not known."),
    ]
    amount: Annotated[
        MoneyRange | None,
        Field(
            description="Quantity, or hours, by unit price, rounded half up once; null where that is not known."
        ),
    ]
    rests_on: Annotated[
        list[str],
        Field(
            description="Where it comes from: request:<JSON pointer> or design:<JSON pointer into design>."
        ),
    ]


@dataclass(slots=True)
class EstimateTotals:
    """The sums of the lines. Every level reconciles with the one below to the last digit of the currency."""

    material: MoneyRange
    labour: MoneyRange
    fees: MoneyRange
    markup: MoneyRange
    tax: MoneyRange
    total: MoneyRange
    is_complete: Annotated[
        bool,
        Field(description="Whether every line has an amount; if not, the job costs more than the total."),
    ]
    currency: Annotated[
        str | None, Field(description="Null where neither price book nor labour table states one.")
    ]


@dataclass(slots=True)
class EstimateRisk:
    """How the total is spread if prices and hours fall between their low and high ones."""

    seed: Annotated[int, Field(description="As stated, or the one that was taken; it repeats these figures.")]
    draws: int
    p10: Annotated[Money, Field(description="One draw in ten is below it.")]
    p50: Annotated[Money, Field(description="Half of the draws are below it.")]
    p90: Annotated[Money, Field(description="One draw in ten is above it.")]
    mean: Annotated[Money, Field(description="Expected total by the formula of the mean, not of the draws.")]
    method: Annotated[str, Field(description="How it was drawn, in words.")]


@dataclass(slots=True)
class UsedPriceBook:
    """The price book that was applied."""

    name: str
    dated: Annotated[str, Field(description="Date of the prices.")]
    currency: str | None
    is_demo: Annotated[bool, Field(description="Whether its prices are invented.")]


@dataclass(slots=True)
class UsedLabourTable:
    """The labour table that was applied."""

    name: str
    dated: Annotated[str, Field(description="Date of hours and rate.")]
    currency: str | None
    is_demo: Annotated[bool, Field(description="Whether its rate is invented.")]
    hourly_rate: MoneyRange


class InstallationEstimateAnswer(CodeAnswer):
    """What an installation takes and costs, line by line."""

    design: Annotated[
        Design | None,
        Field(
            description="The circuit that is taken off; null where it has no design, and nothing is estimated."
        ),
    ]
    lines: Annotated[list[EstimateLine], Field(description="Material, then labour, then fees.")]
    hours: Annotated[HoursRange | None, Field(description="Of all labour lines; null where none is known.")]
    totals: Annotated[EstimateTotals | None, Field(description="Null where nothing is estimated.")]
    risk: Annotated[EstimateRisk | None, Field(description="Null where nothing is estimated.")]
    price_book: UsedPriceBook
    labour_table: UsedLabourTable
    exclusions: Annotated[list[str], Field(description="What the price does not hold.")]
