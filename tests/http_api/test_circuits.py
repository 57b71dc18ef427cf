"""The circuit questions over HTTP: shown examples work, and what fits the schema is answered with 200."""

import copy

import pytest

from branchwright.http_api.v1 import examples

# Verdicts by hand, 2023 edition: 125 percent of 48 A is 60 A (625.41), which a 50 A breaker does not reach.
VERDICTS = {
    "/v1/circuit-designs": {
        "outdoor-hardwired": "no-failure-found",
        "smallest": "undetermined",
        "receptacle": "no-failure-found",
    },
    "/v1/circuit-reviews": {"holds": "no-failure-found", "fails": "fail"},
}
SHOWN = [
    (path, name, value["value"], VERDICTS[path][name])
    for path, shown in (("/v1/circuit-designs", examples.DESIGNS), ("/v1/circuit-reviews", examples.REVIEWS))
    for name, value in shown.items()
]


@pytest.mark.source("NEC 2023, 625.41: overcurrent device of at least 125 percent of the charging load")
@pytest.mark.parametrize(("path", "name", "body", "verdict"), SHOWN, ids=[name for _, name, _, _ in SHOWN])
def test_every_shown_example_is_answered(client, path, name, body, verdict):
    answer = client.post(path, json=body)
    assert answer.status_code == 200, answer.text
    assert answer.json()["verdict"] == verdict, name
    assert answer.json()["edition"] == body["edition"]


def test_the_document_shows_the_examples(client):
    paths = client.get("/openapi.json").json()["paths"]
    for path, name, body, _ in SHOWN:
        content = paths[path]["post"]["requestBody"]["content"]["application/json"]
        assert content["examples"][name]["value"] == body


def test_answers_have_every_member_of_the_common_part(client):
    answer = client.post("/v1/circuit-designs", json=examples.OUTDOOR_HARDWIRED).json()
    assert {
        "edition",
        "verdict",
        "findings",
        "steps",
        "interpretations",
        "to_verify",
        "not_examined",
        "cautions",
        "provenance",
        "design",
        "review_request",
    } <= set(answer)
    assert set(answer["findings"][0]) == {
        "rule",
        "outcome",
        "force",
        "subject",
        "pointer",
        "segment",
        "required",
        "provided",
        "margin_percent",
        "citation",
        "message",
        "remedy",
    }
    inputs = [given for step in answer["steps"] for given in step["inputs"].values()]
    assert inputs
    assert all({"value", "unit", "from"} <= set(given) for given in inputs)


@pytest.mark.source(
    "NEC 2023: 625.41 and Table 310.16: 60 A asks for 6 AWG copper at 75 degC (65 A; 8 AWG has 50 A)"
)
def test_designing_and_reviewing_close_in_a_circle(client):
    designed = client.post("/v1/circuit-designs", json=examples.OUTDOOR_HARDWIRED).json()
    assert designed["design"]["breaker"]["rating_a"] == 60
    assert designed["design"]["conductors"]["ungrounded"]["size"] == "6 AWG"
    reviewed = client.post("/v1/circuit-reviews", json=designed["review_request"])
    assert reviewed.status_code == 200
    assert not [finding for finding in reviewed.json()["findings"] if finding["outcome"] == "fail"]


def test_contradictory_facts_are_findings_not_errors(client):
    body = copy.deepcopy(examples.OUTDOOR_HARDWIRED)
    body["charger"] |= {"charging_current_a": 48, "rated_current_a": 40}
    answer = client.post("/v1/circuit-designs", json=body)
    assert answer.status_code == 200
    failing = [finding for finding in answer.json()["findings"] if finding["outcome"] == "fail"]
    assert "/charger/charging_current_a" in {finding["pointer"] for finding in failing}


@pytest.mark.parametrize(
    ("change", "pointer", "message"),
    [
        (
            {"installed": {"ungrounded_size": "6awg"}},
            "/installed/ungrounded_size",
            "the text '6awg' is not one of the allowed values; did you mean '6 AWG'?",
        ),
        (
            {"run": [{"wiring_method": "emt", "lenght": {"value": 3, "unit": "ft"}}]},
            "/run/0/lenght",
            "'lenght' is not a field here; did you mean 'length'?",
        ),
        (
            {"supply": {"system": "split-phase"}},
            "/supply/system",
            "the text 'split-phase' is not one of the allowed values.",
        ),
        (
            {"charger": {"charging_current_a": "48", "connection": {"kind": "receptacle"}}},
            "/charger/connection/configuration",
            "'configuration' is missing.",
        ),
    ],
)
def test_slips_are_named(client, change, pointer, message):
    problem = client.post("/v1/circuit-reviews", json=examples.HOLDS | change).json()
    assert problem["status"] == 422
    assert (pointer, message) in [(error["pointer"], error["message"]) for error in problem["errors"]]


@pytest.mark.parametrize("number", ["NaN", "Infinity", "1e999", "-1e999"])
def test_numbers_that_are_none_are_400(client, number):
    body = f'{{"edition": "nec-2023", "charger": {{"charging_current_a": {number}}}}}'
    answer = client.post("/v1/circuit-designs", content=body, headers={"Content-Type": "application/json"})
    assert answer.status_code == 400


def test_the_same_question_gets_the_same_bytes(client):
    first, second = (client.post("/v1/circuit-reviews", json=examples.FAILS).content for _ in range(2))
    assert first == second
