"""What holds of every answer of a capacity review, whatever the request, as long as it fits the schema."""

import hashlib
from typing import Any

import pytest
import rfc8785
from hypothesis import given
from tests.checks.effort import examples
from tests.checks.printed import sections
from tests.checks.service_capacity.capacity_requests import asked, calculated, reviewed
from tests.checks.service_capacity.capacity_strategies import any_reviews, usual_reviews
from tests.checks.test_every_answer import citations, is_in_schema

from branchwright.checks.service_capacity.capacity_review import RULES, CapacityReviewRequest
from branchwright.codebook import revision

Json = dict[str, Any]

SCHEMA = CapacityReviewRequest.model_json_schema(by_alias=True)
THREE_VALUED = {"measured-interval"}
"""Rules that may pass beyond their limit: a coarse record holds where a finer one would change nothing."""


def holds_for_every_answer(request: Json) -> Json:
    answer = reviewed(request)
    findings = {item["rule"]: item for item in answer["findings"]}
    assert len(findings) == len(answer["findings"]), "two findings of one rule"
    assert {rule.name for rule in RULES} <= set(findings)
    required = [item["outcome"] for item in findings.values() if item["force"] == "requirement"]
    expected = "fail" if "fail" in required else "undetermined" if "undetermined" in required else None
    assert answer["verdict"] == (expected or "no-failure-found")
    for item in findings.values():
        assert item["outcome"] in ("pass", "fail", "undetermined", "not-applicable")
        assert item["message"].endswith(".")
        if item["pointer"] is not None:
            assert is_in_schema(item["pointer"], SCHEMA), (item["rule"], item["pointer"])
        if item["outcome"] == "undetermined":
            assert item["pointer"] is not None, item["rule"]
        if item["remedy"] is not None:
            assert item["outcome"] == "fail"
            assert all(is_in_schema(change["pointer"], SCHEMA) for change in item["remedy"]["changes"])
        if item["margin_percent"] is not None and item["rule"] not in THREE_VALUED:
            assert item["margin_percent"] <= 0 or item["outcome"] == "pass", item
            assert item["margin_percent"] >= 0 or item["outcome"] != "pass", item
    for item in answer["to_verify"]:
        assert is_in_schema(item["pointer"], SCHEMA), item
    for cited in citations(answer):
        assert cited["publication"] == request["edition"]
        assert cited["section"] in sections(request["edition"]), cited
    assert answer["edition"] == request["edition"]
    assert answer["jurisdiction"] == request.get("jurisdiction")
    assert answer["not_examined"]
    assert any("no simulated night proves it" in caution for caution in answer["cautions"])
    canonical = rfc8785.dumps(request)
    assert answer["provenance"]["input_sha256"] == hashlib.sha256(canonical).hexdigest()
    assert answer["provenance"]["codebook_revision"] == revision()
    _reconciles(answer["capacity"])
    return answer


def _reconciles(capacity: Json) -> None:
    """The figures of an answer agree with each other."""
    if capacity["total_a"] is None:
        return
    total = capacity["existing_load_va"] + capacity["charger_load_va"]
    assert capacity["total_va"] == pytest.approx(total, rel=1e-9, abs=1e-6)
    assert capacity["greatest_total_a"] >= capacity["total_a"]
    assert capacity["least_headroom_a"] <= capacity["headroom_a"] <= capacity["limit_a"]


@examples(120)
@given(any_reviews())
def test_any_request_is_answered(request: Json) -> None:
    holds_for_every_answer(request)


@examples(60)
@given(usual_reviews())
def test_usual_requests_are_answered(request: Json) -> None:
    holds_for_every_answer(request)


def test_reported_figures_are_the_last_of_their_steps() -> None:
    answer = holds_for_every_answer(asked(existing_load=calculated()))
    values = {item["id"]: item["value"] for item in answer["steps"]}
    capacity = answer["capacity"]
    assert values["total-load"] == capacity["total_va"]
    assert values["total-current"] == capacity["total_a"]
    assert values["limit"] == capacity["limit_a"]
    assert values["headroom"] == capacity["headroom_a"]


@pytest.mark.parametrize(
    "extreme",
    [
        pytest.param({"chargers": [{"charging_current_a": 1000}] * 200}, id="two hundred chargers"),
        pytest.param({"chargers": [{"charging_current_a": 5e-324}]}, id="next to no current"),
        pytest.param(
            {"service": {"rating_a": 5e-324, "system": "split-phase-120-240"}}, id="next to no service"
        ),
        pytest.param({"service": {"rating_a": 6000, "system": "wye-208y-120", "phases": 3}}, id="6000 A"),
        pytest.param(
            {"shared_circuits": [{"chargers": [199, 198], "breaker_a": 1, "listed": True}] * 100},
            id="circuits of chargers that are not there",
        ),
        pytest.param({"management": {"control_setting_a": 5e-324}}, id="a setting of next to nothing"),
    ],
)
def test_extremes_are_answered(extreme: Json) -> None:
    holds_for_every_answer(asked(**extreme))
    holds_for_every_answer(asked(existing_load=calculated("optional-existing"), **extreme))


def test_an_open_rule_of_conductors_states_no_margin() -> None:
    """83 % of 100 A would do with 20 % to spare, but nobody says that the conductors carry the entire load."""
    measured = {"kind": "measured", "measured_demand_w": 2000, "averaging_minutes": 1, "days": 20}
    answer = holds_for_every_answer(
        {
            "edition": "nec-2017",
            "service": {
                "rating_a": 100,
                "system": "split-phase-120-240",
                "main_breaker_a": 101.0,
                "conductors": {"ampacity_a": 100},
            },
            "existing_load": measured,
            "chargers": [{"charging_current_a": 6}],
        }
    )
    (finding,) = [each for each in answer["findings"] if each["rule"] == "service-conductors"]
    assert (finding["outcome"], finding["margin_percent"]) == ("undetermined", None)
