"""Designs a circuit: chooses the sizes, then lets the rules of a review judge them."""

from collections.abc import Sequence

from branchwright import __version__, codebook
from branchwright.checks.circuits.answers import CircuitDesignAnswer, Design
from branchwright.checks.circuits.circuit import Circuit
from branchwright.checks.circuits.designs import described, review_request
from branchwright.checks.circuits.facts import CircuitDesignRequest, CircuitFacts
from branchwright.checks.circuits.judging import (
    DESIGN_RULES,
    bind,
    consulted_interpretations,
    judge,
    verdict_under,
)
from branchwright.checks.circuits.remarks import cautions, not_examined, to_verify
from branchwright.checks.circuits.remedies import DESIGN_CANDIDATES, attach
from branchwright.checks.circuits.sizing import Choice, choose
from branchwright.checks.circuits.working import working
from branchwright.findings import Finding, Provenance, Verdict, sha256_of, verdict_of


def design(request: CircuitDesignRequest) -> CircuitDesignAnswer:
    """Return the circuit that a charger needs, with its findings and its working.

    Where no size that is made can serve, or a requirement fails that no size can mend, the design is null and
    each failure bears the nearest change that works, if one was found.
    """
    stated = request.model_dump(by_alias=True, exclude_unset=True)
    choice, circuit, findings, verdict = _designed(request)
    designed = None
    if verdict == "fail":
        attach(request, circuit, findings, DESIGN_CANDIDATES, _judge_design)
    else:
        designed = described(choice, circuit)
    return CircuitDesignAnswer(
        edition=request.edition,
        jurisdiction=request.jurisdiction,
        verdict=verdict,
        findings=findings,
        steps=working(circuit),
        interpretations=consulted_interpretations(
            circuit,
            verdict,
            lambda name, reading: _verdict_under(choice, circuit, findings, name, reading),
        ),
        to_verify=to_verify(circuit.given),
        not_examined=not_examined(request),
        cautions=cautions(request),
        provenance=Provenance(__version__, codebook.revision(), sha256_of(stated)),
        design=designed,
        review_request=None if designed is None else review_request(circuit, stated),
    )


def design_that_would_do(facts: CircuitFacts) -> Design | None:
    """Return the design for the facts of a circuit whatever is installed, or None where there is none."""
    choice, circuit, _, verdict = _designed(facts)
    return None if verdict == "fail" else described(choice, circuit)


def _designed(
    facts: CircuitFacts, choice: Choice | None = None
) -> tuple[Choice, Circuit, list[Finding], Verdict]:
    choice = choice or choose(facts, bind(facts))
    circuit = Circuit(choice.given, choice.sizes, choice.minimum, is_review=False)
    findings = judge(circuit, DESIGN_RULES)
    return choice, circuit, findings, verdict_of(findings)


def _verdict_under(
    choice: Choice, circuit: Circuit, findings: list[Finding], name: str, reading: str
) -> Verdict:
    """Return the verdict of the design under another reading; where no sizes served, of what it would design."""
    if choice.served:
        return verdict_under(circuit, DESIGN_RULES, findings, name, reading)
    other = choose(circuit.facts, circuit.given.book.with_reading(name, reading))
    return _designed(circuit.facts, other)[3] if other.served else "fail"


def _judge_design(request: CircuitDesignRequest) -> tuple[Sequence[Finding], Verdict] | None:
    """Return what the rules find of a changed request's design; None where no sizes serve it."""
    choice = choose(request, bind(request))
    if not choice.served:
        return None
    _, _, findings, verdict = _designed(request, choice)
    return findings, verdict
