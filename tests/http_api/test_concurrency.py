"""A real service at its limit of requests at once: who is refused, and that the count comes back right."""

import json
import socket
import struct

import httpx
import pytest
from tests.http_api.served import Served, read_metrics, value, wait_until

LIMIT = 2
RESET = struct.pack("ii", 1, 0)


@pytest.fixture(scope="module")
def service():
    with Served(BRANCHWRIGHT_CONCURRENCY_LIMIT=str(LIMIT)) as running:
        yield running


def in_progress(service):
    return value(read_metrics(httpx.get(f"{service.base_url}/metrics").text), "requests_in_progress")


def fill(service):
    """As many requests as the limit allows, all waiting for their bodies."""
    connections = [service.begin_request() for _ in range(LIMIT)]
    wait_until(lambda: in_progress(service) == LIMIT, "a full service")
    return connections


def leave(connection, how):
    """End a connection whose request has no answer yet."""
    if how == "reset":
        connection.setsockopt(socket.SOL_SOCKET, socket.SO_LINGER, RESET)
    elif how == "half":
        connection.shutdown(socket.SHUT_WR)
        connection.recv(1000)
    connection.close()


def refused(service):
    """The refusal of one request more."""
    answer = httpx.get(f"{service.base_url}/v1/rules")
    assert answer.status_code == 429
    assert answer.headers["content-type"] == "application/problem+json"
    assert answer.json()["type"] == "/problems/over-capacity"
    assert int(answer.headers["retry-after"]) > 0
    return answer


def test_beyond_the_limit_requests_are_refused_and_health_and_metrics_are_not(service):
    connections = fill(service)
    refused(service)
    for path in ("/health/live", "/health/ready", "/metrics", "/openapi.json"):
        assert httpx.get(f"{service.base_url}{path}").status_code == 200
    # Those that were refused or are not limited have taken no place: one that ends makes room for one.
    leave(connections.pop(), "close")
    wait_until(lambda: in_progress(service) == LIMIT - 1, "room for one")
    assert httpx.get(f"{service.base_url}/v1/rules").status_code == 200
    connections.append(service.begin_request())
    wait_until(lambda: in_progress(service) == LIMIT, "a full service")
    refused(service)
    for connection in connections:
        connection.close()
    wait_until(lambda: in_progress(service) == 0, "an empty service")


@pytest.mark.parametrize("how", ["close", "reset", "half"])
def test_whoever_leaves_gives_the_place_back(service, how):
    for _ in range(5):
        for connection in fill(service):
            leave(connection, how)
        wait_until(lambda: in_progress(service) == 0, "an empty service")
    assert httpx.get(f"{service.base_url}/v1/rules").status_code == 200


def test_whoever_is_refused_gives_the_place_back(service):
    """Bodies that are no JSON, too long or do not fit, and requests that are not HTTP."""
    with httpx.Client(base_url=service.base_url) as client:
        for content in (b"{", b" " * 1_100_000, b"{}", b"[" * 5_000):
            for _ in range(LIMIT + 1):
                headers = {"Content-Type": "application/json"}
                assert client.post("/v1/circuit-designs", content=content, headers=headers).status_code in {
                    400,
                    413,
                    422,
                }
    for _ in range(LIMIT + 1):
        with socket.create_connection(("127.0.0.1", service.port), timeout=10) as connection:
            connection.sendall(b"POST /v1/circuit-designs HTTP/1.1\r\nContent-Length: nonsense\r\n\r\n")
            connection.recv(1000)
    wait_until(lambda: in_progress(service) == 0, "an empty service")
    for connection in fill(service):
        connection.close()
    wait_until(lambda: in_progress(service) == 0, "an empty service")


def test_a_crash_gives_the_place_back(make_client):
    client = make_client(concurrency_limit=1)
    body = json.dumps(
        {"size": "6 AWG", "run": [{"value": 1, "unit": "ft"}], "connection": {"kind": "hardwired"}}
    )
    headers = {"Content-Type": "application/json"}
    statuses = [
        client.post("/v1/broken-questions", content=body, headers=headers).status_code for _ in range(3)
    ]
    assert statuses == [500, 500, 500]
    assert client.ask(body).status_code == 200
