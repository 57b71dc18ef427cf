"""Reads the codebook's files once and hands out its records."""

import csv
import hashlib
import tomllib
from functools import cache
from importlib import resources
from importlib.resources.abc import Traversable
from typing import Any

from branchwright.codebook.records import (
    CodebookFault,
    Column,
    EditionRecord,
    Evidence,
    Interpretation,
    Provision,
    UnknownEntry,
)
from branchwright.codebook.tables import TEXT_UNITS, Table
from branchwright.findings import Citation, Sourced


def _data() -> Traversable:
    return resources.files("branchwright.codebook").joinpath("data", "nec")


def _toml(file: Traversable) -> dict[str, Any]:
    try:
        return tomllib.loads(file.read_text("utf-8"))
    except tomllib.TOMLDecodeError as fault:
        raise CodebookFault(f"{file.name}: {fault}") from fault


def _files(folder: Traversable, at: str) -> list[tuple[str, Traversable]]:
    """Return the files below a folder with their paths, in a stable order."""
    found: list[tuple[str, Traversable]] = []
    for entry in sorted(folder.iterdir(), key=lambda item: item.name):
        path = f"{at}/{entry.name}"
        found.extend(_files(entry, path) if entry.is_dir() else [(path, entry)])
    return found


@cache
def revision() -> str:
    """Return the first 16 hexadecimal digits of the SHA-256 over all files of the codebook."""
    digest = hashlib.sha256()
    for path, file in _files(_data(), ""):
        content = file.read_bytes()
        # Path and length before each file: no other cut through the same bytes gives the same digest.
        digest.update(f"{path} {len(content)}\n".encode())
        digest.update(content)
    return digest.hexdigest()[:16]


@cache
def editions() -> tuple[EditionRecord, ...]:
    """Return the editions that the codebook knows, oldest first."""
    listed = _toml(_data().joinpath("editions.toml"))["editions"]
    return tuple(
        EditionRecord(name, record["title"], record["publication"], record["status"], record.get("notes"))
        for name, record in sorted(listed.items())
    )


@cache
def edition(name: str) -> EditionRecord:
    """Return one edition; raise UnknownEntry where the codebook does not know it."""
    for record in editions():
        if record.name == name:
            return record
    raise UnknownEntry("edition", name, tuple(record.name for record in editions()))


@cache
def interpretations() -> tuple[Interpretation, ...]:
    """Return the named interpretations in the order of their names."""
    listed = _toml(_data().joinpath("interpretations.toml"))["interpretations"]
    for name, item in listed.items():
        if item["default"] not in item["readings"]:
            raise CodebookFault(
                f"Interpretation {name}: its default {item['default']!r} is none of its readings."
            )
    return tuple(
        Interpretation(
            name, item["question"], item["default"], item["readings"], item["sections"], item.get("notes")
        )
        for name, item in sorted(listed.items())
    )


def _evidence(record: dict[str, Any], of: str) -> Evidence:
    missing = {"section", "confidence", "found", "source", "checked"} - set(record)
    if missing:
        raise CodebookFault(f"{of}: {', '.join(sorted(missing))} is missing.")
    return Evidence(
        section=record["section"],
        confidence=record["confidence"],
        found=record["found"],
        source=record["source"],
        checked=record["checked"],
        notes=record.get("notes"),
    )


@cache
def tables(edition_name: str) -> dict[str, Table]:
    """Return the tables of an edition by name."""
    edition(edition_name)
    found: dict[str, Table] = {}
    for folder in sorted(_data().joinpath("tables").iterdir(), key=lambda item: item.name):
        if folder.is_dir():
            loaded = _table(folder, edition_name)
            if loaded is not None:
                found[folder.name] = loaded
    return found


def table(edition_name: str, name: str) -> Table:
    """Return one table of an edition; raise UnknownEntry where it has none of that name."""
    known = tables(edition_name)
    if name not in known:
        raise UnknownEntry("table", name, tuple(known))
    return known[name]


def _table(folder: Traversable, edition_name: str) -> Table | None:
    about = _toml(folder.joinpath("about.toml"))
    records = about["editions"]
    if edition_name not in records:
        return None
    record = records[edition_name]
    rows_of = record
    while "same_as" in rows_of:
        if rows_of["same_as"] not in records:
            raise CodebookFault(f"Table {folder.name}: there is no edition {rows_of['same_as']} to reprint.")
        rows_of = records[rows_of["same_as"]]
    columns = [Column(name, item["unit"], item["meaning"]) for name, item in about["columns"].items()]
    file = folder.joinpath(rows_of["rows"])
    if not file.is_file():
        raise CodebookFault(f"Table {folder.name}: there is no {rows_of['rows']}.")
    try:
        header, *lines = csv.reader(file.read_text("utf-8").splitlines(), strict=True)
    except csv.Error as fault:
        raise CodebookFault(f"Table {folder.name}: {rows_of['rows']}: {fault}.") from fault
    for number, line in enumerate(lines, start=2):
        if len(line) != len(header):
            raise CodebookFault(
                f"Table {folder.name}: line {number} has {len(line)} cells, not {len(header)}."
            )
    rows = [dict(zip(header, line, strict=True)) for line in lines]
    if header != [column.name for column in columns]:
        raise CodebookFault(f"Table {folder.name}: about.toml and {rows_of['rows']} differ in their columns.")
    evidence = _evidence(record, f"Table {folder.name}")
    return Table(
        name=folder.name,
        title=about["title"],
        lookup=about["lookup"],
        row_keys=about["row_keys"],
        match=about["match"],
        columns=columns,
        citation=Citation(edition_name, evidence.section),
        evidence=evidence,
        rows=rows,
    )


@cache
def provisions(edition_name: str) -> dict[str, Provision]:
    """Return the provisions of an edition by concept."""
    edition(edition_name)
    found: dict[str, Provision] = {}
    for file in sorted(_data().joinpath("provisions").iterdir(), key=lambda item: item.name):
        about = _toml(file)
        record = about["editions"].get(edition_name)
        if record is not None:
            concept = file.name.removesuffix(".toml")
            found[concept] = _provision(concept, about, record, edition_name)
    return found


def _provision(concept: str, about: dict[str, Any], record: dict[str, Any], edition_name: str) -> Provision:
    evidence = _evidence(record, f"Provision {concept}")
    citation = Citation(edition_name, evidence.section)
    optional = frozenset(name for name, item in about["values"].items() if item.get("optional", False))
    given = record["values"]
    if not set(about["values"]) - optional <= set(given) <= set(about["values"]):
        raise CodebookFault(f"Provision {concept}: values and their meanings differ for {edition_name}.")
    columns = tuple(
        Column(name, item["unit"], item["meaning"]) for name, item in about["values"].items() if name in given
    )
    values: dict[str, Sourced] = {}
    for column in columns:
        value = given[column.name]
        if isinstance(value, str) != (column.unit in TEXT_UNITS):
            raise CodebookFault(f"Provision {concept}: {column.name} does not fit its unit {column.unit}.")
        values[column.name] = Sourced(
            value if isinstance(value, str) else float(value),
            column.unit,
            f"codebook:{concept}/{column.name}",
            citation,
        )
    numbers = {name: item.value for name, item in values.items() if isinstance(item.value, float)}
    return Provision(concept, about["title"], citation, evidence, columns, values, numbers, optional)
