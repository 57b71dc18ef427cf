"""Asks the engine as a caller does: a JSON object in, a JSON object out."""

import json
from typing import Any

from hypothesis import currently_in_test_context, note

from branchwright.checks.circuits import CircuitDesignRequest, CircuitReviewRequest, design, review

Json = dict[str, Any]


def body_of(request: Json) -> str:
    """Write a request as JSON; where a property test fails, it is shown with the failure."""
    body = json.dumps(request)
    if currently_in_test_context():
        note(body)
    return body


def designed(request: Json) -> Json:
    """Return the answer to a design request; the request is parsed from JSON as the service does it."""
    answer = design(CircuitDesignRequest.model_validate_json(body_of(request)))
    return dict(json.loads(answer.model_dump_json(by_alias=True)))


def reviewed(request: Json) -> Json:
    """Return the answer to a review request."""
    answer = review(CircuitReviewRequest.model_validate_json(body_of(request)))
    return dict(json.loads(answer.model_dump_json(by_alias=True)))


def by_rule(answer: Json) -> dict[str, Json]:
    """Return the findings of an answer by the name of their rule."""
    findings = {finding["rule"]: finding for finding in answer["findings"]}
    assert len(findings) == len(answer["findings"]), "two findings of one rule"
    return findings


def outcomes(answer: Json) -> dict[str, str]:
    """Return what each rule found."""
    return {name: finding["outcome"] for name, finding in by_rule(answer).items()}
