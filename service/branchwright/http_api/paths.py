"""Reading the path of a request as the router reads it."""

from __future__ import annotations

from typing import Final

from starlette.types import Scope

METRICS_PATH: Final = "/metrics"


def own_path(scope: Scope) -> str:
    """The path without the prefix under which the application may be mounted or served."""
    path: str = scope["path"]
    mounted_at: str = scope.get("root_path", "")
    return path[len(mounted_at) :] if mounted_at and path.startswith(f"{mounted_at}/") else path


def is_contract_path(scope: Scope) -> bool:
    """Whether a request is for something under /v1: there work is limited and counted."""
    path = own_path(scope)
    return path == "/v1" or path.startswith("/v1/")


def is_keyed_path(scope: Scope) -> bool:
    """Whether a request needs a key where keys are configured: under /v1, and for the metrics."""
    return is_contract_path(scope) or own_path(scope) == METRICS_PATH
