"""The page from which Prometheus reads what was counted.

It is no part of the contract of version 1, which the OpenAPI document describes: its form is Prometheus's own,
and no client of ours reads it.
"""

from __future__ import annotations

from fastapi import APIRouter, Request
from starlette.responses import Response

from branchwright.http_api.metrics import Metrics
from branchwright.http_api.paths import METRICS_PATH

router = APIRouter(include_in_schema=False)


@router.get(METRICS_PATH)
async def show_metrics(request: Request) -> Response:
    """What the service has counted since its start, over all of its processes."""
    from prometheus_client import CONTENT_TYPE_PLAIN_0_0_4

    metrics: Metrics = request.app.state.metrics
    return Response(metrics.exposition(), headers={"Content-Type": CONTENT_TYPE_PLAIN_0_0_4})
