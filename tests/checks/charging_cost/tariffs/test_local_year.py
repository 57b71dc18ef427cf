"""The priced year against the zone's own clock, asked interval by interval."""

from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from branchwright.checks.charging_cost.tariffs.local_year import LocalYear, local_year, zone_step_minutes

ZONES = [
    ("America/Denver", 2027, 1, 15),
    ("America/Denver", 2028, 7, 60),
    ("Australia/Lord_Howe", 2027, 1, 30),
    ("Asia/Kolkata", 2027, 4, 60),
    ("America/St_Johns", 2009, 11, 15),
    ("Pacific/Apia", 2011, 1, 60),
    ("Africa/Casablanca", 2027, 1, 60),
]


@pytest.mark.source("the zones' own rules: datetime and zoneinfo, asked at every interval")
@pytest.mark.parametrize(("name", "year", "month", "step"), ZONES)
def test_every_interval_shows_what_the_zones_clock_shows(name: str, year: int, month: int, step: int) -> None:
    zone = ZoneInfo(name)
    laid = LocalYear(zone, date(year, month, 1), step)
    moment = datetime(year, month, 1, tzinfo=zone).astimezone(UTC)
    end = datetime(year + 1, month, 1, tzinfo=zone).astimezone(UTC)
    at = 0
    while moment < end:
        shown = moment.astimezone(zone)
        assert laid.starts_s[at] == moment.timestamp()
        assert laid.minute_of_day[at] == 60 * shown.hour + shown.minute
        day = laid.day_index[at]
        assert laid.dates[day] == shown.date()
        assert laid.weekdays[day] == shown.weekday()
        at += 1
        moment += timedelta(minutes=step)
    assert at == laid.count


@pytest.mark.source(
    "daylight saving of the United States in 2027 and 2028 (zoneinfo), and the Gregorian calendar"
)
def test_short_long_and_leap_days_are_there() -> None:
    zone = ZoneInfo("America/New_York")
    common, leap = (LocalYear(zone, date(year, 1, 1), 60) for year in (2027, 2028))
    hours = dict(zip(common.dates, common.hours_of_days(), strict=True))
    assert {day: given for day, given in hours.items() if given != 24} == {
        date(2027, 3, 14): 23,
        date(2027, 11, 7): 25,
    }
    assert (common.count, leap.count) == (8760, 8784)
    assert date(2028, 2, 29) in leap.dates
    assert list(leap.days_in_month) == [31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31]


@pytest.mark.source("the Gregorian calendar")
def test_a_year_may_begin_with_any_month() -> None:
    laid = LocalYear(ZoneInfo("Europe/Lisbon"), date(2027, 7, 1), 60)
    assert laid.months[0] == "2027-07"
    assert laid.months[-1] == "2028-06"
    assert laid.dates[-1] == date(2028, 6, 30)
    assert list(laid.days_in_month) == [31, 31, 30, 31, 30, 31, 31, 29, 31, 30, 31, 30]


@pytest.mark.source("the zone's own rules: midnight is skipped in Cairo on 28 April 2028 (zoneinfo)")
def test_a_day_without_midnight_begins_with_its_first_hour() -> None:
    laid = LocalYear(ZoneInfo("Africa/Cairo"), date(2028, 1, 1), 60)
    first = int((laid.day_index == laid.dates.index(date(2028, 4, 28))).argmax())
    assert laid.clock(first).isoformat() == "2028-04-28T01:00:00+03:00"
    assert laid.minute_of_day[first] == 60


@pytest.mark.source("the zones' own rules (zoneinfo): Lord Howe Island shifts its clock by half an hour")
@pytest.mark.parametrize(
    ("name", "minutes"), [("Australia/Lord_Howe", 30), ("Asia/Kolkata", 60), ("America/Denver", 60)]
)
def test_the_zone_says_how_short_intervals_must_be(name: str, minutes: int) -> None:
    assert zone_step_minutes(ZoneInfo(name), date(2027, 1, 1)) == minutes


def test_a_year_that_cannot_be_laid_out_is_refused() -> None:
    with pytest.raises(ValueError, match="not the first of a month"):
        LocalYear(ZoneInfo("UTC"), date(2027, 1, 2), 60)
    # The clock of Pyongyang was set back by half an hour in August 2015.
    with pytest.raises(ValueError, match="no whole number"):
        LocalYear(ZoneInfo("Asia/Pyongyang"), date(2015, 1, 1), 60)


def test_a_year_is_laid_out_once_and_cannot_be_written_to() -> None:
    zone = ZoneInfo("America/Denver")
    laid = local_year(zone, date(2027, 1, 1), 60)
    assert local_year(zone, date(2027, 1, 1), 60) is laid
    with pytest.raises(ValueError, match="read-only"):
        laid.starts_s[0] = 0
