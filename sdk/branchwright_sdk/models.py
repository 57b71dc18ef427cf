# Generated from the OpenAPI document by sdk/generator. Do not edit.
# ruff: noqa
"""What is asked and answered, as pydantic models."""

from decimal import Decimal
from typing import Annotated, Any, Literal

from pydantic import BaseModel, ConfigDict, Field
from typing_extensions import TypeAliasType

from .money import Money

SettingsAItem = TypeAliasType("SettingsAItem", Annotated[float, Field(gt=0.0, le=1000.0)])


class AddedCharger(BaseModel):
    """
    A charger that is to be added.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    name: Annotated[str | None, Field(max_length=100, min_length=1)] = None
    """
    For the reader; nothing depends on it.
    """
    charging_current_a: Annotated[float, Field(gt=0.0, le=1000.0)]
    """
    Continuous current that it is set to, A.
    """
    rated_current_a: Annotated[float | None, Field(gt=0.0, le=1000.0)] = None
    """
    Current on its nameplate, A. Not stated: the charging current is taken for it.
    """
    setting_access: Literal["restricted", "unrestricted"] | None = None
    """
    Whether the current setting is reachable only by a tool, key, seal or password. Not stated: unknown.
    """
    connection: Literal["hardwired", "receptacle"] | None = None
    """
    How it is connected; an edition may let a setting count for hardwired ones alone.
    """
    settings_a: Annotated[list[SettingsAItem] | None, Field(max_length=100, min_length=1)] = None
    """
    Currents that it can be set to, A. Not stated: whole amperes from 6, and its rated current.
    """
    managed: bool | None = None
    """
    Whether the management controls it. Not stated: it does where there is one.
    """
    circuit_breaker_a: Annotated[float | None, Field(gt=0.0, le=6000.0)] = None
    """
    Breaker of its own branch circuit, A. Not stated: not judged.
    """


class Appliance(BaseModel):
    """
    An appliance that is no cooking appliance, dryer, heating, cooling or charger.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    name: Annotated[str | None, Field(max_length=100, min_length=1)] = None
    """
    For the reader. The same name in two lists is one thing listed twice.
    """
    new: bool | None = None
    """
    Whether it is being added. Not stated: it is there already.
    """
    rating_va: Annotated[float, Field(gt=0.0, le=1000000.0)]
    """
    Nameplate rating, VA; of a heating appliance its W.
    """
    fastened_in_place: bool | None = None
    """
    Whether it is fastened in place or permanently connected. Not stated: unknown, and no reduction is taken for it.
    """
    on_own_circuit: bool | None = None
    """
    Whether a portable one is on a circuit of its own; without one it is part of the general load. Not stated: unknown, and it is counted.
    """
    motor: bool | None = None
    """
    Whether it is a motor or driven by one. Not stated: taken as none, and verified.
    """
    motor_va: Annotated[float | None, Field(gt=0.0, le=1000000.0)] = None
    """
    Part of the rating that the motor takes, VA. Not stated: all of it.
    """
    motor_hp: Annotated[float | None, Field(gt=0.0, le=1000.0)] = None
    """
    Rating of the motor, hp. Not stated: the rating in VA alone decides.
    """
    voltage_v: Annotated[float | None, Field(ge=100.0, le=250.0)] = None
    """
    Rated voltage, V: near 120 from line to neutral, near 208 or 240 between lines. Not stated: the neutral is taken to carry it.
    """
    uses_neutral: bool | None = None
    """
    Whether one between lines needs the neutral as well. Not stated: it does not.
    """


class BillCredit(BaseModel):
    """
    What is taken off a bill, stated as a positive amount: for each kWh or in one sum; state one of the two.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    name: Annotated[str, Field(max_length=100, min_length=1)]
    per_kwh: Annotated[Money | None, Field(pattern="^(0|[1-9][0-9]{0,11})(\\.[0-9]{1,8})?$")] = None
    amount: Annotated[Money | None, Field(pattern="^(0|[1-9][0-9]{0,11})(\\.[0-9]{1,8})?$")] = None
    per: Literal["month", "day"] | None = None
    """
    How often the amount is credited. Not stated: month.
    """
    season: Annotated[str | None, Field(max_length=100, min_length=1)] = None
    """
    Name of a season. Not stated: all year.
    """
    period: Annotated[str | None, Field(max_length=100, min_length=1)] = None
    """
    Name of a period of the energy rates. Not stated: every hour.
    """
    up_to_kwh: Annotated[float | None, Field(gt=0.0, le=1000000000.0)] = None
    """
    Most energy that is credited in a month, kWh. Not stated: all.
    """


class ByWeekday(BaseModel):
    """
    An amount for each weekday of arrival; one that is not stated is 0.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    mon: Annotated[float | None, Field(ge=0.0, le=3000.0)] = None
    tue: Annotated[float | None, Field(ge=0.0, le=3000.0)] = None
    wed: Annotated[float | None, Field(ge=0.0, le=3000.0)] = None
    thu: Annotated[float | None, Field(ge=0.0, le=3000.0)] = None
    fri: Annotated[float | None, Field(ge=0.0, le=3000.0)] = None
    sat: Annotated[float | None, Field(ge=0.0, le=3000.0)] = None
    sun: Annotated[float | None, Field(ge=0.0, le=3000.0)] = None


class ConditionFactor(BaseModel):
    """
    By how much a condition of the site lengthens the work on a run: at least, most likely, and at most.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    low: Annotated[float, Field(gt=0.0, le=100.0)]
    likely: Annotated[float, Field(gt=0.0, le=100.0)]
    high: Annotated[float, Field(gt=0.0, le=100.0)]


class ConditionFactors(BaseModel):
    """
    Factors by condition. One that is not stated and needed leaves the hours of its segments open.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    open: ConditionFactor | None = None
    finished_walls: Annotated[ConditionFactor | None, Field(alias="finished-walls")] = None
    crawl_space: Annotated[ConditionFactor | None, Field(alias="crawl-space")] = None
    attic: ConditionFactor | None = None
    masonry: ConditionFactor | None = None


class Conductors(BaseModel):
    """
    What the conductors are made of.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    material: Literal["copper", "aluminum"]
    """
    Metal of the ungrounded conductors.
    """
    insulation: Literal["THWN-2", "XHHW-2", "THW", "THW-2", "RHW-2", "THHN", "THWN"] | None = None
    """
    Insulation of conductors in raceways. Not stated: THWN-2. Cables bring their own.
    """
    grounding_material: Literal["copper", "aluminum"] | None = None
    """
    Metal of the grounding conductor. Not stated: as the others.
    """


class Consumption(BaseModel):
    """
    Energy per distance, or distance per energy.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    value: Annotated[float, Field(ge=0.01, le=1000.0)]
    unit: Literal["kWh/100 km", "kWh/100 mi", "kWh/km", "kWh/mi", "km/kWh", "mi/kWh"]


class CookingAppliance(BaseModel):
    """
    A household electric cooking appliance.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    name: Annotated[str | None, Field(max_length=100, min_length=1)] = None
    """
    For the reader. The same name in two lists is one thing listed twice.
    """
    new: bool | None = None
    """
    Whether it is being added. Not stated: it is there already.
    """
    kind: Literal["range", "wall-oven", "counter-cooking-unit"]
    """
    Range with oven and top in one, wall-mounted oven, or counter-mounted unit.
    """
    rating_w: Annotated[float, Field(gt=0.0, le=1000000.0)]
    """
    Nameplate rating, W.
    """


class Cooling(BaseModel):
    """
    Air conditioning or another cooling load that is no heat pump.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    name: Annotated[str | None, Field(max_length=100, min_length=1)] = None
    """
    For the reader. The same name in two lists is one thing listed twice.
    """
    new: bool | None = None
    """
    Whether it is being added. Not stated: it is there already.
    """
    rating_va: Annotated[float, Field(gt=0.0, le=1000000.0)]
    """
    Nameplate rating, VA.
    """
    motor_va: Annotated[float | None, Field(gt=0.0, le=1000000.0)] = None
    """
    Part of the rating that its largest motor takes, VA. Not stated: all of it.
    """


class CriticalPeakEvent(BaseModel):
    """
    Hours of one date with a price of their own.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    date: Annotated[
        str,
        Field(pattern="^(19|20|21)[0-9][0-9]-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])$"),
    ]
    """
    YYYY-MM-DD.
    """
    from_: Annotated[str, Field(alias="from", pattern="^([01][0-9]|2[0-3]):(00|15|30|45)$")]
    """
    HH:MM by the local clock.
    """
    to: Annotated[str, Field(pattern="^([01][0-9]|2[0-3]):(00|15|30|45)$")]
    """
    HH:MM by the local clock; read as in an energy rate.
    """
    per_kwh: Annotated[Money, Field(pattern="^(0|[1-9][0-9]{0,11})(\\.[0-9]{1,8})?$")]
    how: Literal["added", "instead"]
    """
    added: on top of the energy rates. instead: in place of them; the energy counts in no tier.
    """


CurrentsAItem = TypeAliasType("CurrentsAItem", Annotated[float, Field(ge=6.0, le=80.0)])


class DayType(BaseModel):
    """
    A kind of day: some weekdays, and what holidays do to them.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    name: Annotated[str, Field(max_length=100, min_length=1)]
    weekdays: Annotated[
        list[Literal["mon", "tue", "wed", "thu", "fri", "sat", "sun"]],
        Field(max_length=7),
    ]
    """
    Days of it; none where it is of holidays alone.
    """
    holidays: Literal["included", "excluded", "ignored"] | None = None
    """
    included: every holiday is of this kind, whatever its weekday. excluded: no holiday is. ignored: its weekday alone decides. Not stated: ignored, which is to be verified.
    """


class Depth(BaseModel):
    """
    A depth with its unit; none at all is one.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    value: Annotated[float, Field(ge=0.0, le=1000000.0)]
    unit: Literal["ft", "in", "m", "mm"]


WinterFactorByMonthItem = TypeAliasType("WinterFactorByMonthItem", Annotated[float, Field(ge=0.1, le=5.0)])


class DistanceEachDay(BaseModel):
    """
    The need as a distance and what the vehicle consumes on it.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    kind: Literal["distance"]
    basis: Literal["wall", "battery"]
    """
    wall: losses of charging are included, as in published US consumption figures. battery: they are not, as on a vehicle's display.
    """
    distance_by_weekday: ByWeekday
    """
    Distance driven before each weekday's arrival, in distance_unit.
    """
    distance_unit: Literal["mi", "km"]
    consumption: Consumption
    """
    In mild weather; winter is in the factors.
    """
    charging_efficiency: Annotated[float | None, Field(ge=0.5, le=1.0)] = None
    """
    Energy into the battery over energy at the wall. Not stated: 0.85 where it is needed, which is to be verified.
    """
    winter_factor_by_month: Annotated[
        list[WinterFactorByMonthItem] | None, Field(max_length=12, min_length=12)
    ] = None
    """
    By how much more is needed in each calendar month, January to December, as a mean of the month. Not stated: 1 in each, which is to be verified.
    """
    worst_day_factor: Annotated[float | None, Field(ge=0.1, le=5.0)] = None
    """
    By how much more is needed on the worst winter day. Not stated: the greatest of the months, which is to be verified.
    """


class Dryer(BaseModel):
    """
    A household electric clothes dryer that is not on the laundry circuit.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    name: Annotated[str | None, Field(max_length=100, min_length=1)] = None
    """
    For the reader. The same name in two lists is one thing listed twice.
    """
    new: bool | None = None
    """
    Whether it is being added. Not stated: it is there already.
    """
    rating_w: Annotated[float, Field(gt=0.0, le=1000000.0)]
    """
    Nameplate rating, W.
    """


class DwellingCharger(BaseModel):
    """
    A charger as a load of the dwelling.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    name: Annotated[str | None, Field(max_length=100, min_length=1)] = None
    """
    For the reader. The same name in two lists is one thing listed twice.
    """
    new: bool | None = None
    """
    Whether it is being added. Not stated: it is there already.
    """
    charging_current_a: Annotated[float | None, Field(gt=0.0, le=1000.0)] = None
    """
    Continuous current that it is set to, A.
    """
    rated_current_a: Annotated[float | None, Field(gt=0.0, le=1000.0)] = None
    """
    Current on its nameplate, A. Not stated: the charging current is taken for it.
    """
    nameplate_va: Annotated[float | None, Field(gt=0.0, le=1000000.0)] = None
    """
    Load on its nameplate, VA. Not stated: the current times the voltage.
    """
    setting_access: Literal["restricted", "unrestricted"] | None = None
    """
    Whether the current setting is reachable only by a tool, key, seal or password. Not stated: unknown.
    """
    connection: Literal["hardwired", "receptacle"] | None = None
    """
    How it is connected; an edition may let a setting count for hardwired ones alone. Not stated: hardwired.
    """
    managed_by: Annotated[str | None, Field(max_length=100, min_length=1)] = None
    """
    Name of the load management that holds it. Not stated: none does.
    """


class DwellingService(BaseModel):
    """
    The service or feeder of the dwelling.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    rating_a: Annotated[float | None, Field(gt=0.0, le=6000.0)] = None
    """
    Rating of the service, A. Not stated: not judged.
    """
    system: Literal["split-phase-120-240", "wye-208y-120"]
    """
    240 V between the lines of a split-phase system, or 208 V between two of a wye.
    """
    phases: Literal[1, 3] | None = None
    """
    Phases of the service; 3 on a wye system only. Not stated: 1.
    """
    conductor_ampacity_a: Annotated[float | None, Field(gt=0.0, le=6000.0)] = None
    """
    Ampacity of the service or feeder conductors, A; for the optional method. Not stated: what the rating asks for at least.
    """


class Effective(BaseModel):
    """
    The dates on which a tariff is in force.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    from_: Annotated[
        str,
        Field(
            alias="from",
            pattern="^(19|20|21)[0-9][0-9]-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])$",
        ),
    ]
    """
    First date, YYYY-MM-DD.
    """
    to: Annotated[
        str | None,
        Field(pattern="^(19|20|21)[0-9][0-9]-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])$"),
    ] = None
    """
    Last date. Not stated: until further notice.
    """


class EnergyEachDay(BaseModel):
    """
    The need as energy.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    kind: Literal["energy"]
    basis: Literal["wall", "battery"]
    """
    wall: losses of charging are included, as in published US consumption figures. battery: they are not, as on a vehicle's display.
    """
    kwh_by_weekday: ByWeekday
    """
    Energy for each weekday of arrival, kWh.
    """
    charging_efficiency: Annotated[float | None, Field(ge=0.5, le=1.0)] = None
    """
    Energy into the battery over energy at the wall. Not stated: 0.85 where it is needed, which is to be verified.
    """
    winter_factor_by_month: Annotated[
        list[WinterFactorByMonthItem] | None, Field(max_length=12, min_length=12)
    ] = None
    """
    By how much more is needed in each calendar month, January to December, as a mean of the month. Not stated: 1 in each, which is to be verified.
    """
    worst_day_factor: Annotated[float | None, Field(ge=0.1, le=5.0)] = None
    """
    By how much more is needed on the worst winter day. Not stated: the greatest of the months, which is to be verified.
    """


class EnergyManagement(BaseModel):
    """
    Equipment that holds the current of the whole service below a setting by lowering the chargers.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    control_setting_a: Annotated[float, Field(gt=0.0, le=6000.0)]
    """
    Current of the service that it holds, per line, A.
    """
    fail_safe_current_a: Annotated[float | None, Field(ge=0.0, le=1000.0)] = None
    """
    What each managed charger may draw when it has lost its monitor, A; 0 where it stops. Not stated: unknown.
    """
    monitored_legs: Annotated[int | None, Field(ge=0, le=12)] = None
    """
    Ungrounded conductors of the service with a monitor. Not stated: unknown.
    """
    monitor_position: Literal["supply-side-of-generation", "load-side-of-generation"] | None = None
    """
    Where the monitors sit, seen from a source that feeds back. Not stated: unknown.
    """
    listed: bool | None = None
    """
    Whether it is listed for energy management. Not stated: unknown.
    """
    link_loss_tested: bool | None = None
    """
    Whether the lost link was tested on site. Not stated: unknown.
    """
    access: Literal["restricted", "unrestricted"] | None = None
    """
    Who can reach its settings. Not stated: unknown.
    """


class FixedCharge(BaseModel):
    """
    An amount that does not depend on use.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    name: Annotated[str, Field(max_length=100, min_length=1)]
    amount: Annotated[Money, Field(pattern="^-?(0|[1-9][0-9]{0,11})(\\.[0-9]{1,8})?$")]
    per: Literal["month", "day"]
    season: Annotated[str | None, Field(max_length=100, min_length=1)] = None
    """
    Name of a season. Not stated: all year.
    """
    is_credit: bool | None = None
    """
    Whether it is a credit; then its price is below zero. Not stated: no.
    """
    arrangements: Annotated[
        list[Literal["whole-house", "own-meter", "submeter"]] | None,
        Field(max_length=3, min_length=1),
    ] = None
    """
    The meters that bear it. Not stated: each that the tariff serves.
    """


class Hardwired(BaseModel):
    """
    The charger is wired to the circuit permanently.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    kind: Literal["hardwired"]


