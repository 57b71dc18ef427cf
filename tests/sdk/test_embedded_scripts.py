"""The embedded client in a fresh interpreter: what it loads, reads and prints, and what it says when it cannot be."""

import os
import re
import subprocess
import sys

import pytest
from tests.sdk.embedding import DESIGN


def run(source: str, *options: str, **environment: str) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, *options, "-c", f"DESIGN = {DESIGN!r}\n{source}"]
    return subprocess.run(
        command, capture_output=True, text=True, check=False, env={**clean_environment(), **environment}
    )


def clean_environment() -> dict[str, str]:
    return {name: value for name, value in os.environ.items() if not name.startswith("BRANCHWRIGHT_")}


def test_a_fault_prints_nothing_of_its_own() -> None:
    ran = run(
        "from branchwright.checks import circuits\n"
        "from branchwright_sdk import Client, ServiceFailed\n"
        "circuits.design = lambda body: 1 / 0\n"
        "with Client.embedded() as client:\n"
        "    try:\n"
        "        client.circuits.design(**DESIGN)\n"
        "    except ServiceFailed as error:\n"
        "        print(error.status)\n"
    )
    assert (ran.returncode, ran.stdout, ran.stderr) == (0, "500\n", "")


def test_the_environment_of_the_host_does_not_matter() -> None:
    ran = run(
        "import asyncio\n"
        "from branchwright_sdk import AsyncClient, Client\n"
        "with Client.embedded() as client:\n"
        "    print(client.circuits.design(**DESIGN).edition)\n"
        "async def later():\n"
        "    async with AsyncClient.embedded() as client:\n"
        "        print((await client.circuits.design(**DESIGN)).edition)\n"
        "asyncio.run(later())\n",
        BRANCHWRIGHT_API_KEY="cannot be a key",
        BRANCHWRIGHT_BASE_URL="nowhere",
        BRANCHWRIGHT_API_KEY_HASHES="0" * 64,
        BRANCHWRIGHT_CONCURRENCY_LIMIT="none",
        BRANCHWRIGHT_BODY_LIMIT_BYTES="1",
        HTTP_PROXY="http://127.0.0.1:9",
    )
    assert (ran.stdout, ran.stderr) == (f"{DESIGN['edition']}\n" * 2, "")


def test_a_script_that_closes_nothing_ends_without_a_word() -> None:
    source = (
        "from branchwright_sdk import Client\n"
        "client, other = Client.embedded(), Client.embedded()\n"
        "print(client.operations.check_live().status, other.operations.check_live().status)\n"
    )
    ran = run(source, "-X", "dev", "-W", "error")
    # In this mode the event loop tells of whatever took longer than 0.1 s, as anything may on a busy machine.
    words = [
        line for line in ran.stderr.splitlines() if not re.match(r"Executing <.* took [0-9.]+ seconds$", line)
    ]
    assert (ran.returncode, ran.stdout, words) == (0, "live live\n", [])


LOADED = "\nimport sys; print(*sorted({name.partition('.')[0] for name in sys.modules}))"


def test_the_sdk_loads_the_service_only_when_it_is_asked_to_embed_it() -> None:
    service = {"branchwright", "fastapi", "starlette", "uvicorn"}
    loaded = run(f"from branchwright_sdk import AsyncClient, Client{LOADED}").stdout.split()
    assert "branchwright_sdk" in loaded
    assert not service & set(loaded)
    loaded = run(
        f"import branchwright_sdk; branchwright_sdk.Client.embedded().close(){LOADED}"
    ).stdout.split()
    assert {"branchwright", "fastapi"} <= set(loaded)


def test_the_service_does_not_load_the_sdk() -> None:
    loaded = run(f"import branchwright, branchwright.http_api.app, branchwright.cli{LOADED}").stdout.split()
    assert {"branchwright", "fastapi"} <= set(loaded)
    assert "branchwright_sdk" not in loaded


ABSENT = """
import sys
class Absent:
    def find_spec(self, name, path=None, target=None):
        if name.partition(".")[0] == MISSING:
            raise ModuleNotFoundError(f"No module named {name!r}", name=name)
sys.meta_path.insert(0, Absent())
from branchwright_sdk import AsyncClient, Client, NotConfigured
for kind in (Client, AsyncClient):
    try:
        kind.embedded()
    except NotConfigured as error:
        print(error)
"""


@pytest.mark.parametrize("missing", ["branchwright", "fastapi"])
def test_without_the_service_the_error_says_what_to_install(missing: str) -> None:
    ran = run(f"MISSING = {missing!r}\n{ABSENT}")
    assert (ran.returncode, ran.stderr) == (0, "")
    assert len(ran.stdout.splitlines()) == 2
    for line in ran.stdout.splitlines():
        assert f"No module named '{missing}" in line
        assert "'pip install .'" in line
        assert "base_url" in line
