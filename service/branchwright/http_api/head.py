"""HEAD is GET without the body."""

from __future__ import annotations

from typing import Final

from starlette.types import ASGIApp, Message, Receive, Scope, Send

from branchwright.http_api import problems

# What the layers inside learn of a request and those outside log and count.
_LEARNED: Final = ("route", problems.SCOPE_KEY)


class HeadAsGet:
    """ASGI middleware: answers HEAD with the head of what GET would answer."""

    def __init__(self, app: ASGIApp) -> None:
        """Wrap the application ``app``."""
        self._app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Hand the request on, as GET where it is HEAD."""
        if scope["type"] != "http" or scope["method"] != "HEAD":
            await self._app(scope, receive, send)
            return

        async def send_without_body(message: Message) -> None:
            if message["type"] == "http.response.body":
                message = {**message, "body": b""}
            await send(message)

        as_get = {**scope, "method": "GET"}
        try:
            await self._app(as_get, receive, send_without_body)
        finally:
            scope.update({name: as_get[name] for name in _LEARNED if name in as_get})
