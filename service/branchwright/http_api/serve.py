"""Running the service: uvicorn with uvloop and httptools, JSON log lines, and no open door by accident."""

from __future__ import annotations

import ipaddress
import logging
import os
import tempfile
from typing import Any, Final

import uvicorn

from branchwright.http_api.heads import BoundedHeads
from branchwright.http_api.metrics import SHARED_FOLDER_VARIABLE
from branchwright.http_api.settings import Settings, as_environment
from branchwright.http_api.telemetry import JsonLines
from branchwright.http_api.tracing import require_tracing

_FACTORY: Final = "branchwright.http_api.app:create_app"
_LOOPBACK_NAME: Final = "localhost"
_FOLDER_PREFIX: Final = "branchwright-metrics-"


class UnsafeAddressError(Exception):
    """The service would be open to others without a key. The text says what to do instead."""


class NoFolderError(Exception):
    """There is nowhere to keep what several processes count. The text says what to do instead."""


def serve(settings: Settings) -> None:
    """Serve until told to stop.

    Each worker process reads its settings from the environment, so these are put there first.

    Raises:
        UnsafeAddressError: for an address other than loopback without keys, unless anonymous use is allowed.
        SettingsError: where traces are switched on and cannot be sent.
        NoFolderError: where several processes find no temporary folder for what they count.
    """
    require_safe_address(settings)
    require_tracing(settings)
    os.environ.update(as_environment(settings))
    # Never a folder from outside: it may hold the counts of an earlier run.
    os.environ.pop(SHARED_FOLDER_VARIABLE, None)
    options = uvicorn_options(settings)
    if settings.workers == 1:
        uvicorn.run(**options)
        return
    # Here and not above, because it loads the library that counts, which one process must not do yet: it would
    # still see the variable from outside.
    from branchwright.http_api.workers import run_workers

    config = uvicorn.Config(**options)
    try:
        folder = tempfile.TemporaryDirectory(prefix=_FOLDER_PREFIX)
    except OSError as error:
        raise NoFolderError(
            f"Several worker processes share what they count in a temporary folder, and none can be made: {error}. "
            "Set TMPDIR to a folder that can be written, or serve with one worker."
        ) from error
    with folder as shared_folder:
        os.environ[SHARED_FOLDER_VARIABLE] = shared_folder
        run_workers(config, shared_folder)


def require_safe_address(settings: Settings) -> None:
    """Raise UnsafeAddressError where settings would let anyone in by accident."""
    if settings.api_key_hashes or settings.allow_anonymous or _is_loopback(settings.host):
        return
    raise UnsafeAddressError(
        f"Without API keys the service listens on a loopback address only, and {settings.host} is none. "
        "Create a key with 'branchwright keys create' and set BRANCHWRIGHT_API_KEY_HASHES, or allow use "
        "without a key with --allow-anonymous."
    )


def uvicorn_options(settings: Settings) -> dict[str, Any]:
    """The keyword arguments of ``uvicorn.run``."""
    return {
        "app": _FACTORY,
        "factory": True,
        "host": settings.host,
        "port": settings.port,
        "workers": settings.workers,
        "loop": "uvloop",
        "http": BoundedHeads,
        "ws": "none",
        "lifespan": "on",
        "server_header": False,
        # Nothing here asks who the client is or which scheme a proxy was asked for.
        "proxy_headers": False,
        # The application writes its own access log, with request ids and without what was asked.
        "access_log": False,
        "log_config": log_configuration(settings),
        "timeout_graceful_shutdown": settings.drain_seconds,
    }


def log_configuration(settings: Settings) -> dict[str, Any]:
    """Everything that is logged, as JSON lines on standard error."""
    level = logging.getLevelNamesMapping()[settings.log_level.upper()]
    return {
        "version": 1,
        "disable_existing_loggers": False,
        "formatters": {"json": {"()": f"{JsonLines.__module__}.{JsonLines.__name__}"}},
        "handlers": {"stderr": {"class": "logging.StreamHandler", "formatter": "json"}},
        "root": {"level": level, "handlers": ["stderr"]},
    }


def _is_loopback(host: str) -> bool:
    if host == _LOOPBACK_NAME:
        return True
    try:
        return ipaddress.ip_address(host).is_loopback
    except ValueError:
        return False
