"""Each rule of a tariff: what it passes, and what it fails with which place and which values."""

from typing import Any

import pytest
from tests.checks.charging_cost.tariffs.reviews import (
    FLAT,
    TWO_SEASONS,
    WINTER,
    Json,
    changed,
    failing,
    findings_of,
    rate,
    reviewed,
)

from branchwright.checks.charging_cost.tariffs import RULES

EVENT: Json = {"date": "2027-07-08", "from": "16:00", "to": "18:00", "per_kwh": "0.90", "how": "added"}


def test_a_sound_tariff_fails_no_rule() -> None:
    answer = reviewed(TWO_SEASONS)
    assert failing(answer) == []
    assert answer["verdict"] == "no-failure-found"
    assert [finding["rule"] for finding in answer["findings"]] == [rule.name for rule in RULES]


def test_the_least_that_can_be_asked_is_answered() -> None:
    answer = reviewed(FLAT)
    assert answer["verdict"] == "no-failure-found"
    assert len(answer["weeks"]) == 1


FAULTS = [
    pytest.param(FLAT, "/currency", "USX", "tariff-currency", "/currency", ..., "USX", id="currency"),
    pytest.param(
        FLAT,
        "/time_zone",
        "America/Denwer",
        "tariff-time-zone",
        "/time_zone",
        "America/Denver",
        "America/Denwer",
        id="zone",
    ),
    pytest.param(
        TWO_SEASONS, "/country", "ZZ", "tariff-holiday-calendar", "/country", ..., "ZZ", id="country"
    ),
    pytest.param(
        TWO_SEASONS,
        "/subdivision",
        "CX",
        "tariff-holiday-calendar",
        "/subdivision",
        ...,
        "CX",
        id="subdivision",
    ),
    pytest.param(
        FLAT,
        "/subdivision",
        "CO",
        "tariff-holiday-calendar",
        "/subdivision",
        "country",
        "CO",
        id="subdivision of no country",
    ),
    pytest.param(
        TWO_SEASONS,
        "/holiday_names",
        ["Independence Day", "Independance Day"],
        "tariff-holiday-names",
        "/holiday_names/1",
        ...,
        "Independance Day",
        id="holiday name",
    ),
    pytest.param(
        TWO_SEASONS,
        "/holiday_dates",
        ["2027-12-24", "2027-02-30"],
        "tariff-dates",
        "/holiday_dates/1",
        "a date of the calendar",
        "2027-02-30",
        id="30 February",
    ),
    pytest.param(
        FLAT,
        "/effective",
        {"from": "2027-02-29"},
        "tariff-dates",
        "/effective/from",
        "a date of the calendar",
        "2027-02-29",
        id="29 February of a common year",
    ),
    pytest.param(
        TWO_SEASONS,
        "/seasons/0/to",
        "09-31",
        "tariff-dates",
        "/seasons/0/to",
        "a date of the calendar",
        "09-31",
        id="31 September",
    ),
    pytest.param(
        FLAT,
        "/effective",
        {"from": "2027-07-01", "to": "2027-06-30"},
        "tariff-in-force",
        "/effective/to",
        "2027-07-01 or later",
        "2027-06-30",
        id="ends before it begins",
    ),
    pytest.param(
        TWO_SEASONS,
        "/seasons/1/name",
        "summer",
        "tariff-names",
        "/seasons/1/name",
        "a name of its own",
        "summer",
        id="two seasons of one name",
    ),
    pytest.param(
        TWO_SEASONS,
        "/riders/1/name",
        "fuel",
        "tariff-names",
        "/riders/1/name",
        "a name of its own",
        "fuel",
        id="two riders of one name",
    ),
    pytest.param(
        TWO_SEASONS,
        "/energy_rates/0/season",
        "sumer",
        "tariff-references",
        "/energy_rates/0/season",
        ["summer", "winter"],
        "sumer",
        id="unknown season",
    ),
    pytest.param(
        TWO_SEASONS,
        "/energy_rates/2/day_type",
        "weekend",
        "tariff-references",
        "/energy_rates/2/day_type",
        ["workday", "rest-day"],
        "weekend",
        id="unknown day type",
    ),
    pytest.param(
        TWO_SEASONS,
        "/demand_charges",
        [{"name": "peak", "period": "peak", "per_kw": "4", "averaging_minutes": 60}],
        "tariff-references",
        "/demand_charges/0/period",
        ["on-peak", "off-peak", "base"],
        "peak",
        id="unknown period of demand",
    ),
    pytest.param(
        TWO_SEASONS,
        "/seasons/1/from",
        "09-30",
        "tariff-seasons",
        "/seasons/1",
        1.0,
        2.0,
        id="seasons overlap on a day",
    ),
    pytest.param(
        TWO_SEASONS,
        "/seasons/1/from",
        "10-02",
        "tariff-seasons",
        "/seasons",
        1.0,
        0.0,
        id="seasons leave a day",
    ),
    pytest.param(
        TWO_SEASONS,
        "/day_types/-",
        {"name": "never", "weekdays": []},
        "tariff-day-types",
        "/day_types/2/weekdays",
        "a weekday, or holidays included",
        "neither",
        id="no such day",
    ),
    pytest.param(
        FLAT, "/energy_rates", [], "tariff-no-hour-unpriced", "/energy_rates", 1.0, 0.0, id="no rates at all"
    ),
    pytest.param(
        FLAT,
        "/energy_rates/0/tiers",
        [],
        "tariff-tiers",
        "/energy_rates/0/tiers",
        1.0,
        0.0,
        id="no tiers",
    ),
    pytest.param(
        FLAT,
        "/energy_rates/0/tiers",
        [
            {"up_to_kwh": 500, "per_kwh": "0.1"},
            {"up_to_kwh": 400, "per_kwh": "0.2"},
            {"per_kwh": "0.3"},
        ],
        "tariff-tiers",
        "/energy_rates/0/tiers/1/up_to_kwh",
        500.0,
        400.0,
        id="tiers out of order",
    ),
    pytest.param(
        FLAT,
        "/energy_rates/0/tiers",
        [{"up_to_kwh": 500, "per_kwh": "0.1"}],
        "tariff-tiers",
        "/energy_rates/0/tiers/0/up_to_kwh",
        "open",
        "500 kWh",
        id="last tier not open",
    ),
    pytest.param(
        FLAT,
        "/energy_rates/0/tiers",
        [{"per_kwh": "0.1"}, {"per_kwh": "0.2"}],
        "tariff-tiers",
        "/energy_rates/0/tiers/0/up_to_kwh",
        "an end",
        "open",
        id="open tier in the middle",
    ),
    pytest.param(
        TWO_SEASONS,
        "/energy_rates/2/tiers/0/per_kwh",
        "0.12",
        "tariff-rows-of-one-price",
        "/energy_rates/2/tiers",
        "0.11",
        "0.12",
        id="one period at two prices",
    ),
    pytest.param(
        TWO_SEASONS,
        "/energy_rates/2/export_per_kwh",
        "0.05",
        "tariff-rows-of-one-price",
        "/energy_rates/2/export_per_kwh",
        "nothing",
        "0.05",
        id="one period with two export prices",
    ),
    pytest.param(
        FLAT,
        "/energy_rates/0/tiers/0/per_kwh",
        "-0.12",
        "tariff-credits-marked",
        "/energy_rates/0/tiers/0/per_kwh",
        "0",
        "-0.12",
        id="negative rate",
    ),
    pytest.param(
        FLAT,
        "/fixed_charges",
        [{"name": "meter", "amount": "-5", "per": "month"}],
        "tariff-credits-marked",
        "/fixed_charges/0/amount",
        "0",
        "-5",
        id="negative fixed charge",
    ),
    pytest.param(
        FLAT,
        "/riders",
        [{"name": "back", "percent": "2", "is_credit": True}],
        "tariff-credits-marked",
        "/riders/0/percent",
        "0",
        "2",
        id="credit above zero",
    ),
    pytest.param(
        FLAT,
        "/riders",
        [{"name": "nothing"}],
        "tariff-riders",
        "/riders/0",
        ["per_kwh", "percent"],
        "neither",
        id="rider of nothing",
    ),
    pytest.param(
        FLAT,
        "/riders",
        [{"name": "twice", "per_kwh": "0.01", "percent": "1"}],
        "tariff-riders",
        "/riders/0",
        ["per_kwh", "percent"],
        "both",
        id="rider stated twice",
    ),
    pytest.param(
        FLAT,
        "/riders",
        [{"name": "fuel", "per_kwh": "0.01", "applies_to": ["demand"]}],
        "tariff-riders",
        "/riders/0/applies_to",
        "not stated",
        "demand",
        id="rider per kWh of demand",
    ),
    pytest.param(
        FLAT,
        "/credits",
        [{"name": "solar"}],
        "tariff-bill-credits",
        "/credits/0",
        ["per_kwh", "amount"],
        "neither",
        id="credit of nothing",
    ),
    pytest.param(
        FLAT,
        "/credits",
        [{"name": "solar", "amount": "5", "up_to_kwh": 40}],
        "tariff-bill-credits",
        "/credits/0/up_to_kwh",
        "not stated",
        "40 kWh",
        id="sum with a greatest energy",
    ),
    pytest.param(
        {**FLAT, "arrangements": ["whole-house"]},
        "/fixed_charges",
        [{"name": "second meter", "amount": "5", "per": "month", "arrangements": ["own-meter"]}],
        "tariff-meters",
        "/fixed_charges/0/arrangements",
        ["whole-house"],
        "own-meter",
        id="charge for a meter that is not served",
    ),
    pytest.param(
        FLAT,
        "/critical_peak_events",
        [EVENT, {**EVENT, "from": "17:45", "to": "20:00"}],
        "tariff-events-apart",
        "/critical_peak_events/1",
        1.0,
        2.0,
        id="events overlap",
    ),
    pytest.param(
        FLAT,
        "/critical_peak_events",
        [EVENT, {**EVENT, "date": "2026-12-31"}],
        "tariff-events-in-year",
        "/critical_peak_events/1/date",
        "2027-01-01 to 2027-12-31",
        "2026-12-31",
        id="event of another year",
    ),
    pytest.param(
        FLAT,
        "/energy_rates/0/export_per_kwh",
        "0.15",
        "tariff-export-price",
        "/energy_rates/0/export_per_kwh",
        "0.12",
        "0.15",
        id="export dearer than import",
    ),
    pytest.param(
        FLAT,
        "/energy_rates",
        [rate(f"period {at}", "00:00", "00:00", *["0.1"] * 10) for at in range(21)],
        "tariff-size",
        "/energy_rates",
        200.0,
        210.0,
        id="too many lines",
    ),
]


