"""The service with two more questions beside the designs, for http_ratio.py, which starts this with a port.

Both read and validate the same body as a design and answer with one instance that was made beforehand; one
through the service's own class of route, the other as the framework does it.
"""

import sys

import uvicorn
from circuit_requests import design_requests
from fastapi import APIRouter

from branchwright.checks.circuits import CircuitDesignAnswer, CircuitDesignRequest, design
from branchwright.http_api.app import create_app
from branchwright.http_api.routes import JsonQuestionRoute
from branchwright.http_api.serve import uvicorn_options
from branchwright.http_api.settings import Settings

prebuilt = APIRouter(route_class=JsonQuestionRoute)
stock = APIRouter()


def usual_answer() -> CircuitDesignAnswer:
    """Of the first hundred answers the one of middling size."""
    answers = [design(CircuitDesignRequest.model_validate(request)) for request in design_requests(100)]
    return sorted(answers, key=lambda answer: len(answer.model_dump_json(by_alias=True)))[50]


ANSWER = usual_answer()


@prebuilt.post("/v1/prebuilt-answers")
async def answer_prebuilt(body: CircuitDesignRequest) -> CircuitDesignAnswer:
    return ANSWER


@stock.post("/v1/stock-answers")
async def answer_stock(body: CircuitDesignRequest) -> CircuitDesignAnswer:
    return ANSWER


if __name__ == "__main__":
    settings = Settings(port=int(sys.argv[1]))
    application = create_app(settings, extra_routers=[prebuilt, stock])
    uvicorn.run(**(uvicorn_options(settings) | {"app": application, "factory": False}))
