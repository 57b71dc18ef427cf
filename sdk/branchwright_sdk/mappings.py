# Generated from the OpenAPI document by sdk/generator. Do not edit.
# ruff: noqa
"""What is asked, as plain mappings."""

from decimal import Decimal
from typing import Literal, NotRequired, TypeAlias, TypedDict

SettingsAItem: TypeAlias = float


class AddedCharger(TypedDict):
    """
    A charger that is to be added.
    """

    name: NotRequired[str | None]
    """
    For the reader; nothing depends on it.
    """
    charging_current_a: float
    """
    Continuous current that it is set to, A.
    """
    rated_current_a: NotRequired[float | None]
    """
    Current on its nameplate, A. Not stated: the charging current is taken for it.
    """
    setting_access: NotRequired[Literal["restricted", "unrestricted"] | None]
    """
    Whether the current setting is reachable only by a tool, key, seal or password. Not stated: unknown.
    """
    connection: NotRequired[Literal["hardwired", "receptacle"] | None]
    """
    How it is connected; an edition may let a setting count for hardwired ones alone.
    """
    settings_a: NotRequired[list[SettingsAItem] | None]
    """
    Currents that it can be set to, A. Not stated: whole amperes from 6, and its rated current.
    """
    managed: NotRequired[bool | None]
    """
    Whether the management controls it. Not stated: it does where there is one.
    """
    circuit_breaker_a: NotRequired[float | None]
    """
    Breaker of its own branch circuit, A. Not stated: not judged.
    """


class Appliance(TypedDict):
    """
    An appliance that is no cooking appliance, dryer, heating, cooling or charger.
    """

    name: NotRequired[str | None]
    """
    For the reader. The same name in two lists is one thing listed twice.
    """
    new: NotRequired[bool | None]
    """
    Whether it is being added. Not stated: it is there already.
    """
    rating_va: float
    """
    Nameplate rating, VA; of a heating appliance its W.
    """
    fastened_in_place: NotRequired[bool | None]
    """
    Whether it is fastened in place or permanently connected. Not stated: unknown, and no reduction is taken for it.
    """
    on_own_circuit: NotRequired[bool | None]
    """
    Whether a portable one is on a circuit of its own; without one it is part of the general load. Not stated: unknown, and it is counted.
    """
    motor: NotRequired[bool | None]
    """
    Whether it is a motor or driven by one. Not stated: taken as none, and verified.
    """
    motor_va: NotRequired[float | None]
    """
    Part of the rating that the motor takes, VA. Not stated: all of it.
    """
    motor_hp: NotRequired[float | None]
    """
    Rating of the motor, hp. Not stated: the rating in VA alone decides.
    """
    voltage_v: NotRequired[float | None]
    """
    Rated voltage, V: near 120 from line to neutral, near 208 or 240 between lines. Not stated: the neutral is taken to carry it.
    """
    uses_neutral: NotRequired[bool | None]
    """
    Whether one between lines needs the neutral as well. Not stated: it does not.
    """


class BillCredit(TypedDict):
    """
    What is taken off a bill, stated as a positive amount: for each kWh or in one sum; state one of the two.
    """

    name: str
    per_kwh: NotRequired[Decimal | str | None]
    amount: NotRequired[Decimal | str | None]
    per: NotRequired[Literal["month", "day"] | None]
    """
    How often the amount is credited. Not stated: month.
    """
    season: NotRequired[str | None]
    """
    Name of a season. Not stated: all year.
    """
    period: NotRequired[str | None]
    """
    Name of a period of the energy rates. Not stated: every hour.
    """
    up_to_kwh: NotRequired[float | None]
    """
    Most energy that is credited in a month, kWh. Not stated: all.
    """


class ByWeekday(TypedDict):
    """
    An amount for each weekday of arrival; one that is not stated is 0.
    """

    mon: NotRequired[float | None]
    tue: NotRequired[float | None]
    wed: NotRequired[float | None]
    thu: NotRequired[float | None]
    fri: NotRequired[float | None]
    sat: NotRequired[float | None]
    sun: NotRequired[float | None]


class ConditionFactor(TypedDict):
    """
    By how much a condition of the site lengthens the work on a run: at least, most likely, and at most.
    """

    low: float
    likely: float
    high: float


ConditionFactors = TypedDict(
    "ConditionFactors",
    {
        "open": NotRequired[ConditionFactor | None],
        "finished-walls": NotRequired[ConditionFactor | None],
        "crawl-space": NotRequired[ConditionFactor | None],
        "attic": NotRequired[ConditionFactor | None],
        "masonry": NotRequired[ConditionFactor | None],
    },
)


class Conductors(TypedDict):
    """
    What the conductors are made of.
    """

    material: Literal["copper", "aluminum"]
    """
    Metal of the ungrounded conductors.
    """
    insulation: NotRequired[Literal["THWN-2", "XHHW-2", "THW", "THW-2", "RHW-2", "THHN", "THWN"] | None]
    """
    Insulation of conductors in raceways. Not stated: THWN-2. Cables bring their own.
    """
    grounding_material: NotRequired[Literal["copper", "aluminum"] | None]
    """
    Metal of the grounding conductor. Not stated: as the others.
    """


class Consumption(TypedDict):
    """
    Energy per distance, or distance per energy.
    """

    value: float
    unit: Literal["kWh/100 km", "kWh/100 mi", "kWh/km", "kWh/mi", "km/kWh", "mi/kWh"]


class CookingAppliance(TypedDict):
    """
    A household electric cooking appliance.
    """

    name: NotRequired[str | None]
    """
    For the reader. The same name in two lists is one thing listed twice.
    """
    new: NotRequired[bool | None]
    """
    Whether it is being added. Not stated: it is there already.
    """
    kind: Literal["range", "wall-oven", "counter-cooking-unit"]
    """
    Range with oven and top in one, wall-mounted oven, or counter-mounted unit.
    """
    rating_w: float
    """
    Nameplate rating, W.
    """


class Cooling(TypedDict):
    """
    Air conditioning or another cooling load that is no heat pump.
    """

    name: NotRequired[str | None]
    """
    For the reader. The same name in two lists is one thing listed twice.
    """
    new: NotRequired[bool | None]
    """
    Whether it is being added. Not stated: it is there already.
    """
    rating_va: float
    """
    Nameplate rating, VA.
    """
    motor_va: NotRequired[float | None]
    """
    Part of the rating that its largest motor takes, VA. Not stated: all of it.
    """


CriticalPeakEvent = TypedDict(
    "CriticalPeakEvent",
    {
        "date": str,
        "from": str,
        "to": str,
        "per_kwh": Decimal | str,
        "how": Literal["added", "instead"],
    },
)


CurrentsAItem: TypeAlias = float


class DayType(TypedDict):
    """
    A kind of day: some weekdays, and what holidays do to them.
    """

    name: str
    weekdays: list[Literal["mon", "tue", "wed", "thu", "fri", "sat", "sun"]]
    """
    Days of it; none where it is of holidays alone.
    """
    holidays: NotRequired[Literal["included", "excluded", "ignored"] | None]
    """
    included: every holiday is of this kind, whatever its weekday. excluded: no holiday is. ignored: its weekday alone decides. Not stated: ignored, which is to be verified.
    """


class Depth(TypedDict):
    """
    A depth with its unit; none at all is one.
    """

    value: float
    unit: Literal["ft", "in", "m", "mm"]


WinterFactorByMonthItem: TypeAlias = float


class DistanceEachDay(TypedDict):
    """
    The need as a distance and what the vehicle consumes on it.
    """

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
    charging_efficiency: NotRequired[float | None]
    """
    Energy into the battery over energy at the wall. Not stated: 0.85 where it is needed, which is to be verified.
    """
    winter_factor_by_month: NotRequired[list[WinterFactorByMonthItem] | None]
    """
    By how much more is needed in each calendar month, January to December, as a mean of the month. Not stated: 1 in each, which is to be verified.
    """
    worst_day_factor: NotRequired[float | None]
    """
    By how much more is needed on the worst winter day. Not stated: the greatest of the months, which is to be verified.
    """


class Dryer(TypedDict):
    """
    A household electric clothes dryer that is not on the laundry circuit.
    """

    name: NotRequired[str | None]
    """
    For the reader. The same name in two lists is one thing listed twice.
    """
    new: NotRequired[bool | None]
    """
    Whether it is being added. Not stated: it is there already.
    """
    rating_w: float
    """
    Nameplate rating, W.
    """


