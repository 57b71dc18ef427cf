"""The command line as a user meets it: output, exit status, and clear words for what cannot be answered."""

import json
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result

from branchwright.cli import main
from branchwright.cli.demonstration import JOB
from branchwright.http_api.security import hash_key
from branchwright.http_api.v1 import service_examples

REVIEW: dict[str, Any] = {
    **JOB,
    "installed": {"breaker_rating_a": 50, "ungrounded_size": "6 AWG", "grounding_size": "10 AWG"},
}


def run(*arguments: str, **options: Any) -> Result:
    return CliRunner().invoke(main, arguments, **options)


def written(tmp_path: Path, content: object) -> str:
    file = tmp_path / "request.json"
    file.write_text(content if isinstance(content, str) else json.dumps(content), "utf-8")
    return str(file)


def test_check_answers_a_design_as_tables(tmp_path: Path) -> None:
    result = run("check", written(tmp_path, JOB))
    assert result.exit_code == 0
    assert "No failure found in what was stated" in result.output
    assert "2 x 6 AWG copper" in result.output


def test_check_reviews_a_request_with_installed_and_fails(tmp_path: Path) -> None:
    result = run("check", "--json", written(tmp_path, REVIEW))
    assert result.exit_code == 1
    answer = json.loads(result.output)
    failing = {item["rule"] for item in answer["findings"] if item["outcome"] == "fail"}
    # 48 A asks for 125 percent, 60 A: 625.41.
    assert "overcurrent-continuous-load" in failing


def test_check_says_when_a_fact_is_missing(tmp_path: Path) -> None:
    unlisted = {**JOB, "breaker": {"terminals": {"temperature_rating_c": 75}}}
    result = run("check", written(tmp_path, unlisted))
    assert result.exit_code == 3
    assert "A needed fact is missing" in result.output


@pytest.mark.source(
    "NEC table 310.16 and 240.6(A): 32 A on 40 A and 8 AWG, 48 A on 60 A and 6 AWG, at 75 degC"
)
def test_check_compares_where_currents_or_a_night_are_stated(tmp_path: Path) -> None:
    # Without a nameplate each current is a charger of that rating.
    left_out = ("charging_current_a", "rated_current_a")
    charger = {name: value for name, value in JOB["charger"].items() if name not in left_out}
    request = {**JOB, "charger": charger, "currents_a": [32, 48], "night_h": 8}
    result = run("check", written(tmp_path, request), env={"COLUMNS": "100"})
    assert result.exit_code == 0
    rows = [line for line in result.output.splitlines() if line.startswith("│")]
    assert ["8 AWG" in row for row in rows] == [True, False]
    assert ["6 AWG" in row for row in rows] == [False, True]
    assert "32 A: last current before 6 AWG conductors" in result.output
    answer = json.loads(run("check", "--json", written(tmp_path, request)).output)
    assert [row["kwh_per_night"] for row in answer["rows"]] == [61.44, 92.16]


@pytest.mark.source("NEC table 310.16, notes on liquidtight raceways: interpretation liquidtight-temperature")
def test_a_comparison_says_what_its_rows_lack_and_rest_on(tmp_path: Path) -> None:
    left_out = ("charging_current_a", "rated_current_a")
    charger = {name: value for name, value in JOB["charger"].items() if name not in left_out}
    request = {**JOB, "charger": charger, "currents_a": [32, 48]}
    unlisted = {**request, "breaker": {"terminals": {"temperature_rating_c": 75}}}
    result = run("check", written(tmp_path, unlisted), env={"COLUMNS": "200"})
    assert result.exit_code == 3
    assert "32 A, 48 A: a needed fact is missing (breaker-listed-for-panel)" in result.output
    assert "/charger/terminals/temperature_rating_c: 75" in result.output
    assert "De-energize" in result.output
    # A 14-60 receptacle is not among those of the 2017 edition: 625.44 ends at 50 A.
    plugged = {**charger, "connection": {"kind": "receptacle", "configuration": "14-60"}}
    refused = {**request, "edition": "nec-2017", "charger": plugged}
    result = run("check", written(tmp_path, refused), env={"COLUMNS": "200"})
    assert result.exit_code == 1
    assert "32 A, 48 A: a requirement fails (receptacle-configuration)" in result.output
    whole = json.loads(run("check", "--json", written(tmp_path, request)).output)
    read = [(item["name"], other) for item in whole["interpretations"] for other in item["other_readings"]]
    decided = [(name, other["reading"]) for name, other in read if other["currents_a"]]
    shown = run("check", written(tmp_path, request), env={"COLUMNS": "200"}).output
    assert decided
    assert all(f"{name} is read as" in shown and reading in shown for name, reading in decided)


ASKED: dict[str, tuple[dict[str, Any], int, str]] = {
    # Verdicts by the examples' own descriptions; 4.37 + 5.24 + 4.68 kWh are the last three readings of the evening.
    "load": (service_examples.BARE, 3, "Methods side by side"),
    "capacity": (service_examples.MEASURED, 1, "Ways to fit, the cheapest first"),
    "managed capacity": (service_examples.MANAGED, 0, "counted for the control setting"),
    "study": (service_examples.ONE_VEHICLE, 0, "Nights met by control setting"),
    "readings": (service_examples.STAMPED, 3, "Measured demand"),
}


