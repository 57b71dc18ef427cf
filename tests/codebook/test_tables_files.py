"""Every table folder: its description is complete, its rows are what the description says they are."""

import csv
import datetime
import itertools
import re
import tomllib
from collections.abc import Callable
from pathlib import Path

import pytest

TABLES = Path(__file__).parents[2] / "service" / "branchwright" / "codebook" / "data" / "nec" / "tables"
FOLDERS = sorted(path for path in TABLES.iterdir() if path.is_dir())
ROWS = sorted(TABLES.glob("*/rows-*.csv"))
EDITIONS = {"nec-2017", "nec-2020", "nec-2023", "nec-2026"}

WHOLE = re.compile(r"[1-9]\d*")
DECIMAL = re.compile(r"(0|[1-9]\d*)(\.\d+)?")
CELL_OF_UNIT = {
    "A": WHOLE,
    "V": WHOLE,
    "VA": WHOLE,
    "kW": DECIMAL,
    "%": re.compile(r"0\.5|[1-9]\d*"),
    "degC": WHOLE,
    "cmil": WHOLE,
    "lbf-in": WHOLE,
    "count": WHOLE,
    "1": DECIMAL,
    "in": DECIMAL,
    "mm": DECIMAL,
    "in2": DECIMAL,
    "ohm/kft": DECIMAL,
    "size": re.compile(r"(14|12|10|8|6|4|3|2|1|1/0|2/0|3/0|4/0) AWG|[1-9]\d\d kcmil"),
    "text": re.compile(r"\S(.*\S)?"),
}
WORDS = {
    "dry": {"yes", "no"},
    "damp": {"yes", "no"},
    "wet": {"yes", "no", "listed"},
    "underground": {"yes", "no", "listed"},
    "liquidtight": {"yes", "no"},
    "marked_rating": {"yes", "no"},
    "neutral": {"yes", "no"},
    "printed": {"yes", "reported"},
    "cover_column": {"cable_in", "rigid_metal_in", "other_raceway_in", ""},
}
"""What the cells of a column may say, by its name."""

LACKING = {"dwelling_service_sizes": {"nec-2017"}}
"""Tables that an edition does not print."""


def folder_name(path: Path) -> str:
    return path.name


def rows_name(path: Path) -> str:
    return f"{path.parent.name}/{path.name}"


def described(folder: Path) -> dict:
    return tomllib.loads((folder / "about.toml").read_text(encoding="utf-8"))


def printed(path: Path) -> list[dict[str, str]]:
    with path.open(encoding="utf-8", newline="") as lines:
        return list(csv.DictReader(lines))


def test_the_tables_a_circuit_needs_are_there():
    needed = {
        "ambient_correction",
        "ampacity",
        "burial_cover",
        "conductor_areas",
        "conductor_count_adjustment",
        "conductor_impedance",
        "conductor_properties",
        "grounding_conductor",
        "insulations",
        "nominal_voltages",
        "raceway_areas",
        "raceway_fill",
        "receptacles",
        "small_conductor_limits",
        "standard_ratings",
        "supports",
        "terminal_torque",
        "wiring_methods",
    }
    assert needed <= {folder.name for folder in FOLDERS}


def test_the_tables_a_load_calculation_needs_are_there():
    needed = {"dryer_demand", "dwelling_service_sizes", "lighting_demand", "range_demand"}
    assert needed <= {folder.name for folder in FOLDERS}


@pytest.mark.parametrize("folder", FOLDERS, ids=folder_name)
def test_description_has_every_key_and_no_other(folder: Path):
    about = described(folder)
    assert set(about) == {"title", "row_keys", "match", "lookup", "columns", "editions"}
    assert all(isinstance(about[key], str) and about[key].strip() for key in ("title", "lookup"))
    assert about["match"] in {"exact", "first-at-least"}
    assert about["row_keys"]
    assert set(about["row_keys"]) <= set(about["columns"])
    for name, column in about["columns"].items():
        assert set(column) == {"unit", "meaning"}, name
        assert column["unit"] in CELL_OF_UNIT, name
        assert column["meaning"].strip(), name


@pytest.mark.parametrize("folder", FOLDERS, ids=folder_name)
def test_every_table_stands_in_every_edition_that_prints_it(folder: Path):
    assert list(described(folder)["editions"]) == sorted(EDITIONS - LACKING.get(folder.name, set()))