class DwellingCharger(TypedDict):
    """
    A charger as a load of the dwelling.
    """

    name: NotRequired[str | None]
    """
    For the reader. The same name in two lists is one thing listed twice.
    """
    new: NotRequired[bool | None]
    """
    Whether it is being added. Not stated: it is there already.
    """
    charging_current_a: NotRequired[float | None]
    """
    Continuous current that it is set to, A.
    """
    rated_current_a: NotRequired[float | None]
    """
    Current on its nameplate, A. Not stated: the charging current is taken for it.
    """
    nameplate_va: NotRequired[float | None]
    """
    Load on its nameplate, VA. Not stated: the current times the voltage.
    """
    setting_access: NotRequired[Literal["restricted", "unrestricted"] | None]
    """
    Whether the current setting is reachable only by a tool, key, seal or password. Not stated: unknown.
    """
    connection: NotRequired[Literal["hardwired", "receptacle"] | None]
    """
    How it is connected; an edition may let a setting count for hardwired ones alone. Not stated: hardwired.
    """
    managed_by: NotRequired[str | None]
    """
    Name of the load management that holds it. Not stated: none does.
    """


class DwellingService(TypedDict):
    """
    The service or feeder of the dwelling.
    """

    rating_a: NotRequired[float | None]
    """
    Rating of the service, A. Not stated: not judged.
    """
    system: Literal["split-phase-120-240", "wye-208y-120"]
    """
    240 V between the lines of a split-phase system, or 208 V between two of a wye.
    """
    phases: NotRequired[Literal[1, 3] | None]
    """
    Phases of the service; 3 on a wye system only. Not stated: 1.
    """
    conductor_ampacity_a: NotRequired[float | None]
    """
    Ampacity of the service or feeder conductors, A; for the optional method. Not stated: what the rating asks for at least.
    """


Effective = TypedDict(
    "Effective",
    {
        "from": str,
        "to": NotRequired[str | None],
    },
)


class EnergyEachDay(TypedDict):
    """
    The need as energy.
    """

    kind: Literal["energy"]
    basis: Literal["wall", "battery"]
    """
    wall: losses of charging are included, as in published US consumption figures. battery: they are not, as on a vehicle's display.
    """
    kwh_by_weekday: ByWeekday
    """
    Energy for each weekday of arrival, kWh.
    """
    charging_efficiency: NotRequired[float | None]
    """
    Energy into the battery over energy at the wall. Not stated: 0.85 where it is needed, which is to be verified.
    """
    winter_factor_by_month: NotRequired[list[WinterFactorByMonthItem] | None]
    """
    By how much more is needed in each calendar month, January to December, as a mean of the month. Not stated: 1 in each, which is to be verified.
    """
    worst_day_factor: NotRequired[float | None]
    """
    By how much more is needed on the worst winter day. Not stated: the greatest of the months, which is to be verified.
    """


class EnergyManagement(TypedDict):
    """
    Equipment that holds the current of the whole service below a setting by lowering the chargers.
    """

    control_setting_a: float
    """
    Current of the service that it holds, per line, A.
    """
    fail_safe_current_a: NotRequired[float | None]
    """
    What each managed charger may draw when it has lost its monitor, A; 0 where it stops. Not stated: unknown.
    """
    monitored_legs: NotRequired[int | None]
    """
    Ungrounded conductors of the service with a monitor. Not stated: unknown.
    """
    monitor_position: NotRequired[Literal["supply-side-of-generation", "load-side-of-generation"] | None]
    """
    Where the monitors sit, seen from a source that feeds back. Not stated: unknown.
    """
    listed: NotRequired[bool | None]
    """
    Whether it is listed for energy management. Not stated: unknown.
    """
    link_loss_tested: NotRequired[bool | None]
    """
    Whether the lost link was tested on site. Not stated: unknown.
    """
    access: NotRequired[Literal["restricted", "unrestricted"] | None]
    """
    Who can reach its settings. Not stated: unknown.
    """


class FixedCharge(TypedDict):
    """
    An amount that does not depend on use.
    """

    name: str
    amount: Decimal | str
    per: Literal["month", "day"]
    season: NotRequired[str | None]
    """
    Name of a season. Not stated: all year.
    """
    is_credit: NotRequired[bool | None]
    """
    Whether it is a credit; then its price is below zero. Not stated: no.
    """
    arrangements: NotRequired[list[Literal["whole-house", "own-meter", "submeter"]] | None]
    """
    The meters that bear it. Not stated: each that the tariff serves.
    """


class Hardwired(TypedDict):
    """
    The charger is wired to the circuit permanently.
    """

    kind: Literal["hardwired"]


class HeatPump(TypedDict):
    """
    A heat pump; it cools as well.
    """

    name: NotRequired[str | None]
    """
    For the reader. The same name in two lists is one thing listed twice.
    """
    new: NotRequired[bool | None]
    """
    Whether it is being added. Not stated: it is there already.
    """
    compressor_va: float
    """
    Nameplate rating of the compressor and its fans, VA.
    """
    supplemental_heat_w: NotRequired[float | None]
    """
    Nameplate rating of its supplemental electric heat, W. Not stated: it has none.
    """
    interlocked: NotRequired[bool | None]
    """
    Whether the compressor is kept from running together with the supplemental heat. Not stated: it is not.
    """


class HourlyRate(TypedDict):
    """
    What an hour of work is charged at: at least, most likely, and at most.
    """

    low: Decimal | str
    likely: Decimal | str
    high: Decimal | str


EnergyWhItem: TypeAlias = float | None


LegCurrentsAItemItem: TypeAlias = float | None


LegCurrentsAItem: TypeAlias = list[LegCurrentsAItemItem]


class HouseLoad(TypedDict):
    """
    What the house draws without the chargers; state either energy_wh or leg_currents_a.
    """

    start: str
    """
    Start of the first interval, with its offset.
    """
    interval_minutes: Literal[1, 2, 3, 5, 6, 10, 12, 15, 20, 30, 60]
    """
    Length of every interval, minutes.
    """
    time_zone: str
    """
    IANA name of the zone by whose clock vehicles come and go.
    """
    energy_wh: NotRequired[list[EnergyWhItem] | None]
    """
    Energy of the whole house in each interval, Wh; null where the reading is missing.
    """
    leg_assumption: NotRequired[Literal["balanced", "all-on-one-leg"] | None]
    """
    How the energy lies on the ungrounded conductors. Not stated: balanced, which is to be verified.
    """
    power_factor: NotRequired[float | None]
    """
    Power factor of the house, to turn energy into current. Not stated: 1.
    """
    leg_currents_a: NotRequired[list[LegCurrentsAItem] | None]
    """
    Current of each ungrounded conductor in each interval, A; null where it is missing. One list for each: two, or three of a three-phase service.
    """


class InstalledDisconnect(TypedDict):
    """
    The disconnecting means at the charger.
    """

    present: bool
    readily_accessible: NotRequired[bool | None]
    lockable_open: NotRequired[bool | None]


EnergyKwhItem: TypeAlias = float | None


class IntervalEnergy(TypedDict):
    """
    Energy interval by interval, over the priced year exactly.
    """

    kind: Literal["intervals"]
    start: str
    """
    Start of the first interval, with its offset: where the priced year begins, locally.
    """
    interval_minutes: Literal[15, 30, 60]
    """
    Length of every interval, minutes.
    """
    energy_kwh: list[EnergyKwhItem]
    """
    Energy of each interval, kWh; null where the reading is missing. Negative of a house: what it delivers to the grid.
    """


class LeastCost(TypedDict):
    """
    Charging takes the cheapest hours between arrival and departure; of those alike the earliest.
    """

    kind: Literal["least-cost"]
    name: NotRequired[str | None]


class Length(TypedDict):
    """
    A length with its unit.
    """

    value: float
    unit: Literal["ft", "in", "m", "mm"]


class LoadManagement(TypedDict):
    """
    Equipment that holds the current of several chargers together below a setting.
    """

    name: str
    control_setting_a: float
    """
    Current that its chargers may draw together, A.
    """


