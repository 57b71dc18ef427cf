"""The request models of interval data: a JSON body, or the query beside a CSV or Green Button body.

A query holds text alone, so its numbers and booleans are read from text; everything else is as strict as a body.
"""

import re
from typing import Annotated, Any, Literal, NotRequired, TypeAlias

from pydantic import BeforeValidator, ConfigDict, Field
from pydantic_core import PydanticKnownError
from typing_extensions import TypedDict

from branchwright.questions.fields import Edition, Facts, Jurisdiction, Number, System, Yes, whole
from branchwright.questions.readings import Readings

MOST_READINGS = 210_240
"""Six years of 15-minute readings."""

MOST_BYTES = 32 * 1024 * 1024
GREATEST_VALUE = 1e12

LegAssumption: TypeAlias = Literal["balanced", "all-on-one-leg"]
StampsAt: TypeAlias = Literal["start", "end"]
Unit: TypeAlias = Literal["energy-wh", "energy-kwh", "power-w", "power-kw", "register-wh", "register-kwh"]
Quality: TypeAlias = Literal[
    "measured", "edited", "estimated", "questionable", "derived", "projected", "mixed", "unknown"
]

LONGEST_INTERVAL_MINUTES = 1440
STAMP = r"^[0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-9]{2}(:[0-9]{2}(\.[0-9]{1,9})?)?(Z|[+-][0-9]{2}:[0-9]{2})?$"
"""An ISO 8601 date and time. Without an offset it needs the request's time zone."""

Stamp: TypeAlias = Annotated[str, Field(strict=True, max_length=40, pattern=STAMP)]
ZoneName: TypeAlias = Annotated[
    Annotated[str, Field(strict=True, min_length=1, max_length=64)] | None,
    Field(
        description="IANA name of the zone of stamps that bear no offset, and of months and days. Not stated: stamps "
        "need an offset."
    ),
]
SystemOrUnknown: TypeAlias = Annotated[
    System | None,
    Field(description="System that the meter measures, for amperes. Not stated: amperes are left out."),
]
Legs: TypeAlias = Annotated[
    LegAssumption | None,
    Field(
        description="How the demand lies on the legs, for amperes. Not stated: balanced, which is to be verified."
    ),
]
PHASES = "Phases that the meter measures; 3 on a wye system only. Not stated: 1."
GENERATION = "Whether the premises have solar or other generation, or storage. Not stated: unknown."
STAMPS_AT = (
    "Whether a stamp is the start or the end of its interval. Not stated: start, which is to be verified."
)
UNIT = "What the values are: energy of each interval, average power over it, or the register of the meter at the stamp."


def _whole_in_text(value: Any) -> Any:
    """Take the whole number that a query holds as text."""
    if isinstance(value, str):
        if not re.fullmatch(r"-?[0-9]{1,9}", value):
            raise PydanticKnownError("int_parsing")
        return int(value)
    return whole(value)


def _yes_in_text(value: Any) -> Any:
    """Take the true or false that a query holds as text."""
    if isinstance(value, str) and value not in ("true", "false"):
        raise PydanticKnownError("bool_parsing")
    return value == "true" if isinstance(value, str) else value


YesInText: TypeAlias = Annotated[bool, Field(strict=True), BeforeValidator(_yes_in_text)]
ColumnName: TypeAlias = Annotated[str, Field(strict=True, min_length=1, max_length=200)]
Value: TypeAlias = Annotated[Number, Field(ge=-GREATEST_VALUE, le=GREATEST_VALUE)]
Values: TypeAlias = Annotated[
    tuple[Value | None, ...], Field(fail_fast=True, min_length=1, max_length=MOST_READINGS)
]
"""A long list of which only the first misfit is told: there may be as many of them as readings."""


class RegularSeries(Facts):
    """Values one after another; state either energy_wh or power_w."""

    kind: Literal["regular"]
    start: Annotated[Stamp, Field(description="Start of the first interval.")]
    interval_minutes: Annotated[
        int,
        Field(strict=True, ge=1, le=LONGEST_INTERVAL_MINUTES, description="Length of every interval."),
        BeforeValidator(whole),
    ]
    energy_wh: Annotated[
        Values | None,
        Field(
            description="Energy of each interval, Wh; null where it is missing.",
        ),
    ] = None
    power_w: Annotated[
        Values | None,
        Field(
            description="Average power over each interval, W; null where it is missing.",
        ),
    ] = None


class StampedReading(TypedDict):
    """One reading with its time. A plain dictionary, since there may be two hundred thousand of them."""

    __pydantic_config__ = ConfigDict(extra="forbid")  # type: ignore[misc]

    at: Annotated[Stamp, Field(description="Start or end of its interval, by stamps_at.")]
    value: Annotated[Value | None, Field(description="Null where the meter gave none.")]
    quality: NotRequired[
        Annotated[Quality | None, Field(description="How the value came about. Not stated: measured.")]
    ]


