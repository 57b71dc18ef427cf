"""A service in a process of its own for the benchmarks: started on loopback, watched, and always stopped."""

import http.client
import os
import re
import socket
import subprocess
import sys
import time
from collections.abc import Sequence
from pathlib import Path
from types import TracebackType

READY_WITHIN_S = 60.0
# The settings that every process here is served with, ours and the others it is held against.
PLAIN_SETTINGS = {
    "loop": "uvloop",
    "http": "httptools",
    "ws": "none",
    "lifespan": "on",
    "server_header": False,
    "proxy_headers": False,
    "access_log": False,
}


def free_port() -> int:
    """A port that nothing listens on at the moment."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


def cores() -> tuple[int | None, int | None]:
    """One core for the service and another for the client; None where cores cannot be chosen or there is one."""
    if not hasattr(os, "sched_getaffinity"):
        return None, None
    available = sorted(os.sched_getaffinity(0))
    return (available[0], available[1]) if len(available) > 1 else (None, None)


def pin(core: int | None) -> None:
    """Keep this process on one core."""
    if core is not None:
        os.sched_setaffinity(0, {core})


class Served:
    """A context manager: the running process, from its start until it is stopped.

    ``arguments`` are those of the Python interpreter; "PORT" among them stands for the port. Without ``core`` it
    runs wherever the system puts it. ``started_s`` is how long it took from the start until /health/ready answered.
    """

    started_s: float

    def __init__(self, arguments: Sequence[str], core: int | None = None) -> None:
        self.port = free_port()
        self._arguments = [str(self.port) if part == "PORT" else part for part in arguments]
        self._core = core

    def __enter__(self) -> "Served":
        environment = {
            name: value for name, value in os.environ.items() if not name.startswith("BRANCHWRIGHT_")
        }
        begun = time.perf_counter()
        self._process = subprocess.Popen(
            [sys.executable, *self._arguments],
            env=environment,
            cwd=Path(__file__).parent,
            stderr=subprocess.DEVNULL,
            stdout=subprocess.DEVNULL,
        )
        if self._core is not None:
            os.sched_setaffinity(self._process.pid, {self._core})
        try:
            while not self._is_ready():
                if self._process.poll() is not None:
                    raise RuntimeError(f"{self._arguments} ended with {self._process.returncode}")
                if time.perf_counter() - begun > READY_WITHIN_S:
                    raise TimeoutError(f"{self._arguments} was not ready within {READY_WITHIN_S} s")
                time.sleep(0.002)
        except BaseException:
            self.stop()
            raise
        self.started_s = time.perf_counter() - begun
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.stop()

    def stop(self) -> None:
        """Ask the process to stop, and end it if it does not."""
        self._process.terminate()
        try:
            self._process.wait(10)
        except subprocess.TimeoutExpired:
            self._process.kill()
            self._process.wait(10)

    def resident_mb(self) -> float:
        """The memory of the process that is in RAM, MB of 1,000,000 bytes. Linux only."""
        return _resident_mb(self._process.pid)

    def workers_mb(self) -> dict[int, float]:
        """The same of each worker process by its number, where there are several. Linux only."""
        process = Path(f"/proc/{self._process.pid}")
        children = (process / "task" / process.name / "children").read_text(encoding="utf-8").split()
        # Another child of the interpreter keeps track of what they share.
        return {
            int(child): _resident_mb(int(child))
            for child in children
            if b"spawn_main" in Path(f"/proc/{child}/cmdline").read_bytes()
        }

    def processor_s(self) -> float:
        """The processor time that the process has used. Linux only."""
        fields = (
            Path(f"/proc/{self._process.pid}/stat").read_text(encoding="utf-8").rpartition(")")[2].split()
        )
        return (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")

    def _is_ready(self) -> bool:
        connection = http.client.HTTPConnection("127.0.0.1", self.port, timeout=5)
        try:
            connection.request("GET", "/health/ready")
            return connection.getresponse().status == 200
        except ConnectionRefusedError:
            return False
        finally:
            connection.close()


def _resident_mb(number: int) -> float:
    status = Path(f"/proc/{number}/status").read_text(encoding="utf-8")
    found = re.search(r"VmRSS:\s+(\d+) kB", status)
    if found is None:
        raise RuntimeError(f"process {number} has no VmRSS")
    return int(found[1]) * 1024 / 1e6
