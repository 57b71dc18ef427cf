"""The SDK as committed asks the service as it is, in process: what the contract promises on paper holds."""

import asyncio
from collections.abc import Awaitable, Callable
from pathlib import Path
from typing import Any

import httpx
import pandas as pd
import pytest

import branchwright_sdk
from branchwright.http_api.app import create_app
from branchwright.http_api.settings import Settings
from branchwright.http_api.v1 import service_examples
from branchwright_sdk import AsyncClient, InvalidRequest, NotFound, models
from branchwright_sdk.frames import interval_series

QUESTION: dict[str, Any] = {
    "edition": "nec-2023",
    "premises": {"occupancy": "one-family", "charger_location": "outdoors"},
    "supply": {"system": "split-phase-120-240"},
    "charger": {"charging_current_a": 32.0, "connection": {"kind": "hardwired"}},
    "conductors": {"material": "copper"},
    "run": [{"wiring_method": "emt", "length": {"value": 27, "unit": "ft"}, "location": "dry"}],
}


def ask(question: Callable[[AsyncClient], Awaitable[Any]]) -> Any:
    async def run() -> Any:
        transport = httpx.ASGITransport(create_app(Settings()))
        async with httpx.AsyncClient(transport=transport) as http:
            return await question(AsyncClient("http://127.0.0.1", http_client=http))

    return asyncio.run(run())


@pytest.mark.source("NFPA 70:2023, 625.41 and 240.6(A)")
def test_a_design_passes_its_own_review() -> None:
    async def question(client: AsyncClient) -> None:
        answer = await client.circuits.design(**QUESTION)
        assert answer.design is not None
        assert answer.review_request is not None
        # 125 % of a continuous load of 32 A is 40 A, which is a standard rating
        assert answer.design.breaker.rating_a == 40
        review = await client.circuits.review_from(answer.review_request)
        assert review.verdict == answer.verdict != "fail"

    ask(question)


def test_models_and_mappings_ask_the_same() -> None:
    async def question(client: AsyncClient) -> None:
        whole = models.CircuitDesignRequest.model_validate(QUESTION)
        by_model = await client.circuits.design_from(whole)
        by_mapping = await client.circuits.design(**QUESTION)
        assert by_model.provenance.input_sha256 == by_mapping.provenance.input_sha256

    ask(question)


def test_the_codebook_can_be_read_from_end_to_end() -> None:
    async def question(client: AsyncClient) -> None:
        edition = await client.codebook.get_edition(edition="nec-2023")
        for table in edition.tables:
            answer = await client.codebook.get_table(edition=edition.edition.name, table=table.name)
            assert len(answer.rows) == table.row_count
        after: str | None = None
        names: list[str] = []
        while True:
            page = await client.codebook.list_rules(limit=7, after=after)
            names += [rule.name for rule in page.items]
            if (after := page.next_after) is None:
                break
        assert len(names) == len(set(names)) > 7
        for name in names:
            assert (await client.codebook.get_rule(rule=name)).name == name

    ask(question)


@pytest.mark.source("continuing-education lesson on the breaker ratings of 2023: 10 A is new in 2023")
def test_editions_are_compared_page_by_page() -> None:
    async def question(client: AsyncClient) -> None:
        found: list[models.Difference] = []
        after: str | None = None
        while True:
            page = await client.codebook.compare_editions(
                edition="nec-2020", other="nec-2023", limit=5, after=after
            )
            found += page.items
            if (after := page.next_after) is None:
                break
        assert len({(item.kind, item.name) for item in found}) == len(found) > 5
        (ratings,) = (item for item in found if item.name == "standard-ratings")
        assert ratings.rows_added == [{"rating_a": 10}]
        assert ratings.this is not None
        assert ratings.this.section == "Table 240.6(A)"

    ask(question)


EVENING_WH = [4_370.0, 5_240.0, 4_680.0]
COLUMNS: dict[str, Any] = {
    "unit": "energy-kwh",
    "time_column": "Start",
    "value_column": "Usage (kWh)",
    "quality_column": "Status",
    "time_zone": "America/Chicago",
}


def test_meter_data_is_read_from_files_in_each_form(tmp_path: Path) -> None:
    """The documented files, three hours of one evening; one kWh in an hour is one kW."""
    csv, feed = tmp_path / "meter.csv", tmp_path / "meter.xml"
    csv.write_text(service_examples.CSV, "utf-8")
    feed.write_text(service_examples.GREEN_BUTTON, "utf-8")

    async def question(client: AsyncClient) -> None:
        for answer in (
            await client.services.read_interval_csv(csv, **COLUMNS),
            await client.services.read_interval_csv(service_examples.CSV.encode(), **COLUMNS),
            await client.services.read_green_button(str(feed), time_zone="America/Chicago"),
        ):
            assert answer.series is not None
            assert answer.measured_demand is not None
            assert answer.series.energy_wh == EVENING_WH
            assert answer.series.start == "2025-01-14T17:00:00-06:00"
            assert (answer.measured_demand.greatest_w, answer.quality.estimated) == (5_240, 1)
        with pytest.raises(InvalidRequest) as unreadable:
            await client.services.read_green_button(b"<feed>")
        assert unreadable.value.status == 400
        with pytest.raises(InvalidRequest) as misfit:
            await client.services.read_interval_csv(b"", unit="energy-kwh", interval_minutes=0)
        assert misfit.value.errors[0].pointer == "query:interval_minutes"

    ask(question)


