"""One run of the tests on the unchanged source: how much processor time each takes and which lines it executes."""

import functools
import json
import sys
import time
from collections import defaultdict
from collections.abc import Iterator
from dataclasses import asdict, dataclass
from pathlib import Path

import coverage
import pytest

OUTSIDE = ""
"""The name under which lines stand that run while tests are imported and collected."""


@dataclass(frozen=True)
class Baseline:
    """Processor seconds by test that passes, the others, tests by file and line, libraries that the tests load."""

    seconds: dict[str, float]
    failed: list[str]
    tests: dict[str, dict[int, list[str]]]
    libraries: list[str]

    def written(self, path: Path) -> None:
        """Write to a file as JSON."""
        path.write_text(json.dumps(asdict(self)), encoding="utf-8")

    @staticmethod
    def read(path: Path) -> "Baseline":
        """Read what `written` wrote."""
        record = json.loads(path.read_text(encoding="utf-8"))
        tests = {
            name: {int(line): found for line, found in lines.items()}
            for name, lines in record["tests"].items()
        }
        return Baseline(record["seconds"], record["failed"], tests, record["libraries"])


class Observer:
    """A plugin that names the running test to the coverage measurement and takes its time.

    Before each test the caches of the measured modules are emptied, so that a test that merely finds what another
    has left in a cache is known to depend on the lines that fill it.
    """

    def __init__(self, measured: coverage.Coverage, files: list[str]) -> None:
        self.seconds: dict[str, float] = {}
        self.failed: list[str] = []
        self._measured = measured
        self._files = files

    @pytest.hookimpl(wrapper=True)
    def pytest_runtest_protocol(self, item: pytest.Item) -> Iterator[None]:
        for cached in _caches(self._files):
            cached.cache_clear()
        self._measured.switch_context(item.nodeid)
        begun = time.process_time()
        found = yield
        self.seconds[item.nodeid] = time.process_time() - begun
        self._measured.switch_context(OUTSIDE)
        return found

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        if report.failed:
            self.failed.append(report.nodeid)


def _caches(files: list[str]) -> "list[functools._lru_cache_wrapper[object]]":
    return [
        value
        for module in list(sys.modules.values())
        if getattr(module, "__file__", None) in files
        for value in vars(module).values()
        if isinstance(value, functools._lru_cache_wrapper)
    ]


def observe(root: Path, files: list[Path], arguments: list[str], written_to: Path) -> None:
    """Run the tests once and write the baseline; exits where they cannot be run at all."""
    before = set(sys.modules)
    measured = coverage.Coverage(
        data_file=None, include=[str(root / file) for file in files], config_file=False, messages=False
    )
    measured.start()
    observer = Observer(measured, [str(root / file) for file in files])
    code = pytest.main(arguments, plugins=[observer])
    measured.stop()
    # Tests that fail without any mutant are left out of the trials, and the report names them.
    if code not in (pytest.ExitCode.OK, pytest.ExitCode.TESTS_FAILED):
        raise SystemExit(f"The tests cannot be run: {code!r}")
    data = measured.get_data()
    tests: dict[str, dict[int, list[str]]] = {}
    for file in files:
        lines: defaultdict[int, list[str]] = defaultdict(list)
        for line, contexts in data.contexts_by_lineno(str(root / file)).items():
            lines[line] += contexts
        tests[str(file)] = dict(lines)
    seconds = {name: taken for name, taken in observer.seconds.items() if name not in observer.failed}
    Baseline(seconds, observer.failed, tests, _libraries(root, before)).written(written_to)


def _libraries(root: Path, before: set[str]) -> list[str]:
    """Modules that came with the tests and are neither ours nor tests."""
    ours = (str(root), "tests", "branchwright")
    return [
        name
        for name, module in list(sys.modules.items())
        if name not in before
        and name.partition(".")[0] not in ours
        and getattr(module, "__spec__", None) is not None
        and not str(getattr(module, "__file__", None) or root).startswith(str(root))
    ]
