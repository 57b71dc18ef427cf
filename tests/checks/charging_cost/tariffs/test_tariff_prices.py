"""What each hour costs: by hand, against the clock, and the working replayed."""

import json
from collections import defaultdict
from datetime import UTC, datetime
from fractions import Fraction
from zoneinfo import ZoneInfo

import numpy as np
import pytest
from tests.checks.charging_cost.tariffs.reviews import FLAT, TWO_SEASONS, Json, asked, changed, rate, reviewed
from tests.checks.replay import replay

from branchwright.checks.charging_cost.tariffs.facts import TariffReviewRequest
from branchwright.checks.charging_cost.tariffs.given import Given
from branchwright.checks.charging_cost.tariffs.next_kwh import NextKwh
from branchwright.checks.charging_cost.tariffs.priced import PricedTariff
from branchwright.checks.charging_cost.tariffs.review import year_of

BY_HAND = pytest.mark.source("worked by hand")
TZDB = pytest.mark.source("IANA time zone database, as zoneinfo reads it")

EVENTS: Json = {
    **FLAT,
    "name": "Marsh Lane with events",
    "energy_rates": [rate("any time", "00:00", "00:00", "0.12", "0.15", export_per_kwh="0.05")],
    "tiers_on_all_energy": [
        {"name": "step", "tiers": [{"up_to_kwh": 300, "per_kwh": "0.01"}, {"per_kwh": "0.02"}]}
    ],
    "critical_peak_events": [
        {"date": "2027-01-04", "from": "16:00", "to": "18:00", "per_kwh": "0.90", "how": "added"},
        {"date": "2027-01-05", "from": "16:15", "to": "18:00", "per_kwh": "1.20", "how": "instead"},
    ],
    "riders": [
        {"name": "fuel", "per_kwh": "0.004"},
        {"name": "back", "per_kwh": "-0.001", "is_credit": True},
        {"name": "grid", "percent": "10"},
        {"name": "peaks", "percent": "5", "applies_to": ["critical-peak"]},
        {"name": "excise", "per_kwh": "0.002", "is_tax": True},
        {"name": "energy tax", "percent": "2", "applies_to": ["energy"], "is_tax": True},
        {"name": "sales tax", "percent": "8", "is_tax": True},
    ],
    "credits": [{"name": "relief", "per_kwh": "0.003"}],
}


def hours_of(answer: Json, week: int, day: int) -> dict[str, Json]:
    return {hour["at"][11:16]: hour for hour in answer["weeks"][week]["days"][day]["hours"]}


@BY_HAND
def test_an_hour_with_riders_and_taxes() -> None:
    """Summer afternoon: 0.31 and 10 % of it, fuel 0.004: 0.345; with 3.1 % tax 0.355695."""
    answer = reviewed(TWO_SEASONS)
    summer = hours_of(answer, 0, 0)
    assert answer["weeks"][0]["week_start"] == "2027-06-07"
    assert summer["14:00"]["per_kwh"] == "0.31"
    assert summer["14:00"]["with_riders_per_kwh"] == "0.355695"
    assert summer["13:00"]["with_riders_per_kwh"] == "0.128875"
    assert summer["19:00"]["period"] == "off-peak"
    winter = hours_of(answer, 1, 0)["14:00"]
    assert (winter["per_kwh"], winter["last_tier_per_kwh"]) == ("0.10", "0.13")


@BY_HAND
def test_critical_peaks_and_every_kind_of_rider() -> None:
    """Monday's event is added, Tuesday's stands instead of the rates and begins at a quarter past.

    Before taxes: energy 0.12 and step 0.01, with 10 % of both 0.143; fuel, back and relief: 0.000 on balance;
    event 0.90 with 10 % and 5 %: 1.035. Taxes: excise 0.002, 2 % of 0.13 is 0.0026, 8 % of what stands before taxes.
    """
    answer = reviewed(EVENTS)
    monday, tuesday = hours_of(answer, 0, 0), hours_of(answer, 0, 1)
    plain = Fraction("0.143") * Fraction("1.08") + Fraction("0.0046")
    added = plain + Fraction("1.035") * Fraction("1.08")
    instead = Fraction("1.20") * Fraction("1.15") * Fraction("1.08") + Fraction("0.002")
    assert Fraction(monday["15:00"]["with_riders_per_kwh"]) == plain
    assert Fraction(monday["16:00"]["with_riders_per_kwh"]) == added
    assert monday["16:00"]["critical_peak"] == {"per_kwh": "0.90", "how": "added"}
    assert Fraction(tuesday["16:15"]["with_riders_per_kwh"]) == instead
    assert (tuesday["16:00"]["minutes"], tuesday["16:15"]["minutes"]) == (15, 45)
    assert tuesday["16:00"]["critical_peak"] is None
    assert tuesday["16:15"]["export_per_kwh"] == "0.05"


@pytest.mark.parametrize("tariff", [FLAT, TWO_SEASONS, EVENTS], ids=lambda tariff: tariff["name"])
def test_the_dearest_hour_replays_and_is_the_dearest(tariff: Json) -> None:
    answer = reviewed(tariff)
    replay(answer, asked(tariff))
    last = answer["steps"][-1]
    assert last["id"] == "dearest-hour"
    shown = [
        float(hour["with_riders_per_kwh"])
        for week in answer["weeks"]
        for day in week["days"]
        for hour in day["hours"]
    ]
    assert last["value"] == pytest.approx(max(shown), abs=1e-8)


