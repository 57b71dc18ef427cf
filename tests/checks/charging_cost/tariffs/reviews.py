"""Tariff reviews as a caller asks for them, and what their answers hold."""

import copy
import json
from typing import Any

from branchwright.checks.charging_cost.tariffs import TariffReviewRequest, review_tariff

Json = dict[str, Any]

SUMMER, WINTER = "summer", "winter"


def rate(period: str, begin: str, end: str, *prices: str, **more: Any) -> Json:
    """Return an energy rate; several prices are tiers of 100 kWh each, the last one open."""
    tiers: list[Json] = [
        {"up_to_kwh": 100.0 * (at + 1), "per_kwh": price} for at, price in enumerate(prices[:-1])
    ]
    return {"period": period, "from": begin, "to": end, "tiers": [*tiers, {"per_kwh": prices[-1]}], **more}


FLAT: Json = {
    "name": "Marsh Lane flat",
    "currency": "USD",
    "time_zone": "America/Denver",
    "energy_rates": [rate("any time", "00:00", "00:00", "0.12")],
}
"""The least that a sound tariff states."""

TWO_SEASONS: Json = {
    "name": "Marsh Lane seasonal",
    "currency": "USD",
    "time_zone": "America/Denver",
    "country": "US",
    "subdivision": "CO",
    "observed_holidays": "observed-day",
    "seasons": [
        {"name": SUMMER, "from": "06-01", "to": "09-30"},
        {"name": WINTER, "from": "10-01", "to": "05-31"},
    ],
    "day_types": [
        {"name": "workday", "weekdays": ["mon", "tue", "wed", "thu", "fri"], "holidays": "excluded"},
        {"name": "rest-day", "weekdays": ["sat", "sun"], "holidays": "included"},
    ],
    "energy_rates": [
        rate("on-peak", "14:00", "19:00", "0.31", season=SUMMER, day_type="workday"),
        rate("off-peak", "19:00", "14:00", "0.11", season=SUMMER, day_type="workday"),
        rate("off-peak", "00:00", "00:00", "0.11", season=SUMMER, day_type="rest-day"),
        rate("base", "00:00", "00:00", "0.10", "0.13", season=WINTER),
    ],
    "riders": [
        {"name": "fuel", "per_kwh": "0.004"},
        {"name": "grid", "percent": "10", "applies_to": ["energy"]},
        {"name": "city tax", "percent": "3.1", "is_tax": True},
    ],
}
"""Dear on workday afternoons in summer; steps in winter."""


def asked(tariff: Json, year: int = 2027) -> Json:
    """Return the body of a review."""
    return {"tariff": tariff, "year": year}


def reviewed(tariff: Json, year: int = 2027) -> Json:
    """Return the answer to a review as it goes over the wire."""
    request = TariffReviewRequest.model_validate_json(json.dumps(asked(tariff, year)))
    answer: Json = json.loads(review_tariff(request).model_dump_json(by_alias=True))
    return answer


def changed(tariff: Json, pointer: str, value: Any) -> Json:
    """Return a tariff with one field changed, one more member of a list at `-`, or without it where it is `...`."""
    found = copy.deepcopy(tariff)
    here: Any = found
    *way, last = [int(token) if token.isdigit() else token for token in pointer.split("/")[1:]]
    for token in way:
        here = here[token]
    if value is ...:
        del here[last]
    elif last == "-":
        here.append(value)
    else:
        here[last] = value
    return found


def findings_of(answer: Json, rule: str) -> list[Json]:
    """Return what one rule found."""
    return [finding for finding in answer["findings"] if finding["rule"] == rule]


def failing(answer: Json) -> list[tuple[str, str]]:
    """Return rule and place of whatever fails."""
    return [
        (finding["rule"], finding["pointer"])
        for finding in answer["findings"]
        if finding["outcome"] == "fail"
    ]
