"""What interval data is answered with: open to growth, every field present."""

from dataclasses import dataclass
from typing import Annotated

from pydantic import Field

from branchwright.checks.service_capacity.interval_data.facts import LegAssumption
from branchwright.findings.open_enums import open_enum
from branchwright.questions.answers import ConsultedInterpretation, JudgedAnswer


@dataclass(slots=True)
class NormalisedSeries:
    """The readings in their order on one grid of time."""

    start: Annotated[str, Field(description="Start of the first interval, ISO 8601 with offset.")]
    interval_minutes: Annotated[int, Field(description="Length of every interval.")]
    unit: Annotated[str, Field(description="Unit of the values: Wh.")]
    energy_wh: Annotated[
        list[float | None], Field(description="Energy of each interval, Wh; null where it is missing.")
    ]
    zone: Annotated[
        str | None, Field(description="Zone of months and days; null where only offsets are known.")
    ]


@dataclass(slots=True)
class Gap:
    """A time without readings."""

    start: Annotated[
        str, Field(serialization_alias="from", description="Start of the first missing interval.")
    ]
    end: Annotated[str, Field(serialization_alias="to", description="End of the last missing interval.")]
    minutes: int


@dataclass(slots=True)
class Fault:
    """A reading, line or entry that could not be taken as it stands."""

    at: Annotated[str, Field(description="Where: JSON pointer, line and column, or entry.")]
    message: Annotated[str, Field(description="What is wrong with it, in one sentence.")]
    given: Annotated[str | None, Field(description="What stands there, at most 200 characters.")]


@dataclass(slots=True)
class MonthOfData:
    """What a calendar month holds of the series."""

    month: Annotated[str, Field(description="Year and month, by the series' zone.")]
    coverage_percent: Annotated[
        float, Field(description="Intervals with a reading, of those between the series' first and last.")
    ]
    kwh: Annotated[float, Field(description="Energy of the readings, kWh.")]


@dataclass(slots=True)
class UnevenDay:
    """A local day that is not 24 hours long."""

    date: str
    hours: float


@dataclass(slots=True)
class DataQuality:
    """What was found of the readings as data. Counts are of readings, or of intervals, unless they say else."""

    readings: Annotated[int, Field(description="Readings that could be read.")]
    expected: Annotated[
        int | None, Field(description="Intervals from the first to the last; null without any.")
    ]
    coverage_percent: Annotated[
        float | None, Field(description="Intervals with a reading, of those expected.")
    ]
    resolution_minutes: Annotated[int | None, Field(description="Length of the intervals.")]
    gap_count: int
    gaps: Annotated[list[Gap], Field(description="The longest, at most 100, in the order of time.")]
    duplicates: Annotated[int, Field(description="Further readings of an interval that already had one.")]
    conflicting_duplicates: Annotated[
        int, Field(description="Of these, those with another value; the greatest of the interval was taken.")
    ]
    overlaps: Annotated[int, Field(description="Readings that begin before the one before them has ended.")]
    unsorted: Annotated[int, Field(description="Readings that stand after a later one.")]
    zeros: int
    longest_zero_run_minutes: int
    estimated: Annotated[
        int,
        Field(description="Readings that were edited, estimated, derived, projected or mixed, not measured."),
    ]
    questionable: Annotated[int, Field(description="Readings marked questionable, or with an unknown mark.")]
    negative: int
    clipped: Annotated[
        int,
        Field(description="Zeros by day, where they come by day and not by night: export cut off at zero."),
    ]
    register_like: Annotated[
        bool, Field(description="Whether values sent as energy or power only ever rise, as a register does.")
    ]
    out_of_range: Annotated[
        int, Field(description="Readings above what the greatest service carries; a marker or a wrong unit.")
    ]
    months: list[MonthOfData]
    short_days: Annotated[
        list[UnevenDay], Field(description="Local days of less than 24 hours in the series.")
    ]
    long_days: Annotated[
        list[UnevenDay], Field(description="Local days of more than 24 hours in the series.")
    ]
    fault_count: int
    faults: Annotated[list[Fault], Field(description="The first 50, in the order of the body.")]


@dataclass(slots=True)
class TypicalFactor:
    """By how much a 15-minute peak exceeds the peak at this resolution, as published; it decides nothing."""

    low: float
    median: float
    high: float
    source: str


@dataclass(slots=True)
class MeasuredDemand:
    """The greatest demand that the readings show."""

    greatest_w: Annotated[float, Field(description="Greatest average power of one interval, W.")]
    at: Annotated[str, Field(description="Start of that interval, ISO 8601 with offset.")]
    averaging_minutes: Annotated[int, Field(description="Length of the interval.")]
    total_kwh: Annotated[float, Field(description="Energy of all readings, to hold against bills.")]
    days: Annotated[float, Field(description="From the first to the last interval, in days of 24 hours.")]
    coverage_percent: float
    bound_15_minute_w: Annotated[
        float | None,
        Field(
            description="No 15-minute demand within the readings can exceed it, W; null where there is no bound."
        ),
    ]
    bound_factor: Annotated[float | None, Field(description="The bound over the greatest demand.")]
    bound_why: str
    typical_factor: TypicalFactor | None
    leg_assumption: Annotated[
        str, open_enum(LegAssumption, "How the demand is taken to lie on the legs, for amperes.")
    ]
    greatest_a: Annotated[
        float | None,
        Field(
            description="The greatest demand in amperes of the larger leg, at power factor 1; null where unknown."
        ),
    ]


@dataclass(slots=True)
class MeasuredLoad:
    """The existing load as a service-capacity review takes it; what the readings cannot tell is null."""

    kind: Annotated[str, Field(description="measured")]
    measured_demand_w: float
    averaging_minutes: int
    days: float
    coverage_percent: float
    has_generation: bool | None
    occupied: Annotated[bool | None, Field(description="Null: to be stated by the caller.")]
    seasonal_load_va: Annotated[float | None, Field(description="Null: to be stated by the caller.")]
    fifteen_minute_bound_w: float | None


class IntervalDataAnswer(JudgedAnswer):
    """What meter readings say of the demand, and how good they are."""

    edition: Annotated[
        str | None, Field(description="The code edition that was applied; null where none is stated.")
    ]
    jurisdiction: Annotated[
        str | None, Field(description="As stated in the request; its local amendments are not applied.")
    ]
    interpretations: list[ConsultedInterpretation]
    series: Annotated[
        NormalisedSeries | None, Field(description="Null where the findings say why there is none.")
    ]
    quality: DataQuality
    measured_demand: Annotated[
        MeasuredDemand | None,
        Field(
            description="Null where there is no series, or where its values are plainly not what they are said to be."
        ),
    ]
    existing_load: Annotated[
        MeasuredLoad | None,
        Field(
            description="Ready for existing_load of POST /v1/service-capacity-reviews; null without a demand."
        ),
    ]
