"""What a request must keep to before anything is computed: its size, its form, and the room that is left."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import lru_cache
from typing import Final, cast

from starlette.datastructures import Headers
from starlette.requests import ClientDisconnect
from starlette.types import ASGIApp, Receive, Scope, Send

from branchwright.http_api.draining import refuse_while_draining
from branchwright.http_api.paths import is_contract_path
from branchwright.http_api.problems import (
    BODY_TOO_LARGE,
    NOT_ACCEPTABLE,
    OVER_CAPACITY,
    UNSUPPORTED_MEDIA_TYPE,
    ProblemError,
)

MOST_MEMBERS: Final = 1_000
"""How many members one object of a body may have; none of most questions has a tenth of that."""

# Common practice, no source: an answer takes about a millisecond, and this is the least that can be stated.
_RETRY_AFTER_SECONDS: Final = 1


class Room:
    """ASGI middleware: refuses work under /v1 while draining (503) or over the concurrency limit (429)."""

    def __init__(self, app: ASGIApp, concurrency_limit: int | None) -> None:
        """Wrap ``app``; no limit where ``concurrency_limit`` is None."""
        self._app = app
        self._limit = concurrency_limit
        self._in_flight = 0

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer 429 or 503, or hand the request on."""
        if scope["type"] != "http" or not is_contract_path(scope):
            await self._app(scope, receive, send)
            return
        try:
            refuse_while_draining(scope["app"])
            self._refuse_when_full()
        except ProblemError as refusal:
            await refusal.response(scope["path"])(scope, receive, send)
            return
        self._in_flight += 1
        try:
            await self._app(scope, receive, send)
        finally:
            self._in_flight -= 1

    def _refuse_when_full(self) -> None:
        if self._limit is not None and self._in_flight >= self._limit:
            raise over_capacity(f"The service is at its limit of {self._limit} requests at once.")


def over_capacity(detail: str) -> ProblemError:
    """The problem (429) of a request for which there is no room just now."""
    return ProblemError(OVER_CAPACITY, detail, headers={"Retry-After": str(_RETRY_AFTER_SECONDS)})


def require_json_accepted(headers: Headers) -> None:
    """Raise the problem (406) where the Accept header leaves application/json out."""
    accepted = headers.getlist("accept")
    if accepted and not _accepts_json(",".join(accepted)):
        raise ProblemError(
            NOT_ACCEPTABLE,
            "The answer is application/json; add it to the Accept header or leave the header out.",
        )


def require_body_in(headers: Headers, media_types: Sequence[str]) -> str:
    """The media type of a body; raise the problem (415) where it is not plainly one of those that are read."""
    content_types = headers.getlist("content-type")
    media_type = _media_type(content_types[0]) if len(content_types) == 1 else None
    if media_type is None or media_type not in media_types:
        wanted = " or ".join(media_types)
        raise ProblemError(UNSUPPORTED_MEDIA_TYPE, f"Send the body with Content-Type: {wanted}, in UTF-8.")
    if any(coding.strip().lower() != "identity" for coding in headers.getlist("content-encoding")):
        raise ProblemError(UNSUPPORTED_MEDIA_TYPE, "Send the body without Content-Encoding.")
    return media_type


def require_few_values(body: bytes, limit: int) -> None:
    """Raise the problem (413) where a body holds more values than any question can need.

    Validation names every value that does not fit, at some microseconds and a kilobyte each: a body of half a
    million zeros would hold up everyone else for seconds. Values are counted by the commas between them;
    those inside texts count too, and no question has texts long enough to matter.
    """
    if body.count(b",") >= limit:
        raise ProblemError(BODY_TOO_LARGE, f"The body has more than {limit} values.")


def require_small_objects(data: object, limit: int = MOST_MEMBERS) -> None:
    """Raise the problem (413) where an object has more members than any question can need.

    Validation names every member that is unknown. Lists may be long: their models stop at the first item that does
    not fit. Depth is bounded by the parser's own limit.
    """
    if isinstance(data, dict):
        members = cast("dict[str, object]", data)
        if len(members) > limit:
            raise ProblemError(BODY_TOO_LARGE, f"An object in the body has more than {limit} members.")
        for member in members.values():
            require_small_objects(member, limit)
    elif isinstance(data, list):
        for item in cast("list[object]", data):
            # Most items of long lists are numbers: asking of each what it is costs less than a call.
            if isinstance(item, dict | list):
                require_small_objects(cast("object", item), limit)


async def read_body(
    receive: Receive, headers: Headers, limit: int, hold: Callable[[int], None] | None = None
) -> bytes:
    """The whole body, never holding more than ``limit`` bytes of it and one chunk.

    Args:
        receive: gives the body's messages.
        headers: those of the request.
        limit: the longest body, in bytes.
        hold: told the length of each chunk before it is kept; may raise the problem that there is no room for it.

    Raises:
        ProblemError: 413, as soon as the declared or the received length passes the limit.
        ClientDisconnect: where the client leaves before the end.
    """
    declared = headers.get("content-length", "")
    if declared.isdigit() and int(declared) > limit:
        raise _too_large(limit)
    chunks: list[bytes] = []
    received = 0
    while True:
        message = await receive()
        if message["type"] == "http.disconnect":
            raise ClientDisconnect
        chunk: bytes = message.get("body", b"")
        received += len(chunk)
        if received > limit:
            raise _too_large(limit)
        if hold is not None:
            hold(len(chunk))
        chunks.append(chunk)
        if not message.get("more_body", False):
            return chunks[0] if len(chunks) == 1 else b"".join(chunks)


def _too_large(limit: int) -> ProblemError:
    return ProblemError(BODY_TOO_LARGE, f"The body is longer than the limit of {limit} bytes.")


@lru_cache(maxsize=256)
def _accepts_json(accept: str) -> bool:
    """Whether the most specific range for application/json weighs more than zero (RFC 9110, 12.5.1)."""
    best: tuple[int, float] | None = None
    for item in accept.split(","):
        media_range, *parameters = (part.strip().lower() for part in item.split(";"))
        specificity = {"*/*": 0, "application/*": 1, "application/json": 2}.get(media_range)
        if specificity is None:
            continue
        candidate = (specificity, _weight(parameters))
        if best is None or candidate > best:
            best = candidate
    # An Accept header without any range (an empty one) states no preference.
    return not accept.strip(" ,\t") if best is None else best[1] > 0


def _weight(parameters: list[str]) -> float:
    for parameter in parameters:
        name, _, value = parameter.partition("=")
        if name.strip() == "q":
            try:
                return float(value)
            except ValueError:
                return 0.0
    return 1.0


@lru_cache(maxsize=256)
def _media_type(content_type: str) -> str | None:
    """The media type that a Content-Type names; None where it also names a charset other than UTF-8."""
    media_type, *parameters = (part.strip().lower() for part in content_type.split(";"))
    for parameter in parameters:
        name, _, value = parameter.partition("=")
        if name.strip() == "charset" and value.strip().strip('"') not in {"utf-8", "utf8"}:
            return None
    return media_type