class HeatPump(BaseModel):
    """
    A heat pump; it cools as well.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    name: Annotated[str | None, Field(max_length=100, min_length=1)] = None
    """
    For the reader. The same name in two lists is one thing listed twice.
    """
    new: bool | None = None
    """
    Whether it is being added. Not stated: it is there already.
    """
    compressor_va: Annotated[float, Field(gt=0.0, le=1000000.0)]
    """
    Nameplate rating of the compressor and its fans, VA.
    """
    supplemental_heat_w: Annotated[float | None, Field(gt=0.0, le=1000000.0)] = None
    """
    Nameplate rating of its supplemental electric heat, W. Not stated: it has none.
    """
    interlocked: bool | None = None
    """
    Whether the compressor is kept from running together with the supplemental heat. Not stated: it is not.
    """


class HourlyRate(BaseModel):
    """
    What an hour of work is charged at: at least, most likely, and at most.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    low: Annotated[Money, Field(pattern="^(0|[1-9][0-9]{0,11})(\\.[0-9]{1,8})?$")]
    likely: Annotated[Money, Field(pattern="^(0|[1-9][0-9]{0,11})(\\.[0-9]{1,8})?$")]
    high: Annotated[Money, Field(pattern="^(0|[1-9][0-9]{0,11})(\\.[0-9]{1,8})?$")]


EnergyWhItem = TypeAliasType(
    "EnergyWhItem", Annotated[float | None, Field(ge=-1000000000.0, le=1000000000.0)]
)


LegCurrentsAItemItem = TypeAliasType(
    "LegCurrentsAItemItem", Annotated[float | None, Field(ge=-1000000.0, le=1000000.0)]
)


LegCurrentsAItem = TypeAliasType(
    "LegCurrentsAItem",
    Annotated[list[LegCurrentsAItemItem], Field(max_length=210240, min_length=1)],
)


class HouseLoad(BaseModel):
    """
    What the house draws without the chargers; state either energy_wh or leg_currents_a.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    start: Annotated[
        str,
        Field(
            max_length=25,
            pattern="^(19[789]|20[0-9]|21[0-8])[0-9]-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])T([01][0-9]|2[0-3]):[0-5][0-9](:[0-5][0-9])?(Z|[+-](0[0-9]|1[0-4]):[0-5][0-9])$",
        ),
    ]
    """
    Start of the first interval, with its offset.
    """
    interval_minutes: Literal[1, 2, 3, 5, 6, 10, 12, 15, 20, 30, 60]
    """
    Length of every interval, minutes.
    """
    time_zone: Annotated[str, Field(max_length=64, min_length=1)]
    """
    IANA name of the zone by whose clock vehicles come and go.
    """
    energy_wh: Annotated[list[EnergyWhItem] | None, Field(max_length=210240, min_length=1)] = None
    """
    Energy of the whole house in each interval, Wh; null where the reading is missing.
    """
    leg_assumption: Literal["balanced", "all-on-one-leg"] | None = None
    """
    How the energy lies on the ungrounded conductors. Not stated: balanced, which is to be verified.
    """
    power_factor: Annotated[float | None, Field(ge=0.1, le=1.0)] = None
    """
    Power factor of the house, to turn energy into current. Not stated: 1.
    """
    leg_currents_a: Annotated[list[LegCurrentsAItem] | None, Field(max_length=3, min_length=2)] = None
    """
    Current of each ungrounded conductor in each interval, A; null where it is missing. One list for each: two, or three of a three-phase service.
    """


class InstalledDisconnect(BaseModel):
    """
    The disconnecting means at the charger.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    present: bool
    readily_accessible: bool | None = None
    lockable_open: bool | None = None


EnergyKwhItem = TypeAliasType("EnergyKwhItem", Annotated[float | None, Field(ge=-10000.0, le=10000.0)])


class IntervalEnergy(BaseModel):
    """
    Energy interval by interval, over the priced year exactly.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    kind: Literal["intervals"]
    start: Annotated[
        str,
        Field(
            max_length=25,
            pattern="^(19[789]|20[0-9]|21[0-8])[0-9]-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])T([01][0-9]|2[0-3]):[0-5][0-9](:[0-5][0-9])?(Z|[+-](0[0-9]|1[0-4]):[0-5][0-9])$",
        ),
    ]
    """
    Start of the first interval, with its offset: where the priced year begins, locally.
    """
    interval_minutes: Literal[15, 30, 60]
    """
    Length of every interval, minutes.
    """
    energy_kwh: Annotated[list[EnergyKwhItem], Field(max_length=35136, min_length=1)]
    """
    Energy of each interval, kWh; null where the reading is missing. Negative of a house: what it delivers to the grid.
    """


class LeastCost(BaseModel):
    """
    Charging takes the cheapest hours between arrival and departure; of those alike the earliest.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    kind: Literal["least-cost"]
    name: Annotated[str | None, Field(max_length=100, min_length=1)] = None


class Length(BaseModel):
    """
    A length with its unit.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    value: Annotated[float, Field(gt=0.0, le=1000000.0)]
    unit: Literal["ft", "in", "m", "mm"]


class LoadManagement(BaseModel):
    """
    Equipment that holds the current of several chargers together below a setting.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    name: Annotated[str, Field(max_length=100, min_length=1)]
    control_setting_a: Annotated[float, Field(gt=0.0, le=1000.0)]
    """
    Current that its chargers may draw together, A.
    """


class Management(BaseModel):
    """
    The energy management that holds the largest leg at or below a setting by lowering the chargers.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    control_setting_a: Annotated[float, Field(gt=0.0, le=6000.0)]
    """
    Current of the service that it holds, per leg, A.
    """
    margin_a: Annotated[float | None, Field(ge=0.0, le=100.0)] = None
    """
    What it keeps free below the setting, A. Not stated: 0.
    """
    response_s: Annotated[float | None, Field(ge=0.0, le=86400.0)] = None
    """
    Time until the chargers have followed a change of the house's load, s. Not stated: less than an interval, which is to be verified. One shorter than an interval cannot be seen in it.
    """
    resume_delay_minutes: Annotated[float | None, Field(ge=0.0, le=1440.0)] = None
    """
    Time with enough current left before charging resumes after a pause, minutes; counted in whole intervals, upwards. Not stated: 15.
    """
    sharing: Literal["equal", "first-come", "earliest-departure"] | None = None
    """
    How several vehicles share what is left. equal: alike, in whole amperes; those that came last pause where there is too little for all. first-come, earliest-departure: each in turn takes what it can. Not stated: equal.
    """


class Markings(BaseModel):
    """
    What the charger's label or manual says.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    greatest_overcurrent_device_a: Annotated[float | None, Field(gt=0.0, le=6000.0)] = None
    """
    Greatest overcurrent device that the manufacturer permits, A.
    """
    forbids_gfci_breaker: bool | None = None
    """
    Whether the manufacturer forbids a ground-fault breaker.
    """


class MeasuredExistingLoad(BaseModel):
    """
    The existing load by measured demand: the greatest demand of a record, and what is known of the record.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    kind: Literal["measured"]
    measured_demand_w: Annotated[float, Field(ge=0.0, le=10000000.0)]
    """
    Greatest demand of the record, W, as the mean over the averaging interval.
    """
    averaging_minutes: Annotated[float, Field(gt=0.0, le=1440.0)]
    """
    Averaging interval of the record, minutes.
    """
    days: Annotated[float, Field(ge=0.0, le=36525.0)]
    """
    Days from its begin to its end.
    """
    coverage_percent: Annotated[float | None, Field(ge=0.0, le=100.0)] = None
    """
    Readings that are there, percent of those that should be. Not stated: unknown.
    """
    has_generation: bool | None = None
    """
    Whether generation or peak shaving behind the meter can hide load. Not stated: unknown.
    """
    occupied: bool | None = None
    """
    Whether the building was occupied in use during the record. Not stated: unknown.
    """
    seasonal_load_va: Annotated[float | None, Field(ge=0.0, le=10000000.0)] = None
    """
    Load that belongs to another season than the record's, VA, added to it; the larger of heating and cooling. 0: the record has it. Not stated: unknown.
    """
    fifteen_minute_bound_w: Annotated[float | None, Field(ge=0.0, le=10000000.0)] = None
    """
    What no 15-minute demand can have exceeded, W, from the readings themselves. Not stated: computed from the greatest demand alone.
    """


class MinimumBill(BaseModel):
    """
    The least that a bill comes to before taxes.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    amount: Annotated[Money, Field(pattern="^(0|[1-9][0-9]{0,11})(\\.[0-9]{1,8})?$")]
    per: Literal["month", "day"]
    counts: Annotated[
        list[Literal["energy", "demand", "fixed", "credits", "riders"]],
        Field(max_length=5, min_length=1),
    ]
    """
    Which charges count toward it; energy takes in tiers on all energy, critical peaks and exports. What does not count comes on top.
    """


class NoLoad(BaseModel):
    """
    No house: its account has no energy but the vehicle's.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    kind: Literal["none"]


class OnArrival(BaseModel):
    """
    Charging begins when the vehicle comes, and lasts until it has what it needs.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    kind: Literal["on-arrival"]
    name: Annotated[str | None, Field(max_length=100, min_length=1)] = None


class OtherDays(BaseModel):
    """
    Arrival and departure on some weekdays.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    weekdays: Annotated[
        list[Literal["mon", "tue", "wed", "thu", "fri", "sat", "sun"]],
        Field(max_length=7, min_length=1),
    ]
    """
    Days of arrival; one stated twice counts once.
    """
    arrival: Annotated[str, Field(pattern="^([01][0-9]|2[0-3]):[0-5][0-9]$")]
    """
    HH:MM by the local clock.
    """
    departure: Annotated[str, Field(pattern="^([01][0-9]|2[0-3]):[0-5][0-9]$")]
    """
    HH:MM by the local clock; at or before the arrival: on the next day.
    """


class Premises(BaseModel):
    """
    Where the circuit is.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    occupancy: Literal["one-family", "two-family", "multifamily", "other"] | None = None
    """
    Kind of building; decides on ground-fault protection.
    """
    charger_location: Literal["outdoors", "garage", "accessory-building", "indoors"] | None = None
    """
    Where the charger is mounted; decides on ground-fault protection.
    """


class Price(BaseModel):
    """
    What one unit of a thing costs: at least, most likely, and at most.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    unit: Literal["each", "ft", "10 ft", "100 ft", "1000 ft", "m", "3 m", "10 m", "100 m", "mi", "km"]
    """
    What the price is for.
    """
    low: Annotated[Money, Field(pattern="^(0|[1-9][0-9]{0,11})(\\.[0-9]{1,8})?$")]
    likely: Annotated[Money, Field(pattern="^(0|[1-9][0-9]{0,11})(\\.[0-9]{1,8})?$")]
    high: Annotated[Money, Field(pattern="^(0|[1-9][0-9]{0,11})(\\.[0-9]{1,8})?$")]


class PriceBook(BaseModel):
    """
    Prices of material and fees, by key.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    name: Annotated[str, Field(max_length=200, min_length=1)]
    currency: Annotated[str | None, Field(pattern="^[A-Z]{3}$")] = None
    """
    Of every price. Not stated: a finding asks for it.
    """
    dated: Annotated[
        str,
        Field(pattern="^(19|20|21)[0-9][0-9]-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])$"),
    ]
    """
    The day from which the prices are.
    """
    is_demo: bool | None = None
    """
    Whether the prices are invented. Not stated: they are not.
    """
    prices: Annotated[dict[str, Price], Field(max_length=1500)]
    """
    By key, such as `conductor/copper/THWN-2/6 AWG`, `raceway/emt/3/4` or `breaker/60 A/2-pole`. What is needed and not there is left unpriced and named by a finding.
    """


class PricedCharger(BaseModel):
    """
    The charger, at the voltage that it really has.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    charging_current_a: Annotated[float, Field(gt=0.0, le=1000.0)]
    """
    Continuous current that it is set to, A.
    """
    voltage_v: Annotated[float, Field(ge=50.0, le=1000.0)]
    """
    Voltage at the charger, V; between lines where it has three phases.
    """
    phases: Literal[1, 3] | None = None
    """
    Phases that it uses. Not stated: 1.
    """


class PricedVehicle(BaseModel):
    """
    What is known of the vehicle.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    battery_kwh: Annotated[float | None, Field(gt=0.0, le=2000.0)] = None
    """
    Usable energy of the battery, kWh. Stated: what a night leaves unmet is made up in the next nights, as far as the battery holds it. Not stated: it stays unmet.
    """
    onboard_limit_a: Annotated[float | None, Field(gt=0.0, le=1000.0)] = None
    """
    Greatest current that its onboard charger takes, A. Not stated: no limit.
    """


Hour = TypeAliasType("Hour", Annotated[float, Field(ge=0.0, le=1000000.0)])


WeekendHour = TypeAliasType("WeekendHour", Annotated[float, Field(ge=0.0, le=1000000.0)])


Month = TypeAliasType("Month", Annotated[float, Field(ge=0.0, le=1000000.0)])


class Profile(BaseModel):
    """
    How energy lies in the year, as weights: only their proportions count.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    hours: Annotated[list[Hour], Field(max_length=24, min_length=24)]
    """
    Weight of each hour of the local clock, from 0 to 23.
    """
    weekend_hours: Annotated[list[WeekendHour] | None, Field(max_length=24, min_length=24)] = None
    """
    The same on Saturdays and Sundays, on the scale of hours. Not stated: as hours.
    """
    months: Annotated[list[Month] | None, Field(max_length=12, min_length=12)] = None
    """
    Weight of the energy of each calendar month, January to December. Not stated: each hour counts alike in every month.
    """


class Ratchet(BaseModel):
    """
    Holds the billed demand to a share of what it was in earlier months.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    percent: Annotated[float, Field(gt=0.0, le=100.0)]
    """
    Share of it, %.
    """
    months: Annotated[int, Field(ge=1, le=11)]
    """
    How many months before the billed one count.
    """


class Readings(BaseModel):
    """
    Readings of disputed provisions that the caller chooses; GET /v1/editions/{edition} lists them.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    liquidtight_temperature: Annotated[
        Literal["operating-temperature", "sixty-degree-column"] | None,
        Field(alias="liquidtight-temperature"),
    ] = None
    grounding_near_miss: Annotated[
        Literal["strict", "within-rounding"] | None, Field(alias="grounding-near-miss")
    ] = None
    hardwired_outlet: Annotated[
        Literal["outlet", "not-an-outlet"] | None, Field(alias="hardwired-outlet")
    ] = None
    rooftop_clearance: Annotated[
        Literal["seven-eighths-inch", "three-quarters-inch"] | None,
        Field(alias="rooftop-clearance"),
    ] = None
    setting_as_rating: Annotated[Literal["nameplate", "setting"] | None, Field(alias="setting-as-rating")] = (
        None
    )
    grounding_growth: Annotated[
        Literal["counts-correction", "exempts-correction"] | None,
        Field(alias="grounding-growth"),
    ] = None
    permanently_wired_protection: Annotated[
        Literal["required", "not-enacted"] | None,
        Field(alias="permanently-wired-protection"),
    ] = None
    sixty_ampere_receptacle: Annotated[
        Literal["printed", "not-printed"] | None, Field(alias="sixty-ampere-receptacle")
    ] = None
    charger_in_optional_method: Annotated[
        Literal["full-value", "in-the-pool"] | None,
        Field(alias="charger-in-optional-method"),
    ] = None
    existing_heating_and_cooling: Annotated[
        Literal["in-the-pool", "left-out"] | None,
        Field(alias="existing-heating-and-cooling"),
    ] = None
    added_heating_and_cooling: Annotated[
        Literal["at-full-value", "in-the-pool"] | None,
        Field(alias="added-heating-and-cooling"),
    ] = None
    omitted_motor: Annotated[Literal["compared", "added"] | None, Field(alias="omitted-motor")] = None
    measured_with_generation: Annotated[
        Literal["refused", "measured-gross"] | None,
        Field(alias="measured-with-generation"),
    ] = None
    measured_demand_interval: Annotated[
        Literal["fifteen-minutes", "as-metered"] | None,
        Field(alias="measured-demand-interval"),
    ] = None
    charger_on_service: Annotated[
        Literal["at-125-percent", "at-its-load"] | None,
        Field(alias="charger-on-service"),
    ] = None


EnergyWhItem1 = TypeAliasType(
    "EnergyWhItem1",
    Annotated[float | None, Field(ge=-1000000000000.0, le=1000000000000.0)],
)


PowerWItem = TypeAliasType(
    "PowerWItem",
    Annotated[float | None, Field(ge=-1000000000000.0, le=1000000000000.0)],
)


class RegularSeries(BaseModel):
    """
    Values one after another; state either energy_wh or power_w.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    kind: Literal["regular"]
    start: Annotated[
        str,
        Field(
            max_length=40,
            pattern="^[0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-9]{2}(:[0-9]{2}(\\.[0-9]{1,9})?)?(Z|[+-][0-9]{2}:[0-9]{2})?$",
        ),
    ]
    """
    Start of the first interval.
    """
    interval_minutes: Annotated[int, Field(ge=1, le=1440)]
    """
    Length of every interval.
    """
    energy_wh: Annotated[list[EnergyWhItem1] | None, Field(max_length=210240, min_length=1)] = None
    """
    Energy of each interval, Wh; null where it is missing.
    """
    power_w: Annotated[list[PowerWItem] | None, Field(max_length=210240, min_length=1)] = None
    """
    Average power over each interval, W; null where it is missing.
    """


class ReplacedPanel(BaseModel):
    """
    A panel that is replaced.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    rating_a: Annotated[float, Field(gt=0.0, le=6000.0)]


class Rider(BaseModel):
    """
    What is added for each kWh or in percent; state one of the two.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    name: Annotated[str, Field(max_length=100, min_length=1)]
    per_kwh: Annotated[Money | None, Field(pattern="^-?(0|[1-9][0-9]{0,11})(\\.[0-9]{1,8})?$")] = None
    percent: Annotated[Money | None, Field(pattern="^-?(0|[1-9][0-9]{0,3})(\\.[0-9]{1,8})?$")] = None
    season: Annotated[str | None, Field(max_length=100, min_length=1)] = None
    """
    Name of a season. Not stated: all year.
    """
    applies_to: Annotated[
        list[Literal["energy", "demand", "fixed", "critical-peak"]] | None,
        Field(max_length=4, min_length=1),
    ] = None
    """
    Charges that the percentage is taken of; energy takes in tiers on all energy. Not stated: energy, demand, fixed and critical-peak; for a tax the whole bill, minimum included.
    """
    is_credit: bool | None = None
    """
    Whether it is a credit; then its price is below zero. Not stated: no.
    """
    is_tax: bool | None = None
    """
    Whether it is a tax, which comes after the minimum bill. Not stated: no.
    """


