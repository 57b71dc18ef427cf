"""Every table, provision and interpretation has its page, which shows what its files say in every edition."""

import csv
import itertools
import re
import tomllib
from pathlib import Path
from typing import Any

import pytest
from tests.checks.replay import DATA
from tests.docs.html import BuiltPage

EDITIONS = sorted(tomllib.loads((DATA / "editions.toml").read_text("utf-8"))["editions"])
TABLES = sorted(folder.name for folder in (DATA / "tables").iterdir())
PROVISIONS = sorted(file.stem for file in (DATA / "provisions").glob("*.toml"))
INTERPRETATIONS = tomllib.loads((DATA / "interpretations.toml").read_text("utf-8"))["interpretations"]


def toml(path: Path) -> dict[str, Any]:
    return tomllib.loads(path.read_text("utf-8"))


def about_table(name: str) -> dict[str, Any]:
    return toml(DATA / "tables" / name / "about.toml")


def about_provision(concept: str) -> dict[str, Any]:
    return toml(DATA / "provisions" / f"{concept}.toml")


def public(name: str) -> str:
    return name.replace("_", "-")


def flat(text: str) -> str:
    return " ".join(text.split())


def number_or_text(cell: str) -> float | str:
    return float(cell) if re.fullmatch(r"-?\d+(\.\d+)?", cell) else cell


def printed(name: str, edition: str) -> list[list[str]]:
    """The rows of a table in an edition as its file has them, the head first."""
    records = about_table(name)["editions"]
    record = records[edition]
    while "same_as" in record:
        record = records[record["same_as"]]
    with (DATA / "tables" / name / record["rows"]).open(encoding="utf-8", newline="") as lines:
        return list(csv.reader(lines))


def shown(page: BuiltPage, edition: str) -> list[list[str]]:
    """The rows that a page shows for an edition, the head first, as its only table with that heading."""
    (table,) = [
        table
        for name, section in page.sections.items()
        if section.level == 3 and re.search(rf"{edition}(-nec|$)", name)
        for table in section.tables
    ]
    return table


def assert_evidence(page: BuiltPage, records: dict[str, dict[str, Any]]) -> None:
    section = "where-it-was-found"
    (rows,) = page.sections[section].tables
    assert [row[0] for row in rows[1:]] == sorted(records)
    for edition, *cells in rows[1:]:
        record = records[edition]
        assert cells == [
            flat(record["section"]),
            record["confidence"],
            record["found"],
            str(record["checked"]),
        ]
    for record in records.values():
        assert page.shows(record["source"], section)
        assert page.shows(record.get("notes", ""), section)


@pytest.mark.parametrize("name", TABLES)
def test_every_table_has_its_page(site: Path, name: str) -> None:
    about = about_table(name)
    page = BuiltPage(site / "codebook" / "tables" / f"{public(name)}.html")
    assert page.shows(about["title"])
    assert page.shows(about["lookup"])
    assert page.shows(f"match {about['match']}")
    (columns,) = page.sections["columns"].tables
    assert [row[0] for row in columns[1:]] == list(about["columns"])
    assert [row[1] for row in columns[1:]] == [item["unit"] for item in about["columns"].values()]
    assert [row[2] for row in columns[1:]] == [flat(item["meaning"]) for item in about["columns"].values()]
    assert_evidence(page, about["editions"])


@pytest.mark.parametrize(
    ("name", "edition"), [(name, edition) for name in TABLES for edition in about_table(name)["editions"]]
)
def test_every_table_shows_its_rows_in_every_edition(site: Path, name: str, edition: str) -> None:
    rows = shown(BuiltPage(site / "codebook" / "tables" / f"{public(name)}.html"), edition)
    head, *lines = printed(name, edition)
    if rows[0] != head:
        # A table of many columns is shown with its rows as columns.
        rows = [list(row) for row in zip(*rows, strict=True)]
    assert rows[0] == head
    assert [[number_or_text(cell) for cell in row] for row in rows[1:]] == [
        [number_or_text(cell) for cell in row] for row in lines
    ]


@pytest.mark.parametrize("concept", PROVISIONS)
def test_every_provision_has_its_page(site: Path, concept: str) -> None:
    about = about_provision(concept)
    page = BuiltPage(site / "codebook" / "provisions" / f"{concept}.html")
    assert page.shows(about["title"])
    (values,) = page.sections["values"].tables
    editions = values[0][3:]
    assert editions == sorted(about["editions"])
    for column, edition in enumerate(editions, start=3):
        values_shown = {row[0]: number_or_text(row[column]) for row in values[1:] if row[column] != "none"}
        assert values_shown == about["editions"][edition]["values"]
    for row in values[1:]:
        assert row[1:3] == [flat(about["values"][row[0]]["meaning"]), about["values"][row[0]]["unit"]]
    assert_evidence(page, about["editions"])


@pytest.mark.parametrize("kind", ["tables", "provisions"])
def test_nothing_else_has_a_page(site: Path, kind: str) -> None:
    expected = {public(name) for name in TABLES} if kind == "tables" else set(PROVISIONS)
    assert {file.stem for file in (site / "codebook" / kind).glob("*.html")} == expected


