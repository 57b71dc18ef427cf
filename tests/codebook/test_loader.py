"""The loader refuses files that break the codebook's own rules, and says which and why."""

import shutil
from collections.abc import Callable, Iterator
from math import inf
from pathlib import Path
from typing import get_args

import pytest

from branchwright import codebook
from branchwright.codebook import ProvisionLacking, UnknownEntry, WiringMethod, loader
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

Edit = Callable[[str, str, str], None]


@pytest.fixture
def data(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Path]:
    """A copy of the codebook that the loader reads instead of its own."""
    copy = tmp_path / "nec"
    shutil.copytree(DATA, copy)
    monkeypatch.setattr(loader, "_data", lambda: copy)
    for cached in CACHED:
        cached.cache_clear()
    yield copy
    for cached in CACHED:
        cached.cache_clear()


@pytest.fixture
def edit(data: Path) -> Edit:
    """Replace a text that a file has once or more."""

    def replace(name: str, old: str, new: str) -> None:
        path = data / name
        text = path.read_text(encoding="utf-8")
        assert old in text, f"{name} has no {old!r}"
        path.write_text(text.replace(old, new), encoding="utf-8")

    return replace


def test_the_copy_is_as_good_as_the_original(data: Path) -> None:
    assert EditionBook("nec-2023").ampacities_a["6 AWG", "copper", 75] == 65
    assert {table.name for table in loader.tables("nec-2023").values()} == {
        path.name for path in (DATA / "tables").iterdir()
    }
    assert set(loader.provisions("nec-2023")) == {path.stem for path in (DATA / "provisions").glob("*.toml")}


BROKEN = {
    "a broken TOML file": (
        "provisions/continuous-load.toml",
        "factor = 1.25",
        "factor = = 1.25",
        ("continuous-load.toml",),
    ),
    "a provision with a value that is not described": (
        "provisions/continuous-load.toml",
        "factor = 1.25",
        "factor = 1.25\nother = 2",
        ("continuous-load", "nec-2023"),
    ),
    "a provision that lacks a described value": (
        "provisions/continuous-load.toml",
        "factor = 1.25",
        "",
        ("continuous-load", "nec-2023"),
    ),
    "a name where a number belongs": (
        "provisions/continuous-load.toml",
        "factor = 1.25",
        'factor = "1.25"',
        ("continuous-load", "factor"),
    ),
    "a number where a name belongs": (
        "provisions/next-size-up.toml",
        'permitted = "yes"',
        "permitted = 1",
        ("next-size-up", "permitted"),
    ),
    "a cell that is not a number": (
        "tables/ampacity/rows-nec-2023.csv",
        "6 AWG,55,65,75",
        "6 AWG,55,6S,75",
        ("ampacity", "6S", "copper_75"),
    ),
    "a column that is not described": (
        "tables/ampacity/rows-nec-2023.csv",
        "copper_60,copper_75",
        "copper_75,copper_60",
        ("ampacity", "columns"),
    ),
    "a match that there is not": (
        "tables/ampacity/about.toml",
        'match = "exact"',
        'match = "nearest"',
        ("ampacity", "nearest"),
    ),
    "steps that do not rise": (
        "tables/grounding_conductor/rows-nec-2023.csv",
        "\n60,10 AWG,8 AWG\n100,8 AWG,6 AWG\n",
        "\n100,8 AWG,6 AWG\n60,10 AWG,8 AWG\n",
        ("grounding_conductor", "overcurrent_device_up_to_a"),
    ),
    "an adjustment table without its open row": (
        "tables/conductor_count_adjustment/rows-nec-2023.csv",
        "\n,35",
        "",
        ("adjustment",),
    ),
    "a row with a cell too many": (
        "tables/ampacity/rows-nec-2023.csv",
        "6 AWG,55,65,75,40,50,55",
        "6 AWG,55,65,75,40,50,55,99",
        ("ampacity",),
    ),
    "a row with a cell too few": (
        "tables/ampacity/rows-nec-2023.csv",
        "6 AWG,55,65,75,40,50,55",
        "6 AWG,55,65,75,40,50",
        ("ampacity",),
    ),
    "the same row twice": (
        "tables/ampacity/rows-nec-2023.csv",
        "6 AWG,55,65,75,40,50,55",
        "6 AWG,55,65,75,40,50,55\n6 AWG,55,66,75,40,50,55",
        ("ampacity", "6 AWG"),
    ),
    "a section that is missing": (
        "provisions/continuous-load.toml",
        'section = "625.41"',
        "",
        ("continuous-load", "section"),
    ),
    "a reprint of an edition that there is not": (
        "tables/ampacity/about.toml",
        'rows = "rows-nec-2023.csv"',
        'same_as = "nec-1999"',
        ("ampacity", "nec-1999"),
    ),
    "rows that are missing": (
        "tables/ampacity/about.toml",
        'rows = "rows-nec-2023.csv"',
        'rows = "rows-nec-2032.csv"',
        ("ampacity", "rows-nec-2032.csv"),
    ),
    "a default that is no reading": (
        "interpretations.toml",
        'default = "strict"',
        'default = "lenient"',
        ("grounding-near-miss", "lenient"),
    ),
}


