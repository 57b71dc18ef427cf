"""Problem documents (RFC 9457): the one form in which this service refuses or fails.

``type`` is an absolute-path reference under our own documentation, ``/problems/<slug>``, which the service
answers with a page that says what the type means. It never changes within version 1.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Annotated, Final
from urllib.parse import quote

from pydantic import BaseModel, ConfigDict, Field
from starlette.responses import Response
from starlette.types import Receive, Scope, Send

MEDIA_TYPE: Final = "application/problem+json"
LONGEST_INPUT: Final = 200
"""How many characters of anything a caller sent may come back in a problem."""
# RFC 3986, section 3.3, beside the unreserved characters that are never encoded.
_IN_PATHS: Final = "/:@!$&'()*+,;="
SCOPE_KEY: Final = "branchwright.problem"
"""Where the scope of a request holds the type of the problem that it was answered with."""


@dataclass(frozen=True, slots=True)
class Kind:
    """One type of problem: its place in the documentation, its status code and what it means."""

    slug: str
    status: int
    title: str
    meaning: str

    @property
    def type(self) -> str:
        """The ``type`` member: an absolute-path reference to the page about this kind."""
        return f"/problems/{self.slug}"


INVALID_JSON: Final = Kind(
    "invalid-json",
    400,
    "The body is not strict JSON",
    "The body could not be read as one JSON text in UTF-8: a syntax error, a name that occurs twice in one "
    "object, NaN or Infinity, a number too large for a 64-bit float, half of a surrogate pair, or nesting "
    "beyond 200 levels. The detail says what was met and where.",
)
UNREADABLE_BODY: Final = Kind(
    "unreadable-body",
    400,
    "The body cannot be read as what it is sent as",
    "A body sent as text/csv is not UTF-8 text, or one sent as application/xml is not well-formed, declares a document "
    "type or entities, is nested too deeply or holds more readings than are taken. What a body that can be read says "
    "wrongly is no problem of this type: it is answered, as findings. The detail says what was met and where.",
)
UNAUTHORIZED: Final = Kind(
    "unauthorized",
    401,
    "A valid API key is needed",
    "Everything under /v1, and /metrics, asks for a key when the service has keys configured. Send it as "
    "'Authorization: Bearer <key>'.",
)
HOST_NOT_ALLOWED: Final = Kind(
    "host-not-allowed",
    403,
    "This host name is not answered",
    "A service without keys answers only requests addressed to this computer itself: the Host header must be "
    "localhost, 127.0.0.1 or [::1]. Configure a key, or start it with --allow-anonymous, to serve others.",
)
NOT_FOUND: Final = Kind(
    "not-found",
    404,
    "There is nothing here",
    "The path, or the edition, table or rule named in it, does not exist. The problem names what does.",
)
METHOD_NOT_ALLOWED: Final = Kind(
    "method-not-allowed",
    405,
    "This method is not offered here",
    "The path exists, the method does not. The Allow header lists the methods that do.",
)
NOT_ACCEPTABLE: Final = Kind(
    "not-acceptable",
    406,
    "The answer has no form that the request accepts",
    "Answers are application/json, and the Accept header of the request leaves that out.",
)
BODY_TOO_LARGE: Final = Kind(
    "body-too-large",
    413,
    "The body is larger than allowed",
    "The body is longer, or holds more values, than the limit that the detail states. Nothing was computed.",
)
UNSUPPORTED_MEDIA_TYPE: Final = Kind(
    "unsupported-media-type",
    415,
    "The body is not sent in a form that is read here",
    "The Content-Type must be application/json, or for interval data text/csv or application/xml, with no charset but "
    "utf-8 and no content encoding.",
)
INVALID_REQUEST: Final = Kind(
    "invalid-request",
    422,
    "The request does not fit the published schema",
    "Each entry of errors names one place, what was given there and what is allowed. Facts that fit the "
    "schema but contradict each other are no problem of this type: they are answered, as findings.",
)
OVER_CAPACITY: Final = Kind(
    "over-capacity",
    429,
    "Too many requests at once",
    "The service works on as many requests as it is set to, or holds as many long bodies as it has room for. "
    "Repeat the request after the time that Retry-After states: nothing was computed and nothing is kept.",
)
INTERNAL_ERROR: Final = Kind(
    "internal-error",
    500,
    "The service failed",
    "This is a fault of the service, not of the request. Report it with the request id, under which the "
    "service's own log holds the cause.",
)
DRAINING: Final = Kind(
    "draining",
    503,
    "The service is shutting down",
    "This process finishes what it has begun and takes nothing new. Repeat the request after the time that "
    "Retry-After states.",
)

KINDS: Final[Mapping[str, Kind]] = {
    kind.slug: kind
    for kind in (
        INVALID_JSON,
        UNREADABLE_BODY,
        UNAUTHORIZED,
        HOST_NOT_ALLOWED,
        NOT_FOUND,
        METHOD_NOT_ALLOWED,
        NOT_ACCEPTABLE,
        BODY_TOO_LARGE,
        UNSUPPORTED_MEDIA_TYPE,
        INVALID_REQUEST,
        OVER_CAPACITY,
        INTERNAL_ERROR,
        DRAINING,
    )
}


class InvalidField(BaseModel):
    """One place in the request that does not fit the schema."""

    model_config = ConfigDict(frozen=True)

    pointer: Annotated[
        str,
        Field(
            description="Where: an RFC 6901 JSON pointer into the body (empty for the body itself), or "
            "'query:name' or "
            "'path:name' for a parameter."
        ),
    ]
    message: Annotated[
        str, Field(description="What is wrong, in one sentence, with a suggestion where one is near.")
    ]
    code: Annotated[
        str,
        Field(
            description="What is wrong, for programs: missing, unknown-field, not-an-allowed-value, "
            "wrong-type, "
            "out-of-range, wrong-length, wrong-format or invalid. More may come."
        ),
    ]
    given: Annotated[
        str | int | float | bool | None,
        Field(
            description="What was given, cut after 200 characters; an object or a list is only described. "
            "Null where "
            "nothing was given."
        ),
    ]
    allowed: Annotated[
        list[str],
        Field(
            description="What is allowed: each value of a closed list, or a phrase such as 'a number, at "
            "least 0'."
        ),
    ]


class Problem(BaseModel):
    """An RFC 9457 problem document."""

    model_config = ConfigDict(frozen=True)

    type: Annotated[str, Field(description="Which kind of problem: a stable reference, /problems/<slug>.")]
    title: Annotated[str, Field(description="The kind of problem in words, the same every time.")]
    status: Annotated[int, Field(description="The HTTP status code.")]
    detail: Annotated[str, Field(description="What happened this time.")]
    instance: Annotated[str | None, Field(description="The path that was asked for; null outside HTTP.")]
    errors: Annotated[
        list[InvalidField],
        Field(description="The places that do not fit the schema; empty for other problems."),
    ]


class ProblemError(Exception):
    """Raised anywhere below the application to answer with a problem.

    ``headers`` are sent with the answer (``Allow``, ``Retry-After``, ``WWW-Authenticate``).
    """

    def __init__(
        self,
        kind: Kind,
        detail: str,
        *,
        errors: Sequence[InvalidField] = (),
        headers: Mapping[str, str] | None = None,
    ) -> None:
        """Say what happened this time, in ``detail``."""
        super().__init__(detail)
        self.kind = kind
        self.detail = detail
        self.errors = tuple(errors)
        self.headers = dict(headers or {})

    def problem(self, path: str | None = None) -> Problem:
        """The problem document; ``path`` is cut to what may be echoed, and becomes a reference (RFC 3986)."""
        return Problem(
            type=self.kind.type,
            title=self.kind.title,
            status=self.kind.status,
            detail=self.detail,
            instance=None if path is None else quote(path[:LONGEST_INPUT], safe=_IN_PATHS),
            errors=list(self.errors),
        )

    def response(self, path: str) -> Response:
        """The problem as an HTTP response to what asked for ``path``, the decoded one of the ASGI scope."""
        return _ProblemResponse(
            self.problem(path).model_dump_json(),
            status_code=self.kind.status,
            headers=self.headers,
            media_type=MEDIA_TYPE,
            slug=self.kind.slug,
        )


class _ProblemResponse(Response):
    """A response that also tells the layers around it which type of problem it is."""

    def __init__(
        self, content: str, *, status_code: int, headers: Mapping[str, str], media_type: str, slug: str
    ) -> None:
        super().__init__(content, status_code, headers, media_type)
        self._slug = slug

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        scope[SCOPE_KEY] = self._slug
        await super().__call__(scope, receive, send)


def problem_of(scope: Scope) -> str | None:
    """The type of the problem that a request was answered with, without /problems/; None for an answer."""
    slug: str | None = scope.get(SCOPE_KEY)
    return slug
