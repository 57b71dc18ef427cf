"""Time: stamps without offset, the days that are not 24 hours long, and the local time of files."""

from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.checks.effort import examples
from tests.checks.interval_data.asking import ask_csv, ask_json, finding, outcome, stamped

from branchwright.checks.service_capacity.interval_data.green_button.local_time import change_rule, file_zone
from branchwright.checks.service_capacity.interval_data.green_button.resources import Entry, Resource
from branchwright.checks.service_capacity.interval_data.zones import offsets_at, place_walls, uneven_days

IANA = "IANA time zone database, by the zoneinfo module of the standard library"
ZONES = [
    "America/Denver",
    "America/Phoenix",
    "America/St_Johns",
    "Australia/Lord_Howe",
    "Europe/Dublin",
    "Asia/Kathmandu",
    "Pacific/Apia",
    "UTC",
]


def a_year(zone: str, minutes: int, year: int = 2023) -> list[datetime]:
    """Every interval's start in a local year, as an aware clock shows it, by arithmetic in UTC."""
    tz = ZoneInfo(zone)
    moment, end = (datetime(each, 1, 1, tzinfo=tz).astimezone(UTC) for each in (year, year + 1))
    found = []
    while moment < end:
        found.append(moment.astimezone(tz))
        moment += timedelta(minutes=minutes)
    return found


@pytest.mark.source(IANA)
@pytest.mark.parametrize("zone", ZONES)
@pytest.mark.parametrize("minutes", [15, 30])
@pytest.mark.parametrize("newest_first", [False, True])
def test_the_order_of_a_whole_year_tells_every_instant(zone: str, minutes: int, newest_first: bool) -> None:
    year = a_year(zone, minutes)[:: -1 if newest_first else 1]
    walls = np.array(
        [int((each.replace(tzinfo=None) - datetime(1970, 1, 1)).total_seconds()) for each in year]
    )
    placed = place_walls(walls, ZoneInfo(zone))
    assert placed.instants.tolist() == [int(each.timestamp()) for each in year]
    assert (placed.never, placed.unordered, placed.single) == ([], [], [])


@pytest.mark.source(IANA)
@pytest.mark.parametrize("zone", ZONES)
def test_offsets_are_the_zones(zone: str) -> None:
    year = a_year(zone, 30)
    instants = np.array([int(each.timestamp()) for each in year])
    assert offsets_at(instants, ZoneInfo(zone)).tolist() == [
        each.utcoffset().total_seconds() for each in year
    ]


@pytest.mark.source(IANA)
@examples(100)
@given(st.sampled_from(ZONES), st.integers(1980, 2036))
def test_uneven_days_are_those_whose_midnights_are_not_24_hours_apart(zone: str, year: int) -> None:
    tz = ZoneInfo(zone)
    days = [datetime(year, 1, 1) + timedelta(days=at) for at in range(365)]
    expected = []
    for day in days:
        begins, ends = (each.replace(tzinfo=tz).astimezone(UTC) for each in (day, day + timedelta(days=1)))
        if ends - begins != timedelta(hours=24):
            expected.append((day.date(), (ends - begins).total_seconds() / 3600))
    first, last = (int(day.replace(hour=12, tzinfo=tz).timestamp()) for day in (days[0], days[-1]))
    assert uneven_days(first, last, tz) == expected


DENVER = {"time_zone": "America/Denver"}


def naive(walls: list[str]) -> dict:
    return stamped(
        [(f"2023-11-05T{wall}:00", 500 + at) for at, wall in enumerate(walls)], interval_minutes=30
    )


@pytest.mark.source("IANA: Denver's clock shows 2023-11-05 01:00 to 02:00 twice")
def test_two_passings_of_the_hour_in_order_are_told_apart() -> None:
    answer = ask_json(naive(["00:30", "01:00", "01:30", "01:00", "01:30", "02:00"]), **DENVER)
    assert answer["series"]["energy_wh"] == [500, 501, 502, 503, 504, 505]
    assert outcome(answer, "time-zone") == outcome(answer, "autumn-hour") == "pass"
    assert answer["quality"]["long_days"] == [{"date": "2023-11-05", "hours": 25}]


