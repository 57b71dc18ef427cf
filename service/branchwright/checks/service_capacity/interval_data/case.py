"""Everything that the rules look at: the readings as they were found, and what was stated beside them."""

from dataclasses import dataclass, field, replace
from datetime import tzinfo

from branchwright.checks.service_capacity.interval_data.answers import DataQuality, MeasuredDemand
from branchwright.checks.service_capacity.interval_data.faults import Faults
from branchwright.checks.service_capacity.interval_data.normalising import Counts, Grid
from branchwright.checks.service_capacity.interval_data.placing import Placement
from branchwright.checks.service_capacity.interval_data.stated import Stated
from branchwright.codebook import Book


@dataclass(slots=True)
class Case:
    """One body of interval data, read."""

    stated: Stated
    book: Book | None
    faults: Faults
    counts: Counts
    quality: DataQuality
    zone: tzinfo
    """In which months and days are counted."""

    placement: Placement | None
    grid: Grid | None
    demand: MeasuredDemand | None
    unused: list[str] = field(default_factory=list[str])
    """Facts that were stated and mean nothing for this body."""

    signs_of_generation: list[str] = field(default_factory=list[str])
    unit_pointer: str = "/series/unit"
    candidates: int | None = None
    """Series of a Green Button file among which the load's was chosen; None for other bodies."""

    @property
    def series_pointer(self) -> str | None:
        """Pointer to the readings in the request; None where the body is text."""
        return "/series" if self.stated.root == "/" else None

    @property
    def interval_pointer(self) -> str:
        """Pointer to the length of the intervals in the request."""
        return "/series/interval_minutes" if self.stated.root == "/" else "query:interval_minutes"

    def under(self, book: Book) -> "Case":
        """Return the same case under another book."""
        return replace(self, book=book)
