"""Every provision, edition and interpretation: complete, honest about its sources, in step with the others."""

import datetime
import re
import tomllib
from pathlib import Path
from typing import Any

import pytest

DATA = Path(__file__).parents[2] / "service" / "branchwright" / "codebook" / "data" / "nec"
FILES = sorted((DATA / "provisions").glob("*.toml"))
EDITIONS = ("nec-2017", "nec-2020", "nec-2023", "nec-2026")
UNITS = {"1", "%", "A", "V", "VA", "VA/ft2", "W", "kW", "hp", "in", "ft", "degC", "d", "min", "count", "text"}
WORDS = {
    ("current-setting", "counts"): {"yes", "no", "read-two-ways"},
    ("current-setting", "access"): {"restricted", "any"},
    ("grounding-proportion", "counts_correction"): {"no", "read-two-ways"},
    ("rooftop", "exempt_insulation"): {"XHHW-2"},
    ("noncoincident-load", "smaller_motor"): {"neither", "motor", "motor-or-cooling"},
    ("charger-load", "basis"): {"nameplate", "greater-of-nameplate-and-least", "nameplate-else-least"},
    ("charger-load", "least_holds_for"): {"standard"},
}
"""What a text value may say where it is more than yes or no."""


def read(path: Path) -> dict[str, Any]:
    return tomllib.loads(path.read_text(encoding="utf-8"))


def records(path: Path) -> list[tuple[str, dict[str, Any]]]:
    return list(read(path)["editions"].items())


def file_name(path: Path) -> str:
    return path.stem


@pytest.mark.parametrize("path", FILES, ids=file_name)
def test_provision_has_every_key_and_no_other(path: Path):
    about = read(path)
    assert set(about) == {"title", "values", "editions"}
    assert about["title"].strip()
    assert about["values"]
    for name, value in about["values"].items():
        assert {"unit", "meaning"} <= set(value) <= {"unit", "meaning", "optional"}, name
        assert value["unit"] in UNITS, name
        assert value["meaning"].strip(), name
        assert value.get("optional", True) is True, "a value that must be there says nothing about it"
    assert list(about["editions"]) == [name for name in EDITIONS if name in about["editions"]]


@pytest.mark.parametrize("path", FILES, ids=file_name)
def test_provision_says_where_its_figures_come_from(path: Path):
    for name, record in records(path):
        required = {"section", "confidence", "found", "source", "checked", "values"}
        assert required <= set(record) <= required | {"notes"}, name
        assert record["confidence"] in {"high", "medium", "low"}, name
        assert record["found"] in {"print", "recomputed", "memory"}, name
        assert record["section"].strip(), name
        assert not re.search(r"\b(NEC|nec|20\d\d)\b", record["section"]), (
            "the edition is no part of the section"
        )
        assert record["source"].strip(), name
        assert datetime.date.fromisoformat(record["checked"]).year >= 2026, name


@pytest.mark.parametrize("path", FILES, ids=file_name)
def test_provision_gives_the_values_it_describes(path: Path):
    about = read(path)
    optional = {name for name, value in about["values"].items() if value.get("optional")}
    for edition, record in records(path):
        assert set(about["values"]) - optional <= set(record["values"]) <= set(about["values"]), edition
        for name, value in record["values"].items():
            if about["values"][name]["unit"] == "text":
                assert value in WORDS.get((path.stem, name), {"yes", "no"}), (edition, name)
            else:
                assert not isinstance(value, str | bool), (edition, name)
                assert value >= 0, (edition, name)
    left_out = {name for name in optional for _, record in records(path) if name not in record["values"]}
    assert left_out == optional, "no edition leaves it out: it is not optional"


def test_what_was_not_seen_of_the_newest_edition_is_not_called_sure():
    tables = sorted((DATA / "tables").glob("*/about.toml"))
    compared = 0
    for path in (*FILES, *tables):
        record = read(path)["editions"]["nec-2026"]
        if record["found"] != "print":
            compared += 1
            assert record["confidence"] in {"medium", "low"}, path
    assert compared > 30


