"""What a rule is: one question, asked of a circuit, answered by one finding."""

from collections.abc import Callable, Sequence

from branchwright.checks.circuits.circuit import Circuit
from branchwright.codebook import ProvisionLacking
from branchwright.findings import Finding
from branchwright.findings.finding import Force
from branchwright.questions.rules import RuleOf

NEEDED = {
    "breaker": "the breaker's rating",
    "ungrounded": "the size of the ungrounded conductors",
    "grounding": "the size of the grounding conductor",
}


class Rule(RuleOf):
    """A rule of circuits: what it rests on, and the function that judges a circuit.

    `needs` are the sizes without
    which it cannot judge, `waits_for` the endings of pointers to unknown facts that may turn a failure round,
    `consults` the interpretations that its function may ask for.
    """

    def __init__(
        self,
        function: Callable[[Circuit], Finding],
        name: str,
        subject: str,
        concept: str,
        force: Force,
        needs: Sequence[str],
        waits_for: Sequence[str],
        consults: Sequence[str],
        *,
        review_only: bool,
    ) -> None:
        """Keep the parts; the function's docstring is the rule's prose."""
        super().__init__(name, subject, concept, force, function.__doc__ or "")
        self.function = function
        self.needs = tuple(needs)
        self.waits_for = tuple(waits_for)
        self.consults = frozenset(consults)
        self.review_only = review_only

    def __call__(self, circuit: Circuit, best: Callable[[], Circuit]) -> Finding:
        """Judge a circuit at its worst and, where a fact is unknown, at its best: undetermined where they differ."""
        if circuit.missing:
            for need in self.needs:
                if need in circuit.missing:
                    why = "is not stated" if circuit.is_review else "could not be chosen"
                    return self.undetermined(
                        circuit.pointer(need),
                        f"Needs {NEEDED[need]}, which {why}.",
                        self.cited(circuit.given.edition),
                    )
        try:
            finding = self.function(circuit)
            waits = self._waits(circuit) if self.waits_for and circuit.given.unknown else []
            if waits:
                # Most rules ask least at the best value; the grounding conductor's asks more there.
                other = self.function(best())
                if (finding.outcome == "fail") != (other.outcome == "fail"):
                    finding.outcome = "undetermined"
                    finding.message += f" Whether that decides depends on {', '.join(waits)}, not stated."
        except ProvisionLacking as lacking:
            return self.undetermined(None, str(lacking))
        return finding

    def _waits(self, circuit: Circuit) -> list[str]:
        """Return the unknown facts that may turn this rule's outcome round."""
        return sorted(pointer for pointer in circuit.given.unknown if pointer.endswith(self.waits_for))


def rule(
    name: str,
    *,
    subject: str,
    concept: str,
    force: Force = "requirement",
    needs: Sequence[str] = (),
    waits_for: Sequence[str] = (),
    consults: Sequence[str] = (),
    review_only: bool = False,
) -> Callable[[Callable[[Circuit], Finding]], Rule]:
    """Make a rule of a function."""

    def wrap(function: Callable[[Circuit], Finding]) -> Rule:
        return Rule(
            function, name, subject, concept, force, needs, waits_for, consults, review_only=review_only
        )

    return wrap
