"""Calculates a dwelling's load by each method, and judges the service by it."""

from branchwright.checks.service_capacity.dwelling_load.answers import LoadCalculationAnswer, MethodAnswer
from branchwright.checks.service_capacity.dwelling_load.case import LoadCase
from branchwright.checks.service_capacity.dwelling_load.facts import LoadCalculationRequest
from branchwright.checks.service_capacity.dwelling_load.remarks import not_examined, to_verify
from branchwright.checks.service_capacity.dwelling_load.rules import RULES
from branchwright.checks.service_capacity.dwelling_load.rules.service_rating import verdict_by
from branchwright.codebook import Book
from branchwright.findings import Finding, StepInput, Verdict, verdict_of
from branchwright.questions.interpretations import consulted_interpretations
from branchwright.questions.readings import bind
from branchwright.questions.remarks import CAUTIONS, provenance_of

BALANCED = (
    "Currents take the loads from line to neutral as spread evenly over the lines; where they are not, one line "
    "carries more."
)


def calculate_load(request: LoadCalculationRequest) -> LoadCalculationAnswer:
    """Return the load by each method that was asked for, and what the rules find of the facts and the service."""
    book = bind(request.edition, request.readings)
    case = LoadCase(request, book)
    methods = [_method_answer(case, index) for index in range(len(case.loads))]
    findings = judge(case)
    verdict = verdict_of(findings)
    return LoadCalculationAnswer(
        edition=request.edition,
        jurisdiction=request.jurisdiction,
        verdict=verdict,
        findings=findings,
        steps=case.ledger.steps,
        interpretations=consulted_interpretations(
            book, verdict, lambda name, reading: _verdict_under(request, book, name, reading)
        ),
        to_verify=to_verify(case),
        not_examined=not_examined(request),
        cautions=[*CAUTIONS, BALANCED],
        provenance=provenance_of(request.model_dump(by_alias=True, exclude_unset=True)),
        methods=methods,
    )


def judge(case: LoadCase) -> list[Finding]:
    """Return one finding of each rule."""
    return [rule(case) for rule in RULES]


def _verdict_under(request: LoadCalculationRequest, book: Book, name: str, reading: str) -> Verdict:
    """Return the verdict of the same facts under one other reading."""
    return verdict_of(judge(LoadCase(request, book.with_reading(name, reading))))


def _method_answer(case: LoadCase, index: int) -> MethodAnswer:
    """Return one method's load with the least service for it."""
    load, neutral = case.loads[index], case.neutral
    return MethodAnswer(
        method=load.method,
        permitted=load.permitted,
        why=load.why,
        items=load.items,
        lines=load.lines,
        total_va=load.total_va,
        current_a=load.current_a,
        rounded_current_a=load.rounded_current_a,
        least_service_rating_a=case.least_services_a[index],
        neutral_lines=neutral.part.lines,
        neutral_va=_number(neutral.total),
        neutral_current_a=_number(neutral.current),
        rounded_neutral_current_a=_number(case.rounded_neutral),
        verdict=verdict_by(case, load.method),
    )


def _number(found: StepInput | None) -> float | None:
    return None if found is None else float(found.value)