@pytest.mark.parametrize("case", BROKEN, ids=str)
def test_broken_files_are_refused_by_name(case: str, edit: Edit) -> None:
    name, old, new, said = BROKEN[case]
    edit(name, old, new)
    with pytest.raises(CodebookFault) as refused:
        loader.interpretations()
        EditionBook("nec-2023").count_adjustment(500)
    for word in said:
        assert word in str(refused.value)


def test_an_optional_value_that_is_left_out_sets_no_limit(data: Path) -> None:
    before, after = (
        EditionBook(edition).provision("receptacle-protection") for edition in ("nec-2017", "nec-2020")
    )
    assert (before.limit("up_to_a"), before.limit("up_to_v_to_ground")) == (50, 150)
    assert (after.limit("up_to_a"), after.limit("up_to_v_to_ground")) == (inf, inf)
    assert not after.values
    assert [column.name for column in before.columns] == ["up_to_a", "up_to_v_to_ground"]
    with pytest.raises(KeyError):
        after.number("up_to_a")


def test_a_value_is_optional_only_where_it_says_so(edit: Edit) -> None:
    edit("provisions/receptacle-protection.toml", "optional = true", "")
    loader.provisions("nec-2017")
    with pytest.raises(CodebookFault, match="receptacle-protection"):
        loader.provisions("nec-2020")


@pytest.mark.parametrize("edition", ["nec-2017", "nec-2020", "nec-2023", "nec-2026"])
def test_every_edition_loads_and_knows_every_wiring_method(edition: str) -> None:
    book = EditionBook(edition)
    assert set(book.methods) == set(get_args(WiringMethod))
    for method in book.methods.values():
        assert (len(book.methods[method.name].areas) == 6) == method.is_raceway, method.name
        if method.cover_column is not None:
            assert book.burial_cover("soil", method.cover_column) is not None, method.name
            assert method.underground_citation.publication == edition


def test_a_missing_table_is_named(data: Path) -> None:
    shutil.rmtree(data / "tables" / "ampacity")
    with pytest.raises(CodebookFault, match="ampacity"):
        EditionBook("nec-2023")


def test_the_revision_changes_with_any_file(data: Path) -> None:
    before = loader.revision()
    assert len(before) == 16
    assert int(before, 16) >= 0
    seen = {before}
    for name in ("editions.toml", "tables/ampacity/rows-nec-2023.csv", "provisions/rooftop.toml"):
        path = data / name
        path.write_text(path.read_text(encoding="utf-8") + "\n", encoding="utf-8")
        loader.revision.cache_clear()
        seen.add(loader.revision())
    assert len(seen) == 4


def test_the_revision_changes_when_two_files_change_places(data: Path) -> None:
    before = loader.revision()
    one, other = data / "tables" / "ampacity", data / "tables" / "insulations"
    for file in ("about.toml", "rows-nec-2023.csv"):
        first, second = (one / file).read_bytes(), (other / file).read_bytes()
        (one / file).write_bytes(second)
        (other / file).write_bytes(first)
    loader.revision.cache_clear()
    assert loader.revision() != before