@pytest.mark.parametrize("name", ASKED)
def test_check_answers_the_questions_about_services(tmp_path: Path, name: str) -> None:
    request, status, words = ASKED[name]
    result = run("check", written(tmp_path, request), env={"COLUMNS": "200"})
    assert result.exit_code == status, result.output
    assert words in result.output
    assert "De-energize" in result.output
    answer = json.loads(run("check", "--json", written(tmp_path, request)).output)
    assert {"findings", "steps", "provenance"} <= set(answer)


def test_check_names_what_is_wrong_with_the_question_that_is_asked(tmp_path: Path) -> None:
    request = {**service_examples.MEASURED, "chargers": []}
    result = run("check", written(tmp_path, request))
    assert result.exit_code == 2
    assert "/chargers" in result.output


def test_what_is_allowed_is_said_beside_what_was_given(tmp_path: Path) -> None:
    segment = {**JOB["run"][0], "wiring_method": "rigid"}
    result = run("check", written(tmp_path, {**JOB, "run": [segment], "colour": "red"}))
    assert result.exit_code == 2
    assert "/run/0/wiring_method" in result.output
    assert "'rigid'" in result.output
    # The methods of the contract, and the fields that a design has.
    assert "Allowed: emt, imc, rmc, pvc-40" in result.output
    assert "Allowed: edition, jurisdiction, readings" in result.output


@pytest.mark.parametrize("arguments", [["check"], ["check", "--json"]])
def test_a_reader_that_stops_reading_does_not_turn_an_answer_into_a_failure(
    tmp_path: Path, arguments: list[str]
) -> None:
    # As in `branchwright check request.json | head -1`: a status of 1 would say that a requirement fails.
    command = [sys.executable, "-m", "branchwright.cli", *arguments, written(tmp_path, JOB)]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE) as process:
        assert process.stdout is not None
        assert process.stderr is not None
        process.stdout.close()
        errors = process.stderr.read()
    assert (process.returncode, errors) == (0, b"")


def test_check_reads_standard_input() -> None:
    assert run("check", "-", input=json.dumps(JOB)).exit_code == 0


@pytest.mark.parametrize(
    ("content", "words"),
    [
        ("{", "not strict JSON"),
        ('{"edition": "nec-2023", "edition": "nec-2023"}', "uplicate"),
        ("[1e999]", "64-bit"),
        ("[]", "does not fit the schema"),
        ({**JOB, "edition": "nec-1999"}, "/edition"),
        ({**JOB, "conductors": {"material": "coper"}}, "copper"),
        ({**JOB, "run": []}, "/run"),
        ({**JOB, "lenght": 3}, "lenght"),
    ],
)
def test_check_names_what_is_wrong(tmp_path: Path, content: object, words: str) -> None:
    result = run("check", written(tmp_path, content))
    assert result.exit_code == 2
    assert words in result.output
    assert "Traceback" not in result.output


def test_check_says_that_a_file_is_missing(tmp_path: Path) -> None:
    result = run("check", str(tmp_path / "nothing.json"))
    assert result.exit_code == 2
    assert "cannot be read" in result.output


def test_a_new_key_fits_the_hash_beside_it() -> None:
    result = run("keys", "create")
    lines = dict(line.split(maxsplit=1) for line in result.stdout.splitlines())
    assert hash_key(lines["key"].encode()) == lines["hash"]
    assert run("keys", "create").stdout != result.stdout


def test_openapi_prints_and_writes_the_committed_document(tmp_path: Path) -> None:
    committed = (Path(__file__).parents[2] / "openapi" / "v1.json").read_text("utf-8")
    assert run("openapi").stdout == committed
    target = tmp_path / "v1.json"
    assert run("openapi", "--write", str(target)).exit_code == 0
    assert target.read_text("utf-8") == committed


def test_serve_refuses_an_open_door() -> None:
    result = run("serve", "--host", "0.0.0.0")  # noqa: S104
    assert result.exit_code == 1
    assert "keys create" in result.output


def test_serve_names_a_setting_that_cannot_be_used(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("BRANCHWRIGHT_PORT", "many")
    result = run("serve")
    assert result.exit_code == 1
    assert "BRANCHWRIGHT_PORT" in result.output


def test_the_demo_shows_design_failure_remedy_and_comparison() -> None:
    """A real process, service and SDK: the first command of the README ends with this."""
    demo = subprocess.run(
        [sys.executable, "-m", "branchwright.cli", "demo"],
        capture_output=True,
        text=True,
        timeout=120,
        env={"COLUMNS": "160", "PATH": "", "PYTHONIOENCODING": "utf-8"},
    )
    assert demo.returncode == 0, demo.stderr
    for words in (
        "No failure found in what was stated",
        "A requirement fails",
        "Nearest remedy: Replace the ungrounded conductors by 6 AWG.",
        # 24 A are a 30 A breaker on 10 AWG, 32 A a 40 A breaker on 8 AWG; 48 A at 240 V are 11.52 kW.
        "last current before 8 AWG conductors and a 40 A breaker",
        "11.52",
        # 125 percent of 9,450 W (220.87) and of 48 A at 240 V (230.42): 26,212.5 VA, or 109.2 A at 240 V.
        "existing load and chargers come to 109 A",
        "Ways to fit, the cheapest first",
        # 125 percent of 41 A make it 100.47 A, less a fraction below a half (220.5(B)); 42 A make it 101.7 A.
        "Set every charger to 41 A",
        # The demo book's prices are invented, and the estimate says so; 38 mi x 0.31 kWh x 1.6 are 18.848 kWh.
        "invented",
        "18.85 kWh",
        "How to go on",
    ):
        assert words in demo.stdout
    assert "Traceback" not in demo.stderr