@pytest.mark.parametrize("path", [*FILES, *sorted((DATA / "tables").glob("*/about.toml"))], ids=str)
def test_no_source_claims_print_and_names_nothing_but_memory(path: Path):
    for edition, record in read(path)["editions"].items():
        if record["found"] == "print":
            assert not re.match(r"(from memory|meaning of \S+ from memory)", record["source"], re.I), edition


def test_editions_say_how_they_are_known():
    listed = read(DATA / "editions.toml")["editions"]
    assert list(listed) == list(EDITIONS)
    for name, record in listed.items():
        year = name.removeprefix("nec-")
        assert set(record) == {"title", "publication", "status", "notes"}, name
        assert record["publication"] == f"NFPA 70:{year}"
        assert record["title"].endswith(year)
        assert record["status"].startswith("known"), name
    assert listed["nec-2026"]["status"] != "known"


# Where each point exists; the first reading of each is the one that binds unless told.
POINTS = {
    "liquidtight-temperature": (EDITIONS, ("operating-temperature", "sixty-degree-column")),
    "grounding-near-miss": (EDITIONS, ("strict", "within-rounding")),
    "grounding-growth": (EDITIONS[:1], ("counts-correction", "exempts-correction")),
    "setting-as-rating": (EDITIONS[:1], ("nameplate", "setting")),
    "hardwired-outlet": (EDITIONS[1:], ("outlet", "not-an-outlet")),
    "permanently-wired-protection": (EDITIONS[3:], ("required", "not-enacted")),
    "sixty-ampere-receptacle": (EDITIONS[2:3], ("printed", "not-printed")),
    "rooftop-clearance": (EDITIONS[2:], ("seven-eighths-inch", "three-quarters-inch")),
    "charger-in-optional-method": (EDITIONS, ("full-value", "in-the-pool")),
    "existing-heating-and-cooling": (EDITIONS, ("in-the-pool", "left-out")),
    "added-heating-and-cooling": (EDITIONS[3:], ("at-full-value", "in-the-pool")),
    "omitted-motor": (EDITIONS[1:], ("compared", "added")),
    "measured-with-generation": (EDITIONS, ("refused", "measured-gross")),
    "measured-demand-interval": (EDITIONS, ("fifteen-minutes", "as-metered")),
    "charger-on-service": (EDITIONS, ("at-125-percent", "at-its-load")),
}


def test_interpretations_exist_where_the_point_does():
    listed = read(DATA / "interpretations.toml")["interpretations"]
    assert set(listed) == set(POINTS)
    for name, item in listed.items():
        editions, readings = POINTS[name]
        assert set(item) == {"question", "default", "sections", "notes", "readings"}, name
        assert tuple(item["sections"]) == editions, name
        assert tuple(item["readings"]) == readings, name
        assert item["default"] == readings[0], name
        assert item["question"].endswith("?"), name


def editions_where(concept: str, holds) -> tuple[str, ...]:
    """The editions whose record on a concept fulfils a condition."""
    return tuple(
        name for name, record in records(DATA / "provisions" / f"{concept}.toml") if holds(record["values"])
    )


def test_interpretations_agree_with_the_provisions_that_are_read_two_ways():
    places = ("outdoors", "garage", "accessory_building", "indoors")
    assert (
        editions_where("grounding-proportion", lambda v: v["counts_correction"] == "read-two-ways")
        == (POINTS["grounding-growth"][0])
    )
    assert (
        editions_where("current-setting", lambda v: v["counts"] == "read-two-ways")
        == (POINTS["setting-as-rating"][0])
    )
    assert editions_where("rooftop", lambda v: "clearance_smaller_in" in v) == POINTS["rooftop-clearance"][0]
    assert (
        editions_where("permanently-wired-protection", lambda v: v["applies"] == "yes")
        == (POINTS["permanently-wired-protection"][0])
    )
    assert (
        editions_where("hardwired-protection", lambda v: any(v[place] == "yes" for place in places))
        == (POINTS["hardwired-outlet"][0])
    )


@pytest.mark.parametrize(
    "concept", ["permanently-wired-protection", "receptacle-listing", "emergency-shutoff"]
)
def test_a_rule_that_does_not_apply_has_no_figures(concept: str):
    for edition, record in records(DATA / "provisions" / f"{concept}.toml"):
        assert (len(record["values"]) > 1) == (record["values"]["applies"] == "yes"), edition
