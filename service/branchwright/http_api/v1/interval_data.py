"""Interval data: meter readings as JSON, CSV or Green Button XML."""

from __future__ import annotations

from typing import Annotated, ClassVar, Final

from fastapi import APIRouter, Body, Query

from branchwright.checks.service_capacity import interval_data
from branchwright.checks.service_capacity.interval_data import (
    Instructions,
    IntervalDataAnswer,
    IntervalDataRequest,
    UnreadableBody,
)
from branchwright.http_api.contract import OtherBody, keyed_client_method, many_forms_responses
from branchwright.http_api.long_questions import LongQuestionRoute
from branchwright.http_api.problems import UNREADABLE_BODY, ProblemError
from branchwright.http_api.v1 import service_examples as examples


def read_csv(body: bytes, query: Instructions) -> IntervalDataAnswer:
    """Answers a body of CSV; a problem (400) where it is no text."""
    try:
        return interval_data.read_csv(body, query)
    except UnreadableBody as error:
        raise ProblemError(UNREADABLE_BODY, f"The body is not CSV that can be read: {error}") from None


def read_green_button(body: bytes, query: Instructions) -> IntervalDataAnswer:
    """Answers a body of Green Button XML; a problem (400) where it is no XML that may be read."""
    try:
        return interval_data.read_green_button(body, query)
    except UnreadableBody as error:
        raise ProblemError(UNREADABLE_BODY, f"The body is not XML that can be read: {error}") from None


class _IntervalDataRoute(LongQuestionRoute):
    other_bodies: ClassVar = {"text/csv": read_csv, "application/xml": read_green_button}


router = APIRouter(tags=["services"], route_class=_IntervalDataRoute)

_GREEN_BUTTON_ALONE: Final = frozenset({"meter_reading"})
_CSV_ALONE: Final = frozenset(
    {
        "unit",
        "time_column",
        "date_column",
        "time_of_day_column",
        "end_column",
        "value_column",
        "first_value_column",
        "last_value_column",
        "quality_column",
        "stamps_at",
        "delimiter",
        "decimal_mark",
        "date_order",
        "interval_minutes",
    }
)
_NAMES: Final = [field.alias or name for name, field in Instructions.model_fields.items()]
_OTHER_BODIES: Final = [
    OtherBody(
        "text/csv",
        "A table with one reading a row, or one day a row; the query names its columns and their unit.",
        examples.CSV_BODIES,
        "read_interval_csv",
        [name for name in _NAMES if name not in _GREEN_BUTTON_ALONE],
    ),
    OtherBody(
        "application/xml",
        "A Green Button file: an Atom feed of the Energy Services Provider Interface.",
        examples.GREEN_BUTTON_BODIES,
        "read_green_button",
        [name for name in _NAMES if name not in _CSV_ALONE],
    ),
]


@router.post(
    "/v1/interval-data",
    operation_id="read_interval_data",
    summary="Is this meter data fit for use, and what is its measured demand?",
    response_description="The series on one grid, what was found of it as data, and its greatest demand.",
    responses=many_forms_responses(),
    openapi_extra=keyed_client_method("services", "read_interval_data", _OTHER_BODIES),
)
def read_interval_data(
    body: Annotated[IntervalDataRequest, Body(openapi_examples=examples.INTERVAL_DATA)],
    query: Annotated[Instructions, Query()],
) -> IntervalDataAnswer:
    """Reads meter readings as JSON, as CSV or as Green Button XML, and says how good they are.

    What the readings themselves have wrong is answered as findings that name the place: gaps, duplicates, readings
    out of order, registers sent as intervals, rows that cannot be read. The query says what a CSV or Green Button
    file does not say itself; a field of it that means nothing for the body is named in a recommendation.

    The measured demand is the greatest average over the data's own interval. Where that is longer than 15 minutes,
    the answer bounds the 15-minute demand within it and says how.
    """
    return interval_data.read_json(body, query)
