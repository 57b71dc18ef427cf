"""Traces: nothing unless switched on; then one span a request, which holds no more than the log does."""

import subprocess
import sys
import threading
import time
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer

import httpx
import pytest
from opentelemetry.proto.collector.trace.v1.trace_service_pb2 import ExportTraceServiceRequest
from opentelemetry.sdk.trace.export import SimpleSpanProcessor
from opentelemetry.sdk.trace.export.in_memory_span_exporter import InMemorySpanExporter
from opentelemetry.trace import SpanKind, StatusCode
from tests.http_api.by_hand import run_asgi
from tests.http_api.served import Served, clean_environment, wait_until

from branchwright.http_api import spans
from branchwright.http_api.security import create_key

KEY, HASH = create_key()
MARKER = "Zebra4711"
# W3C Trace Context, level 1, 3.2: the example of a traceparent.
TRACE, PARENT = "4bf92f3577b34da6a3ce929d0e0e4736", "00f067aa0ba902b7"
TRACEPARENT = f"00-{TRACE}-{PARENT}-01"


@pytest.fixture
def exporter(monkeypatch):
    """Where the spans of applications made in this test go, each as soon as it ends."""
    for name in clean_environment():
        assert not name.startswith("OTEL_")
    memory = InMemorySpanExporter()
    monkeypatch.setattr(spans, "OTLPSpanExporter", lambda: memory)
    monkeypatch.setattr(spans, "BatchSpanProcessor", SimpleSpanProcessor)
    return memory


@pytest.fixture
def traced(exporter, make_client):
    return make_client(tracing=True)


def the_span(exporter):
    (span,) = exporter.get_finished_spans()
    return span


def test_a_span_holds_route_status_and_request_id(traced, exporter, good):
    answer = traced.post("/v1/questions?secret=1", json=good, headers={"X-Request-ID": "abc"})
    assert answer.status_code == 200
    span = the_span(exporter)
    assert (span.name, span.kind) == ("POST /v1/questions", SpanKind.SERVER)
    assert dict(span.attributes) == {
        "http.request.method": "POST",
        "http.route": "/v1/questions",
        "http.response.status_code": 200,
        "branchwright.request_id": "abc",
    }
    assert span.parent is None
    assert span.status.status_code is StatusCode.UNSET
    assert span.resource.attributes["service.name"] == "branchwright"
    assert span.end_time > span.start_time


def test_nothing_of_what_was_asked_is_in_a_span(traced, exporter, good):
    good["label"] = MARKER
    headers = {
        "Authorization": f"Bearer {MARKER}",
        "User-Agent": MARKER,
        "Cookie": MARKER,
        "Baggage": f"a={MARKER}",
    }
    traced.post(f"/v1/questions?{MARKER}={MARKER}", json=good, headers=headers)
    traced.post("/v1/questions", json={MARKER: 1}, headers=headers)
    traced.get(f"/v1/editions/{MARKER}", headers=headers)
    traced.get(f"/v1/{MARKER}", headers=headers)
    traced.request(MARKER.upper(), "/v1/questions", headers=headers)
    finished = exporter.get_finished_spans()
    assert [(span.name, span.attributes.get("http.route")) for span in finished] == [
        ("POST /v1/questions", "/v1/questions"),
        ("POST /v1/questions", "/v1/questions"),
        ("GET /v1/editions/{edition}", "/v1/editions/{edition}"),
        ("GET", None),
        ("HTTP /v1/questions", "/v1/questions"),
    ]
    assert finished[-1].attributes["http.request.method"] == "_OTHER"
    for span in finished:
        assert MARKER.lower() not in span.to_json().lower()
        assert span.events == ()


def test_refusals_and_failures_have_spans_too(exporter, make_client, good):
    client = make_client(tracing=True, api_key_hashes=(HASH,))
    client.post("/v1/questions", json=good)
    client.post("/v1/broken-questions", json=good, headers={"Authorization": f"Bearer {KEY}"})
    refused, failed = exporter.get_finished_spans()
    assert refused.attributes["http.response.status_code"] == 401
    assert refused.status.status_code is StatusCode.UNSET
    assert failed.attributes["http.response.status_code"] == 500
    assert failed.status.status_code is StatusCode.ERROR
    assert "4711" not in failed.to_json()


def test_only_requests_under_v1_are_traced(traced, exporter):
    for path in ("/health/live", "/health/ready", "/metrics", "/docs", "/openapi.json", "/nothing"):
        traced.get(path)
    assert exporter.get_finished_spans() == ()


