"""What is counted, under which labels, and how it is shown. Expected numbers are those of the requests sent."""

import asyncio
import re
import subprocess
import sys
from pathlib import Path

import httpx
import pytest
from prometheus_client.parser import text_string_to_metric_families
from tests.http_api.by_hand import run_asgi
from tests.http_api.conftest import GOOD, HERE
from tests.http_api.served import Samples, clean_environment, read_metrics, value

from branchwright import __version__, codebook
from branchwright.cli.demonstration import JOB
from branchwright.http_api.app import create_app, create_embedded_app
from branchwright.http_api.problems import KINDS
from branchwright.http_api.security import create_key
from branchwright.http_api.settings import Settings

KEY, HASH = create_key()


def scrape(client, **options) -> Samples:
    answer = client.get("/metrics", **options)
    assert answer.status_code == 200
    return read_metrics(answer.text)


def requests_of(samples: Samples, **labels: str) -> float:
    """The sum over all series that have these labels."""
    return sum(
        amount
        for (name, having), amount in samples.items()
        if name == "branchwright_requests_total" and frozenset(labels.items()) <= having
    )


@pytest.mark.source("Prometheus, exposition formats: the text format is version 0.0.4 in UTF-8")
def test_the_form_is_that_of_prometheus(make_client):
    answer = make_client().get("/metrics")
    assert answer.status_code == 200
    assert answer.headers["content-type"] == "text/plain; version=0.0.4; charset=utf-8"
    assert answer.headers["cache-control"] == "no-store"
    assert answer.text.endswith("\n")
    assert read_metrics(answer.text)


def test_what_answers_is_named(make_client):
    samples = scrape(make_client())
    labels = {"engine_version": __version__, "codebook_revision": codebook.revision()}
    assert value(samples, "build_info", **labels) == 1


def test_requests_are_counted_by_route_method_and_status(make_client, good):
    client = make_client()
    for _ in range(3):
        assert client.post("/v1/questions", json=good).status_code == 200
    client.post("/v1/questions", json={})
    client.post("/v1/broken-questions", json=good)
    client.get("/v1/things?limit=1")
    client.request("HEAD", "/v1/things")
    client.get("/health/live")
    samples = scrape(client)
    route = "/v1/questions"
    assert value(samples, "requests_total", route=route, method="POST", status="200") == 3
    assert value(samples, "requests_total", route=route, method="POST", status="422") == 1
    assert value(samples, "requests_total", route="/v1/broken-questions", method="POST", status="500") == 1
    assert value(samples, "requests_total", route="/v1/things", method="GET", status="200") == 1
    assert value(samples, "requests_total", route="/v1/things", method="HEAD", status="200") == 1
    assert value(samples, "requests_total", route="/health/live", method="GET", status="200") == 1
    # A scrape is counted once it has been answered.
    assert requests_of(samples) == 8
    assert requests_of(scrape(client)) == 9


def test_a_route_is_named_by_its_pattern(make_client):
    client = make_client()
    for edition in ("nec-2017", "nec-2020", "nec-2023"):
        assert client.get(f"/v1/editions/{edition}").status_code == 200
    samples = scrape(client)
    route = "/v1/editions/{edition}"
    assert value(samples, "requests_total", route=route, method="GET", status="200") == 3
    assert not any("nec-20" in text for _, labels in samples for _, text in labels)


def test_unknown_paths_and_methods_make_no_labels(make_client):
    client = make_client()
    for number in range(40):
        client.get(f"/nothing-{number}")
        client.get(f"/v1/nothing/{number}")
        client.request(f"BREW{number}", "/v1/things")
        client.request(f"BREW{number}", f"/nothing-{number}")
    samples = scrape(client)
    assert value(samples, "requests_total", route="none", method="GET", status="404") == 80
    assert requests_of(samples, method="other") == 80
    counted = [labels for name, labels in samples if name == "branchwright_requests_total"]
    assert len(counted) == 3
    assert not any("BREW" in text or "nothing" in text for labels in counted for _, text in labels)


