"""A worker that is killed under load costs no caller an answer: the SDK asks again, another worker takes its place."""

import json
import os
import re
import signal
import subprocess
import sys
import threading
import time
from concurrent.futures import ThreadPoolExecutor

import pytest

from branchwright_sdk import Client, Pacing

WORKERS = 3
THREADS = 8
CALLS_PER_THREAD = 60
KILLS = 2
# Now and then a worker is killed between two questions, and nobody has to ask again; then one more is killed.
MOST_KILLS = 8
WITHIN_S = 60

# A continuous load of 125 % and the next standard rating.
BREAKERS_A = {12: 15, 16: 20, 24: 30, 28: 35, 32: 40, 40: 50, 48: 60, 64: 80}


class Supervised:
    """The service with several workers, and what its log says of them."""

    def __init__(self):
        environment = {
            name: value for name, value in os.environ.items() if not name.startswith("BRANCHWRIGHT_")
        }
        self.process = subprocess.Popen(
            [sys.executable, "-m", "branchwright.cli", "serve", "--port", "0", "--workers", str(WORKERS)],
            stderr=subprocess.PIPE,
            env=environment,
            text=True,
        )
        self.base_url = None
        self.started = []
        self.died = []
        self._news = threading.Condition()
        self._reader = threading.Thread(target=self._read)
        self._reader.start()

    def _read(self):
        for text in self.process.stderr:
            message = json.loads(text)["message"]
            with self._news:
                if found := re.search(r"running on (http://[\d.:]+)", message):
                    self.base_url = found[1]
                elif found := re.fullmatch(r"Started server process \[(\d+)\]", message):
                    self.started.append(int(found[1]))
                elif found := re.fullmatch(r"Child process \[(\d+)\] died", message):
                    self.died.append(int(found[1]))
                self._news.notify_all()

    def wait_until(self, condition):
        with self._news:
            assert self._news.wait_for(condition, WITHIN_S), (self.started, self.died)

    def alive(self):
        return [worker for worker in self.started if worker not in self.died]

    def stop(self):
        self.process.terminate()
        status = self.process.wait(30)
        self._reader.join(30)
        self.process.stderr.close()
        return status


@pytest.fixture
def service():
    running = Supervised()
    try:
        running.wait_until(lambda: running.base_url and len(running.started) == WORKERS)
        yield running
    finally:
        if running.process.poll() is None:
            running.stop()


class Load:
    """Threads that ask for designs over one client, and count answers and repeated questions."""

    def __init__(self, base_url):
        self.answers = 0
        self.repeated = 0
        self.enough = threading.Event()
        self._base_url = base_url
        self._count = threading.Lock()

    def _wait(self, seconds):
        with self._count:
            self.repeated += 1
        time.sleep(seconds)

    def run(self):
        """Every thread's answers as pairs of charging current and rating, once enough have been given."""
        # The waits are those of the default; they are only counted.
        with (
            Client(self._base_url, pacing=Pacing(sleep=self._wait)) as client,
            ThreadPoolExecutor(THREADS) as pool,
        ):
            asking = [pool.submit(self._ask, client, number) for number in range(THREADS)]
            return [pair for one in asking for pair in one.result()]

    def _ask(self, client, number):
        currents = list(BREAKERS_A)
        given = []
        deadline = time.monotonic() + WITHIN_S
        while len(given) < CALLS_PER_THREAD or not self.enough.is_set():
            assert time.monotonic() < deadline
            current = currents[(number + len(given)) % len(currents)]
            answer = client.circuits.design(
                edition="nec-2023",
                supply={"system": "split-phase-120-240"},
                charger={"charging_current_a": current, "connection": {"kind": "hardwired"}},
                conductors={"material": "copper"},
                run=[{"wiring_method": "emt", "length": {"value": 27, "unit": "ft"}, "location": "dry"}],
            )
            given.append((current, answer.design.breaker.rating_a))
            with self._count:
                self.answers += 1
        return given


@pytest.mark.source("NFPA 70:2023, 625.41 and 240.6(A)")
def test_killing_workers_costs_no_answer(service):
    load = Load(service.base_url)
    with ThreadPoolExecutor(1) as aside:
        asking = aside.submit(load.run)
        try:
            # Done before it is told that it is enough, it has failed; its result says how.
            while (len(service.died) < KILLS or not load.repeated) and not asking.done():
                assert len(service.died) < MOST_KILLS
                answered = load.answers
                while load.answers < answered + CALLS_PER_THREAD and not asking.done():
                    time.sleep(0.01)
                victim = service.alive()[0]
                os.kill(victim, signal.SIGKILL)
                service.wait_until(lambda victim=victim: victim in service.died)
                service.wait_until(lambda: len(service.alive()) == WORKERS)
        finally:
            load.enough.set()
        pairs = asking.result()
    assert len(pairs) >= THREADS * CALLS_PER_THREAD
    assert {pair for pair in pairs if pair[1] != BREAKERS_A[pair[0]]} == set()
    assert len(service.died) >= KILLS
    assert load.repeated
    assert service.stop() == 0
