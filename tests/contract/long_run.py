"""A long run of made-up requests against the service, with a report: `python tests/contract/long_run.py --help`.

The requests are those of `test_generated_requests`, all operations, phases and checks, under ever new seeds: valid
ones, invalid ones and chains of them. Each seed is a round in a process of its own, so that memory stays bounded
however long the run is; rounds that are kept in a folder (`--keep`) are not run again.
"""

import argparse
import datetime
import hashlib
import itertools
import json
import multiprocessing
import platform
import resource
import shlex
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Iterator
from concurrent.futures import FIRST_COMPLETED, Future, ProcessPoolExecutor, wait
from importlib.metadata import version
from pathlib import Path
from typing import Any

ROOT = Path(__file__).parents[2]
sys.path[0] = str(ROOT)

from tests.tree import revision  # noqa: E402

DOCUMENT = ROOT / "openapi" / "v1.json"

Round = dict[str, Any]


def played(seed: int, examples: int) -> Round:
    """Run every phase of every operation once under a seed and return what was seen, as JSON knows it."""
    # Here and not above: the parent only counts.
    import schemathesis
    from schemathesis import engine
    from schemathesis.config import SchemathesisConfig
    from schemathesis.engine.events import FatalError, NonFatalError, ScenarioFinished, SchemaAnalysisWarnings
    from tests.contract.client import KEY_HASH
    from tests.contract.forms import register
    from tests.contract.test_generated_requests import CONFIGURATION, failures

    from branchwright.http_api.app import create_app
    from branchwright.http_api.settings import Settings

    register()
    begun = time.monotonic()
    generation = {**CONFIGURATION["generation"], "max-examples": examples, "deterministic": False}
    schema = schemathesis.openapi.from_asgi(
        "/openapi.json",
        create_app(Settings(api_key_hashes=(KEY_HASH,))),
        config=SchemathesisConfig.from_dict({**CONFIGURATION, "seed": seed, "generation": generation}),
    )
    statuses: Counter[tuple[str, str, int]] = Counter()
    checks: Counter[str] = Counter()
    found: list[str] = []
    for event in engine.from_schema(schema).execute():
        match event:
            case ScenarioFinished():
                recorder = event.recorder
                found += failures(recorder)
                checks.update(check.name for each in recorder.checks.values() for check in each)
                for case_id, interaction in recorder.interactions.items():
                    case = recorder.cases[case_id].value
                    if interaction.response is None:
                        found.append(f"no answer to {case.as_curl_command()}")
                        continue
                    label = f"{case.operation.method.upper()} {case.operation.path}"
                    statuses[label, event.phase.value, interaction.response.status_code] += 1
            case SchemaAnalysisWarnings():
                found += [str(warning) for warning in event.warnings]
            case NonFatalError():
                found.append(f"{event.label}: {event.value!r}")
            case FatalError():
                raise event.exception
    return {
        "seed": seed,
        "examples": examples,
        "document": digest(),
        "requests": [[*key, count] for key, count in sorted(statuses.items())],
        "checks": dict(checks),
        "failures": found,
        "seconds": time.monotonic() - begun,
        "memory_mib": resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024,
    }


def digest() -> str:
    """The document that the requests are made up from, by its first digits."""
    return hashlib.sha256(DOCUMENT.read_bytes()).hexdigest()[:16]


def count_of(round_: Round) -> int:
    """The requests of a round."""
    return sum(count for *_, count in round_["requests"])


def rounds(asked: argparse.Namespace, folder: Path) -> list[Round]:
    """Play rounds until there are enough requests, so many processes at a time; take kept ones first."""
    kept = [json.loads(file.read_text(encoding="utf-8")) for file in sorted(folder.glob("round-*.json"))]
    done = [each for each in kept if (each["document"], each["examples"]) == (digest(), asked.examples)]
    seeds = itertools.count(asked.seed)
    known = {each["seed"] for each in done}
    new: Iterator[int] = (seed for seed in seeds if seed not in known)
    running: set[Future[Round]] = set()
    # A fresh process for each round: what a round holds is given back when it ends.
    with ProcessPoolExecutor(
        asked.processes, mp_context=multiprocessing.get_context("spawn"), max_tasks_per_child=1
    ) as pool:
        while True:
            so_far = sum(map(count_of, done))
            average = so_far / len(done) if done else float("inf")
            # Those that run now will bring about as many as the others did.
            while len(running) < asked.processes and (
                so_far + (len(running) * average if running else 0) < asked.requests
            ):
                running.add(pool.submit(played, next(new), asked.examples))
            if not running:
                return done
            ended, running = wait(running, return_when=FIRST_COMPLETED)
            for each in ended:
                round_ = each.result()
                (folder / f"round-{round_['seed']:05}.json").write_text(json.dumps(round_), encoding="utf-8")
                done.append(round_)
                print(
                    f"seed {round_['seed']}: {count_of(round_)} requests in {round_['seconds']:.0f} s, "
                    f"{len(round_['failures'])} failures; {sum(map(count_of, done))} so far",
                    flush=True,
                )


