"""What differs between two editions: complete, the same from either side, and what is published of it."""

import csv
import itertools
import shutil
import tomllib
from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from branchwright.codebook import UnknownEntry, loader
from branchwright.codebook.differences import CellDifference, Difference, differences

DATA = Path(loader.__file__).parent / "data" / "nec"
EDITIONS = ("nec-2017", "nec-2020", "nec-2023", "nec-2026")
Y17, Y20, Y23, Y26 = EDITIONS
PAIRS = list(itertools.permutations(EDITIONS, 2))
CACHED = (
    loader.revision,
    loader.editions,
    loader.edition,
    loader.interpretations,
    loader.tables,
    loader.provisions,
    differences,
)

both_ways = pytest.mark.parametrize(("this", "other"), PAIRS, ids=" to ".join)


def difference(this: str, other: str, kind: str, name: str) -> Difference | None:
    """The one difference of this kind and name; None where there is none."""
    found = [one for one in differences(this, other) if (one.kind, one.name) == (kind, name)]
    assert len(found) <= 1
    return found[0] if found else None


def swapped(one: Difference) -> Difference:
    """The same difference seen from the other edition."""
    return replace(
        one,
        change={"added": "removed", "removed": "added", "changed": "changed"}[one.change],
        this=one.other,
        other=one.this,
        rows_added=one.rows_removed,
        rows_removed=one.rows_added,
        cells=tuple(replace(cell, this=cell.other, other=cell.this) for cell in one.cells),
    )


def test_every_edition_is_compared():
    assert [record.name for record in loader.editions()] == list(EDITIONS)


@pytest.mark.parametrize("edition", EDITIONS)
def test_an_edition_and_itself_differ_in_nothing(edition: str):
    assert differences(edition, edition) == ()


@both_ways
def test_the_other_way_round_every_pair_is_swapped(this: str, other: str):
    there = differences(this, other)
    assert there
    assert differences(other, this) == tuple(map(swapped, there))


@both_ways
def test_what_is_listed_differs(this: str, other: str):
    found = differences(this, other)
    assert [(one.kind, one.name) for one in found] == sorted({(one.kind, one.name) for one in found})
    for one in found:
        assert (one.this is None, one.other is None) == (one.change == "added", one.change == "removed")
        assert one.renumbered == (one.change == "changed" and one.this.section != one.other.section)
        assert one.change != "changed" or one.renumbered or one.rows_added or one.rows_removed or one.cells
        assert one.change == "changed" or not one.cells
        for cell in one.cells:
            assert cell.this != cell.other


# The same once more from the files themselves, cell by cell.


def records(path: Path) -> dict[str, Any]:
    return tomllib.loads(path.read_text("utf-8"))


def value(text: str, unit: str) -> str | float | None:
    if text == "":
        return None
    return text if unit in ("text", "size") else float(text)


def written(edition: str) -> dict[tuple[Any, ...], Any]:
    """Every cell of an edition, and every entry's section and confidence, by its place in the files."""
    found: dict[tuple[Any, ...], Any] = {}
    for about_file in (DATA / "tables").glob("*/about.toml"):
        about, name = records(about_file), about_file.parent.name.replace("_", "-")
        record = rows_of = about["editions"].get(edition)
        if record is None:
            continue
        found["table", name] = (record["section"], record["confidence"])
        while "same_as" in rows_of:
            rows_of = about["editions"][rows_of["same_as"]]
        units = {column: item["unit"] for column, item in about["columns"].items()}
        with (about_file.parent / rows_of["rows"]).open(encoding="utf-8", newline="") as lines:
            for row in csv.DictReader(lines):
                key = tuple(value(row[name], units[name]) for name in about["row_keys"])
                for column, text in row.items():
                    found["table", name, key, column] = value(text, units[column])
    for file in (DATA / "provisions").glob("*.toml"):
        record = records(file)["editions"].get(edition)
        if record is not None:
            found["provision", file.stem] = (record["section"], record["confidence"])
            for column, given in record["values"].items():
                found["provision", file.stem, (), column] = given
    for name, item in records(DATA / "interpretations.toml")["interpretations"].items():
        if edition in item["sections"]:
            found["interpretation", name] = (item["sections"][edition], None)
    return found


def row_keys(entry: Difference) -> list[str]:
    """The columns that find a row of a table; a provision has none."""
    if entry.kind != "table":
        return []
    keys: list[str] = records(DATA / "tables" / entry.name.replace("-", "_") / "about.toml")["row_keys"]
    return keys


