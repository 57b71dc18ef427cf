"""A service on loopback in a thread of the test's own process, so that a test can set it up as it needs it."""

import socket
import threading
from collections.abc import Iterator
from contextlib import contextmanager

import uvicorn
from fastapi import FastAPI

STARTED_WITHIN_S = 30.0


class Server(uvicorn.Server):
    """A server that says when it takes requests."""

    def __init__(self, config: uvicorn.Config) -> None:
        super().__init__(config)
        self.takes_requests = threading.Event()

    async def startup(self, sockets: list[socket.socket] | None = None) -> None:
        await super().startup(sockets)
        self.takes_requests.set()


@contextmanager
def serving(app: FastAPI) -> Iterator[str]:
    """Serve an application on a free port; give its address."""
    with socket.socket() as listening:
        listening.bind(("127.0.0.1", 0))
        server = Server(uvicorn.Config(app, log_config=None, ws="none", lifespan="on", server_header=False))
        thread = threading.Thread(target=server.run, args=([listening],))
        thread.start()
        try:
            assert server.takes_requests.wait(STARTED_WITHIN_S)
            yield f"http://127.0.0.1:{listening.getsockname()[1]}"
        finally:
            server.should_exit = True
            thread.join()
