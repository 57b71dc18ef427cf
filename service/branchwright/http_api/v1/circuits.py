"""Questions about the branch circuit: design it, review it."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Body

from branchwright.checks import circuits
from branchwright.checks.circuits import (
    CircuitDesignAnswer,
    CircuitDesignRequest,
    CircuitReviewAnswer,
    CircuitReviewRequest,
)
from branchwright.http_api.contract import keyed_client_method, question_responses
from branchwright.http_api.routes import JsonQuestionRoute
from branchwright.http_api.v1 import examples

router = APIRouter(tags=["circuits"], route_class=JsonQuestionRoute)


@router.post(
    "/v1/circuit-designs",
    operation_id="design_circuit",
    summary="What circuit does this charger need?",
    response_description="The design with its own findings, or the findings that say why there is none.",
    responses=question_responses(),
    openapi_extra=keyed_client_method("circuits", "design"),
)
async def design_circuit(
    body: Annotated[CircuitDesignRequest, Body(openapi_examples=examples.DESIGNS)],
) -> CircuitDesignAnswer:
    """Chooses breaker, conductors, grounding conductor and raceway for a charger and its run.

    Every value comes with its section of the code and the steps that lead to it. Where no size that is made
    can serve, the design is null and the findings say which limit was met first.
    """
    return circuits.design(body)


@router.post(
    "/v1/circuit-reviews",
    operation_id="review_circuit",
    summary="Does this proposed or installed circuit hold?",
    response_description="What was found, each finding with its section, and the steps behind it.",
    responses=question_responses(),
    openapi_extra=keyed_client_method("circuits", "review"),
)
async def review_circuit(
    body: Annotated[CircuitReviewRequest, Body(openapi_examples=examples.REVIEWS)],
) -> CircuitReviewAnswer:
    """Checks a circuit as proposed or as found on site. A fact that is missing makes a finding undetermined.

    Contradictory or impossible facts are answered as failing findings, not as errors.
    """
    return circuits.review(body)
