"""How files are read: the same whatever order they are listed in, completely, and refused with file and line."""

import hashlib
import shutil
import tomllib
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from branchwright.codebook import Table, UnknownEntry, loader
from branchwright.codebook.differences import differences
from branchwright.codebook.editions import EditionBook
from branchwright.codebook.records import CodebookFault

DATA = Path(loader.__file__).parent / "data" / "nec"
CACHED = (
    loader.revision,
    loader.editions,
    loader.edition,
    loader.interpretations,
    loader.tables,
    loader.provisions,
)


def forget() -> None:
    for cached in CACHED:
        cached.cache_clear()


class Backwards(type(Path())):  # type: ignore[misc]
    """A folder that lists its files from the last to the first, as a file system may."""

    def iterdir(self) -> Iterator[Path]:
        return iter(sorted(super().iterdir(), reverse=True))


@pytest.fixture
def reads(monkeypatch: pytest.MonkeyPatch) -> Iterator[Callable[[Path], None]]:
    """Makes the loader read another folder."""

    def read(folder: Path) -> None:
        monkeypatch.setattr(loader, "_data", lambda: folder)
        forget()

    yield read
    monkeypatch.undo()
    forget()


@pytest.fixture
def copy(tmp_path: Path, reads: Callable[[Path], None]) -> Path:
    """A copy of the codebook that the loader reads instead of its own."""
    folder = Path(shutil.copytree(DATA, tmp_path / "nec"))
    reads(folder)
    return folder


def toml(name: str) -> dict[str, Any]:
    return tomllib.loads((DATA / name).read_text(encoding="utf-8"))


def changed_table(name: str, cells: dict[str, str], edition: str = "nec-2023", **keys: str) -> Table:
    """A table of the codebook with other cells in the rows that have these keys."""
    table = loader.table(edition, name)
    rows = []
    for row in table.rows:
        text = {
            column: "" if value is None else value if isinstance(value, str) else f"{value:g}"
            for column, value in row.items()
        }
        rows.append(text | cells if all(text[key] == value for key, value in keys.items()) else text)
    return Table(
        name,
        table.title,
        table.lookup,
        table.row_keys,
        table.match,
        table.columns,
        table.citation,
        table.evidence,
        rows,
    )


def test_the_revision_is_the_digest_of_every_path_and_content() -> None:
    digest = hashlib.sha256()
    files = [path for path in DATA.rglob("*") if path.is_file()]
    for path in sorted(files, key=lambda path: path.relative_to(DATA).parts):
        content = path.read_bytes()
        digest.update(f"/{path.relative_to(DATA).as_posix()} {len(content)}\n".encode() + content)
    assert loader.revision() == digest.hexdigest()[:16]


def test_the_revision_changes_with_a_digit(copy: Path) -> None:
    before = loader.revision()
    rows = copy / "tables" / "ampacity" / "rows-nec-2023.csv"
    rows.write_text(rows.read_text(encoding="utf-8").replace("6 AWG,55,65", "6 AWG,55,66"), encoding="utf-8")
    forget()
    assert loader.revision() != before


def test_the_order_in_which_files_are_listed_does_not_matter(reads: Callable[[Path], None]) -> None:
    revision, tables, provisions = (
        loader.revision(),
        list(loader.tables("nec-2023")),
        list(loader.provisions("nec-2023")),
    )
    reads(Backwards(DATA))
    assert loader.revision() == revision
    assert list(loader.tables("nec-2023")) == tables == sorted(tables)
    assert list(loader.provisions("nec-2023")) == provisions == sorted(provisions)


def test_the_order_in_which_records_are_written_does_not_matter(monkeypatch: pytest.MonkeyPatch) -> None:
    read = loader._toml

    def backwards(file: Any) -> dict[str, Any]:
        return {name: dict(reversed(content.items())) for name, content in read(file).items()}

    editions, interpretations = loader.editions(), loader.interpretations()
    monkeypatch.setattr(loader, "_toml", backwards)
    forget()
    try:
        assert loader.editions() == editions
        assert loader.interpretations() == interpretations
    finally:
        forget()
    assert [record.name for record in editions] == ["nec-2017", "nec-2020", "nec-2023", "nec-2026"]
    assert [point.name for point in interpretations] == sorted(point.name for point in interpretations)


def test_every_record_is_read_completely() -> None:
    for name, written in toml("editions.toml")["editions"].items():
        found = loader.edition(name)
        assert (found.name, found.title, found.publication, found.status, found.notes) == (
            name,
            written["title"],
            written["publication"],
            written["status"],
            written.get("notes"),
        )
    points = toml("interpretations.toml")["interpretations"]
    assert {point.name for point in loader.interpretations()} == set(points)
    for point in loader.interpretations():
        written = points[point.name]
        assert (point.question, point.default, point.notes) == (
            written["question"],
            written["default"],
            written.get("notes"),
        )
        assert (dict(point.readings), dict(point.sections)) == (written["readings"], written["sections"])


