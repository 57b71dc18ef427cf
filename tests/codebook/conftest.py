"""Reads the printed tables straight from their files, so that these tests guard the data and not the loader.

A test in a ``test_tables_*`` module that names a table as an argument (``ampacity``) runs once for every
distinct rows file of that table; one that names several runs once for every edition that has them all.
"""

import csv
import tomllib
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import pytest

TABLES = Path(__file__).parents[2] / "service" / "branchwright" / "codebook" / "data" / "nec" / "tables"


@dataclass(frozen=True)
class PrintedTable:
    """One table as one edition prints it."""

    name: str
    edition: str
    rows: list[dict[str, str]]

    def row(self, **keys: str) -> dict[str, str]:
        """The one row with these cells."""
        found = [row for row in self.rows if all(row[column] == cell for column, cell in keys.items())]
        assert len(found) == 1, f"{self.name} has {len(found)} rows with {keys}"
        return found[0]

    def number(self, column: str, **keys: str) -> float:
        """The number in one column of the one row with these cells."""
        return float(self.row(**keys)[column])

    def numbers(self, column: str, **keys: str) -> list[float]:
        """The numbers of a column from top to bottom, empty cells left out."""
        rows = (row for row in self.rows if all(row[key] == cell for key, cell in keys.items()))
        return [float(row[column]) for row in rows if row[column]]


def rows_file(name: str, edition: str) -> Path:
    """The file that an edition's rows stand in, following reprints to the edition they repeat."""
    editions = tomllib.loads((TABLES / name / "about.toml").read_text(encoding="utf-8"))["editions"]
    seen = [edition]
    while "same_as" in editions[edition]:
        edition = editions[edition]["same_as"]
        assert edition not in seen, f"{name}: {' -> '.join(seen)} goes in a circle"
        seen.append(edition)
    return TABLES / name / editions[edition]["rows"]


def read(path: Path) -> list[dict[str, str]]:
    with path.open(encoding="utf-8", newline="") as lines:
        return list(csv.DictReader(lines))


def pytest_generate_tests(metafunc: pytest.Metafunc) -> None:
    if not metafunc.definition.path.name.startswith("test_tables_"):
        return
    names = [name for name in metafunc.fixturenames if (TABLES / name / "about.toml").exists()]
    if not names:
        return
    printed = [
        set(tomllib.loads((TABLES / name / "about.toml").read_text(encoding="utf-8"))["editions"])
        for name in names
    ]
    cases: dict[tuple[Path, ...], str] = {}
    for edition in sorted(set.intersection(*printed), reverse=True):
        cases.setdefault(tuple(rows_file(name, edition) for name in names), edition)
    metafunc.parametrize(
        ",".join(names),
        [
            [PrintedTable(name, edition, read(path)) for name, path in zip(names, paths, strict=True)]
            if len(names) > 1
            else PrintedTable(names[0], edition, read(paths[0]))
            for paths, edition in cases.items()
        ],
        ids=list(cases.values()),
    )


@pytest.fixture(scope="session")
def circular_mils() -> Callable[[str], float]:
    """Circular mils of a conductor size: ASTM B258, d = 0.005 x 92^((36 - n) / 39) in for an AWG number n."""

    def area(size: str) -> float:
        number, unit = size.split(" ")
        if unit == "kcmil":
            return float(number) * 1000
        assert unit == "AWG", size
        gauge = 1 - int(number.removesuffix("/0")) if number.endswith("/0") else int(number)
        return float((5 * 92 ** ((36 - gauge) / 39)) ** 2)

    return area
