"""Request ids go in and out; the log says what happened and nothing of what was asked."""

import io
import json
import logging

import pytest

from branchwright.http_api.telemetry import JsonLines


@pytest.fixture
def log():
    """What the service logs, as written."""
    stream = io.StringIO()
    handler = logging.StreamHandler(stream)
    handler.setFormatter(JsonLines())
    logger = logging.getLogger("branchwright")
    level = logger.level
    logger.addHandler(handler)
    logger.setLevel(logging.INFO)
    logger.propagate = False
    yield stream
    logger.removeHandler(handler)
    logger.setLevel(level)
    logger.propagate = True


def lines(log):
    return [json.loads(line) for line in log.getvalue().splitlines()]


@pytest.mark.parametrize("given", ["a", "order-17/4", "x" * 128, "!~"])
def test_the_callers_id_comes_back(client, given):
    assert client.get("/health/live", headers={"X-Request-ID": given}).headers["x-request-id"] == given


@pytest.mark.parametrize("given", [None, "", "x" * 129, "two words", "tab\there", "\xe9"])
def test_any_other_id_is_replaced(client, given):
    headers = {} if given is None else {"X-Request-ID": given.encode("latin-1")}
    made = [client.get("/health/live", headers=headers).headers["x-request-id"] for _ in range(2)]
    assert all(len(one) == 32 and one.isalnum() for one in made)
    assert made[0] != made[1]


def test_every_answer_has_exactly_one_id(client, good):
    answers = [
        client.post("/v1/questions", json=good),
        client.post("/v1/questions", json={}),
        client.ask(b"{"),
        client.get("/nothing"),
        client.get("/v1/questions"),
        client.get("/docs"),
        client.post("/v1/broken-questions", json=good),
        client.get("/health/live", headers={"Host": "attacker.example"}),
    ]
    for answer in answers:
        assert len(answer.headers.get_list("x-request-id")) == 1


def test_an_unexpected_error_is_a_problem_without_its_cause(client, good, log):
    answer = client.post("/v1/broken-questions", json=good, headers={"X-Request-ID": "trace-me"})
    assert answer.status_code == 500
    assert answer.headers["content-type"] == "application/problem+json"
    assert answer.json() == {
        "type": "/problems/internal-error",
        "title": "The service failed",
        "status": 500,
        "detail": "Something went wrong inside the service. Report it with request id trace-me.",
        "instance": "/v1/broken-questions",
        "errors": [],
    }
    for word in ("4711", "Traceback", "RuntimeError", ".py"):
        assert word not in answer.text
    error, access = lines(log)
    assert (error["level"], error["request_id"]) == ("error", "trace-me")
    assert "RuntimeError: the secret is 4711" in error["traceback"]
    assert (access["status"], access["route"]) == (500, "/v1/broken-questions")


def test_one_line_per_request(client, good, log):
    answer = client.post("/v1/questions?secret=1", json=good, headers={"X-Request-ID": "abc"})
    (line,) = lines(log)
    assert line.pop("time").endswith("+00:00")
    assert line.pop("duration_ms") > 0
    assert line == {
        "level": "info",
        "logger": "branchwright.access",
        "message": "request",
        "request_id": "abc",
        "method": "POST",
        "route": "/v1/questions",
        "status": 200,
        "bytes": len(answer.content),
    }


def test_nothing_that_was_sent_is_logged(client, good, log):
    good["label"] = "confidential"
    client.post(
        "/v1/questions?token=confidential", json=good, headers={"Authorization": "Bearer confidential"}
    )
    client.post("/v1/questions", json=good | {"confidential": 1})
    client.get("/confidential")
    assert "confidential" not in log.getvalue()
    assert [line["route"] for line in lines(log)] == ["/v1/questions", "/v1/questions", None]


def test_head_is_logged_as_head(client, log):
    client.request("HEAD", "/v1/things")
    (line,) = lines(log)
    assert (line["method"], line["route"], line["bytes"]) == ("HEAD", "/v1/things", 0)
