"""The request models of what a vehicle needs each day."""

from typing import Annotated, Literal, TypeAlias

from pydantic import Field

from branchwright.questions.fields import Facts, Number

Basis: TypeAlias = Literal["wall", "battery"]
DistanceUnit: TypeAlias = Literal["mi", "km"]
ConsumptionUnit: TypeAlias = Literal["kWh/100 km", "kWh/100 mi", "kWh/km", "kWh/mi", "km/kWh", "mi/kWh"]
DailyAmount: TypeAlias = Annotated[Number, Field(ge=0, le=3000)] | None
Factor: TypeAlias = Annotated[Number, Field(ge=0.1, le=5)]

StatedBasis: TypeAlias = Annotated[
    Basis,
    Field(
        description="wall: losses of charging are included, as in published US consumption figures. battery: they are "
        "not, as on a vehicle's display."
    ),
]
Efficiency: TypeAlias = Annotated[
    Annotated[Number, Field(ge=0.5, le=1)] | None,
    Field(
        description="Energy into the battery over energy at the wall. Not stated: 0.85 where it is needed, which is to "
        "be verified."
    ),
]
WinterFactors: TypeAlias = Annotated[
    Annotated[tuple[Factor, ...], Field(min_length=12, max_length=12)] | None,
    Field(
        description="By how much more is needed in each calendar month, January to December, as a mean of the month. "
        "Not stated: 1 in each, which is to be verified."
    ),
]
WorstDayFactor: TypeAlias = Annotated[
    Factor | None,
    Field(
        description="By how much more is needed on the worst winter day. Not stated: the greatest of the months, which "
        "is to be verified."
    ),
]


class ByWeekday(Facts):
    """An amount for each weekday of arrival; one that is not stated is 0."""

    mon: DailyAmount = None
    tue: DailyAmount = None
    wed: DailyAmount = None
    thu: DailyAmount = None
    fri: DailyAmount = None
    sat: DailyAmount = None
    sun: DailyAmount = None


class Consumption(Facts):
    """Energy per distance, or distance per energy."""

    value: Annotated[Number, Field(ge=0.01, le=1000)]
    unit: ConsumptionUnit


class EnergyEachDay(Facts):
    """The need as energy."""

    kind: Literal["energy"]
    basis: StatedBasis
    kwh_by_weekday: Annotated[ByWeekday, Field(description="Energy for each weekday of arrival, kWh.")]
    charging_efficiency: Efficiency = None
    winter_factor_by_month: WinterFactors = None
    worst_day_factor: WorstDayFactor = None


class DistanceEachDay(Facts):
    """The need as a distance and what the vehicle consumes on it."""

    kind: Literal["distance"]
    basis: StatedBasis
    distance_by_weekday: Annotated[
        ByWeekday, Field(description="Distance driven before each weekday's arrival, in distance_unit.")
    ]
    distance_unit: DistanceUnit
    consumption: Annotated[Consumption, Field(description="In mild weather; winter is in the factors.")]
    charging_efficiency: Efficiency = None
    winter_factor_by_month: WinterFactors = None
    worst_day_factor: WorstDayFactor = None


EnergyNeed: TypeAlias = Annotated[EnergyEachDay | DistanceEachDay, Field(discriminator="kind")]
