"""A program for the tests: the real service with one slow question beside it, on a free loopback port."""

import asyncio

import uvicorn
from fastapi import APIRouter
from pydantic import BaseModel

from branchwright.http_api.app import create_app
from branchwright.http_api.routes import JsonQuestionRoute
from branchwright.http_api.serve import uvicorn_options
from branchwright.http_api.settings import Settings

router = APIRouter(route_class=JsonQuestionRoute)


class Wait(BaseModel):
    seconds: float


@router.post("/v1/waits")
async def wait(body: Wait) -> Wait:
    await asyncio.sleep(body.seconds)
    return body


if __name__ == "__main__":
    settings = Settings(port=0, drain_seconds=5)
    application = create_app(settings, extra_routers=[router])
    uvicorn.run(**(uvicorn_options(settings) | {"app": application, "factory": False}))
