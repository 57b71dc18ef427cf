"""What a design costs through the embedded client, beside a service on loopback and a plain call of the engine.

Run from the root of the repository, on an otherwise idle machine: python tests/benchmarks/embedded.py

The same distinct requests are answered in alternating rounds, one after the other: by the engine alone (request
validated, answer as objects), by the SDK's blocking client with a service in this process, by the asynchronous one
likewise, and by the blocking client with a service in another process on loopback, on a core of its own where
there are two. What the clients do on top of the engine is the same in all of them: check the request, write and
read JSON, build the answer's models. Prints microseconds a design of each, in the median of the rounds, and the
ratios of each round's times; then the same by processor time, the service's included, which other work on the
machine disturbs less.
"""

import argparse
import asyncio
import statistics
import time
from collections.abc import Callable
from typing import Any

from circuit_requests import design_requests
from served import Served, cores, pin

from branchwright.checks.circuits import CircuitDesignRequest, design
from branchwright_sdk import AsyncClient, Client

SERVICE = ["-m", "branchwright.cli", "serve", "--port", "PORT"]
RATIOS = (
    ("embedded", "loopback"),
    ("embedded, asyncio", "loopback"),
    ("embedded", "direct call"),
    ("loopback", "direct call"),
)


def main() -> None:
    """Run the rounds and print times and ratios."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--requests", type=int, default=1000)
    parser.add_argument("--rounds", type=int, default=7)
    options = parser.parse_args()
    asked = design_requests(options.requests)
    service_core, client_core = cores()
    with (
        Served(SERVICE, service_core) as service,
        Client(f"http://127.0.0.1:{service.port}") as loopback,
        Client.embedded() as embedded,
    ):
        pin(client_core)
        ways: dict[str, Callable[[], object]] = {
            "direct call": lambda: [design(CircuitDesignRequest.model_validate(body)) for body in asked],
            "embedded": lambda: [embedded.circuits.design_from(body) for body in asked],
            "embedded, asyncio": lambda: asyncio.run(one_after_the_other(asked)),
            "loopback": lambda: [loopback.circuits.design_from(body) for body in asked],
        }
        for ask in ways.values():  # once each, so that every way is warm
            ask()
        wall: dict[str, list[float]] = {name: [] for name in ways}
        processor: dict[str, list[float]] = {name: [] for name in ways}
        for _ in range(options.rounds):
            for name, ask in ways.items():
                begun, used = time.perf_counter(), time.process_time() + service.processor_s()
                ask()
                wall[name].append(time.perf_counter() - begun)
                processor[name].append(time.process_time() + service.processor_s() - used)
    print(f"{len(asked)} distinct requests, {options.rounds} alternating rounds")
    for title, taken in (("wall clock", wall), ("processor time", processor)):
        print(f"by {title}:")
        for name, times in taken.items():
            show(name, [spent / len(asked) * 1e6 for spent in times], "5.0f", " us")
        for one, two in RATIOS:
            ratios = [this / that for this, that in zip(taken[one], taken[two], strict=True)]
            show(f"{one} / {two}", ratios, "5.2f", "")


def show(name: str, values: list[float], form: str, unit: str) -> None:
    """Print the median of some values and the least and greatest."""
    middle, least, most = (
        format(value, form) for value in (statistics.median(values), min(values), max(values))
    )
    print(f"  {name:28} {middle}{unit}, rounds from {least} to {most}")


async def one_after_the_other(asked: list[dict[str, Any]]) -> None:
    """Ask for every design through an embedded client of this event loop."""
    async with AsyncClient.embedded() as client:
        for body in asked:
            await client.circuits.design_from(body)


if __name__ == "__main__":
    main()
