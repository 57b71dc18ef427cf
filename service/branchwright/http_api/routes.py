"""The usual kinds of route: one that answers a JSON question, one that shows what changes only with a release.

FastAPI describes both in the OpenAPI document; the request itself takes the short way here. Questions with long bodies
have a route of their own: see long_questions.py.
"""

from __future__ import annotations

import asyncio
import hashlib
import inspect
from collections.abc import Callable, Coroutine, Mapping
from functools import cached_property
from typing import Any, ClassVar, Final, cast, get_type_hints

from fastapi.routing import APIRoute
from pydantic import BaseModel, TypeAdapter, ValidationError
from starlette.requests import Request
from starlette.responses import Response

from branchwright.http_api import strict_json, validation
from branchwright.http_api.limits import (
    MOST_MEMBERS,
    read_body,
    require_body_in,
    require_few_values,
    require_json_accepted,
    require_small_objects,
)
from branchwright.http_api.problems import INVALID_JSON, ProblemError

VERDICT_KEY: Final = "branchwright.verdict"
"""Where the scope of a request holds which operation judged and its verdict, for whoever counts them."""

Handler = Callable[[Request], Coroutine[Any, Any, Response]]

JSON: Final = "application/json"

_CACHE_CONTROL: Final = "private, max-age=3600"


class JsonQuestionRoute(APIRoute):
    """A route whose endpoint is ``async def endpoint(body: Model) -> Answer``, or ``def`` for the same.

    The body is read within the size limit, parsed as strict JSON, validated once, answered and serialised by
    pydantic's core. FastAPI's own handler would accept NaN and duplicate names, and echo what was sent.

    A ``def`` is worked on in a thread: one that takes more than some milliseconds would let nobody else be answered.
    """

    most_values: ClassVar[int] = 10_000
    """How many values a body may hold."""
    most_members: ClassVar[int] = MOST_MEMBERS
    """How many members one object of it may have, where it may hold more values than most."""

    def get_route_handler(self) -> Handler:
        """The handler that FastAPI calls for a matching request."""
        read = JsonReader(model_of(self.endpoint, "body"), self.most_values, self.most_members)
        write = JsonWriter(answer_type(self.endpoint), self.unique_id)
        endpoint = cast("Callable[[BaseModel], Any]", self.endpoint)
        is_quick = inspect.iscoroutinefunction(self.endpoint)

        def answered(question: BaseModel) -> tuple[object, bytes]:
            given: object = endpoint(question)
            return given, write.written(given)

        async def answer(request: Request) -> Response:
            headers = request.headers
            require_json_accepted(headers)
            require_body_in(headers, [JSON])
            question = read(
                await read_body(request.receive, headers, request.app.state.settings.body_limit_bytes)
            )
            if is_quick:
                return write(request, await endpoint(question))
            given, content = await asyncio.to_thread(answered, question)
            return write.response(request, content, given)

        return answer


class JsonReader:
    """Turns the bytes of a body into its model, or raises the problem that says why it cannot."""

    def __init__(self, model: type[BaseModel], most_values: int, most_members: int = MOST_MEMBERS) -> None:
        """Read bodies of this model, with at most so many values, and members of one object."""
        self._model = model
        self._most_values = most_values
        self._most_members = most_members
        # A short body has no room for more unknown members than can be named.
        self._has_long_bodies = most_values > JsonQuestionRoute.most_values
        self._validate = TypeAdapter(model).validator.validate_python

    def __call__(self, body: bytes) -> BaseModel:
        """The model that a body fits.

        Raises:
            ProblemError: 413 for too many values, 400 for what is not strict JSON, 422 for what does not fit.
        """
        require_few_values(body, self._most_values)
        try:
            data = strict_json.parse(body)
        except strict_json.NotStrictJson as error:
            raise ProblemError(INVALID_JSON, f"The body is not strict JSON: {error}.") from None
        if self._has_long_bodies:
            require_small_objects(data, self._most_members)
        try:
            question: BaseModel = self._validate(data)
        except ValidationError as error:
            raise validation.problem_from(error, data, self._schema) from None
        return question

    @cached_property
    def _schema(self) -> Mapping[str, object]:
        """The JSON Schema of the body, made when the first one does not fit it."""
        return self._model.model_json_schema()


class JsonWriter:
    """Turns an answer into its response, and notes the verdict for whoever counts them."""

    def __init__(self, answered: type[object], operation: str) -> None:
        """Write answers of this type to one operation."""
        self._serialise = TypeAdapter(answered).serializer.to_json
        self._operation = operation

    def __call__(self, request: Request, answer: object) -> Response:
        """The response that holds an answer."""
        return self.response(request, self.written(answer), answer)

    def written(self, answer: object) -> bytes:
        """The answer as JSON."""
        return self._serialise(answer, by_alias=True)

    def response(self, request: Request, content: bytes, answer: object) -> Response:
        """The response with the content that an answer was written as."""
        verdict = getattr(answer, "verdict", None)
        if verdict is not None:
            request.scope[VERDICT_KEY] = (self._operation, verdict)
        return Response(content, media_type=JSON)


class PriceBookRoute(JsonQuestionRoute):
    """A route whose body may hold a price book and a labour table, with more prices than any other question has facts.

    The schema says how many members either may have; these limits are above it, so that one too many is named.
    """

    most_values = 20_000
    most_members = 5_000


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


def model_of(endpoint: Callable[..., object], parameter: str) -> type[BaseModel]:
    """The pydantic model that a parameter of an endpoint takes; an endpoint takes a body, or a body and a query."""
    taken = list(inspect.signature(endpoint).parameters)
    model = get_type_hints(endpoint).get(parameter)
    if taken not in (["body"], ["body", "query"]) or not (
        isinstance(model, type) and issubclass(model, BaseModel)
    ):
        raise TypeError(f"{endpoint} must take one pydantic model as body, and at most another as query")
    return model


def answer_type(endpoint: Callable[..., object]) -> type[object]:
    """The type of the answers of an endpoint."""
    answered: type[object] | None = get_type_hints(endpoint).get("return")
    if answered is None:
        raise TypeError(f"{endpoint} must state the type of its answer")
    return answered
