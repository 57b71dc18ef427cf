"""What the codebook's files print, for tests that hold answers against them without the service's loader."""

import tomllib
from functools import cache
from typing import Any

from tests.checks.replay import DATA, printed_table


def about(kind: str, name: str) -> dict[str, Any]:
    """Return the description of a table or a provision."""
    path = DATA / "tables" / name / "about.toml" if kind == "tables" else DATA / kind / f"{name}.toml"
    return tomllib.loads(path.read_text(encoding="utf-8"))


@cache
def standard_ratings_a(edition: str) -> tuple[float, ...]:
    """Return the standard ratings of overcurrent devices, smallest first."""
    return tuple(float(row["rating_a"]) for row in printed_table("standard_ratings", edition).rows)


def column(table: str, name: str, edition: str) -> list[str]:
    """Return the cells of a column from top to bottom."""
    return [row[name] for row in printed_table(table, edition).rows]


@cache
def sections(edition: str) -> frozenset[str]:
    """Return every section that the edition's tables and provisions stand on.

    An edition whose rows are those of another has them from that edition's file.
    """
    found: set[str] = set()
    for folder in sorted((DATA / "tables").iterdir()):
        record = about("tables", folder.name)["editions"].get(edition)
        if record is None:
            continue
        found.add(record["section"])
        for row in printed_table(folder.name, edition).rows:
            found.update(cell for name, cell in row.items() if name.endswith("section") and cell)
    for path in sorted((DATA / "provisions").glob("*.toml")):
        record = about("provisions", path.stem)["editions"].get(edition)
        if record is not None:
            found.add(record["section"])
    return frozenset(found)
