"""Gaps and double prices: found on every kind of day, also those that the year in question does not have."""

from datetime import date, timedelta

from hypothesis import given, settings
from hypothesis import strategies as st
from tests.checks.charging_cost.tariffs.reviews import (
    FLAT,
    SUMMER,
    TWO_SEASONS,
    Json,
    changed,
    failing,
    findings_of,
    rate,
    reviewed,
)

from branchwright.checks.charging_cost.tariffs.facts import Tariff
from branchwright.checks.charging_cost.tariffs.soundness import judged_tariff

WEEKDAYS = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"]


def test_a_gap_names_the_hour_and_a_date() -> None:
    gap = changed(TWO_SEASONS, "/energy_rates/1/from", "20:00")
    (finding,) = findings_of(reviewed(gap), "tariff-no-hour-unpriced")
    assert finding["outcome"] == "fail"
    # 1 June 2027 is a Tuesday, by any almanac.
    assert finding["message"] == (
        "Nothing prices 19:00 to 20:00 on Monday to Friday in summer; first at 2027-06-01 19:00, a Tuesday."
    )


def test_a_gap_between_seasons_is_said_to_lie_outside_them() -> None:
    """A season that begins in November leaves October without a price, and no other month."""
    later = changed(TWO_SEASONS, "/seasons/1/from", "11-01")
    messages = [each["message"] for each in findings_of(reviewed(later), "tariff-no-hour-unpriced")]
    assert (
        "Nothing prices 00:00 to 24:00 on every day outside the seasons; first at 2027-10-01 00:00, a Friday."
        in (messages)
    )


def test_a_double_price_names_both_rows() -> None:
    twice = changed(TWO_SEASONS, "/energy_rates/1/from", "18:45")
    (finding,) = findings_of(reviewed(twice), "tariff-no-hour-priced-twice")
    assert finding["pointer"] == "/tariff/energy_rates/1"
    assert "/tariff/energy_rates/0, /tariff/energy_rates/1" in finding["message"]
    assert "18:45 to 19:00" in finding["message"]


def test_holidays_without_a_price_are_found_in_a_year_whose_holidays_all_have_one() -> None:
    """Weekend days exclude holidays here, and only workdays that are holidays have a price."""
    tariff = changed(TWO_SEASONS, "/day_types/1", {"name": "rest-day", "weekdays": ["sat", "sun"]})
    tariff = changed(tariff, "/day_types/1/holidays", "excluded")
    tariff = changed(
        tariff,
        "/day_types/-",
        {"name": "holiday", "weekdays": [], "holidays": "included"},
    )
    tariff = changed(
        tariff,
        "/energy_rates/-",
        rate("off-peak", "00:00", "00:00", "0.11", season=SUMMER, day_type="holiday"),
    )
    assert failing(reviewed(tariff)) == []
    lacking = changed(tariff, "/energy_rates/4", ...)
    (finding,) = findings_of(reviewed(lacking), "tariff-no-hour-unpriced")
    assert "where it is a holiday" in finding["message"]
    # Juneteenth of 2027, a Saturday, is observed on Friday 18 June: 5 U.S.C. 6103(b).
    assert "first at 2027-06-18 00:00, a Friday." in finding["message"]


def test_29_february_is_tried_in_a_common_year() -> None:
    seasons = [
        {"name": SUMMER, "from": "03-01", "to": "10-31"},
        {"name": "winter", "from": "11-01", "to": "02-28"},
    ]
    answer = reviewed(changed(TWO_SEASONS, "/seasons", seasons), 2027)
    (finding,) = findings_of(answer, "tariff-seasons")
    assert finding["message"] == "No season has 02-29."


def test_rows_that_meet_at_midnight_are_no_fault() -> None:
    rates = [rate("night", "22:00", "07:00", "0.08"), rate("day", "07:00", "22:00", "0.2")]
    assert failing(reviewed({**FLAT, "energy_rates": rates})) == []


