"""What of the container can be checked without building it: its health check, its pins, what it copies."""

import json
import re
import shlex
import socket
import subprocess
import sys
import tomllib

import pytest
from tests.docs.conftest import ROOT, clean_environment

DOCKERFILE = (ROOT / "docker" / "Dockerfile").read_text("utf-8").replace("\\\n", " ")
PINS = [ROOT / "docker" / "constraints.txt", ROOT / "docker" / "build-constraints.txt"]


def instructions(name: str) -> list[str]:
    return re.findall(rf"^{name} (.+)$", DOCKERFILE, re.MULTILINE)


def health_check(port: int) -> int:
    (instruction,) = instructions("HEALTHCHECK")
    program, *arguments = json.loads(instruction[instruction.index("CMD") + 3 :])
    assert program == "python"
    environment = {**clean_environment(), "BRANCHWRIGHT_PORT": str(port)}
    return subprocess.run(
        [sys.executable, *arguments], check=False, capture_output=True, env=environment
    ).returncode


def test_the_health_check_finds_a_service_healthy(service: str) -> None:
    assert health_check(int(service.rpartition(":")[2])) == 0


def test_the_health_check_finds_silence_unhealthy() -> None:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        assert health_check(probe.getsockname()[1]) == 1


def test_the_image_does_not_run_as_root() -> None:
    assert instructions("USER") == ["10001"]


def test_whatever_is_copied_is_there_and_sent_to_the_builder() -> None:
    sent = (ROOT / ".dockerignore").read_text("utf-8").splitlines()
    for instruction in instructions("COPY"):
        *sources, _ = shlex.split(instruction)
        if not sources[0].startswith("--from"):
            for source in sources:
                assert (ROOT / source).exists(), source
                assert f"!{source}" in sent, source


def test_every_dependency_is_pinned() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))
    wanted = {
        "constraints.txt": project["project"]["dependencies"],
        "build-constraints.txt": project["build-system"]["requires"],
    }
    for file in PINS:
        pinned = set(re.findall(r"^([a-z0-9-]+)==\S+", file.read_text("utf-8"), re.MULTILINE))
        for requirement in wanted[file.name]:
            name = re.match(r"[A-Za-z0-9-]+", requirement)
            assert name is not None
            assert name.group().lower() in pinned, requirement


@pytest.mark.parametrize("file", [*PINS, ROOT / "docker" / "Dockerfile"], ids=lambda file: file.name)
def test_no_registry_is_named(file) -> None:
    text = file.read_text("utf-8").replace("'http://127.0.0.1:'", "")
    assert "://" not in text
    assert "--index" not in text
