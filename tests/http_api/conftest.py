"""An application around a small test-only router, and a synchronous client for it."""

from __future__ import annotations

import asyncio
import copy
from collections.abc import Callable
from typing import Annotated, Any, Literal

import httpx
import pytest
from fastapi import APIRouter, FastAPI, Query
from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, field_validator

from branchwright.http_api.app import create_app
from branchwright.http_api.routes import JsonQuestionRoute, ReferenceRoute
from branchwright.http_api.settings import Settings

HERE = "http://127.0.0.1"


class Strict(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True)


class Length(Strict):
    value: Annotated[float, Field(strict=True, gt=0, le=1000)]
    unit: Literal["ft", "m"]


class Hardwired(Strict):
    kind: Literal["hardwired"]
    torque: Length | None = None


class Receptacle(Strict):
    kind: Literal["receptacle"]
    configuration: Literal["14-30", "14-50"]


def whole(value: object) -> object:
    return int(value) if isinstance(value, float) and value.is_integer() else value


class Question(Strict):
    size: Literal["8 AWG", "6 AWG", "250 kcmil"]
    run: Annotated[list[Length], Field(min_length=1, max_length=100)]
    connection: Annotated[Hardwired | Receptacle, Field(discriminator="kind")]
    current_a: Annotated[float, Field(strict=True, ge=0)] = 48.0
    poles: Annotated[int, Field(strict=True, ge=1), BeforeValidator(whole)] = 2
    outdoors: Annotated[bool, Field(strict=True)] = False
    label: Annotated[str, Field(strict=True, max_length=400, pattern="^[^!]*$")] = ""
    odd: Annotated[float | Literal["unknown"] | None, Field()] = None
    checked: int | None = None

    @field_validator("checked")
    @classmethod
    def _no_thirteen(cls, value: int | None) -> int | None:
        if value == 13:
            raise ValueError("thirteen is reserved")
        return value


class Answer(BaseModel):
    size: str
    feet: float
    label: str


class Page(Strict):
    limit: Annotated[int, Field(ge=1, le=100)] = 20
    after: str | None = None


questions = APIRouter(route_class=JsonQuestionRoute)
references = APIRouter(route_class=ReferenceRoute)


@questions.post("/v1/questions")
async def ask(body: Question) -> Answer:
    return Answer(size=body.size, feet=sum(part.value for part in body.run), label=body.label)


@questions.post("/v1/slow-questions")
async def ask_slowly(body: Question) -> Answer:
    await asyncio.sleep(0.2)
    return await ask(body)


@questions.post("/v1/broken-questions")
async def ask_in_vain(body: Question) -> Answer:
    raise RuntimeError("the secret is 4711")


@references.get("/v1/things")
async def list_things(page: Annotated[Page, Query()]) -> list[str]:
    return ["one", "two"][: page.limit]


@references.delete("/v1/things")
async def drop_things() -> list[str]:
    return []


GOOD: dict[str, Any] = {
    "size": "6 AWG",
    "run": [{"value": 27, "unit": "ft"}],
    "connection": {"kind": "hardwired"},
}


class Client:
    """Sends requests to an application in process and waits for the answer."""

    def __init__(self, app: FastAPI, base_url: str = HERE) -> None:
        self.app = app
        self.base_url = base_url

    def request(self, method: str, path: str, **kwargs: Any) -> httpx.Response:
        return asyncio.run(self._request(method, path, **kwargs))

    def get(self, path: str, **kwargs: Any) -> httpx.Response:
        return self.request("GET", path, **kwargs)

    def post(self, path: str, **kwargs: Any) -> httpx.Response:
        return self.request("POST", path, **kwargs)

    def ask(self, body: bytes | str, **kwargs: Any) -> httpx.Response:
        headers = {"Content-Type": "application/json"} | kwargs.pop("headers", {})
        return self.post("/v1/questions", content=body, headers=headers, **kwargs)

    def ask_many(self, count: int, path: str = "/v1/slow-questions") -> list[httpx.Response]:
        async def together() -> list[httpx.Response]:
            return await asyncio.gather(*(self._request("POST", path, json=GOOD) for _ in range(count)))

        return asyncio.run(together())

    async def _request(self, method: str, path: str, **kwargs: Any) -> httpx.Response:
        transport = httpx.ASGITransport(app=self.app)
        async with httpx.AsyncClient(transport=transport, base_url=self.base_url) as client:
            return await client.request(method, path, **kwargs)


MakeClient = Callable[..., Client]


@pytest.fixture(scope="session")
def make_client() -> MakeClient:
    def make(*, base_url: str = HERE, **settings: Any) -> Client:
        return Client(create_app(Settings(**settings), extra_routers=[questions, references]), base_url)

    return make


@pytest.fixture(scope="session")
def client(make_client: MakeClient) -> Client:
    return make_client()


@pytest.fixture
def good() -> dict[str, Any]:
    """A body that fits the schema of the test route; tests may change it."""
    return copy.deepcopy(GOOD)