@both_ways
def test_nothing_is_left_out_and_nothing_is_invented(this: str, other: str):
    here, there = written(this), written(other)
    expected: set[tuple[Any, ...]] = set()
    for place in here.keys() | there.keys():
        one, another = here.get(place), there.get(place)
        is_entry = len(place) == 2
        if (one and one[0]) != (another and another[0]) if is_entry else one != another:
            expected.add((*place, one, another))

    found: set[tuple[Any, ...]] = set()
    for entry in differences(this, other):
        name = (entry.kind, entry.name)
        if entry.change != "changed" or entry.renumbered:
            sections = [one and (one.section, one.confidence) for one in (entry.this, entry.other)]
            found.add((*name, *sections))
        keys = row_keys(entry)
        for row in entry.rows_added:
            key = tuple(row[column] for column in keys)
            found |= {(*name, key, column, None, cell) for column, cell in row.items() if cell is not None}
        for row in entry.rows_removed:
            key = tuple(row[column] for column in keys)
            found |= {(*name, key, column, cell, None) for column, cell in row.items() if cell is not None}
        found |= {(*name, cell.key, cell.column, cell.this, cell.other) for cell in entry.cells}
    assert found == expected


# What is published. Each names where; the sections are those that the publications name.

source = pytest.mark.source
RENUMBERED = [
    pytest.param(
        Y17, Y20, "table", "ampacity", "Table 310.15(B)(16)", "Table 310.16",
        marks=source("International Residential Code, Table E3705.1, which names the table it reprints"),
    ),
    pytest.param(
        Y17, Y20, "table", "ambient-correction", "Table 310.15(B)(2)(a)", "Table 310.15(B)(1)",
        marks=source("International Residential Code, Table E3705.2, which names the table it reprints"),
    ),
    pytest.param(
        Y20, Y23, "table", "ambient-correction", "Table 310.15(B)(1)", "Table 310.15(B)(1)(1)",
        marks=source("continuing-education pages on article 310 of 2023"),
    ),
    pytest.param(
        Y17, Y20, "table", "conductor-count-adjustment", "Table 310.15(B)(3)(a)", "Table 310.15(C)(1)",
        marks=source("trade magazine's questions and answers on the 80 and 70 percent factors, 2017 and 2020"),
    ),
    pytest.param(
        Y20, Y23, "table", "burial-cover", "Table 300.5", "Table 300.5(A)",
        marks=source("copies of NFPA 70, Table 300.5 and its number of 2023"),
    ),
    pytest.param(
        Y17, Y20, "provision", "short-length-exception", "310.15(A)(2) Exception", "310.14(A)(2) Exception",
        marks=source("trade press on the reorganised article 310 of 2020"),
    ),
]  # fmt: skip


@pytest.mark.parametrize(("this", "other", "kind", "name", "section", "new_section"), RENUMBERED)
def test_what_is_only_renumbered_has_no_cells(
    this: str, other: str, kind: str, name: str, section: str, new_section: str
):
    found = difference(this, other, kind, name)
    assert found is not None
    assert found.this is not None
    assert found.other is not None
    assert (found.change, found.renumbered) == ("changed", True)
    assert (found.this.section, found.other.section) == (section, new_section)
    assert (found.rows_added, found.rows_removed, found.cells) == ((), (), ())


@source("continuing-education lesson on the breaker ratings of 2023; building-code forum on the 10 A breaker")
def test_a_rating_of_10_a_entered_with_2023():
    found = difference(Y20, Y23, "table", "standard-ratings")
    assert found is not None
    assert found.rows_added == ({"rating_a": 10.0},)
    assert (found.rows_removed, found.cells) == ((), ())
    for older, newer in ((Y17, Y20), (Y23, Y26)):
        same = difference(older, newer, "table", "standard-ratings")
        assert same is None or (same.rows_added, same.rows_removed, same.cells) == ((), (), ())


@source("trade magazine on 625.44 of 2026, which lists receptacles of 60 A; secondary reports of it for 2023")
def test_a_60_a_receptacle_entered_with_2023():
    found = difference(Y20, Y23, "table", "receptacles")
    assert found is not None
    assert [(row["configuration"], row["rating_a"]) for row in found.rows_added] == [("14-60", 60.0)]
    assert found.rows_removed == ()
    found = difference(Y23, Y26, "table", "receptacles")
    assert found is not None
    assert found.cells == (CellDifference(("14-60",), "printed", "text", "reported", "yes"),)