class Management(TypedDict):
    """
    The energy management that holds the largest leg at or below a setting by lowering the chargers.
    """

    control_setting_a: float
    """
    Current of the service that it holds, per leg, A.
    """
    margin_a: NotRequired[float | None]
    """
    What it keeps free below the setting, A. Not stated: 0.
    """
    response_s: NotRequired[float | None]
    """
    Time until the chargers have followed a change of the house's load, s. Not stated: less than an interval, which is to be verified. One shorter than an interval cannot be seen in it.
    """
    resume_delay_minutes: NotRequired[float | None]
    """
    Time with enough current left before charging resumes after a pause, minutes; counted in whole intervals, upwards. Not stated: 15.
    """
    sharing: NotRequired[Literal["equal", "first-come", "earliest-departure"] | None]
    """
    How several vehicles share what is left. equal: alike, in whole amperes; those that came last pause where there is too little for all. first-come, earliest-departure: each in turn takes what it can. Not stated: equal.
    """


class Markings(TypedDict):
    """
    What the charger's label or manual says.
    """

    greatest_overcurrent_device_a: NotRequired[float | None]
    """
    Greatest overcurrent device that the manufacturer permits, A.
    """
    forbids_gfci_breaker: NotRequired[bool | None]
    """
    Whether the manufacturer forbids a ground-fault breaker.
    """


class MeasuredExistingLoad(TypedDict):
    """
    The existing load by measured demand: the greatest demand of a record, and what is known of the record.
    """

    kind: Literal["measured"]
    measured_demand_w: float
    """
    Greatest demand of the record, W, as the mean over the averaging interval.
    """
    averaging_minutes: float
    """
    Averaging interval of the record, minutes.
    """
    days: float
    """
    Days from its begin to its end.
    """
    coverage_percent: NotRequired[float | None]
    """
    Readings that are there, percent of those that should be. Not stated: unknown.
    """
    has_generation: NotRequired[bool | None]
    """
    Whether generation or peak shaving behind the meter can hide load. Not stated: unknown.
    """
    occupied: NotRequired[bool | None]
    """
    Whether the building was occupied in use during the record. Not stated: unknown.
    """
    seasonal_load_va: NotRequired[float | None]
    """
    Load that belongs to another season than the record's, VA, added to it; the larger of heating and cooling. 0: the record has it. Not stated: unknown.
    """
    fifteen_minute_bound_w: NotRequired[float | None]
    """
    What no 15-minute demand can have exceeded, W, from the readings themselves. Not stated: computed from the greatest demand alone.
    """


class MinimumBill(TypedDict):
    """
    The least that a bill comes to before taxes.
    """

    amount: Decimal | str
    per: Literal["month", "day"]
    counts: list[Literal["energy", "demand", "fixed", "credits", "riders"]]
    """
    Which charges count toward it; energy takes in tiers on all energy, critical peaks and exports. What does not count comes on top.
    """


class NoLoad(TypedDict):
    """
    No house: its account has no energy but the vehicle's.
    """

    kind: Literal["none"]


class OnArrival(TypedDict):
    """
    Charging begins when the vehicle comes, and lasts until it has what it needs.
    """

    kind: Literal["on-arrival"]
    name: NotRequired[str | None]


class OtherDays(TypedDict):
    """
    Arrival and departure on some weekdays.
    """

    weekdays: list[Literal["mon", "tue", "wed", "thu", "fri", "sat", "sun"]]
    """
    Days of arrival; one stated twice counts once.
    """
    arrival: str
    """
    HH:MM by the local clock.
    """
    departure: str
    """
    HH:MM by the local clock; at or before the arrival: on the next day.
    """


class Premises(TypedDict):
    """
    Where the circuit is.
    """

    occupancy: NotRequired[Literal["one-family", "two-family", "multifamily", "other"] | None]
    """
    Kind of building; decides on ground-fault protection.
    """
    charger_location: NotRequired[Literal["outdoors", "garage", "accessory-building", "indoors"] | None]
    """
    Where the charger is mounted; decides on ground-fault protection.
    """


class Price(TypedDict):
    """
    What one unit of a thing costs: at least, most likely, and at most.
    """

    unit: Literal["each", "ft", "10 ft", "100 ft", "1000 ft", "m", "3 m", "10 m", "100 m", "mi", "km"]
    """
    What the price is for.
    """
    low: Decimal | str
    likely: Decimal | str
    high: Decimal | str


class PriceBook(TypedDict):
    """
    Prices of material and fees, by key.
    """

    name: str
    currency: NotRequired[str | None]
    """
    Of every price. Not stated: a finding asks for it.
    """
    dated: str
    """
    The day from which the prices are.
    """
    is_demo: NotRequired[bool | None]
    """
    Whether the prices are invented. Not stated: they are not.
    """
    prices: dict[str, Price]
    """
    By key, such as `conductor/copper/THWN-2/6 AWG`, `raceway/emt/3/4` or `breaker/60 A/2-pole`. What is needed and not there is left unpriced and named by a finding.
    """


class PricedCharger(TypedDict):
    """
    The charger, at the voltage that it really has.
    """

    charging_current_a: float
    """
    Continuous current that it is set to, A.
    """
    voltage_v: float
    """
    Voltage at the charger, V; between lines where it has three phases.
    """
    phases: NotRequired[Literal[1, 3] | None]
    """
    Phases that it uses. Not stated: 1.
    """


class PricedVehicle(TypedDict):
    """
    What is known of the vehicle.
    """

    battery_kwh: NotRequired[float | None]
    """
    Usable energy of the battery, kWh. Stated: what a night leaves unmet is made up in the next nights, as far as the battery holds it. Not stated: it stays unmet.
    """
    onboard_limit_a: NotRequired[float | None]
    """
    Greatest current that its onboard charger takes, A. Not stated: no limit.
    """


Hour: TypeAlias = float


WeekendHour: TypeAlias = float


Month: TypeAlias = float


class Profile(TypedDict):
    """
    How energy lies in the year, as weights: only their proportions count.
    """

    hours: list[Hour]
    """
    Weight of each hour of the local clock, from 0 to 23.
    """
    weekend_hours: NotRequired[list[WeekendHour] | None]
    """
    The same on Saturdays and Sundays, on the scale of hours. Not stated: as hours.
    """
    months: NotRequired[list[Month] | None]
    """
    Weight of the energy of each calendar month, January to December. Not stated: each hour counts alike in every month.
    """


class Ratchet(TypedDict):
    """
    Holds the billed demand to a share of what it was in earlier months.
    """

    percent: float
    """
    Share of it, %.
    """
    months: int
    """
    How many months before the billed one count.
    """


Readings = TypedDict(
    "Readings",
    {
        "liquidtight-temperature": NotRequired[
            Literal["operating-temperature", "sixty-degree-column"] | None
        ],
        "grounding-near-miss": NotRequired[Literal["strict", "within-rounding"] | None],
        "hardwired-outlet": NotRequired[Literal["outlet", "not-an-outlet"] | None],
        "rooftop-clearance": NotRequired[Literal["seven-eighths-inch", "three-quarters-inch"] | None],
        "setting-as-rating": NotRequired[Literal["nameplate", "setting"] | None],
        "grounding-growth": NotRequired[Literal["counts-correction", "exempts-correction"] | None],
        "permanently-wired-protection": NotRequired[Literal["required", "not-enacted"] | None],
        "sixty-ampere-receptacle": NotRequired[Literal["printed", "not-printed"] | None],
        "charger-in-optional-method": NotRequired[Literal["full-value", "in-the-pool"] | None],
        "existing-heating-and-cooling": NotRequired[Literal["in-the-pool", "left-out"] | None],
        "added-heating-and-cooling": NotRequired[Literal["at-full-value", "in-the-pool"] | None],
        "omitted-motor": NotRequired[Literal["compared", "added"] | None],
        "measured-with-generation": NotRequired[Literal["refused", "measured-gross"] | None],
        "measured-demand-interval": NotRequired[Literal["fifteen-minutes", "as-metered"] | None],
        "charger-on-service": NotRequired[Literal["at-125-percent", "at-its-load"] | None],
    },
)


PowerWItem: TypeAlias = float | None


class RegularSeries(TypedDict):
    """
    Values one after another; state either energy_wh or power_w.
    """

    kind: Literal["regular"]
    start: str
    """
    Start of the first interval.
    """
    interval_minutes: int
    """
    Length of every interval.
    """
    energy_wh: NotRequired[list[EnergyWhItem] | None]
    """
    Energy of each interval, Wh; null where it is missing.
    """
    power_w: NotRequired[list[PowerWItem] | None]
    """
    Average power over each interval, W; null where it is missing.
    """


