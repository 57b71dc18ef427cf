"""The built site, the pages' own examples, and a service on a free port for those that ask one."""

import importlib
import os
import re
import subprocess
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest

ROOT = Path(__file__).parents[2]
PAGES = ROOT / "docs" / "pages"
FENCE = re.compile(r'^```(\w+)(?: title="([^"]*)")?\n(.*?)^```$', re.MULTILINE | re.DOTALL)

PICTURES = {
    "ampacities": "pictures",
    "staircase": "pictures",
    "temperatures": "pictures",
    "load_methods": "guides/load-calculations",
    "hidden_peak": "guides/interval-data",
    "worst_day": "guides/managed-charging",
    "nights_met": "guides/managed-charging",
    "price_heat": "guides/tariffs",
    "bills": "guides/charging-costs",
    "pay_back": "guides/charging-costs",
    "estimate_spread": "guides/installation-estimates",
}
"""The pictures, and the pages that show them."""


@dataclass(frozen=True)
class Example:
    """A block of code on a page: its language, its title, its text."""

    language: str
    title: str
    text: str


def examples(page: str) -> list[Example]:
    """Return the blocks of code of a page in their order."""
    return [Example(*found) for found in FENCE.findall((PAGES / page).read_text("utf-8"))]


def clean_environment() -> dict[str, str]:
    """Return the environment without settings of the service or the SDK."""
    return {name: value for name, value in os.environ.items() if not name.startswith("BRANCHWRIGHT_")}


@pytest.fixture(scope="session")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The site as built; a warning of the builder fails it."""
    folder = tmp_path_factory.mktemp("site")
    command = [sys.executable, "-m", "mkdocs", "build", "--strict", "--quiet"]
    built = subprocess.run(
        [*command, "-f", str(ROOT / "docs" / "mkdocs.yml"), "-d", str(folder)],
        capture_output=True,
        text=True,
        check=False,
        env=clean_environment(),
    )
    assert built.returncode == 0, built.stdout + built.stderr
    return folder


@pytest.fixture(scope="session")
def pictures() -> Iterator[Any]:
    """The modules that draw the pictures, which the site's builder finds beside its own file."""
    sys.path.insert(0, str(ROOT / "docs"))
    try:
        yield {name: importlib.import_module(f"page_parts.pictures.{name}") for name in PICTURES}
    finally:
        sys.path.remove(str(ROOT / "docs"))


@pytest.fixture(scope="session")
def service() -> Iterator[str]:
    """The address of a service, started as the start page does, but for the port."""
    command = [sys.executable, "-m", "branchwright.cli", "serve", "--port", "0"]
    with subprocess.Popen(command, stderr=subprocess.PIPE, text=True, env=clean_environment()) as process:
        try:
            assert process.stderr is not None
            lines: list[str] = []
            for line in process.stderr:
                lines.append(line)
                found = re.search(r"running on (http://[\d.:]+)", line)
                if found:
                    yield found[1]
                    break
            else:
                pytest.fail("".join(lines))
        finally:
            process.terminate()
            # What it logs while it stops is read, so that nothing is written to a closed pipe.
            process.communicate(timeout=30)
