"""Which situations and tests exercise a rule, read from their files."""

import ast
import tomllib
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

TESTS = Path(__file__).parents[2] / "tests"


@dataclass(frozen=True)
class Situation:
    """What a situation expects of a rule: its title, the outcome, the source it names, its file."""

    title: str
    outcome: str
    source: str
    file: str


@cache
def situations() -> dict[str, list[Situation]]:
    """Return the situations by the rule whose finding they expect, in the order of their files."""
    found: dict[str, list[Situation]] = {}
    for file in sorted((TESTS / "situations").rglob("*.toml")):
        data = tomllib.loads(file.read_text("utf-8"))
        for rule, outcome in _expected(data):
            situation = Situation(data["title"], outcome, data["source"], file.name)
            if situation not in found.setdefault(rule, []):
                found[rule].append(situation)
    return found


@cache
def tests() -> dict[str, list[str]]:
    """Return the tests of the checks by what they write as a text of its own, such as a rule's name: `file: test`."""
    found: dict[str, list[str]] = {}
    for file in sorted((TESTS / "checks").rglob("test_*.py")):
        name = file.relative_to(TESTS).as_posix()
        for node in ast.parse(file.read_text("utf-8")).body:
            if isinstance(node, ast.FunctionDef) and node.name.startswith("test_"):
                for text in sorted({part.value for part in ast.walk(node) if _is_text(part)}):
                    found.setdefault(text, []).append(f"{name}: {node.name}")
    return found


def _is_text(node: ast.AST) -> bool:
    return isinstance(node, ast.Constant) and isinstance(node.value, str)


def _expected(data: Any) -> Iterator[tuple[str, str]]:
    """Return each rule that a situation expects a finding of, with the outcome, at whatever depth it stands."""
    if isinstance(data, dict):
        for name, value in data.items():
            if name == "findings" and isinstance(value, dict):
                for rule, finding in value.items():
                    yield rule, finding.get("outcome", "") if isinstance(finding, dict) else ""
            else:
                yield from _expected(value)
    elif isinstance(data, list):
        for value in data:
            yield from _expected(value)
