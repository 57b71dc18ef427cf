"""The prices of a tariff: energy by period and tier, charges, riders, credits and events.

Money is text in JSON, such as "0.1234". A price below zero has to be marked as a credit.
"""

from typing import Annotated, Literal, TypeAlias

from pydantic import BeforeValidator, Field

from branchwright.checks.charging_cost.tariffs.calendar_facts import QuarterHour
from branchwright.questions.fields import CalendarDate, Facts, Name, Number, Yes, whole
from branchwright.questions.money_fields import Amount, SignedAmount, SignedPercent

AllowancePer: TypeAlias = Literal["month", "day"]
ChargePer: TypeAlias = Literal["month", "day"]
Arrangement: TypeAlias = Literal["whole-house", "own-meter", "submeter"]
LineKind: TypeAlias = Literal["energy", "demand", "fixed", "credits", "riders"]
"""What a minimum bill may count."""

RiderBase: TypeAlias = Literal["energy", "demand", "fixed", "critical-peak"]
"""What a rider in percent may be taken of."""

MOST_TIERS = 10
GREATEST_KWH = 1e9

EnergyKwh: TypeAlias = Annotated[Number, Field(gt=0, le=GREATEST_KWH)]
OfSeason: TypeAlias = Annotated[Name | None, Field(description="Name of a season. Not stated: all year.")]
OfPeriod: TypeAlias = Annotated[
    Name | None, Field(description="Name of a period of the energy rates. Not stated: every hour.")
]
Credit: TypeAlias = Annotated[
    Yes | None,
    Field(description="Whether it is a credit; then its price is below zero. Not stated: no."),
]


class Tier(Facts):
    """One step of a price that depends on how much was used."""

    up_to_kwh: Annotated[
        EnergyKwh | None,
        Field(
            description="Where the tier ends, kWh counted from the beginning of the allowance. Not stated: open, "
            "as the last must be."
        ),
    ] = None
    per_kwh: SignedAmount
    is_credit: Credit = None


Tiers: TypeAlias = Annotated[
    tuple[Tier, ...], Field(max_length=MOST_TIERS, description="Cheapest use first.")
]
Allowance: TypeAlias = Annotated[
    AllowancePer | None,
    Field(
        description="Whether the tiers begin anew each month, or are so many kWh for each day of the bill. Not "
        "stated: month, which is to be verified where there are several tiers."
    ),
]


class EnergyRate(Facts):
    """The price of energy in some hours of some days."""

    period: Annotated[Name, Field(description="Name of the period, such as on-peak.")]
    season: OfSeason = None
    day_type: Annotated[Name | None, Field(description="Name of a day type. Not stated: every day.")] = None
    begin: Annotated[QuarterHour, Field(alias="from", description="HH:MM by the local clock.")]
    end: Annotated[
        QuarterHour,
        Field(
            alias="to",
            description="HH:MM by the local clock; at or before the beginning: both ends of the same date, from "
            "00:00 and until 24:00. 00:00 to 00:00 is the whole day.",
        ),
    ]
    tiers: Tiers
    allowance_per: Allowance = None
    export_per_kwh: Annotated[
        Amount | None,
        Field(description="What a kWh is credited that flows out in these hours. Not stated: nothing."),
    ] = None


class AllEnergyTiers(Facts):
    """Tiers on all energy, whatever its period; they come on top of the energy rates."""

    name: Name
    season: OfSeason = None
    allowance_per: Allowance = None
    tiers: Tiers


class FixedCharge(Facts):
    """An amount that does not depend on use."""

    name: Name
    amount: SignedAmount
    per: ChargePer
    season: OfSeason = None
    is_credit: Credit = None
    arrangements: Annotated[
        tuple[Arrangement, ...] | None,
        Field(
            min_length=1,
            max_length=3,
            description="The meters that bear it. Not stated: each that the tariff serves.",
        ),
    ] = None


class Ratchet(Facts):
    """Holds the billed demand to a share of what it was in earlier months."""

    percent: Annotated[Annotated[Number, Field(gt=0, le=100)], Field(description="Share of it, %.")]
    months: Annotated[
        Annotated[int, Field(strict=True, ge=1, le=11)],
        BeforeValidator(whole),
        Field(description="How many months before the billed one count."),
    ]


class DemandCharge(Facts):
    """A price of the greatest average power of the month."""

    name: Name
    season: OfSeason = None
    period: OfPeriod = None
    per_kw: Amount
    averaging_minutes: Annotated[
        Literal[15, 30, 60],
        BeforeValidator(whole),
        Field(description="Time over which the power is averaged, minutes."),
    ]
    least_kw: Annotated[
        Annotated[Number, Field(ge=0, le=1e6)] | None,
        Field(description="Least demand that is billed, kW. Not stated: none."),
    ] = None
    ratchet: Ratchet | None = None


class MinimumBill(Facts):
    """The least that a bill comes to before taxes."""

    amount: Amount
    per: ChargePer
    counts: Annotated[
        tuple[LineKind, ...],
        Field(
            min_length=1,
            max_length=5,
            description="Which charges count toward it; energy takes in tiers on all energy, critical peaks and "
            "exports. What does not count comes on top.",
        ),
    ]


class Rider(Facts):
    """What is added for each kWh or in percent; state one of the two."""

    name: Name
    per_kwh: SignedAmount | None = None
    percent: SignedPercent | None = None
    season: OfSeason = None
    applies_to: Annotated[
        tuple[RiderBase, ...] | None,
        Field(
            min_length=1,
            max_length=4,
            description="Charges that the percentage is taken of; energy takes in tiers on all energy. Not stated: "
            "energy, demand, fixed and critical-peak; for a tax the whole bill, minimum included.",
        ),
    ] = None
    is_credit: Credit = None
    is_tax: Annotated[
        Yes | None,
        Field(description="Whether it is a tax, which comes after the minimum bill. Not stated: no."),
    ] = None


class BillCredit(Facts):
    """What is taken off a bill, stated as a positive amount: for each kWh or in one sum; state one of the two."""

    name: Name
    per_kwh: Amount | None = None
    amount: Amount | None = None
    per: Annotated[
        ChargePer | None, Field(description="How often the amount is credited. Not stated: month.")
    ] = None
    season: OfSeason = None
    period: OfPeriod = None
    up_to_kwh: Annotated[
        EnergyKwh | None, Field(description="Most energy that is credited in a month, kWh. Not stated: all.")
    ] = None


class CriticalPeakEvent(Facts):
    """Hours of one date with a price of their own."""

    date: Annotated[CalendarDate, Field(description="YYYY-MM-DD.")]
    begin: Annotated[QuarterHour, Field(alias="from", description="HH:MM by the local clock.")]
    end: Annotated[
        QuarterHour,
        Field(alias="to", description="HH:MM by the local clock; read as in an energy rate."),
    ]
    per_kwh: Amount
    how: Annotated[
        Literal["added", "instead"],
        Field(
            description="added: on top of the energy rates. instead: in place of them; the energy counts in no tier."
        ),
    ]


class Rounding(Facts):
    """How money is rounded to the smallest coin of the currency."""

    line: Annotated[
        Yes | None,
        Field(description="Whether each line is rounded, or only the bill's total. Not stated: each line."),
    ] = None
    half: Annotated[
        Literal["up", "even"] | None,
        Field(description="Where a half goes: away from zero, or to the even digit. Not stated: up."),
    ] = None
