"""The switch for traces: off, nothing of OpenTelemetry's SDK is loaded; on, it must be installed and usable."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING, Final

from branchwright.http_api.settings import PREFIX, Settings, SettingsError

if TYPE_CHECKING:
    from branchwright.http_api.spans import Tracing

EXTRA: Final = "telemetry"

_ENDPOINTS: Final = ("OTEL_EXPORTER_OTLP_TRACES_ENDPOINT", "OTEL_EXPORTER_OTLP_ENDPOINT")
_PROTOCOLS: Final = ("OTEL_EXPORTER_OTLP_TRACES_PROTOCOL", "OTEL_EXPORTER_OTLP_PROTOCOL")
_ONLY_PROTOCOL: Final = "http/protobuf"


def start_tracing(settings: Settings) -> Tracing | None:
    """What makes and sends the traces of one process; None where they are switched off.

    Raises:
        SettingsError: where they are switched on and the extra is not installed, or an OTEL_... variable of the
            sending cannot be used.
    """
    if not settings.tracing:
        return None
    try:
        from branchwright.http_api.spans import Tracing
    except ModuleNotFoundError as error:
        if error.name is None or not error.name.startswith("opentelemetry"):
            raise
        raise SettingsError(
            f"{PREFIX}TRACING: traces need the service's extra '{EXTRA}', which is not installed. Install it, "
            f"as in pip install '.[{EXTRA}]', or switch traces off."
        ) from None
    _require_http()
    try:
        return Tracing()
    except ValueError as error:
        raise SettingsError(f"OTEL_... variables, which say how traces are sent: {error}") from error


def require_tracing(settings: Settings) -> None:
    """Raise SettingsError, as ``start_tracing`` does, where traces are switched on and cannot be sent."""
    tracing = start_tracing(settings)
    if tracing is not None:
        tracing.stop()


def _require_http() -> None:
    # An empty variable counts as one that is not set (OpenTelemetry, environment variable specification).
    for name in _PROTOCOLS:
        if (os.environ.get(name) or _ONLY_PROTOCOL) != _ONLY_PROTOCOL:
            raise SettingsError(f"{name}: traces are sent by {_ONLY_PROTOCOL} only.")
    for name in _ENDPOINTS:
        if not (os.environ.get(name) or "http://").lower().startswith(("http://", "https://")):
            raise SettingsError(f"{name}: an address that starts with http:// or https:// is needed.")