@pytest.mark.source("IANA: Denver's clock shows 2023-11-05 01:00 to 02:00 twice")
def test_one_passing_alone_is_taken_for_the_first_and_reported() -> None:
    answer = ask_json(naive(["00:30", "01:00", "01:30", "02:00"]), **DENVER)
    assert answer["series"]["energy_wh"] == [500, 501, 502, None, None, 503]
    found = finding(answer, "autumn-hour")
    assert (found["outcome"], found["force"]) == ("undetermined", "recommendation")
    assert found["message"].startswith("/series/readings/1/at: ")


@pytest.mark.source("IANA: Denver's clock shows 2023-11-05 01:00 to 02:00 twice")
def test_passings_in_no_order_are_left_out_and_reported() -> None:
    answer = ask_json(naive(["00:30", "01:30", "01:00", "01:30", "01:00", "02:00"]), **DENVER)
    assert answer["series"]["energy_wh"] == [500, None, None, None, None, 505]
    failed = finding(answer, "time-zone")
    assert (failed["outcome"], failed["force"]) == ("fail", "requirement")
    assert "1 more of this kind" in failed["message"]


@pytest.mark.source("IANA: Denver's clock skips 2023-03-12 02:00 to 03:00")
def test_a_stamp_that_spring_skips_is_reported() -> None:
    series = stamped(
        [("2023-03-12T01:00:00", 500), ("2023-03-12T02:00:00", 600), ("2023-03-12T03:00:00", 700)]
    )
    answer = ask_json(series, **DENVER)
    assert answer["series"]["energy_wh"] == [500, 700], "01:00 and 03:00 are neighbours"
    failed = finding(answer, "time-zone")
    assert failed["outcome"] == "fail"
    assert failed["pointer"] == "/series/readings/1/at"
    assert failed["provided"]["value"] == "2023-03-12T02:00:00"


def test_offsets_go_before_the_zone_and_a_contradiction_is_recommended_to_be_looked_at() -> None:
    readings = [(f"2023-02-01T{hour:02}:00:00-05:00", 500.0 + hour) for hour in range(24)]
    answer = ask_json(stamped(readings), **DENVER)
    assert answer["series"]["start"] == "2023-01-31T22:00:00-07:00"
    found = finding(answer, "zone-agreement")
    assert (found["outcome"], found["force"], found["pointer"]) == ("fail", "recommendation", "/time_zone")
    assert "24 stamps" in found["message"]


def test_a_regular_series_counts_on_through_the_change_of_clocks() -> None:
    series = {
        "kind": "regular",
        "start": "2023-03-12T00:00:00",
        "interval_minutes": 60,
        "energy_wh": [500] * 23,
    }
    answer = ask_json(series, **DENVER)
    assert answer["quality"]["short_days"] == [{"date": "2023-03-12", "hours": 23}]
    assert [month["month"] for month in answer["quality"]["months"]] == ["2023-03"]
    assert outcome(answer, "zone-agreement") == "not-applicable"


def test_a_start_of_another_zone_is_looked_at_once() -> None:
    series = {
        "kind": "regular",
        "start": "2023-01-01T00:00:00-05:00",
        "interval_minutes": 60,
        "energy_wh": [500] * 9000,
    }
    answer = ask_json(series, **DENVER)
    assert "1 stamps" in finding(answer, "zone-agreement")["message"]
    series["start"] = "2023-01-01T00:00:00-07:00"
    assert outcome(ask_json(series, **DENVER), "zone-agreement") == "pass"


