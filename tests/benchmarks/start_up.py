"""How long the service takes from its start until it is ready, beside an empty application of the framework.

Run from the root of the repository: python tests/benchmarks/start_up.py

Both are served by uvicorn with the same settings and started in turn, each in a fresh interpreter, until
/health/ready answers; a busy machine slows both. Prints both medians and the ratio of the medians; at most 2 is
wanted. With --imports it also prints which imports of the service take longest.
"""

import argparse
import re
import statistics
import subprocess
import sys

from served import Served

OURS = ["-m", "branchwright.cli", "serve", "--port", "PORT"]
EMPTY = ["empty_service.py", "PORT"]
WANTED = 2.0


def started_s(arguments: list[str]) -> float:
    """The seconds from start to ready of one run."""
    with Served(arguments) as service:
        return service.started_s


def longest_imports(count: int) -> list[tuple[int, str]]:
    """The modules whose own code takes longest to import, (microseconds, name)."""
    program = "import branchwright.cli.commands, branchwright.http_api.app, uvicorn"
    ran = subprocess.run(
        [sys.executable, "-X", "importtime", "-c", program], capture_output=True, text=True, check=True
    )
    found = re.findall(r"import time:\s+(\d+) \|\s+\d+ \| *(\S+)", ran.stderr)
    return sorted(((int(own), name) for own, name in found), reverse=True)[:count]


def main() -> None:
    """Start both in turn and print the medians and their ratio."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--runs", type=int, default=9)
    parser.add_argument("--imports", action="store_true")
    options = parser.parse_args()
    for arguments in (EMPTY, OURS):  # once each, so that all bytecode is compiled
        started_s(arguments)
    pairs = [(started_s(EMPTY), started_s(OURS)) for _ in range(options.runs)]
    empty, ours = (statistics.median(column) for column in zip(*pairs, strict=True))
    ratios = sorted(two / one for one, two in pairs)
    print(
        f"start to ready, medians of {options.runs} alternating runs: empty {empty:.3f} s, service {ours:.3f} s"
    )
    print(
        f"ratio {ours / empty:.2f} (pairs from {ratios[0]:.2f} to {ratios[-1]:.2f}), wanted: at most {WANTED}"
    )
    if options.imports:
        for own, name in longest_imports(25):
            print(f"  {own / 1000:7.1f} ms {name}")


if __name__ == "__main__":
    main()
