"""A client that sends a head without end is cut off; whoever sends much that is a body is not."""

import contextlib
import re
import socket
from pathlib import Path

import pytest
from tests.http_api.served import Served

START = b"GET /health/live HTTP/1.1\r\nHost: 127.0.0.1\r\n"
POST = b"POST /v1/circuit-designs HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Type: application/json\r\n"
PIECE = b"x" * 60_000


@pytest.fixture(scope="module")
def service():
    with Served() as running:
        yield running


def peak_kb(service):
    status = Path(f"/proc/{service.workers()[0]}/status").read_text()
    return int(re.search(r"VmHWM:\s+(\d+) kB", status)[1])


def sent_until_cut_off(service, start, piece, most=60_000_000):
    """How many bytes the service takes before it closes the connection, and what it says."""
    with socket.create_connection(("127.0.0.1", service.port), timeout=10) as connection:
        connection.sendall(start)
        sent = 0
        try:
            while sent < most:
                connection.sendall(piece)
                sent += len(piece)
        except ConnectionError:
            pass
        try:
            answer = connection.recv(1000)
        except ConnectionError:
            answer = b""
    return sent, answer


@pytest.mark.parametrize(
    ("start", "piece"),
    [
        (START + b"Authorization: Bearer ", PIECE),
        (START, b"X-Many: 1\r\n" * 5_000),
        (START + PIECE[:100], PIECE),
        (b"GET /", PIECE),
        (POST + b"Transfer-Encoding: chunked\r\n\r\n2\r\n{}\r\n0\r\nX-Trailer: ", PIECE),
        (POST + b"Transfer-Encoding: chunked\r\n\r\n2;", PIECE),
    ],
    ids=["one header", "many headers", "one name", "address", "trailer", "chunk extension"],
)
def test_a_head_without_end_is_cut_off_in_little_memory(service, start, piece):
    before = peak_kb(service)
    sent, answer = sent_until_cut_off(service, start, piece)
    # What the sockets of both sides hold is sent as well; on loopback that is some megabytes.
    assert sent < 20_000_000
    assert answer == b"" or answer.startswith(b"HTTP/1.1 4")
    assert peak_kb(service) - before < 10_000


def exchange(service, request):
    with socket.create_connection(("127.0.0.1", service.port), timeout=10) as connection:
        connection.sendall(request)
        connection.settimeout(10)
        answer = b""
        while piece := connection.recv(100_000):
            answer += piece
    return answer


def test_a_client_is_told(service):
    """It sends no more than it must to be refused, so that the answer is not lost with the connection."""
    with socket.create_connection(("127.0.0.1", service.port), timeout=10) as connection:
        connection.sendall(START + b"X-Long: ")
        connection.settimeout(0.5)
        answer = b""
        for _ in range(5):
            connection.sendall(PIECE)
            with contextlib.suppress(TimeoutError):
                answer = connection.recv(1000)
                break
    assert answer.startswith(b"HTTP/1.1 431 Request Header Fields Too Large\r\n")
    assert answer.endswith(b"\r\n\r\nThe head is longer than 64 KiB")


def test_a_head_above_the_bound_is_refused_also_when_it_arrives_at_once(service):
    answer = exchange(service, START + b"X-Long: " + b"x" * 100_000 + b"\r\nConnection: close\r\n\r\n")
    assert answer.startswith(b"HTTP/1.1 431 ")


def test_a_head_below_the_bound_is_taken(service):
    answer = exchange(service, START + b"X-Long: " + PIECE + b"\r\nConnection: close\r\n\r\n")
    assert answer.startswith(b"HTTP/1.1 200 ")


@pytest.mark.parametrize("size", [1, 1_000])
def test_a_body_in_many_pieces_is_no_head(service, size):
    """200 kB: more than a head may be, also when each piece costs more than it holds."""
    body = b" " * 200_000 + b"{}"
    pieces = (body[at : at + size] for at in range(0, len(body), size))
    chunks = b"".join(b"%x\r\n%s\r\n" % (len(piece), piece) for piece in pieces)
    head = POST + b"Transfer-Encoding: chunked\r\nConnection: close\r\n\r\n"
    answer = exchange(service, head + chunks + b"0\r\n\r\n")
    # It is read to its end, and then found to miss everything.
    assert answer.startswith(b"HTTP/1.1 422 ")


def test_many_requests_on_one_connection_are_no_head(service):
    answer = exchange(
        service, START + b"\r\n" + (START + b"\r\n") * 3_000 + START + b"Connection: close\r\n\r\n"
    )
    assert answer.count(b"HTTP/1.1 200 ") == 3_002