@pytest.mark.parametrize("edition", ["nec-2017", "nec-2020", "nec-2023", "nec-2026"])
def test_every_evidence_is_read_completely(edition: str) -> None:
    entries = [
        (loader.tables(edition)[name], toml(f"tables/{name}/about.toml")) for name in loader.tables(edition)
    ]
    entries += [
        (loader.provisions(edition)[name], toml(f"provisions/{name}.toml"))
        for name in loader.provisions(edition)
    ]
    for entry, about in entries:
        written, found = about["editions"][edition], entry.evidence
        assert (found.section, found.confidence, found.found, found.source, found.checked, found.notes) == (
            written["section"],
            written["confidence"],
            written["found"],
            written["source"],
            written["checked"],
            written.get("notes"),
        )
        assert (entry.title, entry.citation.section) == (about["title"], written["section"])
        described = about["columns"] if isinstance(entry, Table) else about["values"]
        assert {column.name: (column.unit, column.meaning) for column in entry.columns}.items() <= {
            name: (item["unit"], item["meaning"]) for name, item in described.items()
        }.items()


def test_an_edition_that_there_is_not_has_no_tables_and_no_provisions() -> None:
    for read in (loader.tables, loader.provisions, EditionBook):
        with pytest.raises(UnknownEntry, match="nec-1999"):
            read("nec-1999")


def test_a_row_of_another_length_is_named_by_its_line(copy: Path) -> None:
    rows = copy / "tables" / "ampacity" / "rows-nec-2023.csv"
    lines = rows.read_text(encoding="utf-8").splitlines()
    place = next(number for number, line in enumerate(lines, start=1) if line.startswith("6 AWG,"))
    lines[place - 1] += ",99"
    rows.write_text("\n".join(lines) + "\n", encoding="utf-8")
    with pytest.raises(CodebookFault, match=rf"ampacity: line {place} has 8 cells, not 7\."):
        loader.tables("nec-2023")


def test_a_row_that_is_no_csv_is_refused_with_its_file(copy: Path) -> None:
    rows = copy / "tables" / "ampacity" / "rows-nec-2023.csv"
    rows.write_text(rows.read_text(encoding="utf-8").replace("6 AWG,55", '"6 AWG"x,55'), encoding="utf-8")
    with pytest.raises(CodebookFault, match=r"ampacity: rows-nec-2023\.csv"):
        loader.tables("nec-2023")


def test_tables_without_an_open_row_are_named() -> None:
    book = EditionBook("nec-2023")
    book._fill = changed_table("raceway_fill", {"up_to_conductors": "9"}, up_to_conductors="")
    book._adjustment = changed_table("conductor_count_adjustment", {"up_to_count": "99"}, up_to_count="")
    assert book.fill_percent(9).number == 40
    with pytest.raises(CodebookFault, match="fill table"):
        book.fill_percent(10)
    with pytest.raises(CodebookFault, match="adjustment table"):
        book.count_adjustment(100)


def test_what_is_remembered_of_counts_is_bounded() -> None:
    # A caller may name any count of conductors: a thousand are kept, and no others.
    book = EditionBook("nec-2023")
    for count in (1, 4, 999, 1000, 1001, 5000):
        assert book.count_adjustment(count) == book.count_adjustment(count)
    assert sorted(book._adjustments) == [1, 4, 999, 1000]


@pytest.mark.parametrize("lacking", ["within_of_box_in", "interval_in", "section"])
def test_supports_that_lack_a_part_are_no_supports(lacking: str) -> None:
    book = EditionBook("nec-2023")
    assert book.support("emt", "1") is not None
    book._supports = changed_table("supports", {lacking: ""}, wiring_method="emt", trade_size="1")
    assert book.support("emt", "1") is None


def test_a_wiring_method_may_leave_out_what_it_does_not_limit() -> None:
    book = EditionBook("nec-2023")
    for lacking in ("copper_smallest", "copper_largest"):
        book._tables = dict(book._tables) | {
            "wiring_methods": changed_table("wiring_methods", {lacking: ""}, wiring_method="nm-b")
        }
        assert book._method("nm-b").made == {"copper": None, "aluminum": ("12 AWG", "2 AWG")}
    # Without a steel or aluminum raceway around them conductors lie as in PVC: chapter 9, table 9.
    book._tables["wiring_methods"] = changed_table(
        "wiring_methods", {"impedance_column": ""}, wiring_method="nm-b"
    )
    assert book._method("nm-b").impedance_column == "pvc"


@pytest.mark.parametrize("other", ["nec-2017", "nec-2020", "nec-2026"])
def test_cells_that_differ_stand_in_the_order_of_the_rows(other: str) -> None:
    seen = 0
    for one in differences("nec-2023", other):
        if one.kind != "table" or one.rows_added or one.rows_removed:
            continue
        table = loader.table("nec-2023", one.name.replace("-", "_"))
        order = [tuple(row[key] for key in table.row_keys) for row in table.rows]
        places = [(order.index(cell.key), cell.column) for cell in one.cells]
        assert places == sorted(places)
        seen += len(places)
    assert seen > 0 or other == "nec-2020"
