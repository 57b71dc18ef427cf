"""The service in this process: what stands behind `Client.embedded()` and `AsyncClient.embedded()`.

The service is a package of its own. It is imported here alone, and only when a client asks for it.
"""

from __future__ import annotations

import asyncio
import logging
import threading
import weakref
from concurrent.futures import CancelledError

import httpx

from .errors import NotConfigured

ADDRESS = "http://embedded.invalid"  # never looked up, and a name that leads nowhere (RFC 2606 section 2)

# Without a handler, Python prints what the service logs of its own faults on standard error. It is for the
# program around it to say where a log goes; the caller gets a problem with the id of the request.
logging.getLogger("branchwright").addHandler(logging.NullHandler())


def in_process() -> InProcess:
    """Return a transport to a new service. Raises NotConfigured where the service cannot be imported."""
    try:
        from branchwright.http_api.app import create_embedded_app
    except ImportError as error:
        raise NotConfigured(
            f"embedded() runs the service in this process, but it cannot be imported here ({error}): install "
            "it from your clone of the repository, 'pip install .' beside 'pip install ./sdk', or ask a "
            "running service with a base_url"
        ) from error
    # What the service raises after its answer has begun leaves that answer incomplete, as it does over HTTP.
    return InProcess(create_embedded_app(), raise_app_exceptions=False)


class InProcess(httpx.ASGITransport):
    """Answers by calling the application, on the event loop of whoever asks."""

    async def handle_async_request(self, request: httpx.Request) -> httpx.Response:
        """Return the application's response."""
        # The application computes and waits for nothing. Were it not for this, a loop over questions would
        # let no other task run, and could not be cancelled.
        await asyncio.sleep(0)
        return await super().handle_async_request(request)


class Blocking(httpx.BaseTransport):
    """Lets blocking callers ask an asynchronous transport, whatever their thread and what runs in it.

    The asynchronous one works on an event loop in a thread of its own. That thread ends with `close()`, else
    with the last reference to this transport, else with the interpreter.
    """

    def __init__(self, transport: httpx.AsyncBaseTransport) -> None:
        """Start the thread."""
        self._transport = transport
        runner = asyncio.Runner(loop_factory=asyncio.SelectorEventLoop)
        self._loop = runner.get_loop()
        ending = asyncio.Event()
        thread = threading.Thread(
            target=_run, args=(runner, ending), name="branchwright-embedded", daemon=True
        )
        thread.start()
        # Neither the thread nor this refers to the transport, which could never be forgotten otherwise.
        self._end = weakref.finalize(self, _end, self._loop, ending, thread)
        self._lock = threading.Lock()  # between looking whether the thread still runs and giving it work

    def handle_request(self, request: httpx.Request) -> httpx.Response:
        """Return the response, or raise httpx.ReadTimeout after the time that the request gives for reading."""
        with self._lock:
            if not self._end.alive:
                raise httpx.ConnectError("the embedded service is closed", request=request)
            answering = asyncio.run_coroutine_threadsafe(_answer(self._transport, request), self._loop)
        try:
            return answering.result(request.extensions["timeout"]["read"])
        except TimeoutError as error:
            raise httpx.ReadTimeout("the embedded service is still at it", request=request) from error
        except CancelledError as error:
            raise httpx.ReadError("the embedded service was closed", request=request) from error
        finally:
            answering.cancel()  # nobody waits for it any more: does nothing where it is done

    def close(self) -> None:
        """End the thread and wait for its end. What has been asked before is answered or cancelled."""
        with self._lock:
            self._end()


async def _answer(transport: httpx.AsyncBaseTransport, request: httpx.Request) -> httpx.Response:
    """Return the response with its content read, so that blocking callers can take it."""
    response = await transport.handle_async_request(request)
    content = b"".join([part async for part in response.aiter_raw()])
    return httpx.Response(response.status_code, headers=response.headers, stream=httpx.ByteStream(content))


def _run(runner: asyncio.Runner, ending: asyncio.Event) -> None:
    with runner:
        runner.run(ending.wait())


def _end(loop: asyncio.AbstractEventLoop, ending: asyncio.Event, thread: threading.Thread) -> None:
    loop.call_soon_threadsafe(ending.set)
    if thread is not threading.current_thread():  # where the last reference was dropped is left to chance
        thread.join()
