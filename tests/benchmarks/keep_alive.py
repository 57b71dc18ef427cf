"""A bare HTTP client over kept connections, on loopback only: it costs little, so that the service is what is timed."""

import asyncio
import time
from collections.abc import Iterator, Sequence
from typing import cast

import uvloop

CONNECTIONS = 8
WITHIN_S = 120.0


class _Connection(asyncio.Protocol):
    """Sends the next request as soon as the answer to the one before is complete."""

    def __init__(self, requests: Iterator[bytes], done: asyncio.Future[None]) -> None:
        self.answers = 0
        self.answer_bytes = 0
        self._requests = requests
        self._done = done
        self._received = bytearray()
        self._awaited = 0

    def connection_made(self, transport: asyncio.BaseTransport) -> None:
        self._transport = cast("asyncio.Transport", transport)
        self._send_next()

    def data_received(self, data: bytes) -> None:
        self._received += data
        if not self._awaited:
            head_end = self._received.find(b"\r\n\r\n")
            if head_end < 0:
                return
            head = bytes(self._received[:head_end]).lower()
            if not head.startswith(b"http/1.1 200 "):
                self._fail(RuntimeError(bytes(self._received[:500]).decode(errors="replace")))
                return
            length = int(head.partition(b"\r\ncontent-length:")[2].partition(b"\r\n")[0])
            self._awaited = head_end + 4 + length
        if len(self._received) >= self._awaited:
            self.answers += 1
            self.answer_bytes += self._awaited
            self._send_next()

    def connection_lost(self, exc: Exception | None) -> None:
        self._fail(exc or ConnectionError("the service closed the connection"))

    def _send_next(self) -> None:
        self._received.clear()
        self._awaited = 0
        request = next(self._requests, None)
        if request is not None:
            self._transport.write(request)
            return
        if not self._done.done():
            self._done.set_result(None)
        self._transport.close()

    def _fail(self, error: Exception) -> None:
        if not self._done.done():
            self._done.set_exception(error)
        self._transport.close()


async def _post_all(port: int, requests: Sequence[bytes], connections: int) -> float:
    loop = asyncio.get_running_loop()
    pending = iter(requests)
    ended = [loop.create_future() for _ in range(connections)]
    begun = time.perf_counter()
    made: list[_Connection] = []
    for done in ended:
        _, connection = await loop.create_connection(
            lambda done=done: _Connection(pending, done), "127.0.0.1", port
        )
        made.append(connection)
    async with asyncio.timeout(WITHIN_S):
        await asyncio.gather(*ended)
    taken = time.perf_counter() - begun
    answers = sum(connection.answers for connection in made)
    if answers != len(requests):
        raise RuntimeError(f"{answers} answers to {len(requests)} requests")
    return taken


def as_requests(path: str, bodies: Sequence[bytes]) -> list[bytes]:
    """Whole HTTP requests that post each body to a path."""
    head = f"POST {path} HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Type: application/json\r\nContent-Length: "
    return [head.encode() + str(len(body)).encode() + b"\r\n\r\n" + body for body in bodies]


def post_all(port: int, requests: Sequence[bytes], connections: int = CONNECTIONS) -> float:
    """Send every request once over a few kept connections; the seconds until the last is answered.

    Raises:
        RuntimeError: where an answer has another status than 200.
        TimeoutError: where it takes longer than two minutes.
    """
    with asyncio.Runner(loop_factory=uvloop.new_event_loop) as runner:
        return runner.run(_post_all(port, requests, connections))
