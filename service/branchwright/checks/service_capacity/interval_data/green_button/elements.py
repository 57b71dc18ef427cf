"""Takes the elements of a Green Button file as a parser meets them, and keeps what counts."""

from collections.abc import Callable
from typing import Final

from branchwright.checks.service_capacity.interval_data.facts import MOST_READINGS
from branchwright.checks.service_capacity.interval_data.faults import Faults
from branchwright.checks.service_capacity.interval_data.green_button.resources import (
    MISSING,
    Block,
    Entry,
    Feed,
    Resource,
)
from branchwright.checks.service_capacity.interval_data.text_values import MARK_OF_WORD, UNKNOWN
from branchwright.checks.service_capacity.interval_data.unreadable import UnreadableBody

ATOM: Final = "{http://www.w3.org/2005/Atom}"
ESPI: Final = "{http://naesb.org/espi}"

MOST_DEPTH = 40
MOST_ELEMENTS = 2_000_000
MOST_NAMES = 2_000
"""Of elements, each once: the parser remembers every name that it has met."""

MOST_ENTRIES = 50_000
MOST_LINKS = 100
"""Of one entry."""

LONGEST_TEXT = 400
LONGEST_WHOLE = 18

_PLAIN: Final = ("UsagePoint", "MeterReading", "ReadingType", "LocalTimeParameters")
_FIELDS: Final = {
    ESPI + name: name
    for name in (
        "accumulationBehaviour",
        "commodity",
        "dataQualifier",
        "defaultQuality",
        "flowDirection",
        "intervalLength",
        "kind",
        "powerOfTenMultiplier",
        "uom",
        "dstEndRule",
        "dstOffset",
        "dstStartRule",
        "tzOffset",
    )
}
_ENTRY: Final = ATOM + "entry"
_LINK: Final = ATOM + "link"
_TITLE: Final = ATOM + "title"
_BLOCK: Final = ESPI + "IntervalBlock"
_READING: Final = ESPI + "IntervalReading"
_PERIODS: Final = (ESPI + "timePeriod", ESPI + "interval")


