"""docker/check tells what failed from what could not run. What it runs in earnest, a build, is not for a test."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from tests.docker.conftest import DOCKER

# What the script itself needs of a computer, but none of the tools that it runs.
BARE = ("bash", "cat", "dirname", "find", "mkdir", "mktemp", "rm", "sort")


@pytest.fixture
def copy(tmp_path: Path) -> Path:
    """A copy of docker/ that a test may spoil."""
    return Path(shutil.copytree(DOCKER, tmp_path / "docker"))


@pytest.fixture
def bare(tmp_path: Path) -> str:
    """A PATH without any checking tool."""
    folder = tmp_path / "bin"
    folder.mkdir()
    for name in BARE:
        found = shutil.which(name)
        assert found, name
        (folder / name).symlink_to(found)
    return str(folder)


def check(folder: Path, *parts: str, path: str | None = None) -> tuple[int, list[str]]:
    """The exit status, and the lines about the parts."""
    here = f"{Path(sys.executable).parent}{os.pathsep}{os.environ['PATH']}"
    ran = subprocess.run(
        ["bash", folder / "check", *parts],
        env={**os.environ, "PATH": path or here},
        capture_output=True,
        text=True,
        check=False,
    )
    return ran.returncode, ran.stdout.rpartition("---\n")[2].splitlines()


def test_what_needs_no_engine_passes() -> None:
    parts = ["lint", "compose", "manifests"]
    assert check(DOCKER, *parts) == (0, [f"{part}: passed" for part in parts])


def test_a_missing_tool_is_no_failure_and_no_pass(copy: Path, bare: str) -> None:
    status, lines = check(copy, "lint", "image", path=bare)
    assert status == 3
    assert lines == [
        "lint: not run, because hadolint is not installed",
        "image: not run, because buildah is not installed",
    ]


@pytest.mark.parametrize(
    ("part", "file", "good", "bad"),
    [
        ("lint", "Dockerfile", "FROM python:3.11-slim AS build", "FROM python:latest AS build"),
        ("compose", "compose.yaml", "read_only: true", "read_only: [maybe]"),
        ("manifests", "kubernetes/deployment.yaml", "maxUnavailable:", "maxUnavailible:"),
    ],
)
def test_a_fault_is_a_failure(copy: Path, part: str, file: str, good: str, bad: str) -> None:
    text = (copy / file).read_text("utf-8")
    assert good in text
    (copy / file).write_text(text.replace(good, bad), "utf-8")
    status, lines = check(copy, part)
    assert (status, lines) == (1, [f"{part}: FAILED"])


def test_a_failure_outweighs_what_could_not_run(copy: Path, bare: str, tmp_path: Path) -> None:
    program = tmp_path / "bin" / "hadolint"
    program.write_text(f"#!{shutil.which('bash')}\nexit 1\n", "utf-8")
    program.chmod(0o755)
    for parts in (["lint", "compose"], ["compose", "lint"]):
        assert check(copy, *parts, path=bare)[0] == 1


def test_there_are_only_these_parts(copy: Path) -> None:
    assert check(copy, "lint", "everything") == (2, [])
