"""A `branchwright serve` of its own for a test: started on a free loopback port, watched, and always stopped."""

import json
import os
import re
import signal
import socket
import subprocess
import sys
import threading
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any, Self

from prometheus_client.parser import text_string_to_metric_families

WITHIN_S = 30.0
SERVE = (sys.executable, "-m", "branchwright.cli", "serve", "--port", "0")

Samples = dict[tuple[str, frozenset[tuple[str, str]]], float]


def clean_environment(**variables: str) -> dict[str, str]:
    """The environment without settings of a service, but with these variables."""
    foreign = ("BRANCHWRIGHT_", "OTEL_", "PROMETHEUS_")
    kept = {name: value for name, value in os.environ.items() if not name.upper().startswith(foreign)}
    return kept | variables


def wait_until(is_so: Callable[[], bool], what: str) -> None:
    """Wait some time for something to become so; AssertionError where it does not."""
    end = time.monotonic() + WITHIN_S
    while not is_so():
        assert time.monotonic() < end, f"not within {WITHIN_S} s: {what}"
        time.sleep(0.02)


class Served:
    """A context manager: the running service, what it has logged, and its address as ``base_url``."""

    base_url: str
    port: int

    def __init__(self, *arguments: str, **variables: str) -> None:
        self.text = ""
        self._process = subprocess.Popen(
            [*SERVE, *arguments], stderr=subprocess.PIPE, env=clean_environment(**variables), text=True
        )
        self._reader = threading.Thread(target=self._read)
        self._reader.start()

    def _read(self) -> None:
        assert self._process.stderr is not None
        for line in self._process.stderr:
            self.text += line

    def __enter__(self) -> Self:
        try:
            wait_until(lambda: self._is_over() or self._address() is not None, "a started service")
            found = self._address()
            assert found is not None, self.text
        except BaseException:
            self.kill()
            raise
        self.base_url, self.port = found[1], int(found[2])
        return self

    def __exit__(self, *_: object) -> None:
        self.kill()

    def _address(self) -> re.Match[str] | None:
        """Where it listens, once a worker answers there."""
        if "startup complete" not in self.text:
            return None
        return re.search(r"running on (http://127\.0\.0\.1:(\d+))", self.text)

    def _is_over(self) -> bool:
        return self._process.poll() is not None

    @property
    def lines(self) -> list[dict[str, Any]]:
        """What was logged; fails where a line is no JSON object."""
        return [json.loads(line) for line in self.text.splitlines()]

    def workers(self) -> list[int]:
        """The process ids of the workers that have started, the first first."""
        return [int(found) for found in re.findall(r"Started server process \[(\d+)\]", self.text)]

    def stop(self) -> int:
        """Stop as a supervisor would; the exit status."""
        self._process.send_signal(signal.SIGTERM)
        return self._ended()

    def kill(self) -> None:
        """End it and its workers, whatever state they are in."""
        if not self._is_over():
            for worker in self.workers():
                if Path(f"/proc/{worker}").exists():
                    os.kill(worker, signal.SIGCONT)
            self._process.terminate()
        try:
            self._ended()
        except subprocess.TimeoutExpired:
            self._process.kill()
            self._ended()

    def _ended(self) -> int:
        status = self._process.wait(WITHIN_S)
        self._reader.join(WITHIN_S)
        assert self._process.stderr is not None
        self._process.stderr.close()
        return status

    def begin_request(self, path: str = "/v1/circuit-designs") -> socket.socket:
        """A connection on which a request has begun whose body does not come."""
        connection = socket.create_connection(("127.0.0.1", self.port), timeout=WITHIN_S)
        head = f"POST {path} HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Type: application/json\r\n"
        connection.sendall(f"{head}Content-Length: 100\r\n\r\n{{".encode())
        return connection


def read_metrics(text: str) -> Samples:
    """The samples of a Prometheus text by name and labels, as the library's own parser reads them."""
    samples = [sample for family in text_string_to_metric_families(text) for sample in family.samples]
    found: Samples = {(sample.name, frozenset(sample.labels.items())): sample.value for sample in samples}
    assert len(found) == len(samples), "a series is shown twice"
    return found


def value(samples: Samples, name: str, **labels: str) -> float | None:
    """The value of one series; None where it is not shown."""
    return samples.get((f"branchwright_{name}", frozenset(labels.items())))
