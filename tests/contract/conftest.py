"""The service in process with a key configured, asked by a client that has it."""

from collections.abc import Callable, Iterator
from typing import Any

import pytest

from branchwright.http_api.app import create_app
from branchwright.http_api.settings import Settings

pytest.register_assert_rewrite("tests.contract.document")

from tests.contract.client import KEY_HASH, Client  # noqa: E402


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
