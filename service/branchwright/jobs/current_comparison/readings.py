"""Which readings of disputed provisions were asked for, and at which currents another one changes the verdict."""

from collections.abc import Sequence

from branchwright.jobs.current_comparison.answers import (
    ComparedCurrent,
    ComparedInterpretation,
    ComparedReading,
)
from branchwright.questions.answers import ConsultedInterpretation


class ReadingsTally:
    """Gathers, row by row, what each current consulted."""

    def __init__(self) -> None:
        """Start with nothing consulted."""
        self._found: dict[str, ComparedInterpretation] = {}

    def add(self, row: ComparedCurrent, consulted: Sequence[ConsultedInterpretation]) -> None:
        """Add what a row consulted; its verdict under each other reading is held against its own."""
        for item in consulted:
            found = self._found.get(item.name)
            if found is None:
                others = [ComparedReading(other.reading, []) for other in item.other_readings]
                found = self._found[item.name] = ComparedInterpretation(item.name, item.reading, others)
            for tally, other in zip(found.other_readings, item.other_readings, strict=True):
                if other.verdict != row.verdict:
                    tally.currents_a.append(row.charging_current_a)

    def interpretations(self) -> list[ComparedInterpretation]:
        """Return each interpretation that any row consulted, by name."""
        return [self._found[name] for name in sorted(self._found)]