@pytest.mark.parametrize(
    "start", ["2023-02-30T00:00:00", "2023-01-01T24:30:00", "2023-13-01T00:00:00Z", "0001-01-01T00:00:00Z"]
)
def test_an_impossible_start_fits_the_schema_and_fails(start: str) -> None:
    series = {"kind": "regular", "start": start, "interval_minutes": 60, "energy_wh": [500] * 24}
    failed = finding(ask_json(series, **DENVER), "readings")
    assert (failed["outcome"], failed["pointer"]) == ("fail", "/series/start")
    assert failed["provided"]["value"] == start


def test_start_and_end_columns_survive_the_change_of_clocks() -> None:
    tz = ZoneInfo("America/Denver")
    year = a_year("America/Denver", 15)
    rows = "".join(
        f"{each:%m/%d/%Y %H:%M},{(each.astimezone(UTC) + timedelta(minutes=15)).astimezone(tz):%m/%d/%Y %H:%M},0.25\n"
        for each in year
    )
    answer = ask_csv(
        "from,to,kWh\n" + rows,
        time_column="from",
        end_column="to",
        value_column="kWh",
        unit="energy-kwh",
        **DENVER,
    )
    assert len(answer["series"]["energy_wh"]) == 35_040
    assert None not in answer["series"]["energy_wh"]
    assert (
        outcome(answer, "intervals")
        == outcome(answer, "time-zone")
        == outcome(answer, "duplicates")
        == "pass"
    )


RULES = {
    "America/Denver": (-25200, "360E2000", "B40E2000"),
    "America/St_Johns": (-12600, "360E2000", "B40E2000"),
    "Europe/Berlin": (3600, "3E0E2000", "AE0E3000"),
    "Australia/Sydney": (36000, "A40E2000", "440E3000"),
}
"""Second Sunday of March and first of November; last ones of March and October; first ones of October and April."""


def local_time(offset: int, start: str, end: str, saving: int = 3600):
    fields = {"tzOffset": str(offset), "dstOffset": str(saving), "dstStartRule": start, "dstEndRule": end}
    return file_zone(Resource(Entry(1), fields))


@pytest.mark.source(IANA + "; the bit map is that of NAESB ESPI, DstRuleType")
@pytest.mark.parametrize("zone", RULES)
@pytest.mark.parametrize("year", [2012, 2015, 2016, 2023, 2024, 2030])
def test_a_files_own_rules_are_those_of_its_zone(zone: str, year: int) -> None:
    own = local_time(*RULES[zone])
    for each in a_year(zone, 30, year):
        there = each.astimezone(UTC).astimezone(own)
        assert there.replace(tzinfo=None) == each.replace(tzinfo=None)
        assert there.utcoffset() == each.utcoffset()


@pytest.mark.source("NAESB ESPI, DstRuleType: the standard's own example, the third Friday of March at 01:45")
def test_a_rule_is_read_from_its_bits() -> None:
    bits = 3 << 28 | 4 << 25 | 0 << 20 | 5 << 17 | 1 << 12 | 2700
    rule = change_rule(f"{bits:08X}")
    assert rule is not None
    assert rule.clock(2023) == datetime(2023, 3, 17, 1, 45)


@pytest.mark.source("NAESB ESPI, DstRuleType: operators 0 and 1; days by the calendar")
def test_rules_by_the_day_of_the_month() -> None:
    on_the_day = change_rule(f"{4 << 28 | 0 << 25 | 25 << 20 | 2 << 12:08X}")
    on_or_after = change_rule(f"{4 << 28 | 1 << 25 | 8 << 20 | 7 << 17 | 2 << 12:08X}")
    assert on_the_day is not None and on_or_after is not None
    assert on_the_day.clock(2023) == datetime(2023, 4, 25, 2)
    assert on_or_after.clock(2023) == datetime(2023, 4, 9, 2)
    assert on_or_after.clock(2029) == datetime(2029, 4, 8, 2), "the 8th itself is a Sunday"


def test_disabled_rules_are_a_mere_offset() -> None:
    own = local_time(-25200, "FFFFFFFF", "FFFFFFFF")
    july = datetime(2023, 7, 1, tzinfo=UTC).astimezone(own)
    assert july.utcoffset() == timedelta(hours=-7)
