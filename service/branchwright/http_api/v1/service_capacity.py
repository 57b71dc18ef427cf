"""Questions about the service of a building: its calculated load, and whether it carries chargers."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Body

from branchwright.checks.service_capacity import capacity_review, dwelling_load
from branchwright.checks.service_capacity.capacity_review import CapacityReviewAnswer, CapacityReviewRequest
from branchwright.checks.service_capacity.dwelling_load import LoadCalculationAnswer, LoadCalculationRequest
from branchwright.http_api.contract import keyed_client_method, question_responses
from branchwright.http_api.routes import JsonQuestionRoute
from branchwright.http_api.v1 import service_examples as examples

router = APIRouter(tags=["services"], route_class=JsonQuestionRoute)


@router.post(
    "/v1/load-calculations",
    operation_id="calculate_load",
    summary="What is this dwelling's load by each permitted method?",
    response_description="The methods side by side, each line with its demand factor and section.",
    responses=question_responses(),
    openapi_extra=keyed_client_method("services", "calculate_load"),
)
def calculate_load(
    body: Annotated[LoadCalculationRequest, Body(openapi_examples=examples.LOAD_CALCULATIONS)],
) -> LoadCalculationAnswer:
    """Calculates a dwelling's load by the standard method, the optional one and the one for existing dwellings.

    Every line has its connected load, its demand factor, its demand and its section; the lines of a method add up to
    its total. Each method says whether it may be used here and which service it asks for at least.
    """
    return dwelling_load.calculate_load(body)


@router.post(
    "/v1/service-capacity-reviews",
    operation_id="review_capacity",
    summary="Does the service carry the charger; if not, what would make it fit?",
    response_description="What was found, the headroom, and ways to make the chargers fit, the cheapest first.",
    responses=question_responses(),
    openapi_extra=keyed_client_method("services", "review_capacity"),
)
def review_capacity(
    body: Annotated[CapacityReviewRequest, Body(openapi_examples=examples.CAPACITY_REVIEWS)],
) -> CapacityReviewAnswer:
    """Holds chargers and the load that is there already against the service, its main breaker and its busbar.

    The load that is there is calculated or measured; a measured one has to meet every condition of the code. An energy
    management is reviewed with it: its setting, and what happens when its link is lost.
    """
    return capacity_review.review_capacity(body)
