"""Asks for a capacity review as a caller does, and reads the lines of load calculations."""

import json

from tests.checks.circuits import Json, body_of

from branchwright.checks.service_capacity.capacity_review import CapacityReviewRequest, review_capacity


def capacity_reviewed(request: Json) -> Json:
    """Return the answer to a request for a capacity review."""
    answer = review_capacity(CapacityReviewRequest.model_validate_json(body_of(request)))
    return dict(json.loads(answer.model_dump_json(by_alias=True)))


def by_method(answer: Json) -> dict[str, Json]:
    """Return the methods of a load calculation by their name."""
    return {method["method"]: method for method in answer["methods"]}


def by_group(method: Json) -> dict[str, float]:
    """Return what each group of lines comes to, VA; heating and cooling as one."""
    found: dict[str, float] = {}
    for line in method["lines"]:
        group = "heating-or-cooling" if line["group"] in ("heating", "cooling") else line["group"]
        found[group] = found.get(group, 0) + line["demand_va"]
    return found
