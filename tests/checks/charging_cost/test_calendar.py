"""The year that is priced, against the clocks of zones and the calendars of holidays that others keep."""

from collections import Counter
from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from tests.checks.charging_cost.reference_pricing import intervals, month_starts

from branchwright.checks.charging_cost.tariffs.local_year import LocalYear, local_year, zone_step_minutes

TZDB = pytest.mark.source("IANA time zone database, as zoneinfo reads it")

ZONES = [
    "America/New_York",
    "America/Phoenix",
    "America/St_Johns",
    "America/Havana",
    "Australia/Lord_Howe",
    "Australia/Sydney",
    "Europe/Berlin",
    "Europe/Dublin",
    "Asia/Kolkata",
    "Asia/Kathmandu",
    "Asia/Beirut",
    "Africa/Casablanca",
    "Africa/Cairo",
    "Pacific/Chatham",
    "Etc/GMT+7",
]


def year_of(zone: str, year: int, first_month: int, step_minutes: int) -> LocalYear:
    return local_year(ZoneInfo(zone), date(year, first_month, 1), step_minutes)


@TZDB
@pytest.mark.parametrize("zone", ZONES)
@pytest.mark.parametrize("year, first_month", [(2027, 1), (2028, 1), (2024, 7), (2026, 11)])
def test_every_interval_is_where_the_clock_of_the_zone_has_it(zone: str, year: int, first_month: int) -> None:
    expected = intervals(zone, year, first_month, 30)
    found = year_of(zone, year, first_month, 30)
    assert found.starts_s.tolist() == [each.starts for each in expected]
    assert found.minute_of_day.tolist() == [each.minute for each in expected]
    assert [found.dates[day] for day in found.day_index.tolist()] == [each.date for each in expected]
    assert found.month_index.tolist() == [each.month for each in expected]


@TZDB
@pytest.mark.parametrize("zone", ZONES)
@pytest.mark.parametrize("year", [2027, 2028])
def test_each_date_has_the_hours_between_its_midnights(zone: str, year: int) -> None:
    where = ZoneInfo(zone)
    found = year_of(zone, year, 1, 15)
    hours = {day: float(length) for day, length in zip(found.dates, found.hours_of_days(), strict=True)}
    for day, length in hours.items():
        midnights = [
            datetime(each.year, each.month, each.day, tzinfo=where).timestamp()
            for each in (day, day + timedelta(days=1))
        ]
        assert length == (midnights[1] - midnights[0]) / 3600
    assert len(hours) == (366 if year % 4 == 0 else 365)
    assert sum(hours.values()) == found.count / 4


@pytest.mark.source(
    "15 USC 260a (New York); Directive 2000/84/EC (Berlin); Lord Howe Island shifts by half an hour, Arizona and India "
    "not at all: IANA time zone database"
)
@pytest.mark.parametrize(
    "zone, short, long",
    [
        ("America/New_York", {date(2027, 3, 14): 23.0}, {date(2027, 11, 7): 25.0}),
        ("Europe/Berlin", {date(2027, 3, 28): 23.0}, {date(2027, 10, 31): 25.0}),
        ("Australia/Lord_Howe", {date(2027, 10, 3): 23.5}, {date(2027, 4, 4): 24.5}),
        ("America/Phoenix", {}, {}),
        ("Asia/Kolkata", {}, {}),
    ],
)
def test_the_days_of_other_length(zone: str, short: dict[date, float], long: dict[date, float]) -> None:
    found = year_of(zone, 2027, 1, 30)
    hours = dict(zip(found.dates, found.hours_of_days().tolist(), strict=True))
    assert {day: length for day, length in hours.items() if length < 24} == short
    assert {day: length for day, length in hours.items() if length > 24} == long


@pytest.mark.source("worked by hand: the Gregorian calendar")
@pytest.mark.parametrize(
    "year, days, hours", [(2027, 28, 8760), (2028, 29, 8784), (2000, 29, 8784), (2100, 28, 8760)]
)
def test_a_leap_year_has_a_day_more(year: int, days: int, hours: int) -> None:
    found = year_of("America/Phoenix", year, 1, 60)
    assert found.days_in_month[1] == days
    assert found.count == hours


@pytest.mark.source("worked by hand: the Gregorian calendar")
def test_twelve_months_may_begin_with_any_month() -> None:
    found = year_of("Etc/GMT+7", 2027, 10, 60)
    assert found.months[0] == "2027-10"
    assert found.months[-1] == "2028-09"
    assert found.days_in_month.tolist() == [31, 30, 31, 31, 29, 31, 30, 31, 30, 31, 31, 30]
    assert month_starts(2027, 10)[-1] == date(2028, 10, 1)


@TZDB
@pytest.mark.parametrize(
    "zone, minutes",
    [
        ("America/New_York", 60),
        ("Australia/Lord_Howe", 30),
        ("Asia/Kolkata", 60),
        ("Pacific/Chatham", 60),
        ("Africa/Casablanca", 60),
    ],
)
def test_only_a_shift_of_half_an_hour_asks_for_half_hours(zone: str, minutes: int) -> None:
    # Hours of Kolkata begin on the half hour of UTC: the intervals begin at local midnight, so that this costs nothing.
    assert zone_step_minutes(ZoneInfo(zone), date(2027, 1, 1)) == minutes


@TZDB
def test_an_hour_that_the_clock_shows_twice_is_there_twice() -> None:
    found = year_of("America/New_York", 2027, 1, 60)
    autumn = found.dates.index(date(2027, 11, 7))
    spring = found.dates.index(date(2027, 3, 14))
    clocks = Counter(found.minute_of_day[found.day_index == autumn].tolist())
    assert clocks[60] == 2
    assert 120 not in found.minute_of_day[found.day_index == spring].tolist()
