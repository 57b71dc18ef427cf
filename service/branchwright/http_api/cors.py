"""Pages from elsewhere: which origins a browser may let read our answers (the CORS protocol of Fetch).

Without configured origins none of this runs, and a browser lets no page but our own read an answer. Starlette's
middleware refuses a foreign preflight with a text of its own; here that is left to the layers inside, whose every
refusal is a problem document.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from starlette.responses import Response
from starlette.types import ASGIApp, Message, Receive, Scope, Send

_METHODS: Final = "GET, HEAD, POST"
# What a client may send beside what every page may.
_REQUEST_HEADERS: Final = (
    "Accept, Authorization, Content-Type, If-None-Match, Traceparent, Tracestate, X-Request-ID"
)
# What a page may read beside what it always may.
_RESPONSE_HEADERS: Final = "Allow, ETag, Retry-After, WWW-Authenticate, X-Request-ID"
# Common practice, no source: long enough that a page asks once, short enough that a change is soon seen.
_PREFLIGHT_KEPT_SECONDS: Final = 600
_VARY: Final = (b"vary", b"Origin")


class Cors:
    """ASGI middleware: answers the preflights of some origins, and marks answers as theirs to read."""

    def __init__(self, app: ASGIApp, origins: Sequence[str]) -> None:
        """Wrap ``app``; ``origins`` are written as a browser sends them, ``https://tool.example``."""
        self._app = app
        self._origins = frozenset(origin.encode("ascii") for origin in origins)

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer a preflight of a known origin without a key; hand on everything else."""
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return
        headers: list[tuple[bytes, bytes]] = scope["headers"]
        sent = [value for name, value in headers if name == b"origin"]
        origin = sent[0] if len(sent) == 1 and sent[0] in self._origins else None

        async def send_shared(message: Message) -> None:
            if message["type"] == "http.response.start":
                message = {**message, "headers": [*message["headers"], _VARY, *_sharing(origin)]}
            await send(message)

        if origin is not None and _is_preflight(scope):
            await _preflight_answer()(scope, receive, send_shared)
        else:
            await self._app(scope, receive, send_shared)


def _is_preflight(scope: Scope) -> bool:
    return scope["method"] == "OPTIONS" and any(
        name == b"access-control-request-method" for name, _ in scope["headers"]
    )


def _sharing(origin: bytes | None) -> list[tuple[bytes, bytes]]:
    """The headers that let one origin read the answer; none for any other."""
    if origin is None:
        return []
    return [
        (b"access-control-allow-origin", origin),
        (b"access-control-expose-headers", _RESPONSE_HEADERS.encode("ascii")),
    ]


def _preflight_answer() -> Response:
    return Response(
        status_code=204,
        headers={
            "Access-Control-Allow-Methods": _METHODS,
            "Access-Control-Allow-Headers": _REQUEST_HEADERS,
            "Access-Control-Max-Age": str(_PREFLIGHT_KEPT_SECONDS),
        },
    )
