"""The request model of a charging cost comparison: tariffs, the house, what the vehicle needs, and when it is there."""

from typing import Annotated, Literal, TypeAlias

from pydantic import BeforeValidator, Field

from branchwright.checks.charging_cost.charging_comparison.need_facts import EnergyNeed
from branchwright.checks.charging_cost.charging_comparison.series_facts import Generation, HouseLoad
from branchwright.checks.charging_cost.tariffs.facts import Tariff, Year
from branchwright.checks.charging_cost.tariffs.price_facts import Arrangement
from branchwright.questions.fields import (
    Arrival,
    ClockTime,
    CurrentA,
    Departure,
    Facts,
    Name,
    Number,
    Percent,
    Weekdays,
    whole,
)
from branchwright.questions.money_fields import Amount

Month: TypeAlias = Annotated[Annotated[int, Field(strict=True, ge=1, le=12)], BeforeValidator(whole)]

MOST_TARIFFS = 20
MOST_SCHEDULES = 10
MOST_WINDOWS = 10


class PricedCharger(Facts):
    """The charger, at the voltage that it really has."""

    charging_current_a: Annotated[CurrentA, Field(description="Continuous current that it is set to, A.")]
    voltage_v: Annotated[
        Annotated[Number, Field(ge=50, le=1000)],
        Field(description="Voltage at the charger, V; between lines where it has three phases."),
    ]
    phases: Annotated[
        Literal[1, 3] | None,
        BeforeValidator(whole),
        Field(description="Phases that it uses. Not stated: 1."),
    ] = None


class PricedVehicle(Facts):
    """What is known of the vehicle."""

    battery_kwh: Annotated[
        Annotated[Number, Field(gt=0, le=2000)] | None,
        Field(
            description="Usable energy of the battery, kWh. Stated: what a night leaves unmet is made up in the next "
            "nights, as far as the battery holds it. Not stated: it stays unmet."
        ),
    ] = None
    onboard_limit_a: Annotated[
        CurrentA | None,
        Field(description="Greatest current that its onboard charger takes, A. Not stated: no limit."),
    ] = None


class OtherDays(Facts):
    """Arrival and departure on some weekdays."""

    weekdays: Weekdays
    arrival: Arrival
    departure: Departure


class Charging(Facts):
    """What the vehicle needs, where it charges, and when it is there. A night belongs to its arrival date."""

    energy_need: EnergyNeed
    charger: PricedCharger
    vehicle: PricedVehicle | None = None
    arrival: Arrival
    departure: Departure
    other_days: Annotated[
        Annotated[tuple[OtherDays, ...], Field(max_length=7)] | None,
        Field(description="Weekdays of arrival with other times. No two may name the same weekday."),
    ] = None


class TimerWindow(Facts):
    """Clock times between which a timer lets the vehicle charge."""

    begin: Annotated[ClockTime, Field(alias="from", description="HH:MM by the local clock.")]
    end: Annotated[
        ClockTime,
        Field(
            alias="to", description="HH:MM by the local clock; at or before the beginning: on the next day."
        ),
    ]


class OnArrival(Facts):
    """Charging begins when the vehicle comes, and lasts until it has what it needs."""

    kind: Literal["on-arrival"]
    name: Name | None = None


class Timer(Facts):
    """Charging begins with the first window of the stay, and goes on in windows only."""

    kind: Literal["timer"]
    name: Name | None = None
    windows: Annotated[tuple[TimerWindow, ...], Field(min_length=1, max_length=MOST_WINDOWS)]


class LeastCost(Facts):
    """Charging takes the cheapest hours between arrival and departure; of those alike the earliest."""

    kind: Literal["least-cost"]
    name: Name | None = None


class SolarSurplusFirst(Facts):
    """Charging takes what generation leaves over during the stay, then the cheapest hours of the rest.

    Needs `generation`, and a meter that house and vehicle share.
    """

    kind: Literal["solar-surplus-first"]
    name: Name | None = None


Schedule: TypeAlias = Annotated[
    OnArrival | Timer | LeastCost | SolarSurplusFirst, Field(discriminator="kind")
]


class SeparateMeter(Facts):
    """What a meter of its own costs, and over what it has to pay."""

    installed_cost: Annotated[
        Amount, Field(description="Socket, labour and fees, less incentives, in the tariffs' currency.")
    ]
    monthly_charge: Annotated[
        Amount, Field(description="What the meter itself costs a month, beside the tariff's own charges.")
    ]
    discount_rate_percent: Annotated[
        Percent, Field(description="Rate at which later savings count less, a year.")
    ]
    years: Annotated[
        Annotated[int, Field(strict=True, ge=1, le=50)] | None,
        BeforeValidator(whole),
        Field(description="Years that the savings are counted for. Not stated: 10."),
    ] = None


class Submeter(Facts):
    """What a submeter costs, whose reading is subtracted from the house's."""

    installed_cost: Annotated[Amount, Field(description="Submeter, labour and fees, less incentives.")]
    monthly_charge: Annotated[Amount, Field(description="What the submeter itself costs a month.")]


class WorkedBill(Facts):
    """The one month whose bill the steps of the answer work out."""

    tariff: Annotated[Name, Field(description="Name of one of the tariffs.")]
    arrangement: Arrangement
    schedule: Annotated[
        Annotated[int, Field(strict=True, ge=0, le=MOST_SCHEDULES - 1)],
        BeforeValidator(whole),
        Field(description="Place of the schedule in the request, from 0."),
    ]
    month: Annotated[Month, Field(description="Calendar month, 1 to 12.")]


class ChargingComparisonRequest(Facts):
    """What does charging cost a year, by tariff, meter arrangement and schedule; does a separate meter pay?"""

    tariffs: Annotated[tuple[Tariff, ...], Field(min_length=1, max_length=MOST_TARIFFS)]
    house_tariff: Annotated[
        Name | None,
        Field(
            description="Name of the tariff that the house is on today. Not stated: the first that may serve a whole "
            "house, which is to be verified."
        ),
    ] = None
    year: Annotated[Year, Field(description="Year in which the twelve priced months begin.")]
    first_month: Annotated[
        Month | None, Field(description="Calendar month with which they begin. Not stated: 1.")
    ] = None
    house_load: HouseLoad
    generation: Annotated[
        Generation | None,
        Field(description="What the house generates behind its meter. Not stated: nothing."),
    ] = None
    charging: Charging
    arrangements: Annotated[
        Annotated[tuple[Arrangement, ...], Field(min_length=1, max_length=3)] | None,
        Field(
            description="Meters to compare; one stated twice counts once. whole-house: one meter for both. own-meter: "
            "the vehicle has its own meter and bill. submeter: the vehicle's reading is subtracted from the house's. "
            "Not stated: whole-house, and those whose costs are stated."
        ),
    ] = None
    schedules: Annotated[tuple[Schedule, ...], Field(min_length=1, max_length=MOST_SCHEDULES)]
    separate_meter: Annotated[
        SeparateMeter | None,
        Field(description="Needed where a separate meter is to pay: without it nothing of that is judged."),
    ] = None
    submeter: Annotated[
        Submeter | None,
        Field(description="Costs of a submeter, where they are others than those of separate_meter."),
    ] = None
    worked_bill: Annotated[
        WorkedBill | None,
        Field(description="Not stated: the first month of the first option of the answer."),
    ] = None
