"""Collects the readings of a CSV body."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import tzinfo

import numpy as np

from branchwright.checks.service_capacity.interval_data.collected import NO_OFFSET, Collected
from branchwright.checks.service_capacity.interval_data.csv_layouts import Layout
from branchwright.checks.service_capacity.interval_data.csv_table import Table, find_table
from branchwright.checks.service_capacity.interval_data.facts import MOST_READINGS, Instructions
from branchwright.checks.service_capacity.interval_data.faults import Faults
from branchwright.checks.service_capacity.interval_data.interval_ends import lengths_of
from branchwright.checks.service_capacity.interval_data.text_values import (
    MARK_OF_WORD,
    UNKNOWN,
    DecimalMark,
    NoNumber,
    date_order_of,
    decimal_mark_of,
    has_short_year,
    parse_number,
)
from branchwright.checks.service_capacity.interval_data.time_stamps import NoStamp, parse_date, parse_time
from branchwright.checks.service_capacity.interval_data.zones import DAY
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


def collect_csv(
    body: bytes, instructions: Instructions, layout: Layout, zone: tzinfo | None, faults: Faults
) -> Collected | None:
    """Return the readings of a CSV body in a layout; None, with faults, where it cannot be read."""
    named = (
        layout.stamp_column,
        layout.time_of_day_column,
        layout.end_column,
        layout.value_column,
        layout.last_value_column,
        instructions.quality_column,
    )
    table = find_table(body, instructions.delimiter, [each for each in named if each is not None], faults)
    if table is None:
        return None
    columns = _value_columns(table, layout, faults)
    if columns is None:
        return None
    rows = _cells(table, layout, columns, instructions.quality_column, faults)
    if rows is None:
        return None
    to_verify: list[ToVerify] = []
    mark = _decimal_mark(instructions, table, rows, faults, to_verify)
    order = _date_order(instructions, rows, faults, to_verify)
    if mark is None or order is None:
        return None
    collected = (
        _day_rows(rows, table, columns, mark, order, instructions, faults)
        if layout.is_day_rows
        else _reading_rows(rows, layout, mark, order, instructions, zone, faults)
    )
    if collected is not None:
        _note_unknown_marks(rows, to_verify)
        collected.to_verify = [*to_verify, *collected.to_verify]
    return collected


def _value_columns(table: Table, layout: Layout, faults: Faults) -> range | None:
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


def _cells(
    table: Table, layout: Layout, columns: range, quality_column: str | None, faults: Faults
) -> Rows | None:
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


def _decimal_mark(
    instructions: Instructions, table: Table, rows: Rows, faults: Faults, to_verify: list[ToVerify]
) -> DecimalMark | None:
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


def _date_order(
    instructions: Instructions, rows: Rows, faults: Faults, to_verify: list[ToVerify]
) -> str | None:
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


def _marks(rows: Rows, columns: int) -> np.ndarray[tuple[int], np.dtype[np.uint8]]:
    found = [MARK_OF_WORD.get(mark.strip().lower(), UNKNOWN) for mark in rows.marks] or [0] * len(rows.lines)
    return np.repeat(np.array(found, dtype=np.uint8), columns)


def _note_unknown_marks(rows: Rows, to_verify: list[ToVerify]) -> None:
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


def _reading_rows(
    rows: Rows,
    layout: Layout,
    mark: DecimalMark,
    order: str,
    instructions: Instructions,
    zone: tzinfo | None,
    faults: Faults,
) -> Collected | None:
    kept: list[int] = []
    walls: list[int] = []
    offsets: list[int] = []
    ends: list[int] = []
    values: list[float] = []
    for index, line in enumerate(rows.lines):
        at = layout.stamp_column
        given = rows.stamps[index]
        try:
            day, rest = parse_date(given, order)
            if rows.times:
                at, given = layout.time_of_day_column or at, rows.times[index]
                rest = given
            moment = parse_time(rest)
            wall = day + moment.second
            if rows.ends:
                at, given = layout.end_column or at, rows.ends[index]
                ends.append(_end(given, day, wall, moment.offset, order, layout))
            at, given = layout.value_column, rows.values[index][0]
            values.append(parse_number(given, mark) if given.strip() else np.nan)
        except (NoStamp, NoNumber) as error:
            faults.add("unparsed", f"line {line}, column '{at}'", str(error), given)
            del ends[len(kept) :]
            continue
        kept.append(line)
        walls.append(wall)
        offsets.append(moment.offset)
    marks = _marks(rows, 1)
    if len(kept) < len(rows.lines):
        there = set(kept)
        marks = marks[[line in there for line in rows.lines]]
    collected = Collected(
        unit=instructions.unit or "energy-wh",
        walls=np.array(walls, dtype=np.int64),
        offsets=np.array(offsets, dtype=np.int64),
        values=np.array(values, dtype=np.float64),
        marks=marks,
        place=lambda index: f"line {kept[index]}, column '{layout.value_column}'",
        interval_minutes=instructions.interval_minutes,
        at_end=instructions.stamps_at == "end" and "stamps_at" in layout.used,
    )
    if ends:
        collected.lengths = lengths_of(collected, np.array(ends, dtype=np.int64), zone)
    elif "stamps_at" in layout.used and instructions.stamps_at is None:
        collected.to_verify.append(
            ToVerify("query:stamps_at", "not stated, taken as start", "description of the export")
        )
    return collected


def _end(text: str, day: int, start: int, offset: int, order: str, layout: Layout) -> int:
    """Return the clock at the end of an interval: a stamp of its own, or the next such time of day.

    Where both ends have their offset, it is the clock of the start that counts on.
    """
    if layout.has_stamp_in_one:
        ended, rest = parse_date(text, order)
        moment = parse_time(rest)
        shift = 0 if NO_OFFSET in (offset, moment.offset) else offset - moment.offset
        return ended + moment.second + shift
    end = day + parse_time(text).second
    return end if end > start else end + DAY


def _day_rows(
    rows: Rows,
    table: Table,
    columns: range,
    mark: DecimalMark,
    order: str,
    instructions: Instructions,
    faults: Faults,
) -> Collected | None:
    minutes = _minutes_of_day_row(len(columns), instructions.interval_minutes)
    if minutes is None:
        faults.add(
            "layout",
            f"line {table.header_line}",
            f"{len(columns)} columns from '{instructions.first_value_column}' on are no day's intervals: 24, 48 or 96 "
            "are, or the number that goes with interval_minutes.",
        )
        return None
    names = [table.header[place] for place in columns]
    values: list[float] = []
    starts: list[int] = []
    for line, stamp, cells in zip(rows.lines, rows.stamps, rows.values, strict=True):
        try:
            day, rest = parse_date(stamp, order)
            if rest and parse_time(rest).second:
                raise NoStamp("a day's row has a date alone.")
        except NoStamp as error:
            faults.add("unparsed", f"line {line}, column '{instructions.date_column}'", str(error), stamp)
            day = NO_DAY
        starts.append(day)
        values += [
            _number_in(cells[at] if at < len(cells) else "", mark, line, name, faults)
            for at, name in enumerate(names)
        ]
    steps = np.arange(len(names), dtype=np.int64) * minutes * 60
    days = np.array(starts, dtype=np.int64)
    walls = (days[:, np.newaxis] + steps).ravel()
    usable = np.repeat(days != NO_DAY, len(names))
    kept = np.flatnonzero(usable)
    return Collected(
        unit=instructions.unit or "energy-wh",
        walls=walls[kept],
        offsets=np.full(len(kept), NO_OFFSET, dtype=np.int64),
        values=np.array(values, dtype=np.float64)[kept],
        marks=_marks(rows, len(names))[kept],
        place=lambda index: _place_in_day(rows.lines, names, int(kept[index])),
        interval_minutes=minutes,
    )


NO_DAY = -1
"""Stands for a date that could not be read; no day starts a second before 1970."""


def _place_in_day(lines: Sequence[int], names: Sequence[str], index: int) -> str:
    return f"line {lines[index // len(names)]}, column '{names[index % len(names)]}'"


def _number_in(text: str, mark: DecimalMark, line: int, name: str, faults: Faults) -> float:
    if not text.strip():
        return float("nan")
    try:
        return parse_number(text, mark)
    except NoNumber as error:
        faults.add("unparsed", f"line {line}, column '{name}'", str(error), text)
        return float("nan")


def _minutes_of_day_row(count: int, stated: int | None) -> int | None:
    """Return the length of a day's intervals in so many columns; None where they are no day's."""
    if stated is not None:
        return stated if count * stated == 1440 else None
    return {24: 60, 48: 30, 96: 15}.get(count)