SEASONS = st.sampled_from(
    [
        [],
        [{"name": "s", "from": "05-01", "to": "09-30"}, {"name": "w", "from": "10-01", "to": "04-30"}],
        [{"name": "s", "from": "01-01", "to": "12-31"}],
    ]
)
QUARTER = st.integers(0, 95).map(lambda quarter: f"{quarter // 4:02}:{quarter % 4 * 15:02}")
DAY_TYPES = st.lists(
    st.fixed_dictionaries(
        {
            "weekdays": st.lists(st.sampled_from(WEEKDAYS), max_size=7),
            "holidays": st.sampled_from(["included", "excluded", "ignored"]),
        }
    ),
    min_size=1,
    max_size=3,
)


@st.composite
def tariffs(draw: st.DrawFn) -> Json:
    seasons, day_types = draw(SEASONS), draw(DAY_TYPES)
    for at, day_type in enumerate(day_types):
        day_type["name"] = f"kind {at}"
    season = st.sampled_from([None, *[each["name"] for each in seasons]])
    kind = st.sampled_from([None, *[each["name"] for each in day_types]])
    rates = [
        rate(f"period {at}", draw(QUARTER), draw(QUARTER), "0.1", season=draw(season), day_type=draw(kind))
        for at in range(draw(st.integers(1, 4)))
    ]
    return {**FLAT, "country": "US", "seasons": seasons, "day_types": day_types, "energy_rates": rates}


def prices_at(tariff: Json, day: str, weekday: str, is_holiday: bool, minute: int) -> int:
    """Return how many rates price a minute, from the words of the contract alone."""
    count = 0
    for row in tariff["energy_rates"]:
        if row["season"] is not None:
            (season,) = [each for each in tariff["seasons"] if each["name"] == row["season"]]
            if season["from"] <= season["to"]:
                lies = season["from"] <= day <= season["to"]
            else:
                lies = not season["to"] < day < season["from"]
            if not lies:
                continue
        if row["day_type"] is not None:
            (kind,) = [each for each in tariff["day_types"] if each["name"] == row["day_type"]]
            of_kind = weekday in kind["weekdays"]
            if is_holiday:
                of_kind = {"included": True, "excluded": False, "ignored": of_kind}[kind["holidays"]]
            if not of_kind:
                continue
        begin, end = (int(row[field][:2]) * 60 + int(row[field][3:]) for field in ("from", "to"))
        count += begin <= minute < end if begin < end else (minute >= begin or minute < end)
    return count


@settings(max_examples=60, deadline=None)
@given(tariffs())
def test_faults_are_found_where_a_count_by_hand_finds_them(stated: Json) -> None:
    """Every date of a leap year, on each weekday, as a holiday and not, at every quarter of an hour of some hours."""
    days = [f"{date(2000, 1, 1) + timedelta(days=after):%m-%d}" for after in range(0, 366, 30)]
    treats = any(each["holidays"] != "ignored" for each in stated["day_types"])
    counts = {
        prices_at(stated, day, weekday, is_holiday, minute)
        for day in [*days, "02-29", "04-30", "05-01", "09-30", "10-01", "12-31"]
        for weekday in WEEKDAYS
        for is_holiday in ((False, True) if treats else (False,))
        for minute in range(0, 1440, 15)
    }
    outcomes = {
        finding.rule: finding.outcome
        for finding in judged_tariff(Tariff.model_validate(stated), date(2027, 1, 1))
    }
    assert outcomes["tariff-no-hour-unpriced"] == ("fail" if 0 in counts else "pass")
    assert outcomes["tariff-no-hour-priced-twice"] == ("fail" if max(counts) > 1 else "pass")


def test_pointers_begin_where_the_tariff_stands() -> None:
    gap = Tariff.model_validate(changed(TWO_SEASONS, "/energy_rates/1", ...))
    found = judged_tariff(gap, date(2027, 4, 1), "/tariffs/3")
    assert {finding.pointer for finding in found if finding.outcome == "fail"} == {"/tariffs/3/energy_rates"}
    assert all(finding.pointer is None or finding.pointer.startswith("/tariffs/3") for finding in found)
