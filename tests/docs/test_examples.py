"""Every example of the pages is run, or held against what the engine really answers."""

import json
import re
import shlex
import subprocess
import sys
from pathlib import Path
from typing import Any

import httpx
import pytest
from tests.checks.circuits import designed
from tests.checks.replay import evaluate, replay
from tests.docs.conftest import PAGES, ROOT, clean_environment, examples

ADDRESS = "http://127.0.0.1:8000"
START = examples("start.md")
INSTALL = "$ python -m venv .venv\n$ . .venv/bin/activate\n$ pip install . ./sdk\n"
SERVE = "$ branchwright serve --port 8000\n"


def circuit() -> dict[str, Any]:
    """The request of the start page, with its circuit.json."""
    (found,) = [example.text for example in START if example.title == "circuit.json"]
    return dict(json.loads(found))


def contained(shown: Any, real: Any) -> bool:
    """Whether all that is shown is in the real answer; "..." stands for any text, a list shows some entries."""
    if isinstance(shown, dict):
        return isinstance(real, dict) and all(
            name in real and contained(value, real[name]) for name, value in shown.items()
        )
    if isinstance(shown, list):
        return isinstance(real, list) and all(
            any(contained(entry, candidate) for candidate in real) for entry in shown
        )
    if shown == "...":
        return isinstance(real, str) and real != ""
    return type(shown) is type(real) and bool(shown == real)


def printed_as(expected: list[str], lines: list[str]) -> bool:
    """Whether lines begin as expected, one after the other; a line "..." stands for any number of them."""
    if not expected:
        return not lines
    if expected[0] == "...":
        return any(printed_as(expected[1:], lines[start:]) for start in range(len(lines) + 1))
    return bool(lines) and lines[0].startswith(expected[0]) and printed_as(expected[1:], lines[1:])


def run_branchwright(command: str, folder: Path) -> list[str]:
    program, *arguments = shlex.split(command)
    assert program == "branchwright"
    ran = subprocess.run(
        [sys.executable, "-m", "branchwright.cli", *arguments],
        capture_output=True,
        text=True,
        check=True,
        cwd=folder,
        env={**clean_environment(), "COLUMNS": "100"},
    )
    return ran.stdout.splitlines()


def ask_as_curl(command: str, service: str, folder: Path) -> Any:
    """Ask what a curl command asks; it knows only the options that the pages use."""
    program, *arguments = shlex.split(command)
    assert program == "curl"
    (url,) = [argument for argument in arguments if argument.startswith(ADDRESS)]
    arguments.remove(url)
    assert arguments[0] == "-s"
    options = dict(zip(arguments[1::2], arguments[2::2], strict=True))
    name, _, value = options.pop("-H").partition(": ")
    data = options.pop("--data")
    assert not options
    assert data.startswith("@")
    body = (folder / data[1:]).read_bytes()
    response = httpx.post(url.replace(ADDRESS, service), content=body, headers={name: value})
    assert response.status_code == 200, response.text
    return response.json()


def run_python(text: str, service: str, folder: Path) -> str:
    ran = subprocess.run(
        [sys.executable, "-W", "error", "-c", text.replace(ADDRESS, service)],
        capture_output=True,
        text=True,
        check=False,
        cwd=folder,
        env=clean_environment(),
    )
    assert ran.returncode == 0, ran.stderr
    return ran.stdout