@pytest.mark.parametrize("tariff, pointer, value, rule, place, required, provided", FAULTS)
def test_a_fault_is_named_with_its_place_and_values(
    tariff: Json, pointer: str, value: Any, rule: str, place: str, required: Any, provided: Any
) -> None:
    answer = reviewed(changed(tariff, pointer, value))
    finding = findings_of(answer, rule)[0]
    assert finding["outcome"] == "fail"
    assert finding["pointer"] == "/tariff" + place
    assert finding["provided"]["value"] == provided
    if required is not ...:
        assert finding["required"]["value"] == required
    if finding["force"] == "requirement":
        assert answer["verdict"] == "fail"
        assert answer["weeks"] == answer["price_by_month_and_hour"] == answer["periods"] == []
        assert answer["steps"] == []
    else:
        assert len(answer["weeks"]) == 1


def test_every_rule_that_can_fail_is_tried() -> None:
    tried = {param.values[3] for param in FAULTS}
    elsewhere = {"tariff-no-hour-priced-twice", "tariff-holidays-known"}
    assert tried | elsewhere == {rule.name for rule in RULES}


def test_the_nearest_name_is_proposed() -> None:
    for pointer, value, rule, like in (
        ("/time_zone", "America/Denwer", "tariff-time-zone", "America/Denver"),
        ("/energy_rates/0/season", "sumer", "tariff-references", "summer"),
        ("/energy_rates/0/day_type", "work day", "tariff-references", "workday"),
    ):
        (finding, *_) = findings_of(reviewed(changed(TWO_SEASONS, pointer, value)), rule)
        assert f"Perhaps {like} is meant." in finding["message"]


