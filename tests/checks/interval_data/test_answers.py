"""The answer as a whole, and the rules as they are explained."""

import hashlib
import inspect
import re

import pytest
import rfc8785
from tests.checks.interval_data.asking import PLAIN, ask_csv, ask_json, finding, stamped

from branchwright import codebook
from branchwright.checks.service_capacity.capacity_review.facts import MeasuredExistingLoad
from branchwright.checks.service_capacity.interval_data import Instructions, IntervalDataRequest
from branchwright.checks.service_capacity.interval_data.rules import RULES, DataRule

READINGS = [(f"2023-02-01T{hour:02}:00:00Z", 500.0 + 7 * hour % 24) for hour in range(24)]


def test_every_rule_answers_once_and_in_order() -> None:
    answer = ask_json(stamped(READINGS))
    assert [each["rule"] for each in answer["findings"]] == [rule.name for rule in RULES]
    assert len({rule.name for rule in RULES}) == len(RULES)


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.name)
def test_a_rule_is_explained(rule: DataRule) -> None:
    question, _, rest = inspect.cleandoc(rule.prose).partition("\n")
    assert question.endswith("?")
    labels = re.findall(r"^([A-Z][a-z ]+): ", rest, re.MULTILINE)
    assert labels == ["Applies", "Rests on", "Missing facts"]
    assert rule.name.startswith("interval-data-")
    for name in rule.consults:
        assert name in {item.name for item in codebook.interpretations()}


def test_only_rules_that_need_an_edition_cite_one() -> None:
    answer = ask_json(stamped(READINGS), edition="nec-2023")
    needing = {rule.name for rule in RULES if rule.needs_edition}
    citing = {each["rule"] for each in answer["findings"] if each["citation"]}
    assert citing == needing, "phases are not stated"


def test_the_answer_says_what_it_is_not() -> None:
    answer = ask_json(stamped(READINGS), jurisdiction="Springtown")
    assert answer["jurisdiction"] == "Springtown"
    assert "amendments in force in Springtown" in answer["not_examined"]
    assert any("line-side lugs" in caution for caution in answer["cautions"])
    assert any("did not run then" in caution for caution in answer["cautions"])


@pytest.mark.parametrize(
    "answer, pointer, series",
    [
        (ask_json(stamped(READINGS), edition="nec-2023"), "/series/interval_minutes", "/series"),
        (
            ask_csv(
                "time,Wh\n" + "".join(f"{at},{value}\n" for at, value in READINGS),
                edition="nec-2023",
                time_column="time",
                value_column="Wh",
                unit="energy-wh",
            ),
            "query:interval_minutes",
            None,
        ),
    ],
    ids=["JSON", "CSV"],
)
def test_what_was_told_from_the_readings_is_to_be_verified_at_its_place(
    answer: dict, pointer: str, series: str | None
) -> None:
    assert [each["stated"] for each in answer["to_verify"] if each["pointer"] == pointer] == [
        "not stated, told from the readings: 60"
    ]
    assert finding(answer, "duration")["pointer"] == series


@pytest.mark.source("RFC 8785 by the rfc8785 package")
def test_the_digest_is_that_of_the_request() -> None:
    request = {"edition": "nec-2023", "series": stamped(READINGS, stamps_at=None)}
    answer = ask_json(request["series"], edition="nec-2023")
    assert answer["provenance"]["input_sha256"] == hashlib.sha256(rfc8785.dumps(request)).hexdigest()


def test_the_digest_of_a_text_is_that_of_query_and_body() -> None:
    text = "time,usage\n2023-02-01 00:00,500\n"
    answer = ask_csv(text, **PLAIN)
    query = {"edition": "nec-2023", "time_zone": "America/Denver", "has_generation": False}
    canonical = rfc8785.dumps({"body_sha256": hashlib.sha256(text.encode()).hexdigest(), "query": query})
    assert answer["provenance"]["input_sha256"] == hashlib.sha256(canonical).hexdigest()


def test_the_existing_load_fits_the_capacity_review() -> None:
    load = ask_json(stamped(READINGS), edition="nec-2023", has_generation=False)["existing_load"]
    review = MeasuredExistingLoad.model_validate(load)
    assert (review.measured_demand_w, review.averaging_minutes, review.days) == (523, 60, 1)
    assert review.occupied is None, "for the caller to state"
    assert review.has_generation is False


@pytest.mark.parametrize(
    "wrong",
    [
        {"series": {"kind": "regular", "start": "2023-01-01", "interval_minutes": 60, "energy_wh": [1]}},
        {
            "series": {
                "kind": "regular",
                "start": "2023-01-01T00:00Z",
                "interval_minutes": 0,
                "energy_wh": [1],
            }
        },
        {
            "series": {
                "kind": "regular",
                "start": "2023-01-01T00:00Z",
                "interval_minutes": 60,
                "energy_wh": [],
            }
        },
        {
            "series": {
                "kind": "regular",
                "start": "2023-01-01T00:00Z",
                "interval_minutes": 60,
                "energy_wh": ["1"],
            }
        },
        {
            "series": {
                "kind": "regular",
                "start": "٢٠٢٣-01-01T00:00Z",
                "interval_minutes": 60,
                "energy_wh": [1],
            }
        },
        {"series": stamped([("2023-01-01T00:00Z", True)])},
        {"series": stamped(READINGS, unit="kwh")},
        {"series": {**stamped(READINGS), "more": 1}},
        {"series": {**stamped(READINGS), "readings": [{"at": "2023-01-01T00:00Z", "value": 1, "more": 1}]}},
        {"series": stamped(READINGS), "phases": True},
        {"series": stamped(READINGS), "has_generation": "yes"},
        {},
    ],
)
def test_what_does_not_fit_the_schema_is_refused(wrong: dict) -> None:
    with pytest.raises(ValueError, match="validation error"):
        IntervalDataRequest.model_validate(wrong)


@pytest.mark.parametrize(
    "query",
    [
        {"interval_minutes": "15.5"},
        {"interval_minutes": "1_5"},
        {"interval_minutes": " 15"},
        {"interval_minutes": "0"},
        {"has_generation": "yes"},
        {"has_generation": "1"},
        {"phases": "2"},
        {"unit": "kWh"},
        {"column": "usage"},
        {"time_column": ""},
    ],
)
def test_a_query_is_as_strict_as_a_body(query: dict[str, str]) -> None:
    with pytest.raises(ValueError, match="validation error"):
        Instructions.model_validate(query)