def test_the_revision_knows_where_a_file_ends_and_in_which_folder_it_lies(data: Path) -> None:
    before = loader.revision()
    folder = data / "tables" / "ampacity"
    about, rows = folder / "about.toml", folder / "rows-nec-2023.csv"
    about.write_bytes(about.read_bytes() + rows.name.encode() + rows.read_bytes())
    rows.unlink()
    loader.revision.cache_clear()
    merged = loader.revision()
    folder.rename(data / "tables" / "ampacities")
    loader.revision.cache_clear()
    assert len({before, merged, loader.revision()}) == 3


def test_what_is_not_there_is_named_with_what_is() -> None:
    with pytest.raises(UnknownEntry, match="nec-1999") as unknown:
        codebook.edition("nec-1999")
    assert (unknown.value.kind, unknown.value.given) == ("edition", "nec-1999")
    assert "nec-2023" in unknown.value.known
    with pytest.raises(UnknownEntry, match="nec-1999"):
        codebook.at("nec-1999")
    with pytest.raises(UnknownEntry, match="no_such_table") as unknown:
        codebook.table("nec-2023", "no_such_table")
    assert "ampacity" in unknown.value.known
    with pytest.raises(ProvisionLacking, match="no-such-concept") as lacking:
        codebook.at("nec-2023").edition.provision("no-such-concept")
    assert (lacking.value.edition, lacking.value.concept) == ("nec-2023", "no-such-concept")


def test_a_reading_is_consulted_only_when_it_is_asked_for() -> None:
    book = codebook.at("nec-2023", {"rooftop-clearance": "three-quarters-inch"})
    assert book.consulted == set()
    assert book.reading("rooftop-clearance") == "three-quarters-inch"
    assert book.reading("grounding-near-miss") == "strict"
    assert book.consulted == {"rooftop-clearance", "grounding-near-miss"}
    other = book.with_reading("grounding-near-miss", "within-rounding")
    assert other.reading("grounding-near-miss") == "within-rounding"
    assert other.reading("rooftop-clearance") == "three-quarters-inch"
    assert book.reading("grounding-near-miss") == "strict"


@pytest.mark.source("NEC tables 310.15(B)(1)(1), 240.6(A), 250.122, 310.15(C)(1) and chapter 9, table 1")
def test_look_ups_take_the_first_row_that_reaches() -> None:
    edition = codebook.at("nec-2023").edition

    def number(found):
        return None if found is None else found.number

    assert number(edition.ambient_correction(30, 75)) == 1.00
    assert number(edition.ambient_correction(30.1, 75)) == 0.94
    assert number(edition.ambient_correction(-40, 60)) == 1.29
    assert edition.ambient_correction(85.1, 90) is None
    assert edition.ambient_correction(60, 60) is None, "empty where the ambient leaves no ampacity"
    assert number(edition.standard_rating_at_least(60)) == 60
    assert number(edition.standard_rating_at_least(60.01)) == 70
    assert edition.standard_rating_at_least(6000.1) is None
    assert edition.grounding_conductor(100, "copper").name == "8 AWG"
    assert edition.grounding_conductor(100.5, "copper").name == "6 AWG"
    assert edition.grounding_conductor(1201, "copper") is None
    assert [number(edition.count_adjustment(count)) for count in (1, 3, 4, 6, 7, 41, 500)] == [
        100,
        100,
        80,
        80,
        70,
        35,
        35,
    ]
    assert [number(edition.fill_percent(count)) for count in (1, 2, 3, 40)] == [53, 31, 40, 40]


def test_a_cell_says_where_it_stands() -> None:
    edition = codebook.at("nec-2023").edition
    assert edition.ampacities["1/0 AWG", "copper", 75].origin == "codebook:ampacity/1~10 AWG/copper_75"
    assert edition.count_adjustment(50).origin == "codebook:conductor-count-adjustment//percent"
    assert edition.provision("continuous-load").values["factor"].origin == "codebook:continuous-load/factor"
    assert edition.ampacities["6 AWG", "copper", 75].citation.section == "Table 310.16"
