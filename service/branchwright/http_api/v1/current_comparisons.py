"""Comparisons of charging currents."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Body

from branchwright.http_api.contract import keyed_client_method, question_responses
from branchwright.http_api.routes import PriceBookRoute
from branchwright.http_api.v1 import examples
from branchwright.jobs import current_comparison
from branchwright.jobs.current_comparison import CurrentComparisonAnswer, CurrentComparisonRequest

router = APIRouter(tags=["circuits"], route_class=PriceBookRoute)


@router.post(
    "/v1/current-comparisons",
    operation_id="compare_currents",
    summary="What does each step of charging current cost, and what does it bring in?",
    response_description="A row for each current: its circuit, what changes there, and its energy.",
    responses=question_responses(),
    openapi_extra=keyed_client_method("circuits", "compare_currents"),
)
async def compare_currents(
    body: Annotated[CurrentComparisonRequest, Body(openapi_examples=examples.COMPARISONS)],
) -> CurrentComparisonAnswer:
    """Designs the circuit at each of several charging currents, and sets the designs side by side.

    Each row is what a circuit design answers for the same facts and that current; a row that fails has no
    circuit and names the requirements. Where the charger's rated current is stated the currents are settings of
    it, and one above it fails; else each current is a charger of that rating.

    Power and energy are at the wall, at the nominal voltage and the charger's power factor, unity where none is
    stated: a 208 V supply gives 13 percent less than a 240 V one at the same current.
    """
    return current_comparison.compare(body)
