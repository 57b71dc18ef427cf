"""What a typed user writes: every line must satisfy strict type checkers. Never run, only checked."""

import asyncio
import datetime
from decimal import Decimal
from pathlib import Path
from typing import assert_type

from small_sdk import OMITTED, AsyncClient, Client, FieldError, InvalidRequest, RawResponse
from small_sdk.frames import interval_series
from small_sdk.mappings import PriceTier as PriceTierMapping
from small_sdk.mappings import Segment as SegmentMapping
from small_sdk.mappings import StampedSeries
from small_sdk.models import (
    CircuitDesignAnswer,
    ConductorSize,
    Edition,
    Length,
    PriceRequest,
    PriceTier,
    ReadingsAnswer,
    Segment,
    Supply,
)

EDITION: Edition = "nec-2023"
SIZE: ConductorSize = "1/0 AWG"


class Meter:
    """As much of a pandas Series as is asked for."""

    @property
    def index(self) -> list[datetime.datetime]:
        return [datetime.datetime(2025, 1, 14, 17, tzinfo=datetime.UTC)]

    def tolist(self) -> list[float]:
        return [437.0]


def blocking(client: Client) -> float | None:
    segment: SegmentMapping = {"wiring_method": "emt", "length": {"value": 27, "unit": "ft"}}
    answer = client.circuits.design(
        edition=EDITION,
        supply=Supply(system="wye-208y-120", phases=3),
        charger={"charging_current_a": 32, "connection": {"kind": "receptacle", "configuration": "14-50"}},
        run=[segment, Segment(wiring_method="nm-b", length=Length(value=4.5, unit="m"))],
        least_size=SIZE,
        readings={"energy-management": "strict"},
        jurisdiction=None,
        from_=OMITTED,
    )
    assert_type(answer, CircuitDesignAnswer)
    assert_type(answer.findings[0].outcome, str)
    assert_type(answer.steps[0].inputs["current"].from_, str)
    again = client.circuits.design_from(answer)
    assert_type(again, CircuitDesignAnswer)
    raw = client.with_options(timeout=30).circuits.with_raw_response.design_from({"edition": EDITION})
    assert_type(raw, RawResponse[CircuitDesignAnswer])
    assert_type(raw.parse().verdict, str)
    read = client.services.read_csv(Path("readings.csv"), unit="kWh", first_row=None, edition=EDITION)
    assert_type(read, ReadingsAnswer)
    assert_type(client.services.with_raw_response.read_xml(b"<feed/>"), RawResponse[ReadingsAnswer])
    series = interval_series(Meter(), unit="energy-wh", stamps_at="end")
    assert_type(series, StampedSeries)
    client.services.read(values=[], series=series)
    exact: PriceTierMapping = {"up_to_kwh": 300, "per_kwh": Decimal("0.31")}
    text: PriceTierMapping = {"per_kwh": "0.27"}
    price = client.costs.price(
        charge=Decimal("9.50"),
        tiers=[exact, text, PriceTier(per_kwh="0.2"), PriceTier(per_kwh=Decimal("0.1"))],
        least=None,
        prices={"a": "1", "b": Decimal(2)},
    )
    assert_type(price.total, Decimal)
    assert_type(price.least, Decimal | None)
    assert_type(sum(price.lines, Decimal(0)), Decimal)
    client.costs.price_from(PriceRequest(charge=price.total, least=price.least, tiers=[]))
    return answer.design.breaker_rating_a if answer.design else None


async def asynchronous() -> list[str]:
    async with AsyncClient("http://service.test") as client:
        try:
            assert_type(
                await client.services.read_csv("readings.csv", unit="kWh", signed=True), ReadingsAnswer
            )
            page = await client.codebook.list_editions(limit=3)
            raw = await client.circuits.with_raw_response.review(
                edition="nec-2026",
                supply={"system": "split-phase-120-240"},
                charger={"charging_current_a": 16, "connection": {"kind": "hardwired"}},
                run=[{"wiring_method": "emt", "length": {"value": 1, "unit": "m"}}],
            )
        except InvalidRequest as invalid:
            assert_type(invalid.errors, tuple[FieldError, ...])
            return [error.pointer for error in invalid.errors]
        return [*page.items, raw.parse().verdict]


asyncio.run(asynchronous())
