"""What a Green Button file is made of: entries of an Atom feed with ESPI resources in them."""

from array import array
from dataclasses import dataclass, field

MISSING = -(2**62)
"""Stands in arrays for a time or length that a reading does not state."""


@dataclass(slots=True)
class Entry:
    """One entry of the feed, as far as it names and links its resource."""

    number: int
    title: str = ""
    self_link: str = ""
    up_link: str = ""
    related: list[str] = field(default_factory=list[str])

    @property
    def name(self) -> str:
        """How a message names the entry."""
        shown = self.self_link or self.title
        return f"entry {self.number}" + (f" ({shown[:120]})" if shown else "")


@dataclass(slots=True)
class Block:
    """An IntervalBlock: readings side by side. Its arrays are of one length."""

    entry: Entry
    start: int = MISSING
    starts: "array[int]" = field(default_factory=lambda: array("q"))
    seconds: "array[int]" = field(default_factory=lambda: array("q"))
    values: "array[float]" = field(default_factory=lambda: array("d"))
    marks: "array[int]" = field(default_factory=lambda: array("B"))
    numbers: "array[int]" = field(default_factory=lambda: array("l"))
    """Which reading of the block each is, from 1: one that could not be read leaves a gap in them."""


@dataclass(slots=True)
class Resource:
    """A resource whose fields are plain: UsagePoint, MeterReading, ReadingType or LocalTimeParameters."""

    entry: Entry
    fields: dict[str, str] = field(default_factory=dict[str, str])


@dataclass(slots=True)
class Feed:
    """Everything of a file that counts."""

    usage_points: list[Resource] = field(default_factory=list[Resource])
    meter_readings: list[Resource] = field(default_factory=list[Resource])
    reading_types: list[Resource] = field(default_factory=list[Resource])
    local_times: list[Resource] = field(default_factory=list[Resource])
    blocks: list[Block] = field(default_factory=list[Block])
