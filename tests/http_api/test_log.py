"""What a real service writes to standard error: whole lines of JSON, ids on them, and nothing of what was asked."""

import base64
import json
import socket

import httpx
import pytest
from tests.http_api.served import Served, wait_until

from branchwright.cli.demonstration import JOB

MARKER = "Zebra4711"
JSON = {"Content-Type": "application/json"}


@pytest.fixture(scope="module")
def service():
    """A service that logs everything it can, after it has been asked all kinds of things."""
    with Served(BRANCHWRIGHT_LOG_LEVEL="debug") as running:
        with httpx.Client(base_url=running.base_url, timeout=30) as client:
            for number, (method, path, options) in enumerate(asked()):
                headers = {"X-Request-ID": f"ask-{number}"} | options.pop("headers", {})
                assert client.request(method, path, headers=headers, **options).status_code != 500
        for raw in (
            f"{MARKER}\r\n\r\n",
            f"POST /v1/circuit-designs HTTP/9 {MARKER}\r\n\r\n",
            f"POST /v1/circuit-designs HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Length: {MARKER}\r\n\r\n",
            "POST /v1/circuit-designs HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Type: application/json\r\n"
            f'Content-Length: 500\r\n\r\n{{"{MARKER}',
        ):
            with socket.create_connection(("127.0.0.1", running.port), timeout=10) as connection:
                connection.sendall(raw.encode())
                connection.shutdown(socket.SHUT_WR)
                connection.recv(1000)
        wait_until(lambda: running.text.count('"branchwright.access"') > len(asked()), "the last line")
        running.stop()
        yield running


def asked():
    """Requests that carry the marker wherever a caller can write."""
    fits = {**JOB, "jurisdiction": MARKER}
    bodies = [
        json.dumps(fits),
        json.dumps({**JOB, MARKER: 1}),
        json.dumps({**JOB, "edition": MARKER}),
        json.dumps({**JOB, "run": MARKER}),
        f'{{"{MARKER}": ',
        f'{{"{MARKER}": 1, "{MARKER}": 2}}',
        f'"{MARKER}"' + " " * 1_100_000,
        json.dumps([MARKER] * 11_000),
    ]
    requests = [("POST", "/v1/circuit-designs", {"content": body, "headers": JSON}) for body in bodies]
    key = base64.b64encode(MARKER.encode()).decode()
    return [
        *requests,
        (
            "POST",
            "/v1/circuit-designs",
            {"content": json.dumps(JOB), "headers": {"Content-Type": f"text/{MARKER}"}},
        ),
        ("GET", f"/v1/rules?{MARKER}={MARKER}", {}),
        ("GET", f"/v1/editions/{MARKER}", {}),
        ("GET", f"/{MARKER}", {}),
        ("GET", "/v1/rules", {"headers": {"Authorization": f"Bearer {MARKER}", "Cookie": MARKER}}),
        ("GET", "/v1/rules", {"headers": {"Authorization": f"Basic {key}", "User-Agent": MARKER}}),
        ("GET", "/v1/rules", {"headers": {"Host": f"{MARKER}.example"}}),
        ("GET", "/v1/rules", {"headers": {"Accept": f"text/{MARKER}"}}),
    ]


def test_the_marker_came_through():
    """Else its absence from the log would say nothing."""
    with Served() as running:
        answer = httpx.post(f"{running.base_url}/v1/circuit-designs", json={**JOB, "jurisdiction": MARKER})
    assert answer.status_code == 200
    assert MARKER in answer.text


def test_nothing_that_was_asked_is_in_the_log(service):
    assert MARKER.lower() not in service.text.lower()
    assert base64.b64encode(MARKER.encode()).decode() not in service.text


def test_every_line_is_a_json_object_that_says_when_and_how_bad(service):
    assert all({"time", "level", "logger", "message"} <= set(line) for line in service.lines)


def test_every_request_has_one_line_with_its_id(service):
    access = [line for line in service.lines if line["logger"] == "branchwright.access"]
    ids = [line["request_id"] for line in access]
    assert ids[: len(asked())] == [f"ask-{number}" for number in range(len(asked()))]
    assert len(set(ids)) == len(ids)
    for line in access:
        assert set(line) == {
            *("time", "level", "logger", "message"),
            *("request_id", "method", "route", "status", "duration_ms", "bytes"),
        }
        assert line["route"] is None or line["route"].startswith("/")


def test_lines_are_not_split_by_what_a_caller_sends():
    with Served() as running:
        with socket.create_connection(("127.0.0.1", running.port), timeout=10) as connection:
            connection.sendall(
                b"GET /health/live HTTP/1.1\r\nHost: 127.0.0.1\r\nX-Request-ID: a\tb\x85c\r\nConnection: close\r\n\r\n"
            )
            assert b"200" in connection.recv(1000)
        running.stop()
    (line,) = [line for line in running.lines if line["logger"] == "branchwright.access"]
    assert len(line["request_id"]) == 32
