"""From what the framework raises to problems: unknown paths, methods that are not offered, bad parameters."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import cast

from fastapi import FastAPI, Request
from fastapi.exceptions import RequestValidationError
from fastapi.routing import APIRoute
from pydantic import BaseModel
from starlette.exceptions import HTTPException
from starlette.responses import Response
from starlette.routing import Route

from branchwright.http_api.paths import own_path
from branchwright.http_api.problems import METHOD_NOT_ALLOWED, NOT_FOUND, ProblemError
from branchwright.http_api.suggestions import nearest_name
from branchwright.http_api.validation import parameter_problem


async def answer_problem(request: Request, error: Exception) -> Response:
    """The answer to a ProblemError."""
    if not isinstance(error, ProblemError):
        raise error
    return error.response(request.scope["path"])


async def answer_http_exception(request: Request, error: Exception) -> Response:
    """The answer where no route matches (404) or one matches but for the method (405, or 204 to OPTIONS)."""
    if not isinstance(error, HTTPException):
        raise error
    if error.status_code == METHOD_NOT_ALLOWED.status:
        allow = {"Allow": ", ".join(_methods(request))}
        if request.method == "OPTIONS":
            return Response(status_code=204, headers=allow)
        return ProblemError(
            METHOD_NOT_ALLOWED, f"This path offers {allow['Allow']}.", headers=allow
        ).response(request.scope["path"])
    if error.status_code == NOT_FOUND.status:
        return ProblemError(NOT_FOUND, _nothing_at(request)).response(request.scope["path"])
    raise error


async def answer_bad_parameters(request: Request, error: Exception) -> Response:
    """The answer (422) where query parameters do not fit. Bodies do not come this way: see routes.py."""
    if not isinstance(error, RequestValidationError):
        raise error
    details = cast("Sequence[Mapping[str, object]]", error.errors())
    problem = parameter_problem(
        details, dict(request.query_params), _query_schema(request.scope["route"]), parameters_in="query"
    )
    return problem.response(request.scope["path"])


def _methods(request: Request) -> list[str]:
    """Every method that some route offers at this path; HEAD wherever there is GET."""
    methods: set[str] = set()
    for route in _routes(request):
        if route.path_regex.match(own_path(request.scope)):
            methods |= route.methods or set()
    if "GET" in methods:
        methods.add("HEAD")
    return sorted(methods)


def _nothing_at(request: Request) -> str:
    known = [route.path for route in _routes(request) if route.include_in_schema]
    near = nearest_name(own_path(request.scope), known)
    return "There is nothing at this path" + (
        f"; did you mean {near}?" if near else ". /docs lists what there is."
    )


def _routes(request: Request) -> list[Route]:
    app = cast("FastAPI", request.app)
    return [route for route in app.routes if isinstance(route, Route)]


def _query_schema(route: APIRoute) -> Mapping[str, object]:
    """The JSON Schema of the one model that holds all query parameters of a route."""
    for parameter in route.dependant.query_params:
        model = parameter.field_info.annotation
        if isinstance(model, type) and issubclass(model, BaseModel):
            return model.model_json_schema()
    return {}
