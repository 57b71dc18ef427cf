"""The two kinds of route: one that answers a JSON question, one that shows what changes only with a release.

FastAPI describes both in the OpenAPI document; the request itself takes the short way here.
"""

from __future__ import annotations

import hashlib
import inspect
from collections.abc import Awaitable, Callable, Coroutine, Mapping
from functools import cached_property
from typing import Any, ClassVar, Final, cast, get_type_hints

from fastapi.routing import APIRoute
from pydantic import BaseModel, TypeAdapter, ValidationError
from starlette.requests import Request
from starlette.responses import Response

from branchwright.http_api import strict_json, validation
from branchwright.http_api.limits import (
    read_body,
    require_few_values,
    require_json_accepted,
    require_json_body,
)
from branchwright.http_api.problems import INVALID_JSON, ProblemError

VERDICT_KEY: Final = "branchwright.verdict"
"""Where the scope of a request holds which operation judged and its verdict, for whoever counts them."""

Handler = Callable[[Request], Coroutine[Any, Any, Response]]

_CACHE_CONTROL: Final = "private, max-age=3600"


class JsonQuestionRoute(APIRoute):
    """A route whose endpoint is ``async def endpoint(body: Model) -> Answer``.

    The body is read within the size limit, parsed as strict JSON, validated once, answered and serialised by
    pydantic's core. FastAPI's own handler would accept NaN and duplicate names, and echo what was sent.
    """

    most_values: ClassVar[int] = 10_000
    """How many values a body may hold; a route for longer data is a subclass with a larger number."""

    def get_route_handler(self) -> Handler:
        """The handler that FastAPI calls for a matching request."""
        most_values = self.most_values
        body_type, answer_type = _signature(self.endpoint)
        validate = TypeAdapter(body_type).validator.validate_python
        serialise = TypeAdapter(answer_type).serializer.to_json
        endpoint = cast("Callable[[BaseModel], Awaitable[object]]", self.endpoint)
        schema = _LazySchema(body_type)
        operation = self.unique_id

        async def answer(request: Request) -> Response:
            headers = request.headers
            require_json_accepted(headers)
            require_json_body(headers)
            body = await read_body(request.receive, headers, request.app.state.settings.body_limit_bytes)
            require_few_values(body, most_values)
            try:
                data = strict_json.parse(body)
            except strict_json.NotStrictJson as error:
                raise ProblemError(INVALID_JSON, f"The body is not strict JSON: {error}.") from None
            try:
                question = validate(data)
            except ValidationError as error:
                raise validation.problem_from(error, data, schema.value) from None
            given = await endpoint(question)
            verdict = getattr(given, "verdict", None)
            if verdict is not None:
                request.scope[VERDICT_KEY] = (operation, verdict)
            return Response(serialise(given, by_alias=True), media_type="application/json")

        return answer


class ReferenceRoute(APIRoute):
    """A GET route whose answer changes only with a release: it has a strong ETag and may be kept an hour."""

    def get_route_handler(self) -> Handler:
        """The handler that FastAPI calls for a matching request."""
        show = super().get_route_handler()

        async def answer(request: Request) -> Response:
            require_json_accepted(request.headers)
            return revalidated(request, await show(request))

        return answer


def revalidated(request: Request, response: Response) -> Response:
    """The response with its validators, or 304 where the caller has this very body (RFC 9110, 13.1.2)."""
    etag = f'"{hashlib.sha256(response.body).hexdigest()}"'
    validators = {"ETag": etag, "Cache-Control": _CACHE_CONTROL}
    known = ",".join(request.headers.getlist("if-none-match"))
    if any(tag.strip().removeprefix("W/") in {etag, "*"} for tag in known.split(",")):
        return Response(status_code=304, headers=validators)
    response.headers.update(validators)
    return response


class _LazySchema:
    """The JSON Schema of a request body, made when the first body does not fit it."""

    def __init__(self, model: type[BaseModel]) -> None:
        self._model = model

    @cached_property
    def value(self) -> Mapping[str, object]:
        return self._model.model_json_schema()


def _signature(endpoint: Callable[..., object]) -> tuple[type[BaseModel], type[object]]:
    """The body and answer types of an endpoint, which takes one pydantic model and states what it returns."""
    hints = get_type_hints(endpoint)
    answer_type = hints.pop("return", None)
    body_type = next(iter(hints.values()), None)
    if len(inspect.signature(endpoint).parameters) != 1 or not _is_model(body_type):
        raise TypeError(f"{endpoint} must take one pydantic model and nothing else")
    if answer_type is None:
        raise TypeError(f"{endpoint} must state the type of its answer")
    return cast("type[BaseModel]", body_type), answer_type


def _is_model(annotation: object) -> bool:
    return isinstance(annotation, type) and issubclass(annotation, BaseModel)
