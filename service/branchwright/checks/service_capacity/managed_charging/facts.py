"""The request model of a managed-charging study: the house's load, the chargers with their vehicles, the management."""

from typing import Annotated, Literal, TypeAlias

from pydantic import BeforeValidator, Field

from branchwright.questions.fields import (
    Arrival,
    CurrentA,
    Departure,
    Edition,
    Facts,
    Jurisdiction,
    Moment,
    Number,
    RatingA,
    ServicePhases,
    SupplySystem,
    Weekdays,
    ZoneName,
    whole,
)
from branchwright.questions.readings import Readings

Sharing: TypeAlias = Literal["equal", "first-come", "earliest-departure"]
LegAssumption: TypeAlias = Literal["balanced", "all-on-one-leg"]

MOST_READINGS = 210_240
"""Six years of 15-minute readings."""

MOST_CHARGERS = 200
GREATEST_WH = 1e9

EnergyWh: TypeAlias = Annotated[Number, Field(ge=-GREATEST_WH, le=GREATEST_WH)]
LegCurrentA: TypeAlias = Annotated[Number, Field(ge=-1e6, le=1e6)]


class StudiedService(Facts):
    """The service that house and chargers share."""

    system: SupplySystem
    phases: ServicePhases = None
    rating_a: Annotated[
        RatingA | None, Field(description="Rating of the service, A. Not stated: not judged.")
    ] = None


class HouseLoad(Facts):
    """What the house draws without the chargers; state either energy_wh or leg_currents_a."""

    start: Annotated[Moment, Field(description="Start of the first interval, with its offset.")]
    interval_minutes: Annotated[
        Literal[1, 2, 3, 5, 6, 10, 12, 15, 20, 30, 60],
        BeforeValidator(whole),
        Field(description="Length of every interval, minutes."),
    ]
    time_zone: Annotated[
        ZoneName,
        Field(description="IANA name of the zone by whose clock vehicles come and go."),
    ]
    energy_wh: Annotated[
        Annotated[tuple[EnergyWh | None, ...], Field(fail_fast=True, min_length=1, max_length=MOST_READINGS)]
        | None,
        Field(
            description="Energy of the whole house in each interval, Wh; null where the reading is missing.",
        ),
    ] = None
    leg_assumption: Annotated[
        LegAssumption | None,
        Field(
            description="How the energy lies on the ungrounded conductors. Not stated: balanced, which is to be "
            "verified."
        ),
    ] = None
    power_factor: Annotated[
        # No house has less than a tenth, and a current has to stay a number.
        Annotated[Number, Field(ge=0.1, le=1)] | None,
        Field(description="Power factor of the house, to turn energy into current. Not stated: 1."),
    ] = None
    leg_currents_a: Annotated[
        tuple[
            Annotated[
                tuple[LegCurrentA | None, ...], Field(fail_fast=True, min_length=1, max_length=MOST_READINGS)
            ],
            ...,
        ]
        | None,
        Field(
            min_length=2,
            max_length=3,
            description="Current of each ungrounded conductor in each interval, A; null where it is missing. One "
            "list for each: two, or three of a three-phase service.",
        ),
    ] = None


class Session(Facts):
    """When a vehicle comes and goes on some weekdays, and what it needs each time."""

    weekdays: Weekdays
    arrival: Arrival
    departure: Departure
    energy_kwh: Annotated[
        Annotated[Number, Field(gt=0, le=1000)], Field(description="Energy that it needs each time, kWh.")
    ]
    basis: Annotated[
        Literal["wall", "battery"] | None,
        Field(
            description="Whether energy_kwh is taken at the wall, losses included, or arrives in the battery. "
            "Not stated: battery, which needs more."
        ),
    ] = None


class Vehicle(Facts):
    """What is known of the vehicle."""

    battery_kwh: Annotated[
        Annotated[Number, Field(gt=0, le=2000)] | None,
        Field(description="Usable energy of the battery, kWh. Not stated: not judged."),
    ] = None
    onboard_limit_a: Annotated[
        CurrentA | None,
        Field(description="Greatest current that its onboard charger takes, A. Not stated: no limit."),
    ] = None
    charging_efficiency: Annotated[
        Annotated[Number, Field(ge=0.5, le=1)] | None,
        Field(description="Energy into the battery over energy at the wall. Not stated: 0.85."),
    ] = None


class ManagedCharger(Facts):
    """A charger that the management controls, and the vehicle that comes to it."""

    name: Annotated[
        Annotated[str, Field(strict=True, min_length=1, max_length=100)] | None,
        Field(description="For the reader; nothing depends on it."),
    ] = None
    charging_current_a: Annotated[CurrentA, Field(description="Continuous current that it is set to, A.")]
    circuit_breaker_a: Annotated[RatingA, Field(description="Breaker of its branch circuit, A.")]
    phases: Annotated[
        Literal[1, 3] | None,
        BeforeValidator(whole),
        Field(description="Phases that it uses; 3 on a three-phase service only. Not stated: 1."),
    ] = None
    vehicle: Vehicle | None = None
    sessions: Annotated[
        tuple[Session, ...],
        Field(min_length=1, max_length=21, description="The vehicle's week. No two may overlap."),
    ]


class Management(Facts):
    """The energy management that holds the largest leg at or below a setting by lowering the chargers."""

    control_setting_a: Annotated[
        RatingA, Field(description="Current of the service that it holds, per leg, A.")
    ]
    margin_a: Annotated[
        Annotated[Number, Field(ge=0, le=100)] | None,
        Field(description="What it keeps free below the setting, A. Not stated: 0."),
    ] = None
    response_s: Annotated[
        Annotated[Number, Field(ge=0, le=86_400)] | None,
        Field(
            description="Time until the chargers have followed a change of the house's load, s. Not stated: less than "
            "an interval, which is to be verified. One shorter than an interval cannot be seen in it."
        ),
    ] = None
    resume_delay_minutes: Annotated[
        Annotated[Number, Field(ge=0, le=1440)] | None,
        Field(
            description="Time with enough current left before charging resumes after a pause, minutes; counted in "
            "whole intervals, upwards. Not stated: 15."
        ),
    ] = None
    sharing: Annotated[
        Sharing | None,
        Field(
            description="How several vehicles share what is left. equal: alike, in whole amperes; those that came "
            "last pause where there is too little for all. first-come, earliest-departure: each in turn takes what it "
            "can. Not stated: equal."
        ),
    ] = None


class ManagedChargingRequest(Facts):
    """What does load-managed charging deliver, night by night?"""

    edition: Annotated[Edition, Field(description="The code edition that the answer applies.")]
    jurisdiction: Jurisdiction = None
    readings: Readings | None = None
    service: StudiedService
    house_load: HouseLoad
    chargers: Annotated[
        tuple[ManagedCharger, ...],
        Field(min_length=1, max_length=MOST_CHARGERS, description="The chargers under management."),
    ]
    management: Management
