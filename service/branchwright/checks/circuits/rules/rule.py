"""What a rule is: one question, asked of a circuit, answered by one finding."""

from collections.abc import Callable, Sequence

from branchwright.checks.circuits.circuit import Circuit
from branchwright.codebook import EditionBook, ProvisionLacking
from branchwright.findings import Citation, Finding, Provided, Required
from branchwright.findings.citations import Value
from branchwright.findings.finding import Force, Outcome, margin_at_least, margin_at_most

NEEDED = {
    "breaker": "the breaker's rating",
    "ungrounded": "the size of the ungrounded conductors",
    "grounding": "the size of the grounding conductor",
}


class Rule:
    """A rule: its name, what it rests on, and the function that judges a circuit.

    `concept` is the provision or table it cites unless the function cites something closer, `needs` the sizes without
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
        self.function = function
        self.name = name
        self.subject = subject
        self.concept = concept
        self.force: Force = force
        self.needs = tuple(needs)
        self.waits_for = tuple(waits_for)
        self.consults = frozenset(consults)
        self.review_only = review_only
        self.prose = function.__doc__ or ""

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

    def cited(self, edition: EditionBook) -> Citation:
        """Return the citation of the provision or table that the rule rests on."""
        return edition.citation_of(self.concept)

    def finding(
        self,
        outcome: Outcome,
        message: str,
        *,
        citation: Citation | None,
        pointer: str | None = None,
        segment: int | None = None,
        required: Required | None = None,
        provided: Provided | None = None,
        margin_percent: float | None = None,
    ) -> Finding:
        """Return a finding of this rule."""
        return Finding(
            self.name,
            outcome,
            self.force,
            self.subject,
            pointer,
            segment,
            required,
            provided,
            margin_percent,
            citation,
            message,
            None,
        )

    def undetermined(self, pointer: str | None, message: str, citation: Citation | None = None) -> Finding:
        """Return that a needed fact is missing."""
        return self.finding("undetermined", message, citation=citation, pointer=pointer)

    def not_applicable(self, message: str, citation: Citation | None = None) -> Finding:
        """Return that the rule does not apply to this circuit."""
        return Finding(
            self.name,
            "not-applicable",
            self.force,
            self.subject,
            None,
            None,
            None,
            None,
            None,
            citation,
            message,
            None,
        )

    def at_least(
        self,
        provided: float,
        required: float,
        unit: str,
        message: str,
        citation: Citation,
        pointer: str,
        segment: int | None = None,
    ) -> Finding:
        """Return whether a value reaches a limit."""
        return Finding(
            self.name,
            "pass" if provided >= required else "fail",
            self.force,
            self.subject,
            pointer,
            segment,
            Required(required, unit, "at-least"),
            Provided(provided, unit),
            margin_at_least(provided, required),
            citation,
            message,
            None,
        )

    def at_most(
        self,
        provided: float,
        limit: float,
        unit: str,
        message: str,
        citation: Citation,
        pointer: str,
        segment: int | None = None,
    ) -> Finding:
        """Return whether a value stays within a limit."""
        return Finding(
            self.name,
            "pass" if provided <= limit else "fail",
            self.force,
            self.subject,
            pointer,
            segment,
            Required(limit, unit, "at-most"),
            Provided(provided, unit),
            margin_at_most(provided, limit),
            citation,
            message,
            None,
        )

    def one_of(
        self,
        provided: Value,
        permitted: list[str],
        message: str,
        citation: Citation,
        pointer: str,
        *,
        holds: bool,
        segment: int | None = None,
    ) -> Finding:
        """Return whether a named value is among the permitted ones."""
        return self.finding(
            "pass" if holds else "fail",
            message,
            citation=citation,
            pointer=pointer,
            segment=segment,
            required=Required(permitted, "text", "one-of"),
            provided=Provided(provided, "text"),
        )


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