def test_the_overview_names_every_entry_with_section_and_confidence(site: Path) -> None:
    page = BuiltPage(site / "codebook" / "index.html")
    for section, entries in {
        "tables": {public(name): about_table(name) for name in TABLES},
        "provisions": {concept: about_provision(concept) for concept in PROVISIONS},
    }.items():
        (table,) = page.sections[section].tables
        assert table[0][1:] == EDITIONS
        expected = {
            name: [
                f"{flat(about['editions'][edition]['section'])}, {about['editions'][edition]['confidence']}"
                if edition in about["editions"]
                else "none"
                for edition in EDITIONS
            ]
            for name, about in entries.items()
        }
        assert {row[0]: row[1:] for row in table[1:]} == expected
        for name in entries:
            assert str((site / "codebook" / section / f"{name}.html").resolve()) in page.linked


def test_the_editions_are_shown_with_their_counts(site: Path) -> None:
    (table,) = BuiltPage(site / "codebook" / "index.html").sections["editions"].tables
    records = [about_table(name) for name in TABLES] + [about_provision(concept) for concept in PROVISIONS]
    for edition, row in zip(EDITIONS, table[1:], strict=True):
        held = [about["editions"][edition]["confidence"] for about in records if edition in about["editions"]]
        assert row[0] == edition
        assert row[3] == ", ".join(str(held.count(level)) for level in ("high", "medium", "low"))


@pytest.mark.parametrize("name", INTERPRETATIONS)
def test_every_interpretation_is_shown_with_its_readings(site: Path, name: str) -> None:
    item = INTERPRETATIONS[name]
    page = BuiltPage(site / "codebook" / "interpretations.html")
    assert page.shows(item["question"], name)
    assert page.shows(item.get("notes", ""), name)
    (readings,) = page.sections[name].tables
    assert {row[0]: row[1] for row in readings[1:]} == {
        reading: flat(meaning) for reading, meaning in item["readings"].items()
    }
    assert [row[0] for row in readings[1:] if row[2] == "yes"] == [item["default"]]
    overview = next(table for section in page.sections.values() for table in section.tables)
    (line,) = [row for row in overview[1:] if row[0] == name]
    assert line[1] == flat(item["question"])
    assert set(line[2].split(", ")) == set(item["readings"])
    assert line[2].startswith(item["default"])
    for edition, section in item["sections"].items():
        assert f"{section} ({edition})" in line[3]


def every_record() -> list[tuple[str, str, dict[str, Any]]]:
    """Each entry as the pages name it, an edition, and the entry's record in it."""
    entries = {f"{public(name)} (table)": about_table(name) for name in TABLES}
    entries |= {concept: about_provision(concept) for concept in PROVISIONS}
    return [
        (name, edition, record)
        for name, about in entries.items()
        for edition, record in about["editions"].items()
    ]


@pytest.mark.parametrize("edition", EDITIONS)
def test_every_weaker_entry_is_among_the_uncertainties(site: Path, edition: str) -> None:
    page = BuiltPage(site / "uncertainties.html")
    weak = {
        name: record
        for name, where, record in every_record()
        if where == edition and record["confidence"] != "high"
    }
    (table,) = page.sections[edition].tables
    assert sorted(row[0] for row in table[1:]) == sorted(weak)
    for name, where, sure, why in table[1:]:
        record = weak[name]
        assert where == flat(record["section"])
        assert sure == f"{record['confidence']}, {record['found']}"
        assert why.startswith(flat(record["source"]).rstrip("."))
        assert flat(record.get("notes", "")) in why or re.search(r"Notes: as in nec-\d{4}\.$", why)


def test_what_is_sure_but_not_from_print_is_listed_apart(site: Path) -> None:
    page = BuiltPage(site / "uncertainties.html")
    (table,) = page.sections["high-confidence-but-not-from-print"].tables
    shown = {(row[0], edition, row[1]) for row in table[1:] for edition in row[2].split(", ")}
    assert shown == {
        (name, edition, record["found"])
        for name, edition, record in every_record()
        if record["confidence"] == "high" and record["found"] != "print"
    }
    assert all(page.shows(name, "read-two-ways") for name in INTERPRETATIONS)


@pytest.mark.source(
    "NEC 625.42 and 210.8(F) of 2020 and 2023: trade reports on what the 2023 edition changed"
)
def test_the_page_on_the_editions_shows_what_2023_changed(site: Path) -> None:
    """The setting must be out of reach, and the outlets of garages are protected: known changes of that edition."""
    page = BuiltPage(site / "codebook" / "differences.html")
    (table,) = page.sections["nec-2020-nec-2023"].tables
    changes = {row[0]: row[2] for row in table[1:]}
    assert "access: any to restricted" in changes["current-setting"]
    assert "garage: no to yes" in changes["hardwired-protection"]


def test_the_page_on_the_editions_goes_through_all_of_them(site: Path) -> None:
    page = BuiltPage(site / "codebook" / "differences.html")
    steps = [f"{before}-{after}" for before, after in itertools.pairwise(EDITIONS)]
    assert [name for name, section in page.sections.items() if section.level == 2] == steps[::-1]
