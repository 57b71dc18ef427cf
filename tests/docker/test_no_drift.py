"""The image, the compose file and the manifests agree with each other and with the service's settings."""

import asyncio
import re
import tomllib
from typing import Any

import httpx
import pytest
from tests.docker.conftest import DOCKER, HASH, ROOT, Dockerfile, manifests

from branchwright.http_api.app import create_app
from branchwright.http_api.serve import UnsafeAddressError, require_safe_address
from branchwright.http_api.settings import PREFIX, Settings, load

# Between the end of the drain and the moment when whoever stops the container kills it.
LEAST_MARGIN_S = 5


def seconds(duration: str) -> int:
    """Compose and Docker write durations as 40s."""
    found = re.fullmatch(r"(\d+)s", duration)
    assert found, duration
    return int(found[1])


def test_every_variable_is_a_setting(
    dockerfile: Dockerfile, compose: dict[str, Any], variables: dict[str, str]
) -> None:
    known = {PREFIX + name.upper() for name in Settings.model_fields}
    image = {name for name in dockerfile.environment() if name.startswith(PREFIX)}
    for names in (image, compose["environment"], variables):
        assert set(names) <= known


def test_the_port_is_the_same_everywhere(
    dockerfile: Dockerfile, compose: dict[str, Any], container: dict[str, Any], variables: dict[str, str]
) -> None:
    found = manifests()
    port = dockerfile.environment()["BRANCHWRIGHT_PORT"]
    assert dockerfile.one("EXPOSE") == port
    assert compose["ports"][0].rpartition(":")[2] == port
    assert compose["environment"].get("BRANCHWRIGHT_PORT", port) == port
    assert variables["BRANCHWRIGHT_PORT"] == port
    (named,) = container["ports"]
    assert str(named["containerPort"]) == port
    asked = [
        *(
            container[probe]["httpGet"]["port"]
            for probe in ("startupProbe", "livenessProbe", "readinessProbe")
        ),
        found["service.yaml"]["spec"]["ports"][0]["targetPort"],
        found["network-policy.yaml"]["spec"]["ingress"][0]["ports"][0]["port"],
    ]
    assert asked == [named["name"]] * 5


def test_the_user_is_the_same_everywhere(
    dockerfile: Dockerfile, compose: dict[str, Any], pod: dict[str, Any]
) -> None:
    user = dockerfile.one("USER")
    assert f"useradd --uid {user} " in dockerfile.text
    assert compose["user"].partition(":")[0] == user
    assert str(pod["securityContext"]["runAsUser"]) == user
    assert str(pod["securityContext"]["runAsGroup"]) == compose["user"].partition(":")[2]


def test_everyone_waits_longer_than_the_service_drains(
    dockerfile: Dockerfile,
    compose: dict[str, Any],
    pod: dict[str, Any],
    container: dict[str, Any],
    variables: dict[str, str],
) -> None:
    assert dockerfile.one("STOPSIGNAL") == "SIGTERM"
    default = Settings.model_fields["drain_seconds"].default
    drain = int(compose["environment"]["BRANCHWRIGHT_DRAIN_SECONDS"])
    assert seconds(compose["stop_grace_period"]) >= drain + LEAST_MARGIN_S
    asleep = container["lifecycle"]["preStop"]["sleep"]["seconds"]
    drain = int(variables["BRANCHWRIGHT_DRAIN_SECONDS"])
    assert pod["terminationGracePeriodSeconds"] >= asleep + drain + LEAST_MARGIN_S
    timeouts = re.findall(r"--stop-timeout (\d+)", (DOCKER / "README.md").read_text("utf-8"))
    assert timeouts
    assert min(map(int, timeouts)) >= default + LEAST_MARGIN_S


def test_compose_checks_health_as_the_image_does(dockerfile: Dockerfile, compose: dict[str, Any]) -> None:
    command, options = dockerfile.health_check()
    check = compose["healthcheck"]
    assert check["test"] == ["CMD", *command]
    assert {name.replace("_", "-"): str(value) for name, value in check.items() if name != "test"} == options


def test_what_must_be_written_to_is_the_same_place(
    compose: dict[str, Any], container: dict[str, Any]
) -> None:
    (mount,) = container["volumeMounts"]
    assert compose["tmpfs"][0].partition(":")[0] == mount["mountPath"]


def test_the_image_is_the_same(
    compose: dict[str, Any], container: dict[str, Any], kustomization: Any
) -> None:
    (image,) = kustomization["images"]
    assert compose["image"] == container["image"] == image["name"]
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
    assert image["newTag"] == project["version"]


def use_only(monkeypatch: pytest.MonkeyPatch, variables: dict[str, str]) -> Settings:
    """The settings from these variables alone."""
    for name in Settings.model_fields:
        monkeypatch.delenv(PREFIX + name.upper(), raising=False)
    for name, value in variables.items():
        monkeypatch.setenv(name, value)
    return load()


def test_the_service_takes_the_settings_of_the_manifests_and_answers_its_probes(
    monkeypatch: pytest.MonkeyPatch, container: dict[str, Any], variables: dict[str, str]
) -> None:
    settings = use_only(monkeypatch, variables)
    require_safe_address(settings)
    transport = httpx.ASGITransport(create_app(settings))

    async def probe(path: str) -> int:
        # The kubelet asks the address of the pod and has no key.
        async with httpx.AsyncClient(transport=transport, base_url="http://10.244.1.7:8000") as client:
            return (await client.get(path)).status_code

    for name in ("startupProbe", "livenessProbe", "readinessProbe"):
        assert asyncio.run(probe(container[name]["httpGet"]["path"])) == 200, name


def test_a_pod_that_drains_gets_no_requests_but_is_not_restarted(container: dict[str, Any]) -> None:
    app = create_app(Settings(api_key_hashes=(HASH,)))
    app.state.draining = True
    transport = httpx.ASGITransport(app)

    async def status(probe: str) -> int:
        async with httpx.AsyncClient(transport=transport, base_url="http://10.244.1.7:8000") as client:
            return (await client.get(container[probe]["httpGet"]["path"])).status_code

    assert asyncio.run(status("livenessProbe")) == 200
    assert asyncio.run(status("readinessProbe")) == 503


def test_the_service_takes_the_settings_of_the_compose_file(
    monkeypatch: pytest.MonkeyPatch, dockerfile: Dockerfile, compose: dict[str, Any]
) -> None:
    image = {name: value for name, value in dockerfile.environment().items() if name.startswith(PREFIX)}
    given = {**image, **compose["environment"], "BRANCHWRIGHT_API_KEY_HASHES": HASH}
    settings = use_only(monkeypatch, given)
    require_safe_address(settings)
    assert settings.workers == int(compose["environment"]["BRANCHWRIGHT_WORKERS"])
    with pytest.raises(UnsafeAddressError):
        require_safe_address(settings.model_copy(update={"api_key_hashes": ()}))
