"""What a review has to have verified: whatever was assumed, where it was assumed, and nothing that was stated."""

import hashlib

import pytest
import rfc8785
from tests.checks.charging_cost.tariffs.reviews import (
    FLAT,
    TWO_SEASONS,
    Json,
    asked,
    changed,
    rate,
    reviewed,
)


def assumed(tariff: Json) -> dict[str, str]:
    return {
        item["pointer"]: item["stated"]
        for item in reviewed(tariff)["to_verify"]
        if item["stated"].startswith("not stated, taken as ")
    }


def test_the_tariff_itself_is_to_be_seen() -> None:
    assert reviewed(FLAT)["to_verify"][0]["pointer"] == "/tariff"
    assert set(assumed(FLAT)) == {"/tariff/rounding/line", "/tariff/rounding/half"}


def test_what_was_assumed_is_told_and_what_was_stated_is_not() -> None:
    found = assumed(TWO_SEASONS)
    assert "both" not in str(found)
    assert found["/tariff/holiday_names"].endswith("every public holiday of the place")
    assert found["/tariff/energy_rates/3/allowance_per"].endswith("month")
    assert found["/tariff/riders/2/applies_to"].endswith("the whole bill")
    assert "/tariff/riders/1/applies_to" not in found
    both = assumed(changed(TWO_SEASONS, "/observed_holidays", ...))
    assert "both the holiday and the day" in both["/tariff/observed_holidays"]
    ignored = assumed(changed(TWO_SEASONS, "/day_types/1/holidays", ...))
    assert ignored["/tariff/day_types/1/holidays"].endswith("ignored")
    stated = {**TWO_SEASONS, "rounding": {"line": True, "half": "even"}}
    assert not {pointer for pointer in assumed(stated) if pointer.startswith("/tariff/rounding")}


def test_an_assumption_of_many_rows_is_told_once() -> None:
    rates = [
        rate(f"period {hour}", f"{hour:02}:00", f"{hour + 1:02}:00" if hour < 23 else "00:00", "0.1", "0.2")
        for hour in range(24)
    ]
    found = assumed({**FLAT, "energy_rates": rates})
    assert found["/tariff/energy_rates/0/allowance_per"].endswith("month, and so in 23 more rows")
    assert not [pointer for pointer in found if "/energy_rates/1/" in pointer]


def test_a_credit_of_one_sum_is_taken_by_the_month() -> None:
    found = assumed({**FLAT, "credits": [{"name": "relief", "amount": "5"}]})
    assert found["/tariff/credits/0/per"].endswith("month")


@pytest.mark.source("RFC 8785, by the package rfc8785")
@pytest.mark.parametrize(
    "tariff",
    [
        FLAT,
        TWO_SEASONS,
        {**FLAT, "seasons": None, "riders": None, "credits": []},
        {**FLAT, "effective": None, "minimum_bill": {"amount": "5.10", "per": "month", "counts": ["energy"]}},
    ],
    ids=["least", "more", "null lists", "null"],
)
def test_a_request_is_hashed_as_it_was_stated(tariff: Json) -> None:
    canonical = rfc8785.dumps(asked(tariff))
    assert reviewed(tariff)["provenance"]["input_sha256"] == hashlib.sha256(canonical).hexdigest()
