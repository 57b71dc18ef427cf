"""What a service loads before it is asked anything: the contract, and nothing that only computes or prints."""

import subprocess
import sys

import pytest

from branchwright import jobs
from branchwright.checks import charging_cost, service_capacity

START = (
    "import branchwright.cli.commands; from branchwright.http_api.app import create_app; app = create_app()"
)
ASK = """
import asyncio, httpx
from branchwright.http_api.v1 import service_examples
async def ask():
    async with httpx.AsyncClient(transport=httpx.ASGITransport(app), base_url="http://127.0.0.1") as http:
        return await http.post("/v1/interval-data", json=service_examples.REGULAR)
assert asyncio.run(ask()).status_code == 200
"""


def loaded_after(source: str) -> set[str]:
    """The packages that are loaded after a program."""
    program = f"import sys\n{source}\nprint(*sys.modules)"
    ran = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True)
    return {name.partition(".")[0] for name in ran.stdout.split()}


def test_a_start_waits_for_nothing_that_computes_or_prints():
    loaded = loaded_after(START)
    assert "branchwright" in loaded
    assert not {"numpy", "defusedxml", "holidays", "rich"} & loaded


def test_what_computes_comes_with_the_first_question():
    assert "numpy" in loaded_after(START + ASK)


@pytest.mark.parametrize(
    ("family", "name"),
    [
        (service_capacity, "dwelling_load"),
        (service_capacity, "interval_data"),
        (service_capacity, "capacity_review"),
        (service_capacity, "managed_charging"),
        (charging_cost, "tariffs"),
        (charging_cost, "charging_comparison"),
        (jobs, "installation"),
    ],
    ids=lambda given: given if isinstance(given, str) else given.__name__.rpartition(".")[2],
)
def test_every_name_of_a_check_is_found_when_asked(family, name):
    check = getattr(__import__(family.__name__, fromlist=[name]), name)
    assert check.RULES
    assert all(getattr(check, member) is not None for member in check.__all__)
    with pytest.raises(AttributeError, match="has no attribute 'nothing'"):
        _ = check.nothing
