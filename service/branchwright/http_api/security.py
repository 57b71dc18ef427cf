"""Who may ask: API keys, the guard for a service without keys, and the headers that browsers heed."""

from __future__ import annotations

import hashlib
import hmac
import secrets
from collections.abc import Sequence
from typing import Final

from starlette.types import ASGIApp, Message, Receive, Scope, Send

from branchwright.http_api.paths import is_keyed_path
from branchwright.http_api.problems import HOST_NOT_ALLOWED, UNAUTHORIZED, ProblemError
from branchwright.http_api.settings import Settings

_KEY_BYTES: Final = 32
_LOOPBACK_HOSTS: Final = frozenset({b"localhost", b"127.0.0.1", b"[::1]"})
_CHALLENGE: Final = 'Bearer realm="branchwright"'

_RESPONSE_HEADERS: Final[Sequence[tuple[bytes, bytes]]] = (
    (b"x-content-type-options", b"nosniff"),
    (b"x-frame-options", b"DENY"),
    (b"referrer-policy", b"no-referrer"),
)
_NO_STORE: Final = (b"cache-control", b"no-store")


def create_key() -> tuple[str, str]:
    """A new random API key and the hash to configure for it: ``(key, hash)``. The key is kept nowhere."""
    key = f"bw_{secrets.token_urlsafe(_KEY_BYTES)}"
    return key, hash_key(key.encode("ascii"))


def hash_key(key: bytes) -> str:
    """The SHA-256 hash of a key, in hexadecimal.

    A slow password hash protects secrets that can be guessed. These keys hold 256 random bits: they cannot be
    guessed from their hash however fast it is, and a slow hash would be paid on every request.
    """
    return hashlib.sha256(key).hexdigest()


class Gate:
    """ASGI middleware: lets in who has a key or, where there are no keys, who asks this very computer."""

    def __init__(self, app: ASGIApp, settings: Settings) -> None:
        """Wrap the application ``app``."""
        self._app = app
        self._hashes = settings.api_key_hashes
        self._loopback_only = not settings.api_key_hashes and not settings.allow_anonymous

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer 401 or 403, or hand the request on."""
        if scope["type"] == "http":
            refusal = self._refusal(scope)
            if refusal is not None:
                await refusal.response(scope["path"])(scope, receive, send)
                return
        await self._app(scope, receive, send)

    def _refusal(self, scope: Scope) -> ProblemError | None:
        if self._loopback_only and not _asks_loopback(scope):
            return ProblemError(
                HOST_NOT_ALLOWED,
                "Without keys this service answers only requests whose Host is localhost, 127.0.0.1 or "
                "[::1].",
            )
        if self._hashes and is_keyed_path(scope):
            return self._key_refusal([value for name, value in scope["headers"] if name == b"authorization"])
        return None

    def _key_refusal(self, credentials: list[bytes]) -> ProblemError | None:
        if not credentials:
            return _unauthorized("No key was sent.", _CHALLENGE)
        scheme, _, key = credentials[0].partition(b" ")
        if len(credentials) > 1 or scheme.lower() != b"bearer":
            return _unauthorized("The Authorization header must be 'Bearer <key>'.", _CHALLENGE)
        digest = hash_key(key.strip())
        # Every hash is compared, each in constant time: how long a refusal takes tells nothing about a key.
        matches = [hmac.compare_digest(digest, known) for known in self._hashes]
        if not any(matches):
            return _unauthorized(
                "This key is not one of those in force.", f'{_CHALLENGE}, error="invalid_token"'
            )
        return None


class SecurityHeaders:
    """ASGI middleware: headers that keep browsers from sniffing, framing, leaking or storing an answer."""

    def __init__(self, app: ASGIApp) -> None:
        """Wrap the application ``app``."""
        self._app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Hand the request on and add the headers to its answer."""
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return

        async def send_guarded(message: Message) -> None:
            if message["type"] == "http.response.start":
                headers = [*message["headers"], *_RESPONSE_HEADERS]
                if not any(name == b"cache-control" for name, _ in headers):
                    headers.append(_NO_STORE)
                message = {**message, "headers": headers}
            await send(message)

        await self._app(scope, receive, send_guarded)


def _unauthorized(detail: str, challenge: str) -> ProblemError:
    return ProblemError(UNAUTHORIZED, detail, headers={"WWW-Authenticate": challenge})


def _asks_loopback(scope: Scope) -> bool:
    """Whether the one Host header names this computer.

    A page from elsewhere can point its own host name at 127.0.0.1 (DNS rebinding) and then reads what a local
    service answers; it cannot make the browser send a loopback name as Host.
    """
    hosts = [value for name, value in scope["headers"] if name == b"host"]
    if len(hosts) != 1:
        return False
    host = hosts[0].strip().lower()
    name, colon, port = host.rpartition(b":")
    if colon and port.isdigit():
        host = name
    return host in _LOOPBACK_HOSTS
