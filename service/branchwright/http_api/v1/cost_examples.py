"""Example requests about what charging and its installation cost: shown in the OpenAPI document and run by its tests.

Utility, prices and houses are invented.
"""

from __future__ import annotations

from typing import Any, Final

from branchwright.http_api.v1.examples import OUTDOOR_HARDWIRED

Example = dict[str, Any]


def _rate(period: str, season: str | None, day_type: str | None, begin: str, end: str, price: str) -> Example:
    return {
        "period": period,
        "season": season,
        "day_type": day_type,
        "from": begin,
        "to": end,
        "tiers": [{"up_to_kwh": None, "per_kwh": price}],
    }


_PLACE: Final[Example] = {"currency": "USD", "time_zone": "America/Chicago", "country": "US"}

STEPPED: Final[Example] = {
    "name": "Harrow Creek residential",
    **_PLACE,
    "energy_rates": [
        {
            "period": "any time",
            "from": "00:00",
            "to": "00:00",
            "allowance_per": "month",
            "tiers": [
                {"up_to_kwh": 600, "per_kwh": "0.1180"},
                {"up_to_kwh": None, "per_kwh": "0.1420"},
            ],
            "export_per_kwh": "0.0350",
        }
    ],
    "fixed_charges": [{"name": "customer charge", "amount": "11.25", "per": "month"}],
    "riders": [
        {"name": "fuel", "per_kwh": "0.0047"},
        {"name": "franchise fee", "percent": "2.5", "is_tax": True},
    ],
    "arrangements": ["whole-house"],
}
"""One price in two steps, whatever the hour: what the house is on today."""

TIME_OF_USE: Final[Example] = {
    "name": "Harrow Creek time-of-use",
    **_PLACE,
    "observed_holidays": "observed-day",
    "seasons": [
        {"name": "summer", "from": "06-01", "to": "09-30"},
        {"name": "winter", "from": "10-01", "to": "05-31"},
    ],
    "day_types": [
        {"name": "workday", "weekdays": ["mon", "tue", "wed", "thu", "fri"], "holidays": "excluded"},
        {"name": "rest-day", "weekdays": ["sat", "sun"], "holidays": "included"},
    ],
    "energy_rates": [
        _rate("overnight", "summer", None, "23:00", "06:00", "0.0790"),
        _rate("off-peak", "summer", "workday", "06:00", "15:00", "0.1210"),
        _rate("on-peak", "summer", "workday", "15:00", "20:00", "0.2980"),
        _rate("off-peak", "summer", "workday", "20:00", "23:00", "0.1210"),
        _rate("off-peak", "summer", "rest-day", "06:00", "23:00", "0.1210"),
        _rate("overnight", "winter", None, "23:00", "06:00", "0.0720"),
        _rate("off-peak", "winter", "workday", "06:00", "17:00", "0.1090"),
        _rate("on-peak", "winter", "workday", "17:00", "20:30", "0.1960"),
        _rate("off-peak", "winter", "workday", "20:30", "23:00", "0.1090"),
        _rate("off-peak", "winter", "rest-day", "06:00", "23:00", "0.1090"),
    ],
    "fixed_charges": [{"name": "customer charge", "amount": "13.75", "per": "month"}],
    "riders": [
        {"name": "fuel", "per_kwh": "0.0047"},
        {"name": "franchise fee", "percent": "2.5", "is_tax": True},
    ],
    "arrangements": ["whole-house"],
}
"""Dear on workday evenings, cheap at night, all of it a little less in winter."""

CHARGING_METER: Final[Example] = {
    "name": "Harrow Creek vehicle charging",
    **_PLACE,
    "energy_rates": [
        _rate("night", None, None, "22:00", "06:00", "0.0610"),
        _rate("day", None, None, "06:00", "22:00", "0.1730"),
    ],
    "fixed_charges": [{"name": "second meter", "amount": "0.11", "per": "day"}],
    "riders": [{"name": "franchise fee", "percent": "2.5", "is_tax": True}],
    "minimum_bill": {"amount": "3.00", "per": "month", "counts": ["energy", "fixed"]},
    "arrangements": ["own-meter", "submeter"],
}
"""For a meter that a vehicle has to itself."""

WITH_A_GAP: Final[Example] = {
    **TIME_OF_USE,
    "name": "Harrow Creek time-of-use, as typed in",
    "energy_rates": [*TIME_OF_USE["energy_rates"][:3], *TIME_OF_USE["energy_rates"][4:]],
}
"""The same with a line left out: summer workdays have no price from 20:00 to 23:00."""

SOUND: Final[Example] = {"tariff": TIME_OF_USE, "year": 2027}
GAP: Final[Example] = {"tariff": WITH_A_GAP, "year": 2027}

COMMUTE: Final[Example] = {
    "energy_need": {
        "kind": "distance",
        "basis": "wall",
        "distance_by_weekday": {"mon": 34, "tue": 34, "wed": 34, "thu": 34, "fri": 34, "sat": 21},
        "distance_unit": "mi",
        "consumption": {"value": 29, "unit": "kWh/100 mi"},
        "winter_factor_by_month": [1.3, 1.25, 1.15, 1.05, 1, 1, 1, 1, 1, 1.05, 1.15, 1.25],
        "worst_day_factor": 1.55,
    },
    "charger": {"charging_current_a": 32, "voltage_v": 240},
    "vehicle": {"battery_kwh": 58, "onboard_limit_a": 48},
    "arrival": "17:45",
    "departure": "07:15",
}
"""A commute of 34 miles on workdays, and errands on Saturdays."""

