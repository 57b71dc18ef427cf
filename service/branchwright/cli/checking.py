"""Answers one request file without a server, by the same parsing and the same checks."""

import sys
from pathlib import Path
from typing import Final, cast

from pydantic import ValidationError

from branchwright.checks.circuits import (
    CircuitDesignAnswer,
    CircuitDesignRequest,
    CircuitReviewAnswer,
    CircuitReviewRequest,
    design,
    review,
)
from branchwright.http_api.strict_json import NotStrictJson, parse
from branchwright.http_api.validation import problem_from

EXIT_CODES: Final = {"no-failure-found": 0, "fail": 1, "undetermined": 3}


class NotAnswered(Exception):
    """The file could not be answered; the text says where and why, and what is allowed."""


def answer_file(file: Path) -> CircuitDesignAnswer | CircuitReviewAnswer:
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
    model = CircuitReviewRequest if _asks_for_review(data) else CircuitDesignRequest
    try:
        request = model.model_validate(data)
    except ValidationError as error:
        problem = problem_from(error, data, model.model_json_schema()).problem()
        lines = [f"  {field.pointer or 'the body'}: {field.message}" for field in problem.errors or ()]
        raise NotAnswered("\n".join([f"{file} does not fit the schema.", *lines])) from error
    return review(request) if isinstance(request, CircuitReviewRequest) else design(request)


def _asks_for_review(data: object) -> bool:
    return isinstance(data, dict) and "installed" in cast("dict[str, object]", data)
