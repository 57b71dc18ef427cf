"""Finds the table in a CSV body: its delimiter, its header below whatever preamble, and its rows."""

import csv
import io
from collections.abc import Iterator, Sequence
from contextlib import suppress
from dataclasses import dataclass
from difflib import get_close_matches
from itertools import islice
from typing import Final

from branchwright.checks.service_capacity.interval_data.faults import Faults, quoted
from branchwright.checks.service_capacity.interval_data.unreadable import UnreadableBody

DELIMITERS: Final = {"comma": ",", "semicolon": ";", "tab": "\t", "pipe": "|"}
LINES_BEFORE_HEADER: Final = 100
MOST_LINES: Final = 500_000
"""Twice the readings that can be used, and more: whatever follows is no table of readings."""

Row = tuple[int, list[str]]
"""A row with the number of its last line."""


class NoTable(ValueError):
    """A table that breaks off; says where and why."""

    def __init__(self, line: int, reason: str) -> None:
        """Keep the line and the reason."""
        super().__init__(reason)
        self.line = line


@dataclass(slots=True)
class Table:
    """A table whose header was found."""

    delimiter: str
    header: list[str]
    header_line: int
    body: bytes

    def place_of(self, column: str) -> int:
        """Return the place of a named column."""
        return self.header.index(column)

    def rows(self) -> Iterator[Row]:
        """Yield the rows below the header, without empty ones and repeated headers."""
        for line, cells in rows_of(self.body, self.delimiter):
            if line > MOST_LINES:
                raise NoTable(line, f"the table has more than {MOST_LINES} lines.")
            if line <= self.header_line or not any(cells):
                continue
            if [cell.strip() for cell in cells] != self.header:
                yield line, cells


def rows_of(body: bytes, delimiter: str) -> Iterator[Row]:
    """Yield the rows of a body; raise UnreadableBody where it is not UTF-8, NoTable where a cell never ends."""
    text = io.TextIOWrapper(io.BytesIO(body), encoding="utf-8-sig", newline="")
    reader = csv.reader(text, delimiter=delimiter)
    try:
        for cells in reader:
            yield reader.line_num, cells
    except UnicodeDecodeError as error:
        raise UnreadableBody(
            f"The body is not UTF-8: after line {reader.line_num} it has bytes that are no text ({error.reason})."
        ) from None
    except csv.Error as error:
        raise NoTable(reader.line_num, f"the table cannot be read on: {error}.") from None


def _first_rows(body: bytes, delimiter: str) -> Iterator[Row]:
    """Yield the rows among which the header is looked for."""
    # By a delimiter that is not the body's own a cell may seem never to end.
    with suppress(NoTable):
        yield from islice(rows_of(body, delimiter), LINES_BEFORE_HEADER)


def find_table(body: bytes, delimiter: str | None, columns: Sequence[str], faults: Faults) -> Table | None:
    """Return the table that has the named columns; None, with a fault, where no line names them all."""
    nearest: tuple[int, int, list[str]] = (0, 0, [])
    for each in DELIMITERS.values() if delimiter is None else [DELIMITERS[delimiter]]:
        for line, cells in _first_rows(body, each):
            header = [cell.strip() for cell in cells]
            found = sum(column in header for column in columns)
            if found == len(columns):
                return _table(body, each, header, line, columns, faults)
            if (found, len(header)) > (nearest[0], len(nearest[2])):
                nearest = (found, line, header)
    _, line, header = nearest
    lacking = [column for column in columns if column not in header]
    for column in lacking:
        near = get_close_matches(column, header, 1)
        meant = f" Is {quoted(near[0])} meant?" if near else ""
        faults.add(
            "layout",
            f"line {line}" if line else "body",
            f"there is no column of this name.{meant} The columns are: {quoted(', '.join(header))}.",
            column,
        )
    return None


def _table(
    body: bytes, delimiter: str, header: list[str], line: int, columns: Sequence[str], faults: Faults
) -> Table | None:
    twice = [column for column in columns if header.count(column) > 1]
    for column in twice:
        faults.add("layout", f"line {line}", "more than one column has this name.", column)
    return None if twice else Table(delimiter, header, line, body)


def columns_seen(body: bytes) -> str:
    """Return the cells of the widest of the first lines: what are likely the columns, for a message."""
    widest: list[str] = []
    for delimiter in DELIMITERS.values():
        for _, cells in _first_rows(body, delimiter):
            if len(cells) > len(widest):
                widest = [cell.strip() for cell in cells]
    return quoted(", ".join(widest))
