"""Example requests, shown in the OpenAPI document and run against the service by its tests."""

from __future__ import annotations

from typing import Any, Final

Example = dict[str, Any]

_LUGS: Final[Example] = {
    "temperature_rating_c": 75,
    "materials": ["copper", "aluminum"],
    "smallest": "14 AWG",
    "largest": "2 AWG",
    "torque": {"value": 45, "unit": "lbf-in"},
}

OUTDOOR_HARDWIRED: Final[Example] = {
    "edition": "nec-2023",
    "premises": {"occupancy": "one-family", "charger_location": "outdoors"},
    "supply": {"system": "split-phase-120-240", "phases": 1},
    "charger": {
        "charging_current_a": 48,
        "rated_current_a": 48,
        "setting_access": "restricted",
        "connection": {"kind": "hardwired"},
        "uses_neutral": False,
        "terminals": {
            "temperature_rating_c": 75,
            "materials": ["copper"],
            "smallest": "10 AWG",
            "largest": "3 AWG",
            "torque": {"value": 50, "unit": "lbf-in"},
        },
        "markings": {"greatest_overcurrent_device_a": 60, "forbids_gfci_breaker": False},
    },
    "breaker": {"terminals": _LUGS, "listed_for_panel": True},
    "conductors": {"material": "copper", "insulation": "THWN-2"},
    "run": [
        {
            "wiring_method": "emt",
            "length": {"value": 42, "unit": "ft"},
            "location": "dry",
            "ambient_c": 30,
        },
        {
            "wiring_method": "lfnc-b",
            "length": {"value": 3, "unit": "ft"},
            "location": "wet",
            "ambient_c": 33,
        },
    ],
    "targets": {"voltage_drop_percent": 3},
}
"""A 48 A charger on an outside wall: tubing through the basement, a flexible whip at the end."""

SMALLEST: Final[Example] = {
    "edition": "nec-2023",
    "supply": {"system": "split-phase-120-240"},
    "charger": {"charging_current_a": 40, "connection": {"kind": "hardwired"}},
    "conductors": {"material": "copper"},
    "run": [{"wiring_method": "nm-b", "length": {"value": 12, "unit": "m"}}],
}
"""Only what a design cannot do without; everything else is answered with what is missing."""

RECEPTACLE: Final[Example] = {
    "edition": "nec-2023",
    "premises": {"occupancy": "one-family", "charger_location": "garage"},
    "supply": {"system": "split-phase-120-240", "phases": 1},
    "charger": {
        "charging_current_a": 40,
        "rated_current_a": 40,
        "setting_access": "restricted",
        "connection": {
            "kind": "receptacle",
            "configuration": "14-50",
            "listed_for_ev_charging": True,
            "terminals": {
                "temperature_rating_c": 75,
                "materials": ["copper"],
                "smallest": "12 AWG",
                "largest": "4 AWG",
                "torque": {"value": 75, "unit": "lbf-in"},
            },
        },
    },
    "breaker": {"terminals": _LUGS, "listed_for_panel": True},
    "conductors": {"material": "copper", "insulation": "THWN-2"},
    "run": [
        {
            "wiring_method": "emt",
            "length": {"value": 18, "unit": "ft"},
            "location": "dry",
            "ambient_c": 26,
        }
    ],
}
"""A plug-in charger on a 14-50 receptacle in a garage."""

HOLDS: Final[Example] = {
    **OUTDOOR_HARDWIRED,
    "run": [
        {**OUTDOOR_HARDWIRED["run"][0], "raceway_trade_size": "1"},
        {**OUTDOOR_HARDWIRED["run"][1], "raceway_trade_size": "1"},
    ],
    "installed": {
        "breaker_rating_a": 60,
        "ungrounded_size": "6 AWG",
        "grounding_size": "10 AWG",
        "grounding_material": "copper",
        "ground_fault_protection": "breaker",
        "disconnect": {"present": True, "readily_accessible": True, "lockable_open": True},
        "setting_label": True,
        "torque_records": [
            {"at": "breaker", "torque": {"value": 45, "unit": "lbf-in"}},
            {"at": "charger", "torque": {"value": 50, "unit": "lbf-in"}},
        ],
    },
}
"""The circuit above as installed, with what was measured: no failure is found in it."""

FAILS: Final[Example] = {
    **HOLDS,
    "installed": {
        **HOLDS["installed"],
        "breaker_rating_a": 50,
        "ungrounded_size": "8 AWG",
    },
}
"""The same with a 50 A breaker and 8 AWG conductors: 125 percent of 48 A is 60 A."""

SETTINGS: Final[Example] = {
    **OUTDOOR_HARDWIRED,
    "charger": {
        name: value
        for name, value in OUTDOOR_HARDWIRED["charger"].items()
        if name not in ("charging_current_a", "markings")
    },
    "currents_a": [16, 24, 32, 40, 48],
    "night_h": 8,
}
"""The settings of the same charger, and eight hours in which it may charge."""

RATINGS: Final[Example] = {
    **SMALLEST,
    "charger": {"connection": {"kind": "hardwired"}},
}
"""Chargers of the usual ratings on the smallest of the requests above."""

DESIGNS: Final[Example] = {
    "outdoor-hardwired": {
        "summary": "A hardwired 48 A charger outdoors, in tubing and a flexible whip",
        "value": OUTDOOR_HARDWIRED,
    },
    "smallest": {"summary": "Only the facts without which no design can be made", "value": SMALLEST},
    "receptacle": {"summary": "A 40 A charger on a 14-50 receptacle", "value": RECEPTACLE},
}
REVIEWS: Final[Example] = {
    "holds": {"summary": "An installed circuit in which no failure is found", "value": HOLDS},
    "fails": {"summary": "An installed circuit whose breaker and conductors are too small", "value": FAILS},
}
COMPARISONS: Final[Example] = {
    "settings": {"summary": "The settings of a 48 A charger over a night of eight hours", "value": SETTINGS},
    "ratings": {"summary": "Chargers of the usual ratings on one cable", "value": RATINGS},
}
