"""What differs between two editions of the codebook, cell by cell.

Tables, provisions and interpretations are compared alike: an entry has rows found by their keys, a provision
is one row without keys, an interpretation has no row. Only what the editions say is compared, never where it
was found or how sure we are of it.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from typing import Annotated, Literal, TypeAlias

from pydantic import Field

from branchwright.codebook import loader
from branchwright.codebook.records import Column
from branchwright.codebook.tables import public_name
from branchwright.findings.citations import Value
from branchwright.findings.open_enums import open_enum

Kind: TypeAlias = Literal["table", "provision", "interpretation"]
Change: TypeAlias = Literal["added", "removed", "changed"]
Cell: TypeAlias = Value | None
Key: TypeAlias = tuple[Cell, ...]
Row: TypeAlias = Mapping[str, Cell]


@dataclass(slots=True, frozen=True)
class Appearance:
    """Where one of the two editions has an entry."""

    section: Annotated[str, Field(description="Section or table number as this edition prints it.")]
    confidence: Annotated[
        str | None,
        Field(description="How sure we are of the entry: high, medium or low; null for an interpretation."),
    ]


@dataclass(slots=True, frozen=True)
class CellDifference:
    """A cell of a row that both editions have, or a value of a provision that both have."""

    key: Annotated[
        tuple[Cell, ...],
        Field(description="The keys that find the row; empty for a provision, null for an open last row."),
    ]
    column: Annotated[str, Field(description="Name of the column or value.")]
    unit: Annotated[
        str, Field(description="Unit of the cell; 1 for a plain number, text or size for a name.")
    ]
    this: Annotated[Cell, Field(description="Here; null where this edition prints nothing or sets no limit.")]
    other: Annotated[
        Cell, Field(description="There; null where the other edition prints nothing or sets no limit.")
    ]


@dataclass(slots=True, frozen=True)
class Difference:
    """A table, provision or interpretation that is not the same in both editions."""

    kind: Annotated[str, open_enum(Kind, "What differs.")]
    name: Annotated[str, Field(description="Name of the table, provision or interpretation.")]
    title: Annotated[str, Field(description="What it is about.")]
    change: Annotated[
        str,
        open_enum(
            Change,
            "added: the other edition has it and this one does not; removed: the other way round; "
            "changed: both have it.",
        ),
    ]
    this: Annotated[
        Appearance | None, Field(description="Where this edition has it; null where it does not.")
    ]
    other: Annotated[
        Appearance | None, Field(description="Where the other edition has it; null where it does not.")
    ]
    renumbered: Annotated[bool, Field(description="Whether both have it, under different sections.")]
    rows_added: Annotated[
        tuple[Row, ...],
        Field(description="Rows that only the other edition has, by column; an added provision is one row."),
    ]
    rows_removed: Annotated[
        tuple[Row, ...],
        Field(description="Rows that only this edition has, by column; a removed provision is one row."),
    ]
    cells: Annotated[
        tuple[CellDifference, ...],
        Field(description="Cells that differ in rows that both have; empty where it is only renumbered."),
    ]


@dataclass(slots=True, frozen=True)
class _Entry:
    title: str
    appearance: Appearance
    units: Mapping[str, str]
    rows: Mapping[Key, Row]


_ABSENT_ROWS: Mapping[Key, Row] = {}


@cache
def differences(this: str, other: str) -> tuple[Difference, ...]:
    """Return what differs between two editions, by kind and name; empty for an edition and itself.

    Going from this edition to the other is taken as the direction of the change: what only the other has is
    added. Raise UnknownEntry where the codebook does not know one of them.
    """
    here, there = _entries(this), _entries(other)
    titles = {key: entry.title for entries in (here, there) for key, entry in entries.items()}
    found = (
        _difference(kind, name, titles[kind, name], here.get((kind, name)), there.get((kind, name)))
        for kind, name in sorted(titles)
    )
    return tuple(difference for difference in found if difference is not None)


def _entries(edition: str) -> dict[tuple[Kind, str], _Entry]:
    """The entries of an edition by kind and name."""
    entries: dict[tuple[Kind, str], _Entry] = {}
    for table in loader.tables(edition).values():
        entries["table", public_name(table.name)] = _Entry(
            table.title,
            Appearance(table.evidence.section, table.evidence.confidence),
            _units(table.columns),
            {tuple(row[key] for key in table.row_keys): row for row in table.rows},
        )
    for provision in loader.provisions(edition).values():
        values: Row = {name: sourced.value for name, sourced in provision.values.items()}
        entries["provision", provision.concept] = _Entry(
            provision.title,
            Appearance(provision.evidence.section, provision.evidence.confidence),
            _units(provision.columns),
            {(): values},
        )
    for point in loader.interpretations():
        if edition in point.sections:
            section = Appearance(point.sections[edition], None)
            entries["interpretation", point.name] = _Entry(point.question, section, {}, _ABSENT_ROWS)
    return entries


def _units(columns: tuple[Column, ...]) -> dict[str, str]:
    return {column.name: column.unit for column in columns}


def _difference(
    kind: Kind, name: str, title: str, this: _Entry | None, other: _Entry | None
) -> Difference | None:
    """What differs of one entry that at least one of the editions has; None where nothing does."""
    rows_here = _ABSENT_ROWS if this is None else this.rows
    rows_there = _ABSENT_ROWS if other is None else other.rows
    change: Change = "added" if this is None else "removed" if other is None else "changed"
    difference = Difference(
        kind=kind,
        name=name,
        title=title,
        change=change,
        this=None if this is None else this.appearance,
        other=None if other is None else other.appearance,
        renumbered=(
            this is not None and other is not None and this.appearance.section != other.appearance.section
        ),
        rows_added=_only_in(rows_there, rows_here),
        rows_removed=_only_in(rows_here, rows_there),
        cells=() if this is None or other is None else tuple(_cells(this, other)),
    )
    is_same = change == "changed" and not (
        difference.renumbered or difference.rows_added or difference.rows_removed or difference.cells
    )
    return None if is_same else difference


def _only_in(rows: Mapping[Key, Row], others: Mapping[Key, Row]) -> tuple[Row, ...]:
    return tuple(row for key, row in rows.items() if key not in others)


def _cells(this: _Entry, other: _Entry) -> Iterator[CellDifference]:
    """The cells that differ in the rows that both have, in an order that does not depend on the direction."""
    units = {**this.units, **other.units}
    places_here = {key: place for place, key in enumerate(this.rows)}
    places_there = {key: place for place, key in enumerate(other.rows)}
    shared = places_here.keys() & places_there.keys()
    for key in sorted(shared, key=lambda key: (places_here[key] + places_there[key], str(key))):
        here, there = this.rows[key], other.rows[key]
        for column in sorted(units):
            # An optional value of a provision is absent where its edition sets no limit.
            if here.get(column) != there.get(column):
                yield CellDifference(key, column, units[column], here.get(column), there.get(column))
