"""The published sources that the tests hold the numbers against, read from the tests themselves.

A check names its source in `pytest.mark.source("...")`, on the test or on one of its parameters, or as
`source = "..."` in a situation under `tests/situations`.
"""

import ast
import tomllib
from collections import Counter, defaultdict
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from page_parts.markdown import blocks, long_code, table, words

TESTS = Path(__file__).parents[2] / "tests"
UNSOURCED = "no source"
TITLES = {"http_api": "HTTP interface", "sdk": "SDK", "docs": "Documentation"}
"""What the folders of the tests are called here, where their capitalised name does not do."""


@dataclass(frozen=True)
class Check:
    """One test or one case of it: the source it names and the file it is in, below `tests`."""

    source: str
    file: str


class UnreadableSource(ValueError):
    """A source that is not written as plain text, so that no reader could look it up."""


def sourced() -> str:
    """Return the checks that rest on something published, grouped by what they check."""
    return _grouped(check for check in every_check() if UNSOURCED not in check.source)


def unsourced() -> str:
    """Return the checks that rest on common practice alone."""
    return _grouped(check for check in every_check() if UNSOURCED in check.source)


def summary() -> str:
    """Return how many checks name a source, and how many only common practice."""
    checks = every_check()
    without = sum(UNSOURCED in check.source for check in checks)
    different = len({check.source for check in checks if UNSOURCED not in check.source})
    return (
        f"{len(checks)} checks name where their expected values come from: {len(checks) - without} rest on "
        f"{different} different published sources, {without} on common practice alone. A test with several "
        f"cases and one mark counts once."
    )


def every_check() -> list[Check]:
    """Return every check that names a source, in the order of the files."""
    found: list[Check] = []
    for file in sorted(TESTS.rglob("*.py")):
        name = file.relative_to(TESTS).as_posix()
        found += [Check(text, name) for text in _marks(ast.parse(file.read_text("utf-8")), name)]
    for file in sorted((TESTS / "situations").rglob("*.toml")):
        name = file.relative_to(TESTS).as_posix()
        found += [Check(text, name) for text in _written(tomllib.loads(file.read_text("utf-8")))]
    return found


def _marks(tree: ast.Module, file: str) -> Iterator[str]:
    """Return the text of every `pytest.mark.source(...)` of a file that stands for a check."""
    constants = {
        target.id: node.value
        for node in tree.body
        if isinstance(node, ast.Assign)
        for target in node.targets
        if isinstance(target, ast.Name)
    }
    for node in ast.walk(tree):
        if isinstance(node, ast.Call) and ast.unparse(node.func).endswith("mark.source"):
            argument = node.args[0]
            text = _text(argument, constants)
            if text is not None:
                yield " ".join(text.split())
            elif "source" not in ast.unparse(argument):
                raise UnreadableSource(
                    f"tests/{file}, line {node.lineno}: {ast.unparse(argument)} is no text."
                )
            # What remains is handed on from the `source` of a situation's file, which is read below.


def _text(node: ast.expr, constants: dict[str, ast.expr]) -> str | None:
    """Return a text, one that has a name in its file, two of them joined, or one with texts put into it by
    `format`; None for anything else.
    """
    if isinstance(node, ast.Constant) and isinstance(node.value, str):
        return node.value
    if isinstance(node, ast.Name) and node.id in constants:
        return _text(constants[node.id], constants)
    if isinstance(node, ast.BinOp) and isinstance(node.op, ast.Add):
        left, right = _text(node.left, constants), _text(node.right, constants)
        return None if left is None or right is None else left + right
    if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute) and node.func.attr == "format":
        pattern = _text(node.func.value, constants)
        put_in = [text for text in (_text(argument, constants) for argument in node.args) if text is not None]
        return None if pattern is None or len(put_in) < len(node.args) else pattern.format(*put_in)
    return None


def _written(data: Any) -> Iterator[str]:
    """Return every `source` of a situation's file, at whatever depth."""
    if isinstance(data, dict):
        for name, value in data.items():
            if name == "source" and isinstance(value, str):
                yield " ".join(value.split())
            else:
                yield from _written(value)
    elif isinstance(data, list):
        for value in data:
            yield from _written(value)


def _grouped(checks: Iterator[Check]) -> str:
    folders: dict[str, Counter[str]] = defaultdict(Counter)
    files: dict[tuple[str, str], set[str]] = defaultdict(set)
    for check in checks:
        folder, _, rest = check.file.partition("/")
        folders[folder][check.source] += 1
        files[folder, check.source].add(rest)
    return (
        blocks(
            *[
                blocks(
                    f"### {TITLES.get(folder, folder.capitalize())}",
                    table(
                        ("source", "checks", "where"),
                        [
                            (
                                words(source),
                                str(count),
                                ", ".join(long_code(name) for name in sorted(files[folder, source])),
                            )
                            for source, count in sorted(counts.items())
                        ],
                    ),
                )
                for folder, counts in sorted(folders.items())
            ]
        )
        or "None."
    )
