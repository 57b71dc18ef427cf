"""What changes from one edition to the next, as the service itself compares them."""

from itertools import pairwise

from branchwright.codebook.differences import CellDifference, Difference, differences
from page_parts import interpretations
from page_parts.entries import EDITIONS, cell
from page_parts.markdown import blocks, code, link, table, words

MANY = 8
"""Of more rows or cells than this only the number is shown; the entry's own page has them all."""


def every_step() -> str:
    """Return for each edition what is not as in the one before it."""
    return blocks(
        *[
            blocks(f"## {before} to {after} {{ #{before}-{after} }}", _changes(before, after))
            for before, after in reversed(list(pairwise(EDITIONS)))
        ]
    )


def _changes(before: str, after: str) -> str:
    found = differences(before, after)
    changed = [item for item in found if not _only_renumbered(item)]
    renumbered = [item for item in found if _only_renumbered(item)]
    return blocks(
        table(
            ("entry", "section before, after", "what changes"),
            [(_named(item), _sections(item), _what(item)) for item in changed],
        ),
        "Only renumbered: " + "; ".join(f"{_named(item)} ({_sections(item)})" for item in renumbered) + "."
        if renumbered
        else "",
    )


def _only_renumbered(item: Difference) -> bool:
    return item.change == "changed" and not (item.rows_added or item.rows_removed or item.cells)


def _named(item: Difference) -> str:
    if item.kind == "interpretation":
        return link(item.name, interpretations.anchor(item.name))
    folder = "tables" if item.kind == "table" else "provisions"
    return link(item.name, f"codebook/{folder}/{item.name}.md") + (" (table)" if item.kind == "table" else "")


def _sections(item: Difference) -> str:
    before = words(item.this.section) if item.this else "none"
    after = words(item.other.section) if item.other else "none"
    return before if before == after else f"{before}, {after}"


def _what(item: Difference) -> str:
    if item.change != "changed":
        return item.change
    shown = [_cell(found) for found in item.cells[:MANY]]
    if len(item.cells) > MANY:
        shown = [f"{len(item.cells)} values"]
    for rows, what in ((item.rows_added, "more"), (item.rows_removed, "fewer")):
        if rows:
            # The first column is a key, and of these tables the one that tells the rows apart.
            keys = ", ".join(cell(next(iter(row.values()))) for row in rows)
            shown.append(f"rows {what}: {keys if len(rows) <= MANY else len(rows)}")
    return "; ".join(shown)


def _cell(found: CellDifference) -> str:
    where = " ".join(cell(key) for key in found.key if key is not None)
    return " ".join(
        part
        for part in (
            where,
            code(found.column) + ":",
            cell(found.this) or "none",
            "to",
            cell(found.other) or "none",
        )
        if part
    )