class ReplacedPanel(TypedDict):
    """
    A panel that is replaced.
    """

    rating_a: float


class Rider(TypedDict):
    """
    What is added for each kWh or in percent; state one of the two.
    """

    name: str
    per_kwh: NotRequired[Decimal | str | None]
    percent: NotRequired[Decimal | str | None]
    season: NotRequired[str | None]
    """
    Name of a season. Not stated: all year.
    """
    applies_to: NotRequired[list[Literal["energy", "demand", "fixed", "critical-peak"]] | None]
    """
    Charges that the percentage is taken of; energy takes in tiers on all energy. Not stated: energy, demand, fixed and critical-peak; for a tax the whole bill, minimum included.
    """
    is_credit: NotRequired[bool | None]
    """
    Whether it is a credit; then its price is below zero. Not stated: no.
    """
    is_tax: NotRequired[bool | None]
    """
    Whether it is a tax, which comes after the minimum bill. Not stated: no.
    """


class Risk(TypedDict):
    """
    How the spread of the total is drawn.
    """

    seed: NotRequired[int | None]
    """
    Of the random numbers; the same one gives the same figures. Not stated: 1.
    """
    draws: NotRequired[int | None]
    """
    How often the total is drawn. Not stated: 10000.
    """


class Rounding(TypedDict):
    """
    How money is rounded to the smallest coin of the currency.
    """

    line: NotRequired[bool | None]
    """
    Whether each line is rounded, or only the bill's total. Not stated: each line.
    """
    half: NotRequired[Literal["up", "even"] | None]
    """
    Where a half goes: away from zero, or to the even digit. Not stated: up.
    """


Season = TypedDict(
    "Season",
    {
        "name": str,
        "from": str,
        "to": str,
    },
)


class SegmentSite(TypedDict):
    """
    What the site is like along one segment of the run.
    """

    segment: int
    """
    Index of the circuit's segment.
    """
    condition: NotRequired[Literal["open", "finished-walls", "crawl-space", "attic", "masonry"] | None]
    """
    Where the work is done. Not stated: taken as open, and a finding asks for it.
    """
    elbows: NotRequired[int | None]
    """
    Elbows of a raceway that are bought as fittings. Not stated: 2 underground, where it goes down and comes up; else none, bends being made on site.
    """
    pull_points: NotRequired[int | None]
    """
    Conduit bodies or boxes to pull through. Not stated: none.
    """


class SeparateMeter(TypedDict):
    """
    What a meter of its own costs, and over what it has to pay.
    """

    installed_cost: Decimal | str
    """
    Socket, labour and fees, less incentives, in the tariffs' currency.
    """
    monthly_charge: Decimal | str
    """
    What the meter itself costs a month, beside the tariff's own charges.
    """
    discount_rate_percent: float
    """
    Rate at which later savings count less, a year.
    """
    years: NotRequired[int | None]
    """
    Years that the savings are counted for. Not stated: 10.
    """


class ServiceConductors(TypedDict):
    """
    The ungrounded service conductors.
    """

    material: NotRequired[Literal["copper", "aluminum"] | None]
    """
    Metal of the conductors. Needed with the size.
    """
    size: NotRequired[
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
    ]
    """
    Size of each of them. Not stated: their ampacity is taken as stated.
    """
    ampacity_a: NotRequired[float | None]
    """
    Ampacity after correction and adjustment, A: for larger sizes and for sets in parallel. It counts where both are stated.
    """
    conductor_temperature_rating_c: NotRequired[Literal[60, 75, 90] | None]
    """
    Temperature rating printed on the conductors, degC. Not stated: 75.
    """
    terminal_temperature_rating_c: NotRequired[Literal[60, 75, 90] | None]
    """
    Lowest conductor temperature that the terminals at both ends are marked for, degC. Not stated: taken as unmarked.
    """
    ambient_c: NotRequired[float | None]
    """
    Ambient temperature where they lie, degC. Not stated: that of the ampacity table.
    """
    current_carrying_conductors: NotRequired[int | None]
    """
    Current-carrying conductors in their raceway or cable. Not stated: up to three.
    """
    carry_entire_load: NotRequired[bool | None]
    """
    Whether they carry the entire load of one dwelling unit. Not stated: unknown.
    """


class Session(TypedDict):
    """
    When a vehicle comes and goes on some weekdays, and what it needs each time.
    """

    weekdays: list[Literal["mon", "tue", "wed", "thu", "fri", "sat", "sun"]]
    """
    Days of arrival; one stated twice counts once.
    """
    arrival: str
    """
    HH:MM by the local clock.
    """
    departure: str
    """
    HH:MM by the local clock; at or before the arrival: on the next day.
    """
    energy_kwh: float
    """
    Energy that it needs each time, kWh.
    """
    basis: NotRequired[Literal["wall", "battery"] | None]
    """
    Whether energy_kwh is taken at the wall, losses included, or arrives in the battery. Not stated: battery, which needs more.
    """


Charger1: TypeAlias = int


class SharedCircuit(TypedDict):
    """
    One branch circuit that several of the chargers share under management.
    """

    chargers: list[Charger1]
    """
    Places of its chargers in the list, from 0.
    """
    breaker_a: float
    """
    Breaker of the circuit, A.
    """
    control_setting_a: NotRequired[float | None]
    """
    Current that the management lets them draw together, A. Not stated: unknown.
    """
    fail_safe_current_a: NotRequired[float | None]
    """
    What each of them may draw when it has lost the others, A; 0 where it stops. Not stated: unknown.
    """
    listed: NotRequired[bool | None]
    """
    Whether the management is listed for it. Not stated: unknown.
    """


class SolarSurplusFirst(TypedDict):
    """
    Charging takes what generation leaves over during the stay, then the cheapest hours of the rest.

    Needs `generation`, and a meter that house and vehicle share.
    """

    kind: Literal["solar-surplus-first"]
    name: NotRequired[str | None]


class SpaceHeating(TypedDict):
    """
    Fixed electric space heating apart from heat pumps.
    """

    name: NotRequired[str | None]
    """
    For the reader. The same name in two lists is one thing listed twice.
    """
    new: NotRequired[bool | None]
    """
    Whether it is being added. Not stated: it is there already.
    """
    rating_w: float
    """
    Nameplate rating of all its units together, W.
    """
    kind: NotRequired[Literal["central", "separately-controlled", "thermal-storage"] | None]
    """
    How it is controlled; thermal-storage is any that runs continuously at its full rating. Not stated: separately-controlled where a number of units is, else central.
    """
    separately_controlled_units: NotRequired[int | None]
    """
    Units with a control each. Not stated: one.
    """


class StampedReading(TypedDict):
    """
    One reading with its time. A plain dictionary, since there may be two hundred thousand of them.
    """

    at: str
    """
    Start or end of its interval, by stamps_at.
    """
    value: float | None
    """
    Null where the meter gave none.
    """
    quality: NotRequired[
        Literal["measured", "edited", "estimated", "questionable", "derived", "projected", "mixed", "unknown"]
        | None
    ]
    """
    How the value came about. Not stated: measured.
    """


class StampedSeries(TypedDict):
    """
    Readings that each bear their time, in any order.
    """

    kind: Literal["stamped"]
    unit: Literal["energy-wh", "energy-kwh", "power-w", "power-kw", "register-wh", "register-kwh"]
    """
    What the values are: energy of each interval, average power over it, or the register of the meter at the stamp.
    """
    stamps_at: NotRequired[Literal["start", "end"] | None]
    """
    Whether a stamp is the start or the end of its interval. Not stated: start, which is to be verified.
    """
    interval_minutes: NotRequired[int | None]
    """
    Length of every interval. Not stated: the commonest step from stamp to stamp.
    """
    readings: list[StampedReading]


class StudiedService(TypedDict):
    """
    The service that house and chargers share.
    """

    system: Literal["split-phase-120-240", "wye-208y-120"]
    """
    240 V between the lines of a split-phase system, or 208 V between two of a wye.
    """
    phases: NotRequired[Literal[1, 3] | None]
    """
    Phases of the service; 3 on a wye system only. Not stated: 1.
    """
    rating_a: NotRequired[float | None]
    """
    Rating of the service, A. Not stated: not judged.
    """


