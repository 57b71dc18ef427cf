"""Traces for an OpenTelemetry collector: one span a request under /v1, sent by OTLP over HTTP.

A span holds what the access log holds and no more: method, pattern of the route, status, request id. The general
instrumentation for ASGI would add addresses with their queries, the client's address and a span for each message.

Importing this needs the service's extra ``telemetry``; see ``tracing``.
"""

from __future__ import annotations

import threading
from typing import Final

from opentelemetry.context import Context
from opentelemetry.exporter.otlp.proto.http.trace_exporter import OTLPSpanExporter
from opentelemetry.sdk.resources import OTELResourceDetector, Resource
from opentelemetry.sdk.trace import TracerProvider
from opentelemetry.sdk.trace.export import BatchSpanProcessor
from opentelemetry.trace import SpanKind, StatusCode
from opentelemetry.trace.propagation.tracecontext import TraceContextTextMapPropagator
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from branchwright import __version__
from branchwright.http_api.metrics import KNOWN_METHODS
from branchwright.http_api.paths import is_contract_path
from branchwright.http_api.telemetry import request_id_of

_SERVICE_NAME: Final = "branchwright"
# The name that OpenTelemetry's conventions give to any method that is not known.
_OTHER_METHOD: Final = "_OTHER"
_SERVER_ERRORS_FROM: Final = 500
# Common practice, no source: a collector that is there takes a batch in less; one that is gone may not hold up a stop.
_LAST_SEND_SECONDS: Final = 5

_propagator = TraceContextTextMapPropagator()


class Tracing:
    """What makes the spans of one process and sends them in batches from a thread of its own."""

    def __init__(self) -> None:
        """Start; the collector's address and everything else of the sending is read from OTEL_... variables."""
        named = Resource({"service.name": _SERVICE_NAME, "service.version": __version__})
        self._provider = TracerProvider(
            # What the environment says of the service comes before what it says of itself.
            resource=named.merge(OTELResourceDetector().detect()),
            shutdown_on_exit=False,
        )
        self._provider.add_span_processor(BatchSpanProcessor(OTLPSpanExporter()))
        self.tracer = self._provider.get_tracer(_SERVICE_NAME, __version__)

    def stop(self) -> None:
        """Send what is left, for some seconds at most."""
        last_send = threading.Thread(target=self._provider.shutdown, daemon=True)
        last_send.start()
        last_send.join(_LAST_SEND_SECONDS)


class TraceRequests:
    """ASGI middleware: makes a span of each request under /v1, as a child of the caller's where it names one."""

    def __init__(self, app: ASGIApp, tracing: Tracing) -> None:
        """Wrap the application ``app``; inside of this there must be a ``Telemetry``."""
        self._app = app
        self._tracer = tracing.tracer

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Hand the request on within a span."""
        if scope["type"] != "http" or not is_contract_path(scope):
            await self._app(scope, receive, send)
            return
        is_known = scope["method"] in KNOWN_METHODS
        span = self._tracer.start_span(
            scope["method"] if is_known else "HTTP",
            context=_callers_context(scope),
            kind=SpanKind.SERVER,
            attributes={"http.request.method": scope["method"] if is_known else _OTHER_METHOD},
        )
        status: int | None = None

        async def send_noted(message: Message) -> None:
            nonlocal status
            if message["type"] == "http.response.start":
                status = message["status"]
            await send(message)

        try:
            await self._app(scope, receive, send_noted)
        finally:
            route = getattr(scope.get("route"), "path", None)
            if route is not None:
                span.set_attribute("http.route", route)
                span.update_name(f"{scope['method'] if is_known else 'HTTP'} {route}")
            if status is not None:
                span.set_attribute("http.response.status_code", status)
            if status is None or status >= _SERVER_ERRORS_FROM:
                span.set_status(StatusCode.ERROR)
            span.set_attribute("branchwright.request_id", request_id_of(scope))
            span.end()


def _callers_context(scope: Scope) -> Context:
    """The caller's trace (W3C Trace Context); a new one where there is none or it is not written as it must be."""
    sent: dict[str, list[str]] = {}
    for name, value in scope["headers"]:
        if name in {b"traceparent", b"tracestate"}:
            sent.setdefault(name.decode("ascii"), []).append(value.decode("latin-1"))
    # Level 1, 3.2: a request with more than one traceparent has none.
    if len(sent.get("traceparent", ())) != 1:
        return Context()
    return _propagator.extract(sent, Context())