def test_refusals_are_counted_by_type_of_problem(make_client, good):
    client = make_client(api_key_hashes=(HASH,), body_limit_bytes=500)
    keyed = {"Authorization": f"Bearer {KEY}"}
    before = scrape(client, headers=keyed)
    assert {
        dict(labels)["problem"] for name, labels in before if name == "branchwright_problems_total"
    } == set(KINDS)
    assert sum(amount for (name, _), amount in before.items() if name == "branchwright_problems_total") == 0
    client.post("/v1/questions", json=good)
    client.post("/v1/questions", json=good, headers={"Authorization": "Bearer wrong"})
    client.ask(" " * 501, headers=keyed)
    client.post("/v1/questions", content=b"{}", headers=keyed)
    client.post("/v1/questions", json={}, headers=keyed)
    client.get("/v1/things?limit=0", headers=keyed)
    client.ask("{", headers=keyed)
    client.get("/nothing")
    client.request("HEAD", "/nothing")
    client.post("/health/live")
    samples = scrape(client, headers=keyed)
    counted = {slug: value(samples, "problems_total", problem=slug) for slug in KINDS}
    expected = {
        "unauthorized": 2,
        "body-too-large": 1,
        "unsupported-media-type": 1,
        "invalid-request": 2,
        "invalid-json": 1,
        "not-found": 2,
        "method-not-allowed": 1,
    }
    assert counted == dict.fromkeys(KINDS, 0) | expected


def test_a_full_service_and_a_crash_are_counted_too(make_client, good):
    client = make_client(concurrency_limit=1)
    client.ask_many(3)
    client.post("/v1/broken-questions", json=good)
    client.get("/health/live", headers={"Host": "attacker.example"})
    samples = scrape(client)
    assert value(samples, "problems_total", problem="over-capacity") == 2
    assert value(samples, "problems_total", problem="internal-error") == 1
    assert value(samples, "problems_total", problem="host-not-allowed") == 1
    client.app.state.draining = True
    client.post("/v1/questions", json=good)
    # A process that is stopping still shows what it has counted.
    assert value(scrape(client), "problems_total", problem="draining") == 1


def test_verdicts_are_counted_by_operation(make_client):
    client = make_client()
    review = {**JOB, "installed": {"breaker_rating_a": 50, "ungrounded_size": "6 AWG"}}
    given = [
        ("design_circuit", client.post("/v1/circuit-designs", json=JOB)),
        ("design_circuit", client.post("/v1/circuit-designs", json=JOB)),
        ("review_circuit", client.post("/v1/circuit-reviews", json=review)),
    ]
    client.post("/v1/circuit-reviews", json={})
    client.get("/v1/rules")
    samples = scrape(client)
    expected: dict[frozenset[tuple[str, str]], float] = {}
    for operation, answer in given:
        labels = frozenset({"operation": operation, "verdict": answer.json()["verdict"]}.items())
        expected[labels] = expected.get(labels, 0) + 1
    counted = {labels: amount for (name, labels), amount in samples.items() if "verdicts" in name}
    assert counted == expected
    # 48 A on a 50 A breaker: 125 percent are 60 A (625.41).
    assert frozenset({"operation": "review_circuit", "verdict": "fail"}.items()) in counted


def test_durations_are_sorted_into_buckets(make_client):
    client = make_client()
    client.ask_many(2)
    samples = scrape(client)
    route = "/v1/slow-questions"
    # It sleeps for 0.2 s.
    assert value(samples, "request_duration_seconds_count", route=route) == 2
    assert value(samples, "request_duration_seconds_bucket", route=route, le="0.1") == 0
    assert value(samples, "request_duration_seconds_bucket", route=route, le="+Inf") == 2
    total = value(samples, "request_duration_seconds_sum", route=route)
    assert total is not None and total >= 0.4
    assert not any(name.endswith("_created") for name, _ in samples)


