"""Tries mutants: each in a fork of this process, which has the libraries loaded and nothing of the service.

The fork imports the service with one module changed, as if the change stood in the file; nothing that ran before the
change, no cache and no value computed at import, can hide it.
"""

import contextlib
import gc
import importlib
import importlib.abc
import importlib.machinery
import importlib.util
import os
import resource
import signal
import sys
import time
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field
from enum import IntEnum
from math import ceil
from pathlib import Path
from types import ModuleType

import pytest
from tests.mutation.baseline import OUTSIDE, Baseline
from tests.mutation.mutants import Mutant
from tests.mutation.suites import rank

MEMORY_BYTES = 6 * 1024**3
SLOWER = 8
"""A mutant may take so many times the processor time that the tests took without it; then it is stopped."""
GRACE_S = 10
IDLE = 30
"""So many times as long on the clock, for a mutant that waits and never works."""


class Fate(IntEnum):
    """What became of a mutant; the number is the exit status of its process."""

    SURVIVED = 10
    KILLED = 11
    TIMED_OUT = 12
    NOT_COVERED = 13
    FAULT = 14


@dataclass
class Trial:
    """A mutant with the tests to ask, in order; without a mutant a control, which must survive."""

    mutant: Mutant | None
    tests: list[str]
    seconds: float
    fate: Fate = Fate.NOT_COVERED
    _begun: float = field(default=0.0, repr=False)


class Selection:
    """A plugin that runs the chosen tests in their order and ends with the first that fails."""

    def __init__(self, tests: list[str]) -> None:
        self._order = {name: place for place, name in enumerate(tests)}

    def pytest_collection_modifyitems(self, items: list[pytest.Item]) -> None:
        chosen = [item for item in items if item.nodeid in self._order]
        items[:] = sorted(chosen, key=lambda item: self._order[item.nodeid])


class Changed(importlib.machinery.SourceFileLoader):
    """Loads a module from other bytes than those of its file."""

    def __init__(self, name: str, path: str, content: bytes) -> None:
        super().__init__(name, path)
        self._content = content

    def get_code(self, fullname: str) -> object:
        return compile(self._content, self.path, "exec", dont_inherit=True)


class ChangedFirst(importlib.abc.MetaPathFinder):
    """Finds the one changed module before anything else does."""

    def __init__(self, name: str, path: Path, content: bytes) -> None:
        self._name, self._path, self._content = name, str(path), content

    def find_spec(
        self, fullname: str, path: object, target: ModuleType | None = None
    ) -> importlib.machinery.ModuleSpec | None:
        if fullname != self._name:
            return None
        is_package = self._path.endswith("__init__.py")
        return importlib.util.spec_from_file_location(
            fullname,
            self._path,
            loader=Changed(fullname, self._path, self._content),
            submodule_search_locations=[str(Path(self._path).parent)] if is_package else None,
        )


def plan(mutants: Iterable[Mutant], known: Baseline, suite: list[str], patience_s: float) -> Iterator[Trial]:
    """Choose the tests for each mutant: those that execute its statement, by their place in the suite, quickest first.

    Where its statement also runs at import, all others follow. The tests of a trial take no longer together than
    `patience_s` without the mutant, save that there is always one.
    """
    ordered = sorted(known.seconds, key=lambda test: (rank(suite, test), known.seconds[test]))
    for mutant in mutants:
        by_line = known.tests[mutant.path]
        lines = [by_line.get(line, []) for line in range(mutant.first_line, mutant.last_line + 1)]
        near = {test for tests in lines for test in tests}
        chosen = [test for test in ordered if test in near]
        if OUTSIDE in near:
            chosen += [test for test in ordered if test not in near]
        kept: list[str] = []
        spent = 0.0
        for test in chosen:
            if kept and spent + known.seconds[test] > patience_s:
                continue
            kept.append(test)
            spent += known.seconds[test]
        yield Trial(mutant, kept, spent)


def load(libraries: list[str]) -> None:
    """Import what the tests will import, so that forks need not."""
    for name in libraries:
        # Some are made by their owners while those are imported, and cannot be imported by name.
        with contextlib.suppress(ImportError, AttributeError):
            importlib.import_module(name)


