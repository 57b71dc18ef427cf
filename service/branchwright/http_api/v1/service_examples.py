"""Example requests about the service of a building: shown in the OpenAPI document and run by its tests.

The houses are invented.
"""

from __future__ import annotations

from typing import Any, Final

Example = dict[str, Any]

ALL_ELECTRIC: Final[Example] = {
    "edition": "nec-2023",
    "occupancy": "one-family",
    "service": {"rating_a": 150, "system": "split-phase-120-240", "phases": 1},
    "dwelling": {
        "floor_area_ft2": 1_850,
        "small_appliance_circuits": 2,
        "laundry_circuits": 1,
        "ranges": [{"kind": "range", "rating_w": 11_500}],
        "dryers": [{"rating_w": 5_400}],
        "appliances": [
            {"name": "water heater", "rating_va": 4_500, "fastened_in_place": True, "voltage_v": 240},
            {"name": "dishwasher", "rating_va": 1_300, "fastened_in_place": True, "voltage_v": 120},
            {
                "name": "well pump",
                "rating_va": 1_440,
                "fastened_in_place": True,
                "motor": True,
                "motor_hp": 0.75,
                "voltage_v": 240,
            },
        ],
        "heat_pumps": [{"compressor_va": 4_300, "supplemental_heat_w": 9_600, "interlocked": False}],
        "chargers": [
            {
                "name": "carport",
                "charging_current_a": 40,
                "rated_current_a": 48,
                "setting_access": "restricted",
                "connection": "hardwired",
                "new": True,
            }
        ],
    },
    "methods": ["standard", "optional-new", "optional-existing"],
}
"""An all-electric house with a heat pump, to which a charger set to 40 A is added."""

BARE: Final[Example] = {
    "edition": "nec-2026",
    "dwelling": {"floor_area_ft2": 900, "ranges": [{"kind": "wall-oven", "rating_w": 6_000}]},
}
"""Little is stated: no voltage, so no current."""

MEASURED: Final[Example] = {
    "edition": "nec-2023",
    "occupancy": "one-family",
    "service": {
        "rating_a": 100,
        "system": "split-phase-120-240",
        "phases": 1,
        "main_breaker_a": 100,
        "busbar_rating_a": 125,
    },
    "existing_load": {
        "kind": "measured",
        "measured_demand_w": 9_870,
        "averaging_minutes": 15,
        "days": 365,
        "coverage_percent": 99.8,
        "has_generation": False,
        "occupied": True,
        "seasonal_load_va": 0,
    },
    "chargers": [
        {
            "name": "carport",
            "charging_current_a": 48,
            "rated_current_a": 48,
            "setting_access": "restricted",
            "connection": "hardwired",
            "circuit_breaker_a": 60,
        }
    ],
}
"""A year of quarter hours on a 100 A service: 9.87 kW at most, and a 48 A charger to be added."""

MANAGED: Final[Example] = {
    **MEASURED,
    "management": {
        "control_setting_a": 80,
        "fail_safe_current_a": 6,
        "monitored_legs": 2,
        "listed": True,
        "link_loss_tested": True,
        "access": "restricted",
    },
}
"""The same charger under an energy management that holds the service at 80 A."""

# An electrically heated house in winter, Wh by the hour from midnight: least at night, most at supper.
_EVENING_WH: Final = [
    *(1_420, 1_380, 1_350, 1_340, 1_390, 1_610, 2_480, 3_120, 2_760, 2_240, 1_980, 1_930),
    *(2_050, 1_890, 1_820, 1_960, 2_610, 4_370, 5_240, 4_680, 3_690, 2_970, 2_210, 1_670),
]

REGULAR: Final[Example] = {
    "edition": "nec-2023",
    "time_zone": "America/Chicago",
    "system": "split-phase-120-240",
    "has_generation": False,
    "leg_assumption": "balanced",
    "series": {
        "kind": "regular",
        "start": "2025-01-14T00:00:00-06:00",
        "interval_minutes": 60,
        "energy_wh": [*_EVENING_WH[:5], None, *_EVENING_WH[6:]],
    },
}
"""A day of hourly energy, of which one reading is missing."""

STAMPED: Final[Example] = {
    "series": {
        "kind": "stamped",
        "unit": "power-kw",
        "stamps_at": "end",
        "readings": [
            {"at": "2025-07-02T18:15:00-05:00", "value": 3.1},
            {"at": "2025-07-02T18:30:00-05:00", "value": 4.75},
            {"at": "2025-07-02T18:45:00-05:00", "value": 2.9, "quality": "estimated"},
        ],
    }
}
"""Quarter hours with a time each, and no edition: what rests on one is left open."""

CSV: Final = """\
Account,Start,Usage (kWh),Status
40711,2025-01-14T17:00:00-06:00,4.370,A
40711,2025-01-14T18:00:00-06:00,5.240,A
40711,2025-01-14T19:00:00-06:00,4.680,E
"""
"""Three hours, the last of them estimated; the query names the columns and the unit."""

