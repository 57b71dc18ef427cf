"""What the tests of the embedded clients share: a question, its variants, and a service that can be held up."""

import asyncio
import threading
from typing import Any

from fastapi import APIRouter
from pydantic import BaseModel
from tests.contract.document import OPERATIONS

from branchwright.http_api.app import create_app
from branchwright.http_api.routes import JsonQuestionRoute
from branchwright.http_api.settings import Settings

DESIGN = next(iter(OPERATIONS["design_circuit"].body_examples.values()))


def threads() -> list[threading.Thread]:
    """The threads that embedded services work in."""
    return [thread for thread in threading.enumerate() if thread.name == "branchwright-embedded"]


def with_current(current_a: float) -> dict[str, Any]:
    """The request for a design at another current, in A."""
    return {
        **DESIGN,
        "charger": {**DESIGN["charger"], "charging_current_a": current_a, "rated_current_a": 60},
    }


class Gate(BaseModel):
    open: bool


class Gated:
    """A service with room for one question, and a question that is answered when the test says so.

    `reached` is set when that question has come, `opened` lets its answer go; from and in any thread.
    """

    def __init__(self) -> None:
        self.reached = threading.Event()
        self.opened = threading.Event()
        router = APIRouter(route_class=JsonQuestionRoute)
        router.post("/v1/gates")(self.wait)
        self.app = create_app(Settings(concurrency_limit=1), [router])

    async def wait(self, body: Gate) -> Gate:
        self.reached.set()
        while not self.opened.is_set():
            await asyncio.sleep(0.005)
        return body