class Risk(BaseModel):
    """
    How the spread of the total is drawn.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    seed: Annotated[int | None, Field(ge=0, le=4294967295)] = None
    """
    Of the random numbers; the same one gives the same figures. Not stated: 1.
    """
    draws: Annotated[int | None, Field(ge=100, le=20000)] = None
    """
    How often the total is drawn. Not stated: 10000.
    """


class Rounding(BaseModel):
    """
    How money is rounded to the smallest coin of the currency.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    line: bool | None = None
    """
    Whether each line is rounded, or only the bill's total. Not stated: each line.
    """
    half: Literal["up", "even"] | None = None
    """
    Where a half goes: away from zero, or to the even digit. Not stated: up.
    """


class Season(BaseModel):
    """
    A part of the year that comes back every year.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    name: Annotated[str, Field(max_length=100, min_length=1)]
    from_: Annotated[str, Field(alias="from", pattern="^(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])$")]
    """
    First day, MM-DD.
    """
    to: Annotated[str, Field(pattern="^(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])$")]
    """
    Last day, MM-DD; one before the first day lies in the next year.
    """


class SegmentSite(BaseModel):
    """
    What the site is like along one segment of the run.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    segment: Annotated[int, Field(ge=0, le=49)]
    """
    Index of the circuit's segment.
    """
    condition: Literal["open", "finished-walls", "crawl-space", "attic", "masonry"] | None = None
    """
    Where the work is done. Not stated: taken as open, and a finding asks for it.
    """
    elbows: Annotated[int | None, Field(ge=0, le=100)] = None
    """
    Elbows of a raceway that are bought as fittings. Not stated: 2 underground, where it goes down and comes up; else none, bends being made on site.
    """
    pull_points: Annotated[int | None, Field(ge=0, le=100)] = None
    """
    Conduit bodies or boxes to pull through. Not stated: none.
    """


class SeparateMeter(BaseModel):
    """
    What a meter of its own costs, and over what it has to pay.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    installed_cost: Annotated[Money, Field(pattern="^(0|[1-9][0-9]{0,11})(\\.[0-9]{1,8})?$")]
    """
    Socket, labour and fees, less incentives, in the tariffs' currency.
    """
    monthly_charge: Annotated[Money, Field(pattern="^(0|[1-9][0-9]{0,11})(\\.[0-9]{1,8})?$")]
    """
    What the meter itself costs a month, beside the tariff's own charges.
    """
    discount_rate_percent: Annotated[float, Field(ge=0.0, le=100.0)]
    """
    Rate at which later savings count less, a year.
    """
    years: Annotated[int | None, Field(ge=1, le=50)] = None
    """
    Years that the savings are counted for. Not stated: 10.
    """


class ServiceConductors(BaseModel):
    """
    The ungrounded service conductors.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    material: Literal["copper", "aluminum"] | None = None
    """
    Metal of the conductors. Needed with the size.
    """
    size: (
        Literal[
            "14 AWG",
            "12 AWG",
            "10 AWG",
            "8 AWG",
            "6 AWG",
            "4 AWG",
            "3 AWG",
            "2 AWG",
            "1 AWG",
            "1/0 AWG",
            "2/0 AWG",
            "3/0 AWG",
            "4/0 AWG",
            "250 kcmil",
        ]
        | None
    ) = None
    """
    Size of each of them. Not stated: their ampacity is taken as stated.
    """
    ampacity_a: Annotated[float | None, Field(gt=0.0, le=6000.0)] = None
    """
    Ampacity after correction and adjustment, A: for larger sizes and for sets in parallel. It counts where both are stated.
    """
    conductor_temperature_rating_c: Literal[60, 75, 90] | None = None
    """
    Temperature rating printed on the conductors, degC. Not stated: 75.
    """
    terminal_temperature_rating_c: Literal[60, 75, 90] | None = None
    """
    Lowest conductor temperature that the terminals at both ends are marked for, degC. Not stated: taken as unmarked.
    """
    ambient_c: Annotated[float | None, Field(ge=-60.0, le=120.0)] = None
    """
    Ambient temperature where they lie, degC. Not stated: that of the ampacity table.
    """
    current_carrying_conductors: Annotated[int | None, Field(ge=1, le=100)] = None
    """
    Current-carrying conductors in their raceway or cable. Not stated: up to three.
    """
    carry_entire_load: bool | None = None
    """
    Whether they carry the entire load of one dwelling unit. Not stated: unknown.
    """


class Session(BaseModel):
    """
    When a vehicle comes and goes on some weekdays, and what it needs each time.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    weekdays: Annotated[
        list[Literal["mon", "tue", "wed", "thu", "fri", "sat", "sun"]],
        Field(max_length=7, min_length=1),
    ]
    """
    Days of arrival; one stated twice counts once.
    """
    arrival: Annotated[str, Field(pattern="^([01][0-9]|2[0-3]):[0-5][0-9]$")]
    """
    HH:MM by the local clock.
    """
    departure: Annotated[str, Field(pattern="^([01][0-9]|2[0-3]):[0-5][0-9]$")]
    """
    HH:MM by the local clock; at or before the arrival: on the next day.
    """
    energy_kwh: Annotated[float, Field(gt=0.0, le=1000.0)]
    """
    Energy that it needs each time, kWh.
    """
    basis: Literal["wall", "battery"] | None = None
    """
    Whether energy_kwh is taken at the wall, losses included, or arrives in the battery. Not stated: battery, which needs more.
    """


Charger1 = TypeAliasType("Charger1", Annotated[int, Field(ge=0, le=199)])


class SharedCircuit(BaseModel):
    """
    One branch circuit that several of the chargers share under management.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    chargers: Annotated[list[Charger1], Field(max_length=200, min_length=2)]
    """
    Places of its chargers in the list, from 0.
    """
    breaker_a: Annotated[float, Field(gt=0.0, le=6000.0)]
    """
    Breaker of the circuit, A.
    """
    control_setting_a: Annotated[float | None, Field(gt=0.0, le=1000.0)] = None
    """
    Current that the management lets them draw together, A. Not stated: unknown.
    """
    fail_safe_current_a: Annotated[float | None, Field(ge=0.0, le=1000.0)] = None
    """
    What each of them may draw when it has lost the others, A; 0 where it stops. Not stated: unknown.
    """
    listed: bool | None = None
    """
    Whether the management is listed for it. Not stated: unknown.
    """


class SolarSurplusFirst(BaseModel):
    """
    Charging takes what generation leaves over during the stay, then the cheapest hours of the rest.

    Needs `generation`, and a meter that house and vehicle share.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    kind: Literal["solar-surplus-first"]
    name: Annotated[str | None, Field(max_length=100, min_length=1)] = None


class SpaceHeating(BaseModel):
    """
    Fixed electric space heating apart from heat pumps.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    name: Annotated[str | None, Field(max_length=100, min_length=1)] = None
    """
    For the reader. The same name in two lists is one thing listed twice.
    """
    new: bool | None = None
    """
    Whether it is being added. Not stated: it is there already.
    """
    rating_w: Annotated[float, Field(gt=0.0, le=1000000.0)]
    """
    Nameplate rating of all its units together, W.
    """
    kind: Literal["central", "separately-controlled", "thermal-storage"] | None = None
    """
    How it is controlled; thermal-storage is any that runs continuously at its full rating. Not stated: separately-controlled where a number of units is, else central.
    """
    separately_controlled_units: Annotated[int | None, Field(ge=1, le=100)] = None
    """
    Units with a control each. Not stated: one.
    """


class StampedReading(BaseModel):
    """
    One reading with its time. A plain dictionary, since there may be two hundred thousand of them.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    at: Annotated[
        str,
        Field(
            max_length=40,
            pattern="^[0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-9]{2}(:[0-9]{2}(\\.[0-9]{1,9})?)?(Z|[+-][0-9]{2}:[0-9]{2})?$",
        ),
    ]
    """
    Start or end of its interval, by stamps_at.
    """
    value: Annotated[float | None, Field(ge=-1000000000000.0, le=1000000000000.0)]
    """
    Null where the meter gave none.
    """
    quality: (
        Literal["measured", "edited", "estimated", "questionable", "derived", "projected", "mixed", "unknown"]
        | None
    ) = None
    """
    How the value came about. Not stated: measured.
    """


class StampedSeries(BaseModel):
    """
    Readings that each bear their time, in any order.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    kind: Literal["stamped"]
    unit: Literal["energy-wh", "energy-kwh", "power-w", "power-kw", "register-wh", "register-kwh"]
    """
    What the values are: energy of each interval, average power over it, or the register of the meter at the stamp.
    """
    stamps_at: Literal["start", "end"] | None = None
    """
    Whether a stamp is the start or the end of its interval. Not stated: start, which is to be verified.
    """
    interval_minutes: Annotated[int | None, Field(ge=1, le=1440)] = None
    """
    Length of every interval. Not stated: the commonest step from stamp to stamp.
    """
    readings: Annotated[list[StampedReading], Field(max_length=210240, min_length=1)]


class StudiedService(BaseModel):
    """
    The service that house and chargers share.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    system: Literal["split-phase-120-240", "wye-208y-120"]
    """
    240 V between the lines of a split-phase system, or 208 V between two of a wye.
    """
    phases: Literal[1, 3] | None = None
    """
    Phases of the service; 3 on a wye system only. Not stated: 1.
    """
    rating_a: Annotated[float | None, Field(gt=0.0, le=6000.0)] = None
    """
    Rating of the service, A. Not stated: not judged.
    """


class Submeter(BaseModel):
    """
    What a submeter costs, whose reading is subtracted from the house's.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    installed_cost: Annotated[Money, Field(pattern="^(0|[1-9][0-9]{0,11})(\\.[0-9]{1,8})?$")]
    """
    Submeter, labour and fees, less incentives.
    """
    monthly_charge: Annotated[Money, Field(pattern="^(0|[1-9][0-9]{0,11})(\\.[0-9]{1,8})?$")]
    """
    What the submeter itself costs a month.
    """


class Supplies(BaseModel):
    """
    What belongs to the job beside the circuit. What is not stated is excluded, and the answer says so.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    charger: Literal["by-customer", "by-contractor"] | None = None
    """
    Who brings the charger; it is mounted in any case. Not stated: the customer.
    """
    energy_management: bool | None = None
    """
    Equipment that holds the service below a setting, with its sensors.
    """
    meter_socket: bool | None = None
    """
    A socket for a meter. One that the circuit's points state is counted anyway.
    """
    submeter: bool | None = None
    """
    A submeter. One that the circuit's points state is counted anyway.
    """
    panel: ReplacedPanel | None = None
    """
    A panel that is replaced.
    """
    permit: bool | None = None
    """
    The permit's fee, obtaining it, and being there for inspection.
    """
    paperwork: bool | None = None
    """
    Papers for rebates and for the utility.
    """
    load_calculation: bool | None = None
    """
    A written calculation of the load.
    """


class Supply(BaseModel):
    """
    The system that the circuit is taken from.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    system: Literal["split-phase-120-240", "wye-208y-120"]
    """
    240 V between the lines of a split-phase system, or 208 V between two of a wye.
    """
    phases: Literal[1, 3] | None = None
    """
    Phases that the charger uses; 3 on a wye system only. Not stated: 1.
    """


class Targets(BaseModel):
    """
    What the caller asks for beyond the code.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    voltage_drop_percent: Annotated[float | None, Field(gt=0.0, le=100.0)] = None
    """
    Greatest voltage drop at the charging current, percent of the nominal voltage.
    """


HolidayName = TypeAliasType("HolidayName", Annotated[str, Field(max_length=100, min_length=1)])


HolidayDate = TypeAliasType(
    "HolidayDate",
    Annotated[
        str,
        Field(pattern="^(19|20|21)[0-9][0-9]-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])$"),
    ],
)


class Task(BaseModel):
    """
    Hours that one unit of a task takes: at least, most likely, and at most.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    unit: Literal["each", "ft", "10 ft", "100 ft", "1000 ft", "m", "3 m", "10 m", "100 m", "mi", "km"]
    """
    What the hours are for.
    """
    hours_low: Annotated[float, Field(ge=0.0, le=10000.0)]
    hours_likely: Annotated[float, Field(ge=0.0, le=10000.0)]
    hours_high: Annotated[float, Field(ge=0.0, le=10000.0)]


class Tax(BaseModel):
    """
    A tax on parts of the price.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    percent: Annotated[float, Field(ge=0.0, le=100.0)]
    on: Annotated[
        list[Literal["material", "labour", "fee", "markup"]],
        Field(max_length=4, min_length=1),
    ]
    """
    What it is on; one stated twice counts once.
    """


class Tier(BaseModel):
    """
    One step of a price that depends on how much was used.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    up_to_kwh: Annotated[float | None, Field(gt=0.0, le=1000000000.0)] = None
    """
    Where the tier ends, kWh counted from the beginning of the allowance. Not stated: open, as the last must be.
    """
    per_kwh: Annotated[Money, Field(pattern="^-?(0|[1-9][0-9]{0,11})(\\.[0-9]{1,8})?$")]
    is_credit: bool | None = None
    """
    Whether it is a credit; then its price is below zero. Not stated: no.
    """


class TimerWindow(BaseModel):
    """
    Clock times between which a timer lets the vehicle charge.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    from_: Annotated[str, Field(alias="from", pattern="^([01][0-9]|2[0-3]):[0-5][0-9]$")]
    """
    HH:MM by the local clock.
    """
    to: Annotated[str, Field(pattern="^([01][0-9]|2[0-3]):[0-5][0-9]$")]
    """
    HH:MM by the local clock; at or before the beginning: on the next day.
    """


class Torque(BaseModel):
    """
    A tightening torque with its unit.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    value: Annotated[float, Field(gt=0.0, le=10000.0)]
    unit: Literal["lbf-in", "lbf-ft", "N-m"]


class TorqueRecord(BaseModel):
    """
    A torque that was applied and written down.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    at: Annotated[str, Field(pattern="^(breaker|charger|receptacle|points/([0-9]|1[0-9]))$")]
    """
    breaker, charger, receptacle, or points/<index>.
    """
    torque: Torque


class TravelDistance(BaseModel):
    """
    A distance by road with its unit.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    value: Annotated[float, Field(gt=0.0, le=100000.0)]
    unit: Literal["mi", "km"]


class Trench(BaseModel):
    """
    How the trench is dug; its length and depth are those of the circuit's segments underground.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    surface: Literal["soil", "paving"] | None = None
    """
    What is opened and restored.
    """
    by: Literal["hand", "machine"] | None = None
    """
    What digs.
    """


class Underground(BaseModel):
    """
    A segment below grade; it counts as a wet location.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    cover: Depth | None = None
    """
    From the top of raceway or cable to finished grade; a design states the least.
    """
    under: Literal["soil", "dwelling-driveway", "street", "building", "concrete"]
    """
    What lies above it. concrete: an exterior slab at least 4 in thick without vehicles; dwelling-driveway: of a one- or two-family dwelling.
    """


class Vehicle(BaseModel):
    """
    What is known of the vehicle.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    battery_kwh: Annotated[float | None, Field(gt=0.0, le=2000.0)] = None
    """
    Usable energy of the battery, kWh. Not stated: not judged.
    """
    onboard_limit_a: Annotated[float | None, Field(gt=0.0, le=1000.0)] = None
    """
    Greatest current that its onboard charger takes, A. Not stated: no limit.
    """
    charging_efficiency: Annotated[float | None, Field(ge=0.5, le=1.0)] = None
    """
    Energy into the battery over energy at the wall. Not stated: 0.85.
    """


class Waste(BaseModel):
    """
    What is bought beyond what is built in. What is not stated is common practice, and is to be verified.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    cable_percent: Annotated[float | None, Field(ge=0.0, le=100.0)] = None
    """
    Of conductors and cable. Not stated: 7.5.
    """
    cable_ends: Depth | None = None
    """
    For the two ends of each conductor or cable together. Not stated: 2.5 m.
    """
    raceway_percent: Annotated[float | None, Field(ge=0.0, le=100.0)] = None
    """
    Not stated: 7.5.
    """
    fittings_percent: Annotated[float | None, Field(ge=0.0, le=100.0)] = None
    """
    Of fittings and straps. Not stated: 15.
    """
    consumables_percent: Annotated[float | None, Field(ge=0.0, le=100.0)] = None
    """
    Small parts, in percent of the material save a charger. Not stated: 3.5.
    """


class WorkedBill(BaseModel):
    """
    The one month whose bill the steps of the answer work out.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    tariff: Annotated[str, Field(max_length=100, min_length=1)]
    """
    Name of one of the tariffs.
    """
    arrangement: Literal["whole-house", "own-meter", "submeter"]
    schedule: Annotated[int, Field(ge=0, le=9)]
    """
    Place of the schedule in the request, from 0.
    """
    month: Annotated[int, Field(ge=1, le=12)]
    """
    Calendar month, 1 to 12.
    """


class Appearance(BaseModel):
    """
    Where one of the two editions has an entry.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    section: str
    """
    Section or table number as this edition prints it.
    """
    confidence: str | None
    """
    How sure we are of the entry: high, medium or low; null for an interpretation.
    """