class StampedSeries(Facts):
    """Readings that each bear their time, in any order."""

    kind: Literal["stamped"]
    unit: Annotated[Unit, Field(description=UNIT)]
    stamps_at: Annotated[StampsAt | None, Field(description=STAMPS_AT)] = None
    interval_minutes: Annotated[
        Annotated[int, Field(strict=True, ge=1, le=LONGEST_INTERVAL_MINUTES), BeforeValidator(whole)] | None,
        Field(description="Length of every interval. Not stated: the commonest step from stamp to stamp."),
    ] = None
    readings: Annotated[
        tuple[StampedReading, ...], Field(fail_fast=True, min_length=1, max_length=MOST_READINGS)
    ]


class IntervalDataRequest(Facts):
    """What do these meter readings say of the demand?"""

    edition: Annotated[
        Edition | None,
        Field(
            description="The code edition whose conditions of a measured demand are applied. Not stated: the findings "
            "that rest on them are undetermined."
        ),
    ] = None
    jurisdiction: Jurisdiction = None
    readings: Readings | None = None
    time_zone: ZoneName = None
    system: SystemOrUnknown = None
    phases: Annotated[Annotated[Literal[1, 3], BeforeValidator(whole)] | None, Field(description=PHASES)] = (
        None
    )
    has_generation: Annotated[Yes | None, Field(description=GENERATION)] = None
    leg_assumption: Legs = None
    series: Annotated[RegularSeries | StampedSeries, Field(discriminator="kind")]


class Instructions(Facts):
    """The query beside a body of CSV or Green Button XML: what the file does not say itself.

    Those that mean nothing for the body that was sent are named in a recommendation.
    """

    edition: Annotated[Edition | None, Field(description="As in a JSON body.")] = None
    jurisdiction: Jurisdiction = None
    time_zone: ZoneName = None
    system: SystemOrUnknown = None
    phases: Annotated[
        Annotated[Literal[1, 3], BeforeValidator(_whole_in_text)] | None, Field(description=PHASES)
    ] = None
    has_generation: Annotated[YesInText | None, Field(description=GENERATION)] = None
    leg_assumption: Legs = None
    measured_with_generation: Annotated[
        Literal["refused", "measured-gross"] | None,
        Field(alias="measured-with-generation", description="Reading of the interpretation of this name."),
    ] = None
    measured_demand_interval: Annotated[
        Literal["fifteen-minutes", "as-metered"] | None,
        Field(alias="measured-demand-interval", description="Reading of the interpretation of this name."),
    ] = None

    unit: Annotated[Unit | None, Field(description="CSV: " + UNIT)] = None
    time_column: Annotated[
        ColumnName | None, Field(description="CSV: column with date and time of each reading.")
    ] = None
    date_column: Annotated[
        ColumnName | None,
        Field(
            description="CSV: column with the date, beside a time column or before a day's values in one row."
        ),
    ] = None
    time_of_day_column: Annotated[
        ColumnName | None, Field(description="CSV: column with the time of day; the date has its own.")
    ] = None
    end_column: Annotated[
        ColumnName | None,
        Field(
            description="CSV: column with the end of each interval: date and time, or time of day beside a date."
        ),
    ] = None
    value_column: Annotated[ColumnName | None, Field(description="CSV: column with the value.")] = None
    first_value_column: Annotated[
        ColumnName | None,
        Field(
            description="CSV with one row a day: column of the day's first interval; the others follow it."
        ),
    ] = None
    last_value_column: Annotated[
        ColumnName | None,
        Field(
            description="CSV with one row a day: column of the day's last interval. Not stated: the last column."
        ),
    ] = None
    quality_column: Annotated[
        ColumnName | None, Field(description="CSV: column that says how the value came about.")
    ] = None
    stamps_at: Annotated[StampsAt | None, Field(description="CSV: " + STAMPS_AT)] = None
    delimiter: Annotated[
        Literal["comma", "semicolon", "tab", "pipe"] | None,
        Field(description="CSV. Not stated: the one that parts the named columns."),
    ] = None
    decimal_mark: Annotated[
        Literal["point", "comma"] | None,
        Field(description="CSV. Not stated: told from the values where they leave no doubt."),
    ] = None
    date_order: Annotated[
        Literal["year-month-day", "month-day-year", "day-month-year"] | None,
        Field(description="CSV. Not stated: told from the dates where they leave no doubt."),
    ] = None
    interval_minutes: Annotated[
        Annotated[int, Field(strict=True, ge=1, le=LONGEST_INTERVAL_MINUTES), BeforeValidator(_whole_in_text)]
        | None,
        Field(description="CSV: length of every interval. Not stated: told from the stamps."),
    ] = None
    meter_reading: Annotated[
        Annotated[str, Field(strict=True, min_length=1, max_length=400)] | None,
        Field(
            description="Green Button with several series: title or self link of the usage point or meter reading "
            "that is meant."
        ),
    ] = None
