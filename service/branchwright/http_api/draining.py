"""Shutting down without dropping anyone: SIGTERM marks the process as draining, then stops it as before."""

from __future__ import annotations

import contextlib
import signal
import threading
from collections.abc import AsyncGenerator
from types import FrameType
from typing import Final

from starlette.applications import Starlette

from branchwright.http_api.problems import DRAINING, ProblemError

# Common practice, no source: a restart takes some seconds.
_RETRY_AFTER_SECONDS: Final = 5


def refuse_while_draining(app: Starlette) -> None:
    """Raise the problem (503) once the process has been told to stop."""
    if app.state.draining:
        raise ProblemError(
            DRAINING, "This process is shutting down.", headers={"Retry-After": str(_RETRY_AFTER_SECONDS)}
        )


@contextlib.asynccontextmanager
async def drain_on_sigterm(app: Starlette) -> AsyncGenerator[None]:
    """Lifespan of the application: mark it as draining on SIGTERM, then call the handler that was there.

    That handler is the server's own, which closes the listening socket and lets requests in flight
    finish. Python takes signal handlers only in the main thread; elsewhere (an application embedded in
    another program) the signal is the host program's to handle.
    """
    if threading.current_thread() is not threading.main_thread():
        yield
        return
    previous = signal.getsignal(signal.SIGTERM)

    def drain(number: int, frame: FrameType | None) -> None:
        app.state.draining = True
        if callable(previous):
            previous(number, frame)
        elif previous is not signal.SIG_IGN:
            # The default action ends the process: give the signal back to it.
            signal.signal(number, signal.SIG_DFL)
            signal.raise_signal(number)

    signal.signal(signal.SIGTERM, drain)
    try:
        yield
    finally:
        if signal.getsignal(signal.SIGTERM) is drain:
            signal.signal(signal.SIGTERM, previous)
