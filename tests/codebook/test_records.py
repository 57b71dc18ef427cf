"""Tables made by hand and the records: look-ups, what is refused, and that no request changes what all share."""

from collections.abc import Sequence
from dataclasses import FrozenInstanceError, fields, is_dataclass

import pytest

from branchwright import codebook
from branchwright.codebook import ProvisionLacking, Table, UnknownEntry
from branchwright.codebook.differences import differences
from branchwright.codebook.records import CodebookFault, Column, Evidence
from branchwright.findings import Citation

PLACE = Citation("nec-2023", "1.1")
EVIDENCE = Evidence("1.1", "high", "print", "a test", "2026-11-25", None)
COLUMNS = (
    Column("up_to", "A", "key"),
    Column("kind", "text", "second key"),
    Column("value", "V", "value"),
)


def table(
    rows: Sequence[tuple[str, ...]],
    *,
    keys: Sequence[str] = ("up_to",),
    match: str = "first-at-least",
    columns: Sequence[Column] = COLUMNS,
) -> Table:
    printed = [dict(zip((column.name for column in columns), row, strict=True)) for row in rows]
    return Table("some_table", "Title", "look", keys, match, columns, PLACE, EVIDENCE, printed)


def test_a_table_is_what_it_was_made_of() -> None:
    made = table([("10", "a", "1"), ("", "", "")])
    assert (made.name, made.title, made.lookup, made.match) == (
        "some_table",
        "Title",
        "look",
        "first-at-least",
    )
    assert (made.row_keys, made.columns, made.citation, made.evidence) == (
        ("up_to",),
        COLUMNS,
        PLACE,
        EVIDENCE,
    )
    assert made.rows == (
        {"up_to": 10.0, "kind": "a", "value": 1.0},
        {"up_to": None, "kind": None, "value": None},
    )


def test_the_first_row_that_reaches_and_the_open_row() -> None:
    made = table([("10", "a", "1"), ("20", "b", "2"), ("", "c", "3")])
    assert [made.at_least("value", key).number for key in (-1, 10, 10.5, 20, 20.1, 1e9)] == [1, 1, 2, 2, 3, 3]
    assert made.at_least("no such", 5) is None
    closed = table([("10", "a", "1"), ("20", "b", "2")])
    assert closed.at_least("value", 20.1) is None
    assert closed.numbers("value") == (1, 2)
    assert table([("10", "a", ""), ("20", "b", "2")]).numbers("value") == (2,)


def test_the_last_key_is_the_one_that_is_reached() -> None:
    columns = (COLUMNS[1], COLUMNS[0], COLUMNS[2])
    made = table([("a", "10", "1"), ("b", "20", "2")], keys=("kind", "up_to"), columns=columns)
    assert made.cell("value", "a", 10.0).number == 1
    with pytest.raises(CodebookFault, match="up_to does not rise"):
        table([("a", "20", "1"), ("b", "10", "2")], keys=("kind", "up_to"), columns=columns)


def test_a_cell_names_its_place_by_a_pointer() -> None:
    # RFC 6901: a tilde is written ~0 and a slash ~1, in this order.
    made = table([("10", "1/0 ~ x", "1"), ("", "~/", "2")], keys=("up_to", "kind"), match="exact")
    assert made.cell("value", 10.0, "1/0 ~ x").origin == "codebook:some-table/10/1~10 ~0 x/value"
    assert made.rows[1]["up_to"] is None
    assert made.cell("value", None, "~/").origin == "codebook:some-table//~0~1/value"  # type: ignore[arg-type]
    cell = made.cell("value", 10.0, "1/0 ~ x")
    assert (cell.value, cell.unit, cell.citation) == (1.0, "V", PLACE)


def test_what_is_no_table_is_refused_in_words() -> None:
    with pytest.raises(CodebookFault, match=r"^Table some_table: 'a' is not a number\.$"):
        table([("10", "a", "1")]).numbers("kind")
    with pytest.raises(CodebookFault, match=r"^Table some_table: 'ten' in column up_to is not a number\.$"):
        table([("ten", "a", "1")])
    with pytest.raises(CodebookFault, match=r"^Table some_table: the row 10\.0 stands twice\.$"):
        table([("10", "a", "1"), ("10", "b", "2")])
    with pytest.raises(CodebookFault, match="no such match as 'nearest'"):
        table([("10", "a", "1")], match="nearest")
    with pytest.raises(CodebookFault, match="is not a number"):
        table([("10", "a", "1")], keys=("kind",))


def test_lookups_that_fail_say_so_in_a_sentence() -> None:
    assert (
        str(UnknownEntry("edition", "nec-1999", ("nec-2023",))) == "The codebook has no edition 'nec-1999'."
    )
    assert str(ProvisionLacking("nec-2017", "setting-label")) == "nec-2017 has no provision on setting-label."


def shared_records() -> list[object]:
    edition = codebook.at("nec-2023").edition
    changed = next(one for one in differences("nec-2020", "nec-2023") if one.cells)
    return [
        codebook.edition("nec-2023"),
        codebook.interpretations()[0],
        edition.provision("continuous-load"),
        codebook.table("nec-2023", "ampacity").columns[0],
        codebook.table("nec-2023", "ampacity").evidence,
        edition.methods["emt"],
        changed,
        changed.this,
        changed.cells[0],
    ]


@pytest.mark.parametrize("place", range(len(shared_records())))
def test_a_request_cannot_change_what_all_share(place: int) -> None:
    record = shared_records()[place]
    assert is_dataclass(record)
    name = fields(record)[0].name
    with pytest.raises(FrozenInstanceError):
        setattr(record, name, "changed")