class CellDifference(BaseModel):
    """
    A cell of a row that both editions have, or a value of a provision that both have.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    key: list[float | str | None]
    """
    The keys that find the row; empty for a provision, null for an open last row.
    """
    column: str
    """
    Name of the column or value.
    """
    unit: str
    """
    Unit of the cell; 1 for a plain number, text or size for a name.
    """
    this: float | str | None
    """
    Here; null where this edition prints nothing or sets no limit.
    """
    other: float | str | None
    """
    There; null where the other edition prints nothing or sets no limit.
    """


class Citation(BaseModel):
    """
    A place in a publication.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    publication: str
    """
    The code edition or publication, by its name here.
    """
    section: str
    """
    Section or table number as the publication prints it.
    """


class Column(BaseModel):
    """
    A column of a table or a value of a provision.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    name: str
    unit: str
    meaning: str


class ComparedDrop(BaseModel):
    """
    Voltage drop at the charging current.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    volts: float
    percent: float


class ComparedLine(BaseModel):
    """
    One line of a bill.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    account: str
    """
    house: the house's meter, which bills the vehicle too where there is no other. charging: the vehicle's own. Known values: house, charging; others may be added.
    """
    kind: str
    """
    What it is for, by the words of tariff reviews; meter for the meter's own charge.
    """
    name: str
    season: str | None
    period: str | None
    tier: int | None
    """
    Place of the tier, from 0.
    """
    quantity: Decimal
    """
    What is billed, in `unit`.
    """
    unit: str
    """
    Unit of the quantity, such as kWh, kW, day or month.
    """
    rate: Decimal
    """
    Price of one unit; percent of the quantity where its unit is money.
    """
    amount: Decimal


class ComparedMonth(BaseModel):
    """
    The bills of one month, all accounts together.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    month: str
    """
    YYYY-MM.
    """
    lines: list[ComparedLine]
    total: Decimal


class ComparedRaceway(BaseModel):
    """
    The least raceway of a segment that takes the conductors, or the one that the request states.

    A cable's sleeve is one too, where the request states it.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    segment: int
    """
    Index of the run's segment.
    """
    wiring_method: str
    """
    Wiring method of the segment. Known values: emt, imc, rmc, pvc-40, pvc-80, fmc, lfmc, lfnc-b, nm-b, uf-b, se, mc, ac; others may be added.
    """
    trade_size: str
    fill_percent: float
    fill_limit_percent: float


class ComparedReading(BaseModel):
    """
    Another reading of a disputed provision, and the currents that it decides on.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    reading: str
    currents_a: list[float]
    """
    Currents whose verdict changes under this reading alone.
    """


class ComparedSchedule(BaseModel):
    """
    One of the schedules that were asked for.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    index: int
    """
    Its place in the request, from 0.
    """
    kind: str
    """
    When the vehicle charges within its stay. Known values: on-arrival, timer, least-cost, solar-surplus-first; others may be added.
    """
    name: str | None


class CountedHoliday(BaseModel):
    """
    A date that counts as a holiday.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    date: str
    name: str


class CriticalPeakPrice(BaseModel):
    """
    What an event does to the price of an hour.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    per_kwh: Decimal
    how: str
    """
    How it meets the price of the energy rate. Known values: added, instead; others may be added.
    """


class CurrentChange(BaseModel):
    """
    One thing that is different from the next lower current that has a circuit.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    what: str
    """
    What changes. Known values: breaker, ungrounded, neutral, grounding, raceway, ground-fault-protection, disconnect, label; others may be added.
    """
    segment: int | None
    """
    Index of the run's segment, for a raceway.
    """
    from_: Annotated[float | str, Field(alias="from")]
    """
    At the lower current: a rating in A, a size, or required, not-required or undetermined.
    """
    to: float | str
    """
    At this current, in the same form.
    """
    rule: str
    """
    The rule that sets the new value: it refuses the next smaller one. A neutral is as large as the ungrounded conductors and bears their rule.
    """
    is_dear: bool
    """
    Whether it is a step in cost: larger ungrounded conductors, a larger raceway, or a disconnecting means that becomes required. The next breaker rating alone is none.
    """


class DayInterval(BaseModel):
    """
    One interval of the worst day.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    at: str
    """
    Start, local time with its offset.
    """
    house_a: float | None
    """
    House on its largest leg, A; null where the reading is missing.
    """
    available_a: float
    """
    Whole amperes that the management leaves to the chargers; 0 while they pause.
    """
    charging_a: float
    """
    What all chargers draw together, A.
    """
    total_a: float | None
    """
    Both together, A.
    """
    vehicles: int
    """
    Vehicles that are there and still need energy.
    """


class DayOfOtherLength(BaseModel):
    """
    A date on which the local clock is put forward or back.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    date: str
    hours: float
    """
    Its length, h.
    """


class DesignedRaceway(BaseModel):
    """
    The raceway of a segment.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    trade_size: str
    fill_percent: float
    fill_limit_percent: float


class DesignedReceptacle(BaseModel):
    """
    The receptacle.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    configuration: str
    """
    NEMA designation. Known values: 14-50, 6-50, 14-30, 6-30, 6-20, 14-60, 10-30, 10-50; others may be added.
    """
    rating_a: float


class Difference(BaseModel):
    """
    A table, provision or interpretation that is not the same in both editions.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    kind: str
    """
    What differs. Known values: table, provision, interpretation; others may be added.
    """
    name: str
    """
    Name of the table, provision or interpretation.
    """
    title: str
    """
    What it is about.
    """
    change: str
    """
    added: the other edition has it and this one does not; removed: the other way round; changed: both have it. Known values: added, removed, changed; others may be added.
    """
    this: Appearance | None
    """
    Where this edition has it; null where it does not.
    """
    other: Appearance | None
    """
    Where the other edition has it; null where it does not.
    """
    renumbered: bool
    """
    Whether both have it, under different sections.
    """
    rows_added: list[dict[str, float | str | None]]
    """
    Rows that only the other edition has, by column; an added provision is one row.
    """
    rows_removed: list[dict[str, float | str | None]]
    """
    Rows that only this edition has, by column; a removed provision is one row.
    """
    cells: list[CellDifference]
    """
    Cells that differ in rows that both have; empty where it is only renumbered.
    """


class DistanceCost(BaseModel):
    """
    What a mile or a kilometre costs.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    amount: Decimal
    unit: str
    """
    mi or km, as the request states distances.
    """


class EditionComparison(BaseModel):
    """
    A part of what differs between two editions.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    edition: str
    """
    This edition, from which the change is told.
    """
    other: str
    """
    The other edition, to which it leads.
    """
    items: list[Difference]
    next_after: str | None
    """
    'after' of the next page; null on the last one.
    """


class EditionRecord(BaseModel):
    """
    An edition of a code as the codebook knows it.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    name: str
    title: str
    publication: str
    status: str
    notes: str | None


class EstimateRisk(BaseModel):
    """
    How the total is spread if prices and hours fall between their low and high ones.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    seed: int
    """
    As stated, or the one that was taken; it repeats these figures.
    """
    draws: int
    p10: Decimal
    """
    One draw in ten is below it.
    """
    p50: Decimal
    """
    Half of the draws are below it.
    """
    p90: Decimal
    """
    One draw in ten is above it.
    """
    mean: Decimal
    """
    Expected total by the formula of the mean, not of the draws.
    """
    method: str
    """
    How it was drawn, in words.
    """


class Evidence(BaseModel):
    """
    Where values were found and how sure we are of them.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    section: str
    confidence: str
    found: str
    source: str
    checked: str
    notes: str | None


class ExistingCircuit(BaseModel):
    """
    What an existing circuit allows as it stands.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    largest_charging_current_a: float | None
    """
    Greatest whole current, 6 to 80 A, of a charger for which no rule about the load fails on the installed sizes; null where there is none or a size is unknown.
    """
    limited_by: list[str]
    """
    Rules that the next ampere would fail; or that fail now.
    """


class Fault(BaseModel):
    """
    A reading, line or entry that could not be taken as it stands.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    at: str
    """
    Where: JSON pointer, line and column, or entry.
    """
    message: str
    """
    What is wrong with it, in one sentence.
    """
    given: str | None
    """
    What stands there, at most 200 characters.
    """


class Gap(BaseModel):
    """
    A time without readings.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    from_: Annotated[str, Field(alias="from")]
    """
    Start of the first missing interval.
    """
    to: str
    """
    End of the last missing interval.
    """
    minutes: int


class GovernedBy(BaseModel):
    """
    The rule that set each size.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    breaker: str
    conductors: str
    grounding: str
    raceway: str | None


class GroundFaultProtection(BaseModel):
    """
    Whether the outlet needs ground-fault protection for personnel.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    required: bool | None
    """
    Null where a fact is missing.
    """
    why: str


class GroundingConductor(BaseModel):
    """
    The grounding conductor.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    least_size: str
    size: str
    material: str


class Health(BaseModel):
    """
    The state of one service process.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    status: str
    """
    'live' or 'ready'.
    """


class HoursRange(BaseModel):
    """
    Hours of work at the low, the likely and the high times.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    low: float
    likely: float
    high: float


class InterpretationAnswer(BaseModel):
    """
    A point that is read two ways.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    name: str
    """
    As used in the readings of a request.
    """
    question: str
    default: str
    """
    The reading that binds where a request chooses none.
    """
    readings: dict[str, str]
    """
    Each reading with its meaning.
    """
    section: str | None
    """
    The disputed section; null where the edition has none.
    """
    notes: str | None


class Label(BaseModel):
    """
    The label of an adjusted setting.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    required: bool | None
    """
    Null where the edition has no words on it.
    """
    current_a: float | None
    """
    The current to stand on it; null without one.
    """
    why: str


class LargestChargingCurrent(BaseModel):
    """
    The largest current that every added charger can be set to, all alike.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    unmanaged: float | None
    """
    Without management, A: a setting that they have, access to it restricted where the edition asks for that. Null where none fits.
    """
    managed: float | None
    """
    Under listed management of the service, A, while the house leaves room for it. Null where not even the house alone fits.
    """


class LoadItem(BaseModel):
    """
    One load that a method counts, before any demand factor.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    group: str
    """
    Which lines it is part of. Known values: lighting, cooking, dryers, appliances, heating, cooling, largest-motor, chargers, pool; others may be added.
    """
    item: str
    """
    What it is, in words.
    """
    pointer: str | None
    """
    JSON pointer of the field of the request that states it, if one does.
    """
    connected_va: float
    """
    Its load as the edition counts it, VA.
    """


class LoadLine(BaseModel):
    """
    One line of a load calculation. The connected loads of a group's lines are those of its items.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    group: str
    """
    What the line belongs to. Known values: lighting, cooking, dryers, appliances, heating, cooling, largest-motor, chargers, pool; others may be added.
    """
    item: str
    """
    What it is, in words.
    """
    pointer: str | None
    """
    JSON pointer of the field of the request that it rests on; null where several do.
    """
    connected_va: float
    """
    Load before the demand factor, VA.
    """
    demand_factor: float
    """
    Demand over connected load; 0 for a load that is left out. Where a table prints the demand itself, the factor that it comes to.
    """
    demand_va: float
    """
    What counts, VA. The demands of a method add up to its total.
    """
    citation: Citation


class Measure(BaseModel):
    """
    A length or torque with its unit.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    value: float
    unit: str


class MeasuredLoad(BaseModel):
    """
    The existing load as a service-capacity review takes it; what the readings cannot tell is null.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    kind: str
    """
    measured
    """
    measured_demand_w: float
    averaging_minutes: int
    days: float
    coverage_percent: float
    has_generation: bool | None
    occupied: bool | None
    """
    Null: to be stated by the caller.
    """
    seasonal_load_va: float | None
    """
    Null: to be stated by the caller.
    """
    fifteen_minute_bound_w: float | None


class MethodAnswer(BaseModel):
    """
    The load by one method.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    method: str
    """
    The method. Known values: standard, optional-new, optional-existing; others may be added.
    """
    permitted: bool | None
    """
    Whether the method may be used here; null where a fact is missing.
    """
    why: str
    """
    Why it may, may not, or cannot be told.
    """
    items: list[LoadItem]
    """
    The loads one by one.
    """
    lines: list[LoadLine]
    """
    The calculation line by line.
    """
    total_va: float | None
    """
    Sum of the demands, to a millionth of a VA; null where a load is undetermined.
    """
    current_a: float | None
    """
    Line current of the total, unrounded; null without a voltage.
    """
    rounded_current_a: float | None
    """
    The same, rounded as the edition does.
    """
    least_service_rating_a: float | None
    """
    Least standard rating for that current, and no less than the edition asks of any service; null where none is made.
    """
    neutral_lines: list[LoadLine]
    """
    The neutral's load line by line; by every method the same.
    """
    neutral_va: float | None
    """
    Load of the neutral, VA.
    """
    neutral_current_a: float | None
    """
    Current of the neutral, unrounded, after the reduction of a large one.
    """
    rounded_neutral_current_a: float | None
    """
    The same, rounded as the edition does.
    """
    verdict: str | None
    """
    By this method alone; null where no rating of the service is stated. Known values: no-failure-found, fail, undetermined; others may be added.
    """


class MoneyRange(BaseModel):
    """
    An amount at the low, the likely and the high prices.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    low: Decimal
    likely: Decimal
    high: Decimal


class MonthDemand(BaseModel):
    """
    The demand that was measured in one month.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    month: str
    """
    YYYY-MM.
    """
    kw: float


class MonthOfData(BaseModel):
    """
    What a calendar month holds of the series.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    month: str
    """
    Year and month, by the series' zone.
    """
    coverage_percent: float
    """
    Intervals with a reading, of those between the series' first and last.
    """
    kwh: float
    """
    Energy of the readings, kWh.
    """


class Need(BaseModel):
    """
    Whether something is asked for, and why.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    required: bool
    why: str


class Neutral(BaseModel):
    """
    The neutral.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    size: str


class NormalisedSeries(BaseModel):
    """
    The readings in their order on one grid of time.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    start: str
    """
    Start of the first interval, ISO 8601 with offset.
    """
    interval_minutes: int
    """
    Length of every interval.
    """
    unit: str
    """
    Unit of the values: Wh.
    """
    energy_wh: list[float | None]
    """
    Energy of each interval, Wh; null where it is missing.
    """
    zone: str | None
    """
    Zone of months and days; null where only offsets are known.
    """


class NotOffered(BaseModel):
    """
    A tariff that may not serve an arrangement or a schedule.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    tariff: str
    arrangement: str
    """
    The meter that it may not serve. Known values: whole-house, own-meter, submeter; others may be added.
    """
    why: str


class OtherReading(BaseModel):
    """
    The verdict of the same facts under another reading.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    reading: str
    verdict: str
    """
    Verdict under this reading alone. Known values: no-failure-found, fail, undetermined; others may be added.
    """


class PayBack(BaseModel):
    """
    What a separate meter saves against one way to do without it.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    against: str
    """
    present-tariff: one meter for both, on the tariff that the house is on today. whole-house-repriced: one meter for both, on the cheapest tariff for house and vehicle together. Either brings as much energy. Known values: present-tariff, whole-house-repriced; others may be added.
    """
    option: int
    """
    Rank of the option that it is held against.
    """
    annual_saving: Decimal
    """
    What that option costs a year more; the meter's monthly charge is paid.
    """
    payback_years: float | None
    """
    Installed cost over annual saving. Null where nothing is saved.
    """
    net_present_value: Decimal
    """
    The discounted savings of the stated years less the installed cost.
    """
    break_even_distance_per_year: float | None
    """
    Yearly distance at which the net present value is zero, found by pricing the year again. Null where there is none up to what the windows deliver, or where the need is stated as energy.
    """
    break_even_distance_unit: str | None
    break_even_kwh_per_year: float | None
    """
    The same in energy at the wall, kWh. Null where there is none.
    """


class PeriodEnergy(BaseModel):
    """
    Net energy of one price on one date through one meter, as it was summed, without rounding.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    account: str
    """
    house: the house's meter, which bills the vehicle too where there is no other. charging: the vehicle's own. Known values: house, charging; others may be added.
    """
    season: str | None
    """
    As the energy rate states it.
    """
    period: str
    critical_peak: str | None
    """
    How a critical-peak event of these hours meets the price; null where there is none. Known values: added, instead; others may be added.
    """
    taken_kwh: float
    """
    From the grid, kWh.
    """
    delivered_kwh: float
    """
    To the grid, kWh.
    """


class PricedHour(BaseModel):
    """
    An hour by the local clock, or the part of one that has one price.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    at: str
    """
    Beginning, local time with its offset.
    """
    minutes: int
    """
    Length; 60 unless a price or the clock changes within the hour.
    """
    period: str
    per_kwh: Decimal
    """
    Energy rate of the first tier.
    """
    last_tier_per_kwh: Decimal
    """
    Energy rate of the last tier.
    """
    with_riders_per_kwh: Decimal
    """
    What the next kWh costs in the first tiers: the energy rate, tiers on all energy, critical peak, credits, riders and taxes. At most eight digits after the point.
    """
    export_per_kwh: Decimal | None
    """
    What a kWh that flows out is credited.
    """
    critical_peak: CriticalPeakPrice | None
    """
    The event of the hour, if any.
    """


class PricedMonth(BaseModel):
    """
    A month's prices by the hour of the clock.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    month: str
    """
    YYYY-MM.
    """
    per_kwh: list[Decimal]
    """
    24 averages over the month's days, from 00:00 on, with riders as in with_riders_per_kwh, to six digits after the point.
    """


class Provenance(BaseModel):
    """
    The three things that an answer depends on.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    engine_version: str
    """
    Version of the service that computed the answer.
    """
    codebook_revision: str
    """
    SHA-256 over the codebook's files, first 16 digits.
    """
    input_sha256: str
    """
    SHA-256 of the RFC 8785 canonical form of the request.
    """


class Provided(BaseModel):
    """
    What the circuit has.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    value: float | str
    """
    The circuit's own value.
    """
    unit: str
    """
    Unit of the value; text for names.
    """