VALUES = [
    pytest.param(
        Y23, Y26, "disconnect", "above_a", 60.0, 0.0,
        marks=source("continuing-education page on 625.43 of 2026: the threshold of 60 A is removed"),
    ),
    pytest.param(
        Y23, Y26, "disconnect", "hardwired_only", "no", "yes",
        marks=source("continuing-education page on 625.43 of 2026: all permanently connected equipment"),
    ),
    pytest.param(
        Y23, Y26, "emergency-shutoff", "applies", "no", "yes",
        marks=source("continuing-education page on 625.43(D) of 2026"),
    ),
    pytest.param(
        Y23, Y26, "qualified-persons", "applies", "no", "yes",
        marks=source("trade magazine's list of changes of 2026, 625.4"),
    ),
    pytest.param(
        Y23, Y26, "receptacle-listing", "applies", "no", "yes",
        marks=source("continuing-education page on 625.44 of 2026: receptacles listed for charging"),
    ),
    pytest.param(
        Y23, Y26, "receptacle-rating", "equal_only", "no", "yes",
        marks=source("continuing-education page on 625.44 of 2026: no 50 A receptacle on a 40 A circuit"),
    ),
    pytest.param(
        Y17, Y20, "receptacle-protection", "up_to_a", 50.0, None,
        marks=source("trade magazine's code quiz of February 2021 on 625.54: all receptacles for charging"),
    ),
    pytest.param(
        Y17, Y20, "hardwired-protection", "outdoors", "no", "yes",
        marks=source("code-change guide on the new 210.8(F) of 2020"),
    ),
    pytest.param(
        Y20, Y23, "hardwired-protection", "garage", "no", "yes",
        marks=source("code-change page on 210.8(F) of 2023"),
    ),
    pytest.param(
        Y20, Y23, "current-setting", "access", "any", "restricted",
        marks=source("forum quotation of 625.42(B) and 750.30(C)(3) of 2023"),
    ),
    pytest.param(
        Y17, Y20, "grounding-proportion", "counts_correction", "read-two-ways", "no",
        marks=source("trade magazine of April 2022 on 250.122(B) of 2020"),
    ),
]  # fmt: skip


@pytest.mark.parametrize(("this", "other", "concept", "column", "before", "after"), VALUES)
def test_a_published_change_of_a_rule_is_a_cell(
    this: str, other: str, concept: str, column: str, before: object, after: object
):
    found = difference(this, other, "provision", concept)
    assert found is not None
    assert [(cell.key, cell.this, cell.other) for cell in found.cells if cell.column == column] == [
        ((), before, after)
    ]


@source("manufacturer's code-change guide on 625.42 of 2020: the adjusted rating stands on a label")
def test_a_provision_that_the_older_edition_lacks_is_added():
    found = difference(Y17, Y20, "provision", "setting-label")
    assert found is not None
    assert (found.change, found.this, found.cells, found.rows_removed) == ("added", None, (), ())
    assert found.rows_added == ({"label": "yes"},)
    assert found.other is not None
    assert found.other.section == "625.42"


@source(
    "the 2017 text of 250.122(B) and a newsletter's paraphrase of it; the exemption of 2020 in so many words"
)
def test_a_dispute_that_an_edition_settled_is_removed():
    found = difference(Y17, Y20, "interpretation", "grounding-growth")
    assert found is not None
    assert (found.change, found.other, found.rows_added, found.rows_removed) == ("removed", None, (), ())
    assert found.this is not None
    assert (found.this.section, found.this.confidence) == ("250.122(B)", None)


@source("second draft of 625.54(B) of 2026; no published page was found")
def test_the_confidence_of_both_editions_is_shown():
    found = difference(Y23, Y26, "provision", "permanently-wired-protection")
    assert found is not None
    assert found.this is not None
    assert found.other is not None
    assert (found.this.confidence, found.other.confidence) == ("high", "low")


@source(
    "reprints of Table 250.122, of chapter 9, Tables 1 and 5, and of 240.4(D): the same in all editions here"
)
@pytest.mark.parametrize(
    "table", ["grounding-conductor", "raceway-fill", "conductor-areas", "small-conductor-limits"]
)
@both_ways
def test_what_all_editions_print_alike_is_not_listed(this: str, other: str, table: str):
    assert difference(this, other, "table", table) is None


# What the real editions do not show, on a changed copy of the files.

Edit = Callable[[str, str, str], None]


@pytest.fixture
def edit(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Edit]:
    """Replaces a text in a copy of the codebook that the loader reads instead of its own."""
    copy = tmp_path / "nec"
    shutil.copytree(DATA, copy)
    monkeypatch.setattr(loader, "_data", lambda: copy)

    def replaced(name: str, old: str, new: str) -> None:
        path = copy / name
        text = path.read_text("utf-8")
        assert text.count(old) == 1, f"{name} has {old!r} {text.count(old)} times"
        path.write_text(text.replace(old, new), "utf-8")
        forget()

    def forget() -> None:
        for cached in CACHED:
            cached.cache_clear()

    forget()
    yield replaced
    forget()


