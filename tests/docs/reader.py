"""Runs the examples of a page from top to bottom, as a reader would who types what stands there."""

import json
import shlex
import subprocess
import sys
from pathlib import Path
from typing import Any

import httpx
from tests.docs.conftest import Example, clean_environment

ADDRESS = "http://127.0.0.1:8000"
DONE_BY_THE_TESTS = (
    # The test's own interpreter has both packages; the service of the tests takes a free port.
    "$ python -m venv .venv\n$ . .venv/bin/activate\n$ pip install . ./sdk\n",
    "$ branchwright serve --port 8000\n",
)

NOTHING = ()
KEPT = {"json": ".json", "csv": ".csv", "xml": ".xml"}
"""What the reader saves, by its language: a block whose title is the name of such a file."""


class Reader:
    """Follows a page: keeps what it is told to save, asks what it is told to ask, and compares what it is shown."""

    def __init__(self, service: str, folder: Path) -> None:
        """Take the address of a running service and an empty folder to work in."""
        self.service = service
        self.folder = folder
        self._answer: httpx.Response | None = None
        self._output: str | None = None

    def follow(self, example: Example) -> None:
        """Do what a block of code says, or compare what it shows; a block of no known kind fails."""
        text = example.text
        if example.title.endswith(KEPT.get(example.language, NOTHING)):
            (self.folder / example.title).write_text(text, "utf-8")
        elif example.language == "json" and example.title == "part of the answer":
            self._compare(json.loads(text), refused=False)
        elif example.language == "json" and example.title == "part of the problem":
            self._compare(json.loads(text), refused=True)
        elif example.language == "python":
            self._output = run_python(text, self.service, self.folder)
        elif example.language == "text":
            assert self._output == text
        elif example.language == "console" and text.startswith("$ branchwright check"):
            command, *expected = text.splitlines()
            assert printed_as(expected, run_branchwright(command.removeprefix("$ "), self.folder))
        elif example.language == "console" and text.startswith("$ curl"):
            self._answer = ask_as_curl(text.removeprefix("$ "), self.service, self.folder)
        else:
            assert text in DONE_BY_THE_TESTS, text

    def _compare(self, shown: Any, *, refused: bool) -> None:
        assert self._answer is not None
        assert self._answer.is_client_error is refused, self._answer.text
        assert contained(shown, self._answer.json()), self._answer.text


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


def ask_as_curl(command: str, service: str, folder: Path) -> httpx.Response:
    """Ask what a curl command asks; it knows only the options that the pages use."""
    program, *arguments = shlex.split(command)
    assert program == "curl"
    (url,) = [argument for argument in arguments if argument.startswith(ADDRESS)]
    arguments.remove(url)
    assert arguments[0] == "-s"
    options = dict(zip(arguments[1::2], arguments[2::2], strict=True))
    headers = dict([options.pop("-H").split(": ", 1)]) if "-H" in options else {}
    data = options.pop("--data", options.pop("--data-binary", None))
    assert not options
    if data is None:
        return httpx.get(url.replace(ADDRESS, service), headers=headers)
    assert data.startswith("@")
    body = (folder / data[1:]).read_bytes()
    return httpx.post(url.replace(ADDRESS, service), content=body, headers=headers)


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