class ProvisionAnswer(BaseModel):
    """
    What an edition says on one concept.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    concept: str
    title: str
    columns: list[Column]
    """
    The values' names, units and meanings.
    """
    values: dict[str, str | float]
    evidence: Evidence


class RemedyChange(BaseModel):
    """
    One field of the request and what to put there.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    pointer: str
    """
    JSON pointer into the request.
    """
    value: Any
    """
    The value to put there, whatever was or was not stated.
    """


class Required(BaseModel):
    """
    What the rule asks for.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    value: float | str | list[str]
    """
    The limit, or the permitted values.
    """
    unit: str
    """
    Unit of the value; text for names.
    """
    comparison: str
    """
    How the provided value is held against it. Known values: at-least, at-most, equal, one-of, present; others may be added.
    """


class ReviewedPeriod(BaseModel):
    """
    One period of one season, over the year.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    season: str | None
    """
    Null where its rates hold all year.
    """
    period: str
    hours: float
    """
    Hours of the year.
    """
    least_per_kwh: Decimal
    """
    Least energy rate of its tiers.
    """
    greatest_per_kwh: Decimal
    """
    Greatest energy rate of its tiers.
    """


class RuleSection(BaseModel):
    """
    The section that a rule rests on in one edition.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    edition: str
    section: str | None
    """
    Null where the edition has no such provision, or the rule rests on none.
    """


class RuleSummary(BaseModel):
    """
    A rule: one question that a check asks.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    name: str
    check: str
    """
    The check that applies it, such as circuits.
    """
    subject: str
    """
    What it judges.
    """
    force: str
    """
    requirement or recommendation.
    """
    question: str


class SeparateMeterResult(BaseModel):
    """
    Whether the best option with a separate meter pays.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    option: int
    """
    Rank of the best option with a separate meter.
    """
    installed_cost: Decimal
    years: int
    discount_rate_percent: float
    against: list[PayBack]


class SettingPoint(BaseModel):
    """
    What one control setting would do, all else alike.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    control_setting_a: float
    nights_met: int
    share_met_percent: float


class ShutoffNeed(BaseModel):
    """
    Whether an emergency shutoff is asked for, and why.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    required: bool | None
    """
    Null where a fact is missing.
    """
    why: str


class Smallest(BaseModel):
    """
    The smallest setting, and the service for it.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    control_setting_a: float | None
    """
    Smallest control setting found at which every night is met, A; null if none is.
    """
    resolution_a: float
    """
    Step of the settings that were tried below it, A. With equal sharing a larger setting may meet fewer nights, so that a smaller one between those tried is possible.
    """
    is_least: bool
    """
    Whether every smaller whole-ampere setting is known to miss a night.
    """
    settings_tried: int
    """
    Settings that were simulated, the stated one among them.
    """
    house_alone_a: float
    """
    Greatest current of the house alone on its largest leg, A.
    """
    service_rating_a: float | None
    """
    Smallest standard rating for that setting by the edition's factor, and for what the house alone draws at the same factor, A; where the edition counts them, with 6 A for each charger. Null without a setting or beyond the last standard rating.
    """
    why: str
    """
    How they were found, in words.
    """


class StepInput(BaseModel):
    """
    One input of a step: a value, its unit and the place that it was taken from.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    value: float | str
    """
    The number, or the name of a size, material or column.
    """
    unit: str
    """
    The unit; 1 for a plain number, text for a name.
    """
    from_: Annotated[str, Field(alias="from")]
    """
    request:<JSON pointer into the request>, design:<JSON pointer into the design>, series:<JSON pointer into the series>, bill:<JSON pointer into the worked bill>, answer:<JSON pointer into the answer>, codebook:<table or provision>/<row key>/<column>, price-book:<key>/<low, likely or high>, labour:<task, hourly_rate or condition_factors/<condition>>/<field>, or step:<id of an earlier step>. Decimal text at such a place stands for its number.
    """


class StudiedCharger(BaseModel):
    """
    All sessions of one charger. Energy is at the wall.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    charger: int
    """
    Its place in the request, from 0.
    """
    name: str | None
    sessions: int
    sessions_met: int
    needed_kwh: float
    delivered_kwh: float
    unmet_kwh: float
    hours_paused: float


class StudiedNight(BaseModel):
    """
    The sessions that begin on one local date, of all chargers together. Energy is at the wall.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    date: str
    """
    Local date of arrival.
    """
    sessions: int
    """
    Sessions that begin on it.
    """
    sessions_met: int
    """
    Those whose vehicle got what it needs.
    """
    needed_kwh: float
    delivered_kwh: float
    unmet_kwh: float
    hours_paused: float
    """
    Hours in which a vehicle waited for current, summed over the vehicles: too little left, a resume delay, a turn of others or a missing reading.
    """
    greatest_total_current_a: float
    """
    Greatest current of the largest leg while a vehicle was there, A.
    """
    met: bool
    """
    Whether every session of the night was met.
    """


class StudiedSession(BaseModel):
    """
    One session of one vehicle. Energy is at the wall.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    date: str
    """
    Local date of arrival.
    """
    charger: int
    """
    Its place in the request, from 0.
    """
    session: int
    """
    The session's place at that charger, from 0.
    """
    arrival: str
    """
    Local time with its offset.
    """
    departure: str
    """
    Local time with its offset.
    """
    needed_kwh: float
    delivered_kwh: float
    unmet_kwh: float
    hours_paused: float


class StudiedYear(BaseModel):
    """
    All the readings, whether they are a year or not. Energy is at the wall.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    days: float
    """
    Length of the readings in days of 24 h.
    """
    nights: int
    """
    Local dates of arrival whose sessions all lie in the readings.
    """
    nights_met: int
    share_met_percent: float | None
    """
    Null without a night.
    """
    sessions: int
    sessions_met: int
    sessions_left_out: int
    """
    Sessions of dates on which one begins before the readings or ends after them; not simulated.
    """
    worst_night: StudiedNight | None
    """
    Most energy unmet; of those alike the most hours paused, then the earliest.
    """
    energy_needed_kwh: float
    energy_delivered_kwh: float
    unmet_kwh: float
    hours_paused: float
    greatest_total_current_a: float | None
    """
    Greatest current of the largest leg while a vehicle charged, A. Null if none did.
    """
    greatest_house_current_a: float | None
    """
    Greatest current of the house alone on its largest leg, A.
    """
    hours_house_above_setting: float
    """
    Hours in which the house alone draws more than the control setting.
    """
    intervals_without_reading: int
    """
    Intervals whose reading is missing; nothing charges in them.
    """


class Supports(BaseModel):
    """
    Where a raceway or cable is fastened.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    within_of_box: Measure
    interval: Measure
    section: str


class TableAnswer(BaseModel):
    """
    A table of an edition with its rows.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    edition: str
    name: str
    title: str
    lookup: str
    """
    How the table is read.
    """
    row_keys: list[str]
    """
    The columns that find a row.
    """
    columns: list[Column]
    rows: list[dict[str, str | float | None]]
    """
    Each row by column name; null where the book prints nothing.
    """
    evidence: Evidence


class TableSummary(BaseModel):
    """
    A table of an edition, without its rows.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    name: str
    title: str
    row_count: int
    evidence: Evidence


class Termination(BaseModel):
    """
    A place where conductors are terminated.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    at: str
    torque: Measure | None
    """
    As marked; null: read the marking.
    """
    strip_length: Measure | None
    """
    As marked; null: read the marking.
    """
    source: str


class ToVerify(BaseModel):
    """
    A fact that the caller declared or left open, to be seen on site.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    pointer: str
    stated: str
    """
    What was stated, or what was assumed.
    """
    evidence: str
    """
    Where it can be seen.
    """


class TypicalFactor(BaseModel):
    """
    By how much a 15-minute peak exceeds the peak at this resolution, as published; it decides nothing.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    low: float
    median: float
    high: float
    source: str


class UnevenDay(BaseModel):
    """
    A local day that is not 24 hours long.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    date: str
    hours: float


class UngroundedConductors(BaseModel):
    """
    The conductors from the breaker's poles to the charger.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    size: str
    material: str
    insulation: str | None
    """
    Null where the whole run is cable.
    """
    count: int


class UsedLabourTable(BaseModel):
    """
    The labour table that was applied.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    name: str
    dated: str
    """
    Date of hours and rate.
    """
    currency: str | None
    is_demo: bool
    """
    Whether its rate is invented.
    """
    hourly_rate: MoneyRange


class UsedPriceBook(BaseModel):
    """
    The price book that was applied.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    name: str
    dated: str
    """
    Date of the prices.
    """
    currency: str | None
    is_demo: bool
    """
    Whether its prices are invented.
    """


class VoltageDrop(BaseModel):
    """
    Voltage drop at the charging current.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    volts: float
    percent: float
    method: str


class WayToFit(BaseModel):
    """
    One way to make the chargers fit, judged again with the same rules.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    way: str
    """
    What is done. Known values: lower-setting, energy-management, shared-circuit, panel-upgrade, service-upgrade; others may be added.
    """
    charging_current_a: float
    """
    Largest current of each charger that this way leaves, A.
    """
    why: str
    """
    What it takes, and what it gives.
    """
    upgrade_to_a: float | None
    """
    Standard rating of what is replaced, A; null where nothing is.
    """
    changes: list[RemedyChange]
    """
    The changes to the request as they were judged again.
    """
    verdict: str
    """
    Verdict of the whole review with these changes. Known values: no-failure-found, fail, undetermined; others may be added.
    """


class WorkedDay(BaseModel):
    """
    The energy of one date by period; what is nothing is left out.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    date: str
    kwh_by_period: list[PeriodEnergy]


class WorkedDemand(BaseModel):
    """
    What a demand charge measured.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    account: str
    """
    house: the house's meter, which bills the vehicle too where there is no other. charging: the vehicle's own. Known values: house, charging; others may be added.
    """
    name: str
    months: list[MonthDemand]
    """
    The month of the bill, then those before it that a ratchet looks at, latest first.
    """


class WorstDay(BaseModel):
    """
    The day of the worst night: from its local midnight to the next, or to the last departure of the night.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    date: str
    control_setting_a: float
    intervals: list[DayInterval]


class WorstWinterDay(BaseModel):
    """
    The night on which the window is shortest of what the worst winter day needs. Energy is at the wall.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    date: str
    """
    Local date of arrival.
    """
    needed_kwh: float
    deliverable_kwh: float
    """
    What the window brings at full current.
    """
    shortfall_kwh: float
    hours: float
    """
    Hours in which the schedule lets the vehicle charge.
    """
    current_that_would_do_a: float | None
    """
    Least whole current that would bring what is needed, A; at least the 6 A that a vehicle is offered. Null where there are no hours, or where it is more than the vehicle takes or a charger offers.
    """


class YearCost(BaseModel):
    """
    What twelve months cost, house and vehicle, in the tariffs' currency.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    with_charging: Decimal
    """
    All bills of house and vehicle.
    """
    without_charging: Decimal
    """
    The house alone on the tariff that it is on today.
    """
    charging: Decimal
    """
    The first less the second: what charging costs, all its effects included.
    """
    house_repriced: Decimal
    """
    What the house alone costs more on this tariff than on the one it is on today; below zero where it costs less. It is a part of charging; 0 where the house stays where it is.
    """


class AllEnergyTiers(BaseModel):
    """
    Tiers on all energy, whatever its period; they come on top of the energy rates.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    name: Annotated[str, Field(max_length=100, min_length=1)]
    season: Annotated[str | None, Field(max_length=100, min_length=1)] = None
    """
    Name of a season. Not stated: all year.
    """
    allowance_per: Literal["month", "day"] | None = None
    """
    Whether the tiers begin anew each month, or are so many kWh for each day of the bill. Not stated: month, which is to be verified where there are several tiers.
    """
    tiers: Annotated[list[Tier], Field(max_length=10)]
    """
    Cheapest use first.
    """


class AnnualEnergy(BaseModel):
    """
    The energy of a year and how it lies in it.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    kind: Literal["annual-energy"]
    kwh_per_year: Annotated[float, Field(ge=0.0, le=1000000.0)]
    profile: Profile | None = None
    """
    Not stated: even over the year, which no house is, and which is to be verified.
    """


class AnnualGeneration(BaseModel):
    """
    The generation of a year and how it lies in it; no generation is even.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    kind: Literal["annual-energy"]
    kwh_per_year: Annotated[float, Field(ge=0.0, le=1000000.0)]
    profile: Profile


class Cable(BaseModel):
    """
    What a cable brings beside its ungrounded conductors, and what is printed on it.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    grounding_size: (
        Literal[
            "14 AWG",
            "12 AWG",
            "10 AWG",
            "8 AWG",
            "6 AWG",
            "4 AWG",
            "3 AWG",
            "2 AWG",
            "1 AWG",
            "1/0 AWG",
            "2/0 AWG",
            "3/0 AWG",
            "4/0 AWG",
            "250 kcmil",
        ]
        | None
    ) = None
    """
    Grounding conductor that the cable is made with.
    """
    neutral_size: (
        Literal[
            "14 AWG",
            "12 AWG",
            "10 AWG",
            "8 AWG",
            "6 AWG",
            "4 AWG",
            "3 AWG",
            "2 AWG",
            "1 AWG",
            "1/0 AWG",
            "2/0 AWG",
            "3/0 AWG",
            "4/0 AWG",
            "250 kcmil",
        ]
        | None
    ) = None
    """
    Neutral that the cable is made with.
    """
    outside_diameter: Length | None = None
    """
    Over the sheath, the larger one of a flat cable; for fill of a sleeve.
    """
    conductor_temperature_rating_c: Literal[60, 75, 90] | None = None
    """
    Temperature rating of the conductors as printed on SE, MC or AC cable, degC. Not stated: 75. Other cables have the rating of their article.
    """
    listed_for_wet: bool | None = None
    """
    Whether MC cable is listed for wet locations. Not stated: unknown.
    """


class Charging(BaseModel):
    """
    What the vehicle needs, where it charges, and when it is there. A night belongs to its arrival date.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    energy_need: Annotated[EnergyEachDay | DistanceEachDay, Field(discriminator="kind")]
    charger: PricedCharger
    vehicle: PricedVehicle | None = None
    arrival: Annotated[str, Field(pattern="^([01][0-9]|2[0-3]):[0-5][0-9]$")]
    """
    HH:MM by the local clock.
    """
    departure: Annotated[str, Field(pattern="^([01][0-9]|2[0-3]):[0-5][0-9]$")]
    """
    HH:MM by the local clock; at or before the arrival: on the next day.
    """
    other_days: Annotated[list[OtherDays] | None, Field(max_length=7)] = None
    """
    Weekdays of arrival with other times. No two may name the same weekday.
    """


class DemandCharge(BaseModel):
    """
    A price of the greatest average power of the month.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    name: Annotated[str, Field(max_length=100, min_length=1)]
    season: Annotated[str | None, Field(max_length=100, min_length=1)] = None
    """
    Name of a season. Not stated: all year.
    """
    period: Annotated[str | None, Field(max_length=100, min_length=1)] = None
    """
    Name of a period of the energy rates. Not stated: every hour.
    """
    per_kw: Annotated[Money, Field(pattern="^(0|[1-9][0-9]{0,11})(\\.[0-9]{1,8})?$")]
    averaging_minutes: Literal[15, 30, 60]
    """
    Time over which the power is averaged, minutes.
    """
    least_kw: Annotated[float | None, Field(ge=0.0, le=1000000.0)] = None
    """
    Least demand that is billed, kW. Not stated: none.
    """
    ratchet: Ratchet | None = None


class Dwelling(BaseModel):
    """
    One dwelling unit and what stands in it. A list that is not stated is empty.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    floor_area_ft2: Annotated[float | None, Field(ge=0.0, le=1000000.0)] = None
    """
    Floor area by the outside dimensions, without open porches, garages and spaces that cannot be made use of, ft2. Not stated: unknown, and no method gives a total.
    """
    small_appliance_circuits: Annotated[int | None, Field(ge=0, le=100)] = None
    """
    Small-appliance branch circuits. Not stated: the least that the edition asks for.
    """
    laundry_circuits: Annotated[int | None, Field(ge=0, le=100)] = None
    """
    Laundry branch circuits. Not stated: the least that the edition asks for.
    """
    ranges: Annotated[list[CookingAppliance] | None, Field(max_length=100)] = None
    dryers: Annotated[list[Dryer] | None, Field(max_length=100)] = None
    appliances: Annotated[list[Appliance] | None, Field(max_length=100)] = None
    heating: Annotated[list[SpaceHeating] | None, Field(max_length=100)] = None
    cooling: Annotated[list[Cooling] | None, Field(max_length=100)] = None
    heat_pumps: Annotated[list[HeatPump] | None, Field(max_length=100)] = None
    chargers: Annotated[list[DwellingCharger] | None, Field(max_length=100)] = None
    load_management: Annotated[list[LoadManagement] | None, Field(max_length=100)] = None


class EnergyRate(BaseModel):
    """
    The price of energy in some hours of some days.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    period: Annotated[str, Field(max_length=100, min_length=1)]
    """
    Name of the period, such as on-peak.
    """
    season: Annotated[str | None, Field(max_length=100, min_length=1)] = None
    """
    Name of a season. Not stated: all year.
    """
    day_type: Annotated[str | None, Field(max_length=100, min_length=1)] = None
    """
    Name of a day type. Not stated: every day.
    """
    from_: Annotated[str, Field(alias="from", pattern="^([01][0-9]|2[0-3]):(00|15|30|45)$")]
    """
    HH:MM by the local clock.
    """
    to: Annotated[str, Field(pattern="^([01][0-9]|2[0-3]):(00|15|30|45)$")]
    """
    HH:MM by the local clock; at or before the beginning: both ends of the same date, from 00:00 and until 24:00. 00:00 to 00:00 is the whole day.
    """
    tiers: Annotated[list[Tier], Field(max_length=10)]
    """
    Cheapest use first.
    """
    allowance_per: Literal["month", "day"] | None = None
    """
    Whether the tiers begin anew each month, or are so many kWh for each day of the bill. Not stated: month, which is to be verified where there are several tiers.
    """
    export_per_kwh: Annotated[Money | None, Field(pattern="^(0|[1-9][0-9]{0,11})(\\.[0-9]{1,8})?$")] = None
    """
    What a kWh is credited that flows out in these hours. Not stated: nothing.
    """


