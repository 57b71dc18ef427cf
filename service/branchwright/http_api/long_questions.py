"""The route for questions with long bodies: meter readings by the hundred thousand, as JSON or in other forms.

Such a body has a limit of its own, and one process holds only so many bytes of them at once. It is read and answered in
a thread, so that small questions are answered meanwhile; only so many at a time, because each takes several times the
memory of its body.
"""

from __future__ import annotations

import asyncio
import threading
from collections.abc import Callable, Mapping
from typing import Any, ClassVar, Final, TypeVar

from anyio.lowlevel import RunVar
from fastapi.routing import APIRoute
from starlette.requests import Request
from starlette.responses import Response

from branchwright.http_api.limits import (
    MOST_MEMBERS,
    over_capacity,
    read_body,
    require_body_in,
    require_json_accepted,
)
from branchwright.http_api.queries import QueryReader
from branchwright.http_api.routes import JSON, Handler, JsonReader, JsonWriter, answer_type, model_of

LONGEST_BODIES_HELD: Final = 4
"""How many of the longest bodies one process has room for."""
ANSWERED_AT_ONCE: Final = 2
"""How many long questions one process works on at once; more would only share its core, each with its memory."""

Answer = TypeVar("Answer")

_places_of_loop: RunVar[asyncio.Semaphore] = RunVar("branchwright-long-questions")


class LongQuestionRoute(APIRoute):
    """A route whose endpoint is ``def endpoint(body: Model) -> Answer``, or ``(body: Model, query: Query)``.

    ``other_bodies`` says what answers a body of another media type: a function of its bytes and the query, which
    raises the problem where it cannot read them.
    """

    most_values: ClassVar[int] = 1_000_000
    most_members: ClassVar[int] = MOST_MEMBERS
    other_bodies: ClassVar[Mapping[str, Callable[..., Any]]] = {}

    def get_route_handler(self) -> Handler:
        """The handler that FastAPI calls for a matching request."""
        endpoint = self.endpoint
        read = JsonReader(model_of(endpoint, "body"), self.most_values, self.most_members)
        query_model = model_of(endpoint, "query") if self.dependant.query_params else None
        read_query = None if query_model is None else QueryReader(query_model)
        write = JsonWriter(answer_type(endpoint), self.unique_id)

        def answer_json(body: bytes, *query: object) -> Any:
            return endpoint(read(body), *query)

        answers: dict[str, Callable[..., Any]] = {JSON: answer_json, **self.other_bodies}

        async def answer(request: Request) -> Response:
            headers = request.headers
            require_json_accepted(headers)
            media_type = require_body_in(headers, list(answers))
            query = () if read_query is None else (read_query(request.query_params.multi_items()),)

            def answered(body: bytes) -> tuple[Any, bytes]:
                given = answers[media_type](body, *query)
                return given, write.written(given)

            long_bodies: LongBodies = request.app.state.long_bodies
            given, content = await long_bodies.answered(request, answered)
            return write.response(request, content, given)

        return answer


class LongBodies:
    """The room that one application has for long bodies."""

    def __init__(self, longest_bytes: int) -> None:
        """Take bodies up to this length, and a few of the longest at once."""
        self._longest_bytes = longest_bytes
        self._room_bytes = LONGEST_BODIES_HELD * longest_bytes
        self._held_bytes = 0
        # An application may be asked from the event loops of several threads.
        self._lock = threading.Lock()

    async def answered(self, request: Request, work: Callable[[bytes], Answer]) -> Answer:
        """What a thread makes of the body of a request.

        Where nobody waits for it any more the thread still ends its work, and only then are its place and the room of
        its body free.

        Raises:
            ProblemError: 413 for a body that is too long, 429 where there is no room for more of it.
        """
        held = _Held(self)
        try:
            body = await read_body(request.receive, request.headers, self._longest_bytes, held.take)
            places = _places()
            await places.acquire()
        except BaseException:
            held.give_back()
            raise
        working = asyncio.get_running_loop().run_in_executor(None, work, body)

        def end(_: object) -> None:
            places.release()
            held.give_back()

        working.add_done_callback(end)
        return await asyncio.shield(working)

    def hold(self, count: int) -> None:
        """Count so many bytes more as held; fewer where ``count`` is negative."""
        with self._lock:
            if self._held_bytes + count > self._room_bytes:
                raise over_capacity(
                    f"The service holds as many long bodies as it has room for, {self._room_bytes} bytes."
                )
            self._held_bytes += count


class _Held:
    """What is held of one body."""

    def __init__(self, long_bodies: LongBodies) -> None:
        self._long_bodies = long_bodies
        self._count = 0

    def take(self, count: int) -> None:
        self._long_bodies.hold(count)
        self._count += count

    def give_back(self) -> None:
        self._long_bodies.hold(-self._count)
        self._count = 0


def _places() -> asyncio.Semaphore:
    """The places for work of the event loop that asks: a semaphore serves one loop alone."""
    try:
        return _places_of_loop.get()
    except LookupError:
        places = asyncio.Semaphore(ANSWERED_AT_ONCE)
        _places_of_loop.set(places)
        return places