OPEN = [
    pytest.param(
        FLAT, "/effective", {"from": "2027-03-01"}, "tariff-in-force", "/effective/from", id="begins"
    ),
    pytest.param(
        FLAT,
        "/effective",
        {"from": "2020-01-01", "to": "2027-11-30"},
        "tariff-in-force",
        "/effective/to",
        id="ends",
    ),
]


@pytest.mark.parametrize("tariff, pointer, value, rule, place", OPEN)
def test_a_year_that_the_tariff_does_not_cover_is_undetermined(
    tariff: Json, pointer: str, value: Any, rule: str, place: str
) -> None:
    answer = reviewed(changed(tariff, pointer, value))
    (finding,) = findings_of(answer, rule)
    assert (finding["outcome"], finding["pointer"]) == ("undetermined", "/tariff" + place)
    assert answer["verdict"] == "undetermined"
    assert answer["weeks"] != []


def test_day_types_with_holidays_ask_where_the_holidays_come_from() -> None:
    lacking = {
        field: value
        for field, value in TWO_SEASONS.items()
        if field not in ("country", "subdivision", "observed_holidays")
    }
    (finding,) = findings_of(reviewed(lacking), "tariff-holidays-known")
    assert (finding["outcome"], finding["pointer"]) == ("undetermined", "/tariff/country")
    (finding,) = findings_of(reviewed({**lacking, "holiday_dates": ["2027-07-05"]}), "tariff-holidays-known")
    assert finding["outcome"] == "pass"


def test_more_than_ten_faults_of_a_rule_are_counted() -> None:
    riders = [{"name": f"rider {at}"} for at in range(14)]
    found = findings_of(reviewed({**FLAT, "riders": riders}), "tariff-riders")
    assert len(found) == 10
    assert found[-1]["message"].endswith("There are 4 more such places.")


def test_a_season_for_a_charge_alone_may_leave_dates_out() -> None:
    tariff = {
        **FLAT,
        "seasons": [{"name": WINTER, "from": "11-01", "to": "02-29"}],
        "demand_charges": [{"name": "peak", "season": WINTER, "per_kw": "4", "averaging_minutes": 15}],
    }
    answer = reviewed(tariff)
    assert failing(answer) == []
    assert [week["season"] for week in answer["weeks"]] == [WINTER, None]
