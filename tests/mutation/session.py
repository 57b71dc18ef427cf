"""The run itself, started by `__main__` in a copy of the repository: baseline, controls, trials, results.

Takes its task from a JSON file and leaves its results in another.
"""

import json
import os
import random
import sys
import time
from bisect import bisect
from collections import Counter
from collections.abc import Iterator
from itertools import accumulate, groupby
from pathlib import Path
from typing import Any

import hypothesis
import pytest  # noqa: F401 - loaded here, so that no fork needs to
from tests.checks import effort
from tests.mutation import baseline, trials
from tests.mutation.mutants import Finder, Mutant
from tests.mutation.suites import SUITES, package_of, source_files

ARGUMENTS = [
    "-p",
    "_hypothesis_pytestplugin",
    "-W",
    "ignore::pytest.PytestAssertRewriteWarning",
    "--no-header",
]


SHARE = 4
"""Property tests try a quarter of their examples: one that fails mostly does so early."""
CONTROL_S = 30.0
"""The control without a change runs tests for so long."""


def main(task_file: str, result_file: str) -> None:
    """Try the mutants of a task."""
    task = json.loads(Path(task_file).read_text(encoding="utf-8"))
    root = Path.cwd()
    os.environ["PYTEST_DISABLE_PLUGIN_AUTOLOAD"] = "1"
    # Whether a test fails is all that is asked: no search for the smallest example, and the same ones for each mutant.
    hypothesis.settings.register_profile(
        "mutation",
        phases=(hypothesis.Phase.explicit, hypothesis.Phase.generate),
        report_multiple_bugs=False,
        derandomize=True,
        database=None,
        deadline=None,
    )
    hypothesis.settings.load_profile("mutation")
    all_examples = effort.examples
    effort.examples = lambda count: all_examples(max(10, count // SHARE))
    files = source_files(root, task["paths"])
    sources = {str(file): (root / file).read_bytes() for file in files}
    finders = {str(file): Finder(str(file), sources[str(file)]) for file in files}
    mutants = [mutant for finder in finders.values() for mutant in finder.mutants()]
    there_are = Counter(package_of(Path(mutant.path)) for mutant in mutants)
    mutants = [*_sampled(mutants, task["sample"], task["seed"])]
    results: list[dict[str, Any]] = []
    begun = time.monotonic()

    def done(trial: trials.Trial) -> None:
        if trial.fate is trials.Fate.FAULT:
            raise SystemExit(f"A trial broke down, which says nothing about its mutant: {trial.mutant}")
        assert trial.mutant is not None
        results.append(record(trial.mutant, sources[trial.mutant.path], trial.fate))
        if len(results) % 50 == 0 or trial.fate is trials.Fate.SURVIVED:
            fates = Counter(each["fate"] for each in results)
            said = ", ".join(f"{count} {fate}" for fate, count in sorted(fates.items()))
            print(f"{time.monotonic() - begun:6.0f} s  {len(results)} of {len(mutants)}: {said}", flush=True)

    left_out: set[str] = set()
    by_package: dict[str, list[Mutant]] = {}
    for mutant in mutants:
        by_package.setdefault(package_of(Path(mutant.path)), []).append(mutant)
    for package, inner in by_package.items():
        suite = [*SUITES[package], *task["tests"]]
        known = observed(root, [Path(name) for name in sorted({each.path for each in inner})], suite)
        left_out.update(known.failed)
        trials.load(known.libraries)
        controlled(root, sources, known, inner)
        planned = trials.plan(inner, known, suite, task["patience"])
        trials.run(planned, root, sources, task["processes"], ARGUMENTS, done)
    order = {mutant: place for place, mutant in enumerate(mutants)}
    results.sort(
        key=lambda each: order[Mutant(**{**each["mutant"], "replacement": each["replacement"].encode()})]
    )
    Path(result_file).write_text(
        json.dumps(
            {
                "results": results,
                "there_are": there_are,
                "left_out": sorted(left_out),
                "excluded": sum((finder.excluded for finder in finders.values()), Counter()),
                "seconds": time.monotonic() - begun,
            }
        ),
        encoding="utf-8",
    )


def _sampled(mutants: list[Mutant], most: int | None, seed: int) -> Iterator[Mutant]:
    """At most so many mutants of each package, drawn by a seed; all without a limit."""
    for _, each in groupby(mutants, key=lambda mutant: package_of(Path(mutant.path))):
        inner = list(each)
        if most is not None and most < len(inner):
            chosen = random.Random(seed).sample(range(len(inner)), most)  # noqa: S311 - no secrets
            inner = [inner[place] for place in sorted(chosen)]
        yield from inner


def record(mutant: Mutant, source: bytes, fate: trials.Fate) -> dict[str, Any]:
    """One result as JSON."""
    fields = {name: value for name, value in vars(mutant).items() if name != "replacement"}
    return {
        "mutant": fields,
        "replacement": mutant.replacement.decode(),
        "diff": mutant.diff(source),
        "fate": fate.name.lower().replace("_", " "),
    }


def observed(root: Path, files: list[Path], suite: list[str]) -> baseline.Baseline:
    """Run the tests once in a fork, so that this process stays without the service."""
    print(f"baseline: {' '.join(suite)}", flush=True)
    written_to = root / "mutation-baseline.json"
    process = os.fork()
    if not process:
        code = 1
        try:
            baseline.observe(root, files, [*ARGUMENTS, *suite], written_to)
            code = 0
        finally:
            sys.stdout.flush()
            os._exit(code)
    if os.waitpid(process, 0)[1]:
        raise SystemExit("The tests do not run without a mutant.")
    return baseline.Baseline.read(written_to)


def controlled(
    root: Path, sources: dict[str, bytes], known: baseline.Baseline, mutants: list[Mutant]
) -> None:
    """Hold the method against two cases with a known end: no change survives, a module that raises is killed."""
    tests = sorted(known.seconds, key=known.seconds.__getitem__)
    path = mutants[0].path
    changed = Mutant(path, 1, 1, 1, "(module)", "control", 0, 0, b"raise RuntimeError\n")
    inside = {test for asked in known.tests[path].values() for test in asked}
    asking = [test for test in tests if test in inside] or tests
    unchanged = tests[: bisect(list(accumulate(known.seconds[test] for test in tests)), CONTROL_S)]
    controls = [
        (trials.Trial(None, unchanged, CONTROL_S), trials.Fate.SURVIVED),
        (trials.Trial(changed, asking[:1], 1), trials.Fate.KILLED),
    ]
    ended: list[trials.Trial] = []
    trials.run([trial for trial, _ in controls], root, sources, 2, ARGUMENTS, ended.append)
    for trial, expected in controls:
        if trial.fate is not expected:
            raise SystemExit(f"A control ended as {trial.fate.name}, not as {expected.name}: {trial.mutant}")


if __name__ == "__main__":
    main(sys.argv[1], sys.argv[2])