class Submeter(TypedDict):
    """
    What a submeter costs, whose reading is subtracted from the house's.
    """

    installed_cost: Decimal | str
    """
    Submeter, labour and fees, less incentives.
    """
    monthly_charge: Decimal | str
    """
    What the submeter itself costs a month.
    """


class Supplies(TypedDict):
    """
    What belongs to the job beside the circuit. What is not stated is excluded, and the answer says so.
    """

    charger: NotRequired[Literal["by-customer", "by-contractor"] | None]
    """
    Who brings the charger; it is mounted in any case. Not stated: the customer.
    """
    energy_management: NotRequired[bool | None]
    """
    Equipment that holds the service below a setting, with its sensors.
    """
    meter_socket: NotRequired[bool | None]
    """
    A socket for a meter. One that the circuit's points state is counted anyway.
    """
    submeter: NotRequired[bool | None]
    """
    A submeter. One that the circuit's points state is counted anyway.
    """
    panel: NotRequired[ReplacedPanel | None]
    """
    A panel that is replaced.
    """
    permit: NotRequired[bool | None]
    """
    The permit's fee, obtaining it, and being there for inspection.
    """
    paperwork: NotRequired[bool | None]
    """
    Papers for rebates and for the utility.
    """
    load_calculation: NotRequired[bool | None]
    """
    A written calculation of the load.
    """


class Supply(TypedDict):
    """
    The system that the circuit is taken from.
    """

    system: Literal["split-phase-120-240", "wye-208y-120"]
    """
    240 V between the lines of a split-phase system, or 208 V between two of a wye.
    """
    phases: NotRequired[Literal[1, 3] | None]
    """
    Phases that the charger uses; 3 on a wye system only. Not stated: 1.
    """


class Targets(TypedDict):
    """
    What the caller asks for beyond the code.
    """

    voltage_drop_percent: NotRequired[float | None]
    """
    Greatest voltage drop at the charging current, percent of the nominal voltage.
    """


HolidayName: TypeAlias = str


HolidayDate: TypeAlias = str


class Task(TypedDict):
    """
    Hours that one unit of a task takes: at least, most likely, and at most.
    """

    unit: Literal["each", "ft", "10 ft", "100 ft", "1000 ft", "m", "3 m", "10 m", "100 m", "mi", "km"]
    """
    What the hours are for.
    """
    hours_low: float
    hours_likely: float
    hours_high: float


class Tax(TypedDict):
    """
    A tax on parts of the price.
    """

    percent: float
    on: list[Literal["material", "labour", "fee", "markup"]]
    """
    What it is on; one stated twice counts once.
    """


class Tier(TypedDict):
    """
    One step of a price that depends on how much was used.
    """

    up_to_kwh: NotRequired[float | None]
    """
    Where the tier ends, kWh counted from the beginning of the allowance. Not stated: open, as the last must be.
    """
    per_kwh: Decimal | str
    is_credit: NotRequired[bool | None]
    """
    Whether it is a credit; then its price is below zero. Not stated: no.
    """


TimerWindow = TypedDict(
    "TimerWindow",
    {
        "from": str,
        "to": str,
    },
)


class Torque(TypedDict):
    """
    A tightening torque with its unit.
    """

    value: float
    unit: Literal["lbf-in", "lbf-ft", "N-m"]


class TorqueRecord(TypedDict):
    """
    A torque that was applied and written down.
    """

    at: str
    """
    breaker, charger, receptacle, or points/<index>.
    """
    torque: Torque


class TravelDistance(TypedDict):
    """
    A distance by road with its unit.
    """

    value: float
    unit: Literal["mi", "km"]


class Trench(TypedDict):
    """
    How the trench is dug; its length and depth are those of the circuit's segments underground.
    """

    surface: NotRequired[Literal["soil", "paving"] | None]
    """
    What is opened and restored.
    """
    by: NotRequired[Literal["hand", "machine"] | None]
    """
    What digs.
    """


class Underground(TypedDict):
    """
    A segment below grade; it counts as a wet location.
    """

    cover: NotRequired[Depth | None]
    """
    From the top of raceway or cable to finished grade; a design states the least.
    """
    under: Literal["soil", "dwelling-driveway", "street", "building", "concrete"]
    """
    What lies above it. concrete: an exterior slab at least 4 in thick without vehicles; dwelling-driveway: of a one- or two-family dwelling.
    """


class Vehicle(TypedDict):
    """
    What is known of the vehicle.
    """

    battery_kwh: NotRequired[float | None]
    """
    Usable energy of the battery, kWh. Not stated: not judged.
    """
    onboard_limit_a: NotRequired[float | None]
    """
    Greatest current that its onboard charger takes, A. Not stated: no limit.
    """
    charging_efficiency: NotRequired[float | None]
    """
    Energy into the battery over energy at the wall. Not stated: 0.85.
    """


class Waste(TypedDict):
    """
    What is bought beyond what is built in. What is not stated is common practice, and is to be verified.
    """

    cable_percent: NotRequired[float | None]
    """
    Of conductors and cable. Not stated: 7.5.
    """
    cable_ends: NotRequired[Depth | None]
    """
    For the two ends of each conductor or cable together. Not stated: 2.5 m.
    """
    raceway_percent: NotRequired[float | None]
    """
    Not stated: 7.5.
    """
    fittings_percent: NotRequired[float | None]
    """
    Of fittings and straps. Not stated: 15.
    """
    consumables_percent: NotRequired[float | None]
    """
    Small parts, in percent of the material save a charger. Not stated: 3.5.
    """


class WorkedBill(TypedDict):
    """
    The one month whose bill the steps of the answer work out.
    """

    tariff: str
    """
    Name of one of the tariffs.
    """
    arrangement: Literal["whole-house", "own-meter", "submeter"]
    schedule: int
    """
    Place of the schedule in the request, from 0.
    """
    month: int
    """
    Calendar month, 1 to 12.
    """


class AllEnergyTiers(TypedDict):
    """
    Tiers on all energy, whatever its period; they come on top of the energy rates.
    """

    name: str
    season: NotRequired[str | None]
    """
    Name of a season. Not stated: all year.
    """
    allowance_per: NotRequired[Literal["month", "day"] | None]
    """
    Whether the tiers begin anew each month, or are so many kWh for each day of the bill. Not stated: month, which is to be verified where there are several tiers.
    """
    tiers: list[Tier]
    """
    Cheapest use first.
    """


class AnnualEnergy(TypedDict):
    """
    The energy of a year and how it lies in it.
    """

    kind: Literal["annual-energy"]
    kwh_per_year: float
    profile: NotRequired[Profile | None]
    """
    Not stated: even over the year, which no house is, and which is to be verified.
    """


class AnnualGeneration(TypedDict):
    """
    The generation of a year and how it lies in it; no generation is even.
    """

    kind: Literal["annual-energy"]
    kwh_per_year: float
    profile: Profile


class Cable(TypedDict):
    """
    What a cable brings beside its ungrounded conductors, and what is printed on it.
    """

    grounding_size: NotRequired[
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
    ]
    """
    Grounding conductor that the cable is made with.
    """
    neutral_size: NotRequired[
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
    ]
    """
    Neutral that the cable is made with.
    """
    outside_diameter: NotRequired[Length | None]
    """
    Over the sheath, the larger one of a flat cable; for fill of a sleeve.
    """
    conductor_temperature_rating_c: NotRequired[Literal[60, 75, 90] | None]
    """
    Temperature rating of the conductors as printed on SE, MC or AC cable, degC. Not stated: 75. Other cables have the rating of their article.
    """
    listed_for_wet: NotRequired[bool | None]
    """
    Whether MC cable is listed for wet locations. Not stated: unknown.
    """


class Charging(TypedDict):
    """
    What the vehicle needs, where it charges, and when it is there. A night belongs to its arrival date.
    """

    energy_need: EnergyEachDay | DistanceEachDay
    charger: PricedCharger
    vehicle: NotRequired[PricedVehicle | None]
    arrival: str
    """
    HH:MM by the local clock.
    """
    departure: str
    """
    HH:MM by the local clock; at or before the arrival: on the next day.
    """
    other_days: NotRequired[list[OtherDays] | None]
    """
    Weekdays of arrival with other times. No two may name the same weekday.
    """


