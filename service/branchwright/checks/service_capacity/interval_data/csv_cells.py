"""Picks the cells that count out of a CSV body, and tells what they leave open."""

from dataclasses import dataclass, field

import numpy as np
import numpy.typing as npt

from branchwright.checks.service_capacity.interval_data.csv_layouts import Layout
from branchwright.checks.service_capacity.interval_data.csv_table import Table
from branchwright.checks.service_capacity.interval_data.facts import MOST_READINGS, Instructions
from branchwright.checks.service_capacity.interval_data.faults import Faults
from branchwright.checks.service_capacity.interval_data.text_values import (
    MARK_OF_WORD,
    UNKNOWN,
    DecimalMark,
    date_order_of,
    decimal_mark_of,
    has_short_year,
)
from branchwright.questions.answers import ToVerify

UNKNOWN_NAMED = 5


@dataclass(slots=True)
class Rows:
    """The cells that count, as text, row by row."""

    lines: list[int] = field(default_factory=list[int])
    stamps: list[str] = field(default_factory=list[str])
    times: list[str] = field(default_factory=list[str])
    ends: list[str] = field(default_factory=list[str])
    values: list[list[str]] = field(default_factory=list[list[str]])
    marks: list[str] = field(default_factory=list[str])


def value_columns(table: Table, layout: Layout, faults: Faults) -> range | None:
    """Return the places of the columns with values."""
    first = table.place_of(layout.value_column)
    if not layout.is_day_rows:
        return range(first, first + 1)
    last = len(table.header) - 1
    if layout.last_value_column is not None:
        last = table.place_of(layout.last_value_column)
    else:
        while last > first and not table.header[last]:
            last -= 1
    if last < first:
        faults.add("layout", f"line {table.header_line}", "the last value column stands before the first.")
        return None
    return range(first, last + 1)


def cells_of(
    table: Table, layout: Layout, columns: range, quality_column: str | None, faults: Faults
) -> Rows | None:
    """Return the cells that count, row by row; None, with a fault, where there are too many."""
    stamp = table.place_of(layout.stamp_column)
    time = None if layout.time_of_day_column is None else table.place_of(layout.time_of_day_column)
    end = None if layout.end_column is None else table.place_of(layout.end_column)
    quality = None if quality_column is None else table.place_of(quality_column)
    # A row may end early where its last cells are empty; not before its stamp.
    fewest = max(place for place in (stamp, time, end, columns.start) if place is not None) + 1
    rows = Rows()
    for line, cells in table.rows():
        if len(cells) < fewest:
            faults.add(
                "unparsed",
                f"line {line}",
                f"it has {len(cells)} cells; the header has {len(table.header)}.",
                table.delimiter.join(cells),
            )
            continue
        if (len(rows.lines) + 1) * len(columns) > MOST_READINGS:
            faults.add("layout", f"line {line}", f"there are more than {MOST_READINGS} readings.")
            return None
        rows.lines.append(line)
        rows.stamps.append(cells[stamp])
        rows.values.append(cells[columns.start : columns.stop])
        if time is not None:
            rows.times.append(cells[time])
        if end is not None:
            rows.ends.append(cells[end])
        if quality is not None:
            rows.marks.append(cells[quality] if quality < len(cells) else "")
    return rows


def decimal_mark(
    instructions: Instructions, table: Table, rows: Rows, faults: Faults, to_verify: list[ToVerify]
) -> DecimalMark | None:
    """Return the decimal mark, stated or told from the values; None, with a fault, where they leave it open."""
    if instructions.decimal_mark is not None:
        return instructions.decimal_mark
    mark = decimal_mark_of((cell for cells in rows.values for cell in cells), table.delimiter)
    if mark is None:
        faults.add(
            "missing",
            "query:decimal_mark",
            "the values leave open whether a comma or a point parts their decimals: state decimal_mark.",
        )
    elif mark == "comma":
        to_verify.append(
            ToVerify("query:decimal_mark", "not stated, told from the values: comma", "the file")
        )
    return mark


def date_order(
    instructions: Instructions, rows: Rows, faults: Faults, to_verify: list[ToVerify]
) -> str | None:
    """Return the order of dates, stated or told from them; None, with a fault, where they leave it open."""
    order = instructions.date_order or date_order_of(rows.stamps)
    if order is None:
        first = rows.stamps[0] if rows.stamps else ""
        faults.add(
            "missing",
            "query:date_order",
            "the dates leave open whether day or month stands first: state date_order.",
            first,
        )
        return None
    if instructions.date_order is None and order != "year-month-day":
        to_verify.append(
            ToVerify("query:date_order", f"not stated, told from the dates: {order}", "the file")
        )
    if has_short_year(rows.stamps):
        to_verify.append(
            ToVerify("query:date_order", "years of two digits, taken as 2000 and later", "the file")
        )
    return order


def marks_of(rows: Rows, columns: int) -> npt.NDArray[np.uint8]:
    """Return how each value came about, for so many values in a row."""
    found = [MARK_OF_WORD.get(mark.strip().lower(), UNKNOWN) for mark in rows.marks] or [0] * len(rows.lines)
    return np.repeat(np.array(found, dtype=np.uint8), columns)


def note_unknown_marks(rows: Rows, to_verify: list[ToVerify]) -> None:
    """Note marks of quality whose meaning is not known."""
    words = {mark.strip() for mark in rows.marks}
    unknown = sorted(word for word in words if word.lower() not in MARK_OF_WORD)[:UNKNOWN_NAMED]
    if unknown:
        listed = ", ".join(word[:40] for word in unknown)
        to_verify.append(
            ToVerify(
                "query:quality_column",
                f"marks of unknown meaning, taken as questionable: {listed}",
                "the file",
            )
        )
