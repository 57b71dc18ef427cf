"""A customer system's script: complete types under strict checkers, and right when it is run."""

import asyncio
import subprocess
import sys
from pathlib import Path

import pytest
from tests.sdk import crm_script
from tests.sdk.crm_script import Job, Offer
from tests.sdk.serving import serving
from tests.sdk.test_typing import basedpyright, mypy

from branchwright.http_api.app import create_app
from branchwright.http_api.security import create_key
from branchwright.http_api.settings import Settings
from branchwright_sdk import AsyncClient, Client

SCRIPT = crm_script.__file__
JOBS = [Job("1", 40, 30), Job("2", 48, 55)]


def test_its_types_are_complete(tmp_path: Path) -> None:
    assert "Success: no issues found" in mypy(tmp_path, SCRIPT)
    assert basedpyright(tmp_path, Path(SCRIPT)).startswith("0 errors, 0 warnings")


@pytest.mark.source("NFPA 70:2023, 625.41, 240.6(A) and Table 310.16, 75 degC copper")
def test_its_offers_are_what_the_tables_say() -> None:
    with Client.embedded() as client:
        offers = crm_script.offers(client, JOBS)
        # 125 % of 40 A and of 48 A are 50 A and 60 A, both standard ratings; 8 AWG carries 50 A, 6 AWG 65 A
        assert [(offer.breaker_rating_a, offer.conductor_size) for offer in offers] == [
            (50, "8 AWG"),
            (60, "6 AWG"),
        ]
        assert "/breaker/listed_for_panel" in offers[0].to_ask
        assert crm_script.holds(client, client.circuits.design_from(crm_script.request_for(JOBS[0])))

    async def together() -> list[Offer]:
        async with AsyncClient.embedded() as later:
            return await crm_script.offers_together(later, JOBS)

    assert asyncio.run(together()) == offers


def test_a_job_that_cannot_be_asked_holds_up_no_other() -> None:
    with Client.embedded() as client:
        wrong, right = crm_script.offers(client, [Job("0", -1, 0), JOBS[0]])
    assert wrong == Offer("0", error="/charger/charging_current_a; /run/0/length/value")
    assert right.breaker_rating_a == 50


def test_its_page_of_settings_tells_the_ways_of_failing_apart(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv("BRANCHWRIGHT_BASE_URL", raising=False)
    key, key_hash = create_key()
    with serving(create_app(Settings(api_key_hashes=(key_hash,)))) as address:
        assert "nec-2023" in crm_script.connected(address, key)
        assert crm_script.connected(address, "bw_old").startswith("ask for a new key (")
        assert crm_script.connected(f"{address}/elsewhere", key) == "refused: 404 There is nothing here"
    assert crm_script.connected(address, key).startswith(f"not connected: no connection to {address}: ")
    assert (
        crm_script.connected(None, key)
        == "not connected: no base_url: pass one, or set BRANCHWRIGHT_BASE_URL"
    )


def test_it_runs_as_a_script() -> None:
    ran = subprocess.run([sys.executable, "-W", "error", SCRIPT], capture_output=True, text=True, check=False)
    assert (ran.returncode, ran.stderr) == (0, "")
    assert [line.split(",")[0] for line in ran.stdout.splitlines()] == [
        "Offer(number='2026-001'",
        "Offer(number='2026-002'",
    ]
