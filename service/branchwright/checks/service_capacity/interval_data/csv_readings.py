"""Collects the readings of a CSV body."""

from collections.abc import Sequence
from datetime import tzinfo

import numpy as np

from branchwright.checks.service_capacity.interval_data.collected import NO_OFFSET, Collected
from branchwright.checks.service_capacity.interval_data.csv_cells import (
    Rows,
    cells_of,
    date_order,
    decimal_mark,
    marks_of,
    note_unknown_marks,
    value_columns,
)
from branchwright.checks.service_capacity.interval_data.csv_layouts import Layout
from branchwright.checks.service_capacity.interval_data.csv_table import NoTable, Table, find_table
from branchwright.checks.service_capacity.interval_data.facts import Instructions
from branchwright.checks.service_capacity.interval_data.faults import Faults
from branchwright.checks.service_capacity.interval_data.interval_ends import lengths_of
from branchwright.checks.service_capacity.interval_data.text_values import (
    DecimalMark,
    NoNumber,
    parse_number,
)
from branchwright.checks.service_capacity.interval_data.time_stamps import NoStamp, parse_date, parse_time
from branchwright.questions.answers import ToVerify
from branchwright.questions.local_time import DAY_S


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
    columns = value_columns(table, layout, faults)
    if columns is None:
        return None
    try:
        rows = cells_of(table, layout, columns, instructions.quality_column, faults)
    except NoTable as error:
        faults.add("layout", f"line {error.line}", str(error))
        return None
    if rows is None:
        return None
    to_verify: list[ToVerify] = []
    mark = decimal_mark(instructions, table, rows, faults, to_verify)
    order = date_order(instructions, rows, faults, to_verify)
    if mark is None or order is None:
        return None
    collected = (
        _day_rows(rows, table, columns, mark, order, instructions, faults)
        if layout.is_day_rows
        else _reading_rows(rows, layout, mark, order, instructions, zone, faults)
    )
    if collected is not None:
        note_unknown_marks(rows, to_verify)
        collected.to_verify = [*to_verify, *collected.to_verify]
    return collected


def _reading_rows(
    rows: Rows,
    layout: Layout,
    mark: DecimalMark,
    order: str,
    instructions: Instructions,
    zone: tzinfo | None,
    faults: Faults,
) -> Collected:
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
    marks = marks_of(rows, 1)
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
        place_of_stamp=lambda index: f"line {kept[index]}, column '{layout.stamp_column}'",
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
    return end if end > start else end + DAY_S


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
        marks=marks_of(rows, len(names))[kept],
        place=lambda index: _place_in_day(rows.lines, names, int(kept[index])),
        place_of_stamp=lambda index: _place_in_day(rows.lines, names, int(kept[index])),
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