def test_requests_in_progress_are_those_under_v1(make_client):
    client = make_client()

    async def look_meanwhile() -> list[float | None]:
        seen = []
        transport = httpx.ASGITransport(app=client.app)
        async with httpx.AsyncClient(transport=transport, base_url=HERE) as http:
            for slow in (2, 0):
                asked = [asyncio.create_task(http.post("/v1/slow-questions", json=GOOD)) for _ in range(slow)]
                await asyncio.sleep(0.05)
                seen.append(value(read_metrics((await http.get("/metrics")).text), "requests_in_progress"))
                await asyncio.gather(*asked)
        return seen

    assert asyncio.run(look_meanwhile()) == [2, 0]


def test_nothing_stays_in_progress(make_client, good):
    client = make_client(concurrency_limit=1)
    client.ask_many(3)
    client.post("/v1/broken-questions", json=good)
    client.post("/v1/questions", json={})
    leave(client.app)
    samples = scrape(client)
    assert value(samples, "requests_in_progress") == 0
    assert value(samples, "requests_total", route="/v1/questions", method="POST", status="none") == 1


def leave(app) -> None:
    """Ask the test route and be gone before the body."""

    async def receive():
        return {"type": "http.disconnect"}

    assert run_asgi(app, receive, []) == []


def test_the_metrics_need_a_key_where_keys_are_configured(make_client):
    client = make_client(api_key_hashes=(HASH,))
    refused = client.get("/metrics")
    assert refused.status_code == 401
    assert refused.headers["content-type"] == "application/problem+json"
    assert refused.headers["www-authenticate"].startswith("Bearer")
    assert client.get("/metrics", headers={"Authorization": f"Bearer {KEY}"}).status_code == 200
    assert make_client().get("/metrics").status_code == 200


def test_without_keys_the_metrics_are_for_this_computer_only(make_client):
    client = make_client()
    assert client.get("/metrics", headers={"Host": "attacker.example"}).status_code == 403
    assert (
        make_client(base_url="http://chargers.example", allow_anonymous=True).get("/metrics").status_code
        == 200
    )


def test_the_metrics_can_only_be_read(make_client):
    client = make_client()
    head = client.request("HEAD", "/metrics")
    assert (head.status_code, head.content) == (200, b"")
    answer = client.post("/metrics")
    assert (answer.status_code, answer.headers["allow"]) == (405, "GET, HEAD")


def test_the_metrics_are_no_part_of_the_contract(make_client):
    assert "/metrics" not in make_client().app.openapi()["paths"]


def test_two_applications_of_one_process_count_apart(make_client):
    first, second = make_client(), make_client()
    first.get("/health/live")
    assert requests_of(scrape(first)) == 1
    assert requests_of(scrape(second)) == 0


@pytest.mark.parametrize(
    "app", [create_embedded_app(), create_app(Settings(), count_requests=False)], ids=["embedded", "told"]
)
def test_an_application_can_do_without(make_client, app):
    client = type(make_client())(app)
    assert client.get("/metrics").status_code == 404
    assert client.post("/v1/circuit-designs", json=JOB).status_code == 200


def test_commands_that_count_nothing_do_not_load_the_library():
    """It chooses at its import where counts are kept; and the commands start without it."""
    program = (
        "import sys, branchwright.cli.commands; "
        "sys.exit(any(name.startswith('prometheus_client') for name in sys.modules))"
    )
    assert (
        subprocess.run([sys.executable, "-c", program], env=clean_environment(), check=False).returncode == 0
    )


def test_the_documentation_lists_what_is_shown_with_its_labels(make_client):
    client = make_client()
    client.post("/v1/circuit-designs", json=JOB)
    shown: dict[str, set[str]] = {}
    for family in text_string_to_metric_families(client.get("/metrics").text):
        name = f"{family.name}_total" if family.type == "counter" else family.name
        shown[name] = {label for sample in family.samples for label in sample.labels} - {"le"}
    page = (Path(__file__).parents[2] / "docs" / "pages" / "operating.md").read_text("utf-8")
    rows = re.findall(r"^\| `(branchwright_\w+)` \| [a-z]+ \| ([^|]*) \|", page, re.MULTILINE)
    assert {name: set(re.findall(r"`(\w+)`", labels)) for name, labels in rows} == shown
