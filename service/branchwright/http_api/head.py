"""HEAD is GET without the body."""

from __future__ import annotations

from starlette.types import ASGIApp, Message, Receive, Scope, Send


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
        await self._app(as_get, receive, send_without_body)
        scope["route"] = as_get.get("route")
