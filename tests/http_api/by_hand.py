"""Asking the application without a client: messages as a server would hand them over."""

import asyncio


def run_asgi(app, receive, headers):
    """Post to the test route by hand; the messages that the application sends."""
    sent = []

    async def send(message):
        sent.append(message)

    scope = {
        "type": "http",
        "http_version": "1.1",
        "method": "POST",
        "path": "/v1/questions",
        "raw_path": b"/v1/questions",
        "query_string": b"",
        "root_path": "",
        "scheme": "http",
        "headers": [(b"host", b"127.0.0.1"), (b"content-type", b"application/json"), *headers],
        "client": ("127.0.0.1", 1),
        "server": ("127.0.0.1", 80),
    }
    asyncio.run(app(scope, receive, send))
    return sent