def test_a_rider_of_a_part_of_the_month_replays() -> None:
    """A percentage is of the month's bill: of half a season in June it is taken by the month's days."""
    tariff = changed(TWO_SEASONS, "/seasons/0/from", "06-16")
    tariff = changed(tariff, "/seasons/1/to", "06-15")
    tariff = changed(tariff, "/riders/1/season", "summer")
    answer = reviewed(tariff)
    replay(answer, asked(tariff))
    (grid,) = [step for step in answer["steps"] if step["id"] == "riders-1"]
    # The dearest hour is of July: the whole percentage holds there.
    assert grid["value"] == pytest.approx(0.031)


@pytest.mark.parametrize("tariff", [FLAT, TWO_SEASONS, EVENTS], ids=lambda tariff: tariff["name"])
def test_prices_are_those_that_schedules_go_by(tariff: Json) -> None:
    given = Given(TariffReviewRequest.model_validate(asked(tariff)).tariff, datetime(2027, 1, 1).date(), "")
    year = year_of(given)
    assert year is not None
    priced = PricedTariff(given.tariff, year)
    prices = NextKwh(priced)
    exact = np.array([float(price.with_riders_per_kwh) for price in prices.prices])
    assert exact[prices.of_interval] == pytest.approx(priced.marginal_per_kwh, abs=1e-8)


@TZDB
@pytest.mark.parametrize(
    "zone, year, hours, short, long",
    [
        ("America/Denver", 2027, 8760, {"2027-03-14": 23.0}, {"2027-11-07": 25.0}),
        ("America/Denver", 2028, 8784, {"2028-03-12": 23.0}, {"2028-11-05": 25.0}),
        ("America/Phoenix", 2027, 8760, {}, {}),
        ("Australia/Lord_Howe", 2027, 8760, {"2027-10-03": 23.5}, {"2027-04-04": 24.5}),
    ],
)
def test_the_year_has_the_hours_of_its_zone(
    zone: str, year: int, hours: int, short: dict[str, float], long: dict[str, float]
) -> None:
    answer = reviewed({**FLAT, "time_zone": zone}, year)
    where = ZoneInfo(zone)
    ends = [datetime(at, 1, 1, tzinfo=where).astimezone(UTC) for at in (year, year + 1)]
    assert answer["hours_in_year"] == hours == (ends[1] - ends[0]).total_seconds() / 3600
    assert {day["date"]: day["hours"] for day in answer["short_days"]} == short
    assert {day["date"]: day["hours"] for day in answer["long_days"]} == long


@TZDB
@pytest.mark.parametrize("zone", ["America/Denver", "Australia/Lord_Howe", "Asia/Kolkata"])
def test_a_week_runs_through_the_clock_change_without_a_gap(zone: str) -> None:
    """The week of the season that begins with the change: hours follow each other as instants, and fill it."""
    seasons = [
        {"name": "first", "from": "03-08", "to": "09-26"},
        {"name": "second", "from": "09-27", "to": "03-07"},
    ]
    tariff = {**FLAT, "time_zone": zone, "seasons": seasons}
    answer = reviewed(tariff)
    assert [week["week_start"] for week in answer["weeks"]] == ["2027-03-08", "2027-01-04"]
    for week in answer["weeks"]:
        hours = [hour for day in week["days"] for hour in day["hours"]]
        starts = [datetime.fromisoformat(hour["at"]) for hour in hours]
        for start, hour, following in zip(starts, hours, starts[1:], strict=False):
            assert (following - start).total_seconds() == 60 * hour["minutes"]
            assert start.utcoffset() == start.astimezone(ZoneInfo(zone)).utcoffset()
    spring = sum(hour["minutes"] for day in answer["weeks"][0]["days"] for hour in day["hours"])
    assert spring == (7 * 24 - (zone == "America/Denver")) * 60


def test_a_season_without_a_whole_week_shows_the_days_that_it_has() -> None:
    seasons = [
        {"name": "turn", "from": "12-30", "to": "01-02"},
        {"name": "rest", "from": "01-03", "to": "12-29"},
    ]
    answer = reviewed({**FLAT, "seasons": seasons})
    turn = answer["weeks"][0]
    assert (turn["season"], turn["week_start"]) == ("turn", "2026-12-28")
    assert [day["date"] for day in turn["days"]] == ["2027-01-01", "2027-01-02"]


def test_periods_fill_the_year_and_averages_the_hours() -> None:
    answer = reviewed(TWO_SEASONS)
    assert sum(period["hours"] for period in answer["periods"]) == answer["hours_in_year"]
    on_peak = answer["periods"][0]
    # Weekdays of June to September 2027 without 18 June, 5 July and 6 September, by a paper calendar: 88 - 3 = 85.
    assert (on_peak["period"], on_peak["hours"]) == ("on-peak", 85 * 5)
    july = answer["price_by_month_and_hour"][6]
    assert july["month"] == "2027-07"
    # July 2027: 22 weekdays less the 5th, 31 days; 0.355695 and 0.128875 as worked above.
    assert july["per_kwh"][14] == f"{(21 * 0.355695 + 10 * 0.128875) / 31:.6f}"
    assert july["per_kwh"][13] == "0.128875"


def test_steps_and_values_go_over_the_wire_as_the_contract_says() -> None:
    answer = reviewed(EVENTS)
    texts = defaultdict(set)
    for month in answer["price_by_month_and_hour"]:
        texts["average"] |= {type(price) for price in month["per_kwh"]}
        assert len(month["per_kwh"]) == 24
    assert texts["average"] == {str}
    assert len(answer["price_by_month_and_hour"]) == 12
    assert "E" not in "".join(json.dumps(month["per_kwh"]) for month in answer["price_by_month_and_hour"])
