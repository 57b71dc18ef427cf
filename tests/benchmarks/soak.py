"""Whether the service holds out: many connections against two workers for a minute or longer. Linux only.

Run from the root of the repository: python tests/benchmarks/soak.py --seconds 60

Each connection sends its next design request as soon as the one before is answered; the 10,000 distinct bodies come
round again and again, and a connection is renewed after every 100. Everything goes over loopback. The memory of each
worker is sampled every half second. Prints answers a second, percentiles of the time to an answer, and for each worker
the memory at the start and at the end and the slope of a line through the samples after the first quarter, when tables
and caches are filled. No answer may be other than a 200, and no connection may break: the first that does ends the run
with an exception. Nothing is asserted on times, which depend on what else the machine does; the client shares its cores
with the workers, so the rate is not the service's limit.
"""

import argparse
import asyncio
import statistics
import threading
import time
from collections.abc import Iterator
from itertools import cycle, islice

import uvloop
from circuit_requests import bodies
from keep_alive import as_requests
from served import Served

CONNECTIONS = 32
WORKERS = 2
# A renewed connection may reach another worker, so that none is left with all of them or with none.
ANSWERS_PER_CONNECTION = 100
SAMPLE_S = 0.5
LONGEST_ANSWER_S = 60.0


class Memory(threading.Thread):
    """Samples what each worker holds in RAM until it is told to stop: seconds since the start, MB."""

    def __init__(self, service: Served) -> None:
        super().__init__()
        self.samples: dict[int, list[tuple[float, float]]] = {}
        self._service = service
        self._enough = threading.Event()

    def run(self) -> None:
        begun = time.perf_counter()
        while not self._enough.wait(SAMPLE_S):
            for worker, held in self._service.workers_mb().items():
                self.samples.setdefault(worker, []).append((time.perf_counter() - begun, held))

    def stop(self) -> None:
        """Stop sampling and wait for the last sample."""
        self._enough.set()
        self.join()


async def receive(reader: asyncio.StreamReader) -> None:
    """Read one answer. Raises RuntimeError where it is no 200."""
    head = await reader.readuntil(b"\r\n\r\n")
    length = int(head.lower().partition(b"\r\ncontent-length:")[2].partition(b"\r\n")[0])
    body = await reader.readexactly(length)
    if not head.startswith(b"HTTP/1.1 200 "):
        raise RuntimeError((head + body)[:500].decode(errors="replace"))


async def ask(port: int, requests: Iterator[bytes], until: float) -> list[float]:
    """The seconds that each answer took, over one connection at a time."""
    taken: list[float] = []
    while time.perf_counter() < until:
        reader, writer = await asyncio.open_connection("127.0.0.1", port)
        try:
            for request in islice(requests, ANSWERS_PER_CONNECTION):
                begun = time.perf_counter()
                if begun >= until:
                    break
                writer.write(request)
                async with asyncio.timeout(LONGEST_ANSWER_S):
                    await receive(reader)
                taken.append(time.perf_counter() - begun)
        finally:
            writer.close()
    return taken


async def load(port: int, requests: list[bytes], seconds: float) -> list[float]:
    """The seconds that each answer took, over all connections, which share the requests."""
    pending = cycle(requests)
    until = time.perf_counter() + seconds
    async with asyncio.TaskGroup() as group:
        asking = [group.create_task(ask(port, pending, until)) for _ in range(CONNECTIONS)]
    return [answer for one in asking for answer in one.result()]


def report_memory(samples: dict[int, list[tuple[float, float]]]) -> None:
    """Print what each worker held and how fast that grew in the end."""
    for worker, held in samples.items():
        later = held[len(held) // 4 :]
        line = (
            f"worker {worker}: {held[0][1]:.1f} MB after {held[0][0]:.1f} s, {held[-1][1]:.1f} MB at the end"
        )
        if len(later) > 1:
            per_minute = statistics.linear_regression(*zip(*later, strict=True)).slope * 60
            line += f", {per_minute:+.2f} MB a minute after {later[0][0]:.0f} s"
        print(line)


def main() -> None:
    """Load the service and print what the docstring of this module says."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--seconds", type=float, default=60.0)
    options = parser.parse_args()
    requests = as_requests("/v1/circuit-designs", bodies())
    arguments = ["-m", "branchwright.cli", "serve", "--port", "PORT", "--workers", str(WORKERS)]
    with Served(arguments) as service:
        memory = Memory(service)
        memory.start()
        begun = time.perf_counter()
        try:
            with asyncio.Runner(loop_factory=uvloop.new_event_loop) as runner:
                taken = runner.run(load(service.port, requests, options.seconds))
        finally:
            memory.stop()
        elapsed = time.perf_counter() - begun
    percentiles = statistics.quantiles(taken, n=1000, method="inclusive")
    print(
        f"{CONNECTIONS} connections, {WORKERS} workers, {elapsed:.0f} s: {len(taken)} answers, all of them 200"
    )
    print(f"{len(taken) / elapsed:.0f} a second")
    shown = {"median": 499, "90 %": 899, "99 %": 989, "99.9 %": 998}
    print(
        "answered within "
        + ", ".join(f"{percentiles[index] * 1e3:.1f} ms ({name})" for name, index in shown.items())
        + f", {max(taken) * 1e3:.1f} ms (all)"
    )
    report_memory(memory.samples)


if __name__ == "__main__":
    main()
