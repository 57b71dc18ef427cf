"""Estimates an installation: designs the circuit, takes it off, prices it, sums it up and shows its spread."""

from dataclasses import replace

from branchwright.checks.circuits.design import JudgedDesign, judged_design
from branchwright.findings import Finding, verdict_of
from branchwright.jobs.installation.answers import InstallationEstimateAnswer
from branchwright.jobs.installation.case import Case
from branchwright.jobs.installation.expected import Expected
from branchwright.jobs.installation.facts import InstallationEstimateRequest
from branchwright.jobs.installation.remarks import (
    CIRCUIT,
    estimate_cautions,
    estimate_not_examined,
    estimate_to_verify,
    exclusions,
)
from branchwright.jobs.installation.rules import RULES
from branchwright.jobs.installation.sources import Sources
from branchwright.jobs.installation.spread import Spread
from branchwright.jobs.installation.taking_off import taken_off
from branchwright.questions.answers import ConsultedInterpretation, OtherReading
from branchwright.questions.remarks import provenance_of

WORST_FIRST = ("fail", "undetermined", "no-failure-found")


def estimate_installation(request: InstallationEstimateRequest) -> InstallationEstimateAnswer:
    """Return what an installation takes and costs, from the design of its circuit.

    Without a design nothing is estimated: the lines are empty and the findings name what the circuit lacks.
    """
    stated = request.model_dump(by_alias=True, exclude_unset=True)
    judged = judged_design(request.circuit)
    sources = Sources(request.price_book, request.labour_table)
    design = judged.described()
    taken = None
    if design is not None:
        taken = taken_off(judged.shown, design, request, sources, circuit_at=CIRCUIT, facts_at="")
    case = Case(request, judged, sources, design, taken)
    own = [rule(case) for rule in RULES]
    findings = [*own, *_of_circuit(judged)]
    risk = None
    if taken is not None:
        spread = Spread(taken.job, sources, taken.pricing.lines, taken.sums, request.risk)
        risk = spread.risk(Expected(taken.job, sources, taken.sums).total())
    return InstallationEstimateAnswer(
        edition=request.circuit.edition,
        jurisdiction=request.circuit.jurisdiction,
        verdict=verdict_of(findings),
        findings=findings,
        steps=taken.job.ledger.steps if taken else [],
        interpretations=_interpretations(judged, own),
        to_verify=estimate_to_verify(judged, taken, sources),
        not_examined=estimate_not_examined(judged),
        cautions=estimate_cautions(judged, sources),
        provenance=provenance_of(stated),
        design=design,
        lines=[priced.line for priced in taken.pricing.lines] if taken else [],
        hours=taken.sums.hours if taken else None,
        totals=taken.sums.totals(is_complete=taken.is_complete) if taken else None,
        risk=risk,
        price_book=sources.used_book(),
        labour_table=sources.used_table(),
        exclusions=exclusions(request, judged.circuit.given),
    )


def _of_circuit(judged: JudgedDesign) -> list[Finding]:
    """Return what the circuit fails or leaves open, under its place in the request."""
    return [
        replace(finding, pointer=None if finding.pointer is None else CIRCUIT + finding.pointer)
        for finding in judged.findings
        if finding.outcome in ("fail", "undetermined")
    ]


def _interpretations(judged: JudgedDesign, own: list[Finding]) -> list[ConsultedInterpretation]:
    """Return the readings that the circuit consulted; what the estimate itself finds no reading can change."""
    mine = verdict_of([finding for finding in own if finding.rule != "estimate-circuit"])

    def worst(other: str) -> str:
        return min(mine, other, key=WORST_FIRST.index)

    now = worst(judged.verdict)
    found: list[ConsultedInterpretation] = []
    for item in judged.interpretations():
        others = [OtherReading(other.reading, worst(other.verdict)) for other in item.other_readings]
        changes = any(other.verdict != now for other in others)
        found.append(ConsultedInterpretation(item.name, item.reading, others, changes))
    return found