def test_a_pandas_series_is_read_as_the_file_is() -> None:
    index = pd.date_range("2025-01-14 17:00", periods=3, freq="h", tz="America/Chicago")
    meter = pd.DataFrame({"kWh": [4.37, 5.24, 4.68], "status": ["measured", None, "estimated"]}, index=index)
    series = interval_series(
        meter, unit="energy-kwh", stamps_at="start", column="kWh", quality_column="status"
    )

    async def question(client: AsyncClient) -> None:
        answer = await client.services.read_interval_data(
            series=series, edition="nec-2023", has_generation=False
        )
        assert answer.series is not None
        assert answer.series.energy_wh == EVENING_WH
        assert answer.quality.estimated == 1

    ask(question)


@pytest.mark.source("NFPA 70:2023, 220.87 and 230.42: 125 percent of the demand and of the charger's load")
def test_what_a_meter_shows_is_the_existing_load_of_a_review() -> None:
    """A year of quarter hours at 1 kW with one of 9.6 kW: 12 kVA, and 9.6 kVA for a charger of 32 A, are 90 A."""
    energy = [250.0] * 35_040
    energy[20_000] = 2_400.0

    async def question(client: AsyncClient) -> None:
        read = await client.services.read_interval_data(
            edition="nec-2023",
            has_generation=False,
            time_zone="America/Denver",
            series={
                "kind": "regular",
                "start": "2025-01-01T00:00:00-07:00",
                "interval_minutes": 15,
                "energy_wh": energy,
            },
        )
        assert read.existing_load is not None
        review = await client.services.review_capacity(
            edition="nec-2023",
            service={"rating_a": 100, "system": "split-phase-120-240"},
            existing_load={**read.existing_load.model_dump(), "occupied": True, "seasonal_load_va": 0},
            chargers=[{"charging_current_a": 32, "setting_access": "restricted", "connection": "hardwired"}],
        )
        assert review.capacity.total_a == pytest.approx((1.25 * 9_600 + 1.25 * 32 * 240) / 240)
        assert review.verdict == "no-failure-found"

    ask(question)


def test_load_and_study_are_answered() -> None:
    async def question(client: AsyncClient) -> None:
        load = await client.services.calculate_load_from(service_examples.ALL_ELECTRIC)
        assert [method.method for method in load.methods] == ["standard", "optional-new", "optional-existing"]
        study = await client.services.study_managed_charging_from(service_examples.ONE_VEHICLE)
        assert study.year is not None
        # Setting less margin and nothing above it: 78 A.
        assert study.year.greatest_total_current_a is not None
        assert study.year.greatest_total_current_a <= 78

    ask(question)


def test_a_known_table_is_not_sent_twice() -> None:
    async def question(client: AsyncClient) -> int:
        first = await client.codebook.with_raw_response.list_editions()
        known = client.with_options(headers={"If-None-Match": first.headers["ETag"]})
        return (await known.codebook.with_raw_response.list_editions()).status_code

    assert ask(question) == 304


def test_health() -> None:
    assert ask(lambda client: client.operations.check_live()).status == "live"
    assert ask(lambda client: client.operations.check_ready()).status == "ready"


def test_problems_of_the_service_carry_what_it_says() -> None:
    with pytest.raises(NotFound) as missing:
        ask(lambda client: client.codebook.get_table(edition="nec-2023", table="nope"))
    assert missing.value.errors[0].pointer == "path:table"
    assert "ampacity" in missing.value.errors[0].allowed
    with pytest.raises(InvalidRequest) as invalid:
        ask(lambda client: client.codebook.list_editions(limit=1000))
    assert invalid.value.request_id
    assert (invalid.value.errors[0].pointer, invalid.value.errors[0].code) == ("query:limit", "out-of-range")


WRONG: list[tuple[str, dict[str, Any]]] = [
    ("missing", {"supply": {}}),
    ("unknown-field", {"supply": {"system": "wye-208y-120", "colour": "red"}}),
    ("not-an-allowed-value", {"edition": "nec-1897"}),
    ("not-an-allowed-value", {"charger": {**QUESTION["charger"], "connection": {"kind": "wireless"}}}),
    ("missing", {"charger": {**QUESTION["charger"], "connection": {}}}),
    ("out-of-range", {"charger": {**QUESTION["charger"], "charging_current_a": -1}}),
    ("wrong-type", {"charger": {**QUESTION["charger"], "charging_current_a": "32"}}),
    ("wrong-length", {"run": []}),
    ("wrong-length", {"jurisdiction": "x" * 201}),
]


@pytest.mark.parametrize(("code", "change"), WRONG)
def test_the_service_finds_what_the_sdk_finds_in_the_same_words(code: str, change: dict[str, Any]) -> None:
    wrong = {**QUESTION, **change}
    with pytest.raises(InvalidRequest) as local:
        ask(lambda client: client.circuits.design_from(wrong))

    async def unchecked() -> httpx.Response:
        transport = httpx.ASGITransport(create_app(Settings()))
        async with httpx.AsyncClient(transport=transport, base_url="http://127.0.0.1") as http:
            return await http.post("/v1/circuit-designs", json=wrong)

    remote = branchwright_sdk.answers.problem(asyncio.run(unchecked()))
    assert local.value.request_id is None
    assert type(remote) is InvalidRequest
    assert [(error.pointer, error.code) for error in local.value.errors] == [
        (error.pointer, error.code) for error in remote.errors
    ]
    assert local.value.errors[0].code == code
