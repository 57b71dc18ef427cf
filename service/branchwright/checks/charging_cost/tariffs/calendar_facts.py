"""The calendar part of a tariff: its dates, seasons and kinds of day."""

from datetime import date
from typing import Annotated, Literal, TypeAlias

from pydantic import Field

from branchwright.questions.fields import CalendarDate, Facts, Name, Weekday

DayOfYear: TypeAlias = Annotated[
    str, Field(strict=True, pattern=r"^(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])$")
]
"""MM-DD; 02-29 is in the calendar of leap years alone."""

QuarterHour: TypeAlias = Annotated[str, Field(strict=True, pattern=r"^([01][0-9]|2[0-3]):(00|15|30|45)$")]
HolidayTreatment: TypeAlias = Literal["included", "excluded", "ignored"]
ObservedHolidays: TypeAlias = Literal["observed-day", "actual-day", "both"]

MOST_SEASONS = 12
MOST_DAY_TYPES = 10
MOST_HOLIDAYS = 400


class Season(Facts):
    """A part of the year that comes back every year."""

    name: Name
    begin: Annotated[DayOfYear, Field(alias="from", description="First day, MM-DD.")]
    end: Annotated[
        DayOfYear,
        Field(alias="to", description="Last day, MM-DD; one before the first day lies in the next year."),
    ]


class DayType(Facts):
    """A kind of day: some weekdays, and what holidays do to them."""

    name: Name
    weekdays: Annotated[
        tuple[Weekday, ...],
        Field(max_length=7, description="Days of it; none where it is of holidays alone."),
    ]
    holidays: Annotated[
        HolidayTreatment | None,
        Field(
            description="included: every holiday is of this kind, whatever its weekday. excluded: no holiday is. "
            "ignored: its weekday alone decides. Not stated: ignored, which is to be verified."
        ),
    ] = None


class Effective(Facts):
    """The dates on which a tariff is in force."""

    begin: Annotated[CalendarDate, Field(alias="from", description="First date, YYYY-MM-DD.")]
    end: Annotated[
        CalendarDate | None, Field(alias="to", description="Last date. Not stated: until further notice.")
    ] = None


def calendar_date(stated: str) -> date | None:
    """Return a stated date YYYY-MM-DD; None where the calendar has no such day."""
    try:
        return date.fromisoformat(stated)
    except ValueError:
        return None
