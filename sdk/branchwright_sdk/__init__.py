"""Branchwright from Python: typed questions about EV-charger circuits, over HTTP.

    from branchwright_sdk import Client

    with Client("http://127.0.0.1:8000") as client:
        answer = client.circuits.design(edition="nec-2023", supply={...}, charger={...}, ...)

`models` holds the pydantic models of requests and answers, `mappings` the shapes of the plain mappings that
may be passed instead. Importing this package loads neither: the models come with the first question.
"""

from importlib import import_module
from types import ModuleType
from typing import TYPE_CHECKING

from .answers import RawResponse
from .bodies import OMITTED, Omitted
from .client import AsyncClient, Client
from .errors import (
    BranchwrightError,
    ConnectionFailed,
    FieldError,
    InvalidRequest,
    NotAllowed,
    NotAuthenticated,
    NotConfigured,
    NotFound,
    Problem,
    ServiceFailed,
    TimedOut,
    TooManyRequests,
    UnexpectedAnswer,
)
from .retries import Pacing
from .version import __version__

if TYPE_CHECKING:
    from . import mappings, models

__all__ = [
    "OMITTED",
    "AsyncClient",
    "BranchwrightError",
    "Client",
    "ConnectionFailed",
    "FieldError",
    "InvalidRequest",
    "NotAllowed",
    "NotAuthenticated",
    "NotConfigured",
    "NotFound",
    "Omitted",
    "Pacing",
    "Problem",
    "RawResponse",
    "ServiceFailed",
    "TimedOut",
    "TooManyRequests",
    "UnexpectedAnswer",
    "__version__",
    "mappings",
    "models",
]


def __getattr__(name: str) -> ModuleType:
    """Load `models` or `mappings` when it is first asked for."""
    if name in ("mappings", "models"):
        return import_module(f".{name}", __name__)
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
