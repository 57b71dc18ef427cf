"""Answers one request file without a server, by the same parsing and the same checks."""

import sys
from pathlib import Path
from typing import Final, TypeAlias, cast

from pydantic import ValidationError

from branchwright.checks.circuits import (
    CircuitDesignAnswer,
    CircuitDesignRequest,
    CircuitReviewAnswer,
    CircuitReviewRequest,
    design,
    review,
)
from branchwright.http_api.problems import InvalidField
from branchwright.http_api.strict_json import NotStrictJson, parse
from branchwright.http_api.validation import problem_from
from branchwright.jobs.current_comparison import CurrentComparisonAnswer, CurrentComparisonRequest, compare

EXIT_CODES: Final[dict[str, int]] = {"no-failure-found": 0, "fail": 1, "undetermined": 3}

Answer: TypeAlias = CircuitDesignAnswer | CircuitReviewAnswer | CurrentComparisonAnswer


class NotAnswered(Exception):
    """The file could not be answered; the text says where and why, and what is allowed."""


def exit_code_of(answer: Answer) -> int:
    """Return the exit status of an answer; a comparison's is that of its best row."""
    if isinstance(answer, CurrentComparisonAnswer):
        return min((EXIT_CODES[row.verdict] for row in answer.rows), key=(0, 3, 1).index)
    return EXIT_CODES[answer.verdict]


def answer_file(file: Path) -> Answer:
    """Return the answer to the request in a file, or on standard input for the path `-`.

    Raises NotAnswered for a file that cannot be read, that is no strict JSON, or that does not fit the schema.
    """
    try:
        body = sys.stdin.buffer.read() if str(file) == "-" else file.read_bytes()
    except OSError as error:
        raise NotAnswered(f"{file} cannot be read: {error.strerror}.") from error
    try:
        data = parse(body)
    except NotStrictJson as error:
        raise NotAnswered(f"{file} is not strict JSON: {error}.") from error
    model = _model_for(data)
    try:
        request = model.model_validate(data)
    except ValidationError as error:
        problem = problem_from(error, data, model.model_json_schema()).problem()
        lines = [f"  {field.pointer or 'the body'}: {_said(field)}" for field in problem.errors or ()]
        raise NotAnswered("\n".join([f"{file} does not fit the schema.", *lines])) from error
    if isinstance(request, CircuitReviewRequest):
        return review(request)
    return design(request) if isinstance(request, CircuitDesignRequest) else compare(request)


def _said(field: InvalidField) -> str:
    """Return what is wrong with a field, and the names that are allowed where the message leaves them out."""
    if field.code not in ("not-an-allowed-value", "unknown-field"):
        return field.message
    return f"{field.message} Allowed: {', '.join(str(each) for each in field.allowed)}."


def _model_for(
    data: object,
) -> type[CircuitReviewRequest] | type[CurrentComparisonRequest] | type[CircuitDesignRequest]:
    """Return the question that a request asks, by the fields that only one of them has."""
    fields = set(cast("dict[str, object]", data)) if isinstance(data, dict) else set[str]()
    if "installed" in fields:
        return CircuitReviewRequest
    return CurrentComparisonRequest if fields & {"currents_a", "night_h"} else CircuitDesignRequest
