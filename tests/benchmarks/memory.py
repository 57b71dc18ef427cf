"""How much memory a worker holds after its start and over many designs. Linux only.

Run from the root of the repository: python tests/benchmarks/memory.py

One worker answers 100,000 design requests over HTTP, the same 10,000 distinct bodies ten times. Prints the memory
that is in RAM after the start and after every 10,000, in MB of 1,000,000 bytes, then what the last half added. At
most 120 MB are wanted, and no growth.
"""

import argparse

from circuit_requests import COUNT, bodies
from keep_alive import as_requests, post_all
from served import Served, cores, pin

WANTED_MB = 120


def main() -> None:
    """Send the requests and print the memory of the worker."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--rounds", type=int, default=10, help=f"rounds of {COUNT} requests")
    options = parser.parse_args()
    requests = as_requests("/v1/circuit-designs", bodies())
    service_core, client_core = cores()
    with Served(["-m", "branchwright.cli", "serve", "--port", "PORT"], service_core) as service:
        pin(client_core)
        held = [service.resident_mb()]
        print(f"{0:7} requests: {held[-1]:6.1f} MB", flush=True)
        for number in range(1, options.rounds + 1):
            taken = post_all(service.port, requests)
            held.append(service.resident_mb())
            rate = len(requests) / taken
            print(f"{number * COUNT:7} requests: {held[-1]:6.1f} MB, {rate:.0f} a second", flush=True)
    print(
        f"largest {max(held):.1f} MB, wanted: at most {WANTED_MB}; the last half of the rounds added "
        f"{held[-1] - held[len(held) // 2]:+.1f} MB"
    )


if __name__ == "__main__":
    main()
