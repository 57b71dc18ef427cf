"""A real service and bodies far longer than it takes: refused early, and held in bounded memory. Linux only."""

import json
import re
import socket
import threading
from pathlib import Path

import httpx
import pytest
from tests.http_api.served import Served, wait_until

from branchwright.http_api.v1 import service_examples

MIB = 1024 * 1024
LIMIT = 32 * MIB
PATH = "/v1/interval-data"
# Four of the longest bodies are held at once, each twice while its pieces are put together, and two are worked on.
MOST_GROWTH = 500 * MIB


@pytest.fixture(scope="module")
def service():
    with Served() as running:
        yield running


def resident(service, peak=False):
    """What the service holds in RAM now, or has held at most, in bytes."""
    (process,) = service.workers()
    status = Path(f"/proc/{process}/status").read_text()
    found = re.search(r"VmHWM:\s+(\d+) kB" if peak else r"VmRSS:\s+(\d+) kB", status)
    return int(found[1]) * 1024


def head(media_type, *headers):
    lines = [f"POST {PATH} HTTP/1.1", "Host: 127.0.0.1", f"Content-Type: {media_type}", *headers]
    return "\r\n".join([*lines, "", ""]).encode()


def answered(connection):
    """The status line and headers of an answer."""
    received = b""
    while b"\r\n\r\n" not in received:
        piece = connection.recv(65536)
        assert piece, received
        received += piece
    return received.partition(b"\r\n\r\n")[0].decode()


@pytest.mark.parametrize("media_type", ["text/csv", "application/xml", "application/json"])
def test_a_declared_gigabyte_is_refused_before_it_is_sent(service, media_type):
    with socket.create_connection(("127.0.0.1", service.port), timeout=30) as connection:
        connection.sendall(head(media_type, "Content-Length: 1000000000"))
        assert "413" in answered(connection)


@pytest.mark.parametrize("media_type", ["text/csv", "application/xml", "application/json"])
def test_a_chunked_gigabyte_is_refused_when_it_passes_the_limit(service, media_type):
    """The whole of it is sent, as a client does that reads no answer before it has: memory stays as it was."""
    before = resident(service)
    piece = b"100000\r\n" + b" " * MIB + b"\r\n"
    sent = 0
    refused_after = None
    with socket.create_connection(("127.0.0.1", service.port), timeout=60) as connection:
        connection.sendall(head(media_type, "Transfer-Encoding: chunked"))
        for _ in range(1_000):
            connection.sendall(piece)
            sent += MIB
            if refused_after is None:
                connection.setblocking(False)
                try:
                    assert b"413" in connection.recv(65536)
                    refused_after = sent
                except BlockingIOError:
                    pass
                connection.setblocking(True)
        connection.sendall(b"0\r\n\r\n")
        # The connection lives: what came after the refusal was thrown away, not kept.
        connection.sendall(b"GET /health/live HTTP/1.1\r\nHost: 127.0.0.1\r\n\r\n")
        assert "200" in answered(connection)
    assert refused_after is not None
    assert refused_after < 2 * LIMIT
    assert resident(service) - before < 100 * MIB


def test_several_of_the_longest_at_once_are_answered_or_refused_within_bounds(service):
    before = resident(service)
    rows = b"Start,kWh\n" + b"2025-01-14T00:00:00Z,1.25,\n" * ((LIMIT - 1_000) // 27)
    statuses = []

    def send():
        answer = httpx.post(
            f"{service.base_url}{PATH}?unit=energy-kwh&time_column=Start&value_column=kWh",
            content=rows,
            headers={"Content-Type": "text/csv"},
            timeout=120,
        )
        statuses.append(answer.status_code)

    threads = [threading.Thread(target=send) for _ in range(8)]
    for thread in threads:
        thread.start()
    # Others are answered meanwhile.
    small = httpx.post(f"{service.base_url}/v1/circuit-designs", json={}, timeout=60)
    for thread in threads:
        thread.join()
    assert small.status_code == 422
    # More rows than are taken: each that is read is a problem or a finding, the others found no room.
    assert set(statuses) <= {200, 400, 429}
    assert len(statuses) == 8
    assert resident(service, peak=True) - before < MOST_GROWTH


def test_what_was_held_is_given_back(service):
    """Whoever leaves in the middle of a long body makes room again."""
    for _ in range(3):
        connections = []
        for _ in range(4):
            connection = socket.create_connection(("127.0.0.1", service.port), timeout=30)
            connection.sendall(head("text/csv", f"Content-Length: {LIMIT}"))
            connection.sendall(b" " * (LIMIT - MIB))
            connections.append(connection)
        for connection in connections:
            connection.close()

    def there_is_room():
        answer = httpx.post(
            f"{service.base_url}{PATH}",
            content=service_examples.CSV.encode().ljust(LIMIT),
            headers={"Content-Type": "text/csv"},
            timeout=60,
        )
        return answer.status_code == 200

    wait_until(there_is_room, "room for a long body")


def test_a_long_answer_comes_over_the_wire(service):
    series = {
        "kind": "regular",
        "start": "2024-01-01T00:00:00Z",
        "interval_minutes": 15,
        "energy_wh": [number % 96 * 10 for number in range(35_040)],
    }
    answer = httpx.post(
        f"{service.base_url}{PATH}",
        content=json.dumps({"series": series}),
        headers={"Content-Type": "application/json"},
        timeout=60,
    )
    assert answer.status_code == 200
    assert answer.json()["series"]["energy_wh"] == series["energy_wh"]
