"""The application: floors below it answer, this module puts the contract around them."""

from __future__ import annotations

import contextlib
from collections.abc import AsyncGenerator, Sequence
from typing import TYPE_CHECKING, Final

from fastapi import APIRouter, FastAPI
from fastapi.exceptions import RequestValidationError
from starlette.exceptions import HTTPException
from starlette.middleware import Middleware
from starlette.types import Lifespan

from branchwright import __version__
from branchwright.http_api import documentation, exposition, health, refusals
from branchwright.http_api.boundary import LastBoundary
from branchwright.http_api.contract import Document, complete
from branchwright.http_api.cors import Cors
from branchwright.http_api.draining import drain_on_sigterm
from branchwright.http_api.head import HeadAsGet
from branchwright.http_api.limits import Room
from branchwright.http_api.long_questions import LongBodies
from branchwright.http_api.metrics import CountRequests, Metrics
from branchwright.http_api.problems import ProblemError
from branchwright.http_api.security import Gate, SecurityHeaders
from branchwright.http_api.settings import Settings, load
from branchwright.http_api.telemetry import Telemetry
from branchwright.http_api.tracing import start_tracing
from branchwright.http_api.v1 import (
    circuits,
    codebook,
    costs,
    current_comparisons,
    interval_data,
    managed_charging,
    service_capacity,
)

if TYPE_CHECKING:
    from branchwright.http_api.spans import Tracing

_DESCRIPTION: Final = (
    "Design and review of the branch circuit that feeds an electric-vehicle charger, and review of the service that "
    "has to carry it, by the US National Electrical Code; and what its installation and its charging cost. Every "
    "answer is a list of findings with their sources and of steps that anyone can recompute. The service is stateless: "
    "an answer depends on its request, the codebook revision and the engine version, and names all three."
)
_TAGS: Final = [
    {"name": "circuits", "description": "Questions about the branch circuit of a charger."},
    {
        "name": "services",
        "description": "Questions about the service of a building: its load, its meter data, its capacity.",
    },
    {
        "name": "costs",
        "description": "Questions about money: tariffs, what charging costs, what an installation costs.",
    },
    {
        "name": "codebook",
        "description": "What the service knows of each code edition and where from; the rules.",
    },
    {"name": "operations", "description": "Whether the service is alive and ready."},
]
# Questions first: routes are tried in this order.
_ROUTERS: Final[Sequence[APIRouter]] = (
    circuits.router,
    current_comparisons.router,
    service_capacity.router,
    interval_data.router,
    managed_charging.router,
    *costs.routers,
    codebook.router,
    health.router,
    documentation.router,
)


class Service(FastAPI):
    """The FastAPI application, whose OpenAPI document also holds what operations share."""

    def openapi(self) -> Document:
        """The OpenAPI document, made once."""
        if self.openapi_schema is None:
            self.openapi_schema = complete(super().openapi())
        return self.openapi_schema


def create_app(
    settings: Settings | None = None,
    extra_routers: Sequence[APIRouter] = (),
    *,
    heed_signals: bool = True,
    count_requests: bool = True,
) -> FastAPI:
    """A complete application, ready to be served or called in process.

    Args:
        settings: what to run with; read from the environment when left out.
        extra_routers: further routers, for tests. Their routes must carry full paths.
        heed_signals: whether its lifespan takes SIGTERM as the sign to drain.
        count_requests: whether to count them and show the counts at /metrics.

    Raises:
        SettingsError: where the environment holds a setting that cannot be used.
    """
    settings = load() if settings is None else settings
    metrics = Metrics() if count_requests else None
    tracing = start_tracing(settings)
    app = Service(
        title="Branchwright",
        version=__version__,
        description=_DESCRIPTION,
        license_info={"name": "Apache-2.0", "identifier": "Apache-2.0"},
        openapi_tags=_TAGS,
        # Answers are described as they are written ("from", not "origin"). Requests and answers share no
        # model, so this splits none into two.
        separate_input_output_schemas=True,
        # Documentation pages and their assets are our own; the framework's would be fetched from elsewhere.
        openapi_url=None,
        docs_url=None,
        redoc_url=None,
        # A POST is never redirected.
        redirect_slashes=False,
        # The framework would otherwise send traces wherever the environment says.
        telemetry={"tracing": False, "metrics": False, "logs": False, "auto_configure": False},
        lifespan=_lifespan(tracing, heed_signals=heed_signals),
        middleware=_layers(settings, metrics, tracing),
    )
    app.state.settings = settings
    app.state.long_bodies = LongBodies(settings.interval_data_limit_bytes)
    app.state.draining = False
    app.state.metrics = metrics
    counted = () if metrics is None else (exposition.router,)
    for router in (*_ROUTERS, *counted, *extra_routers):
        # Routes carry their full paths, so the log can name them and no prefix is matched twice.
        app.router.routes.extend(router.routes)
    app.add_exception_handler(ProblemError, refusals.answer_problem)
    app.add_exception_handler(HTTPException, refusals.answer_http_exception)
    app.add_exception_handler(RequestValidationError, refusals.answer_bad_parameters)
    return app


def create_embedded_app(extra_routers: Sequence[APIRouter] = ()) -> FastAPI:
    """The application for a program that asks it in its own process, where nobody else can reach it.

    It reads nothing from the environment, wants no key, answers under any host name, counts nothing and leaves
    signals to the program. It has no lifespan: nothing need be started before the first request or stopped
    after the last.
    """
    # Constructed and not called, which would read the environment; every default stands.
    settings = Settings.model_construct(allow_anonymous=True)
    return create_app(settings, extra_routers, heed_signals=False, count_requests=False)


def _layers(settings: Settings, metrics: Metrics | None, tracing: Tracing | None) -> list[Middleware]:
    """What a request passes on its way in and its answer on the way out, the outermost first."""
    layers = [Middleware(SecurityHeaders)]
    if tracing is not None:
        # Lazily, because it needs an extra that need not be installed.
        from branchwright.http_api.spans import TraceRequests

        layers.append(Middleware(TraceRequests, tracing=tracing))
    if metrics is not None:
        layers.append(Middleware(CountRequests, metrics=metrics))
    layers.append(Middleware(Telemetry))
    if settings.cors_origins:
        # Outside of whatever refuses or fails, so that a page can read why.
        layers.append(Middleware(Cors, origins=settings.cors_origins))
    return [
        *layers,
        Middleware(LastBoundary),
        Middleware(Gate, settings=settings),
        Middleware(Room, concurrency_limit=settings.concurrency_limit),
        Middleware(HeadAsGet),
    ]


def _lifespan(tracing: Tracing | None, *, heed_signals: bool) -> Lifespan[FastAPI] | None:
    """What runs from the start of the application to its end; None where nothing needs to."""
    if tracing is None:
        return drain_on_sigterm if heed_signals else None

    @contextlib.asynccontextmanager
    async def live(app: FastAPI) -> AsyncGenerator[None]:
        async with drain_on_sigterm(app) if heed_signals else contextlib.nullcontext():
            yield
        tracing.stop()

    return live