@pytest.mark.source("W3C Trace Context, level 1, 3.2 and 3.3")
def test_the_callers_trace_is_continued(traced, exporter):
    traced.get("/v1/things", headers={"traceparent": TRACEPARENT, "tracestate": "vendor=opaque"})
    span = the_span(exporter)
    assert f"{span.context.trace_id:032x}" == TRACE
    assert f"{span.parent.span_id:016x}" == PARENT
    assert span.context.trace_state.get("vendor") == "opaque"


@pytest.mark.source("W3C Trace Context, level 1, 3.2.2.5: the last bit says whether the caller recorded it")
def test_a_trace_that_the_caller_does_not_record_is_not_recorded(traced, exporter):
    assert traced.get("/v1/things", headers={"traceparent": f"00-{TRACE}-{PARENT}-00"}).status_code == 200
    assert exporter.get_finished_spans() == ()


@pytest.mark.source("W3C Trace Context, level 1, 3.2.2 and 3.2.2.3: what makes a traceparent invalid")
@pytest.mark.parametrize(
    "values",
    [
        [""],
        ["nonsense"],
        [f"00-{TRACE}-{PARENT}"],
        [f"00-{TRACE[:-1]}-{PARENT}-01"],
        [f"00-{TRACE}-{PARENT[:-1]}-01"],
        [f"00-{TRACE.upper()}-{PARENT}-01"],
        [f"00-{'0' * 32}-{PARENT}-01"],
        [f"00-{TRACE}-{'0' * 16}-01"],
        [f"ff-{TRACE}-{PARENT}-01"],
        [f"00-{TRACE}-{PARENT}-01-more"],
        [f"00-{TRACE}-{PARENT}-0g"],
        ["00-" + "é" * 32 + f"-{PARENT}-01"],
        [TRACEPARENT, TRACEPARENT],
        [TRACEPARENT * 1000],
    ],
    ids=range(14),
)
def test_a_malformed_traceparent_is_ignored(traced, exporter, values):
    headers = [("traceparent", value.encode("latin-1")) for value in values]
    assert traced.request("GET", "/v1/things", headers=headers).status_code == 200
    span = the_span(exporter)
    assert span.parent is None
    assert f"{span.context.trace_id:032x}" != TRACE


def test_a_malformed_tracestate_costs_the_state_alone(traced, exporter):
    headers = {"traceparent": TRACEPARENT, "tracestate": b"\xff\xfe,,=,a=\x01"}
    assert traced.get("/v1/things", headers=headers).status_code == 200
    assert f"{the_span(exporter).context.trace_id:032x}" == TRACE


def test_a_client_that_leaves_ends_its_span(traced, exporter):
    async def receive():
        return {"type": "http.disconnect"}

    assert run_asgi(traced.app, receive, []) == []
    span = the_span(exporter)
    assert "http.response.status_code" not in span.attributes
    assert span.status.status_code is StatusCode.ERROR


def python(program, **variables):
    """Run a program that makes applications."""
    return subprocess.run(
        [sys.executable, "-c", program],
        capture_output=True,
        text=True,
        timeout=60,
        env=clean_environment(**variables),
        check=False,
    )


@pytest.mark.parametrize(
    "variables",
    [{}, {"OTEL_EXPORTER_OTLP_ENDPOINT": "http://127.0.0.1:9"}, {"BRANCHWRIGHT_TRACING": "false"}],
    ids=["nothing set", "an address alone", "switched off"],
)
def test_switched_off_nothing_of_the_sdk_is_loaded(variables):
    """The framework itself loads the interface, opentelemetry-api; the SDK and what sends are ours to load."""
    program = (
        "import sys\n"
        "from branchwright.http_api.app import create_app\n"
        "create_app()\n"
        "heavy = ('opentelemetry.sdk', 'opentelemetry.exporter', 'opentelemetry.proto', 'google.', 'requests')\n"
        "print([name for name in sys.modules if name.startswith(heavy)])\n"
    )
    ran = python(program, **variables)
    assert (ran.stdout.strip(), ran.returncode) == ("[]", 0), ran.stderr


WITHOUT_EXTRA = """
import sys

class Absent:
    def find_spec(self, name, path=None, target=None):
        if name.startswith(("opentelemetry.sdk", "opentelemetry.exporter")):
            raise ModuleNotFoundError(f"No module named {name!r}", name=name)

sys.meta_path.insert(0, Absent())
"""
SERVE = "from branchwright.cli import main\nmain(['serve', '--port', '0'])\n"