class FeedTarget:
    """Takes what the parser meets, element by element."""

    def __init__(self, faults: Faults) -> None:
        """Begin before the first element."""
        self.feed = Feed()
        self._faults = faults
        self._path: list[str] = []
        self._text: list[str] = []
        self.data = self._text.append
        """Takes text: a quarter of a million calls, none of them through a function of ours."""
        self._elements = 0
        self._names: set[str] = set()
        self._entries = 0
        self._readings = 0
        self._entry = Entry(0)
        self._resource: Resource | None = None
        self._block: Block | None = None
        self._in_block = 0
        self._forget_reading()
        self._begins: dict[str, Callable[[dict[str, str]], None]] = {
            _ENTRY: self._begin_entry,
            _LINK: self._begin_link,
            _BLOCK: self._begin_block,
            _READING: self._begin_reading,
            **{ESPI + name: self._begin_resource for name in _PLAIN},
        }
        self._ends: dict[str, Callable[[str], None]] = {
            _TITLE: self._end_title,
            _READING: self._end_reading,
            _BLOCK: self._end_block,
            ESPI + "start": self._end_start,
            ESPI + "duration": self._end_duration,
            ESPI + "value": self._end_value,
            ESPI + "quality": self._end_quality,
            **{ESPI + name: self._end_resource for name in _PLAIN},
            **dict.fromkeys(_FIELDS, self._end_field),
        }

    def start(self, tag: str, attributes: dict[str, str]) -> None:
        """Take the begin of an element."""
        path = self._path
        path.append(tag)
        if len(path) > MOST_DEPTH:
            raise UnreadableBody(f"The file is nested deeper than {MOST_DEPTH} elements.")
        self._text.clear()
        self._elements += 1
        if tag not in self._names:
            self._names.add(tag)
            if len(self._names) > MOST_NAMES:
                raise UnreadableBody(f"The file has elements of more than {MOST_NAMES} names.")
        if self._elements > MOST_ELEMENTS:
            raise UnreadableBody(f"The file has more than {MOST_ELEMENTS} elements.")
        if tag in self._begins:
            self._begins[tag](attributes)

    def end(self, tag: str) -> None:
        """Take the end of an element."""
        if tag in self._ends:
            self._ends[tag]("".join(self._text).strip())
        self._path.pop()
        self._text.clear()

    def close(self) -> None:
        """Take the end of the file."""

    def _begin_entry(self, _: dict[str, str]) -> None:
        self._entries += 1
        if self._entries > MOST_ENTRIES:
            raise UnreadableBody(f"The file has more than {MOST_ENTRIES} entries.")
        self._entry = Entry(self._entries)

    def _begin_link(self, attributes: dict[str, str]) -> None:
        entry, target = self._entry, attributes.get("href", "")[:LONGEST_TEXT]
        relation = attributes.get("rel")
        if relation == "self":
            entry.self_link = target
        elif relation == "up":
            entry.up_link = target
        elif relation == "related":
            if len(entry.related) == MOST_LINKS:
                raise UnreadableBody(f"Entry {entry.number} of the file has more than {MOST_LINKS} links.")
            entry.related.append(target)

    def _end_title(self, text: str) -> None:
        if self._path[-2:-1] == [_ENTRY]:
            self._entry.title = text[:LONGEST_TEXT]

    def _begin_resource(self, _: dict[str, str]) -> None:
        self._resource = Resource(self._entry)

    def _end_resource(self, _: str) -> None:
        feed, resource, name = self.feed, self._resource, self._path[-1].removeprefix(ESPI)
        if resource is not None:
            {
                "UsagePoint": feed.usage_points,
                "MeterReading": feed.meter_readings,
                "ReadingType": feed.reading_types,
                "LocalTimeParameters": feed.local_times,
            }[name].append(resource)
        self._resource = None

    def _end_field(self, text: str) -> None:
        if self._resource is not None and len(self._path) > 1:
            above = self._path[-2].removeprefix(ESPI)
            # A usage point's kind of service stands one element deeper.
            if above in _PLAIN or above == "ServiceCategory":
                self._resource.fields[_FIELDS[self._path[-1]]] = text[:LONGEST_TEXT]

    def _begin_block(self, _: dict[str, str]) -> None:
        self._block = Block(self._entry)
        self._in_block = 0

    def _end_block(self, _: str) -> None:
        if self._block is not None:
            self.feed.blocks.append(self._block)
        self._block = None

    def _begin_reading(self, _: dict[str, str]) -> None:
        self._forget_reading()

    def _forget_reading(self) -> None:
        self._start, self._seconds, self._value, self._mark = MISSING, MISSING, MISSING, 0
        self._is_faulty = False

    def _end_reading(self, _: str) -> None:
        block = self._block
        if block is None:
            return
        self._in_block += 1
        self._readings += 1
        if self._readings > MOST_READINGS:
            raise UnreadableBody(f"The file has more than {MOST_READINGS} readings.")
        if self._is_faulty:
            return
        if self._value == MISSING:
            self._fault("the reading has no value.", None)
            return
        block.starts.append(self._start)
        block.seconds.append(self._seconds)
        block.values.append(self._value)
        block.marks.append(self._mark)
        block.numbers.append(self._in_block)

    def _end_start(self, text: str) -> None:
        if self._block is None or self._path[-2] not in _PERIODS:
            return
        if self._path[-2] == _PERIODS[1]:
            self._block.start = self._whole(text, "start of the block")
        else:
            self._start = self._whole(text, "start")

    def _end_duration(self, text: str) -> None:
        if self._block is not None and self._path[-2] == _PERIODS[0]:
            self._seconds = self._whole(text, "duration")

    def _end_value(self, text: str) -> None:
        if self._path[-2] == _READING:
            self._value = self._whole(text, "value")

    def _end_quality(self, text: str) -> None:
        if self._block is not None:
            self._mark = max(self._mark, mark_of_code(text))

    def _whole(self, text: str, what: str) -> int:
        digits = text.removeprefix("-")
        if digits.isdecimal() and digits.isascii() and len(digits) <= LONGEST_WHOLE:
            return int(text)
        self._fault(f"its {what} is no whole number.", text)
        self._is_faulty = True
        return MISSING

    def _fault(self, message: str, given: str | None) -> None:
        number = self._in_block if self._is_faulty or self._path[-1] == _READING else self._in_block + 1
        self._faults.add("unparsed", f"{self._entry.name}, reading {number}", message, given)


def mark_of_code(text: str) -> int:
    """Return the mark that a quality of a reading stands for, by its number in ESPI."""
    return MARK_OF_WORD.get(text, UNKNOWN) if text.isdecimal() else UNKNOWN
