"""The service in process with a key configured, and a synchronous client that sends it."""

import asyncio
from collections.abc import Callable, Iterator
from typing import Any

import httpx
import pytest
from fastapi import FastAPI

from branchwright.http_api.app import create_app
from branchwright.http_api.security import create_key
from branchwright.http_api.settings import Settings

pytest.register_assert_rewrite("tests.contract.document")

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


@pytest.fixture(scope="session")
def client() -> Iterator[Client]:
    made = Client(create_app(Settings(api_key_hashes=(KEY_HASH,))))
    yield made
    made.close()


@pytest.fixture
def make_client() -> Iterator[Callable[..., Client]]:
    """Makes clients of applications with other settings."""
    made: list[Client] = []

    def make(**settings: Any) -> Client:
        made.append(Client(create_app(Settings(**({"api_key_hashes": (KEY_HASH,)} | settings)))))
        return made[-1]

    yield make
    for one in made:
        one.close()
