"""The tables "by hand" of the pages: each line comes to what it says, and is a step of the answer that is shown."""

import json
import re
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

import httpx
import pytest
from tests.checks.replay import evaluate, replay
from tests.docs.conftest import PAGES, Example, examples
from tests.docs.reader import ask_as_curl

PAGES_BY_HAND = {
    "answers.md": 22,
    "guides/load-calculations.md": 25,
    "guides/interval-data.md": 5,
    "guides/capacity-reviews.md": 16,
    "guides/managed-charging.md": 7,
    "guides/tariffs.md": 5,
    "guides/charging-costs.md": 16,
    "guides/installation-estimates.md": 19,
}
"""Pages with tables, and how many lines theirs have together."""

ANSWERS_ASKS = ("start.md", "/v1/circuit-designs")
"""The page on answers shows parts of the answer to the start page's file."""


@dataclass(frozen=True)
class Line:
    """A line of a table: the step, its expression with numbers put in, what it comes to, and the unit.

    `question` is the place of the command above it among those of its page.
    """

    page: str
    question: int
    step: str
    expression: str
    result: str
    unit: str


def lines(page: str) -> list[Line]:
    parts = re.split(r"^\$ curl", (PAGES / page).read_text("utf-8"), flags=re.MULTILINE)
    return [
        Line(page, max(0, place - 1), *line)
        for place, part in enumerate(parts)
        for line in re.findall(
            r"^\| `([a-z0-9-]+)` \| `(.+) = (\S+(?: AWG)?)` \| (\S+) \|$", part, re.MULTILINE
        )
    ]


EVERY_LINE = [line for page in PAGES_BY_HAND for line in lines(page)]


def asked(page: str, question: int) -> tuple[Example, Example]:
    """The file that a question of a page sends, and the command that sends it."""
    shown = examples(page)
    command = [example for example in shown if example.text.startswith("$ curl")][question]
    name = re.search(r"@(\S+)", command.text)
    assert name is not None
    return next(example for example in shown if example.title == name[1]), command


@pytest.fixture(scope="module")
def answers(service: str, tmp_path_factory: pytest.TempPathFactory) -> Any:
    """The answer to a question of a page, and the question if it is JSON."""

    @cache
    def answered(page: str, question: int = 0) -> tuple[dict[str, Any], Any]:
        folder: Path = tmp_path_factory.mktemp("asked")
        if page == "answers.md":
            (text,) = [each.text for each in examples(ANSWERS_ASKS[0]) if each.title == "circuit.json"]
            response = httpx.post(service + ANSWERS_ASKS[1], json=json.loads(text))
            return response.json(), json.loads(text)
        file, command = asked(page, question)
        (folder / file.title).write_text(file.text, "utf-8")
        response = ask_as_curl(command.text.removeprefix("$ "), service, folder)
        return response.json(), json.loads(file.text) if file.language == "json" else None

    return answered


@pytest.mark.parametrize("page", PAGES_BY_HAND)
def test_no_line_is_lost(page: str) -> None:
    assert len(lines(page)) == PAGES_BY_HAND[page]


@pytest.mark.parametrize("page", PAGES_BY_HAND)
def test_the_whole_of_each_answer_replays(page: str, answers: Any) -> None:
    for question in sorted({line.question for line in lines(page)}):
        replay(*answers(page, question))


@pytest.mark.parametrize("line", EVERY_LINE, ids=lambda line: f"{line.page}-{line.step}")
def test_a_line_is_right(line: Line, answers: Any) -> None:
    """It comes to what it says by an evaluator that shares no code with the service, and is the step's."""
    answer, _ = answers(line.page, line.question)
    (step,) = [step for step in answer["steps"] if step["id"] == line.step]
    inputs = {name: item["value"] for name, item in step["inputs"].items()}
    value = evaluate(line.expression, inputs, answer.get("edition", ""))
    assert step["unit"] == line.unit
    if isinstance(value, str):
        assert value == line.result == step["value"]
        return
    half_of_the_last_digit = 0.5 * 10.0 ** -len(line.result.partition(".")[2]) + 1e-9
    assert value == pytest.approx(float(line.result), abs=half_of_the_last_digit)
    assert step["value"] == pytest.approx(float(line.result), abs=half_of_the_last_digit)
    if "lookup" not in line.expression:
        # The numbers put in are those of the step, rounded as the lines above give them.
        written = {float(number) for number in re.findall(r"\d+(?:\.\d+)?", line.expression)}
        for number in inputs.values():
            assert any(number == pytest.approx(candidate, rel=1e-3) for candidate in written), number