def page(done: list[Round], command: str) -> str:
    """The report as Markdown."""
    requests: Counter[tuple[str, str]] = Counter()
    phases: Counter[str] = Counter()
    classes = [f"{first}xx" for first in range(2, 6)]
    for each in done:
        for label, phase, status, count in each["requests"]:
            requests[label, f"{status // 100}xx"] += count
            phases[phase] += count
    checks = sum((Counter(each["checks"]) for each in done), Counter())
    failures = [(each["seed"], failure) for each in done for failure in each["failures"]]
    total = requests.total()
    labels = sorted({label for label, _ in requests}, key=lambda label: (label.partition(" ")[2], label))
    seeds = sorted(each["seed"] for each in done)
    return "\n".join(
        [
            "# Long run against the contract",
            "",
            "Requests made up from the published OpenAPI document, valid, invalid and in chains, were sent to the",
            "service in process, and every answer was held against the document: status, headers, media type,",
            "schema, acceptance of what is valid, refusal of what is not, keys, methods, and no status of 5xx. No",
            "operation and no check was left out, save for the one on response times, which needs a limit that a",
            "busy machine would break.",
            "",
            f"Run on {datetime.datetime.now(tz=datetime.UTC).date().isoformat()} at revision `{revision()}`, "
            f"document `{digest()}` (SHA-256),",
            f"Python {platform.python_version()}, schemathesis {version('schemathesis')}, "
            f"{sum(each['seconds'] for each in done) / 60:.0f} minutes of work in all, at most "
            f"{max(each['memory_mib'] for each in done)} MiB a process:",
            "",
            "```console",
            command,
            "```",
            "",
            f"**{total:,} requests, {sum(checks.values()):,} checks of their answers, {len(failures)} failures.** "
            f"Seeds: {', '.join(map(str, seeds))};",
            "by phase: " + ", ".join(f"{count:,} {phase}" for phase, count in sorted(phases.items())) + ".",
            "",
            "| operation | requests | " + " | ".join(classes) + " |",
            "|---|--:|" + "--:|" * len(classes),
            *(
                f"| `{label}` | {sum(requests[label, each] for each in classes):,} | "
                + " | ".join(f"{requests[label, each]:,}" for each in classes)
                + " |"
                for label in labels
            ),
            f"| all | {total:,} | "
            + " | ".join(f"{sum(requests[label, each] for label in labels):,}" for each in classes)
            + " |",
            "",
            "| check | times |",
            "|---|--:|",
            *(f"| {name.replace('_', ' ')} | {count:,} |" for name, count in sorted(checks.items())),
            "",
            "## Failures",
            "",
            *(
                line
                for seed, failure in failures[:50]
                for line in (f"Seed {seed}:", "", "```text", failure, "```", "")
            ),
            *([] if failures else ["None.", ""]),
        ]
    )


def main() -> int:
    """Play the rounds and report; return 1 where a check failed."""
    parser = argparse.ArgumentParser(
        prog="python tests/contract/long_run.py", description=__doc__.partition("\n")[0]
    )
    parser.add_argument("--requests", type=int, default=2000, help="at least so many (default: %(default)s)")
    parser.add_argument("--seed", type=int, default=1, help="first seed (default: %(default)s)")
    parser.add_argument("--processes", type=int, default=2, help="rounds at a time (default: %(default)s)")
    parser.add_argument(
        "--examples",
        type=int,
        default=120,
        help="made-up requests an operation and phase (default: %(default)s)",
    )
    parser.add_argument(
        "--keep", type=Path, metavar="FOLDER", help="keep the rounds, and take those that are there"
    )
    parser.add_argument("--write", type=Path, metavar="FILE", help="write the report to a file")
    asked = parser.parse_args()
    with tempfile.TemporaryDirectory() as temporary:
        folder = asked.keep or Path(temporary)
        folder.mkdir(parents=True, exist_ok=True)
        done = rounds(asked, folder)
    text = page(done, shlex.join(["python", "tests/contract/long_run.py", *sys.argv[1:]]))
    print(text)
    if asked.write is not None:
        asked.write.write_text(text, encoding="utf-8")
    return int(any(each["failures"] for each in done))


if __name__ == "__main__":
    sys.exit(main())
