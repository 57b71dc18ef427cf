"""The compose file is valid, and what runs under it has nothing to write to and no rights."""

import subprocess
import sys
from typing import Any

import pytest
from tests.docker.conftest import DOCKER


@pytest.mark.source("the JSON schema of the Compose specification, as check-jsonschema carries it")
def test_the_compose_file_is_valid() -> None:
    command = [sys.executable, "-m", "check_jsonschema", "--builtin-schema", "vendor.compose-spec"]
    ran = subprocess.run([*command, DOCKER / "compose.yaml"], capture_output=True, text=True, check=False)
    assert ran.returncode == 0, ran.stdout + ran.stderr


def test_only_this_computer_can_ask(compose: dict[str, Any]) -> None:
    assert [port.split(":", 1)[0] for port in compose["ports"]] == ["127.0.0.1"]


def test_it_does_not_start_without_the_hash_of_a_key(compose: dict[str, Any]) -> None:
    # Compose stops with what follows ":?" where the variable is unset or empty.
    assert compose["environment"]["BRANCHWRIGHT_API_KEY_HASHES"].startswith("${BRANCHWRIGHT_API_KEY_HASHES:?")


def test_it_can_write_to_memory_alone_and_has_no_rights(compose: dict[str, Any]) -> None:
    assert compose["read_only"] is True
    assert [entry.split(":", 1)[0] for entry in compose["tmpfs"]] == ["/tmp"]  # noqa: S108
    assert "volumes" not in compose
    assert compose["cap_drop"] == ["ALL"]
    assert compose["security_opt"] == ["no-new-privileges:true"]
    assert not {"privileged", "cap_add", "network_mode", "pid", "ipc"} & compose.keys()


def test_what_it_may_use_is_bounded(compose: dict[str, Any]) -> None:
    assert {"mem_limit", "memswap_limit", "cpus", "pids_limit"} <= compose.keys()
    assert compose["mem_limit"] == compose["memswap_limit"]
