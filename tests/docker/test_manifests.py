"""The manifests are valid, fit together, and ask for no more rights than they need."""

from typing import Any

import kubernetes_validate
import pytest
from tests.docker.conftest import manifests

from branchwright.http_api.settings import SettingsError, load

LABELS = {"app.kubernetes.io/name": "branchwright"}
# The oldest that docker/kubernetes is written for, and the newest that the validator knows.
VERSIONS = ["1.30.0", kubernetes_validate.latest_version()]


@pytest.mark.source("the OpenAPI documents of Kubernetes 1.30 and later, as JSON schemas")
@pytest.mark.parametrize("version", VERSIONS)
@pytest.mark.parametrize("name", manifests())
def test_a_manifest_is_valid(name: str, version: str) -> None:
    kubernetes_validate.validate(manifests()[name], version, strict=True)


def test_the_validator_is_strict() -> None:
    misspelt = manifests()["service.yaml"]
    misspelt["spec"]["selectors"] = misspelt["spec"].pop("selector")
    with pytest.raises(kubernetes_validate.ValidationError, match="selectors"):
        kubernetes_validate.validate(misspelt, VERSIONS[-1], strict=True)


def test_everything_but_the_example_of_a_secret_is_applied(kustomization: dict[str, Any]) -> None:
    assert sorted([*kustomization["resources"], "secret.example.yaml"]) == sorted(manifests())


def test_every_selector_finds_the_pods() -> None:
    found = manifests()
    deployment = found["deployment.yaml"]["spec"]
    assert deployment["template"]["metadata"]["labels"] == LABELS
    assert found["service.yaml"]["spec"]["selector"] == LABELS
    selectors = [
        deployment["selector"],
        found["pod-disruption-budget.yaml"]["spec"]["selector"],
        found["network-policy.yaml"]["spec"]["podSelector"],
        *(spread["labelSelector"] for spread in deployment["template"]["spec"]["topologySpreadConstraints"]),
    ]
    assert [selector["matchLabels"] for selector in selectors] == [LABELS] * 5
    scaled = found["horizontal-pod-autoscaler.yaml"]["spec"]["scaleTargetRef"]
    assert (scaled["kind"], scaled["name"]) == ("Deployment", found["deployment.yaml"]["metadata"]["name"])


def test_no_pod_is_missing_while_another_version_is_rolled_out() -> None:
    found = manifests()
    rolling = found["deployment.yaml"]["spec"]["strategy"]["rollingUpdate"]
    assert rolling["maxUnavailable"] == 0
    assert rolling["maxSurge"] >= 1
    # The autoscaler sets the number of pods; a number in the Deployment would undo that with every apply.
    assert "replicas" not in found["deployment.yaml"]["spec"]
    assert found["horizontal-pod-autoscaler.yaml"]["spec"]["minReplicas"] >= 2


@pytest.mark.source("Kubernetes, Pod Security Standards, profile Restricted")
def test_the_pods_keep_to_the_restricted_profile(pod: dict[str, Any], container: dict[str, Any]) -> None:
    assert not {"hostNetwork", "hostPID", "hostIPC"} & pod.keys()
    assert all(volume.keys() == {"name", "emptyDir"} for volume in pod["volumes"])
    assert pod["securityContext"]["runAsNonRoot"] is True
    assert pod["securityContext"]["runAsUser"] != 0
    assert pod["securityContext"]["seccompProfile"] == {"type": "RuntimeDefault"}
    assert container["securityContext"]["allowPrivilegeEscalation"] is False
    assert container["securityContext"]["capabilities"] == {"drop": ["ALL"]}
    assert "hostPort" not in container["ports"][0]


def test_the_pods_ask_for_less_than_that(pod: dict[str, Any], container: dict[str, Any]) -> None:
    assert container["securityContext"]["readOnlyRootFilesystem"] is True
    assert pod["automountServiceAccountToken"] is False
    policy = manifests()["network-policy.yaml"]["spec"]
    assert set(policy["policyTypes"]) == {"Ingress", "Egress"}
    assert policy["egress"] == []


def test_what_a_container_may_use_is_bounded(container: dict[str, Any]) -> None:
    for bound in ("requests", "limits"):
        assert container["resources"][bound].keys() == {"cpu", "memory"}


def test_the_example_of_a_secret_lets_nobody_in(monkeypatch: pytest.MonkeyPatch, pod: dict[str, Any]) -> None:
    secret = manifests()["secret.example.yaml"]
    (variable,) = [entry for entry in pod["containers"][0]["env"] if "valueFrom" in entry]
    asked = variable["valueFrom"]["secretKeyRef"]
    assert asked["name"] == secret["metadata"]["name"]
    # Not optional: without the secret no container starts.
    assert "optional" not in asked
    monkeypatch.setenv(variable["name"], secret["stringData"][asked["key"]])
    with pytest.raises(SettingsError, match=r"BRANCHWRIGHT_API_KEY_HASHES: .*hash 1 is not a SHA-256 hash"):
        load()


def test_why_the_variables_of_services_are_switched_off(
    monkeypatch: pytest.MonkeyPatch, pod: dict[str, Any]
) -> None:
    # Kubernetes describes the Service "branchwright" to the pods of its namespace by such a variable.
    monkeypatch.setenv("BRANCHWRIGHT_PORT", "tcp://10.96.0.10:80")
    with pytest.raises(SettingsError, match="BRANCHWRIGHT_PORT"):
        load()
    assert pod["enableServiceLinks"] is False
