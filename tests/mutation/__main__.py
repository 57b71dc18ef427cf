"""Mutation testing: `python tests/mutation --help`.

Works in a copy of the repository, so that the tree can be edited meanwhile and is never changed.
"""

import argparse
import datetime
import json
import os
import platform
import shlex
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).parents[2]
sys.path[0] = str(ROOT)

from tests.mutation import report  # noqa: E402
from tests.mutation.suites import SERVICE, SUITES  # noqa: E402
from tests.tree import revision  # noqa: E402

COPIED = ("service", "tests", "openapi", "pyproject.toml")


def options() -> argparse.ArgumentParser:
    """The options of the command."""
    parser = argparse.ArgumentParser(prog="python tests/mutation", description="Try mutants of the service.")
    parser.add_argument(
        "--paths",
        nargs="+",
        default=[str(SERVICE / package) for package in SUITES],
        help="source files or folders (default: %(default)s)",
    )
    parser.add_argument("--tests", nargs="+", default=[], help="tests to ask beside those of the package")
    parser.add_argument("--sample", type=int, metavar="N", help="try at most N mutants of each package")
    parser.add_argument("--seed", type=int, default=1, help="seed of the sample (default: %(default)s)")
    parser.add_argument("--processes", type=int, default=2, help="mutants at a time (default: %(default)s)")
    parser.add_argument(
        "--patience",
        type=float,
        default=20.0,
        metavar="SECONDS",
        help="ask no more tests about a mutant than run in so long without it (default: %(default)s)",
    )
    parser.add_argument("--write", type=Path, metavar="FILE", help="write the report to a file")
    return parser


def main() -> None:
    """Copy the repository, try the mutants in the copy, report."""
    asked = options().parse_args()
    with tempfile.TemporaryDirectory(prefix="mutation-") as folder:
        copy = Path(folder).resolve() / "copy"
        for name in COPIED:
            if (ROOT / name).is_dir():
                shutil.copytree(
                    ROOT / name, copy / name, ignore=shutil.ignore_patterns("__pycache__", "*.egg-info")
                )
            else:
                shutil.copy(ROOT / name, copy / name)
        task, result = Path(folder) / "task.json", Path(folder) / "result.json"
        task.write_text(json.dumps({**vars(asked), "write": None}), encoding="utf-8")
        path = os.pathsep.join((str(copy / "service"), str(copy)))
        subprocess.run(
            [sys.executable, "-m", "tests.mutation.session", str(task), str(result)],
            cwd=copy,
            env={**os.environ, "PYTHONPATH": path, "PYTHONSAFEPATH": "1"},
            check=True,
        )
        outcome = json.loads(result.read_text(encoding="utf-8"))
    fates, open_, _ = report.counted(outcome["results"])
    print("\n".join([*report.table(fates), "", *report.listed(open_)]))
    if asked.write is not None:
        command = shlex.join(["python", "tests/mutation", *sys.argv[1:]])
        day = datetime.datetime.now(tz=datetime.UTC).date().isoformat()
        asked.write.write_text(report.page(outcome, command, day, revision(), machine()), encoding="utf-8")


def machine() -> str:
    """The interpreter and the number of processors."""
    return f"Python {platform.python_version()} on {os.cpu_count()} processors"


if __name__ == "__main__":
    main()
