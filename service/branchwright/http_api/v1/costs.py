"""Questions about money: whether a tariff is sound, what charging costs a year, what an installation costs."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Body

from branchwright.checks.charging_cost import charging_comparison, tariffs
from branchwright.checks.charging_cost.charging_comparison import (
    ChargingComparisonAnswer,
    ChargingComparisonRequest,
)
from branchwright.checks.charging_cost.tariffs import TariffReviewAnswer, TariffReviewRequest
from branchwright.http_api.contract import keyed_client_method, question_responses
from branchwright.http_api.long_questions import LongQuestionRoute
from branchwright.http_api.routes import JsonQuestionRoute, PriceBookRoute
from branchwright.http_api.v1 import cost_examples as examples
from branchwright.jobs import installation
from branchwright.jobs.installation import InstallationEstimateAnswer, InstallationEstimateRequest

tariff_router = APIRouter(tags=["costs"], route_class=JsonQuestionRoute)
comparison_router = APIRouter(tags=["costs"], route_class=LongQuestionRoute)
estimate_router = APIRouter(tags=["costs"], route_class=PriceBookRoute)
routers = (tariff_router, comparison_router, estimate_router)


@tariff_router.post(
    "/v1/tariff-reviews",
    operation_id="review_tariff",
    summary="Is this tariff sound, and what does each hour cost?",
    response_description="What was found, a week of each season hour by hour, and the year by month and hour.",
    responses=question_responses(),
    openapi_extra=keyed_client_method("costs", "review_tariff"),
)
def review_tariff(
    body: Annotated[TariffReviewRequest, Body(openapi_examples=examples.TARIFF_REVIEWS)],
) -> TariffReviewAnswer:
    """Holds a tariff against the calendar: every quarter of an hour of every kind of day has one price.

    A gap, a price stated twice, seasons that leave out a date, tiers out of order, a holiday that the country does not
    have: each is a finding that names the place. Prices are decimal text and never pass through a binary fraction.
    """
    return tariffs.review_tariff(body)


@comparison_router.post(
    "/v1/charging-cost-comparisons",
    operation_id="compare_charging",
    summary="What does charging cost a year; does a separate meter pay?",
    response_description="Every tariff, meter and schedule priced over twelve months, the cheapest first.",
    responses=question_responses(),
    openapi_extra=keyed_client_method("costs", "compare_charging"),
)
def compare_charging(
    body: Annotated[ChargingComparisonRequest, Body(openapi_examples=examples.CHARGING_COMPARISONS)],
) -> ChargingComparisonAnswer:
    """Prices a year of house and vehicle by every tariff, meter arrangement and schedule that is asked for.

    What charging costs is the difference between bills with and without it, so that tiers, demand charges and a
    dearer price for the house count. Schedules that cannot bring what the worst winter day needs are named, with the
    current that would. Of a separate meter the pay-back, the net present value and the break-even are worked out.
    """
    return charging_comparison.compare_charging(body)


@estimate_router.post(
    "/v1/installation-estimates",
    operation_id="estimate_installation",
    summary="What will the installation take and cost?",
    response_description="The take-off line by line, its totals, their spread, and what they do not hold.",
    responses=question_responses(),
    openapi_extra=keyed_client_method("costs", "estimate_installation"),
)
def estimate_installation(
    body: Annotated[InstallationEstimateRequest, Body(openapi_examples=examples.ESTIMATES)],
) -> InstallationEstimateAnswer:
    """Takes material, labour and fees off a circuit's design, and prices them by a price book and a labour table.

    Quantities come from the design that a circuit design answers with, and from nothing else. Each price has a low, a
    likely and a high value; what has none is left unpriced and named. Without a price book the demo book is used,
    whose prices are invented.
    """
    return installation.estimate_installation(body)
