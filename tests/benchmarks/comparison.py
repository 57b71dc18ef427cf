"""What a comparison of sixteen charging currents costs, in designs: by the functions, and over HTTP in process.

Run from the root of the repository, on an otherwise idle machine: python tests/benchmarks/comparison.py

The same facts are compared at the sixteen usual currents, and designed at each of them. Both are timed in
interleaved rounds of one run, so that a busy machine slows both, and the best round of each counts. Prints the
cost of a comparison in designs: once by the functions alone, once with reading, validating and writing JSON in
the application in process. At most sixteen and a third is wanted; rows make no working, no remedies and no
review request, so that much less is expected.
"""

import argparse
import asyncio
import json
import os
from collections.abc import Callable
from typing import Any

import httpx
from circuit_requests import design_requests
from design_rate import consume, seconds

from branchwright.checks.circuits import CircuitDesignRequest, design
from branchwright.http_api.app import create_app
from branchwright.http_api.settings import Settings
from branchwright.jobs.current_comparison import CurrentComparisonRequest, compare
from branchwright.jobs.current_comparison.facts import USUAL_CURRENTS_A

MOST_DESIGNS = 16 + 1 / 3
JSON_TYPE = {"Content-Type": "application/json"}

Request = dict[str, Any]


def comparison_request(request: Request) -> Request:
    """The comparison of a design request's facts at the usual currents."""
    charger = {name: value for name, value in request["charger"].items() if name != "charging_current_a"}
    return {**request, "charger": charger, "night_h": 8}


def design_at(request: Request, current_a: float) -> Request:
    """The design request of one of the currents."""
    return {**request, "charger": {**request["charger"], "charging_current_a": current_a}}


def in_designs(comparisons: Callable[[], object], designs: Callable[[], object], rounds: int) -> float:
    """What a comparison costs in designs; `designs` does as many designs as `comparisons` has rows."""
    compared = designed = float("inf")
    for _ in range(rounds):
        compared, designed = min(compared, seconds(comparisons)), min(designed, seconds(designs))
    return len(USUAL_CURRENTS_A) * compared / designed


def main() -> None:
    """Time both and print what the docstring of this module says."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--requests", type=int, default=200)
    parser.add_argument("--rounds", type=int, default=5)
    options = parser.parse_args()
    if hasattr(os, "sched_setaffinity"):
        os.sched_setaffinity(0, {min(os.sched_getaffinity(0))})
    facts = design_requests(options.requests)
    asked = [comparison_request(request) for request in facts]
    asked_designs = [design_at(request, current) for request in facts for current in USUAL_CURRENTS_A]

    comparisons = [CurrentComparisonRequest.model_validate(request) for request in asked]
    designs = [CircuitDesignRequest.model_validate(request) for request in asked_designs]
    by_functions = in_designs(
        lambda: consume(map(compare, comparisons)),
        lambda: consume(map(design, designs)),
        options.rounds,
    )

    runner = asyncio.Runner()
    http = httpx.AsyncClient(
        transport=httpx.ASGITransport(create_app(Settings(log_level="critical"))), base_url="http://127.0.0.1"
    )

    async def post_all(path: str, bodies: list[bytes]) -> None:
        for body in bodies:
            answer = await http.post(path, content=body, headers=JSON_TYPE)
            answer.raise_for_status()

    def posting(path: str, requests: list[Request]) -> Callable[[], object]:
        bodies = [json.dumps(request).encode() for request in requests]
        return lambda: runner.run(post_all(path, bodies))

    over_http = in_designs(
        posting("/v1/current-comparisons", asked),
        posting("/v1/circuit-designs", asked_designs),
        options.rounds,
    )
    runner.run(http.aclose())
    runner.close()
    print(
        f"{len(facts)} comparisons of {len(USUAL_CURRENTS_A)} currents, best of {options.rounds} interleaved rounds"
    )
    for name, cost in (("by the functions", by_functions), ("over HTTP in process", over_http)):
        verdict = "within" if cost <= MOST_DESIGNS else "MORE THAN"
        print(f"  {name:21} a comparison costs {cost:.1f} designs, {verdict} {MOST_DESIGNS:.1f}")
    print(
        json.dumps({"functions_in_designs": round(by_functions, 2), "http_in_designs": round(over_http, 2)})
    )


if __name__ == "__main__":
    main()
