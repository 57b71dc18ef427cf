"""What a charging cost comparison answers with: open to growth, every field present."""

from dataclasses import dataclass
from typing import Annotated, Literal, TypeAlias

from pydantic import Field

from branchwright.checks.charging_cost.charging_comparison.bill_answers import ComparedMonth, WorkedBillAnswer
from branchwright.checks.charging_cost.tariffs.price_facts import Arrangement
from branchwright.findings.open_enums import open_enum
from branchwright.questions.answers import JudgedAnswer
from branchwright.questions.money_fields import Money

ScheduleKind: TypeAlias = Literal["on-arrival", "timer", "least-cost", "solar-surplus-first"]
LeastCostBasis: TypeAlias = Literal["optimum", "best-of-tried"]
Against: TypeAlias = Literal["present-tariff", "whole-house-repriced"]


@dataclass(slots=True)
class ComparedSchedule:
    """One of the schedules that were asked for."""

    index: Annotated[int, Field(description="Its place in the request, from 0.")]
    kind: Annotated[str, open_enum(ScheduleKind, "When the vehicle charges within its stay.")]
    name: str | None


@dataclass(slots=True)
class YearCost:
    """What twelve months cost, house and vehicle, in the tariffs' currency."""

    with_charging: Annotated[Money, Field(description="All bills of house and vehicle.")]
    without_charging: Annotated[
        Money, Field(description="The house alone on the tariff that it is on today.")
    ]
    charging: Annotated[
        Money, Field(description="The first less the second: what charging costs, all its effects included.")
    ]
    house_repriced: Annotated[
        Money,
        Field(
            description="What the house alone costs more on this tariff than on the one it is on today; below zero "
            "where it costs less. It is a part of charging; 0 where the house stays where it is."
        ),
    ]


@dataclass(slots=True)
class DistanceCost:
    """What a mile or a kilometre costs."""

    amount: Money
    unit: Annotated[str, Field(description="mi or km, as the request states distances.")]


@dataclass(slots=True)
class WorstWinterDay:
    """The night on which the window is shortest of what the worst winter day needs. Energy is at the wall."""

    date: Annotated[str, Field(description="Local date of arrival.")]
    needed_kwh: float
    deliverable_kwh: Annotated[float, Field(description="What the window brings at full current.")]
    shortfall_kwh: float
    hours: Annotated[float, Field(description="Hours in which the schedule lets the vehicle charge.")]
    current_that_would_do_a: Annotated[
        float | None,
        Field(
            description="Least whole current that would bring what is needed, A; at least the 6 A that a vehicle is "
            "offered. Null where there are no hours, or where it is more than the vehicle takes or a charger offers."
        ),
    ]


@dataclass(slots=True)
class ScheduleWindow:
    """Whether a schedule's hours bring what is needed, night by night."""

    schedule: Annotated[int, Field(description="Its place in the request, from 0.")]
    nights: Annotated[int, Field(description="Nights on which the vehicle needs energy.")]
    nights_met: Annotated[
        int, Field(description="Those after which it has all it needs, what was owed from before included.")
    ]
    unmet_kwh: Annotated[float, Field(description="Energy that is never made up, kWh at the wall.")]
    worst_day: Annotated[WorstWinterDay | None, Field(description="Null where nothing is needed.")]


@dataclass(slots=True)
class ComparedOption:
    """One tariff, meter arrangement and schedule, priced over twelve months."""

    rank: Annotated[int, Field(description="From 1: those that meet the need first, then the cheapest.")]
    tariff: str
    arrangement: Annotated[str, open_enum(Arrangement, "Which meter bills the vehicle.")]
    schedule: ComparedSchedule
    annual: YearCost
    months: list[ComparedMonth]
    per_kwh: Annotated[
        Money | None,
        Field(description="annual.charging for each kWh charged; null where nothing is charged."),
    ]
    per_distance: Annotated[
        DistanceCost | None,
        Field(description="Null where the need is stated as energy, or nothing is charged."),
    ]
    charged_kwh: Annotated[float, Field(description="Energy charged in the year, kWh at the wall.")]
    greatest_demand_kw: Annotated[
        float,
        Field(
            description="Greatest average power that the meter which bills the vehicle takes from the grid in one "
            "interval, kW."
        ),
    ]
    unmet_kwh: Annotated[float, Field(description="Energy that is never made up, kWh at the wall.")]
    nights_unmet: Annotated[
        int, Field(description="Nights after which the vehicle has less than it needs, or owes from before.")
    ]
    least_cost_basis: Annotated[
        str | None,
        open_enum(
            LeastCostBasis,
            "Of a least-cost schedule: whether nothing cheaper is possible, save for what the rounding of lines moves, "
            "or it is the cheapest that was tried, as with tiers and demand charges. Null for other schedules.",
        ),
    ]


@dataclass(slots=True)
class NotOffered:
    """A tariff that may not serve an arrangement or a schedule."""

    tariff: str
    arrangement: Annotated[str, open_enum(Arrangement, "The meter that it may not serve.")]
    why: str


@dataclass(slots=True)
class PayBack:
    """What a separate meter saves against one way to do without it."""

    against: Annotated[
        str,
        open_enum(
            Against,
            "present-tariff: one meter for both, on the tariff that the house is on today. whole-house-repriced: one "
            "meter for both, on the cheapest tariff for house and vehicle together. Either brings as much energy.",
        ),
    ]
    option: Annotated[int, Field(description="Rank of the option that it is held against.")]
    annual_saving: Annotated[
        Money, Field(description="What that option costs a year more; the meter's monthly charge is paid.")
    ]
    payback_years: Annotated[
        float | None, Field(description="Installed cost over annual saving. Null where nothing is saved.")
    ]
    net_present_value: Annotated[
        Money, Field(description="The discounted savings of the stated years less the installed cost.")
    ]
    break_even_distance_per_year: Annotated[
        float | None,
        Field(
            description="Yearly distance at which the net present value is zero, found by pricing the year again. "
            "Null where there is none up to what the windows deliver, or where the need is stated as energy."
        ),
    ]
    break_even_distance_unit: str | None
    break_even_kwh_per_year: Annotated[
        float | None, Field(description="The same in energy at the wall, kWh. Null where there is none.")
    ]


@dataclass(slots=True)
class SeparateMeterResult:
    """Whether the best option with a separate meter pays."""

    option: Annotated[int, Field(description="Rank of the best option with a separate meter.")]
    installed_cost: Money
    years: int
    discount_rate_percent: float
    against: list[PayBack]


class ChargingComparisonAnswer(JudgedAnswer):
    """What charging costs a year, by tariff, meter arrangement and schedule."""

    currency: Annotated[
        str | None, Field(description="Of every amount. Null where the tariffs have not the same one.")
    ]
    priced_from: Annotated[
        str | None,
        Field(description="First local date of the twelve months; null where there is no such zone."),
    ]
    priced_until: Annotated[str | None, Field(description="Last local date of them.")]
    interval_minutes: Annotated[
        int | None, Field(description="Length of the intervals that the year is cut into, minutes.")
    ]
    options: Annotated[
        list[ComparedOption],
        Field(description="Ranked; empty where the findings say why nothing was priced."),
    ]
    not_offered: list[NotOffered]
    windows: Annotated[list[ScheduleWindow], Field(description="One for each schedule, in order.")]
    separate_meter: Annotated[
        SeparateMeterResult | None,
        Field(
            description="Null where no option has a separate meter, none has one meter for both, or its costs are not "
            "stated."
        ),
    ]
    worked_bill: Annotated[WorkedBillAnswer | None, Field(description="Null where nothing was priced.")]
