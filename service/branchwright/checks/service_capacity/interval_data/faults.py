"""Faults of the body: where each is, what is wrong, and what stands there, never more than a little of it."""

from typing import Literal, TypeAlias

from branchwright.checks.service_capacity.interval_data.answers import Fault

Kind: TypeAlias = Literal[
    "layout", "missing", "series", "unparsed", "zone", "autumn", "grid", "register", "conflict"
]
"""Which rule asks for it; layout is what contradicts itself or is not there, missing is what was not stated."""

MOST_KEPT = 50
MOST_NAMED = 3
LONGEST_INPUT = 200


def pointer_in(at: str) -> str | None:
    """Return a place that is a pointer to a field of the request; None for a line, an entry or a time."""
    return at if at.startswith(("/", "query:")) else None


def quoted(text: str) -> str:
    """Return input for a message or answer, at most 200 characters of it."""
    return text if len(text) <= LONGEST_INPUT else text[: LONGEST_INPUT - 3] + "..."


class Faults:
    """Collects the faults of one body: the first 50 for the answer, the first 3 of each kind for its finding."""

    def __init__(self) -> None:
        """Begin without any."""
        self.kept: list[Fault] = []
        self.count = 0
        self._first: dict[Kind, list[Fault]] = {}
        self._counts: dict[Kind, int] = {}

    def add(self, kind: Kind, at: str, message: str, given: str | None = None) -> None:
        """Enter a fault."""
        fault = Fault(at, message, None if given is None else quoted(given))
        self.count += 1
        if len(self.kept) < MOST_KEPT:
            self.kept.append(fault)
        named = self._first.setdefault(kind, [])
        if len(named) < MOST_NAMED:
            named.append(fault)
        self._counts[kind] = self._counts.get(kind, 0) + 1

    def of(self, kind: Kind) -> int:
        """Return how many faults of a kind there are."""
        return self._counts.get(kind, 0)

    def first(self, kind: Kind) -> Fault:
        """Return the first fault of a kind that there is."""
        return self._first[kind][0]

    def told(self, kind: Kind) -> str:
        """Return the first faults of a kind as sentences, and how many more there are."""
        named = self._first[kind]
        sentences = [f"{fault.at}: {fault.message}" for fault in named]
        more = self._counts[kind] - len(named)
        if more:
            sentences.append(f"{more} more of this kind.")
        return " ".join(sentences)
