"""Whether the process lives and whether it takes requests: for whoever starts, stops and routes to it."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Request
from pydantic import BaseModel, Field

from branchwright.http_api.contract import client_method, open_responses
from branchwright.http_api.draining import refuse_while_draining

router = APIRouter(tags=["operations"])


class Health(BaseModel):
    """The state of one service process."""

    status: Annotated[str, Field(description="'live' or 'ready'.")]


@router.get(
    "/health/live",
    operation_id="check_live",
    summary="Is the process alive?",
    responses=open_responses(403, 405, 500),
    openapi_extra=client_method("operations", "check_live"),
)
async def check_live() -> Health:
    """Answers as long as the process can answer anything; a supervisor restarts it when it does not."""
    return Health(status="live")


@router.get(
    "/health/ready",
    operation_id="check_ready",
    summary="Does the process take requests?",
    responses=open_responses(403, 405, 500, 503),
    openapi_extra=client_method("operations", "check_ready"),
)
async def check_ready(request: Request) -> Health:
    """Answers 200 while the process takes requests and 503 once it is shutting down."""
    refuse_while_draining(request.app)
    return Health(status="ready")
