"""What things cost and how long work takes: the price book and the labour table, as a caller states them."""

from typing import Annotated, Literal, TypeAlias

from pydantic import Field

from branchwright.questions.fields import CalendarDate, Facts, Number, Yes
from branchwright.questions.money_fields import Amount, Currency

PriceUnit: TypeAlias = Literal[
    "each", "ft", "10 ft", "100 ft", "1000 ft", "m", "3 m", "10 m", "100 m", "mi", "km"
]
"""What a price or a time is for. 10 ft and 3 m are also sticks of raceway, which are bought whole."""

Condition: TypeAlias = Literal["open", "finished-walls", "crawl-space", "attic", "masonry"]

MOST_PRICES = 1500
MOST_TASKS = 500
"""A few hundred more than there are keys: a longer book has names that nothing asks for."""

Hours: TypeAlias = Annotated[Number, Field(ge=0, le=10_000)]
Factor: TypeAlias = Annotated[Number, Field(gt=0, le=100)]
ShortText: TypeAlias = Annotated[str, Field(strict=True, min_length=1, max_length=200)]


class Price(Facts):
    """What one unit of a thing costs: at least, most likely, and at most."""

    unit: Annotated[PriceUnit, Field(description="What the price is for.")]
    low: Amount
    likely: Amount
    high: Amount


class PriceBook(Facts):
    """Prices of material and fees, by key."""

    name: ShortText
    currency: Annotated[
        Currency | None, Field(description="Of every price. Not stated: a finding asks for it.")
    ] = None
    dated: Annotated[CalendarDate, Field(description="The day from which the prices are.")]
    is_demo: Annotated[
        Yes | None, Field(description="Whether the prices are invented. Not stated: they are not.")
    ] = None
    prices: Annotated[
        dict[str, Price],
        Field(
            max_length=MOST_PRICES,
            description="By key, such as `conductor/copper/THWN-2/6 AWG`, `raceway/emt/3/4` or "
            "`breaker/60 A/2-pole`. What is needed and not there is left unpriced and named by a finding.",
        ),
    ]


class HourlyRate(Facts):
    """What an hour of work is charged at: at least, most likely, and at most."""

    low: Amount
    likely: Amount
    high: Amount


class Task(Facts):
    """Hours that one unit of a task takes: at least, most likely, and at most."""

    unit: Annotated[PriceUnit, Field(description="What the hours are for.")]
    hours_low: Hours
    hours_likely: Hours
    hours_high: Hours


class ConditionFactor(Facts):
    """By how much a condition of the site lengthens the work on a run: at least, most likely, and at most."""

    low: Factor
    likely: Factor
    high: Factor


class ConditionFactors(Facts):
    """Factors by condition. One that is not stated and needed leaves the hours of its segments open."""

    open: ConditionFactor | None = None
    finished_walls: Annotated[ConditionFactor | None, Field(alias="finished-walls")] = None
    crawl_space: Annotated[ConditionFactor | None, Field(alias="crawl-space")] = None
    attic: ConditionFactor | None = None
    masonry: ConditionFactor | None = None


class LabourTable(Facts):
    """Hours of work by task, and what an hour is charged at."""

    name: ShortText
    dated: Annotated[CalendarDate, Field(description="The day from which hours and rate are.")]
    currency: Annotated[
        Currency | None, Field(description="Of the hourly rate. Not stated: a finding asks for it.")
    ] = None
    is_demo: Annotated[
        Yes | None, Field(description="Whether the rate is invented. Not stated: it is not.")
    ] = None
    hourly_rate: HourlyRate
    tasks: Annotated[
        dict[str, Task],
        Field(
            max_length=MOST_TASKS,
            description="By key, such as `breaker`, `raceway/emt/3/4` or `pull/6 AWG`. What is needed and not there is "
            "left unpriced and named by a finding.",
        ),
    ]
    condition_factors: Annotated[
        ConditionFactors | None,
        Field(description="Not stated: work takes as long as in the open, whatever the condition."),
    ] = None
