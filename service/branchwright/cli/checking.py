"""Answers one request file without a server, by the same parsing and the same checks."""

import sys
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Final, cast

from pydantic import BaseModel, ValidationError
from rich.console import Console

from branchwright.checks.charging_cost.charging_comparison import ChargingComparisonRequest, compare_charging
from branchwright.checks.charging_cost.tariffs import TariffReviewRequest, review_tariff
from branchwright.checks.circuits import CircuitDesignRequest, CircuitReviewRequest, design, review
from branchwright.checks.service_capacity.capacity_review import CapacityReviewRequest, review_capacity
from branchwright.checks.service_capacity.dwelling_load import LoadCalculationRequest, calculate_load
from branchwright.checks.service_capacity.interval_data import IntervalDataRequest, read_json
from branchwright.checks.service_capacity.managed_charging import (
    ManagedChargingRequest,
    study_managed_charging,
)
from branchwright.cli.charging_tables import show_charging
from branchwright.cli.circuit_tables import show_circuit, show_comparison
from branchwright.cli.estimate_tables import show_estimate
from branchwright.cli.service_tables import show_capacity, show_interval_data, show_load, show_study
from branchwright.cli.tariff_tables import show_tariff
from branchwright.http_api.problems import InvalidField
from branchwright.http_api.strict_json import NotStrictJson, parse
from branchwright.http_api.validation import problem_from
from branchwright.jobs.current_comparison import CurrentComparisonAnswer, CurrentComparisonRequest, compare
from branchwright.jobs.installation import InstallationEstimateRequest, estimate_installation

EXIT_CODES: Final[dict[str, int]] = {"no-failure-found": 0, "fail": 1, "undetermined": 3}


@dataclass(frozen=True)
class Question:
    """A question that a file may ask: the fields that only it has, its model, its answer and how that is shown."""

    fields: frozenset[str]
    model: type[BaseModel]
    answer: Callable[[Any], BaseModel]
    show: Callable[[Console, dict[str, Any]], None]


# The first whose field a request has is asked; one with none of them asks for a design.
QUESTIONS: Final = (
    Question(frozenset({"installed"}), CircuitReviewRequest, review, show_circuit),
    Question(frozenset({"currents_a", "night_h"}), CurrentComparisonRequest, compare, show_comparison),
    Question(frozenset({"existing_load"}), CapacityReviewRequest, review_capacity, show_capacity),
    Question(frozenset({"dwelling"}), LoadCalculationRequest, calculate_load, show_load),
    Question(frozenset({"circuit"}), InstallationEstimateRequest, estimate_installation, show_estimate),
    Question(frozenset({"tariff"}), TariffReviewRequest, review_tariff, show_tariff),
    # Before the study, which has a house_load too.
    Question(
        frozenset({"tariffs", "charging", "schedules"}),
        ChargingComparisonRequest,
        compare_charging,
        show_charging,
    ),
    Question(frozenset({"house_load"}), ManagedChargingRequest, study_managed_charging, show_study),
    Question(frozenset({"series"}), IntervalDataRequest, read_json, show_interval_data),
)
DESIGN: Final = Question(frozenset(), CircuitDesignRequest, design, show_circuit)


class NotAnswered(Exception):
    """The file could not be answered; the text says where and why, and what is allowed."""


def exit_code_of(answer: BaseModel) -> int:
    """Return the exit status of an answer; a comparison's is that of its best row."""
    if isinstance(answer, CurrentComparisonAnswer):
        return min((EXIT_CODES[row.verdict] for row in answer.rows), key=(0, 3, 1).index)
    return EXIT_CODES[cast("Any", answer).verdict]


def answer_file(file: Path) -> tuple[Question, BaseModel]:
    """Return the question that a file asks, or standard input for the path `-`, and its answer.

    Raises NotAnswered for a file that cannot be read, that is no strict JSON, or that does not fit the schema.
    """
    try:
        data = parse(content_of(file))
    except NotStrictJson as error:
        raise NotAnswered(f"{file} is not strict JSON: {error}.") from error
    question = _asked_by(data)
    return question, question.answer(fitted(question.model, data, str(file)))


def content_of(file: Path, limit: int = -1) -> bytes:
    """Return the bytes of a file, or of standard input for the path `-`; of a longer one only so many."""
    try:
        if str(file) == "-":
            return sys.stdin.buffer.read(limit)
        with file.open("rb") as opened:
            return opened.read(limit)
    except OSError as error:
        raise NotAnswered(f"{file} cannot be read: {error.strerror}.") from error


def fitted(model: type[BaseModel], data: object, what: str) -> BaseModel:
    """Return data as its model; raise NotAnswered, naming every place of `what` that does not fit."""
    try:
        return model.model_validate(data)
    except ValidationError as error:
        problem = problem_from(error, data, model.model_json_schema()).problem()
        lines = [f"  {field.pointer or 'the body'}: {_said(field)}" for field in problem.errors or ()]
        raise NotAnswered("\n".join([f"{what} does not fit the schema.", *lines])) from error


def _said(field: InvalidField) -> str:
    """Return what is wrong with a field, and the names that are allowed where the message leaves them out."""
    if field.code not in ("not-an-allowed-value", "unknown-field"):
        return field.message
    return f"{field.message} Allowed: {', '.join(str(each) for each in field.allowed)}."


def _asked_by(data: object) -> Question:
    """Return the question that a request asks, by the fields that only one of them has."""
    fields = set(cast("dict[str, object]", data)) if isinstance(data, dict) else set[str]()
    return next((question for question in QUESTIONS if question.fields & fields), DESIGN)
