"""Which dates count as holidays: against published calendars, and against the library asked without us."""

from datetime import date

import holidays
import pytest
from tests.checks.charging_cost.tariffs.reviews import TWO_SEASONS, Json, changed, findings_of, reviewed

from branchwright.checks.charging_cost.tariffs.facts import Tariff
from branchwright.checks.charging_cost.tariffs.holiday_calendar import (
    holiday_dates,
    known_countries,
    known_years,
    public_holidays,
)

FEDERAL = pytest.mark.source("US Office of Personnel Management, federal holidays of 2027; 5 U.S.C. 6103")
BANK = pytest.mark.source("UK bank holidays of England and Wales, gov.uk, 2022")

FEDERAL_2027 = {
    "2027-01-01",
    "2027-01-18",
    "2027-02-15",
    "2027-05-31",
    "2027-06-18",
    "2027-07-05",
    "2027-09-06",
    "2027-10-11",
    "2027-11-11",
    "2027-11-25",
    "2027-12-24",
    "2027-12-31",
}
"""Days off: Juneteenth, Independence Day, Christmas and New Year's Day of 2028 fall on weekends."""


def counted(tariff: Json, year: int) -> dict[str, str]:
    return {each["date"]: each["name"] for each in reviewed(tariff, year)["holidays"]}


def with_rule(rule: str, **more: object) -> Json:
    return {**changed(TWO_SEASONS, "/subdivision", ...), "observed_holidays": rule, **more}


@FEDERAL
def test_observed_days_are_those_of_the_federal_calendar() -> None:
    assert set(counted(with_rule("observed-day"), 2027)) == FEDERAL_2027


@FEDERAL
def test_a_new_year_that_is_observed_the_day_before_counts_in_the_old_year() -> None:
    names = ["New Year's Day"]
    assert set(counted(with_rule("observed-day", holiday_names=names), 2027)) == {"2027-01-01", "2027-12-31"}
    assert set(counted(with_rule("observed-day", holiday_names=names), 2028)) == set()
    assert set(counted(with_rule("actual-day", holiday_names=names), 2027)) == {"2027-01-01"}
    assert set(counted(with_rule("actual-day", holiday_names=names), 2028)) == {"2028-01-01"}
    assert set(counted(with_rule("both", holiday_names=names), 2027)) == {"2027-01-01", "2027-12-31"}


@FEDERAL
def test_the_day_itself_counts_where_the_tariff_says_so() -> None:
    weekend = {"2027-06-18": "06-19", "2027-07-05": "07-04", "2027-12-24": "12-25"}
    own = {f"2027-{weekend[day]}" if day in weekend else day for day in FEDERAL_2027} - {"2027-12-31"}
    assert set(counted(with_rule("actual-day"), 2027)) == own
    assert set(counted(with_rule("both"), 2027)) == own | FEDERAL_2027


@BANK
def test_substitute_days_of_another_country() -> None:
    tariff = with_rule("observed-day", country="GB", subdivision="ENG", time_zone="Europe/London")
    found = set(counted(tariff, 2022))
    # New Year's Day was a Saturday and Christmas Day a Sunday; Boxing Day kept its Monday.
    assert {"2022-01-03", "2022-12-26", "2022-12-27"} <= found
    assert not {"2022-01-01", "2022-12-25"} & found


@pytest.mark.parametrize("country, subdivision", [("US", "CO"), ("US", "MA"), ("CA", "QC"), ("DE", "BY")])
@pytest.mark.parametrize("year", [2024, 2027, 2028])
def test_both_days_are_what_the_library_lists(country: str, subdivision: str, year: int) -> None:
    listed = holidays.country_holidays(country, subdiv=subdivision, years=[year])
    tariff = with_rule("both", country=country, subdivision=subdivision)
    assert set(counted(tariff, year)) == {day.isoformat() for day in listed}


@pytest.mark.parametrize("country, subdivision", [("US", "CO"), ("AU", "VIC"), ("JP", None), ("MX", None)])
@pytest.mark.parametrize("year", [2024, 2027, 2028])
def test_own_days_are_what_the_library_lists_without_observed_ones(
    country: str, subdivision: str | None, year: int
) -> None:
    listed = holidays.country_holidays(country, subdiv=subdivision, years=[year], observed=False)
    tariff = with_rule("actual-day", country=country, **({"subdivision": subdivision} if subdivision else {}))
    assert set(counted(tariff, year)) == {day.isoformat() for day in listed}


def test_a_chosen_name_brings_its_observed_day() -> None:
    tariff = with_rule("observed-day", holiday_names=["Independence Day"])
    assert counted(tariff, 2027) == {"2027-07-05": "Independence Day (observed)"}


def test_stated_dates_count_beside_the_calendar_and_alone() -> None:
    more = ["2027-11-26", "2028-11-24"]
    beside = with_rule("observed-day", holiday_dates=more)
    assert set(counted(beside, 2027)) == FEDERAL_2027 | {"2027-11-26"}
    alone = {field: value for field, value in beside.items() if field not in ("country", "observed_holidays")}
    assert counted(alone, 2027) == {"2027-11-26": "date stated in the tariff"}


def test_a_holiday_is_priced_as_one() -> None:
    """Monday 5 July 2027 observes Independence Day; its afternoon costs what a weekend's does."""
    answer = reviewed(changed(TWO_SEASONS, "/seasons/0/from", "07-05"))
    answer = reviewed(
        {
            **TWO_SEASONS,
            "seasons": [
                {"name": "summer", "from": "07-05", "to": "09-30"},
                {"name": "winter", "from": "10-01", "to": "07-04"},
            ],
        }
    )
    monday, tuesday = answer["weeks"][0]["days"][:2]
    assert (monday["date"], monday["holiday"]) == ("2027-07-05", "Independence Day (observed)")
    assert (monday["day_types"], tuesday["day_types"]) == (["rest-day"], ["workday"])
    afternoon = [next(hour for hour in day["hours"] if "T15:00" in hour["at"]) for day in (monday, tuesday)]
    assert [hour["per_kwh"] for hour in afternoon] == ["0.11", "0.31"]


def test_a_calendar_that_does_not_know_the_year_leaves_it_open() -> None:
    tariff = with_rule("both", country="LK", time_zone="Asia/Colombo")
    (finding,) = findings_of(reviewed(tariff, 2060), "tariff-holiday-calendar")
    assert finding["outcome"] == "undetermined"
    assert f"to {known_years('LK')[-1]} only" in finding["message"]


@pytest.mark.parametrize("year", [2000, 2024, 2027, 2100])
def test_every_known_calendar_is_read_without_a_warning(year: int) -> None:
    for country in known_countries():
        found = public_holidays(country, None, year)
        assert all(holiday.day.year == year for holiday in found), country


def test_a_span_over_the_new_year_has_the_holidays_of_both_years() -> None:
    tariff = Tariff.model_validate(with_rule("observed-day"))
    found = holiday_dates(tariff, date(2027, 12, 1), date(2028, 1, 31))
    assert [day.isoformat() for day in found] == ["2027-12-24", "2027-12-31", "2028-01-17"]
