"""Two real worker processes on loopback: what they count adds up, and outlives them."""

import os
import signal
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import httpx
import pytest
from tests.http_api.served import SERVE, Served, clean_environment, read_metrics, value, wait_until

RULES = "/v1/rules"


@contextmanager
def stopped(worker: int) -> Iterator[None]:
    """One worker held still meanwhile, so that the other answers."""
    os.kill(worker, signal.SIGSTOP)
    try:
        state = Path(f"/proc/{worker}/stat")
        wait_until(
            lambda: state.read_text().rpartition(")")[2].split()[0] == "T", "a worker that stands still"
        )
        yield
    finally:
        os.kill(worker, signal.SIGCONT)


def ask(service: Served, times: int) -> None:
    """Ask for the rules, each time on a connection of its own."""
    for _ in range(times):
        assert httpx.get(f"{service.base_url}{RULES}").status_code == 200


def counted(service: Served) -> float | None:
    samples = read_metrics(httpx.get(f"{service.base_url}/metrics").text)
    return value(samples, "requests_total", route=RULES, method="GET", status="200")


def in_progress(service: Served) -> float | None:
    return value(read_metrics(httpx.get(f"{service.base_url}/metrics").text), "requests_in_progress")


@pytest.fixture
def service(tmp_path: Path) -> Iterator[Served]:
    with Served("--workers", "2", TMPDIR=str(tmp_path)) as running:
        wait_until(lambda: running.text.count("startup complete") == 2, "two started workers")
        yield running


def test_requests_to_both_workers_add_up_whichever_is_asked(service: Served, tmp_path: Path) -> None:
    first, second = service.workers()
    with stopped(second):
        ask(service, 7)
        # A request is counted after its answer, and a worker that is stopped between the two counts it later.
        wait_until(lambda: counted(service) == 7, "what the first has counted")
    with stopped(first):
        ask(service, 5)
        wait_until(lambda: counted(service) == 12, "what both have counted")
    with stopped(second):
        assert counted(service) == 12
    (folder,) = tmp_path.iterdir()
    assert {file.name for file in folder.glob("counter_*")} == {f"counter_{first}.db", f"counter_{second}.db"}
    assert folder.stat().st_mode & 0o077 == 0, "others can read what was counted"
    assert service.stop() == 0
    assert list(tmp_path.iterdir()) == []


def test_what_a_killed_worker_counted_stays_and_what_it_had_in_progress_does_not(service: Served) -> None:
    killed, other = service.workers()
    with stopped(other):
        ask(service, 9)
        connection = service.begin_request()
        wait_until(lambda: in_progress(service) == 1, "a request in progress")
    with connection:
        assert counted(service) == 9
        os.kill(killed, signal.SIGKILL)
        seen = [counted(service) for _ in range(5)]
        wait_until(lambda: service.text.count("startup complete") == 3, "a worker in its place")
        seen += [counted(service) for _ in range(5)]
        assert seen == [9] * 10
    wait_until(lambda: in_progress(service) == 0, "nothing in progress")
    assert killed not in service.workers()[1:]
    (new,) = set(service.workers()) - {killed, other}
    with stopped(other):
        ask(service, 2)
    assert Path(f"/proc/{new}").exists()
    assert counted(service) == 11


@pytest.mark.parametrize("workers", ["1", "2"])
def test_a_folder_from_outside_is_left_alone(tmp_path: Path, workers: str) -> None:
    """It may hold the counts of an earlier run."""
    foreign = tmp_path / "foreign"
    foreign.mkdir()
    own = tmp_path / "own"
    own.mkdir()
    with Served("--workers", workers, TMPDIR=str(own), PROMETHEUS_MULTIPROC_DIR=str(foreign)) as service:
        ask(service, 3)
        assert counted(service) == 3
        assert list(foreign.iterdir()) == []
        assert len(list(own.iterdir())) == int(workers) - 1
        service.stop()
    assert list(own.iterdir()) == []


def run(program: str, *arguments: str) -> subprocess.CompletedProcess[str]:
    """Run the command line after some preparation that is the program."""
    source = f"{program}\nif __name__ == '__main__':\n    from branchwright.cli import main\n    main()\n"
    command = [sys.executable, "-c", source, *SERVE[3:], *arguments]
    return subprocess.run(
        command, capture_output=True, text=True, timeout=60, env=clean_environment(), check=False
    )


def test_without_a_place_for_files_several_workers_do_not_start() -> None:
    nowhere = "import tempfile; tempfile.tempdir = '/nowhere'"
    refused = run(nowhere, "--workers", "2")
    assert refused.returncode == 1
    assert "TMPDIR" in refused.stderr
    assert "one worker" in refused.stderr
    assert "Traceback" not in refused.stderr


def test_workers_that_cannot_start_end_the_service_with_a_status() -> None:
    broken = "import branchwright.http_api.serve as serve; serve._FACTORY = 'no_such_module:create_app'"
    ended = run(broken, "--workers", "2")
    # uvicorn.config.STARTUP_FAILURE, which a single process ends with too.
    assert ended.returncode == 3
