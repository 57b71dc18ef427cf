"""Everything the SDK raises: one root, and a class for each way in which a question can go unanswered.

Nothing of httpx or pydantic is raised by a client; their exceptions are kept as the `__cause__`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

API_KEY_VARIABLE = "BRANCHWRIGHT_API_KEY"


class BranchwrightError(Exception):
    """The root of every error that a client raises."""


class NotConfigured(BranchwrightError):
    """The client cannot be used as it was set up.

    It has no address, an unusable key or header, or no service to embed; or it is closed already.
    """


class ConnectionFailed(BranchwrightError):
    """The service could not be reached, or the connection broke before it answered."""


class TimedOut(BranchwrightError):
    """The service was reached but did not answer in time."""


class UnexpectedAnswer(BranchwrightError):
    """What came back is not what the contract says: perhaps another program answers at this address.

    `status` is the HTTP status, or None where the response could not be read so far; `request_id` is the
    X-Request-ID of the response, or None.
    """

    def __init__(self, detail: str, status: int | None = None, request_id: str | None = None) -> None:
        """Say what was wrong with which response."""
        super().__init__(detail, status, request_id)
        self.detail = detail
        self.status = status
        self.request_id = request_id

    def __str__(self) -> str:
        """Return the detail with the status and the id of the request."""
        request = f", request {self.request_id}" if self.request_id else ""
        return f"{self.detail} (status {self.status}{request})"


@dataclass(frozen=True, slots=True)
class FieldError:
    """One thing that is wrong with a request.

    `pointer` is the JSON Pointer (RFC 6901) of the field in the body, or "path:name" or "query:name" for a
    parameter. `code` says what is wrong in a stable word: missing, unknown-field, not-an-allowed-value,
    wrong-type, out-of-range, wrong-length, wrong-format, invalid; more may come. `given` is what the field
    held, and `allowed` each value that it may hold or a phrase that says so, where they are known.
    """

    pointer: str
    message: str
    code: str
    given: object = None
    allowed: tuple[str, ...] = ()

    def __str__(self) -> str:
        """Return the pointer and the message."""
        return f"{self.pointer or 'the request'}: {self.message}"


class Problem(BranchwrightError):
    """The service answered with a problem (RFC 9457).

    `status`, `type`, `title`, `detail` and `instance` are the problem's own members, `errors` says what is
    wrong with which field, and `request_id` finds the request in the service's log.
    """

    def __init__(
        self,
        status: int,
        title: str,
        *,
        type: str = "about:blank",
        detail: str | None = None,
        instance: str | None = None,
        errors: Sequence[FieldError] = (),
        request_id: str | None = None,
    ) -> None:
        """Take the members of the problem."""
        super().__init__(status, title)
        self.status = status
        self.title = title
        self.type = type
        self.detail = detail
        self.instance = instance
        self.errors: tuple[FieldError, ...] = tuple(errors)
        self.request_id = request_id

    def __str__(self) -> str:
        """Return status, title and detail, then each error on its own line."""
        detail = f": {self.detail}" if self.detail else ""
        named = self.request_id and self.request_id not in detail
        request = f" (request {self.request_id})" if named else ""
        return "\n  ".join([f"{self.status} {self.title}{detail}{request}", *map(str, self.errors)])


class InvalidRequest(Problem):
    """The request breaks the contract: 400 or 422.

    The SDK raises the same error itself, before anything is sent, for what its request models can tell; then
    `request_id` is None and `type` is "about:blank".
    """

    @classmethod
    def before_sending(cls, *errors: FieldError) -> InvalidRequest:
        """Return the error for what the SDK found itself."""
        return cls(422, "The request breaks the contract", detail="found before sending", errors=errors)


class NotAuthenticated(Problem):
    """The key is missing, unknown or no longer in force: 401."""

    def __str__(self) -> str:
        """Return the problem, and where a key goes."""
        return f"{super().__str__()}\n  A key is passed as api_key, or set as {API_KEY_VARIABLE}."


class NotAllowed(Problem):
    """The key does not permit this question: 403."""


class NotFound(Problem):
    """There is nothing under this name: 404."""


class TooManyRequests(Problem):
    """The service is over its limit, and stayed so through the retries: 429."""


class ServiceFailed(Problem):
    """The service, or a gateway before it, failed: 5xx."""


def problem_class(status: int) -> type[Problem]:
    """Return the class of the problem with an HTTP status."""
    if status >= 500:
        return ServiceFailed
    by_status: dict[int, type[Problem]] = {
        400: InvalidRequest,
        401: NotAuthenticated,
        403: NotAllowed,
        404: NotFound,
        422: InvalidRequest,
        429: TooManyRequests,
    }
    return by_status.get(status, Problem)
