"""The year that is priced, against the clocks of zones and the calendars of holidays that others keep."""

from collections import Counter
from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

import holidays
import pytest
from tests.checks.charging_cost.reference_pricing import intervals, month_starts

from branchwright.checks.charging_cost.tariffs import TariffReviewRequest, review_tariff
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


def counted(country: str, subdivision: str | None, year: int, rule: str) -> dict[str, str]:
    """Return the holidays that a review counts, by date."""
    tariff = {
        "name": "by holidays",
        "currency": "USD",
        "time_zone": "Etc/GMT+7",
        "country": country,
        "subdivision": subdivision,
        "observed_holidays": rule,
        "energy_rates": [
            {
                "period": "any-time",
                "from": "00:00",
                "to": "00:00",
                "tiers": [{"up_to_kwh": None, "per_kwh": "0.1"}],
            }
        ],
    }
    answer = review_tariff(TariffReviewRequest.model_validate({"tariff": tariff, "year": year}))
    return {each.date: each.name for each in answer.holidays}


@pytest.mark.source("the library holidays, asked with and without the days on which holidays are observed")
@pytest.mark.parametrize(
    "country, subdivision",
    [("US", None), ("US", "CO"), ("US", "NY"), ("AU", "NSW"), ("DE", "BY"), ("GB", "ENG")],
)
@pytest.mark.parametrize("year", [2026, 2027, 2028, 2033])
def test_holidays_are_those_of_the_library(country: str, subdivision: str | None, year: int) -> None:
    own, both = (
        {
            day.isoformat()
            for day in holidays.country_holidays(
                country, subdiv=subdivision, years=range(year - 1, year + 2), observed=observed
            )
            if day.year == year
        }
        for observed in (False, True)
    )
    assert set(counted(country, subdivision, year, "actual-day")) == own
    assert set(counted(country, subdivision, year, "both")) == own | both


@pytest.mark.source(
    "5 USC 6103(b) and Executive Order 11582: a federal holiday on a Saturday is observed on the Friday before, one on "
    "a Sunday on the Monday after; weekdays of the dates by hand"
)
@pytest.mark.parametrize(
    "year, rule, are, are_not",
    [
        # 4 July 2027 is a Sunday, 25 December 2027 and 1 January 2028 are Saturdays.
        (2027, "observed-day", ["2027-07-05", "2027-12-24", "2027-12-31"], ["2027-07-04", "2027-12-25"]),
        (2027, "actual-day", ["2027-07-04", "2027-12-25"], ["2027-07-05", "2027-12-24", "2027-12-31"]),
        (2027, "both", ["2027-07-04", "2027-07-05", "2027-12-24", "2027-12-25", "2027-12-31"], []),
        (2028, "observed-day", ["2028-07-04", "2028-11-10"], ["2028-01-01", "2028-11-11"]),
        (2028, "actual-day", ["2028-01-01", "2028-07-04", "2028-11-11"], ["2028-11-10"]),
    ],
)
def test_the_day_on_which_a_holiday_is_observed(
    year: int, rule: str, are: list[str], are_not: list[str]
) -> None:
    found = counted("US", None, year, rule)
    assert set(are) <= set(found)
    assert not set(are_not) & set(found)


@pytest.mark.source(
    "City of River Falls, Wisconsin, time-of-day rates: six holidays; their dates of 2027 by hand"
)
def test_only_the_holidays_that_a_sheet_names() -> None:
    # Memorial Day is the last Monday of May, Labor Day the first of September, Thanksgiving the fourth Thursday of
    # November; the other three lie on their dates, and are observed beside a weekend.
    names = [
        "New Year's Day",
        "Memorial Day",
        "Independence Day",
        "Labor Day",
        "Thanksgiving Day",
        "Christmas Day",
    ]
    tariff = {
        "name": "time of day",
        "currency": "USD",
        "time_zone": "America/Chicago",
        "country": "US",
        "subdivision": "WI",
        "observed_holidays": "observed-day",
        "holiday_names": names,
        "energy_rates": [
            {
                "period": "any-time",
                "from": "00:00",
                "to": "00:00",
                "tiers": [{"up_to_kwh": None, "per_kwh": "0.1"}],
            }
        ],
    }
    answer = review_tariff(TariffReviewRequest.model_validate({"tariff": tariff, "year": 2027}))
    assert [each.date for each in answer.holidays] == [
        "2027-01-01",
        "2027-05-31",
        "2027-07-05",
        "2027-09-06",
        "2027-11-25",
        "2027-12-24",
        "2027-12-31",
    ]
