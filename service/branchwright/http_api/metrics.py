"""What is counted about requests, and how it is shown to Prometheus; right for any number of worker processes.

Labels take few values: a route is named by its pattern, and what is unknown shares one name. Nothing that a
caller writes becomes a label.
"""

from __future__ import annotations

import os
import time
from collections.abc import Iterator
from functools import lru_cache
from typing import TYPE_CHECKING, Final, cast

from starlette.types import ASGIApp, Message, Receive, Scope, Send

from branchwright import __version__, codebook
from branchwright.http_api.paths import is_contract_path
from branchwright.http_api.problems import KINDS, problem_of
from branchwright.http_api.routes import VERDICT_KEY

if TYPE_CHECKING:
    from prometheus_client.metrics_core import Metric
    from prometheus_client.registry import Collector

SHARED_FOLDER_VARIABLE: Final = "PROMETHEUS_MULTIPROC_DIR"
"""Names the folder in which the processes of one service share what they count; unset for a single process."""

# RFC 9110, section 9, and RFC 5789. Any other method is counted under one name.
KNOWN_METHODS: Final = frozenset(
    {"GET", "HEAD", "POST", "PUT", "DELETE", "CONNECT", "OPTIONS", "TRACE", "PATCH"}
)
OTHER_METHOD: Final = "other"
NO_ROUTE: Final = "none"
"""The route of a request that matched none, or was refused before one was looked for."""
NO_STATUS: Final = "none"
"""The status of a request whose client left before it was answered."""

# Seconds. A design takes about a millisecond; a restart or a full machine shows at the other end.
_DURATION_BUCKETS: Final = (0.001, 0.0025, 0.005, 0.01, 0.025, 0.05, 0.1, 0.25, 0.5, 1.0, 2.5, 10.0)


class Metrics:
    """The counts of one application. With a shared folder, ``exposition`` shows those of every process."""

    def __init__(self) -> None:
        """Start counting."""
        # The library chooses at its first import between memory and the shared folder. That must not happen
        # before `serve` has said which, and commands that count nothing need not load it.
        from prometheus_client import CollectorRegistry, Counter, Gauge, Histogram

        self._is_shared = SHARED_FOLDER_VARIABLE in os.environ
        self._registry = CollectorRegistry()
        requests = Counter(
            "branchwright_requests",
            "Requests that were answered, by pattern of the route, method and status.",
            ("route", "method", "status"),
            registry=self._registry,
        )
        durations = Histogram(
            "branchwright_request_duration_seconds",
            "Seconds from the head of a request to the end of its answer, by pattern of the route.",
            ("route",),
            buckets=_DURATION_BUCKETS,
            registry=self._registry,
        )
        verdicts = Counter(
            "branchwright_verdicts",
            "Answers that judge, by operation and verdict.",
            ("operation", "verdict"),
            registry=self._registry,
        )
        problems = Counter(
            "branchwright_problems",
            "Requests that were refused or failed, by type of problem.",
            ("problem",),
            registry=self._registry,
        )
        self._in_progress = Gauge(
            "branchwright_requests_in_progress",
            "Requests under /v1 that are being answered.",
            registry=self._registry,
            multiprocess_mode="livesum",
        )
        # Finding a child takes as long as counting with it.
        self._requests_of = lru_cache(maxsize=1024)(requests.labels)
        self._durations_of = lru_cache(maxsize=256)(durations.labels)
        self._verdicts_of = lru_cache(maxsize=256)(verdicts.labels)
        # Shown as zero from the start, so that the first of each is seen as an increase.
        self._problems_of = {slug: problems.labels(slug) for slug in KINDS}

    def begin(self) -> None:
        """Count one more request in progress."""
        self._in_progress.inc()

    def end(self) -> None:
        """Count one less."""
        self._in_progress.dec()

    def count_request(self, scope: Scope, status: int | None, seconds: float) -> None:
        """Count a request that has been dealt with, ``seconds`` after it began; no status: nobody was left."""
        route = getattr(scope.get("route"), "path", NO_ROUTE)
        method = scope["method"] if scope["method"] in KNOWN_METHODS else OTHER_METHOD
        self._requests_of(route, method, NO_STATUS if status is None else str(status)).inc()
        self._durations_of(route).observe(seconds)
        problem = problem_of(scope)
        if problem is not None:
            self._problems_of[problem].inc()
        if VERDICT_KEY in scope:
            self._verdicts_of(*scope[VERDICT_KEY]).inc()

    def exposition(self) -> bytes:
        """Everything that was counted, in the Prometheus text format 0.0.4."""
        from prometheus_client import generate_latest

        return generate_latest(cast("Collector", self))

    def collect(self) -> Iterator[Metric]:
        """Every family with its samples, as the library asks its registries for them."""
        from prometheus_client.core import InfoMetricFamily
        from prometheus_client.multiprocess import MultiProcessCollector

        yield InfoMetricFamily(
            "branchwright_build",
            "What answers: the version of the engine and the revision of the codebook.",
            {"engine_version": __version__, "codebook_revision": codebook.revision()},
        )
        counted: Collector = self._registry
        if self._is_shared:
            counted = cast("Collector", MultiProcessCollector(None))  # type: ignore[no-untyped-call]
        for family in counted.collect():
            # When each series began is kept for a single process only; shown, it would double the series.
            family.samples = [sample for sample in family.samples if not sample.name.endswith("_created")]
            yield family


class CountRequests:
    """ASGI middleware: counts each request, how long it took and what came of it."""

    def __init__(self, app: ASGIApp, metrics: Metrics) -> None:
        """Wrap the application ``app`` and count into ``metrics``."""
        self._app = app
        self._metrics = metrics

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Hand the request on and count it, whatever comes of it."""
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return
        status: int | None = None

        async def send_noted(message: Message) -> None:
            nonlocal status
            if message["type"] == "http.response.start":
                status = message["status"]
            await send(message)

        under_contract = is_contract_path(scope)
        if under_contract:
            self._metrics.begin()
        started = time.perf_counter()
        try:
            await self._app(scope, receive, send_noted)
        finally:
            self._metrics.count_request(scope, status, time.perf_counter() - started)
            if under_contract:
                self._metrics.end()
