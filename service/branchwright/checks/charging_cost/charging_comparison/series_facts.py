"""The request models of what flows through the house in each interval of the year."""

from typing import Annotated, Literal, TypeAlias

from pydantic import BeforeValidator, Field

from branchwright.questions.fields import Facts, Moment, Number, whole

MOST_INTERVALS = 35_136
"""Quarter hours of a leap year."""

Weight: TypeAlias = Annotated[Number, Field(ge=0, le=1e6)]
Hours: TypeAlias = Annotated[tuple[Weight, ...], Field(min_length=24, max_length=24)]
EnergyKwh: TypeAlias = Annotated[Number, Field(ge=-1e4, le=1e4)]
YearlyKwh: TypeAlias = Annotated[Number, Field(ge=0, le=1e6)]


class Profile(Facts):
    """How energy lies in the year, as weights: only their proportions count."""

    hours: Annotated[Hours, Field(description="Weight of each hour of the local clock, from 0 to 23.")]
    weekend_hours: Annotated[
        Hours | None,
        Field(description="The same on Saturdays and Sundays, on the scale of hours. Not stated: as hours."),
    ] = None
    months: Annotated[
        Annotated[tuple[Weight, ...], Field(min_length=12, max_length=12)] | None,
        Field(
            description="Weight of the energy of each calendar month, January to December. Not stated: each hour "
            "counts alike in every month."
        ),
    ] = None


class NoLoad(Facts):
    """No house: its account has no energy but the vehicle's."""

    kind: Literal["none"]


class AnnualEnergy(Facts):
    """The energy of a year and how it lies in it."""

    kind: Literal["annual-energy"]
    kwh_per_year: YearlyKwh
    profile: Annotated[
        Profile | None,
        Field(description="Not stated: even over the year, which no house is, and which is to be verified."),
    ] = None


class AnnualGeneration(Facts):
    """The generation of a year and how it lies in it; no generation is even."""

    kind: Literal["annual-energy"]
    kwh_per_year: YearlyKwh
    profile: Profile


class IntervalEnergy(Facts):
    """Energy interval by interval, over the priced year exactly."""

    kind: Literal["intervals"]
    start: Annotated[
        Moment,
        Field(
            description="Start of the first interval, with its offset: where the priced year begins, locally."
        ),
    ]
    interval_minutes: Annotated[
        Literal[15, 30, 60], BeforeValidator(whole), Field(description="Length of every interval, minutes.")
    ]
    energy_kwh: Annotated[
        tuple[EnergyKwh | None, ...],
        Field(
            fail_fast=True,
            min_length=1,
            max_length=MOST_INTERVALS,
            description="Energy of each interval, kWh; null where the reading is missing. Negative of a house: what it "
            "delivers to the grid.",
        ),
    ]


HouseLoad: TypeAlias = Annotated[NoLoad | AnnualEnergy | IntervalEnergy, Field(discriminator="kind")]
Generation: TypeAlias = Annotated[NoLoad | AnnualGeneration | IntervalEnergy, Field(discriminator="kind")]
