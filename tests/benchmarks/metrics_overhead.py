"""What counting costs: a design request with and without the metrics, as a ratio of processor time.

Run from the root of the repository: python tests/benchmarks/metrics_overhead.py

Two applications in one process, alike but for the counting, are asked the same distinct bodies in alternating rounds,
without a server or a network between, which would only make the ratio smaller. Done twice, each in a fresh interpreter:
counts in memory, as with one worker, and in a shared folder, as with several. Prints the median ratio of the pairs of
rounds; at most 1.1 is wanted. The same for /health/live, which computes nothing, says what counting costs in itself.
"""

import argparse
import asyncio
import gc
import os
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Sequence

from circuit_requests import bodies

from branchwright.http_api.app import create_app
from branchwright.http_api.metrics import SHARED_FOLDER_VARIABLE
from branchwright.http_api.settings import Settings

WANTED = 1.1
DESIGN = ("POST", "/v1/circuit-designs")
HEALTH = ("GET", "/health/live")


async def ask(app: object, method: str, path: str, body: bytes) -> None:
    """One request by hand; RuntimeError where the answer is not 200."""
    scope = {
        "type": "http",
        "http_version": "1.1",
        "method": method,
        "path": path,
        "raw_path": path.encode(),
        "query_string": b"",
        "root_path": "",
        "scheme": "http",
        "headers": [(b"host", b"127.0.0.1"), (b"content-type", b"application/json")],
        "client": ("127.0.0.1", 1),
        "server": ("127.0.0.1", 80),
    }

    async def receive() -> dict[str, object]:
        return {"type": "http.request", "body": body, "more_body": False}

    async def send(message: dict[str, object]) -> None:
        if message["type"] == "http.response.start" and message["status"] != 200:
            raise RuntimeError(f"{message['status']} to {method} {path}")

    await app(scope, receive, send)  # type: ignore[operator]


async def round_s(app: object, what: tuple[str, str], asked: Sequence[bytes]) -> float:
    """The processor time of asking every body once, in seconds."""
    gc.collect()
    begun = time.process_time()
    for body in asked:
        await ask(app, *what, body)
    return time.process_time() - begun


async def measure(title: str, requests: int, rounds: int) -> None:
    """Run the rounds of both kinds of request and print their ratios."""
    settings = Settings(log_level="critical")
    plain = create_app(settings, count_requests=False)
    counting = create_app(settings)
    for what, asked in ((DESIGN, bodies(requests)), (HEALTH, [b""] * requests)):
        for app in (plain, counting):  # once each, so that everything is loaded
            await round_s(app, what, asked[:100])
        without: list[float] = []
        with_counts: list[float] = []
        for number in range(rounds):
            # Turn about, so that neither always comes first.
            for app, times in ((plain, without), (counting, with_counts))[:: 1 if number % 2 else -1]:
                times.append(await round_s(app, what, asked))
        ratios = sorted(two / one for one, two in zip(without, with_counts, strict=True))
        one, two = statistics.median(without), statistics.median(with_counts)
        print(
            f"{title}, {what[1]}: {one / requests * 1e6:.0f} us without, {two / requests * 1e6:.0f} us with, "
            f"ratio {statistics.median(ratios):.3f} (pairs from {ratios[0]:.3f} to {ratios[-1]:.3f})",
            flush=True,
        )


def main() -> None:
    """Measure in memory, then in a shared folder."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--requests", type=int, default=500)
    parser.add_argument("--rounds", type=int, default=11)
    parser.add_argument("--here", help=argparse.SUPPRESS)
    options = parser.parse_args()
    if options.here:
        asyncio.run(measure(options.here, options.requests, options.rounds))
        return
    again = [sys.executable, __file__, "--requests", str(options.requests), "--rounds", str(options.rounds)]
    plain = {name: text for name, text in os.environ.items() if name != SHARED_FOLDER_VARIABLE}
    subprocess.run([*again, "--here", "in memory"], env=plain, check=True)
    with tempfile.TemporaryDirectory() as folder:
        shared = plain | {SHARED_FOLDER_VARIABLE: folder}
        subprocess.run([*again, "--here", "shared folder"], env=shared, check=True)
    print(f"wanted for a design: at most {WANTED}")


if __name__ == "__main__":
    main()
