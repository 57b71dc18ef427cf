"""A real process on loopback: it answers, keeps its memory, logs JSON lines, and stops with care."""

import json
import os
import re
import signal
import subprocess
import sys
import threading
from pathlib import Path

import httpx
import pytest

PROGRAM = Path(__file__).with_name("slow_service.py")


class Process:
    """The running service and what it has logged so far."""

    def __init__(self):
        environment = {
            name: value for name, value in os.environ.items() if not name.startswith("BRANCHWRIGHT_")
        }
        self.process = subprocess.Popen(
            [sys.executable, PROGRAM], stderr=subprocess.PIPE, env=environment, text=True
        )
        self.lines = []
        self.base_url = None
        self._listening = threading.Event()
        self._reader = threading.Thread(target=self._read)
        self._reader.start()
        assert self._listening.wait(30), self.lines

    def _read(self):
        for text in self.process.stderr:
            self.lines.append(json.loads(text))
            found = re.search(r"running on (http://[\d.:]+)", self.lines[-1]["message"])
            if found:
                self.base_url = found[1]
                self._listening.set()
        self._listening.set()

    def stop(self):
        self.process.send_signal(signal.SIGTERM)
        return self.wait()

    def wait(self):
        code = self.process.wait(30)
        self._reader.join(30)
        self.process.stderr.close()
        return code

    def resident_peak_kb(self):
        status = Path(f"/proc/{self.process.pid}/status").read_text()
        return int(re.search(r"VmHWM:\s+(\d+) kB", status)[1])


@pytest.fixture
def service():
    running = Process()
    yield running
    if running.process.poll() is None:
        running.process.kill()
        running.wait()


def test_a_request_in_flight_is_answered_before_the_process_ends(service):
    answers = []

    def ask():
        answers.append(httpx.post(f"{service.base_url}/v1/waits", json={"seconds": 1.5}, timeout=20))

    asking = threading.Thread(target=ask)
    with httpx.Client(base_url=service.base_url) as client:
        assert client.get("/health/ready").json() == {"status": "ready"}
        asking.start()
        # A later answer shows that the service has taken the question.
        threading.Event().wait(0.5)
        assert client.get("/health/live").status_code == 200
        service.process.send_signal(signal.SIGTERM)
    # uvicorn ends by the very signal that it was sent, after everything is done.
    assert service.wait() == -signal.SIGTERM
    asking.join(20)
    assert [(answer.status_code, answer.json()) for answer in answers] == [(200, {"seconds": 1.5})]
    with pytest.raises(httpx.ConnectError):
        httpx.get(f"{service.base_url}/health/live")


def test_a_hundred_megabytes_are_refused_in_little_memory(service):
    megabyte = b" " * 1_000_000
    before = service.resident_peak_kb()
    with httpx.Client(base_url=service.base_url, timeout=30) as client:
        headers = {"Content-Type": "application/json"}
        streamed = client.post("/v1/waits", content=(megabyte for _ in range(100)), headers=headers)
        assert streamed.status_code == 413
        declared = client.post("/v1/waits", content=megabyte * 100, headers=headers)
        assert declared.status_code == 413
        assert client.post("/v1/waits", json={"seconds": 0}).status_code == 200
    assert service.resident_peak_kb() - before < 20_000


def test_answers_do_not_name_the_server_and_lines_are_json(service):
    with httpx.Client(base_url=service.base_url) as client:
        answer = client.post("/v1/waits", json={"seconds": 0}, headers={"X-Request-ID": "one"})
        head = client.head("/health/live")
    assert "server" not in answer.headers
    assert (head.status_code, head.content) == (200, b"")
    service.stop()
    access = [line for line in service.lines if line["logger"] == "branchwright.access"]
    assert [(line["method"], line["route"], line["status"]) for line in access] == [
        ("POST", "/v1/waits", 200),
        ("HEAD", "/health/live", 200),
    ]
    assert access[0]["request_id"] == "one"
    assert all({"time", "level", "message"} <= line.keys() for line in service.lines)
