"""Asks one question over HTTP, again where that helps, and settles the response. Shared by both clients."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, cast
from urllib.parse import quote

import httpx

from .answers import AnswerT, RawResponse, problem
from .bodies import OMITTED, Source, contents, encoded
from .errors import (
    BranchwrightError,
    ConnectionFailed,
    FieldError,
    InvalidRequest,
    NotConfigured,
    TimedOut,
    UnexpectedAnswer,
)
from .retries import RETRIED_STATUSES, Pacing

if TYPE_CHECKING:
    from pydantic import BaseModel

_CLOSED = "the client is closed"
_JSON = "application/json"


@dataclass(frozen=True)
class Settings:
    """How a client asks: where, as whom, for how long, how often.

    The headers, by lower-case name, hold the key, so they are never shown.
    """

    base_url: str
    headers: Mapping[str, str] = field(repr=False)
    timeout: httpx.Timeout
    max_retries: int
    pacing: Pacing = field(repr=False)

    def request(
        self,
        http: httpx.Client | httpx.AsyncClient,
        verb: str,
        template: str,
        path: Mapping[str, object],
        query: Mapping[str, object],
        content: bytes | None,
        media_type: str,
    ) -> httpx.Request:
        """Return the HTTP request of one question."""
        if http.is_closed:
            raise NotConfigured(_CLOSED)
        headers = {**self.headers, "accept": "application/json"}
        if content is not None:
            headers["content-type"] = media_type
        segments = {name: _segment(name, value) for name, value in path.items()}
        given = {name: value for name, value in query.items() if value is not OMITTED and value is not None}
        return http.build_request(
            verb,
            self.base_url + template.format_map(segments),
            params=cast("Mapping[str, str]", given) or None,
            content=content,
            headers=headers,
            timeout=self.timeout,
        )

    def wait_after(self, outcome: httpx.Response | BranchwrightError, attempt: int) -> float | None:
        """Return the seconds to wait before the next attempt, or None where this outcome is the last."""
        if attempt >= self.max_retries:
            return None
        if isinstance(outcome, ConnectionFailed):
            return self.pacing.wait_s(attempt)
        if isinstance(outcome, httpx.Response) and outcome.status_code in RETRIED_STATUSES:
            return self.pacing.wait_s(attempt, outcome.headers.get("Retry-After"))
        return None


@dataclass(frozen=True)
class Transport:
    """Asks over a blocking httpx client."""

    http: httpx.Client = field(repr=False)
    settings: Settings
    answers_raw: bool = False

    def raw(self) -> Transport:
        """Return the transport whose answers are raw responses."""
        return dataclasses.replace(self, answers_raw=True)

    def ask(
        self,
        verb: str,
        template: str,
        answer: type[AnswerT],
        *,
        path: Mapping[str, object] = {},
        query: Mapping[str, object] = {},
        body: object = None,
        request: type[BaseModel] | None = None,
        media_type: str = _JSON,
    ) -> AnswerT:
        """Return the answer to a question, or the raw response where that is wanted."""
        content = _content(body, request, media_type)
        question = self.settings.request(self.http, verb, template, path, query, content, media_type)
        attempt = 0
        while True:
            outcome: httpx.Response | BranchwrightError
            try:
                outcome = self.http.send(question, follow_redirects=False)
            except httpx.RequestError as error:
                outcome = _failure(error, self.settings.base_url)
                outcome.__cause__ = error
            except RuntimeError as error:
                if not self.http.is_closed:
                    raise
                raise NotConfigured(_CLOSED) from error
            wait_s = self.settings.wait_after(outcome, attempt)
            if wait_s is None:
                return _settled(outcome, answer, self.answers_raw)
            self.settings.pacing.sleep(wait_s)
            attempt += 1


@dataclass(frozen=True)
class AsyncTransport:
    """Asks over an asynchronous httpx client."""

    http: httpx.AsyncClient = field(repr=False)
    settings: Settings
    answers_raw: bool = False

    def raw(self) -> AsyncTransport:
        """Return the transport whose answers are raw responses."""
        return dataclasses.replace(self, answers_raw=True)

    async def ask(
        self,
        verb: str,
        template: str,
        answer: type[AnswerT],
        *,
        path: Mapping[str, object] = {},
        query: Mapping[str, object] = {},
        body: object = None,
        request: type[BaseModel] | None = None,
        media_type: str = _JSON,
    ) -> AnswerT:
        """Return the answer to a question, or the raw response where that is wanted."""
        content = await _content_later(body, request, media_type)
        question = self.settings.request(self.http, verb, template, path, query, content, media_type)
        attempt = 0
        while True:
            outcome: httpx.Response | BranchwrightError
            try:
                outcome = await self.http.send(question, follow_redirects=False)
            except httpx.RequestError as error:
                outcome = _failure(error, self.settings.base_url)
                outcome.__cause__ = error
            except RuntimeError as error:
                if not self.http.is_closed:
                    raise
                raise NotConfigured(_CLOSED) from error
            wait_s = self.settings.wait_after(outcome, attempt)
            if wait_s is None:
                return _settled(outcome, answer, self.answers_raw)
            await self.settings.pacing.sleep_async(wait_s)
            attempt += 1


def _content(body: object, request: type[BaseModel] | None, media_type: str) -> bytes | None:
    """Return the bytes of a body: of a JSON request, of a source in another form, or of none."""
    if media_type != _JSON:
        return contents(cast("Source", body))
    return encoded(request, body) if request else None


async def _content_later(body: object, request: type[BaseModel] | None, media_type: str) -> bytes | None:
    """Return the same, and let others run while a file is read."""
    if media_type == _JSON or isinstance(body, bytes):
        return _content(body, request, media_type)
    import asyncio  # blocking callers need not wait for its import

    return await asyncio.to_thread(_content, body, request, media_type)


def _segment(name: str, value: object) -> str:
    text = str(value)
    if text in ("", ".", ".."):  # these would lead to another path
        error = FieldError(f"path:{name}", "cannot be part of a path", "invalid", given=text)
        raise InvalidRequest.before_sending(error)
    return quote(text, safe="")


def _failure(error: httpx.RequestError, base_url: str) -> BranchwrightError:
    """Return what an httpx exception means; the text of httpx names no header, so no key either."""
    if isinstance(error, httpx.TimeoutException) and not isinstance(error, httpx.ConnectTimeout):
        return TimedOut(f"no answer in time from {base_url}: {type(error).__name__} {error}".rstrip())
    if isinstance(error, httpx.DecodingError):
        return UnexpectedAnswer(f"the content cannot be decoded: {error}")
    return ConnectionFailed(f"no connection to {base_url}: {type(error).__name__} {error}".rstrip())


def _settled(
    outcome: httpx.Response | BranchwrightError, answer: type[AnswerT], answers_raw: bool
) -> AnswerT:
    if isinstance(outcome, BranchwrightError):
        raise outcome
    if outcome.status_code >= 400:
        raise problem(outcome)
    response = RawResponse(outcome, answer)
    # The raw twins of the resources tell type checkers that they return RawResponse (answers.raw_method).
    return cast("AnswerT", response) if answers_raw else response.parse()
