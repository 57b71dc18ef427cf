"""From an HTTP response to the answer that the contract promises, or to the error that it means."""

from __future__ import annotations

import json
from collections.abc import Awaitable, Callable, Mapping
from typing import TYPE_CHECKING, Any, Generic, ParamSpec, TypeVar, cast

from .errors import FieldError, Problem, UnexpectedAnswer, problem_class

if TYPE_CHECKING:
    import httpx
    from pydantic import BaseModel

AnswerT = TypeVar("AnswerT", bound="BaseModel")
P = ParamSpec("P")


class RawResponse(Generic[AnswerT]):
    """The response as it came, with its answer still to be parsed.

    `status_code`, `headers` and `content` are those of the response; `request_id` is its X-Request-ID.
    """

    def __init__(self, response: httpx.Response, answer: type[AnswerT]) -> None:
        """Wrap a response and the model that its content should fit."""
        self._answer = answer
        self.status_code: int = response.status_code
        self.headers: Mapping[str, str] = response.headers
        self.content: bytes = response.content
        self.request_id: str | None = response.headers.get("X-Request-ID")

    def __repr__(self) -> str:
        """Return the status and what the content should hold."""
        return f"RawResponse({self.status_code}, {self._answer.__name__})"

    def parse(self) -> AnswerT:
        """Return the answer. Raises UnexpectedAnswer if the content is not what the contract says."""
        if not 200 <= self.status_code < 300:
            raise UnexpectedAnswer("the response carries no answer", self.status_code, self.request_id)
        from pydantic import ValidationError

        try:
            return self._answer.model_validate_json(self.content)
        except ValidationError as error:
            first = error.errors(include_url=False, include_input=False)[0]
            where = "/".join(str(step) for step in first["loc"]) or "the content"
            detail = f"not the {self._answer.__name__} of the contract: {where}: {first['msg']}"
            raise UnexpectedAnswer(detail, self.status_code, self.request_id) from error


def problem(response: httpx.Response) -> Problem:
    """Return the error that a response with a status of 400 or more means, whatever its content."""
    try:
        content = json.loads(response.content)
    except (ValueError, RecursionError):  # not ours, or cut short: the status has to do
        content = None
    members = cast("dict[str, Any]", content) if isinstance(content, dict) else {}
    status = response.status_code
    return problem_class(status)(
        status,
        _text(members.get("title")) or response.reason_phrase or "Unknown status",
        type=_text(members.get("type")) or "about:blank",
        detail=_text(members.get("detail")),
        instance=_text(members.get("instance")),
        errors=_field_errors(members.get("errors")),
        request_id=response.headers.get("X-Request-ID"),
    )


def _field_errors(errors: object) -> list[FieldError]:
    members = [cast("dict[str, object]", error) for error in _items(errors) if isinstance(error, dict)]
    return [
        FieldError(
            pointer=_text(error.get("pointer")) or "",
            message=_text(error.get("message")) or "",
            code=_text(error.get("code")) or "",
            given=error.get("given"),
            allowed=tuple(str(value) for value in _items(error.get("allowed"))),
        )
        for error in members
    ]


def _items(value: object) -> list[object]:
    return cast("list[object]", value) if isinstance(value, list) else []


def _text(value: object) -> str | None:
    return value if isinstance(value, str) else None


def raw_method(method: Callable[P, AnswerT]) -> Callable[P, RawResponse[AnswerT]]:
    """Return a method, bound to a transport that answers raw, with its type then."""
    return cast("Callable[P, RawResponse[AnswerT]]", method)


def raw_later_method(method: Callable[P, Awaitable[AnswerT]]) -> Callable[P, Awaitable[RawResponse[AnswerT]]]:
    """Return an asynchronous method, bound to a transport that answers raw, with its type then."""
    return cast("Callable[P, Awaitable[RawResponse[AnswerT]]]", method)
