"""The last boundary: no exception leaves the service as a traceback."""

from __future__ import annotations

import logging

from starlette.requests import ClientDisconnect
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from branchwright.http_api.problems import INTERNAL_ERROR, ProblemError
from branchwright.http_api.telemetry import log_fields, request_id_of

_error_log = logging.getLogger("branchwright.errors")


class LastBoundary:
    """ASGI middleware: logs an unexpected exception under the request's id and answers with a problem (500)."""

    def __init__(self, app: ASGIApp) -> None:
        """Wrap the application ``app``; outside of this there must be a ``Telemetry``."""
        self._app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Hand the request on and answer for what fails inside."""
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return
        has_begun = False

        async def send_noted(message: Message) -> None:
            nonlocal has_begun
            has_begun = True
            await send(message)

        try:
            await self._app(scope, receive, send_noted)
        except ClientDisconnect:
            # Nobody is left to be answered; the access log says so with a status of null.
            pass
        except Exception:
            request_id = request_id_of(scope)
            _error_log.exception("unexpected error", extra=log_fields(request_id=request_id))
            if has_begun:
                # The answer has begun: only breaking the connection tells the client that it is incomplete.
                raise
            failure = ProblemError(
                INTERNAL_ERROR,
                f"Something went wrong inside the service. Report it with request id {request_id}.",
            )
            await failure.response(scope["path"])(scope, receive, send)