GREEN_BUTTON: Final = """\
<?xml version="1.0" encoding="UTF-8"?>
<feed xmlns="http://www.w3.org/2005/Atom" xmlns:espi="http://naesb.org/espi">
 <id>urn:uuid:6f1d2f5e-8a83-4d1e-9d61-0a4f6f0c3b10</id>
 <title>Usage of an invented house</title>
 <updated>2025-02-01T00:00:00Z</updated>
 <entry>
  <id>urn:uuid:0c2d7a37-5a3e-4f52-9c0c-6f4f2a3d9e21</id>
  <link rel="self" href="UsagePoint/1/MeterReading/1"/>
  <link rel="related" href="ReadingType/1"/>
  <link rel="related" href="UsagePoint/1/MeterReading/1/IntervalBlock"/>
  <title>Energy delivered</title>
  <content><espi:MeterReading/></content>
 </entry>
 <entry>
  <id>urn:uuid:a1d0b8a5-1f0c-4a5b-8a56-52c1c94f2f32</id>
  <link rel="self" href="ReadingType/1"/>
  <title>Hourly energy</title>
  <content>
   <espi:ReadingType>
    <espi:accumulationBehaviour>4</espi:accumulationBehaviour>
    <espi:commodity>1</espi:commodity>
    <espi:flowDirection>1</espi:flowDirection>
    <espi:intervalLength>3600</espi:intervalLength>
    <espi:kind>12</espi:kind>
    <espi:powerOfTenMultiplier>0</espi:powerOfTenMultiplier>
    <espi:uom>72</espi:uom>
   </espi:ReadingType>
  </content>
 </entry>
 <entry>
  <id>urn:uuid:d4f7a2b6-93c4-4b0f-8b3b-3b7a5d0e6f43</id>
  <link rel="self" href="UsagePoint/1/MeterReading/1/IntervalBlock/1"/>
  <link rel="up" href="UsagePoint/1/MeterReading/1/IntervalBlock"/>
  <title>An evening</title>
  <content>
   <espi:IntervalBlock>
    <espi:interval><espi:duration>10800</espi:duration><espi:start>1736895600</espi:start></espi:interval>
    <espi:IntervalReading>
     <espi:timePeriod><espi:duration>3600</espi:duration><espi:start>1736895600</espi:start></espi:timePeriod>
     <espi:value>4370</espi:value>
    </espi:IntervalReading>
    <espi:IntervalReading>
     <espi:timePeriod><espi:duration>3600</espi:duration><espi:start>1736899200</espi:start></espi:timePeriod>
     <espi:value>5240</espi:value>
    </espi:IntervalReading>
    <espi:IntervalReading>
     <espi:ReadingQuality><espi:quality>8</espi:quality></espi:ReadingQuality>
     <espi:timePeriod><espi:duration>3600</espi:duration><espi:start>1736902800</espi:start></espi:timePeriod>
     <espi:value>4680</espi:value>
    </espi:IntervalReading>
   </espi:IntervalBlock>
  </content>
 </entry>
</feed>
"""
"""The same three hours as a Green Button file; 1736895600 is 17:00 of 14 January 2025 at UTC-6."""

ONE_VEHICLE: Final[Example] = {
    "edition": "nec-2023",
    "service": {"system": "split-phase-120-240", "rating_a": 100},
    "house_load": {
        "start": "2025-01-14T00:00:00-06:00",
        "interval_minutes": 60,
        "time_zone": "America/Chicago",
        "energy_wh": [*_EVENING_WH, *_EVENING_WH, *_EVENING_WH],
        "leg_assumption": "balanced",
    },
    "chargers": [
        {
            "name": "carport",
            "charging_current_a": 48,
            "circuit_breaker_a": 60,
            "vehicle": {"battery_kwh": 75, "onboard_limit_a": 48},
            "sessions": [
                {
                    "weekdays": ["mon", "tue", "wed", "thu", "fri"],
                    "arrival": "17:30",
                    "departure": "07:00",
                    "energy_kwh": 14,
                }
            ],
        }
    ],
    "management": {
        "control_setting_a": 80,
        "margin_a": 2,
        "response_s": 10,
        "resume_delay_minutes": 15,
        "sharing": "equal",
    },
}
"""One vehicle that comes home on weekdays, on a 100 A service held at 80 A; three days of hourly load."""

TWO_VEHICLES: Final[Example] = {
    **ONE_VEHICLE,
    "service": {"system": "split-phase-120-240", "rating_a": 60},
    "chargers": [
        ONE_VEHICLE["chargers"][0],
        {
            "name": "garage",
            "charging_current_a": 32,
            "circuit_breaker_a": 40,
            "sessions": [
                {
                    "weekdays": ["tue", "wed"],
                    "arrival": "21:00",
                    "departure": "05:30",
                    "energy_kwh": 22,
                }
            ],
        },
    ],
    "management": {"control_setting_a": 45, "sharing": "earliest-departure"},
}
"""Two vehicles that share what a house on 60 A leaves; the one that has to go first comes first."""

LOAD_CALCULATIONS: Final[Example] = {
    "all-electric": {"summary": "An all-electric house with a new charger", "value": ALL_ELECTRIC},
    "bare": {"summary": "What can be said of a dwelling of which little is stated", "value": BARE},
}
CAPACITY_REVIEWS: Final[Example] = {
    "measured": {"summary": "A 48 A charger beside a measured load", "value": MEASURED},
    "managed": {"summary": "The same charger under energy management", "value": MANAGED},
}
INTERVAL_DATA: Final[Example] = {
    "regular": {"summary": "A day of hourly energy with a gap", "value": REGULAR},
    "stamped": {"summary": "Quarter hours of power, each with its time", "value": STAMPED},
}
CSV_BODIES: Final[Example] = {
    "hourly": {
        "summary": "Hourly energy; sent with "
        "?unit=energy-kwh&time_column=Start&value_column=Usage%20(kWh)&quality_column=Status",
        "value": CSV,
    }
}
GREEN_BUTTON_BODIES: Final[Example] = {
    "hourly": {"summary": "The same hours as a Green Button file", "value": GREEN_BUTTON}
}
STUDIES: Final[Example] = {
    "one-vehicle": {"summary": "One vehicle on a managed 100 A service", "value": ONE_VEHICLE},
    "two-vehicles": {"summary": "Two vehicles that share a small service", "value": TWO_VEHICLES},
}