_HOUSEHOLD: Final[Example] = {
    "kind": "annual-energy",
    "kwh_per_year": 9_400,
    "profile": {
        "hours": [
            *(0.7, 0.6, 0.6, 0.6, 0.6, 0.7, 1.0, 1.2, 1.1, 0.9, 0.9, 0.9),
            *(1.0, 0.9, 0.9, 1.0, 1.2, 1.6, 1.8, 1.7, 1.5, 1.3, 1.1, 0.9),
        ],
        "months": [1.2, 1.1, 1.0, 0.8, 0.8, 1.0, 1.2, 1.2, 0.9, 0.8, 0.9, 1.1],
    },
}

TWO_METERS: Final[Example] = {
    "tariffs": [STEPPED, TIME_OF_USE, CHARGING_METER],
    "house_tariff": STEPPED["name"],
    "year": 2027,
    "house_load": _HOUSEHOLD,
    "charging": COMMUTE,
    "arrangements": ["whole-house", "own-meter"],
    "schedules": [
        {"kind": "on-arrival"},
        {"kind": "timer", "name": "from eleven", "windows": [{"from": "23:00", "to": "06:00"}]},
        {"kind": "least-cost"},
    ],
    "separate_meter": {
        "installed_cost": "1640.00",
        "monthly_charge": "2.80",
        "discount_rate_percent": 4,
        "years": 10,
    },
}
"""Three schedules on one meter and on two, and whether the second meter pays within ten years."""

SOLAR: Final[Example] = {
    "tariffs": [STEPPED, TIME_OF_USE],
    "house_tariff": STEPPED["name"],
    "year": 2027,
    "first_month": 7,
    "house_load": _HOUSEHOLD,
    "generation": {
        "kind": "annual-energy",
        "kwh_per_year": 5_200,
        "profile": {
            "hours": [*[0] * 6, 1, 3, 6, 9, 11, 12, 12, 11, 9, 6, 3, 1, *[0] * 6],
            "months": [4, 6, 8, 10, 12, 12, 13, 11, 9, 7, 4, 3],
        },
    },
    "charging": {
        "energy_need": {
            "kind": "energy",
            "basis": "battery",
            "kwh_by_weekday": {"tue": 12, "fri": 15, "sun": 8},
            "charging_efficiency": 0.88,
        },
        "charger": {"charging_current_a": 24, "voltage_v": 240},
        "arrival": "10:00",
        "departure": "16:30",
    },
    "schedules": [{"kind": "on-arrival"}, {"kind": "solar-surplus-first"}],
    "worked_bill": {
        "tariff": STEPPED["name"],
        "arrangement": "whole-house",
        "schedule": 1,
        "month": 8,
    },
}
"""A vehicle that is at home by day, under a roof with solar panels."""

WITH_DEMO_PRICES: Final[Example] = {
    "circuit": OUTDOOR_HARDWIRED,
    "site": {
        "segments": [
            {"segment": 0, "condition": "finished-walls", "elbows": 3},
            {"segment": 1, "condition": "open"},
        ],
        "travel": {"distance": {"value": 18, "unit": "mi"}, "trips": 2},
        "wall_patches": 1,
    },
    "supplies": {"charger": "by-customer", "permit": True, "paperwork": True},
    "markup_percent": 12,
    "tax": {"percent": 6.5, "on": ["material"]},
}
"""The circuit of the first design, taken off and priced by the demo book."""

OWN_PRICES: Final[Example] = {
    "circuit": OUTDOOR_HARDWIRED,
    "price_book": {
        "name": "what the counter asks",
        "currency": "USD",
        "dated": "2026-10-12",
        "prices": {
            "conductor/copper/THWN-2/6 AWG": {
                "unit": "100 ft",
                "low": "98.00",
                "likely": "109.50",
                "high": "128.00",
            },
            "raceway/emt/1/2": {"unit": "10 ft", "low": "5.10", "likely": "5.85", "high": "7.40"},
        },
    },
}
"""The same with a price book of one's own, which has few prices: the answer names those that are missing."""

TARIFF_REVIEWS: Final[Example] = {
    "time-of-use": {"summary": "A sound time-of-use tariff", "value": SOUND},
    "gap": {"summary": "The same with a line left out", "value": GAP},
}
CHARGING_COMPARISONS: Final[Example] = {
    "two-meters": {"summary": "One meter or two, and when to charge", "value": TWO_METERS},
    "solar": {"summary": "Charging from what the roof leaves over", "value": SOLAR},
}
ESTIMATES: Final[Example] = {
    "demo-prices": {"summary": "Priced by the demo book", "value": WITH_DEMO_PRICES},
    "own-prices": {"summary": "Priced by a book with few prices", "value": OWN_PRICES},
}
