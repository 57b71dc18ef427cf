"""Which situations and tests exercise a rule, read from their files."""

import ast
import tomllib
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

TESTS = Path(__file__).parents[2] / "tests"
FIGURES = "figures"
"""What is said to be expected where a situation states figures of a finding but no outcome."""


@dataclass(frozen=True)
class Situation:
    """What a situation expects of a rule: its title, the outcome, the source that it names."""

    title: str
    expected: str
    source: str


@cache
def situations() -> dict[str, list[Situation]]:
    """Return the situations by the rule whose finding they expect, in the order of their files."""
    found: dict[str, list[Situation]] = {}
    for file in sorted((TESTS / "situations").rglob("*.toml")):
        data = tomllib.loads(file.read_text("utf-8"))
        for rule, outcomes in _expected(data).items():
            expected = "; ".join(
                f"{outcome} ({', '.join(editions)})" if editions else outcome
                for outcome, editions in outcomes.items()
            )
            found.setdefault(rule, []).append(Situation(data["title"], expected, data["source"]))
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


def _expected(data: dict[str, Any]) -> dict[str, dict[str, list[str]]]:
    """Return what a situation expects of each rule: outcomes, with the editions where they hang on them."""
    found: dict[str, dict[str, list[str]]] = {}
    for rule, finding in data.get("expect", {}).get("findings", {}).items():
        found.setdefault(rule, {}).setdefault(finding.get("outcome", FIGURES), [])
    for edition, expect in data.get("editions", {}).items():
        for rule, finding in expect.get("findings", {}).items():
            found.setdefault(rule, {}).setdefault(finding.get("outcome", FIGURES), []).append(edition)
    return found
