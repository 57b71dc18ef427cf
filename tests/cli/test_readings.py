"""Files of meter readings on the command line: told by their form, reported on, and written in another."""

import json
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result

from branchwright.cli import main
from branchwright.http_api.v1 import service_examples

NAMED = ("--unit", "energy-kwh", "--time-column", "Start", "--value-column", "Usage (kWh)")
ZONE = ("--time-zone", "America/Chicago")
# 17:00 to 20:00 of 14 January 2025 in Chicago, Wh: the readings of both documented files.
EVENING = [4_370.0, 5_240.0, 4_680.0]


def run(*arguments: str, **options: Any) -> Result:
    return CliRunner().invoke(main, ["readings", *arguments], **options)


@pytest.fixture
def files(tmp_path: Path) -> dict[str, str]:
    """The documented bodies in files whose names tell nothing."""
    contents = {
        "csv": service_examples.CSV,
        "xml": service_examples.GREEN_BUTTON,
        "json": json.dumps(service_examples.REGULAR),
    }
    for name, content in contents.items():
        (tmp_path / name).write_text(content, "utf-8")
    return {name: str(tmp_path / name) for name in contents}


def series_of(result: Result) -> dict[str, Any]:
    series: dict[str, Any] = json.loads(result.stdout)["series"]
    return series


def test_the_form_is_told_by_the_first_mark(files: dict[str, str]) -> None:
    assert series_of(run(files["csv"], "--json", *NAMED, *ZONE))["energy_wh"] == EVENING
    assert series_of(run(files["xml"], "--json", *ZONE))["energy_wh"] == EVENING
    assert len(series_of(run(files["json"], "--json"))["energy_wh"]) == 24


def test_a_byte_order_mark_and_blanks_hide_no_form(tmp_path: Path) -> None:
    file = tmp_path / "meter"
    file.write_bytes(b"\xef\xbb\xbf" + service_examples.CSV.encode())
    assert series_of(run(str(file), "--json", *NAMED))["energy_wh"] == EVENING
    # What stands before its declaration makes XML ill-formed: it is read as XML all the same, and refused as such.
    file.write_bytes(b"  " + service_examples.GREEN_BUTTON.encode())
    assert "XML" in run(str(file)).output


def test_the_report_says_how_good_the_readings_are_and_what_they_show(files: dict[str, str]) -> None:
    result = run(files["csv"], *NAMED, *ZONE, env={"COLUMNS": "200"})
    assert result.exit_code == 3
    for words in (
        "no edition stated",
        "3 of 3 expected",
        "5240 W over 60 minutes",
        "2025-01-14T18:00:00-06:00",
        "14.29 kWh",
        "estimated",
        "De-energize",
    ):
        assert words in result.output
    gap = run(files["json"], env={"COLUMNS": "200"})
    assert gap.exit_code == 1
    assert "The longest gaps" in gap.output
    assert "2025-01-14T05:00:00-06:00" in gap.output


@pytest.mark.source("RFC 4180 and NAESB ESPI: what is written can be read by whoever reads these forms")
@pytest.mark.parametrize(
    ("option", "again"),
    [
        ("--write-csv", ("--unit", "energy-wh", "--time-column", "start", "--value-column", "energy_wh")),
        ("--write-green-button", ()),
    ],
)
def test_what_was_read_is_written_in_another_form_and_read_again(
    files: dict[str, str], tmp_path: Path, option: str, again: tuple[str, ...]
) -> None:
    target = tmp_path / "written"
    first = series_of(run(files["json"], "--json", option, str(target)))
    second = series_of(run(str(target), "--json", *ZONE, *again))
    assert second == first
    assert first["energy_wh"][5] is None


def test_standard_input_is_read() -> None:
    result = run("-", "--json", *NAMED, input=service_examples.CSV)
    assert series_of(result)["energy_wh"] == EVENING


def test_an_option_that_means_nothing_for_the_file_is_named(files: dict[str, str]) -> None:
    answer = json.loads(run(files["xml"], "--json", "--delimiter", "comma").stdout)
    (named,) = [item for item in answer["findings"] if item["rule"] == "interval-data-instructions"]
    assert (named["outcome"], named["force"]) == ("fail", "recommendation")
    assert "delimiter" in named["message"]


@pytest.mark.parametrize(
    ("content", "options", "words"),
    [
        (b"Start,kWh\n\xff", (), "cannot be read"),
        (b"<feed>", (), "cannot be read"),
        (b'<!DOCTYPE a [<!ENTITY b "c">]><feed>&b;</feed>', (), "cannot be read"),
        (b'{"series": NaN}', (), "cannot be read"),
        (b"{}", (), "/series"),
        (b"Start,kWh", ("--unit", "horses"), "Allowed: energy-wh"),
        (b"Start,kWh", ("--interval-minutes", "quarter"), "/interval_minutes"),
        (b"Start,kWh", ("--has-generation", "yes"), "/has_generation"),
        (b"Start,kWh", ("--measured-with-generation", "perhaps"), "/measured-with-generation"),
        (b"Start,kWh", ("--write-csv", "out"), "There is no series to write"),
    ],
)
def test_what_cannot_be_answered_is_said(
    tmp_path: Path, content: bytes, options: tuple[str, ...], words: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "meter").write_bytes(content)
    result = run("meter", *options)
    assert result.exit_code == 2
    assert words in result.output
    assert "Traceback" not in result.output
    assert [file.name for file in tmp_path.iterdir()] == ["meter"]


def test_a_file_that_is_missing_too_long_or_not_to_be_written(files: dict[str, str], tmp_path: Path) -> None:
    assert "cannot be read" in run(str(tmp_path / "nothing")).output
    long = tmp_path / "long"
    with long.open("wb") as opened:
        opened.truncate(10**9)
    result = run(str(long))
    assert result.exit_code == 2
    assert "is longer than 33554432 bytes" in result.output
    refused = run(files["xml"], "--write-csv", str(tmp_path))
    assert refused.exit_code == 2
    assert "cannot be written" in refused.output