class Installed(BaseModel):
    """
    The circuit as proposed or found. What is not stated is unknown.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    breaker_rating_a: Annotated[float | None, Field(gt=0.0, le=6000.0)] = None
    ungrounded_size: (
        Literal[
            "14 AWG",
            "12 AWG",
            "10 AWG",
            "8 AWG",
            "6 AWG",
            "4 AWG",
            "3 AWG",
            "2 AWG",
            "1 AWG",
            "1/0 AWG",
            "2/0 AWG",
            "3/0 AWG",
            "4/0 AWG",
            "250 kcmil",
        ]
        | None
    ) = None
    neutral_size: (
        Literal[
            "14 AWG",
            "12 AWG",
            "10 AWG",
            "8 AWG",
            "6 AWG",
            "4 AWG",
            "3 AWG",
            "2 AWG",
            "1 AWG",
            "1/0 AWG",
            "2/0 AWG",
            "3/0 AWG",
            "4/0 AWG",
            "250 kcmil",
        ]
        | None
    ) = None
    """
    Not stated: unknown where one is needed.
    """
    grounding_size: (
        Literal[
            "14 AWG",
            "12 AWG",
            "10 AWG",
            "8 AWG",
            "6 AWG",
            "4 AWG",
            "3 AWG",
            "2 AWG",
            "1 AWG",
            "1/0 AWG",
            "2/0 AWG",
            "3/0 AWG",
            "4/0 AWG",
            "250 kcmil",
        ]
        | None
    ) = None
    grounding_material: Literal["copper", "aluminum"] | None = None
    ground_fault_protection: Literal["breaker", "receptacle", "charger", "none"] | None = None
    disconnect: InstalledDisconnect | None = None
    emergency_shutoff: bool | None = None
    """
    Whether there is an emergency shutoff for the chargers, where one is asked for.
    """
    setting_label: bool | None = None
    """
    Whether the adjusted current is on the label.
    """
    torque_records: Annotated[list[TorqueRecord] | None, Field(max_length=50)] = None


class IntervalDataRequest(BaseModel):
    """
    What do these meter readings say of the demand?
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    edition: Literal["nec-2017", "nec-2020", "nec-2023", "nec-2026"] | None = None
    """
    The code edition whose conditions of a measured demand are applied. Not stated: the findings that rest on them are undetermined.
    """
    jurisdiction: Annotated[str | None, Field(max_length=200, min_length=1)] = None
    """
    Place, for the record; local amendments are not applied.
    """
    readings: Readings | None = None
    time_zone: Annotated[str | None, Field(max_length=64, min_length=1)] = None
    """
    IANA name of the zone of stamps that bear no offset, and of months and days. Not stated: stamps need an offset.
    """
    system: Literal["split-phase-120-240", "wye-208y-120"] | None = None
    """
    System that the meter measures, for amperes. Not stated: amperes are left out.
    """
    phases: Literal[1, 3] | None = None
    """
    Phases that the meter measures; 3 on a wye system only. Not stated: 1.
    """
    has_generation: bool | None = None
    """
    Whether the premises have solar or other generation, or storage. Not stated: unknown.
    """
    leg_assumption: Literal["balanced", "all-on-one-leg"] | None = None
    """
    How the demand lies on the legs, for amperes. Not stated: balanced, which is to be verified.
    """
    series: Annotated[RegularSeries | StampedSeries, Field(discriminator="kind")]


class LabourTable(BaseModel):
    """
    Hours of work by task, and what an hour is charged at.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    name: Annotated[str, Field(max_length=200, min_length=1)]
    dated: Annotated[
        str,
        Field(pattern="^(19|20|21)[0-9][0-9]-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])$"),
    ]
    """
    The day from which hours and rate are.
    """
    currency: Annotated[str | None, Field(pattern="^[A-Z]{3}$")] = None
    """
    Of the hourly rate. Not stated: a finding asks for it.
    """
    is_demo: bool | None = None
    """
    Whether the rate is invented. Not stated: it is not.
    """
    hourly_rate: HourlyRate
    tasks: Annotated[dict[str, Task], Field(max_length=500)]
    """
    By key, such as `breaker`, `raceway/emt/3/4` or `pull/6 AWG`. What is needed and not there is left unpriced and named by a finding.
    """
    condition_factors: ConditionFactors | None = None
    """
    Not stated: work takes as long as in the open, whatever the condition.
    """


class LoadCalculationRequest(BaseModel):
    """
    What is this dwelling's load by each permitted method?
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    edition: Literal["nec-2017", "nec-2020", "nec-2023", "nec-2026"]
    """
    Code edition to apply.
    """
    jurisdiction: Annotated[str | None, Field(max_length=200, min_length=1)] = None
    """
    Place, for the record; local amendments are not applied.
    """
    readings: Readings | None = None
    occupancy: Literal["one-family", "two-family", "multifamily", "other"] | None = None
    """
    Kind of building; decides on the least service. Not stated: one-family.
    """
    service: DwellingService | None = None
    """
    Not stated: loads that need a voltage and all currents are undetermined.
    """
    dwelling: Dwelling
    methods: Annotated[
        list[Literal["standard", "optional-new", "optional-existing"]] | None,
        Field(max_length=3, min_length=1),
    ] = None
    """
    Methods to calculate by. Not stated: all. One that is named twice is calculated once.
    """


class ManagedCharger(BaseModel):
    """
    A charger that the management controls, and the vehicle that comes to it.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    name: Annotated[str | None, Field(max_length=100, min_length=1)] = None
    """
    For the reader; nothing depends on it.
    """
    charging_current_a: Annotated[float, Field(gt=0.0, le=1000.0)]
    """
    Continuous current that it is set to, A.
    """
    circuit_breaker_a: Annotated[float, Field(gt=0.0, le=6000.0)]
    """
    Breaker of its branch circuit, A.
    """
    phases: Literal[1, 3] | None = None
    """
    Phases that it uses; 3 on a three-phase service only. Not stated: 1.
    """
    vehicle: Vehicle | None = None
    sessions: Annotated[list[Session], Field(max_length=21, min_length=1)]
    """
    The vehicle's week. No two may overlap.
    """


class ManagedChargingRequest(BaseModel):
    """
    What does load-managed charging deliver, night by night?
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    edition: Literal["nec-2017", "nec-2020", "nec-2023", "nec-2026"]
    """
    The code edition that the answer applies.
    """
    jurisdiction: Annotated[str | None, Field(max_length=200, min_length=1)] = None
    """
    Place, for the record; local amendments are not applied.
    """
    readings: Readings | None = None
    service: StudiedService
    house_load: HouseLoad
    chargers: Annotated[list[ManagedCharger], Field(max_length=200, min_length=1)]
    """
    The chargers under management.
    """
    management: Management


class ReviewedService(BaseModel):
    """
    The service and its panel.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    rating_a: Annotated[float, Field(gt=0.0, le=6000.0)]
    """
    Rating of the service, A.
    """
    system: Literal["split-phase-120-240", "wye-208y-120"]
    """
    240 V between the lines of a split-phase system, or 208 V between two of a wye.
    """
    phases: Literal[1, 3] | None = None
    """
    Phases of the service; 3 on a wye system only. Not stated: 1.
    """
    main_breaker_a: Annotated[float | None, Field(gt=0.0, le=6000.0)] = None
    """
    Rating of the main breaker, A. Not stated: not judged.
    """
    busbar_rating_a: Annotated[float | None, Field(gt=0.0, le=6000.0)] = None
    """
    Rating of the panel's busbar, A. Not stated: not judged.
    """
    backfeed_breaker_a: Annotated[float | None, Field(gt=0.0, le=6000.0)] = None
    """
    Breaker of a source that feeds the busbar back, such as a solar inverter, A. Not stated: no such source.
    """
    backfeed_output_a: Annotated[float | None, Field(gt=0.0, le=1000.0)] = None
    """
    Rated output current of that source, A. Not stated: its breaker's rating counts.
    """
    backfeed_opposite_main: bool | None = None
    """
    Whether the source connects at the end of the busbar opposite to the main. Not stated: unknown.
    """
    conductors: ServiceConductors | None = None
    """
    The service conductors. Not stated: not judged.
    """


class Segment(BaseModel):
    """
    A part of the run with one wiring method and environment, in order from panel to charger.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    wiring_method: Literal[
        "emt", "imc", "rmc", "pvc-40", "pvc-80", "fmc", "lfmc", "lfnc-b", "nm-b", "uf-b", "se", "mc", "ac"
    ]
    length: Length
    location: Literal["dry", "damp", "wet"] | None = None
    """
    Not stated: unknown, and the worst is assumed.
    """
    ambient_c: Annotated[float | None, Field(ge=-60.0, le=120.0)] = None
    """
    Greatest ambient temperature, degC. Not stated: that of the ampacity table.
    """
    rooftop_clearance: Length | None = None
    """
    Height of the raceway or cable above a roof in the sun. Not stated: not on such a roof.
    """
    other_current_carrying_conductors: Annotated[int | None, Field(ge=0, le=500)] = None
    """
    Current-carrying conductors of other circuits in the raceway or bundle. Not stated: 0, or two for each other cable of bundled_cables.
    """
    bundled_cables: Annotated[int | None, Field(ge=1, le=100)] = None
    """
    Cables that lie together without spacing, this one included; for cables. Not stated: 1.
    """
    in_thermal_insulation: bool | None = None
    """
    Whether a cable lies in contact with thermal insulation, or passes framing in an opening that is sealed with it. Not stated: it does not.
    """
    underground: Underground | None = None
    """
    Not stated: the segment is not underground.
    """
    listed_for_direct_burial: bool | None = None
    """
    Whether MC, LFMC or LFNC is marked for direct burial. Not stated: unknown.
    """
    other_conductors_area_in2: Annotated[float | None, Field(ge=0.0, le=100.0)] = None
    """
    Area that other conductors fill in the raceway, in2. Not stated: 0 where there are none.
    """
    raceway_trade_size: Literal["1/2", "3/4", "1", "1-1/4", "1-1/2", "2"] | None = None
    """
    Trade size of the raceway, or of the sleeve around a cable; a design chooses a raceway's where not stated.
    """
    sleeve_method: Literal["emt", "imc", "rmc", "pvc-40", "pvc-80", "fmc", "lfmc", "lfnc-b"] | None = None
    """
    Raceway that a cable is drawn into. Not stated: none or unknown.
    """
    raceway_temperature_rating_c: Annotated[float | None, Field(ge=40.0, le=250.0)] = None
    """
    Temperature marked on the raceway, degC. Not stated: the usual listing of its kind.
    """
    cable: Cable | None = None


class Tariff(BaseModel):
    """
    Prices of energy by the local calendar, and what else stands on the bill. A sound one prices every hour once.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    name: Annotated[str, Field(max_length=100, min_length=1)]
    currency: Annotated[str, Field(pattern="^[A-Z]{3}$")]
    """
    Code of ISO 4217, such as USD.
    """
    time_zone: Annotated[str, Field(max_length=64, min_length=1)]
    """
    IANA name of the zone by whose clock it prices.
    """
    country: Annotated[str | None, Field(pattern="^[A-Z]{2}$")] = None
    """
    ISO 3166 code of the country whose public holidays count. Not stated: none count.
    """
    subdivision: Annotated[str | None, Field(pattern="^[A-Z0-9]{1,3}$")] = None
    """
    Code of the state or province whose holidays count too, as ISO 3166-2 writes it after the hyphen.
    """
    observed_holidays: Literal["observed-day", "actual-day", "both"] | None = None
    """
    Which day counts where a holiday is observed on another than its own. Not stated: both, which is to be verified.
    """
    holiday_names: Annotated[list[HolidayName] | None, Field(max_length=400)] = None
    """
    The only holidays of the country that count, by name. Not stated: all.
    """
    holiday_dates: Annotated[list[HolidayDate] | None, Field(max_length=400)] = None
    """
    Dates that count as holidays beside them, YYYY-MM-DD.
    """
    effective: Effective | None = None
    """
    When it is in force. Not stated: the whole year that is asked for.
    """
    seasons: Annotated[list[Season] | None, Field(max_length=12, validate_default=True)] = []
    day_types: Annotated[list[DayType] | None, Field(max_length=10, validate_default=True)] = []
    energy_rates: Annotated[list[EnergyRate], Field(max_length=100)]
    """
    Rows with the same season and period are one price, and have the same tiers.
    """
    tiers_on_all_energy: Annotated[
        list[AllEnergyTiers] | None, Field(max_length=30, validate_default=True)
    ] = []
    fixed_charges: Annotated[list[FixedCharge] | None, Field(max_length=30, validate_default=True)] = []
    demand_charges: Annotated[list[DemandCharge] | None, Field(max_length=30, validate_default=True)] = []
    minimum_bill: MinimumBill | None = None
    riders: Annotated[list[Rider] | None, Field(max_length=30, validate_default=True)] = []
    credits: Annotated[list[BillCredit] | None, Field(max_length=30, validate_default=True)] = []
    critical_peak_events: Annotated[
        list[CriticalPeakEvent] | None, Field(max_length=400, validate_default=True)
    ] = []
    rounding: Rounding | None = None
    """
    Not stated: each line, a half away from zero.
    """
    arrangements: Annotated[
        list[Literal["whole-house", "own-meter", "submeter"]] | None,
        Field(max_length=3, min_length=1),
    ] = None
    """
    The meters that it may serve. Not stated: all.
    """


class TariffReviewRequest(BaseModel):
    """
    Is this tariff sound, and what does each hour cost?
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    tariff: Tariff
    year: Annotated[int, Field(ge=2000, le=2100)]
    """
    The calendar year, by the tariff's own clock.
    """


class Terminals(BaseModel):
    """
    What is marked at the terminals of a device. A missing marking is unknown, not absent.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    temperature_rating_c: Literal[60, 75, 90] | None = None
    """
    Conductor temperature that the terminals are marked for, degC. Not stated: taken as unmarked.
    """
    materials: Annotated[list[Literal["copper", "aluminum"]] | None, Field(max_length=2, min_length=1)] = None
    """
    Conductor materials that they are identified for.
    """
    smallest: (
        Literal[
            "14 AWG",
            "12 AWG",
            "10 AWG",
            "8 AWG",
            "6 AWG",
            "4 AWG",
            "3 AWG",
            "2 AWG",
            "1 AWG",
            "1/0 AWG",
            "2/0 AWG",
            "3/0 AWG",
            "4/0 AWG",
            "250 kcmil",
        ]
        | None
    ) = None
    """
    Smallest conductor that they take.
    """
    largest: (
        Literal[
            "14 AWG",
            "12 AWG",
            "10 AWG",
            "8 AWG",
            "6 AWG",
            "4 AWG",
            "3 AWG",
            "2 AWG",
            "1 AWG",
            "1/0 AWG",
            "2/0 AWG",
            "3/0 AWG",
            "4/0 AWG",
            "250 kcmil",
        ]
        | None
    ) = None
    """
    Largest conductor that they take.
    """
    torque: Torque | None = None
    """
    Tightening torque marked on the device.
    """
    strip_length: Length | None = None
    """
    Length of insulation to strip, as marked on the device.
    """


class Timer(BaseModel):
    """
    Charging begins with the first window of the stay, and goes on in windows only.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    kind: Literal["timer"]
    name: Annotated[str | None, Field(max_length=100, min_length=1)] = None
    windows: Annotated[list[TimerWindow], Field(max_length=10, min_length=1)]


class Travel(BaseModel):
    """
    The way to the site.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    distance: TravelDistance
    """
    There and back.
    """
    trips: Annotated[int, Field(ge=1, le=100)]
    """
    How often it is made.
    """


class Capacity(BaseModel):
    """
    What the service carries, and what it could.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    existing_load_va: float | None
    """
    Load without the chargers, VA; null where it cannot be computed.
    """
    charger_load_va: float | None
    """
    What the chargers add without management, VA, at the factor in force.
    """
    total_va: float | None
    """
    Both together, VA.
    """
    total_a: float | None
    """
    The same in A on the busiest line, not rounded.
    """
    greatest_total_a: float | None
    """
    The same with every missing fact at its worst, A; equal where none is missing.
    """
    limit_a: float
    """
    The least of service rating, main breaker and busbar, A.
    """
    headroom_a: float | None
    """
    The limit less the existing load, A; below zero where that load is too large.
    """
    least_headroom_a: float | None
    """
    The same with every missing fact at its worst, A; equal where none is missing.
    """
    managed_total_a: float | None
    """
    What the control setting counts for on the service, A; null without management.
    """
    lost_link_total_a: float | None
    """
    Load when managed chargers have lost their monitor, A; null without management or where it is not known.
    """
    largest_charging_current_a: LargestChargingCurrent
    ways_to_fit: list[WayToFit]
    """
    Ways to make it fit, cheapest first; empty where nothing needs mending or none does.
    """


