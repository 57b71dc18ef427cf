"""What every rule is: a name, a subject, the provision that it rests on, and the makers of its findings."""

from branchwright.codebook import EditionBook
from branchwright.findings import Citation, Finding, Provided, Required
from branchwright.findings.citations import Value
from branchwright.findings.finding import Force, Outcome, margin_at_least, margin_at_most


class RuleOf:
    """A rule apart from what it judges: `concept` is the provision or table that it cites unless its finding
    cites something closer, `prose` its explanation.
    """

    def __init__(self, name: str, subject: str, concept: str, force: Force, prose: str) -> None:
        """Keep the parts."""
        self.name = name
        self.subject = subject
        self.concept = concept
        self.force: Force = force
        self.prose = prose

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

    def passed(self, message: str, pointer: str | None = None, citation: Citation | None = None) -> Finding:
        """Return that nothing is wrong."""
        return self.finding("pass", message, citation=citation, pointer=pointer)

    def not_applicable(self, message: str, citation: Citation | None = None) -> Finding:
        """Return that the rule does not apply to these facts."""
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
        citation: Citation | None,
        pointer: str | None,
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
        citation: Citation | None,
        pointer: str | None,
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
        citation: Citation | None,
        pointer: str | None,
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