def test_the_start_page_holds_from_top_to_bottom(service: str, tmp_path: Path) -> None:
    """Each block is dealt with by what it is, in order; a block that is of no known kind fails."""
    answer: Any = None
    output = ""
    done: list[str] = []
    for example in START:
        text = example.text
        if example.title == "circuit.json":
            (tmp_path / "circuit.json").write_text(text, "utf-8")
        elif example.language == "console" and text.startswith("$ branchwright check"):
            command, *expected = text.splitlines()
            assert printed_as(expected, run_branchwright(command.removeprefix("$ "), tmp_path))
        elif example.language == "console" and text.startswith("$ curl"):
            answer = ask_as_curl(text.removeprefix("$ "), service, tmp_path)
        elif example.language == "console":
            # The test's own interpreter has both packages; the service of the tests takes a free port.
            assert text in (INSTALL, SERVE)
        elif example.title == "part of the answer":
            assert contained(json.loads(text), answer)
        elif example.language == "python":
            output = run_python(text, service, tmp_path)
        elif example.language == "text":
            assert output == text
        else:
            assert example.title == "part of the problem"
            review = {**circuit(), "installed": {"ungrounded_size": "6awg"}}
            refused = httpx.post(f"{service}/v1/circuit-reviews", json=review)
            assert contained(json.loads(text), refused.json())
        done.append(example.language)
    assert done.count("console") == 4
    assert {"python", "text", "json"} <= set(done)


def test_the_paths_that_are_installed_are_packages() -> None:
    for folder in (ROOT, ROOT / "sdk"):
        assert (folder / "pyproject.toml").is_file()


def test_the_answers_page_shows_parts_of_the_real_answer() -> None:
    answer = designed(circuit())
    shown = examples("answers.md")
    assert len(shown) == 5
    for example in shown:
        assert (example.language, example.title) == ("json", "part of the answer")
        assert contained(json.loads(example.text), answer), example.text


def test_the_answers_page_is_right_where_it_says_all() -> None:
    answer = designed(circuit())
    (interpretations,) = [
        json.loads(example.text)["interpretations"]
        for example in examples("answers.md")
        if "interpretations" in example.text
    ]
    assert answer["interpretations"] == interpretations


BY_HAND = re.findall(
    r"^\| `([a-z0-9-]+)` \| `(.+) = (\S+(?: AWG)?)` \| (\S+) \|$",
    (PAGES / "answers.md").read_text("utf-8"),
    re.MULTILINE,
)


def test_the_worked_example_covers_the_whole_circuit() -> None:
    assert len(BY_HAND) == 22
    answer = designed(circuit())
    replay(answer, circuit())


@pytest.mark.parametrize(
    ("step_id", "expression", "result", "unit"), BY_HAND, ids=[row[0] for row in BY_HAND]
)
def test_the_worked_example_is_right(step_id: str, expression: str, result: str, unit: str) -> None:
    """Each line comes to what it says by an evaluator that shares no code with the service, and is the step's."""
    answer = designed(circuit())
    (step,) = [step for step in answer["steps"] if step["id"] == step_id]
    inputs = {name: item["value"] for name, item in step["inputs"].items()}
    value = evaluate(expression, inputs, answer["edition"])
    assert step["unit"] == unit
    if isinstance(value, str):
        assert value == result == step["value"]
        return
    half_of_the_last_digit = 0.5 * 10.0 ** -len(result.partition(".")[2]) + 1e-9
    assert value == pytest.approx(float(result), abs=half_of_the_last_digit)
    assert step["value"] == pytest.approx(float(result), abs=half_of_the_last_digit)
    if "lookup" not in expression:
        # The numbers put in are those of the step, rounded as the lines above give them.
        written = {float(number) for number in re.findall(r"\d+(?:\.\d+)?", expression)}
        for number in inputs.values():
            assert any(number == pytest.approx(candidate, rel=1e-3) for candidate in written), number


def test_the_sdk_page_runs_as_shown(service: str, tmp_path: Path) -> None:
    shown = examples("sdk.md")
    assert [example.language for example in shown] == ["python", "text", "python", "text"]
    for program, output in zip(shown[::2], shown[1::2], strict=True):
        assert run_python(program.text, service, tmp_path) == output.text


def test_no_other_page_has_examples() -> None:
    """An example on a further page needs a test here."""
    with_tests = {"start.md", "answers.md", "sdk.md"}
    for file in PAGES.rglob("*.md"):
        name = file.relative_to(PAGES).as_posix()
        assert name in with_tests or not examples(name), name
