"""The signal to stop marks the application as draining and then reaches whoever handled it before."""

import asyncio
import os
import signal
import threading

import pytest

from branchwright.http_api.app import create_app
from branchwright.http_api.draining import drain_on_sigterm
from branchwright.http_api.settings import Settings


@pytest.fixture
def received():
    """The signals that the handler before was given; it stands in for the server's own."""
    seen = []
    before = signal.signal(signal.SIGTERM, lambda number, frame: seen.append(number))
    yield seen
    signal.signal(signal.SIGTERM, before)


def test_sigterm_drains_and_is_passed_on(received):
    app = create_app(Settings())
    before = signal.getsignal(signal.SIGTERM)

    async def live_and_stop():
        async with drain_on_sigterm(app):
            assert not app.state.draining
            os.kill(os.getpid(), signal.SIGTERM)
            await asyncio.sleep(0)
            assert app.state.draining

    asyncio.run(live_and_stop())
    assert received == [signal.SIGTERM]
    assert signal.getsignal(signal.SIGTERM) is before


def test_an_ignored_signal_stays_ignored():
    app = create_app(Settings())
    before = signal.signal(signal.SIGTERM, signal.SIG_IGN)
    try:

        async def live_on():
            async with drain_on_sigterm(app):
                os.kill(os.getpid(), signal.SIGTERM)
                await asyncio.sleep(0)

        asyncio.run(live_on())
        assert app.state.draining
    finally:
        signal.signal(signal.SIGTERM, before)


def test_an_embedded_application_leaves_signals_alone(received):
    app = create_app(Settings())
    before = signal.getsignal(signal.SIGTERM)

    async def live():
        async with drain_on_sigterm(app):
            assert signal.getsignal(signal.SIGTERM) is before

    thread = threading.Thread(target=lambda: asyncio.run(live()))
    thread.start()
    thread.join(10)
    assert received == []
