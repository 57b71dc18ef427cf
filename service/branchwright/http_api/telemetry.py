"""Request ids and the log: one JSON object a line, one line a request.

Nothing of a body, a query or a key is ever logged: a line names the route, not what was asked.
"""

from __future__ import annotations

import logging
import secrets
import time
from datetime import UTC, datetime
from typing import Final

import orjson
from starlette.types import ASGIApp, Message, Receive, Scope, Send

HEADER: Final = "X-Request-ID"
LONGEST_REQUEST_ID: Final = 128

_RAW_HEADER: Final = HEADER.lower().encode("ascii")
_VISIBLE_ASCII: Final = bytes(range(0x21, 0x7F))
_SCOPE_KEY: Final = "branchwright.request_id"
_FIELDS: Final = "branchwright_fields"

_access_log = logging.getLogger("branchwright.access")


class Telemetry:
    """ASGI middleware: gives each request its id and logs one line for it."""

    def __init__(self, app: ASGIApp) -> None:
        """Wrap the application ``app``."""
        self._app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer the request with its id in ``X-Request-ID``."""
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return
        started = time.perf_counter()
        request_id = _request_id(scope)
        scope[_SCOPE_KEY] = request_id
        id_header = (_RAW_HEADER, request_id.encode("ascii"))
        status: int | None = None
        sent_bytes = 0

        async def send_identified(message: Message) -> None:
            nonlocal status, sent_bytes
            if message["type"] == "http.response.start":
                status = message["status"]
                message = {**message, "headers": [*message["headers"], id_header]}
            elif message["type"] == "http.response.body":
                sent_bytes += len(message.get("body", b""))
            await send(message)

        try:
            await self._app(scope, receive, send_identified)
        finally:
            if _access_log.isEnabledFor(logging.INFO):
                _access_log.info(
                    "request",
                    extra=log_fields(
                        request_id=request_id,
                        method=scope["method"],
                        route=getattr(scope.get("route"), "path", None),
                        status=status,
                        duration_ms=round((time.perf_counter() - started) * 1000, 3),
                        bytes=sent_bytes,
                    ),
                )


class JsonLines(logging.Formatter):
    """One JSON object a line: time (UTC, ISO 8601), level, logger, message, its own fields, a traceback."""

    def format(self, record: logging.LogRecord) -> str:
        """The record as one line of JSON."""
        line: dict[str, object] = {
            "time": datetime.fromtimestamp(record.created, UTC).isoformat(timespec="milliseconds"),
            "level": record.levelname.lower(),
            "logger": record.name,
            "message": record.getMessage(),
            **getattr(record, _FIELDS, {}),
        }
        if record.exc_info:
            line["traceback"] = self.formatException(record.exc_info)
        return orjson.dumps(line, default=str).decode()


def log_fields(**fields: object) -> dict[str, object]:
    """The ``extra`` of a log call that adds members to its line."""
    return {_FIELDS: fields}


def request_id_of(scope: Scope) -> str:
    """The id that ``Telemetry`` gave to a request."""
    request_id: str = scope[_SCOPE_KEY]
    return request_id


def _request_id(scope: Scope) -> str:
    """The caller's own id where it is 1 to 128 visible ASCII characters, else a new random one."""
    for name, value in scope["headers"]:
        if (
            name == _RAW_HEADER
            and 0 < len(value) <= LONGEST_REQUEST_ID
            and not value.translate(None, _VISIBLE_ASCII)
        ):
            return str(value, "ascii")
    return secrets.token_hex(16)