class DemandCharge(TypedDict):
    """
    A price of the greatest average power of the month.
    """

    name: str
    season: NotRequired[str | None]
    """
    Name of a season. Not stated: all year.
    """
    period: NotRequired[str | None]
    """
    Name of a period of the energy rates. Not stated: every hour.
    """
    per_kw: Decimal | str
    averaging_minutes: Literal[15, 30, 60]
    """
    Time over which the power is averaged, minutes.
    """
    least_kw: NotRequired[float | None]
    """
    Least demand that is billed, kW. Not stated: none.
    """
    ratchet: NotRequired[Ratchet | None]


class Dwelling(TypedDict):
    """
    One dwelling unit and what stands in it. A list that is not stated is empty.
    """

    floor_area_ft2: NotRequired[float | None]
    """
    Floor area by the outside dimensions, without open porches, garages and spaces that cannot be made use of, ft2. Not stated: unknown, and no method gives a total.
    """
    small_appliance_circuits: NotRequired[int | None]
    """
    Small-appliance branch circuits. Not stated: the least that the edition asks for.
    """
    laundry_circuits: NotRequired[int | None]
    """
    Laundry branch circuits. Not stated: the least that the edition asks for.
    """
    ranges: NotRequired[list[CookingAppliance] | None]
    dryers: NotRequired[list[Dryer] | None]
    appliances: NotRequired[list[Appliance] | None]
    heating: NotRequired[list[SpaceHeating] | None]
    cooling: NotRequired[list[Cooling] | None]
    heat_pumps: NotRequired[list[HeatPump] | None]
    chargers: NotRequired[list[DwellingCharger] | None]
    load_management: NotRequired[list[LoadManagement] | None]


EnergyRate = TypedDict(
    "EnergyRate",
    {
        "period": str,
        "season": NotRequired[str | None],
        "day_type": NotRequired[str | None],
        "from": str,
        "to": str,
        "tiers": list[Tier],
        "allowance_per": NotRequired[Literal["month", "day"] | None],
        "export_per_kwh": NotRequired[Decimal | str | None],
    },
)


class Installed(TypedDict):
    """
    The circuit as proposed or found. What is not stated is unknown.
    """

    breaker_rating_a: NotRequired[float | None]
    ungrounded_size: NotRequired[
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
    ]
    neutral_size: NotRequired[
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
    ]
    """
    Not stated: unknown where one is needed.
    """
    grounding_size: NotRequired[
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
    ]
    grounding_material: NotRequired[Literal["copper", "aluminum"] | None]
    ground_fault_protection: NotRequired[Literal["breaker", "receptacle", "charger", "none"] | None]
    disconnect: NotRequired[InstalledDisconnect | None]
    emergency_shutoff: NotRequired[bool | None]
    """
    Whether there is an emergency shutoff for the chargers, where one is asked for.
    """
    setting_label: NotRequired[bool | None]
    """
    Whether the adjusted current is on the label.
    """
    torque_records: NotRequired[list[TorqueRecord] | None]


class IntervalDataRequest(TypedDict):
    """
    What do these meter readings say of the demand?
    """

    edition: NotRequired[Literal["nec-2017", "nec-2020", "nec-2023", "nec-2026"] | None]
    """
    The code edition whose conditions of a measured demand are applied. Not stated: the findings that rest on them are undetermined.
    """
    jurisdiction: NotRequired[str | None]
    """
    Place, for the record; local amendments are not applied.
    """
    readings: NotRequired[Readings | None]
    time_zone: NotRequired[str | None]
    """
    IANA name of the zone of stamps that bear no offset, and of months and days. Not stated: stamps need an offset.
    """
    system: NotRequired[Literal["split-phase-120-240", "wye-208y-120"] | None]
    """
    System that the meter measures, for amperes. Not stated: amperes are left out.
    """
    phases: NotRequired[Literal[1, 3] | None]
    """
    Phases that the meter measures; 3 on a wye system only. Not stated: 1.
    """
    has_generation: NotRequired[bool | None]
    """
    Whether the premises have solar or other generation, or storage. Not stated: unknown.
    """
    leg_assumption: NotRequired[Literal["balanced", "all-on-one-leg"] | None]
    """
    How the demand lies on the legs, for amperes. Not stated: balanced, which is to be verified.
    """
    series: RegularSeries | StampedSeries


class LabourTable(TypedDict):
    """
    Hours of work by task, and what an hour is charged at.
    """

    name: str
    dated: str
    """
    The day from which hours and rate are.
    """
    currency: NotRequired[str | None]
    """
    Of the hourly rate. Not stated: a finding asks for it.
    """
    is_demo: NotRequired[bool | None]
    """
    Whether the rate is invented. Not stated: it is not.
    """
    hourly_rate: HourlyRate
    tasks: dict[str, Task]
    """
    By key, such as `breaker`, `raceway/emt/3/4` or `pull/6 AWG`. What is needed and not there is left unpriced and named by a finding.
    """
    condition_factors: NotRequired[ConditionFactors | None]
    """
    Not stated: work takes as long as in the open, whatever the condition.
    """


class LoadCalculationRequest(TypedDict):
    """
    What is this dwelling's load by each permitted method?
    """

    edition: Literal["nec-2017", "nec-2020", "nec-2023", "nec-2026"]
    """
    Code edition to apply.
    """
    jurisdiction: NotRequired[str | None]
    """
    Place, for the record; local amendments are not applied.
    """
    readings: NotRequired[Readings | None]
    occupancy: NotRequired[Literal["one-family", "two-family", "multifamily", "other"] | None]
    """
    Kind of building; decides on the least service. Not stated: one-family.
    """
    service: NotRequired[DwellingService | None]
    """
    Not stated: loads that need a voltage and all currents are undetermined.
    """
    dwelling: Dwelling
    methods: NotRequired[list[Literal["standard", "optional-new", "optional-existing"]] | None]
    """
    Methods to calculate by. Not stated: all. One that is named twice is calculated once.
    """


class ManagedCharger(TypedDict):
    """
    A charger that the management controls, and the vehicle that comes to it.
    """

    name: NotRequired[str | None]
    """
    For the reader; nothing depends on it.
    """
    charging_current_a: float
    """
    Continuous current that it is set to, A.
    """
    circuit_breaker_a: float
    """
    Breaker of its branch circuit, A.
    """
    phases: NotRequired[Literal[1, 3] | None]
    """
    Phases that it uses; 3 on a three-phase service only. Not stated: 1.
    """
    vehicle: NotRequired[Vehicle | None]
    sessions: list[Session]
    """
    The vehicle's week. No two may overlap.
    """


class ManagedChargingRequest(TypedDict):
    """
    What does load-managed charging deliver, night by night?
    """

    edition: Literal["nec-2017", "nec-2020", "nec-2023", "nec-2026"]
    """
    The code edition that the answer applies.
    """
    jurisdiction: NotRequired[str | None]
    """
    Place, for the record; local amendments are not applied.
    """
    readings: NotRequired[Readings | None]
    service: StudiedService
    house_load: HouseLoad
    chargers: list[ManagedCharger]
    """
    The chargers under management.
    """
    management: Management


class ReviewedService(TypedDict):
    """
    The service and its panel.
    """

    rating_a: float
    """
    Rating of the service, A.
    """
    system: Literal["split-phase-120-240", "wye-208y-120"]
    """
    240 V between the lines of a split-phase system, or 208 V between two of a wye.
    """
    phases: NotRequired[Literal[1, 3] | None]
    """
    Phases of the service; 3 on a wye system only. Not stated: 1.
    """
    main_breaker_a: NotRequired[float | None]
    """
    Rating of the main breaker, A. Not stated: not judged.
    """
    busbar_rating_a: NotRequired[float | None]
    """
    Rating of the panel's busbar, A. Not stated: not judged.
    """
    backfeed_breaker_a: NotRequired[float | None]
    """
    Breaker of a source that feeds the busbar back, such as a solar inverter, A. Not stated: no such source.
    """
    backfeed_output_a: NotRequired[float | None]
    """
    Rated output current of that source, A. Not stated: its breaker's rating counts.
    """
    backfeed_opposite_main: NotRequired[bool | None]
    """
    Whether the source connects at the end of the busbar opposite to the main. Not stated: unknown.
    """
    conductors: NotRequired[ServiceConductors | None]
    """
    The service conductors. Not stated: not judged.
    """


