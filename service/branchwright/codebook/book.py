"""An edition bound to the caller's readings for one request."""

from collections.abc import Mapping

from branchwright.codebook import loader
from branchwright.codebook.editions import EditionBook, edition_book
from branchwright.codebook.records import Interpretation

_NAMED: dict[str, Interpretation] = {item.name: item for item in loader.interpretations()}


class Book:
    """An edition and the readings that hold for one request; it records which of them were consulted."""

    __slots__ = ("consulted", "edition", "readings")

    def __init__(self, edition: EditionBook, readings: Mapping[str, str]) -> None:
        """Bind an edition and the readings that the caller chose; others are at their default."""
        self.edition = edition
        self.readings = readings
        self.consulted: set[str] = set()

    def reading(self, name: str) -> str:
        """Return the reading in force of a named interpretation and record that it was consulted."""
        self.consulted.add(name)
        return self.readings.get(name) or _NAMED[name].default

    def afresh(self) -> "Book":
        """Return the same edition and readings with nothing consulted yet."""
        return Book(self.edition, self.readings)

    def with_reading(self, name: str, reading: str) -> "Book":
        """Return the same edition with one reading changed."""
        return Book(self.edition, {**self.readings, name: reading})


def at(edition: str, readings: Mapping[str, str] | None = None) -> Book:
    """Bind an edition and readings; raise UnknownEntry where the codebook does not know the edition."""
    return Book(edition_book(edition), readings or {})
