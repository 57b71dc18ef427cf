"""What designs cost over HTTP beside answers that need no computing: ratios of requests a second.

Run from the root of the repository, on an otherwise idle machine: python tests/benchmarks/http_ratio.py

One process serves designs and, for this benchmark only, two questions with the same body and an answer that was
made beforehand: "prebuilt" through the service's own class of route, "stock" as a route of the framework. It has
one core, the client another (where there are two). The same distinct bodies go to the three in alternating rounds
over a few kept connections on loopback. Prints requests a second of each, in the median of the rounds, and the
ratios design to prebuilt and design to stock; then the same by processor time of the service, which other work on
the machine disturbs less. At least 0.6 is wanted of design to stock and to prebuilt, 0.8 is aimed at.
"""

import argparse
import statistics

from circuit_requests import COUNT, bodies
from keep_alive import CONNECTIONS, as_requests, post_all
from served import Served, cores, pin

PATHS = {
    "design": "/v1/circuit-designs",
    "prebuilt": "/v1/prebuilt-answers",
    "stock": "/v1/stock-answers",
}


def main() -> None:
    """Run the rounds and print the ratios."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--requests", type=int, default=COUNT)
    parser.add_argument("--rounds", type=int, default=5)
    parser.add_argument("--connections", type=int, default=CONNECTIONS)
    options = parser.parse_args()
    asked = bodies(options.requests)
    requests = {name: as_requests(path, asked) for name, path in PATHS.items()}
    service_core, client_core = cores()
    wall: dict[str, list[float]] = {name: [] for name in PATHS}
    processor: dict[str, list[float]] = {name: [] for name in PATHS}
    with Served(["ratio_service.py", "PORT"], service_core) as service:
        pin(client_core)
        for name in PATHS:  # once each, so that every path is warm
            post_all(service.port, requests[name][:500], options.connections)
        for _ in range(options.rounds):
            for name in PATHS:
                before = service.processor_s()
                wall[name].append(post_all(service.port, requests[name], options.connections))
                processor[name].append(service.processor_s() - before)
    print(
        f"{len(asked)} distinct bodies to each of three paths, {options.rounds} alternating rounds, "
        f"{options.connections} connections, one worker"
    )
    for title, taken in (("wall clock", wall), ("processor time of the service", processor)):
        rates = {name: [len(asked) / spent for spent in times] for name, times in taken.items()}
        print(f"by {title}:")
        for name, values in rates.items():
            middle = statistics.median(values)
            print(f"  {name:9} {middle:6.0f} a second, rounds from {min(values):.0f} to {max(values):.0f}")
        for other in ("prebuilt", "stock"):
            ratios = [one / two for one, two in zip(rates["design"], rates[other], strict=True)]
            middle = statistics.median(ratios)
            print(f"  design / {other:9} {middle:.2f}, rounds from {min(ratios):.2f} to {max(ratios):.2f}")


if __name__ == "__main__":
    main()
