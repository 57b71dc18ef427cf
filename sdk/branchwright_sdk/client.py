"""The two clients: what they are set up with, how long they live, and views of them with other options."""

from __future__ import annotations

import dataclasses
import os
import re
from collections.abc import Mapping
from types import TracebackType
from typing import Self

import httpx

from .errors import API_KEY_VARIABLE, NotConfigured
from .resources import AsyncResources, Resources
from .retries import Pacing
from .transport import AsyncTransport, Settings, Transport
from .version import __version__

_BASE_URL_VARIABLE = "BRANCHWRIGHT_BASE_URL"
_TIMEOUT_S = 10.0
_CONNECT_TIMEOUT_S = 2.0
_MAX_RETRIES = 2


class Client(Resources):
    """Asks a Branchwright service; each resource is an attribute: `client.circuits.design(...)`.

    `base_url` and `api_key` come from BRANCHWRIGHT_BASE_URL and BRANCHWRIGHT_API_KEY where they are not
    given; a service without keys needs none. `timeout` is in seconds and bounds each wait for the service
    (connecting at most 2 s of it), or an httpx.Timeout. `max_retries` bounds the repetitions of a question
    (see `branchwright_sdk.retries`). `headers` are sent with every request. An `http_client` that is passed
    in stays the caller's to close.

    Use it as a context manager, or call `close()`. It may be shared between threads. Raises NotConfigured
    for settings that cannot work; every method raises BranchwrightError alone.
    """

    def __init__(
        self,
        base_url: str | None = None,
        api_key: str | None = None,
        *,
        timeout: float | httpx.Timeout = _TIMEOUT_S,
        max_retries: int = _MAX_RETRIES,
        headers: Mapping[str, str] | None = None,
        http_client: httpx.Client | None = None,
        pacing: Pacing | None = None,
    ) -> None:
        """Set up the client; nothing is sent yet."""
        base_url = base_url or os.environ.get(_BASE_URL_VARIABLE)
        api_key = api_key or os.environ.get(API_KEY_VARIABLE)
        settings = _settings(base_url, api_key, timeout, max_retries, headers, pacing)
        self._transport = Transport(http_client or httpx.Client(), settings)
        self._closes = http_client is None
        super().__init__(self._transport)

    @staticmethod
    def embedded(
        *, timeout: float | httpx.Timeout = _TIMEOUT_S, headers: Mapping[str, str] | None = None
    ) -> Client:
        """Return a client of a service of its own that runs in this process: no server, no port, no key.

        It answers as a service does that was started without any setting. No variable of the environment is
        read, neither the SDK's nor the service's. It works in any thread, whether or not an event loop runs
        there, such as a notebook's; the service has a thread of its own until the client is closed, and more for
        questions that take longer. `timeout` bounds the wait for an answer: some milliseconds for a circuit, seconds
        for years of meter data. Nothing is asked again.

        Raises NotConfigured where the service is not installed beside the SDK.
        """
        from .embedded import ADDRESS, Blocking, in_process

        settings = _settings(ADDRESS, None, timeout, 0, headers, None)
        return Client._over(Transport(httpx.Client(transport=Blocking(in_process())), settings), closes=True)

    def with_options(
        self,
        *,
        timeout: float | httpx.Timeout | None = None,
        max_retries: int | None = None,
        headers: Mapping[str, str] | None = None,
    ) -> Client:
        """Return a view of this client with other options; it shares the connections and closes nothing."""
        settings = _changed(self._transport.settings, timeout, max_retries, headers)
        return Client._over(dataclasses.replace(self._transport, settings=settings), closes=False)

    @staticmethod
    def _over(transport: Transport, closes: bool) -> Client:
        client = Client.__new__(Client)
        client._transport = transport
        client._closes = closes
        Resources.__init__(client, transport)
        return client

    def close(self) -> None:
        """Close the connections, unless they were passed in."""
        if self._closes:
            self._transport.http.close()

    def __enter__(self) -> Self:
        """Return the client."""
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        """Close the client."""
        self.close()

    def __repr__(self) -> str:
        """Return the address, never the key."""
        return f"Client({self._transport.settings.base_url!r})"


