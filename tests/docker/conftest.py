"""What the files of docker/ say, read once: the Dockerfile, the compose file, the manifests."""

import json
import re
from pathlib import Path
from typing import Any

import pytest
import yaml

ROOT = Path(__file__).parents[2]
DOCKER = ROOT / "docker"
KUBERNETES = DOCKER / "kubernetes"
HASH = "0" * 64


class Dockerfile:
    """The instructions of docker/Dockerfile by name."""

    def __init__(self) -> None:
        self.text = (DOCKER / "Dockerfile").read_text("utf-8").replace("\\\n", " ")

    def all(self, name: str) -> list[str]:
        return re.findall(rf"^{name} (.+)$", self.text, re.MULTILINE)

    def one(self, name: str) -> str:
        (found,) = self.all(name)
        return found

    def environment(self) -> dict[str, str]:
        return dict(pair.split("=", 1) for line in self.all("ENV") for pair in line.split())

    def health_check(self) -> tuple[list[str], dict[str, str]]:
        """The command and the options."""
        options, _, command = self.one("HEALTHCHECK").partition(" CMD ")
        return json.loads(command), dict(re.findall(r"--([a-z-]+)=(\S+)", options))


def manifests() -> dict[str, dict[str, Any]]:
    """Every manifest by the name of its file, but for kustomization.yaml, which is none."""
    return {
        file.name: yaml.safe_load(file.read_text("utf-8"))
        for file in sorted(KUBERNETES.glob("*.yaml"))
        if file.name != "kustomization.yaml"
    }


@pytest.fixture(scope="session")
def dockerfile() -> Dockerfile:
    return Dockerfile()


@pytest.fixture(scope="session")
def compose() -> dict[str, Any]:
    """The one service of compose.yaml."""
    (service,) = yaml.safe_load((DOCKER / "compose.yaml").read_text("utf-8"))["services"].values()
    return service


@pytest.fixture(scope="session")
def kustomization() -> dict[str, Any]:
    return yaml.safe_load((KUBERNETES / "kustomization.yaml").read_text("utf-8"))


@pytest.fixture(scope="session")
def pod() -> dict[str, Any]:
    """The specification of the Deployment's pods."""
    return manifests()["deployment.yaml"]["spec"]["template"]["spec"]


@pytest.fixture(scope="session")
def container(pod: dict[str, Any]) -> dict[str, Any]:
    """The one container of a pod."""
    (container,) = pod["containers"]
    return container


@pytest.fixture(scope="session")
def variables(container: dict[str, Any]) -> dict[str, str]:
    """The environment of the pod's container, with a hash in the place of the secret."""
    return {entry["name"]: entry.get("value", HASH) for entry in container["env"]}