class Segment(TypedDict):
    """
    A part of the run with one wiring method and environment, in order from panel to charger.
    """

    wiring_method: Literal[
        "emt", "imc", "rmc", "pvc-40", "pvc-80", "fmc", "lfmc", "lfnc-b", "nm-b", "uf-b", "se", "mc", "ac"
    ]
    length: Length
    location: NotRequired[Literal["dry", "damp", "wet"] | None]
    """
    Not stated: unknown, and the worst is assumed.
    """
    ambient_c: NotRequired[float | None]
    """
    Greatest ambient temperature, degC. Not stated: that of the ampacity table.
    """
    rooftop_clearance: NotRequired[Length | None]
    """
    Height of the raceway or cable above a roof in the sun. Not stated: not on such a roof.
    """
    other_current_carrying_conductors: NotRequired[int | None]
    """
    Current-carrying conductors of other circuits in the raceway or bundle. Not stated: 0, or two for each other cable of bundled_cables.
    """
    bundled_cables: NotRequired[int | None]
    """
    Cables that lie together without spacing, this one included; for cables. Not stated: 1.
    """
    in_thermal_insulation: NotRequired[bool | None]
    """
    Whether a cable lies in contact with thermal insulation, or passes framing in an opening that is sealed with it. Not stated: it does not.
    """
    underground: NotRequired[Underground | None]
    """
    Not stated: the segment is not underground.
    """
    listed_for_direct_burial: NotRequired[bool | None]
    """
    Whether MC, LFMC or LFNC is marked for direct burial. Not stated: unknown.
    """
    other_conductors_area_in2: NotRequired[float | None]
    """
    Area that other conductors fill in the raceway, in2. Not stated: 0 where there are none.
    """
    raceway_trade_size: NotRequired[Literal["1/2", "3/4", "1", "1-1/4", "1-1/2", "2"] | None]
    """
    Trade size of the raceway, or of the sleeve around a cable; a design chooses a raceway's where not stated.
    """
    sleeve_method: NotRequired[
        Literal["emt", "imc", "rmc", "pvc-40", "pvc-80", "fmc", "lfmc", "lfnc-b"] | None
    ]
    """
    Raceway that a cable is drawn into. Not stated: none or unknown.
    """
    raceway_temperature_rating_c: NotRequired[float | None]
    """
    Temperature marked on the raceway, degC. Not stated: the usual listing of its kind.
    """
    cable: NotRequired[Cable | None]


class Tariff(TypedDict):
    """
    Prices of energy by the local calendar, and what else stands on the bill. A sound one prices every hour once.
    """

    name: str
    currency: str
    """
    Code of ISO 4217, such as USD.
    """
    time_zone: str
    """
    IANA name of the zone by whose clock it prices.
    """
    country: NotRequired[str | None]
    """
    ISO 3166 code of the country whose public holidays count. Not stated: none count.
    """
    subdivision: NotRequired[str | None]
    """
    Code of the state or province whose holidays count too, as ISO 3166-2 writes it after the hyphen.
    """
    observed_holidays: NotRequired[Literal["observed-day", "actual-day", "both"] | None]
    """
    Which day counts where a holiday is observed on another than its own. Not stated: both, which is to be verified.
    """
    holiday_names: NotRequired[list[HolidayName] | None]
    """
    The only holidays of the country that count, by name. Not stated: all.
    """
    holiday_dates: NotRequired[list[HolidayDate] | None]
    """
    Dates that count as holidays beside them, YYYY-MM-DD.
    """
    effective: NotRequired[Effective | None]
    """
    When it is in force. Not stated: the whole year that is asked for.
    """
    seasons: NotRequired[list[Season] | None]
    day_types: NotRequired[list[DayType] | None]
    energy_rates: list[EnergyRate]
    """
    Rows with the same season and period are one price, and have the same tiers.
    """
    tiers_on_all_energy: NotRequired[list[AllEnergyTiers] | None]
    fixed_charges: NotRequired[list[FixedCharge] | None]
    demand_charges: NotRequired[list[DemandCharge] | None]
    minimum_bill: NotRequired[MinimumBill | None]
    riders: NotRequired[list[Rider] | None]
    credits: NotRequired[list[BillCredit] | None]
    critical_peak_events: NotRequired[list[CriticalPeakEvent] | None]
    rounding: NotRequired[Rounding | None]
    """
    Not stated: each line, a half away from zero.
    """
    arrangements: NotRequired[list[Literal["whole-house", "own-meter", "submeter"]] | None]
    """
    The meters that it may serve. Not stated: all.
    """


class TariffReviewRequest(TypedDict):
    """
    Is this tariff sound, and what does each hour cost?
    """

    tariff: Tariff
    year: int
    """
    The calendar year, by the tariff's own clock.
    """


class Terminals(TypedDict):
    """
    What is marked at the terminals of a device. A missing marking is unknown, not absent.
    """

    temperature_rating_c: NotRequired[Literal[60, 75, 90] | None]
    """
    Conductor temperature that the terminals are marked for, degC. Not stated: taken as unmarked.
    """
    materials: NotRequired[list[Literal["copper", "aluminum"]] | None]
    """
    Conductor materials that they are identified for.
    """
    smallest: NotRequired[
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
    ]
    """
    Smallest conductor that they take.
    """
    largest: NotRequired[
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
    ]
    """
    Largest conductor that they take.
    """
    torque: NotRequired[Torque | None]
    """
    Tightening torque marked on the device.
    """
    strip_length: NotRequired[Length | None]
    """
    Length of insulation to strip, as marked on the device.
    """


class Timer(TypedDict):
    """
    Charging begins with the first window of the stay, and goes on in windows only.
    """

    kind: Literal["timer"]
    name: NotRequired[str | None]
    windows: list[TimerWindow]


class Travel(TypedDict):
    """
    The way to the site.
    """

    distance: TravelDistance
    """
    There and back.
    """
    trips: int
    """
    How often it is made.
    """


class Breaker(TypedDict):
    """
    The breaker at the panel, apart from its rating.
    """

    terminals: NotRequired[Terminals | None]
    """
    Markings at the breaker's lugs.
    """
    listed_for_panel: NotRequired[bool | None]
    """
    Whether the breaker is listed for the panel. Not stated: unknown.
    """


class CalculatedExistingLoad(TypedDict):
    """
    The existing load by one of the methods of the code.
    """

    kind: Literal["calculated"]
    method: Literal["standard", "optional-new", "optional-existing"]
    """
    Standard, optional for a dwelling, or optional for an existing dwelling.
    """
    dwelling: Dwelling
    """
    The dwelling as it is, without the chargers to be added.
    """


class CapacityReviewRequest(TypedDict):
    """
    Does the service carry the chargers; if not, what would make it fit?
    """

    edition: Literal["nec-2017", "nec-2020", "nec-2023", "nec-2026"]
    """
    Code edition to apply.
    """
    jurisdiction: NotRequired[str | None]
    """
    Place, for the record; local amendments are not applied.
    """
    readings: NotRequired[Readings | None]
    occupancy: NotRequired[Literal["one-family", "two-family", "multifamily", "other"] | None]
    """
    Kind of building; decides on the service conductors. Not stated: unknown.
    """
    service: ReviewedService
    existing_load: CalculatedExistingLoad | MeasuredExistingLoad
    chargers: list[AddedCharger]
    """
    The chargers to be added.
    """
    management: NotRequired[EnergyManagement | None]
    """
    Energy management of the service. Not stated: none.
    """
    shared_circuits: NotRequired[list[SharedCircuit] | None]
    """
    Circuits that several of the chargers share.
    """


Schedules: TypeAlias = OnArrival | Timer | LeastCost | SolarSurplusFirst


class ChargingComparisonRequest(TypedDict):
    """
    What does charging cost a year, by tariff, meter arrangement and schedule; does a separate meter pay?
    """

    tariffs: list[Tariff]
    house_tariff: NotRequired[str | None]
    """
    Name of the tariff that the house is on today. Not stated: the first that may serve a whole house, which is to be verified.
    """
    year: int
    """
    Year in which the twelve priced months begin.
    """
    first_month: NotRequired[int | None]
    """
    Calendar month with which they begin. Not stated: 1.
    """
    house_load: NoLoad | AnnualEnergy | IntervalEnergy
    generation: NotRequired[NoLoad | AnnualGeneration | IntervalEnergy | None]
    """
    What the house generates behind its meter. Not stated: nothing.
    """
    charging: Charging
    arrangements: NotRequired[list[Literal["whole-house", "own-meter", "submeter"]] | None]
    """
    Meters to compare; one stated twice counts once. whole-house: one meter for both. own-meter: the vehicle has its own meter and bill. submeter: the vehicle's reading is subtracted from the house's. Not stated: whole-house, and those whose costs are stated.
    """
    schedules: list[Schedules]
    separate_meter: NotRequired[SeparateMeter | None]
    """
    Needed where a separate meter is to pay: without it nothing of that is judged.
    """
    submeter: NotRequired[Submeter | None]
    """
    Costs of a submeter, where they are others than those of separate_meter.
    """
    worked_bill: NotRequired[WorkedBill | None]
    """
    Not stated: the first month of the first option of the answer.
    """


