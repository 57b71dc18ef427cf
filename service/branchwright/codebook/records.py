"""The records of the codebook: columns, provisions, editions and interpretations, with their evidence."""

from collections.abc import Mapping
from dataclasses import dataclass
from math import inf

from branchwright.findings import Citation, Sourced


class UnknownEntry(LookupError):
    """An edition, table or interpretation that the codebook does not have."""

    def __init__(self, kind: str, given: str, known: tuple[str, ...]) -> None:
        """Keep what was asked for and what there is."""
        super().__init__(f"The codebook has no {kind} {given!r}.")
        self.kind = kind
        self.given = given
        self.known = known


class ProvisionLacking(LookupError):
    """The edition has no such provision: the caller answers undetermined and names it."""

    def __init__(self, edition: str, concept: str) -> None:
        """Keep the edition and the concept."""
        super().__init__(f"{edition} has no provision on {concept}.")
        self.edition = edition
        self.concept = concept


class CodebookFault(ValueError):
    """A file of the codebook breaks the codebook's own rules; raised when the service starts."""


@dataclass(slots=True, frozen=True)
class Column:
    """A column of a table or a value of a provision."""

    name: str
    unit: str
    meaning: str


@dataclass(slots=True, frozen=True)
class Evidence:
    """Where values were found and how sure we are of them."""

    section: str
    confidence: str
    found: str
    source: str
    checked: str
    notes: str | None


@dataclass(slots=True, frozen=True)
class Provision:
    """One concept of the code in one edition."""

    concept: str
    title: str
    citation: Citation
    evidence: Evidence
    columns: tuple[Column, ...]
    values: Mapping[str, Sourced]

    numbers: Mapping[str, float]
    """The numeric values once more as plain numbers, for sizing."""

    optional: frozenset[str] = frozenset()
    """Values that an edition may leave out, which then sets no limit."""

    def number(self, name: str) -> float:
        """Return a numeric value of the provision; KeyError where it has none of that name."""
        return self.numbers[name]

    def limit(self, name: str) -> float:
        """Return a limit of the provision; infinity where this edition sets none."""
        return self.numbers.get(name, inf)

    def says(self, name: str) -> bool:
        """Return whether a yes-or-no value of the provision is yes."""
        return self.values[name].value == "yes"


@dataclass(slots=True, frozen=True)
class Interpretation:
    """A point that is read two ways, with its readings; the default is the one that binds unless told."""

    name: str
    question: str
    default: str
    readings: Mapping[str, str]
    sections: Mapping[str, str]
    notes: str | None


@dataclass(slots=True, frozen=True)
class EditionRecord:
    """An edition of a code as the codebook knows it."""

    name: str
    title: str
    publication: str
    status: str
    notes: str | None
