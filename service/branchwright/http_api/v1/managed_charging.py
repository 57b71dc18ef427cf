"""Studies of managed charging."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Body

from branchwright.checks.service_capacity import managed_charging
from branchwright.checks.service_capacity.managed_charging import (
    ManagedChargingAnswer,
    ManagedChargingRequest,
)
from branchwright.http_api.contract import keyed_client_method, question_responses
from branchwright.http_api.long_questions import LongQuestionRoute
from branchwright.http_api.v1 import service_examples as examples

router = APIRouter(tags=["services"], route_class=LongQuestionRoute)


@router.post(
    "/v1/managed-charging-studies",
    operation_id="study_managed_charging",
    summary="What does load-managed charging deliver, night by night?",
    response_description="Each night and the whole time, what other settings would do, and the smallest that serves.",
    responses=question_responses(),
    openapi_extra=keyed_client_method("services", "study_managed_charging"),
)
def study_managed_charging(
    body: Annotated[ManagedChargingRequest, Body(openapi_examples=examples.STUDIES)],
) -> ManagedChargingAnswer:
    """Simulates every interval of a house's load with the vehicles that charge under an energy management.

    In each interval the chargers get what the control setting and its margin leave on the largest leg, in whole
    amperes; below 6 A a vehicle waits. Several vehicles share by the rule that the request states.

    Simulated nights are no proof of safety: that needs listed equipment, verified sensors and a tested lost link.
    """
    return managed_charging.study_managed_charging(body)