@pytest.mark.parametrize("folder", FOLDERS, ids=folder_name)
def test_every_edition_says_where_its_figures_come_from(folder: Path):
    about = described(folder)
    assert about["editions"]
    assert set(about["editions"]) <= EDITIONS
    for name, edition in about["editions"].items():
        required = {"section", "confidence", "found", "source", "checked"}
        assert required <= set(edition) <= required | {"rows", "same_as", "notes"}, name
        assert ("rows" in edition) != ("same_as" in edition), f"{name} needs either its own rows or a reprint"
        assert edition["confidence"] in {"high", "medium", "low"}, name
        assert edition["found"] in {"print", "recomputed", "memory"}, name
        assert edition["section"].strip(), name
        assert not re.search(r"\b(NEC|nec|20\d\d)\b", edition["section"]), (
            "the edition is not part of the section"
        )
        assert edition["source"].strip(), name
        assert datetime.date.fromisoformat(edition["checked"]).year >= 2026, name
        if "rows" in edition:
            assert edition["rows"] == f"rows-{name}.csv"
        else:
            assert edition["same_as"] in about["editions"], name


@pytest.mark.parametrize("folder", FOLDERS, ids=folder_name)
def test_every_rows_file_belongs_to_an_edition(folder: Path):
    named = {edition["rows"] for edition in described(folder)["editions"].values() if "rows" in edition}
    assert named == {path.name for path in folder.glob("*.csv")}


@pytest.mark.parametrize("path", ROWS, ids=rows_name)
def test_rows_are_plain_text_that_prints_like_the_book(path: Path):
    raw = path.read_bytes()
    assert raw.decode("utf-8").isascii()
    assert b"\r" not in raw
    assert raw.endswith(b"\n")
    assert not raw.endswith(b"\n\n")
    assert b" ," not in raw
    assert b", " not in raw
    assert b'"' not in raw


@pytest.mark.parametrize("path", ROWS, ids=rows_name)
def test_header_is_the_described_columns_in_order(path: Path):
    header = path.read_text(encoding="utf-8").splitlines()[0].split(",")
    assert header == list(described(path.parent)["columns"])


@pytest.mark.parametrize("path", ROWS, ids=rows_name)
def test_every_cell_parses_to_its_unit(path: Path):
    columns = described(path.parent)["columns"]
    rows = printed(path)
    assert rows
    for number, row in enumerate(rows, start=2):
        assert None not in row, f"line {number} has more cells than the header"
        for name, cell in row.items():
            assert cell is not None, f"line {number} has fewer cells than the header"
            assert cell == "" or CELL_OF_UNIT[columns[name]["unit"]].fullmatch(cell), f"line {number}: {name}"
            if name in WORDS:
                assert cell in WORDS[name], f"line {number}: {name}"


@pytest.mark.parametrize("path", ROWS, ids=rows_name)
def test_no_column_is_empty_throughout(path: Path):
    rows = printed(path)
    assert all(any(row[name] for row in rows) for name in rows[0])


@pytest.mark.parametrize("path", ROWS, ids=rows_name)
def test_row_keys_find_one_row(path: Path):
    about = described(path.parent)
    keys = [tuple(row[key] for key in about["row_keys"]) for row in printed(path)]
    assert len(set(keys)) == len(keys)
    if about["match"] == "exact":
        assert all(all(key) for key in keys)


@pytest.mark.parametrize("path", ROWS, ids=rows_name)
def test_thresholds_rise_and_only_the_last_may_be_open(path: Path):
    about = described(path.parent)
    if about["match"] == "exact":
        return
    assert len(about["row_keys"]) == 1
    limits = [row[about["row_keys"][0]] for row in printed(path)]
    closed = limits[:-1] if limits[-1] == "" else limits
    assert "" not in closed
    assert all(float(lower) < float(upper) for lower, upper in itertools.pairwise(closed))


@pytest.mark.parametrize("path", ROWS, ids=rows_name)
def test_sizes_run_from_small_to_large(path: Path, circular_mils: Callable[[str], float]):
    about = described(path.parent)
    sized = [key for key in about["row_keys"] if about["columns"][key]["unit"] == "size"]
    if not sized:
        return
    blocks: dict[tuple[str, ...], list[str]] = {}
    for row in printed(path):
        block = tuple(row[key] for key in about["row_keys"] if key not in sized)
        blocks.setdefault(block, []).append(row[sized[0]])
    for block, sizes in blocks.items():
        areas = [circular_mils(size) for size in sizes]
        assert all(lower < upper for lower, upper in itertools.pairwise(areas)), block
