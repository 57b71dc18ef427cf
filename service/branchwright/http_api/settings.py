"""What can be set from outside: environment variables that start with ``BRANCHWRIGHT_``."""

from __future__ import annotations

import re
from typing import Annotated, Final, Literal, cast

from pydantic import Field, ValidationError, field_validator
from pydantic_settings import BaseSettings, NoDecode, SettingsConfigDict

PREFIX: Final = "BRANCHWRIGHT_"
MOST_ACTIVE_KEYS: Final = 2
"""Two keys may be active at once, so that one can be replaced without a gap."""

_SHA256_HEX = re.compile(r"[0-9a-f]{64}")
# As a browser writes an origin (RFC 6454, section 6): a name in lower case or an address, no default port, no path.
_ORIGIN = re.compile(r"(?P<scheme>https?)://(?:[a-z0-9.-]+|\[[0-9a-f:.]+\])(?::(?P<port>[1-9]\d{0,4}))?")
_DEFAULT_PORTS: Final = {"http": "80", "https": "443"}


class SettingsError(Exception):
    """The environment holds a setting that cannot be used. The text names the variable, never its value."""


class Settings(BaseSettings):
    """The settings of one service process. Each is read from ``BRANCHWRIGHT_<NAME>``."""

    model_config = SettingsConfigDict(env_prefix=PREFIX, frozen=True, extra="ignore", validate_default=True)

    host: Annotated[str, Field(min_length=1, description="Address to listen on.")] = "127.0.0.1"
    port: Annotated[int, Field(ge=0, le=65535, description="Port to listen on; 0 takes a free one.")] = 8000
    workers: Annotated[int, Field(ge=1, le=256, description="Worker processes.")] = 1
    api_key_hashes: Annotated[
        tuple[str, ...],
        NoDecode,
        Field(
            description="SHA-256 hashes (hexadecimal) of the keys in force, at most two, separated by commas."
        ),
    ] = ()
    allow_anonymous: Annotated[
        bool, Field(description="Answer requests without a key on any address. Off: loopback only.")
    ] = False
    concurrency_limit: Annotated[
        int | None,
        Field(
            ge=1,
            description="Requests under /v1 that one worker answers at once; more get 429. Unset: no limit.",
        ),
    ] = None
    cors_origins: Annotated[
        tuple[str, ...],
        NoDecode,
        Field(
            description="Origins whose pages a browser lets read the answers, such as https://tool.example, "
            "separated by commas. Not set: no page but the service's own."
        ),
    ] = ()
    body_limit_bytes: Annotated[int, Field(ge=1, description="Longest request body, in bytes.")] = 1024 * 1024
    interval_data_limit_bytes: Annotated[
        int,
        Field(
            ge=1,
            description="Longest request body with interval data, in bytes. One worker holds at most four times as "
            "much of such bodies at once; more get 429.",
        ),
    ] = 32 * 1024 * 1024
    drain_seconds: Annotated[
        int, Field(ge=0, description="How long requests in flight may take after the signal to stop.")
    ] = 30
    log_level: Annotated[
        Literal["debug", "info", "warning", "error", "critical"],
        Field(description="Least level that is logged."),
    ] = "info"
    tracing: Annotated[
        bool,
        Field(
            description="Send traces to an OpenTelemetry collector. Needs the extra 'telemetry'; where they go is "
            "read from the usual OTEL_... variables."
        ),
    ] = False

    @field_validator("api_key_hashes", "cors_origins", mode="before")
    @classmethod
    def _split(cls, value: object) -> object:
        return tuple(part for part in re.split(r"[,\s]+", value) if part) if isinstance(value, str) else value

    @field_validator("api_key_hashes")
    @classmethod
    def _check_hashes(cls, value: tuple[str, ...]) -> tuple[str, ...]:
        if len(value) > MOST_ACTIVE_KEYS:
            raise ValueError(f"at most {MOST_ACTIVE_KEYS} key hashes may be active, {len(value)} were given")
        for position, digest in enumerate(value, start=1):
            if _SHA256_HEX.fullmatch(digest) is None:
                raise ValueError(f"hash {position} is not a SHA-256 hash: 64 digits of 0-9a-f are needed")
        return value

    @field_validator("cors_origins")
    @classmethod
    def _check_origins(cls, value: tuple[str, ...]) -> tuple[str, ...]:
        for position, origin in enumerate(value, start=1):
            if origin in {"*", "null"}:
                raise ValueError(f"origin {position} stands for any page; name each origin that may ask")
            found = _ORIGIN.fullmatch(origin)
            if found is None or found["port"] == _DEFAULT_PORTS[found["scheme"]]:
                raise ValueError(
                    f"origin {position} is not an origin as browsers write it: http:// or https://, the host in "
                    "lower case and the port unless it is the usual one are needed, and nothing after them"
                )
        return value


def load(**given: object) -> Settings:
    """The settings from the environment, but for those that are ``given`` by name.

    Raises:
        SettingsError: naming each variable that cannot be used and what it may hold.
    """
    try:
        return Settings.model_validate(given)
    except ValidationError as error:
        reasons = [
            f"{PREFIX}{'_'.join(str(part) for part in detail['loc']).upper()}: {detail['msg']}"
            for detail in error.errors(include_url=False, include_input=False)
        ]
        raise SettingsError("\n".join(reasons)) from None


def as_environment(settings: Settings) -> dict[str, str]:
    """The environment variables from which ``load`` reads these settings again."""
    values = settings.model_dump(exclude_none=True)
    return {f"{PREFIX}{name.upper()}": _as_variable(value) for name, value in values.items()}


def _as_variable(value: object) -> str:
    if isinstance(value, tuple):
        return ",".join(str(item) for item in cast("tuple[object, ...]", value))
    return str(value)