class Point(TypedDict):
    """
    A device or splice between two segments, with terminals of its own.
    """

    after_segment: int
    """
    Index of the segment that it follows.
    """
    kind: Literal["disconnect", "meter-socket", "submeter", "splice"]
    rating_a: NotRequired[float | None]
    """
    Rating of the device, A; a splice has none.
    """
    terminals: NotRequired[Terminals | None]


class Receptacle(TypedDict):
    """
    The charger is plugged into a receptacle.
    """

    kind: Literal["receptacle"]
    configuration: Literal["14-50", "6-50", "14-30", "6-30", "6-20", "14-60", "10-30", "10-50"]
    """
    Configuration by its NEMA designation.
    """
    listed_for_ev_charging: NotRequired[bool | None]
    """
    Whether it is listed for this use.
    """
    terminals: NotRequired[Terminals | None]
    """
    Markings at the receptacle's terminals.
    """


class Site(TypedDict):
    """
    The site as the work meets it.
    """

    segments: NotRequired[list[SegmentSite] | None]
    """
    Conditions by segment of the run.
    """
    travel: NotRequired[Travel | None]
    """
    Not stated: excluded.
    """
    wall_patches: NotRequired[int | None]
    """
    Openings to close. Not stated: excluded.
    """


class Charger(TypedDict):
    """
    The charger: what it is set to, what it is rated for, and how it is connected.
    """

    rated_current_a: NotRequired[float | None]
    """
    Current on its nameplate, A. Not stated: the charging current is taken for it.
    """
    setting_access: NotRequired[Literal["restricted", "unrestricted"] | None]
    """
    Whether the current setting is reachable only by a tool, key, seal or password. Not stated: unknown.
    """
    connection: Hardwired | Receptacle
    uses_neutral: NotRequired[bool | None]
    """
    Whether a hardwired charger needs a neutral. Not stated: it does not.
    """
    terminals: NotRequired[Terminals | None]
    """
    Markings at a hardwired charger's lugs.
    """
    power_factor: NotRequired[float | None]
    """
    Displacement power factor of the charger; for the voltage drop. Not stated: 1.
    """
    markings: NotRequired[Markings | None]
    charging_current_a: float
    """
    Continuous current that it is set to, A.
    """


class CircuitDesignRequest(TypedDict):
    """
    What circuit does this charger need?
    """

    edition: Literal["nec-2017", "nec-2020", "nec-2023", "nec-2026"]
    """
    The code edition that the answer applies.
    """
    jurisdiction: NotRequired[str | None]
    """
    Place, for the record; local amendments are not applied.
    """
    readings: NotRequired[Readings | None]
    premises: NotRequired[Premises | None]
    supply: Supply
    charger: Charger
    breaker: NotRequired[Breaker | None]
    conductors: Conductors
    run: list[Segment]
    """
    Segments in order from panel to charger.
    """
    points: NotRequired[list[Point] | None]
    targets: NotRequired[Targets | None]


class CircuitReviewRequest(TypedDict):
    """
    Does this proposed or installed circuit hold?
    """

    edition: Literal["nec-2017", "nec-2020", "nec-2023", "nec-2026"]
    """
    The code edition that the answer applies.
    """
    jurisdiction: NotRequired[str | None]
    """
    Place, for the record; local amendments are not applied.
    """
    readings: NotRequired[Readings | None]
    premises: NotRequired[Premises | None]
    supply: Supply
    charger: Charger
    breaker: NotRequired[Breaker | None]
    conductors: Conductors
    run: list[Segment]
    """
    Segments in order from panel to charger.
    """
    points: NotRequired[list[Point] | None]
    targets: NotRequired[Targets | None]
    installed: Installed


class ComparedCharger(TypedDict):
    """
    The charger, apart from its charging current: the comparison varies that, see currents_a.
    """

    rated_current_a: NotRequired[float | None]
    """
    Current on its nameplate, A. Not stated: the charging current is taken for it.
    """
    setting_access: NotRequired[Literal["restricted", "unrestricted"] | None]
    """
    Whether the current setting is reachable only by a tool, key, seal or password. Not stated: unknown.
    """
    connection: Hardwired | Receptacle
    uses_neutral: NotRequired[bool | None]
    """
    Whether a hardwired charger needs a neutral. Not stated: it does not.
    """
    terminals: NotRequired[Terminals | None]
    """
    Markings at a hardwired charger's lugs.
    """
    power_factor: NotRequired[float | None]
    """
    Displacement power factor of the charger; for the voltage drop. Not stated: 1.
    """
    markings: NotRequired[Markings | None]


class InstallationEstimateRequest(TypedDict):
    """
    What will the installation take and cost?
    """

    site: NotRequired[Site | None]
    supplies: NotRequired[Supplies | None]
    trench: NotRequired[Trench | None]
    """
    For segments underground. Not stated: the trench stays unpriced.
    """
    waste: NotRequired[Waste | None]
    markup_percent: NotRequired[float | None]
    """
    Of material, labour and fees together. Not stated: none.
    """
    tax: NotRequired[Tax | None]
    """
    Not stated: excluded.
    """
    circuit: CircuitDesignRequest
    """
    The body of a circuit design; its design is what is taken off.
    """
    price_book: NotRequired[PriceBook | None]
    """
    Not stated: the demo book, whose prices are invented.
    """
    labour_table: NotRequired[LabourTable | None]
    """
    Not stated: the demo table, whose hourly rate is invented.
    """
    risk: NotRequired[Risk | None]


class JobFacts(TypedDict):
    """
    What an estimate is told beside circuit and prices: site, supplies, trench, waste, markup and tax.
    """

    site: NotRequired[Site | None]
    supplies: NotRequired[Supplies | None]
    trench: NotRequired[Trench | None]
    """
    For segments underground. Not stated: the trench stays unpriced.
    """
    waste: NotRequired[Waste | None]
    markup_percent: NotRequired[float | None]
    """
    Of material, labour and fees together. Not stated: none.
    """
    tax: NotRequired[Tax | None]
    """
    Not stated: excluded.
    """


class CurrentComparisonRequest(TypedDict):
    """
    What does each step of charging current cost, and what does it bring in?
    """

    edition: Literal["nec-2017", "nec-2020", "nec-2023", "nec-2026"]
    """
    The code edition that the answer applies.
    """
    jurisdiction: NotRequired[str | None]
    """
    Place, for the record; local amendments are not applied.
    """
    readings: NotRequired[Readings | None]
    premises: NotRequired[Premises | None]
    supply: Supply
    charger: ComparedCharger
    breaker: NotRequired[Breaker | None]
    conductors: Conductors
    run: list[Segment]
    """
    Segments in order from panel to charger.
    """
    points: NotRequired[list[Point] | None]
    targets: NotRequired[Targets | None]
    currents_a: NotRequired[list[CurrentsAItem] | None]
    """
    Charging currents to compare, A. They are sorted, and one that is stated twice is compared once. Settings of the charger where its rated current is stated, else each is a charger of that rating. Not stated: 6, 8, 10, 12, 16, 20, 24, 28, 32, 36, 40, 48, 56, 64, 72, 80 (common practice, no source).
    """
    night_h: NotRequired[float | None]
    """
    Hours of charging in a night. Not stated: no energy of a night is computed.
    """
    price_book: NotRequired[PriceBook | None]
    """
    What things cost. Not stated: no cost is estimated, unless demo_prices asks for it.
    """
    labour_table: NotRequired[LabourTable | None]
    """
    What work takes. Not stated: the demo table, whose hourly rate is invented.
    """
    demo_prices: NotRequired[bool | None]
    """
    Whether the demo book, whose prices are invented, stands in for a price book.
    """
    job: NotRequired[JobFacts | None]
    """
    What an installation estimate is told beside circuit and prices; for the cost.
    """
