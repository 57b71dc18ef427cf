"""Whatever fits the schema is answered: odd tariffs, large ones, and any that can be drawn."""

import json
import time
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from tests.checks.charging_cost.tariffs.reviews import FLAT, Json, asked, failing, rate, reviewed
from tests.checks.replay import replay

from branchwright.checks.charging_cost.tariffs import TariffReviewRequest
from branchwright.checks.charging_cost.tariffs.calendar_facts import MOST_DAY_TYPES, MOST_SEASONS
from branchwright.checks.charging_cost.tariffs.facts import MOST_CHARGES, MOST_EVENTS
from branchwright.http_api.v1.cost_examples import CHARGING_METER, STEPPED, TIME_OF_USE

GREATEST = "999999999999.99999999"

NAMES = st.sampled_from(["summer", "winter", "workday", "peak", "x"])
OPTIONAL_NAMES = st.none() | NAMES
MONEY = st.sampled_from(["0", "0.1", "0.00000001", "12.5", GREATEST])
SIGNED = MONEY | st.sampled_from(["-0.1", "-0", "-" + GREATEST])
CLOCKS = st.sampled_from(["00:00", "00:15", "06:30", "12:00", "23:45"])
DAYS = st.sampled_from(["01-01", "02-28", "02-29", "02-30", "06-15", "12-31"])
DATES = st.sampled_from(["1900-01-01", "2027-01-01", "2027-02-29", "2027-03-14", "2027-12-31", "2199-12-31"])
FLAGS = st.none() | st.booleans()
ARRANGEMENTS = st.none() | st.lists(
    st.sampled_from(["whole-house", "own-meter", "submeter"]), min_size=1, max_size=3
)
PER = st.sampled_from(["month", "day"])
KWH = st.none() | st.sampled_from([1e-9, 100, 200.5, 1e9])
TIERS = st.lists(
    st.fixed_dictionaries({"up_to_kwh": KWH, "per_kwh": SIGNED}, optional={"is_credit": FLAGS}), max_size=3
)


def rows(most: int, fields: dict[str, Any], optional: dict[str, Any] | None = None) -> st.SearchStrategy[Any]:
    return st.lists(st.fixed_dictionaries(fields, optional=optional or {}), max_size=most)


TARIFFS = st.fixed_dictionaries(
    {
        "name": NAMES,
        "currency": st.sampled_from(["USD", "JPY", "KWD", "QQQ"]),
        "time_zone": st.sampled_from(
            ["America/Denver", "Australia/Lord_Howe", "Pacific/Apia", "UTC", "Nowhere"]
        ),
        "energy_rates": rows(
            3,
            {"period": NAMES, "from": CLOCKS, "to": CLOCKS, "tiers": TIERS},
            {
                "season": OPTIONAL_NAMES,
                "day_type": OPTIONAL_NAMES,
                "allowance_per": st.none() | PER,
                "export_per_kwh": st.none() | MONEY,
            },
        )
        | st.just([rate("peak", "00:00", "00:00", "0.1", "0.2", export_per_kwh="0.3")]),
    },
    optional={
        "country": st.sampled_from(["US", "JP", "IN", "LK", "ZZ"]),
        "subdivision": st.sampled_from(["CO", "13", "XXX"]),
        "observed_holidays": st.sampled_from(["observed-day", "actual-day", "both"]),
        "holiday_names": st.lists(st.sampled_from(["Christmas Day", "x"]), max_size=2),
        "holiday_dates": st.lists(DATES, max_size=2),
        "effective": st.fixed_dictionaries({"from": DATES}, optional={"to": st.none() | DATES}),
        "seasons": rows(2, {"name": NAMES, "from": DAYS, "to": DAYS}),
        "day_types": rows(
            2,
            {"name": NAMES, "weekdays": st.lists(st.sampled_from(["mon", "sun"]), max_size=2)},
            {"holidays": st.sampled_from([None, "included", "excluded", "ignored"])},
        ),
        "tiers_on_all_energy": rows(2, {"name": NAMES, "tiers": TIERS}, {"season": OPTIONAL_NAMES}),
        "fixed_charges": rows(
            2,
            {"name": NAMES, "amount": SIGNED, "per": PER},
            {"season": OPTIONAL_NAMES, "is_credit": FLAGS, "arrangements": ARRANGEMENTS},
        ),
        "demand_charges": rows(
            2,
            {"name": NAMES, "per_kw": MONEY, "averaging_minutes": st.sampled_from([15, 30, 60])},
            {
                "season": OPTIONAL_NAMES,
                "period": OPTIONAL_NAMES,
                "ratchet": st.just({"percent": 60, "months": 11}),
            },
        ),
        "minimum_bill": st.none() | st.just({"amount": "5", "per": "day", "counts": ["energy"]}),
        "riders": rows(
            3,
            {"name": NAMES},
            {
                "per_kwh": st.none() | SIGNED,
                "percent": st.sampled_from([None, "-100", "3.1", "9999.99999999"]),
                "season": OPTIONAL_NAMES,
                "applies_to": st.sampled_from([None, ["energy"], ["demand"], ["critical-peak", "fixed"]]),
                "is_credit": FLAGS,
                "is_tax": FLAGS,
            },
        ),
        "credits": rows(
            2,
            {"name": NAMES},
            {
                "per_kwh": st.none() | MONEY,
                "amount": st.none() | MONEY,
                "per": st.none() | PER,
                "season": OPTIONAL_NAMES,
                "period": OPTIONAL_NAMES,
                "up_to_kwh": KWH,
            },
        ),
        "critical_peak_events": rows(
            3,
            {
                "date": DATES,
                "from": CLOCKS,
                "to": CLOCKS,
                "per_kwh": MONEY,
                "how": st.sampled_from(["added", "instead"]),
            },
        ),
        "rounding": st.none()
        | st.fixed_dictionaries({"line": FLAGS, "half": st.sampled_from(["up", "even"])}),
        "arrangements": ARRANGEMENTS,
    },
)


@settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(TARIFFS, st.sampled_from([2000, 2011, 2027, 2028, 2100]))
def test_whatever_fits_the_schema_is_answered(tariff: Json, year: int) -> None:
    answer = reviewed(tariff, year)
    fails = {
        finding["rule"]
        for finding in answer["findings"]
        if finding["outcome"] == "fail" and finding["force"] == "requirement"
    }
    assert (answer["verdict"] == "fail") == bool(fails)
    assert (answer["weeks"] == []) == bool(fails)
    if not fails:
        replay(answer, asked(tariff, year))
        assert sum(period["hours"] for period in answer["periods"]) == answer["hours_in_year"]


@pytest.mark.parametrize("tariff", [STEPPED, TIME_OF_USE, CHARGING_METER], ids=lambda tariff: tariff["name"])
def test_the_examples_are_sound_and_replay(tariff: Json) -> None:
    answer = reviewed(tariff)
    assert failing(answer) == []
    replay(answer, asked(tariff))


def test_a_zone_that_skipped_a_date_has_no_hours_on_it() -> None:
    """Samoa went over the date line: no 30 December 2011."""
    answer = reviewed({**FLAT, "time_zone": "Pacific/Apia"}, 2011)
    assert answer["hours_in_year"] == 8760 - 24
    assert failing(answer) == []


@pytest.mark.parametrize("price", [GREATEST, "0.00000001", "0"])
def test_prices_of_any_size_come_out_exactly(price: str) -> None:
    answer = reviewed({**FLAT, "energy_rates": [rate("any time", "00:00", "00:00", price)]})
    (hour, *_) = answer["weeks"][0]["days"][0]["hours"]
    assert hour["per_kwh"] == price
    assert "e" not in hour["with_riders_per_kwh"].lower()


def largest() -> Json:
    """Return a tariff with as many of everything as the schema takes."""
    seasons = [
        {"name": f"season {month}", "from": f"{month:02}-01", "to": f"{month:02}-{days}"}
        for month, days in enumerate((31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31), 1)
    ]
    kinds = [
        {"name": f"kind {at}", "weekdays": ["mon"], "holidays": "included"} for at in range(MOST_DAY_TYPES)
    ]
    rates = [
        rate(f"period {at}", f"{at % 24:02}:15", f"{(at + 7) % 24:02}:45", *["0.1"] * 10, day_type="kind 0")
        for at in range(100)
    ]
    event = {"from": "00:00", "to": "00:00", "per_kwh": "1", "how": "added"}
    return {
        **FLAT,
        "country": "US",
        "seasons": seasons,
        "day_types": kinds,
        "energy_rates": rates,
        "riders": [{"name": f"rider {at}", "percent": "1"} for at in range(MOST_CHARGES)],
        "critical_peak_events": [
            {"date": f"2027-{at % 12 + 1:02}-{at % 28 + 1:02}", **event} for at in range(MOST_EVENTS)
        ],
    }


def test_the_largest_tariff_is_answered_in_bounded_time_and_size() -> None:
    tariff = largest()
    assert len(tariff["seasons"]) == MOST_SEASONS
    begin = time.perf_counter()
    answer = reviewed(tariff)
    # Some 0.1 s alone on one core; the bound is for a busy machine.
    assert time.perf_counter() - begin < 10
    assert answer["verdict"] == "fail"
    assert len(json.dumps(answer)) < 1_000_000


def test_a_request_needs_few_fields() -> None:
    schema = TariffReviewRequest.model_json_schema()
    assert schema["required"] == ["tariff", "year"]
    assert schema["$defs"]["Tariff"]["required"] == ["name", "currency", "time_zone", "energy_rates"]
