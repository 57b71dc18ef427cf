"""An SDK generated from the small contract beside the hand-written modules, and a service that never was."""

import asyncio
import gc
import importlib
import shutil
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from types import ModuleType
from typing import Any

import httpx
import pytest

from .embedding import threads

ROOT = Path(__file__).parents[2]
SMALL_CONTRACT = Path(__file__).with_name("small_contract.json")
GENERATED = ("models.py", "mappings.py", "resources.py")

DESIGN = {
    "edition": "nec-2023",
    "supply": {"system": "split-phase-120-240"},
    "charger": {"charging_current_a": 32, "connection": {"kind": "hardwired"}},
    "run": [{"wiring_method": "emt", "length": {"value": 27, "unit": "ft"}}],
}
DESIGN_ANSWER: dict[str, Any] = {
    "edition": "nec-2023",
    "verdict": "no-failure-found",
    "findings": [{"rule": "r", "outcome": "pass", "force": "requirement", "message": "m"}],
    "steps": [
        {"id": "s", "inputs": {"a": {"value": 1.25, "unit": "1", "from": "codebook:x"}}, "citation": None}
    ],
    "design": {"breaker_rating_a": 40.0, "size": "6 AWG", "connection": {"kind": "hardwired"}},
}


def generate(document: Path, package: Path, *options: str) -> subprocess.CompletedProcess[str]:
    """Run the generator as its users do, from the root of the repository."""
    return subprocess.run(
        [sys.executable, "sdk/generator", "--document", str(document), "--package", str(package), *options],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=False,
    )


@pytest.fixture(scope="session")
def small_package(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of a package `small_sdk`: the hand-written modules, generated for the small contract."""
    package = tmp_path_factory.mktemp("generated") / "small_sdk"
    shutil.copytree(
        ROOT / "sdk/branchwright_sdk", package, ignore=shutil.ignore_patterns("__pycache__", *GENERATED)
    )
    ran = generate(SMALL_CONTRACT, package)
    assert ran.returncode == 0, ran.stderr
    return package


@pytest.fixture(scope="session")
def sdk(small_package: Path) -> Iterator[ModuleType]:
    """The package `small_sdk`, imported."""
    sys.path.insert(0, str(small_package.parent))
    yield importlib.import_module("small_sdk")
    sys.path.remove(str(small_package.parent))


class Service:
    """Answers questions from a list, and remembers them; asked by either client."""

    def __init__(self, sdk: ModuleType, asynchronous: bool) -> None:
        self.sdk = sdk
        self.asynchronous = asynchronous
        self.answers: list[httpx.Response | Exception | dict[str, Any]] = []
        self.requests: list[httpx.Request] = []
        self.waits: list[float] = []
        self.random = 0.0
        self.now = 1_700_000_000.0

    def _handle(self, request: httpx.Request) -> httpx.Response:
        self.requests.append(request)
        answer = self.answers.pop(0)
        if isinstance(answer, Exception):
            raise answer
        return httpx.Response(200, json=answer) if isinstance(answer, dict) else answer

    async def _wait(self, seconds: float) -> None:
        self.waits.append(seconds)

    def ask(
        self,
        question: Callable[[Any], Any],
        *answers: Any,
        base_url: str | None = "http://service.test",
        **options: Any,
    ) -> Any:
        """Give the answers in turn to what the question asks of a client; return what the client returns."""
        self.answers = list(answers)
        pacing = self.sdk.Pacing(
            sleep=self.waits.append,
            sleep_async=self._wait,
            random=lambda: self.random,
            clock=lambda: self.now,
        )
        transport = httpx.MockTransport(self._handle)

        async def later() -> Any:
            async with httpx.AsyncClient(transport=transport) as http:
                return await question(
                    self.sdk.AsyncClient(base_url, http_client=http, pacing=pacing, **options)
                )

        if self.asynchronous:
            return asyncio.run(later())
        with httpx.Client(transport=transport) as http:
            return question(self.sdk.Client(base_url, http_client=http, pacing=pacing, **options))


@pytest.fixture(params=["blocking", "asynchronous"])
def service(request: pytest.FixtureRequest, sdk: ModuleType) -> Service:
    """A service, asked by either client."""
    return Service(sdk, request.param == "asynchronous")


def design(client: Any) -> Any:
    """Ask for the design of a small circuit."""
    return client.circuits.design(**DESIGN)


@pytest.fixture(autouse=True)
def no_thread_is_left() -> Iterator[None]:
    """Hold every test to ending the threads of the embedded services that it started."""
    assert threads() == []
    yield
    if threads():  # of a client that was dropped and not closed, perhaps within an exception
        gc.collect()
    assert threads() == []
