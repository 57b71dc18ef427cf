"""A synchronous client of an application in process, which sends a key with each request."""

import asyncio
from collections.abc import Callable
from typing import Any

import httpx
from fastapi import FastAPI

from branchwright.http_api.security import create_key

KEY, KEY_HASH = create_key()


class Client:
    """Sends requests to an application in process, the key with each, and waits for the answer."""

    def __init__(self, app: FastAPI) -> None:
        self.app = app
        self._runner = asyncio.Runner()
        self._http = httpx.AsyncClient(
            transport=httpx.ASGITransport(app=app),
            base_url="http://127.0.0.1:8000",
            headers={"Authorization": f"Bearer {KEY}"},
        )

    def run(self, make_requests: Callable[[httpx.AsyncClient], Any]) -> Any:
        """Wait for a coroutine that is given the asynchronous client."""
        return self._runner.run(make_requests(self._http))

    def request(self, method: str, path: str, **options: Any) -> httpx.Response:
        return self._runner.run(self._http.request(method.upper(), path, **options))

    def post(self, path: str, **options: Any) -> httpx.Response:
        return self.request("POST", path, **options)

    def close(self) -> None:
        self._runner.run(self._http.aclose())
        self._runner.close()
