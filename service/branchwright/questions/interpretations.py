"""The disputed provisions that an answer consulted, each varied alone."""

from collections.abc import Callable

from branchwright.codebook import Book, interpretations
from branchwright.findings import Verdict
from branchwright.questions.answers import ConsultedInterpretation, OtherReading

_INTERPRETATIONS = {item.name: item for item in interpretations()}


def consulted_interpretations(
    book: Book, verdict: Verdict, under: Callable[[str, str], Verdict]
) -> list[ConsultedInterpretation]:
    """Return each interpretation that the book was consulted on, with the verdict `under` each other reading."""
    found: list[ConsultedInterpretation] = []
    # Judging under another reading consults too; the set is read before that.
    for name in sorted(book.consulted):
        item = _INTERPRETATIONS[name]
        reading = book.readings.get(name) or item.default
        others = [OtherReading(other, under(name, other)) for other in item.readings if other != reading]
        found.append(
            ConsultedInterpretation(name, reading, others, any(other.verdict != verdict for other in others))
        )
    return found