def test_switched_on_without_the_extra_the_start_is_refused():
    refused = python(WITHOUT_EXTRA + SERVE, BRANCHWRIGHT_TRACING="true")
    assert refused.returncode == 1
    assert "BRANCHWRIGHT_TRACING" in refused.stderr
    assert "extra 'telemetry'" in refused.stderr
    assert "Traceback" not in refused.stderr


def test_without_the_extra_the_service_runs_as_ever():
    program = "from branchwright.http_api.app import create_app\ncreate_app()\nprint('made')"
    assert python(WITHOUT_EXTRA + program).stdout == "made\n"


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("OTEL_EXPORTER_OTLP_PROTOCOL", "grpc"),
        ("OTEL_EXPORTER_OTLP_TRACES_PROTOCOL", "http/json"),
        ("OTEL_EXPORTER_OTLP_ENDPOINT", "collector:4318"),
        ("OTEL_BSP_MAX_QUEUE_SIZE", "-1"),
    ],
)
def test_a_variable_that_cannot_be_used_is_refused_at_the_start(name, value):
    refused = python(SERVE, BRANCHWRIGHT_TRACING="true", **{name: value})
    assert refused.returncode == 1
    assert refused.stderr.startswith("Error: OTEL_")
    assert "Traceback" not in refused.stderr


class Collector:
    """Takes what is sent by OTLP over HTTP on loopback, and keeps it."""

    def __init__(self):
        self.received = []
        collector = self

        class Handler(BaseHTTPRequestHandler):
            def do_POST(self):
                body = self.rfile.read(int(self.headers["Content-Length"]))
                collector.received.append(
                    (self.path, self.headers, ExportTraceServiceRequest.FromString(body))
                )
                self.send_response(200)
                self.send_header("Content-Type", "application/x-protobuf")
                self.send_header("Content-Length", "0")
                self.end_headers()

            def log_message(self, *_):
                pass

        self._server = ThreadingHTTPServer(("127.0.0.1", 0), Handler)
        self.address = f"http://127.0.0.1:{self._server.server_port}"
        self._thread = threading.Thread(target=self._server.serve_forever)

    def __enter__(self):
        self._thread.start()
        return self

    def __exit__(self, *_):
        self._server.shutdown()
        self._thread.join()
        self._server.server_close()

    def spans(self):
        """Every span received, with the attributes of its service."""
        return [
            (span, {one.key: one.value.string_value for one in resource.resource.attributes})
            for _, _, request in self.received
            for resource in request.resource_spans
            for scope in resource.scope_spans
            for span in scope.spans
        ]


@pytest.mark.parametrize("workers", ["1", "2"])
def test_a_real_service_sends_its_spans_at_the_latest_when_it_ends(workers):
    with Collector() as collector:
        variables = {
            "BRANCHWRIGHT_TRACING": "true",
            "OTEL_EXPORTER_OTLP_ENDPOINT": collector.address,
            "OTEL_SERVICE_NAME": "chargers",
            # Longer than this test: only the end of the process can be what sends them.
            "OTEL_BSP_SCHEDULE_DELAY": "600000",
        }
        with Served("--workers", workers, **variables) as service:
            headers = {"traceparent": TRACEPARENT, "X-Request-ID": "abc"}
            assert httpx.get(f"{service.base_url}/v1/rules?{MARKER}", headers=headers).status_code in {
                200,
                422,
            }
            assert httpx.get(f"{service.base_url}/health/live").status_code == 200
            assert collector.received == []
            service.stop()
            assert all(line["level"] == "info" for line in service.lines)
        ((span, resource),) = collector.spans()
    assert collector.received[0][0] == "/v1/traces"
    assert span.trace_id.hex() == TRACE
    assert span.name == "GET /v1/rules"
    assert resource["service.name"] == "chargers"
    assert MARKER.encode() not in collector.received[0][2].SerializeToString()


def test_a_collector_that_is_gone_costs_no_answer_and_holds_up_no_end():
    with Collector() as collector:
        gone = collector.address
    variables = {
        "BRANCHWRIGHT_TRACING": "true",
        "OTEL_EXPORTER_OTLP_ENDPOINT": gone,
        "OTEL_BSP_SCHEDULE_DELAY": "10",
    }
    with Served(**variables) as service:
        for _ in range(3):
            assert httpx.get(f"{service.base_url}/v1/rules").status_code == 200
        wait_until(lambda: "opentelemetry" in service.text, "a warning")
        begun = time.monotonic()
        service.stop()
        # Five seconds are what the last sending may take; the rest is for a busy machine.
        assert time.monotonic() - begun < 15
    assert {line["level"] for line in service.lines if line["logger"].startswith("opentelemetry")} <= {
        "warning",
        "error",
    }
