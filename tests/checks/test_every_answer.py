"""What holds of every answer, whatever the request, as long as it fits the schema."""

import hashlib
import json
from collections.abc import Iterator
from typing import Any

import pytest
import rfc8785
from hypothesis import given
from hypothesis import strategies as st
from tests.checks.circuits import Json, by_rule, designed, reviewed
from tests.checks.effort import examples
from tests.checks.printed import sections
from tests.checks.replay import replay
from tests.checks.strategies import any_designs, any_reviews, usual_designs, usual_reviews

from branchwright.checks.circuits import CircuitDesignRequest, CircuitReviewRequest
from branchwright.codebook import revision

SCHEMAS = {
    "design": CircuitDesignRequest.model_json_schema(by_alias=True),
    "review": CircuitReviewRequest.model_json_schema(by_alias=True),
}


def alternatives(schema: Json, root: Json) -> Iterator[Json]:
    """Every schema that a schema may stand for, references and alternatives followed."""
    if "$ref" in schema:
        yield from alternatives(root["$defs"][schema["$ref"].rsplit("/", 1)[1]], root)
        return
    inner = [item for name in ("anyOf", "oneOf", "allOf") for item in schema.get(name, [])]
    if not inner:
        yield schema
    for item in inner:
        yield from alternatives(item, root)


def is_in_schema(pointer: str, root: Json) -> bool:
    """Whether a request that fits the schema may have something at a JSON pointer."""
    here = [root]
    for token in pointer.split("/")[1:]:
        there: list[Json] = []
        for schema in here:
            for item in alternatives(schema, root):
                if item.get("type") == "array" and token.isdigit():
                    there.append(item["items"])
                elif token in item.get("properties", {}):
                    there.append(item["properties"][token])
        here = there
    return bool(here)


def citations(value: Any) -> Iterator[Json]:
    """Every citation in an answer, however deep."""
    if isinstance(value, dict):
        if set(value) == {"publication", "section"}:
            yield value
        for inner in value.values():
            yield from citations(inner)
    elif isinstance(value, list):
        for inner in value:
            yield from citations(inner)


def holds_for_every_answer(kind: str, request: Json, answer: Json) -> None:
    replay(answer, request)

    findings = by_rule(answer)
    required = [finding for finding in findings.values() if finding["force"] == "requirement"]
    failing = any(finding["outcome"] == "fail" for finding in required)
    waiting = any(finding["outcome"] == "undetermined" for finding in required)
    assert answer["verdict"] == ("fail" if failing else "undetermined" if waiting else "no-failure-found")

    for finding in findings.values():
        assert finding["outcome"] in ("pass", "fail", "undetermined", "not-applicable")
        assert finding["message"].endswith((".", ")"))
        if finding["remedy"] is not None:
            assert finding["outcome"] == "fail"
            assert is_in_schema(finding["remedy"]["pointer"], SCHEMAS[kind])
        if finding["pointer"] is not None:
            assert is_in_schema(finding["pointer"], SCHEMAS[kind]), (finding["rule"], finding["pointer"])
        if finding["segment"] is not None:
            assert 0 <= finding["segment"] < len(request["run"])
        if finding["margin_percent"] is not None and finding["rule"] not in ROUNDED:
            # A margin below zero is what a failure is; one that rounds to zero may be either.
            assert finding["margin_percent"] <= 0 or finding["outcome"] == "pass"
            assert finding["margin_percent"] >= 0 or finding["outcome"] != "pass"

    for item in answer["to_verify"]:
        assert is_in_schema(item["pointer"], SCHEMAS[kind]), item
    for cited in citations(answer):
        assert cited["publication"] == request["edition"]
        assert cited["section"] in sections(request["edition"]), cited

    assert answer["edition"] == request["edition"]
    assert answer["jurisdiction"] == request.get("jurisdiction")
    assert answer["not_examined"]
    assert answer["cautions"]
    canonical = rfc8785.dumps(request)
    assert answer["provenance"]["input_sha256"] == hashlib.sha256(canonical).hexdigest()
    assert answer["provenance"]["codebook_revision"] == revision()


ROUNDED = {"raceway-fill"}
"""Rules that may pass beyond their limit: conductors of one size are also permitted by their count."""


@examples(150)
@given(any_designs())
def test_any_design_request_is_answered(asked: Json) -> None:
    answer = designed(asked)
    holds_for_every_answer("design", asked, answer)
    assert (answer["design"] is None) == (answer["review_request"] is None)
    assert (answer["design"] is None) == (answer["verdict"] == "fail")


@examples(80)
@given(usual_designs())
def test_usual_design_requests_are_answered(asked: Json) -> None:
    holds_for_every_answer("design", asked, designed(asked))


@examples(150)
@given(any_reviews())
def test_any_review_request_is_answered(asked: Json) -> None:
    holds_for_every_answer("review", asked, reviewed(asked))


@examples(80)
@given(usual_reviews())
def test_usual_review_requests_are_answered(asked: Json) -> None:
    holds_for_every_answer("review", asked, reviewed(asked))


@examples(30)
@given(st.one_of(any_designs(), usual_designs()), st.randoms(use_true_random=False))
def test_the_same_question_has_the_same_answer_whatever_the_order_of_its_fields(
    asked: Json, shuffled_by: Any
) -> None:
    def shuffled(value: Any) -> Any:
        if isinstance(value, list):
            return [shuffled(item) for item in value]
        if not isinstance(value, dict):
            return value
        names = list(value)
        shuffled_by.shuffle(names)
        return {name: shuffled(value[name]) for name in names}

    first = designed(asked)
    again = designed(shuffled(asked))
    # The review request keeps the order in which the caller stated things.
    assert json.dumps(again, sort_keys=True) == json.dumps(first, sort_keys=True)


@pytest.mark.parametrize(
    "extreme",
    [
        pytest.param({"charger": {"charging_current_a": 1000}}, id="1000 A"),
        pytest.param({"charger": {"charging_current_a": 5e-324}}, id="next to nothing"),
        pytest.param({"run": [{"length": {"value": 1e6, "unit": "ft"}}]}, id="a million feet"),
        pytest.param({"run": [{"length": {"value": 5e-324, "unit": "mm"}}]}, id="no length to speak of"),
        pytest.param({"run": [{"ambient_c": 120}]}, id="120 degC"),
        pytest.param({"run": [{"ambient_c": -60}]}, id="-60 degC"),
        pytest.param({"run": [{}] * 50}, id="fifty segments"),
        pytest.param({"points": [{"after_segment": 100, "kind": "splice"}] * 20}, id="points beyond the run"),
        pytest.param({"run": [{"other_current_carrying_conductors": 500}]}, id="500 other conductors"),
        pytest.param({"targets": {"voltage_drop_percent": 5e-324}}, id="no drop at all"),
    ],
)
@pytest.mark.parametrize("method", ["emt", "lfnc-b", "nm-b"])
def test_extremes_are_answered(extreme: Json, method: str) -> None:
    segment = {"wiring_method": method, "length": {"value": 10, "unit": "m"}}
    request = {
        "edition": "nec-2023",
        "supply": {"system": "split-phase-120-240"},
        "conductors": {"material": "copper"},
        **extreme,
        "charger": {
            "charging_current_a": 32,
            "connection": {"kind": "hardwired"},
            **extreme.get("charger", {}),
        },
        "run": [{**segment, **changed} for changed in extreme.get("run", [{}])],
    }
    holds_for_every_answer("design", request, designed(request))
    holds_for_every_answer("review", {**request, "installed": {}}, reviewed({**request, "installed": {}}))
