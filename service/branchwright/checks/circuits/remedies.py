"""Computes remedies: tries single changes, nearest first, and judges the whole circuit again with each."""

from collections.abc import Callable, Iterator, Sequence
from typing import Any, TypeVar

from pydantic import BaseModel

from branchwright.checks.circuits.circuit import Circuit
from branchwright.checks.circuits.facts import CircuitFacts
from branchwright.checks.circuits.judging import judge
from branchwright.checks.circuits.proposals import Candidates, Change
from branchwright.checks.circuits.rules import Rule
from branchwright.findings import Finding, Remedy, RemedyChange, verdict_of
from branchwright.findings.citations import Value
from branchwright.questions.changes import changed, stated

Request = TypeVar("Request", bound=CircuitFacts)


def attach(
    request: Request,
    circuit: Circuit,
    findings: Sequence[Finding],
    candidates: Sequence[tuple[frozenset[str], Candidates]],
    circuit_of: Callable[[Request], Circuit | None],
    rules: Sequence[Rule],
) -> None:
    """Give each failing requirement the nearest single change that helps, judged on the whole circuit.

    The first change with which nothing fails any more is the remedy of every failure. Where there is none,
    each failure gets the first change that ends it and breaks nothing else, with the verdict that remains.
    `circuit_of` makes the circuit of a changed request; None where it cannot be served at all.
    """
    failing = [
        finding for finding in findings if finding.outcome == "fail" and finding.force == "requirement"
    ]
    names = {finding.rule for finding in failing}
    failed = [rule for rule in rules if rule.name in names]
    partial: dict[str, Remedy] = {}
    for change in _changes(request, circuit, failing, candidates):
        fields = ((change.pointer, change.value), *change.together)
        tried = request
        for pointer, value in fields:
            tried = changed(tried, pointer, value)
        changed_circuit = circuit_of(tried)
        # Most changes end no failure at all, which these few rules say without the others.
        if changed_circuit is None or all(
            finding.outcome == "fail" for finding in judge(changed_circuit, failed)
        ):
            continue
        outcome = judge(changed_circuit, rules)
        verdict = verdict_of(outcome)
        given: object = stated(request, change.pointer)
        remedy = Remedy(
            change.pointer,
            _as_value(given),
            change.proposed,
            [RemedyChange(pointer, _as_json(value)) for pointer, value in fields],
            change.message,
            verdict,
        )
        if verdict != "fail":
            for finding in failing:
                finding.remedy = remedy
            return
        still = {item.rule for item in outcome if item.outcome == "fail" and item.force == "requirement"}
        if still < names:
            for name in names - still:
                partial.setdefault(name, remedy)
    for finding in failing:
        finding.remedy = partial.get(finding.rule)


def _as_value(given: object) -> Value | None:
    """Return a stated name or number as an answer gives it; None for what is neither."""
    if isinstance(given, str):
        return given
    return float(given) if isinstance(given, (int, float)) and not isinstance(given, bool) else None


def _as_json(value: Any) -> Any:
    return value.model_dump(mode="json") if isinstance(value, BaseModel) else value


def _changes(
    request: CircuitFacts,
    circuit: Circuit,
    failing: Sequence[Finding],
    candidates: Sequence[tuple[frozenset[str], Candidates]],
) -> Iterator[Change]:
    seen: set[tuple[str, str]] = set()
    for rules, propose in candidates:
        for finding in failing:
            if finding.rule in rules:
                for change in propose(request, circuit, finding):
                    key = (change.pointer, str(change.proposed))
                    if key not in seen:
                        seen.add(key)
                        yield change
