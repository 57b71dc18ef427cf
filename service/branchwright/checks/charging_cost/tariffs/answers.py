"""What a tariff review answers with: open to growth, every field present. Prices are text, in the tariff's currency."""

from dataclasses import dataclass
from typing import Annotated, Literal

from pydantic import Field

from branchwright.findings.open_enums import open_enum
from branchwright.questions.answers import JudgedAnswer
from branchwright.questions.money_fields import Money


@dataclass(slots=True)
class CriticalPeakPrice:
    """What an event does to the price of an hour."""

    per_kwh: Money
    how: Annotated[str, open_enum(Literal["added", "instead"], "How it meets the price of the energy rate.")]


@dataclass(slots=True)
class PricedHour:
    """An hour by the local clock, or the part of one that has one price."""

    at: Annotated[str, Field(description="Beginning, local time with its offset.")]
    minutes: Annotated[
        int, Field(description="Length; 60 unless a price or the clock changes within the hour.")
    ]
    period: str
    per_kwh: Annotated[Money, Field(description="Energy rate of the first tier.")]
    last_tier_per_kwh: Annotated[Money, Field(description="Energy rate of the last tier.")]
    with_riders_per_kwh: Annotated[
        Money,
        Field(
            description="What the next kWh costs in the first tiers: the energy rate, tiers on all energy, critical "
            "peak, credits, riders and taxes. At most eight digits after the point."
        ),
    ]
    export_per_kwh: Annotated[Money | None, Field(description="What a kWh that flows out is credited.")]
    critical_peak: Annotated[CriticalPeakPrice | None, Field(description="The event of the hour, if any.")]


@dataclass(slots=True)
class PricedDay:
    """A local date, hour by hour."""

    date: str
    weekday: Annotated[str, open_enum(Literal["mon", "tue", "wed", "thu", "fri", "sat", "sun"], "Weekday.")]
    day_types: Annotated[list[str], Field(description="Every day type that the date is of.")]
    holiday: Annotated[str | None, Field(description="Name of the holiday that counts on it, if any.")]
    hours: list[PricedHour]


@dataclass(slots=True)
class PricedWeek:
    """The first week of a season."""

    season: Annotated[str | None, Field(description="Null for the dates that are in no season.")]
    week_start: Annotated[str, Field(description="Its Monday.")]
    days: Annotated[
        list[PricedDay],
        Field(
            description="Monday to Sunday: the first such week of the year that lies in the season and the year "
            "entirely; where there is none, the days of the first one that do."
        ),
    ]


@dataclass(slots=True)
class PricedMonth:
    """A month's prices by the hour of the clock."""

    month: Annotated[str, Field(description="YYYY-MM.")]
    per_kwh: Annotated[
        list[Money],
        Field(
            description="24 averages over the month's days, from 00:00 on, with riders as in with_riders_per_kwh, to "
            "six digits after the point."
        ),
    ]


@dataclass(slots=True)
class ReviewedPeriod:
    """One period of one season, over the year."""

    season: Annotated[str | None, Field(description="Null where its rates hold all year.")]
    period: str
    hours: Annotated[float, Field(description="Hours of the year.")]
    least_per_kwh: Annotated[Money, Field(description="Least energy rate of its tiers.")]
    greatest_per_kwh: Annotated[Money, Field(description="Greatest energy rate of its tiers.")]


@dataclass(slots=True)
class CountedHoliday:
    """A date that counts as a holiday."""

    date: str
    name: str


@dataclass(slots=True)
class DayOfOtherLength:
    """A date on which the local clock is put forward or back."""

    date: str
    hours: Annotated[float, Field(description="Its length, h.")]


class TariffReviewAnswer(JudgedAnswer):
    """Whether a tariff is sound, and what each hour costs."""

    weeks: Annotated[
        list[PricedWeek],
        Field(
            description="One for each season of the year; empty where the findings say why nothing is priced."
        ),
    ]
    price_by_month_and_hour: Annotated[
        list[PricedMonth],
        Field(description="Twelve months of 24 hours, for a picture; empty where nothing is priced."),
    ]
    periods: Annotated[list[ReviewedPeriod], Field(description="Empty where nothing is priced.")]
    holidays: Annotated[list[CountedHoliday], Field(description="Dates of the year that count as holidays.")]
    hours_in_year: Annotated[float | None, Field(description="Null where the time zone is not known.")]
    short_days: Annotated[list[DayOfOtherLength], Field(description="Dates of fewer than 24 h.")]
    long_days: Annotated[list[DayOfOtherLength], Field(description="Dates of more than 24 h.")]
