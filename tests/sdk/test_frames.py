"""A pandas Series or DataFrame becomes interval data: every reading as it stands, and nothing guessed."""

import json
from pathlib import Path
from types import ModuleType
from typing import Any

import pandas as pd
import pytest

from .conftest import Service
from .test_import import loaded_after

HOURLY: dict[str, Any] = {"unit": "energy-kwh", "stamps_at": "start"}


@pytest.fixture
def frames(sdk: ModuleType) -> ModuleType:
    import importlib

    return importlib.import_module(f"{sdk.__name__}.frames")


def test_a_series_goes_reading_by_reading(service: Service, frames: ModuleType) -> None:
    index = pd.date_range("2025-01-14 17:00", periods=3, freq="15min", tz="America/Denver")
    meter = pd.Series([0.5, float("nan"), 1.25], index=index)
    series = frames.interval_series(meter, **HOURLY)
    assert series == {
        "kind": "stamped",
        "unit": "energy-kwh",
        "stamps_at": "start",
        "readings": [
            {"at": "2025-01-14T17:00:00-07:00", "value": 0.5},
            {"at": "2025-01-14T17:15:00-07:00", "value": None},
            {"at": "2025-01-14T17:30:00-07:00", "value": 1.25},
        ],
    }
    service.ask(lambda client: client.services.read(values=[], series=series), {"total": 1})
    assert json.loads(service.requests[-1].content)["series"] == series


@pytest.mark.source(
    "Energy Policy Act of 2005, section 110: daylight saving ended on 2 November 2025 at 2 a.m."
)
def test_the_hour_that_comes_twice_keeps_its_offsets(frames: ModuleType) -> None:
    index = pd.date_range("2025-11-02 00:30", periods=4, freq="h", tz="America/New_York")
    series = frames.interval_series(pd.Series(range(4), index=index), **HOURLY)
    assert [reading["at"][11:] for reading in series["readings"]] == [
        "00:30:00-04:00",
        "01:30:00-04:00",
        "01:30:00-05:00",
        "02:30:00-05:00",
    ]


def test_times_without_a_zone_get_none(frames: ModuleType) -> None:
    naive = pd.Series([1.0], index=pd.DatetimeIndex(["2025-03-09 02:30:00.5"]))
    assert frames.interval_series(naive, **HOURLY)["readings"][0]["at"] == "2025-03-09T02:30:00.500000"


def test_order_gaps_and_duplicates_stay(frames: ModuleType) -> None:
    index = pd.DatetimeIndex(["2025-01-02 01:00", "2025-01-01 00:00", "2025-01-01 00:00"], tz="UTC")
    readings = frames.interval_series(pd.Series([1, 2, 3], index=index), **HOURLY)["readings"]
    assert [(reading["at"][8:16], reading["value"]) for reading in readings] == [
        ("02T01:00", 1.0),
        ("01T00:00", 2.0),
        ("01T00:00", 3.0),
    ]


def test_a_period_is_sent_by_its_start(frames: ModuleType) -> None:
    periods = pd.period_range("2025-01-01", periods=2, freq="h")
    readings = frames.interval_series(pd.Series([1, 2], index=periods), **HOURLY)["readings"]
    assert [reading["at"] for reading in readings] == ["2025-01-01T00:00:00", "2025-01-01T01:00:00"]


@pytest.mark.parametrize("kind", ["Float64", "Int64", "float32", "object"])
def test_what_is_missing_is_null_whatever_the_type_of_the_column(frames: ModuleType, kind: str) -> None:
    values = pd.Series([1, None, 2], dtype="Float64" if kind == "float32" else kind)
    values.index = pd.date_range("2025-01-01", periods=3, freq="h")
    values = values.astype(kind) if kind != "float32" else values.astype("float64").astype("float32")
    readings = frames.interval_series(values, **HOURLY)["readings"]
    assert [reading["value"] for reading in readings] == [1.0, None, 2.0]
    assert {type(reading["value"]) for reading in readings} == {float, type(None)}


def frame() -> pd.DataFrame:
    index = pd.date_range("2025-01-01", periods=2, freq="h", tz="UTC")
    return pd.DataFrame({"kWh": [1.5, 2.5], "status": ["estimated", None]}, index=index)


def test_a_frame_gives_a_column_and_how_its_values_came_about(frames: ModuleType) -> None:
    series = frames.interval_series(frame(), **HOURLY, quality_column="status")
    assert series["readings"] == [
        {"at": "2025-01-01T00:00:00+00:00", "value": 1.5, "quality": "estimated"},
        {"at": "2025-01-01T01:00:00+00:00", "value": 2.5},
    ]
    only = frames.interval_series(frame()[["kWh"]], **HOURLY)
    assert only == frames.interval_series(frame()["kWh"], **HOURLY)
    assert only == frames.interval_series(frame(), **HOURLY, column="kWh")


def twice() -> pd.DataFrame:
    return pd.concat([frame()[["kWh"]], frame()[["kWh"]]], axis=1)


@pytest.mark.parametrize(
    ("data", "options", "pointer", "message"),
    [
        (frame, {}, "", "column says which of several columns holds the values"),
        (frame, {"column": "kwh"}, "", "there is no such column, or more than one"),
        (frame, {"column": "kWh", "quality_column": "state"}, "", "there is no such column"),
        (twice, {"column": "kWh"}, "", "there is no such column, or more than one"),
        (lambda: frame()["kWh"], {"column": "kWh"}, "", "a Series has no columns"),
        (lambda: frame()["kWh"], {"quality_column": "status"}, "", "a Series has no columns"),
        (lambda: pd.Series([1.0, 2.0]), {}, "/series/readings/0/at", "is no time"),
        (lambda: pd.Series([1.0], index=["2025-01-01"]), {}, "/series/readings/0/at", "is no time"),
        (
            lambda: pd.Series([1.0, 2.0], index=pd.DatetimeIndex(["2025-01-01", None])),
            {},
            "/series/readings/1/at",
            "is no time",
        ),
        (
            lambda: pd.Series([1.0, "two"], index=frame().index),
            {},
            "/series/readings/1/value",
            "is no number",
        ),
    ],
)
def test_what_cannot_be_interval_data_is_named(
    sdk: ModuleType, frames: ModuleType, data: Any, options: dict[str, Any], pointer: str, message: str
) -> None:
    with pytest.raises(sdk.InvalidRequest) as caught:
        frames.interval_series(data(), **HOURLY, **options)
    (error,) = caught.value.errors
    assert error.pointer == pointer
    assert error.message.startswith(message)


def test_a_status_that_the_contract_does_not_know_is_found_before_sending(
    service: Service, frames: ModuleType
) -> None:
    data = frame().assign(status="E")
    series = frames.interval_series(data, **HOURLY, quality_column="status")
    with pytest.raises(service.sdk.InvalidRequest, match="/series/readings/0/quality"):
        service.ask(lambda client: client.services.read(values=[], series=series))


def test_pandas_is_never_imported(small_package: Path) -> None:
    loaded = loaded_after(small_package, "import small_sdk.frames")
    assert "small_sdk.frames" in loaded
    assert not {name for name in loaded if name.partition(".")[0] in {"pandas", "numpy"}}
