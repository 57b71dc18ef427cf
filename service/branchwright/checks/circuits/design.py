"""Designs a circuit: chooses the sizes, then lets the rules of a review judge them."""

from dataclasses import dataclass

from branchwright.checks.circuits.answers import CircuitDesignAnswer, Design
from branchwright.checks.circuits.circuit import Circuit
from branchwright.checks.circuits.designs import described, review_request
from branchwright.checks.circuits.facts import CircuitDesignRequest, CircuitFacts
from branchwright.checks.circuits.judging import (
    DESIGN_RULES,
    judge,
    verdict_under,
)
from branchwright.checks.circuits.proposals import DESIGN_CANDIDATES
from branchwright.checks.circuits.remarks import cautions, not_examined, to_verify
from branchwright.checks.circuits.remedies import attach
from branchwright.checks.circuits.sizing import Choice, choose, minimum_size
from branchwright.checks.circuits.working import working
from branchwright.findings import Finding, Verdict, verdict_of
from branchwright.questions.answers import ConsultedInterpretation
from branchwright.questions.interpretations import consulted_interpretations
from branchwright.questions.readings import bind
from branchwright.questions.remarks import provenance_of


def design(request: CircuitDesignRequest) -> CircuitDesignAnswer:
    """Return the circuit that a charger needs, with its findings and its working.

    Where no size that is made can serve, or a requirement fails that no size can mend, the design is null and
    each failure bears the nearest change that works, if one was found.
    """
    stated = request.model_dump(by_alias=True, exclude_unset=True)
    judged = judged_design(request)
    circuit = judged.circuit
    if judged.verdict == "fail":
        attach(request, circuit, judged.findings, DESIGN_CANDIDATES, _served_circuit, DESIGN_RULES)
    designed = judged.described()
    return CircuitDesignAnswer(
        edition=request.edition,
        jurisdiction=request.jurisdiction,
        verdict=judged.verdict,
        findings=judged.findings,
        steps=working(judged.shown),
        interpretations=judged.interpretations(),
        to_verify=to_verify(circuit.given),
        not_examined=not_examined(circuit.given),
        cautions=cautions(circuit.given, circuit.sizes.grounding_material),
        provenance=provenance_of(stated),
        design=designed,
        review_request=None if designed is None else review_request(circuit, stated),
    )


def design_that_would_do(facts: CircuitFacts) -> Design | None:
    """Return the design for the facts of a circuit whatever is installed, or None where there is none."""
    return judged_design(facts).described()


@dataclass(slots=True)
class JudgedDesign:
    """The sizes chosen for a circuit and what the rules find of them: a design without its working."""

    choice: Choice
    circuit: Circuit
    findings: list[Finding]
    verdict: Verdict

    def described(self) -> Design | None:
        """Return the design as answers show it; None where a requirement fails."""
        return None if self.verdict == "fail" else described(self.choice, self.shown)

    @property
    def shown(self) -> Circuit:
        """The circuit whose figures are shown: with unknown facts as they were taken when the sizes were chosen."""
        if not self.choice.at_best:
            return self.circuit
        best = self.circuit.given.at_best()
        return Circuit(best, self.choice.sizes, minimum_size(best), is_review=False)

    def interpretations(self) -> list[ConsultedInterpretation]:
        """Return each interpretation that was consulted so far, with the verdict under its other readings."""
        return consulted_interpretations(self.circuit.given.book, self.verdict, self._verdict_under)

    def _verdict_under(self, name: str, reading: str) -> Verdict:
        """Return the verdict under another reading: of the same sizes, or without a design of what it would design."""
        circuit = self.circuit
        if self.verdict != "fail":
            return verdict_under(circuit, DESIGN_RULES, self.findings, name, reading)
        other = choose(circuit.facts, circuit.given.book.with_reading(name, reading))
        return judged_design(circuit.facts, other).verdict


def judged_design(facts: CircuitFacts, choice: Choice | None = None) -> JudgedDesign:
    """Choose the sizes for the facts of a circuit, unless they are chosen already, and judge them."""
    choice = choice or choose(facts, bind(facts.edition, facts.readings))
    circuit = _circuit_of(choice)
    findings = judge(circuit, DESIGN_RULES)
    return JudgedDesign(choice, circuit, findings, verdict_of(findings))


def _circuit_of(choice: Choice) -> Circuit:
    return Circuit(choice.given, choice.sizes, choice.minimum, is_review=False)


def _served_circuit(request: CircuitDesignRequest) -> Circuit | None:
    """Return the circuit that a changed request is designed to; None where no sizes serve it."""
    choice = choose(request, bind(request.edition, request.readings))
    return _circuit_of(choice) if choice.served else None