def with_a_table_of_its_own(edit: Edit, edition: str) -> str:
    """Give an edition rows of its own in a table that it reprints; return the file's name."""
    shutil.copy(
        DATA / "tables/grounding_conductor/rows-nec-2023.csv",
        loader._data() / f"tables/grounding_conductor/rows-{edition}.csv",
    )
    edit(
        "tables/grounding_conductor/about.toml",
        f'[editions.{edition}]\nsame_as = "nec-2023"',
        f'[editions.{edition}]\nrows = "rows-{edition}.csv"',
    )
    return f"tables/grounding_conductor/rows-{edition}.csv"


def test_the_order_of_rows_is_no_difference(edit: Edit):
    shutil.copy(
        DATA / "tables/receptacles/rows-nec-2023.csv",
        loader._data() / "tables/receptacles/rows-nec-2026.csv",
    )
    before = differences(Y20, Y23)
    lines = (DATA / "tables/receptacles/rows-nec-2023.csv").read_text("utf-8").splitlines(keepends=True)
    edit("tables/receptacles/rows-nec-2026.csv", lines[1] + lines[2], lines[2] + lines[1])
    assert difference(Y23, Y26, "table", "receptacles") is None
    assert differences(Y20, Y23) == before


def test_confidence_source_and_notes_are_no_difference(edit: Edit):
    name = "provisions/continuous-load.toml"
    record = records(DATA / name)["editions"][Y20]
    before = differences(Y20, Y23)
    section = f'[editions.{Y20}]\nsection = "{record["section"]}"\nconfidence = '
    edit(name, f'{section}"{record["confidence"]}"', f'{section}"low"')
    assert loader.provisions(Y20)["continuous-load"].evidence.confidence == "low"
    assert differences(Y20, Y23) == before


def test_cells_of_a_row_come_in_the_order_of_the_rows(edit: Edit):
    name = with_a_table_of_its_own(edit, Y26)
    edit(name, "\n100,8 AWG,6 AWG\n", "\n100,6 AWG,4 AWG\n")
    edit(name, "\n20,12 AWG,10 AWG\n", "\n20,10 AWG,\n")
    found = difference(Y23, Y26, "table", "grounding-conductor")
    assert found is not None
    assert found.cells == (
        CellDifference((20.0,), "aluminum", "size", "10 AWG", None),
        CellDifference((20.0,), "copper", "size", "12 AWG", "10 AWG"),
        CellDifference((100.0,), "aluminum", "size", "6 AWG", "4 AWG"),
        CellDifference((100.0,), "copper", "size", "8 AWG", "6 AWG"),
    )
    assert differences(Y26, Y23) == tuple(map(swapped, differences(Y23, Y26)))


def test_a_row_with_another_key_is_one_removed_and_one_added(edit: Edit):
    name = with_a_table_of_its_own(edit, Y26)
    edit(name, "\n60,10 AWG,8 AWG\n", "\n70,10 AWG,8 AWG\n")
    found = difference(Y23, Y26, "table", "grounding-conductor")
    assert found is not None
    row = {"overcurrent_device_up_to_a": 60.0, "copper": "10 AWG", "aluminum": "8 AWG"}
    assert found.rows_removed == (row,)
    assert found.rows_added == (row | {"overcurrent_device_up_to_a": 70.0},)
    assert (found.cells, found.renumbered) == ((), False)


def test_a_table_that_only_one_edition_has_is_given_whole(edit: Edit):
    text = (DATA / "tables/raceway_fill/about.toml").read_text("utf-8")
    record = text[text.index(f"[editions.{Y20}]") : text.index(f"[editions.{Y23}]")]
    edit("tables/raceway_fill/about.toml", record, "")
    found = difference(Y20, Y23, "table", "raceway-fill")
    assert found is not None
    assert (found.change, found.this, found.rows_removed, found.cells) == ("added", None, (), ())
    assert found.rows_added == loader.tables(Y23)["raceway_fill"].rows


@pytest.mark.parametrize(("this", "other"), [("nec-1999", Y23), (Y23, "nec-1999"), ("", "")])
def test_an_unknown_edition_is_an_unknown_entry(this: str, other: str):
    with pytest.raises(UnknownEntry) as unknown:
        differences(this, other)
    assert unknown.value.kind == "edition"
    assert unknown.value.known == EDITIONS


@both_ways
def test_a_comparison_is_made_once(this: str, other: str):
    assert differences(this, other) is differences(this, other)
