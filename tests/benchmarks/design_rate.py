"""How many circuit designs one core makes in a second, in process: findings, steps and provenance included.

Run from the root of the repository, on an otherwise idle machine: python tests/benchmarks/design_rate.py

Each request is parsed, validated, answered and written as JSON, as the service does it but without HTTP. The
stages are timed in interleaved rounds, so that a busy machine slows all of them, and the best round of each
counts. Prints designs a second, the share of each stage, the size of answers, and how often each verdict occurs and how
long it takes.
With --profile it also prints where the time of the design itself goes.
"""

import argparse
import cProfile
import gc
import json
import os
import pstats
import statistics
import time
from collections import defaultdict
from collections.abc import Callable, Iterable

from circuit_requests import COUNT, bodies
from pydantic import TypeAdapter

from branchwright.checks.circuits import CircuitDesignAnswer, CircuitDesignRequest, design
from branchwright.http_api import strict_json

VALIDATE = TypeAdapter(CircuitDesignRequest).validator.validate_python
SERIALISE = TypeAdapter(CircuitDesignAnswer).serializer.to_json


def seconds(work: Callable[[], object]) -> float:
    """The processor time of this process that some work takes."""
    gc.collect()
    begun = time.process_time()
    work()
    return time.process_time() - begun


def consume(results: Iterable[object]) -> None:
    """Compute results and keep none."""
    for _ in results:
        pass


def main() -> None:
    """Time the stages and print what the docstring of this module says."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--requests", type=int, default=COUNT)
    parser.add_argument("--rounds", type=int, default=3)
    parser.add_argument("--profile", action="store_true", help="profile one more round of designs")
    options = parser.parse_args()
    if hasattr(os, "sched_setaffinity"):
        os.sched_setaffinity(0, {min(os.sched_getaffinity(0))})
    texts = bodies(options.requests)
    questions = [VALIDATE(strict_json.parse(text)) for text in texts]

    taken: defaultdict[str, list[float]] = defaultdict(list)
    answers: list[CircuitDesignAnswer] = []
    for question in questions:
        begun = time.process_time()
        answers.append(design(question))
        taken[answers[-1].verdict].append(time.process_time() - begun)
    sizes = [len(SERIALISE(answer, by_alias=True)) for answer in answers]
    designed = sum(answer.design is not None for answer in answers)
    steps = sum(len(answer.steps) for answer in answers) / len(answers)
    findings = sum(len(answer.findings) for answer in answers) / len(answers)
    few = answers[: min(500, len(answers))]
    del answers

    # Answers are written from a few kept ones, again and again: ten thousand at once would fill the memory.
    repeats = len(texts) // len(few)
    stages: dict[str, Callable[[], object]] = {
        "read and validate": lambda: consume(VALIDATE(strict_json.parse(text)) for text in texts),
        "design": lambda: consume(map(design, questions)),
        "write": lambda: consume(SERIALISE(answer, by_alias=True) for _ in range(repeats) for answer in few),
    }
    best = dict.fromkeys(stages, float("inf"))
    for _ in range(options.rounds):
        for name, work in stages.items():
            best[name] = min(best[name], seconds(work))
    total = sum(best.values())
    print(
        f"{len(texts)} distinct requests, best of {options.rounds} interleaved rounds, processor time of one core"
    )
    print(f"designs alone: {len(texts) / best['design']:.0f} a second")
    print(f"with reading, validating and writing JSON: {len(texts) / total:.0f} a second")
    for name, spent in best.items():
        print(f"  {name:18} {spent / len(texts) * 1e6:7.0f} us each {spent / total:7.1%}")
    print(
        f"requests {sum(map(len, texts)) / len(texts):.0f} bytes, answers {sum(sizes) / len(sizes):.0f} bytes "
        f"(largest {max(sizes)}) with {findings:.0f} findings and {steps:.0f} steps on average"
    )
    for verdict, times in sorted(taken.items()):
        middle, slow = statistics.median(times), statistics.quantiles(times, n=100)[98]
        print(
            f"  {verdict:18} {len(times) / len(texts):7.1%}, design {middle * 1e6:.0f} us in the median, "
            f"{slow * 1e6:.0f} us at the 99th percentile"
        )
    print(f"  {'with a design':18} {designed / len(texts):7.1%}")
    print(
        json.dumps(
            {"designs_per_second": round(len(texts) / total), "answer_bytes": sum(sizes) // len(sizes)}
        )
    )
    if options.profile:
        profile = cProfile.Profile()
        profile.runcall(stages["design"])
        found = pstats.Stats(profile)
        found.sort_stats("tottime").print_stats(25)
        found.sort_stats("cumulative").print_stats("branchwright", 45)


if __name__ == "__main__":
    main()
