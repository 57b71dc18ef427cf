"""Reading the path of a request as the router reads it."""

from __future__ import annotations

from starlette.types import Scope


def own_path(scope: Scope) -> str:
    """The path without the prefix under which the application may be mounted or served."""
    path: str = scope["path"]
    mounted_at: str = scope.get("root_path", "")
    return path[len(mounted_at) :] if mounted_at and path.startswith(f"{mounted_at}/") else path


def is_contract_path(scope: Scope) -> bool:
    """Whether a request is for something under /v1: there a key is needed and work is limited."""
    path = own_path(scope)
    return path == "/v1" or path.startswith("/v1/")
