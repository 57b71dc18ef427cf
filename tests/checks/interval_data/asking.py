"""Asking for the answer to interval data as a caller would, and looking at it as the caller sees it: plain JSON."""

import json
from collections.abc import Mapping
from typing import Any

from branchwright.checks.service_capacity.interval_data import (
    Instructions,
    IntervalDataAnswer,
    IntervalDataRequest,
    read_csv,
    read_green_button,
    read_json,
)

Answer = dict[str, Any]

PLAIN = {"edition": "nec-2023", "time_zone": "America/Denver", "has_generation": "false"}
"""A query that leaves nothing of the conditions open."""


def as_json(answer: IntervalDataAnswer) -> Answer:
    return json.loads(answer.model_dump_json(by_alias=True))


def ask_json(series: Mapping[str, Any], **facts: Any) -> Answer:
    return as_json(read_json(IntervalDataRequest.model_validate({**facts, "series": dict(series)})))


def ask_csv(text: str, **query: str) -> Answer:
    return as_json(read_csv(text.encode(), Instructions.model_validate(query)))


def ask_xml(text: str, **query: str) -> Answer:
    return as_json(read_green_button(text.encode(), Instructions.model_validate(query)))


def stamped(readings: list[tuple[str, float | None]], unit: str = "energy-wh", **more: Any) -> dict[str, Any]:
    listed = [{"at": at, "value": value} for at, value in readings]
    return {"kind": "stamped", "unit": unit, "readings": listed, **more}


def finding(answer: Answer, rule: str) -> dict[str, Any]:
    found = [each for each in answer["findings"] if each["rule"] == f"interval-data-{rule}"]
    assert len(found) == 1, f"{len(found)} findings of {rule}"
    return found[0]


def outcome(answer: Answer, rule: str) -> str:
    return finding(answer, rule)["outcome"]


def failures(answer: Answer) -> set[str]:
    """The rules that did not pass, requirements or not, without those that need facts not stated."""
    return {
        each["rule"].removeprefix("interval-data-")
        for each in answer["findings"]
        if each["outcome"] in ("fail", "undetermined")
    }