class AsyncClient(AsyncResources):
    """Asks a Branchwright service from asyncio: `await client.circuits.design(...)`.

    Takes what `Client` takes, save that an `http_client` is an httpx.AsyncClient. Use it as an asynchronous
    context manager, or await `close()`.
    """

    def __init__(
        self,
        base_url: str | None = None,
        api_key: str | None = None,
        *,
        timeout: float | httpx.Timeout = _TIMEOUT_S,
        max_retries: int = _MAX_RETRIES,
        headers: Mapping[str, str] | None = None,
        http_client: httpx.AsyncClient | None = None,
        pacing: Pacing | None = None,
    ) -> None:
        """Set up the client; nothing is sent yet."""
        base_url = base_url or os.environ.get(_BASE_URL_VARIABLE)
        api_key = api_key or os.environ.get(API_KEY_VARIABLE)
        settings = _settings(base_url, api_key, timeout, max_retries, headers, pacing)
        self._transport = AsyncTransport(http_client or httpx.AsyncClient(), settings)
        self._closes = http_client is None
        super().__init__(self._transport)

    @staticmethod
    def embedded(*, headers: Mapping[str, str] | None = None) -> AsyncClient:
        """Return a client of a service of its own that runs in this process: no server, no port, no key.

        As `Client.embedded`, save that answers about circuits are computed on the caller's event loop, which takes
        some milliseconds each; other tasks get their turn between two questions. Those about services, which take
        longer, come from the loop's threads. There is no timeout.

        Raises NotConfigured where the service is not installed beside the SDK.
        """
        from .embedded import ADDRESS, in_process

        settings = _settings(ADDRESS, None, _TIMEOUT_S, 0, headers, None)
        return AsyncClient._over(
            AsyncTransport(httpx.AsyncClient(transport=in_process()), settings), closes=True
        )

    def with_options(
        self,
        *,
        timeout: float | httpx.Timeout | None = None,
        max_retries: int | None = None,
        headers: Mapping[str, str] | None = None,
    ) -> AsyncClient:
        """Return a view of this client with other options; it shares the connections and closes nothing."""
        settings = _changed(self._transport.settings, timeout, max_retries, headers)
        return AsyncClient._over(dataclasses.replace(self._transport, settings=settings), closes=False)

    @staticmethod
    def _over(transport: AsyncTransport, closes: bool) -> AsyncClient:
        client = AsyncClient.__new__(AsyncClient)
        client._transport = transport
        client._closes = closes
        AsyncResources.__init__(client, transport)
        return client

    async def close(self) -> None:
        """Close the connections, unless they were passed in."""
        if self._closes:
            await self._transport.http.aclose()

    async def __aenter__(self) -> Self:
        """Return the client."""
        return self

    async def __aexit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        """Close the client."""
        await self.close()

    def __repr__(self) -> str:
        """Return the address, never the key."""
        return f"AsyncClient({self._transport.settings.base_url!r})"


def _settings(
    base_url: str | None,
    api_key: str | None,
    timeout: float | httpx.Timeout,
    max_retries: int,
    headers: Mapping[str, str] | None,
    pacing: Pacing | None,
) -> Settings:
    own = {"user-agent": f"branchwright-sdk/{__version__}"}
    if api_key:
        if not re.fullmatch("[!-~]+", api_key):
            raise NotConfigured("api_key must be printable ASCII without spaces")
        own["authorization"] = f"Bearer {api_key}"
    return Settings(
        base_url=_address(base_url),
        headers={**own, **_headers(headers)},
        timeout=_timeout(timeout),
        max_retries=_retries(max_retries),
        pacing=pacing or Pacing(),
    )


def _changed(
    settings: Settings,
    timeout: float | httpx.Timeout | None,
    max_retries: int | None,
    headers: Mapping[str, str] | None,
) -> Settings:
    return dataclasses.replace(
        settings,
        timeout=settings.timeout if timeout is None else _timeout(timeout),
        max_retries=settings.max_retries if max_retries is None else _retries(max_retries),
        headers={**settings.headers, **_headers(headers)},
    )


def _address(base_url: str | None) -> str:
    if not base_url:
        raise NotConfigured(f"no base_url: pass one, or set {_BASE_URL_VARIABLE}")
    try:
        url = httpx.URL(base_url)
    except httpx.InvalidURL as error:
        raise NotConfigured(f"base_url {base_url!r} is not an address: {error}") from error
    if url.scheme not in ("http", "https") or not url.host or url.userinfo or url.query or url.fragment:
        raise NotConfigured("base_url must be http:// or https:// with a host, no user, query, fragment")
    return base_url.rstrip("/")


def _timeout(timeout: float | httpx.Timeout) -> httpx.Timeout:
    if isinstance(timeout, httpx.Timeout):
        return timeout
    if not timeout > 0:
        raise NotConfigured(f"timeout must be more than 0 seconds, not {timeout!r}")
    return httpx.Timeout(timeout, connect=min(timeout, _CONNECT_TIMEOUT_S))


def _retries(max_retries: int) -> int:
    if max_retries < 0:
        raise NotConfigured(f"max_retries must be 0 or more, not {max_retries!r}")
    return max_retries


def _headers(headers: Mapping[str, str] | None) -> dict[str, str]:
    """Return the headers by lower-case name. The values may be secret, so no message shows them."""
    for name, value in (headers or {}).items():
        if not re.fullmatch(r"[\w!#$%&'*+.^`|~-]+", name, re.ASCII):
            raise NotConfigured(f"{name!r} is not the name of a header")
        if not re.fullmatch(r"[!-~]([ \t!-~]*[!-~])?", value):
            raise NotConfigured(f"the value of header {name} must be printable ASCII, not blank at its ends")
    return {name.lower(): value for name, value in (headers or {}).items()}
