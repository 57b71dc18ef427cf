"""Reviews a proposed or installed circuit, and computes what would mend it."""

from branchwright.checks.circuits.answers import CircuitReviewAnswer
from branchwright.checks.circuits.circuit import Circuit
from branchwright.checks.circuits.design import design_that_would_do
from branchwright.checks.circuits.facts import CircuitReviewRequest
from branchwright.checks.circuits.judging import (
    REVIEW_RULES,
    installed_circuit,
    judge,
    verdict_under,
)
from branchwright.checks.circuits.proposals import REVIEW_CANDIDATES
from branchwright.checks.circuits.remarks import cautions, not_examined, to_verify
from branchwright.checks.circuits.remedies import attach
from branchwright.checks.circuits.reuse import existing_circuit
from branchwright.checks.circuits.working import working
from branchwright.findings import verdict_of
from branchwright.questions.changes import changed
from branchwright.questions.interpretations import consulted_interpretations
from branchwright.questions.readings import bind
from branchwright.questions.remarks import provenance_of


def review(request: CircuitReviewRequest) -> CircuitReviewAnswer:
    """Return what the rules find of a circuit as it is stated, with remedies for what fails."""
    stated = request.model_dump(by_alias=True, exclude_unset=True)
    circuit = installed_circuit(request, bind(request.edition, request.readings))
    findings = judge(circuit, REVIEW_RULES)
    verdict = verdict_of(findings)
    would_do = None
    if verdict == "fail":
        attach(request, circuit, findings, REVIEW_CANDIDATES, _installed_circuit, REVIEW_RULES)
        would_do = design_that_would_do(_without_trade_sizes(request))
    return CircuitReviewAnswer(
        edition=request.edition,
        jurisdiction=request.jurisdiction,
        verdict=verdict,
        findings=findings,
        steps=working(circuit),
        interpretations=consulted_interpretations(
            circuit.given.book,
            verdict,
            lambda name, reading: verdict_under(circuit, REVIEW_RULES, findings, name, reading),
        ),
        to_verify=to_verify(circuit.given),
        not_examined=not_examined(circuit.given),
        cautions=cautions(circuit.given, circuit.sizes.grounding_material),
        provenance=provenance_of(stated),
        design=would_do,
        existing_circuit=existing_circuit(circuit),
    )


def _installed_circuit(request: CircuitReviewRequest) -> Circuit:
    return installed_circuit(request, bind(request.edition, request.readings))


def _without_trade_sizes(request: CircuitReviewRequest) -> CircuitReviewRequest:
    """Return the request without its raceways' sizes: a design may choose larger ones."""
    for index, segment in enumerate(request.run):
        if segment.raceway_trade_size is not None:
            request = changed(request, f"/run/{index}/raceway_trade_size", None)
    return request