def run(
    trials: Iterable[Trial],
    root: Path,
    sources: dict[str, bytes],
    processes: int,
    arguments: list[str],
    done: Callable[[Trial], None],
) -> None:
    """Try each mutant in a process of its own, so many at a time, and report each trial that is over."""
    running: dict[int, Trial] = {}
    # What is here already is left out of every collection of garbage in the forks, which would copy it.
    gc.freeze()
    try:
        _try_all(iter(trials), running, root, sources, processes, arguments, done)
    finally:
        for process in running:
            os.killpg(process, signal.SIGKILL)
            os.waitpid(process, 0)


def _try_all(
    waiting: Iterator[Trial],
    running: dict[int, Trial],
    root: Path,
    sources: dict[str, bytes],
    processes: int,
    arguments: list[str],
    done: Callable[[Trial], None],
) -> None:
    more = True
    while more or running:
        while more and len(running) < processes:
            trial = next(waiting, None)
            if trial is None:
                more = False
            elif not trial.tests:
                done(trial)
            else:
                trial._begun = time.monotonic()
                running[_fork(trial, root, sources, arguments)] = trial
        time.sleep(0.005)
        for process, trial in list(running.items()):
            ended, status = os.waitpid(process, os.WNOHANG)
            if ended:
                trial.fate = _fate(status)
            elif time.monotonic() - trial._begun > IDLE * _limit_s(trial):
                os.killpg(process, signal.SIGKILL)
                os.waitpid(process, 0)
                trial.fate = Fate.TIMED_OUT
            else:
                continue
            del running[process]
            done(trial)


def _limit_s(trial: Trial) -> int:
    return GRACE_S + ceil(SLOWER * trial.seconds)


def _fate(status: int) -> Fate:
    if os.WIFSIGNALED(status):
        # Only a mutant that exhausts memory or the stack ends by another signal; whoever runs it notices.
        return Fate.TIMED_OUT if os.WTERMSIG(status) == signal.SIGXCPU else Fate.KILLED
    code = os.WEXITSTATUS(status)
    return Fate(code) if code in set(Fate) else Fate.FAULT


def _fork(trial: Trial, root: Path, sources: dict[str, bytes], arguments: list[str]) -> int:
    sys.stdout.flush()
    process = os.fork()
    if process:
        return process
    os.setpgid(0, 0)
    fate = Fate.FAULT
    try:
        fate = _tried(trial, root, sources, arguments)
    finally:
        os._exit(fate)


def _tried(trial: Trial, root: Path, sources: dict[str, bytes], arguments: list[str]) -> Fate:
    if trial.mutant is not None:
        quiet = os.open(os.devnull, os.O_WRONLY)
        os.dup2(quiet, 1)
        os.dup2(quiet, 2)
    resource.setrlimit(resource.RLIMIT_AS, (MEMORY_BYTES, MEMORY_BYTES))
    limit_s = _limit_s(trial)
    resource.setrlimit(resource.RLIMIT_CPU, (limit_s, limit_s + 1))
    if trial.mutant is not None:
        path = root / trial.mutant.path
        module = (
            path.relative_to(root / "service")
            .with_suffix("")
            .as_posix()
            .replace("/", ".")
            .removesuffix(".__init__")
        )
        changed = trial.mutant.applied(sources[trial.mutant.path])
        sys.meta_path.insert(0, ChangedFirst(module, path, changed))
    files = sorted({test.partition("::")[0] for test in trial.tests})
    code = pytest.main(["-x", *arguments, *files], plugins=[Selection(trial.tests)])
    match code:
        case pytest.ExitCode.OK:
            return Fate.SURVIVED
        # A module that cannot be imported any more stops the collection, which pytest calls an interruption.
        case pytest.ExitCode.TESTS_FAILED | pytest.ExitCode.INTERRUPTED:
            return Fate.KILLED
        case pytest.ExitCode.USAGE_ERROR if trial.mutant is not None:
            # A conftest imports the service.
            return Fate.KILLED
        case _:
            return Fate.FAULT
