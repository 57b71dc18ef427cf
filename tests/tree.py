"""The tree that a report is about."""

import subprocess
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]


def revision() -> str:
    """The revision of the tree, marked where it was changed since."""
    said = subprocess.run(
        ["git", "describe", "--always", "--dirty=, with changes"],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=True,
    )
    return said.stdout.strip()
