"""Every example of the pages is run, or held against what the engine really answers."""

import json
from pathlib import Path
from typing import Any

import pytest
from tests.checks.circuits import designed
from tests.docs.conftest import PAGES, ROOT, examples
from tests.docs.reader import Reader, contained

FOLLOWED = [
    "start.md",
    "sdk.md",
    *(f"guides/{file.name}" for file in sorted((PAGES / "guides").glob("*.md"))),
]
COMPARED = "answers.md"
START = examples("start.md")


def circuit() -> dict[str, Any]:
    """The request of the start page, with its circuit.json."""
    (found,) = [example.text for example in START if example.title == "circuit.json"]
    return dict(json.loads(found))


@pytest.mark.parametrize("page", FOLLOWED)
def test_a_page_holds_from_top_to_bottom(page: str, service: str, tmp_path: Path) -> None:
    """Each block is dealt with by what it is, in order; what a program prints is what is shown after it."""
    reader = Reader(service, tmp_path)
    for example in examples(page):
        reader.follow(example)


def test_every_program_shows_what_it_prints() -> None:
    for page in FOLLOWED:
        languages = [example.language for example in examples(page)]
        for place, language in enumerate(languages):
            assert language != "python" or languages[place + 1 : place + 2] == ["text"], page


def test_the_start_page_begins_inside_the_program_and_ends_at_the_service() -> None:
    programs = [example.text for example in START if example.language == "python"]
    assert "Client.embedded()" in programs[0]
    assert 'Client("http://127.0.0.1:8000")' in programs[-1]
    installing = next(example.text for example in START if example.language == "console")
    assert "pip install . ./sdk\n" in installing


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


def test_no_other_page_has_examples() -> None:
    """An example on a further page needs a test here."""
    for file in PAGES.rglob("*.md"):
        name = file.relative_to(PAGES).as_posix()
        # A report shows the command that wrote it, and mutants; neither is for a reader to run.
        if not name.startswith("reports/"):
            assert name in (*FOLLOWED, COMPARED) or not examples(name), name
