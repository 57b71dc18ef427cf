"""A table of the codebook: rows as printed, look-ups by key."""

from bisect import bisect_left
from collections.abc import Mapping, Sequence
from math import inf

from branchwright.codebook.records import CodebookFault, Column, Evidence
from branchwright.findings import Citation, Sourced
from branchwright.findings.citations import Value
from branchwright.findings.pointers import escaped

TEXT_UNITS = frozenset({"text", "size"})


class Table:
    """One table in one edition.

    A look-up takes the row keys in order, then the column. With match `exact` the row must have the keys;
    with `first-at-least` the last key picks the first row whose cell is at least the key, an empty cell in
    the last row standing for no upper limit.
    """

    def __init__(
        self,
        name: str,
        title: str,
        lookup: str,
        row_keys: Sequence[str],
        match: str,
        columns: Sequence[Column],
        citation: Citation,
        evidence: Evidence,
        rows: Sequence[Mapping[str, str]],
    ) -> None:
        """Parse the rows' text by the units of the columns and build the look-ups."""
        self.name = name
        self.title = title
        self.lookup = lookup
        self.row_keys = tuple(row_keys)
        self.match = match
        self.columns = tuple(columns)
        self.citation = citation
        self.evidence = evidence
        units = {column.name: column.unit for column in columns}
        self.rows: tuple[Mapping[str, Value | None], ...] = tuple(
            {key: _parse(name, key, text, units[key]) for key, text in row.items()} for row in rows
        )
        self._cells: dict[tuple[Value | None, ...], Sourced] = {}
        for row in self.rows:
            keys = tuple(row[key] for key in self.row_keys)
            if (*keys, self.columns[0].name) in self._cells:
                raise CodebookFault(f"Table {name}: the row {' '.join(map(str, keys))} stands twice.")
            for column in self.columns:
                value = row[column.name]
                if value is not None:
                    self._cells[*keys, column.name] = Sourced(
                        value, column.unit, _origin(name, keys, column.name), citation
                    )
        self._steps: list[float] = []
        self._step_keys: list[Value | None] = []
        if match == "first-at-least":
            self._step_keys = [row[self.row_keys[-1]] for row in self.rows]
            self._steps = [inf if key is None else _number(name, key) for key in self._step_keys]
            if self._steps != sorted(self._steps):
                raise CodebookFault(f"Table {name}: {self.row_keys[-1]} does not rise from row to row.")
        elif match != "exact":
            raise CodebookFault(f"Table {name}: no such match as {match!r}.")

    def cell(self, column: str, *keys: Value) -> Sourced | None:
        """Return the cell of a row matched exactly, or None where the book prints none."""
        return self._cells.get((*keys, column))

    def at_least(self, column: str, key: float) -> Sourced | None:
        """Return the cell of the first row whose key is at least the given one, or None past the last row."""
        place = bisect_left(self._steps, key)
        if place == len(self._steps):
            return None
        return self._cells.get((self._step_keys[place], column))

    def numbers(self, column: str) -> tuple[float, ...]:
        """Return a numeric column from top to bottom, empty cells left out."""
        return tuple(_number(self.name, row[column]) for row in self.rows if row[column] is not None)


def public_name(table: str) -> str:
    """Return a table's name as paths and steps write it; that of its folder is a Python-like one."""
    return table.replace("_", "-")


def _number(table: str, value: Value | None) -> float:
    if not isinstance(value, float):
        raise CodebookFault(f"Table {table}: {value!r} is not a number.")
    return value


def _parse(table: str, column: str, text: str, unit: str) -> Value | None:
    if text == "":
        return None
    if unit in TEXT_UNITS:
        return text
    try:
        return float(text)
    except ValueError:
        raise CodebookFault(f"Table {table}: {text!r} in column {column} is not a number.") from None


def _origin(table: str, keys: tuple[Value | None, ...], column: str) -> str:
    path = [public_name(table), *(_printed(key) for key in keys), column]
    return "codebook:" + "/".join(escaped(part) for part in path)


def _printed(key: Value | None) -> str:
    if key is None:
        return ""
    return key if isinstance(key, str) else f"{key:g}"