class ComparedCost(BaseModel):
    """
    What the installation of one current costs: the totals of an installation estimate for the same facts.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    total: MoneyRange
    more_than_lower_current: Decimal | None
    """
    Likely total less that of the next lower current that has a circuit; below zero where it costs less than that. Null for the lowest.
    """
    is_complete: bool
    """
    Whether every line has an amount; if not, it costs more than the total.
    """
    unpriced: list[str]
    """
    Keys that have no price or no hours.
    """
    currency: str | None


class ComparedCurrent(BaseModel):
    """
    One charging current: the circuit that it needs and the energy that it brings.

    The circuit is the one that a circuit design answers for the same facts and this current. Where that has no
    design, every field of the circuit is null and the raceways are none.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    charging_current_a: float
    verdict: str
    """
    Verdict of the circuit at this current. Known values: no-failure-found, fail, undetermined; others may be added.
    """
    failed_rules: list[str]
    """
    Requirements that fail.
    """
    undetermined_rules: list[str]
    """
    Requirements that lack a fact.
    """
    breaker_rating_a: float | None
    poles: int | None
    ungrounded_size: str | None
    neutral_size: str | None
    """
    Null also where the charger needs none.
    """
    grounding_size: str | None
    raceways: list[ComparedRaceway]
    """
    One for each segment whose fill is known.
    """
    voltage_drop: ComparedDrop | None
    conductor_temperature_c: float | None
    """
    Operating temperature in the hottest segment, degC.
    """
    ground_fault_protection_required: bool | None
    """
    Null also where a fact is missing.
    """
    disconnect_required: bool | None
    label_required: bool | None
    """
    Whether the setting stands on a label; null also where it is not known.
    """
    power_kw: float
    """
    At the wall and the nominal voltage; a circuit or none.
    """
    kwh_per_hour: float
    """
    Energy of an hour, kWh: the same number as the power.
    """
    kwh_per_night: float | None
    """
    Null where no hours of a night are stated.
    """
    changes: list[CurrentChange]
    """
    What is different from the next lower current that has a circuit.
    """
    mark: str | None
    """
    Why this current is a good one to stop at, in words: the last before a step in cost, or the last that these facts allow. Null where it is neither.
    """
    cost: ComparedCost | None
    """
    Null without a price book, and where there is no circuit. POST /v1/installation-estimates shows its lines and working.
    """


class ComparedInterpretation(BaseModel):
    """
    A disputed provision that at least one current had to read one way.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    name: str
    reading: str
    """
    The reading in force for this answer.
    """
    other_readings: list[ComparedReading]


class ComparedOption(BaseModel):
    """
    One tariff, meter arrangement and schedule, priced over twelve months.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    rank: int
    """
    From 1: those that meet the need first, then the cheapest.
    """
    tariff: str
    arrangement: str
    """
    Which meter bills the vehicle. Known values: whole-house, own-meter, submeter; others may be added.
    """
    schedule: ComparedSchedule
    annual: YearCost
    months: list[ComparedMonth]
    per_kwh: Decimal | None
    """
    annual.charging for each kWh charged; null where nothing is charged.
    """
    per_distance: DistanceCost | None
    """
    Null where the need is stated as energy, or nothing is charged.
    """
    charged_kwh: float
    """
    Energy charged in the year, kWh at the wall.
    """
    greatest_demand_kw: float
    """
    Greatest average power that the meter which bills the vehicle takes from the grid in one interval, kW.
    """
    unmet_kwh: float
    """
    Energy that is never made up, kWh at the wall.
    """
    nights_unmet: int
    """
    Nights after which the vehicle has less than it needs, or owes from before.
    """
    least_cost_basis: str | None
    """
    Of a least-cost schedule: whether nothing cheaper is possible, save for what the rounding of lines moves, or it is the cheapest that was tried, as with tiers and demand charges. Null for other schedules. Known values: optimum, best-of-tried; others may be added.
    """


class ConsultedInterpretation(BaseModel):
    """
    A disputed provision that this answer had to read one way.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    name: str
    reading: str
    """
    The reading in force for this answer.
    """
    other_readings: list[OtherReading]
    changes_verdict: bool
    """
    Whether any other reading changes the verdict.
    """


class Cover(BaseModel):
    """
    How deep a segment lies.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    least: Measure
    """
    From the top of raceway or cable to finished grade.
    """
    under: str
    """
    The row of the cover table that applies. Known values: soil, dwelling-driveway, street, building, concrete; others may be added.
    """
    section: str


class DataQuality(BaseModel):
    """
    What was found of the readings as data. Counts are of readings, or of intervals, unless they say else.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    readings: int
    """
    Readings that could be read.
    """
    expected: int | None
    """
    Intervals from the first to the last; null without any.
    """
    coverage_percent: float | None
    """
    Intervals with a reading, of those expected.
    """
    resolution_minutes: int | None
    """
    Length of the intervals.
    """
    gap_count: int
    gaps: list[Gap]
    """
    The longest, at most 100, in the order of time.
    """
    duplicates: int
    """
    Further readings of an interval that already had one.
    """
    conflicting_duplicates: int
    """
    Of these, those with another value; the greatest of the interval was taken.
    """
    overlaps: int
    """
    Readings that begin before the one before them has ended.
    """
    unsorted: int
    """
    Readings that stand after a later one.
    """
    zeros: int
    longest_zero_run_minutes: int
    estimated: int
    """
    Readings that were edited, estimated, derived, projected or mixed, not measured.
    """
    questionable: int
    """
    Readings marked questionable, or with an unknown mark.
    """
    negative: int
    clipped: int
    """
    Zeros by day, where they come by day and not by night: export cut off at zero.
    """
    register_like: bool
    """
    Whether values sent as energy or power only ever rise, as a register does.
    """
    out_of_range: int
    """
    Readings above what the greatest service carries; a marker or a wrong unit.
    """
    months: list[MonthOfData]
    short_days: list[UnevenDay]
    """
    Local days of less than 24 hours in the series.
    """
    long_days: list[UnevenDay]
    """
    Local days of more than 24 hours in the series.
    """
    fault_count: int
    faults: list[Fault]
    """
    The first 50, in the order of the body.
    """


class DesignedBreaker(BaseModel):
    """
    The breaker.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    rating_a: float
    poles: int
    ground_fault_protection: GroundFaultProtection


class DesignedConductors(BaseModel):
    """
    The conductors of the circuit.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    ungrounded: UngroundedConductors
    neutral: Neutral | None
    grounding: GroundingConductor


class DesignedSegment(BaseModel):
    """
    One segment of the run.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    wiring_method: str
    """
    Wiring method of the segment. Known values: emt, imc, rmc, pvc-40, pvc-80, fmc, lfmc, lfnc-b, nm-b, uf-b, se, mc, ac; others may be added.
    """
    ampacity_a: float
    """
    After correction, adjustment and cap.
    """
    conductor_temperature_c: float | None
    """
    Operating temperature at the load, degC.
    """
    raceway: DesignedRaceway | None
    supports: Supports | None
    cover: Cover | None
    """
    Null above ground.
    """


class EditionAnswer(BaseModel):
    """
    An edition with what the codebook holds of it.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    edition: EditionRecord
    tables: list[TableSummary]
    provisions: list[ProvisionAnswer]
    interpretations: list[InterpretationAnswer]


class EditionPage(BaseModel):
    """
    A part of the list of editions.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    items: list[EditionRecord]
    next_after: str | None
    """
    'after' of the next page; null on the last one.
    """


class EstimateLine(BaseModel):
    """
    One line of the estimate.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    item: str
    """
    What it is, in words.
    """
    group: str
    """
    Which total it counts in. Known values: material, labour, fee; others may be added.
    """
    key: str | None
    """
    Key of the price book, or of the labour table for labour. Null where a missing fact leaves it open, and for consumables, which are a percentage.
    """
    quantity: float
    """
    In units of the price; of labour in units of its hours.
    """
    unit: str
    """
    What one of the quantity is.
    """
    why: str
    """
    How the quantity came about.
    """
    hours: HoursRange | None
    """
    Of labour: quantity by hours of one unit by the factor of the condition. Else null.
    """
    unit_price: MoneyRange | None
    """
    Price of one unit; of labour the hourly rate. Null where it is not known.
    """
    amount: MoneyRange | None
    """
    Quantity, or hours, by unit price, rounded half up once; null where that is not known.
    """
    rests_on: list[str]
    """
    Where it comes from: request:<JSON pointer> or design:<JSON pointer into design>.
    """


class EstimateTotals(BaseModel):
    """
    The sums of the lines. Every level reconciles with the one below to the last digit of the currency.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    material: MoneyRange
    labour: MoneyRange
    fees: MoneyRange
    markup: MoneyRange
    tax: MoneyRange
    total: MoneyRange
    is_complete: bool
    """
    Whether every line has an amount; if not, the job costs more than the total.
    """
    currency: str | None
    """
    Null where neither price book nor labour table states one.
    """


class MeasuredDemand(BaseModel):
    """
    The greatest demand that the readings show.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    greatest_w: float
    """
    Greatest average power of one interval, W.
    """
    at: str
    """
    Start of that interval, ISO 8601 with offset.
    """
    averaging_minutes: int
    """
    Length of the interval.
    """
    total_kwh: float
    """
    Energy of all readings, to hold against bills.
    """
    days: float
    """
    From the first to the last interval, in days of 24 hours.
    """
    coverage_percent: float
    bound_15_minute_w: float | None
    """
    No 15-minute demand within the readings can exceed it, W; null where there is no bound.
    """
    bound_factor: float | None
    """
    The bound over the greatest demand.
    """
    bound_why: str
    typical_factor: TypicalFactor | None
    leg_assumption: str
    """
    How the demand is taken to lie on the legs, for amperes. Known values: balanced, all-on-one-leg; others may be added.
    """
    greatest_a: float | None
    """
    The greatest demand in amperes of the larger leg, at power factor 1; null where unknown.
    """


class PricedDay(BaseModel):
    """
    A local date, hour by hour.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    date: str
    weekday: str
    """
    Weekday. Known values: mon, tue, wed, thu, fri, sat, sun; others may be added.
    """
    day_types: list[str]
    """
    Every day type that the date is of.
    """
    holiday: str | None
    """
    Name of the holiday that counts on it, if any.
    """
    hours: list[PricedHour]


class PricedWeek(BaseModel):
    """
    The first week of a season.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    season: str | None
    """
    Null for the dates that are in no season.
    """
    week_start: str
    """
    Its Monday.
    """
    days: list[PricedDay]
    """
    Monday to Sunday: the first such week of the year that lies in the season and the year entirely; where there is none, the days of the first one that do.
    """


class Remedy(BaseModel):
    """
    The nearest single change that was computed and reviewed again.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    pointer: str
    """
    JSON pointer of the field of the request to change.
    """
    given: float | str | None
    """
    Its value now; null where it is not stated.
    """
    proposed: float | str
    """
    What to change it to, in a word or a number.
    """
    changes: list[RemedyChange]
    """
    The change as it was made for the second check, with what belongs to it.
    """
    message: str
    """
    The change in words.
    """
    verdict: str
    """
    Verdict of the whole circuit after this change alone; fail means that other failures remain. Known values: no-failure-found, fail, undetermined; others may be added.
    """


class RuleAnswer(BaseModel):
    """
    A rule in prose, with the sections that it rests on.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    name: str
    check: str
    """
    The check that applies it, such as circuits.
    """
    subject: str
    """
    What it judges.
    """
    force: str
    """
    requirement or recommendation.
    """
    question: str
    prose: str
    """
    When it applies, what it rests on, what a missing fact does.
    """
    sections: list[RuleSection]
    interpretations: list[str]
    """
    The interpretations that it may consult.
    """


class RulePage(BaseModel):
    """
    A part of the list of rules.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    items: list[RuleSummary]
    next_after: str | None
    """
    'after' of the next page; null on the last one.
    """


class ScheduleWindow(BaseModel):
    """
    Whether a schedule's hours bring what is needed, night by night.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    schedule: int
    """
    Its place in the request, from 0.
    """
    nights: int
    """
    Nights on which the vehicle needs energy.
    """
    nights_met: int
    """
    Those after which it has all it needs, what was owed from before included.
    """
    unmet_kwh: float
    """
    Energy that is never made up, kWh at the wall.
    """
    worst_day: WorstWinterDay | None
    """
    Null where nothing is needed.
    """


class Step(BaseModel):
    """
    One replayable computation.

    The expression uses numbers, the names of its inputs, `+ - * / ^ ( )`, `sqrt min max floor ceil round`
    and `lookup(table, key, ..., column part, ...)`.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    id: str
    """
    Unique within the answer; other steps name it as step:<id>.
    """
    quantity: str
    """
    What is computed, in the words of the trade.
    """
    segment: int | None
    """
    Index of the run's segment, if it concerns one.
    """
    expression: str
    """
    The expression over the inputs.
    """
    inputs: dict[str, StepInput]
    """
    The inputs by the names that the expression uses.
    """
    value: float | str
    """
    What the expression evaluates to.
    """
    unit: str
    """
    Unit of the value; 1 for a plain number, size for a size.
    """
    citation: Citation | None
    """
    The section that asks for this computation, if any.
    """


class WorkedBillAnswer(BaseModel):
    """
    The month whose bill the steps work out: energy day by day, demands, then the lines.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    option: int
    """
    Rank of the option whose bill it is.
    """
    month: str
    """
    YYYY-MM.
    """
    days: list[WorkedDay]
    demands: list[WorkedDemand]
    lines: list[ComparedLine]
    total: Decimal


class Breaker(BaseModel):
    """
    The breaker at the panel, apart from its rating.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    terminals: Terminals | None = None
    """
    Markings at the breaker's lugs.
    """
    listed_for_panel: bool | None = None
    """
    Whether the breaker is listed for the panel. Not stated: unknown.
    """


class CalculatedExistingLoad(BaseModel):
    """
    The existing load by one of the methods of the code.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    kind: Literal["calculated"]
    method: Literal["standard", "optional-new", "optional-existing"]
    """
    Standard, optional for a dwelling, or optional for an existing dwelling.
    """
    dwelling: Dwelling
    """
    The dwelling as it is, without the chargers to be added.
    """


class CapacityReviewRequest(BaseModel):
    """
    Does the service carry the chargers; if not, what would make it fit?
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    edition: Literal["nec-2017", "nec-2020", "nec-2023", "nec-2026"]
    """
    Code edition to apply.
    """
    jurisdiction: Annotated[str | None, Field(max_length=200, min_length=1)] = None
    """
    Place, for the record; local amendments are not applied.
    """
    readings: Readings | None = None
    occupancy: Literal["one-family", "two-family", "multifamily", "other"] | None = None
    """
    Kind of building; decides on the service conductors. Not stated: unknown.
    """
    service: ReviewedService
    existing_load: Annotated[CalculatedExistingLoad | MeasuredExistingLoad, Field(discriminator="kind")]
    chargers: Annotated[list[AddedCharger], Field(max_length=200, min_length=1)]
    """
    The chargers to be added.
    """
    management: EnergyManagement | None = None
    """
    Energy management of the service. Not stated: none.
    """
    shared_circuits: Annotated[list[SharedCircuit] | None, Field(max_length=100, min_length=1)] = None
    """
    Circuits that several of the chargers share.
    """


Schedules = TypeAliasType(
    "Schedules",
    Annotated[OnArrival | Timer | LeastCost | SolarSurplusFirst, Field(discriminator="kind")],
)


class ChargingComparisonRequest(BaseModel):
    """
    What does charging cost a year, by tariff, meter arrangement and schedule; does a separate meter pay?
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    tariffs: Annotated[list[Tariff], Field(max_length=20, min_length=1)]
    house_tariff: Annotated[str | None, Field(max_length=100, min_length=1)] = None
    """
    Name of the tariff that the house is on today. Not stated: the first that may serve a whole house, which is to be verified.
    """
    year: Annotated[int, Field(ge=2000, le=2100)]
    """
    Year in which the twelve priced months begin.
    """
    first_month: Annotated[int | None, Field(ge=1, le=12)] = None
    """
    Calendar month with which they begin. Not stated: 1.
    """
    house_load: Annotated[NoLoad | AnnualEnergy | IntervalEnergy, Field(discriminator="kind")]
    generation: NoLoad | AnnualGeneration | IntervalEnergy | None = None
    """
    What the house generates behind its meter. Not stated: nothing.
    """
    charging: Charging
    arrangements: Annotated[
        list[Literal["whole-house", "own-meter", "submeter"]] | None,
        Field(max_length=3, min_length=1),
    ] = None
    """
    Meters to compare; one stated twice counts once. whole-house: one meter for both. own-meter: the vehicle has its own meter and bill. submeter: the vehicle's reading is subtracted from the house's. Not stated: whole-house, and those whose costs are stated.
    """
    schedules: Annotated[list[Schedules], Field(max_length=10, min_length=1)]
    separate_meter: SeparateMeter | None = None
    """
    Needed where a separate meter is to pay: without it nothing of that is judged.
    """
    submeter: Submeter | None = None
    """
    Costs of a submeter, where they are others than those of separate_meter.
    """
    worked_bill: WorkedBill | None = None
    """
    Not stated: the first month of the first option of the answer.
    """


class Point(BaseModel):
    """
    A device or splice between two segments, with terminals of its own.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    after_segment: Annotated[int, Field(ge=0, le=100)]
    """
    Index of the segment that it follows.
    """
    kind: Literal["disconnect", "meter-socket", "submeter", "splice"]
    rating_a: Annotated[float | None, Field(gt=0.0, le=6000.0)] = None
    """
    Rating of the device, A; a splice has none.
    """
    terminals: Terminals | None = None


class Receptacle(BaseModel):
    """
    The charger is plugged into a receptacle.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    kind: Literal["receptacle"]
    configuration: Literal["14-50", "6-50", "14-30", "6-30", "6-20", "14-60", "10-30", "10-50"]
    """
    Configuration by its NEMA designation.
    """
    listed_for_ev_charging: bool | None = None
    """
    Whether it is listed for this use.
    """
    terminals: Terminals | None = None
    """
    Markings at the receptacle's terminals.
    """


class Site(BaseModel):
    """
    The site as the work meets it.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    segments: Annotated[list[SegmentSite] | None, Field(max_length=50)] = None
    """
    Conditions by segment of the run.
    """
    travel: Travel | None = None
    """
    Not stated: excluded.
    """
    wall_patches: Annotated[int | None, Field(ge=0, le=100)] = None
    """
    Openings to close. Not stated: excluded.
    """


class CurrentComparisonAnswer(BaseModel):
    """
    What each charging current needs and brings, one row each, lowest current first.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    edition: str
    """
    The code edition that was applied.
    """
    jurisdiction: str | None
    """
    As stated in the request; its local amendments are not applied.
    """
    rows: list[ComparedCurrent]
    steps: list[Step]
    """
    Power and energy of each row; POST /v1/circuit-designs shows a circuit's working.
    """
    price_book: UsedPriceBook | None
    """
    Null where no cost is estimated.
    """
    labour_table: UsedLabourTable | None
    """
    Null where no cost is estimated.
    """
    exclusions: list[str]
    """
    What the cost does not hold; empty without one.
    """
    interpretations: list[ComparedInterpretation]
    to_verify: list[ToVerify]
    not_examined: list[str]
    cautions: list[str]
    provenance: Provenance


class Design(BaseModel):
    """
    A circuit that holds.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    breaker: DesignedBreaker
    conductors: DesignedConductors
    segments: list[DesignedSegment]
    receptacle: DesignedReceptacle | None
    disconnect: Need
    emergency_shutoff: ShutoffNeed
    label: Label
    voltage_drop: VoltageDrop | None
    terminations: list[Termination]
    governed_by: GovernedBy


class Finding(BaseModel):
    """
    What one rule says of the circuit.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    rule: str
    """
    Name of the rule; GET /v1/rules/{rule} explains it.
    """
    outcome: str
    """
    What the rule found. Known values: pass, fail, undetermined, not-applicable; others may be added.
    """
    force: str
    """
    Only requirements decide the verdict. Known values: requirement, recommendation; others may be added.
    """
    subject: str
    """
    What the rule looked at.
    """
    pointer: str | None
    """
    JSON pointer of the field of the request that the finding is about; query:<name> for a field of the query.
    """
    segment: int | None
    """
    Index of the segment that governs, if one does.
    """
    required: Required | None
    """
    What is asked for.
    """
    provided: Provided | None
    """
    What there is.
    """
    margin_percent: float | None
    """
    How far the provided value is on the safe side, in percent of the required.
    """
    citation: Citation | None
    """
    The section that the rule rests on.
    """
    message: str
    """
    The finding in one sentence.
    """
    remedy: Remedy | None
    """
    For a failure: the nearest change that was found to work.
    """


class InstallationEstimateAnswer(BaseModel):
    """
    What an installation takes and costs, line by line.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    verdict: str
    """
    Never more than that no failure was found in what was stated. Known values: no-failure-found, fail, undetermined; others may be added.
    """
    findings: list[Finding]
    steps: list[Step]
    to_verify: list[ToVerify]
    not_examined: list[str]
    cautions: list[str]
    provenance: Provenance
    edition: str
    """
    The code edition that was applied.
    """
    jurisdiction: str | None
    """
    As stated in the request; its local amendments are not applied.
    """
    interpretations: list[ConsultedInterpretation]
    design: Design | None
    """
    The circuit that is taken off; null where it has no design, and nothing is estimated.
    """
    lines: list[EstimateLine]
    """
    Material, then labour, then fees.
    """
    hours: HoursRange | None
    """
    Of all labour lines; null where none is known.
    """
    totals: EstimateTotals | None
    """
    Null where nothing is estimated.
    """
    risk: EstimateRisk | None
    """
    Null where nothing is estimated.
    """
    price_book: UsedPriceBook
    labour_table: UsedLabourTable
    exclusions: list[str]
    """
    What the price does not hold.
    """


class IntervalDataAnswer(BaseModel):
    """
    What meter readings say of the demand, and how good they are.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    verdict: str
    """
    Never more than that no failure was found in what was stated. Known values: no-failure-found, fail, undetermined; others may be added.
    """
    findings: list[Finding]
    steps: list[Step]
    to_verify: list[ToVerify]
    not_examined: list[str]
    cautions: list[str]
    provenance: Provenance
    edition: str | None
    """
    The code edition that was applied; null where none is stated.
    """
    jurisdiction: str | None
    """
    As stated in the request; its local amendments are not applied.
    """
    interpretations: list[ConsultedInterpretation]
    series: NormalisedSeries | None
    """
    Null where the findings say why there is none.
    """
    quality: DataQuality
    measured_demand: MeasuredDemand | None
    """
    Null where there is no series, or where its values are plainly not what they are said to be.
    """
    existing_load: MeasuredLoad | None
    """
    Ready for existing_load of POST /v1/service-capacity-reviews; null without a demand.
    """


class LoadCalculationAnswer(BaseModel):
    """
    The dwelling's load by each method that was asked for.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    verdict: str
    """
    Never more than that no failure was found in what was stated. Known values: no-failure-found, fail, undetermined; others may be added.
    """
    findings: list[Finding]
    steps: list[Step]
    to_verify: list[ToVerify]
    not_examined: list[str]
    cautions: list[str]
    provenance: Provenance
    edition: str
    """
    The code edition that was applied.
    """
    jurisdiction: str | None
    """
    As stated in the request; its local amendments are not applied.
    """
    interpretations: list[ConsultedInterpretation]
    methods: list[MethodAnswer]
    """
    In the order standard, optional-new, optional-existing.
    """


class ManagedChargingAnswer(BaseModel):
    """
    What load-managed charging delivers, night by night.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    verdict: str
    """
    Never more than that no failure was found in what was stated. Known values: no-failure-found, fail, undetermined; others may be added.
    """
    findings: list[Finding]
    steps: list[Step]
    to_verify: list[ToVerify]
    not_examined: list[str]
    cautions: list[str]
    provenance: Provenance
    edition: str
    """
    The code edition that was applied.
    """
    jurisdiction: str | None
    """
    As stated in the request; its local amendments are not applied.
    """
    interpretations: list[ConsultedInterpretation]
    nights: list[StudiedNight]
    """
    One for each local date of arrival, all chargers together; empty where the findings say why nothing was simulated.
    """
    unmet_sessions: list[StudiedSession]
    """
    Sessions that were not met, most unmet first, at most 100.
    """
    by_charger: list[StudiedCharger]
    """
    One for each charger, in order.
    """
    year: StudiedYear | None
    """
    Null where nothing was simulated.
    """
    by_control_setting: list[SettingPoint]
    """
    Nights met at other control settings, smallest first; a curve for a picture.
    """
    smallest: Smallest | None
    """
    Null where nothing was simulated.
    """
    worst_day: WorstDay | None
    """
    Null where no night was simulated.
    """


class TariffReviewAnswer(BaseModel):
    """
    Whether a tariff is sound, and what each hour costs.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    verdict: str
    """
    Never more than that no failure was found in what was stated. Known values: no-failure-found, fail, undetermined; others may be added.
    """
    findings: list[Finding]
    steps: list[Step]
    to_verify: list[ToVerify]
    not_examined: list[str]
    cautions: list[str]
    provenance: Provenance
    weeks: list[PricedWeek]
    """
    One for each season of the year; empty where the findings say why nothing is priced.
    """
    price_by_month_and_hour: list[PricedMonth]
    """
    Twelve months of 24 hours, for a picture; empty where nothing is priced.
    """
    periods: list[ReviewedPeriod]
    """
    Empty where nothing is priced.
    """
    holidays: list[CountedHoliday]
    """
    Dates of the year that count as holidays.
    """
    hours_in_year: float | None
    """
    Null where the time zone is not known.
    """
    short_days: list[DayOfOtherLength]
    """
    Dates of fewer than 24 h.
    """
    long_days: list[DayOfOtherLength]
    """
    Dates of more than 24 h.
    """


class Charger(BaseModel):
    """
    The charger: what it is set to, what it is rated for, and how it is connected.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    rated_current_a: Annotated[float | None, Field(gt=0.0, le=1000.0)] = None
    """
    Current on its nameplate, A. Not stated: the charging current is taken for it.
    """
    setting_access: Literal["restricted", "unrestricted"] | None = None
    """
    Whether the current setting is reachable only by a tool, key, seal or password. Not stated: unknown.
    """
    connection: Annotated[Hardwired | Receptacle, Field(discriminator="kind")]
    uses_neutral: bool | None = None
    """
    Whether a hardwired charger needs a neutral. Not stated: it does not.
    """
    terminals: Terminals | None = None
    """
    Markings at a hardwired charger's lugs.
    """
    power_factor: Annotated[float | None, Field(gt=0.0, le=1.0)] = None
    """
    Displacement power factor of the charger; for the voltage drop. Not stated: 1.
    """
    markings: Markings | None = None
    charging_current_a: Annotated[float, Field(gt=0.0, le=1000.0)]
    """
    Continuous current that it is set to, A.
    """


class CircuitDesignRequest(BaseModel):
    """
    What circuit does this charger need?
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    edition: Literal["nec-2017", "nec-2020", "nec-2023", "nec-2026"]
    """
    The code edition that the answer applies.
    """
    jurisdiction: Annotated[str | None, Field(max_length=200, min_length=1)] = None
    """
    Place, for the record; local amendments are not applied.
    """
    readings: Readings | None = None
    premises: Premises | None = None
    supply: Supply
    charger: Charger
    breaker: Breaker | None = None
    conductors: Conductors
    run: Annotated[list[Segment], Field(max_length=50, min_length=1)]
    """
    Segments in order from panel to charger.
    """
    points: Annotated[list[Point] | None, Field(max_length=20)] = None
    targets: Targets | None = None


class CircuitReviewRequest(BaseModel):
    """
    Does this proposed or installed circuit hold?
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    edition: Literal["nec-2017", "nec-2020", "nec-2023", "nec-2026"]
    """
    The code edition that the answer applies.
    """
    jurisdiction: Annotated[str | None, Field(max_length=200, min_length=1)] = None
    """
    Place, for the record; local amendments are not applied.
    """
    readings: Readings | None = None
    premises: Premises | None = None
    supply: Supply
    charger: Charger
    breaker: Breaker | None = None
    conductors: Conductors
    run: Annotated[list[Segment], Field(max_length=50, min_length=1)]
    """
    Segments in order from panel to charger.
    """
    points: Annotated[list[Point] | None, Field(max_length=20)] = None
    targets: Targets | None = None
    installed: Installed


class ComparedCharger(BaseModel):
    """
    The charger, apart from its charging current: the comparison varies that, see currents_a.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    rated_current_a: Annotated[float | None, Field(gt=0.0, le=1000.0)] = None
    """
    Current on its nameplate, A. Not stated: the charging current is taken for it.
    """
    setting_access: Literal["restricted", "unrestricted"] | None = None
    """
    Whether the current setting is reachable only by a tool, key, seal or password. Not stated: unknown.
    """
    connection: Annotated[Hardwired | Receptacle, Field(discriminator="kind")]
    uses_neutral: bool | None = None
    """
    Whether a hardwired charger needs a neutral. Not stated: it does not.
    """
    terminals: Terminals | None = None
    """
    Markings at a hardwired charger's lugs.
    """
    power_factor: Annotated[float | None, Field(gt=0.0, le=1.0)] = None
    """
    Displacement power factor of the charger; for the voltage drop. Not stated: 1.
    """
    markings: Markings | None = None


class InstallationEstimateRequest(BaseModel):
    """
    What will the installation take and cost?
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    site: Site | None = None
    supplies: Supplies | None = None
    trench: Trench | None = None
    """
    For segments underground. Not stated: the trench stays unpriced.
    """
    waste: Waste | None = None
    markup_percent: Annotated[float | None, Field(ge=0.0, le=1000.0)] = None
    """
    Of material, labour and fees together. Not stated: none.
    """
    tax: Tax | None = None
    """
    Not stated: excluded.
    """
    circuit: CircuitDesignRequest
    """
    The body of a circuit design; its design is what is taken off.
    """
    price_book: PriceBook | None = None
    """
    Not stated: the demo book, whose prices are invented.
    """
    labour_table: LabourTable | None = None
    """
    Not stated: the demo table, whose hourly rate is invented.
    """
    risk: Risk | None = None


class JobFacts(BaseModel):
    """
    What an estimate is told beside circuit and prices: site, supplies, trench, waste, markup and tax.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    site: Site | None = None
    supplies: Supplies | None = None
    trench: Trench | None = None
    """
    For segments underground. Not stated: the trench stays unpriced.
    """
    waste: Waste | None = None
    markup_percent: Annotated[float | None, Field(ge=0.0, le=1000.0)] = None
    """
    Of material, labour and fees together. Not stated: none.
    """
    tax: Tax | None = None
    """
    Not stated: excluded.
    """


class CapacityReviewAnswer(BaseModel):
    """
    Whether the service carries the chargers, and what would make it fit.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    verdict: str
    """
    Never more than that no failure was found in what was stated. Known values: no-failure-found, fail, undetermined; others may be added.
    """
    findings: list[Finding]
    steps: list[Step]
    to_verify: list[ToVerify]
    not_examined: list[str]
    cautions: list[str]
    provenance: Provenance
    edition: str
    """
    The code edition that was applied.
    """
    jurisdiction: str | None
    """
    As stated in the request; its local amendments are not applied.
    """
    interpretations: list[ConsultedInterpretation]
    capacity: Capacity


class ChargingComparisonAnswer(BaseModel):
    """
    What charging costs a year, by tariff, meter arrangement and schedule.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    verdict: str
    """
    Never more than that no failure was found in what was stated. Known values: no-failure-found, fail, undetermined; others may be added.
    """
    findings: list[Finding]
    steps: list[Step]
    to_verify: list[ToVerify]
    not_examined: list[str]
    cautions: list[str]
    provenance: Provenance
    currency: str | None
    """
    Of every amount. Null where the tariffs have not the same one.
    """
    priced_from: str | None
    """
    First local date of the twelve months; null where there is no such zone.
    """
    priced_until: str | None
    """
    Last local date of them.
    """
    interval_minutes: int | None
    """
    Length of the intervals that the year is cut into, minutes.
    """
    options: list[ComparedOption]
    """
    Ranked; empty where the findings say why nothing was priced.
    """
    not_offered: list[NotOffered]
    windows: list[ScheduleWindow]
    """
    One for each schedule, in order.
    """
    separate_meter: SeparateMeterResult | None
    """
    Null where no option has a separate meter, none has one meter for both, or its costs are not stated.
    """
    worked_bill: WorkedBillAnswer | None
    """
    Null where nothing was priced.
    """


class CircuitDesignAnswer(BaseModel):
    """
    The circuit that a charger needs, with the findings of its own review.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    verdict: str
    """
    Never more than that no failure was found in what was stated. Known values: no-failure-found, fail, undetermined; others may be added.
    """
    findings: list[Finding]
    steps: list[Step]
    to_verify: list[ToVerify]
    not_examined: list[str]
    cautions: list[str]
    provenance: Provenance
    edition: str
    """
    The code edition that was applied.
    """
    jurisdiction: str | None
    """
    As stated in the request; its local amendments are not applied.
    """
    interpretations: list[ConsultedInterpretation]
    design: Design | None
    """
    Null where none can be made; the findings say which limit was met first.
    """
    review_request: dict[str, Any] | None
    """
    The complete body for POST /v1/circuit-reviews of this design; null without one.
    """


class CircuitReviewAnswer(BaseModel):
    """
    What the review of a proposed or installed circuit found.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    verdict: str
    """
    Never more than that no failure was found in what was stated. Known values: no-failure-found, fail, undetermined; others may be added.
    """
    findings: list[Finding]
    steps: list[Step]
    to_verify: list[ToVerify]
    not_examined: list[str]
    cautions: list[str]
    provenance: Provenance
    edition: str
    """
    The code edition that was applied.
    """
    jurisdiction: str | None
    """
    As stated in the request; its local amendments are not applied.
    """
    interpretations: list[ConsultedInterpretation]
    design: Design | None
    """
    For a circuit that fails: the design that would do, if there is one. Else null.
    """
    existing_circuit: ExistingCircuit
    """
    What charging current the installed sizes allow.
    """


class CurrentComparisonRequest(BaseModel):
    """
    What does each step of charging current cost, and what does it bring in?
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    edition: Literal["nec-2017", "nec-2020", "nec-2023", "nec-2026"]
    """
    The code edition that the answer applies.
    """
    jurisdiction: Annotated[str | None, Field(max_length=200, min_length=1)] = None
    """
    Place, for the record; local amendments are not applied.
    """
    readings: Readings | None = None
    premises: Premises | None = None
    supply: Supply
    charger: ComparedCharger
    breaker: Breaker | None = None
    conductors: Conductors
    run: Annotated[list[Segment], Field(max_length=50, min_length=1)]
    """
    Segments in order from panel to charger.
    """
    points: Annotated[list[Point] | None, Field(max_length=20)] = None
    targets: Targets | None = None
    currents_a: Annotated[list[CurrentsAItem] | None, Field(max_length=40, min_length=1)] = None
    """
    Charging currents to compare, A. They are sorted, and one that is stated twice is compared once. Settings of the charger where its rated current is stated, else each is a charger of that rating. Not stated: 6, 8, 10, 12, 16, 20, 24, 28, 32, 36, 40, 48, 56, 64, 72, 80 (common practice, no source).
    """
    night_h: Annotated[float | None, Field(gt=0.0, le=24.0)] = None
    """
    Hours of charging in a night. Not stated: no energy of a night is computed.
    """
    price_book: PriceBook | None = None
    """
    What things cost. Not stated: no cost is estimated, unless demo_prices asks for it.
    """
    labour_table: LabourTable | None = None
    """
    What work takes. Not stated: the demo table, whose hourly rate is invented.
    """
    demo_prices: bool | None = None
    """
    Whether the demo book, whose prices are invented, stands in for a price book.
    """
    job: JobFacts | None = None
    """
    What an installation estimate is told beside circuit and prices; for the cost.
    """
