"""Dwellings and requests about their service, drawn by a seed: usual houses, and some that nobody built."""

import random
from typing import Any

from tests.checks.service_capacity.load_tables import EDITIONS, STANDARD_RATINGS_A

Json = dict[str, Any]

METHODS = ("standard", "optional-new", "optional-existing")
READINGS = {
    "charger-in-optional-method": ("full-value", "in-the-pool"),
    "existing-heating-and-cooling": ("in-the-pool", "left-out"),
    "added-heating-and-cooling": ("at-full-value", "in-the-pool"),
    "setting-as-rating": ("nameplate", "setting"),
    "charger-on-service": ("at-125-percent", "at-its-load"),
    "measured-with-generation": ("refused", "measured-gross"),
    "measured-demand-interval": ("fifteen-minutes", "as-metered"),
}
COOKING_W = (1500, 1750, 1751, 3000, 3499, 3500, 4000, 5100, 8000, 8750, 8751, 9000, 12000, 12400, 12500)
COOKING_W += (13500, 14000, 16000, 18000, 26999, 27000)
"""Around every limit of table 220.55, and the ratings of the published examples."""

APPLIANCES = (
    ("dishwasher", 1200, 120, True),
    ("disposer", 800, 120, True),
    ("water heater", 4500, 240, False),
    ("water heater", 2500, 240, False),
    ("well pump", 2400, 240, True),
    ("pool pump", 3600, 240, True),
    ("range hood", 400, 120, True),
    ("doorbell transformer", 30, 120, False),
    ("microwave oven", 1500, 120, False),
    ("instant water heater", 18000, 240, False),
    ("garage door opener", 499.9, 120, True),
    ("compactor", 500, 120, True),
)
CURRENTS_A = (6, 12, 16, 20, 24, 28.8, 30, 32, 40, 48, 64, 80)


def seeded(seed: int) -> random.Random:
    """Return a source of requests that is the same on every run."""
    return random.Random(seed)  # noqa: S311 - requests to test with, no secrets


def perhaps_new(draw: random.Random, item: Json, share: float) -> Json:
    """Mark an item as one being added, now and then."""
    return {**item, "new": True} if draw.random() < share else item


def drawn_cooking(draw: random.Random) -> list[Json]:
    """No, one or a few cooking appliances, seldom as many as a boarding house has."""
    count = draw.choices((0, 1, 2, 3, 5, 8, 26, 61), (2, 6, 3, 2, 1, 1, 0.3, 0.3))[0]
    alike = draw.random() < 0.3
    first = draw.choice(COOKING_W)
    return [
        {
            "kind": draw.choice(("range", "wall-oven", "counter-cooking-unit")),
            "rating_w": first if alike else draw.choice(COOKING_W),
        }
        for _ in range(count)
    ]


def drawn_dryers(draw: random.Random) -> list[Json]:
    """No or one dryer, seldom so many that the table asks for a share."""
    count = draw.choices((0, 1, 2, 4, 5, 11, 12, 24, 43), (3, 6, 1, 0.5, 0.5, 0.3, 0.3, 0.3, 0.3))[0]
    return [{"rating_w": draw.choice((3000, 4800, 5000, 5500, 7200))} for _ in range(count)]


def drawn_appliance(draw: random.Random) -> Json:
    """An appliance with its voltage, most of them fastened in place."""
    name, rating_va, voltage_v, motor = draw.choice(APPLIANCES)
    return {
        "name": name,
        "rating_va": rating_va,
        "voltage_v": voltage_v,
        "motor": motor,
        "fastened_in_place": draw.random() < 0.85,
        "on_own_circuit": draw.random() < 0.7,
        "uses_neutral": draw.random() < 0.1,
        **({"motor_hp": draw.choice((0.125, 0.2, 0.25, 0.5))} if motor and draw.random() < 0.4 else {}),
        **(
            {"motor_va": round(rating_va * draw.choice((0.5, 0.9)), 1)}
            if motor and draw.random() < 0.3
            else {}
        ),
    }


def drawn_heating(draw: random.Random, *, new: float) -> Json:
    """Heating, cooling and heat pumps, any of them absent."""
    found: Json = {"heating": [], "cooling": [], "heat_pumps": []}
    for _ in range(draw.choice((0, 0, 1, 1, 2, 3))):
        item: Json = {"rating_w": draw.choice((1500, 5000, 9000, 15000, 3960.5))}
        kind = draw.choice(("central", "separately-controlled", "separately-controlled", "thermal-storage"))
        item["kind"] = kind
        if kind == "separately-controlled":
            item["separately_controlled_units"] = draw.choice((1, 2, 3, 4, 5))
        found["heating"].append(perhaps_new(draw, item, new))
    for _ in range(draw.choice((0, 0, 1, 1, 2, 6))):
        item = {"rating_va": draw.choice((1380, 1680, 5760, 7200, 9000))}
        if draw.random() < 0.2:
            item["motor_va"] = draw.choice((1000, 1380))
        found["cooling"].append(perhaps_new(draw, item, new))
    for _ in range(draw.choice((0, 0, 0, 1, 2))):
        item = {"compressor_va": draw.choice((2400, 5760, 9000))}
        if draw.random() < 0.7:
            item["supplemental_heat_w"] = draw.choice((5000, 10000, 15000))
            item["interlocked"] = draw.random() < 0.4
        found["heat_pumps"].append(perhaps_new(draw, item, new))
    return found


def drawn_charger(draw: random.Random) -> Json:
    """A charger at its rating or set below it."""
    current = draw.choice(CURRENTS_A)
    return {
        "charging_current_a": current,
        "rated_current_a": draw.choice((current, current, max(current, 48), max(current, 80))),
        "setting_access": draw.choice(("restricted", "unrestricted")),
        "connection": draw.choice(("hardwired", "hardwired", "receptacle")),
    }


def drawn_management(draw: random.Random, chargers: list[Json]) -> list[Json]:
    """Seldom one or two managements, with every charger held by one of them or by none."""
    if draw.random() < 0.7:
        return []
    for charger in chargers:
        held = draw.choice(("garage", "driveway", None))
        if held:
            charger["managed_by"] = held
    return [
        {"name": name, "control_setting_a": draw.choice((16, 24, 40, 80))}
        for name in sorted({charger["managed_by"] for charger in chargers if "managed_by" in charger})
    ]


def drawn_dwelling(draw: random.Random, *, new: float = 0.1) -> Json:
    """A dwelling of any size, with what stands in it."""
    chargers = [perhaps_new(draw, drawn_charger(draw), 0.5) for _ in range(draw.choice((0, 1, 1, 1, 2)))]
    return {
        "floor_area_ft2": draw.choice(
            (0, 480, 1000, 1500, 2200.5, 3600, 12000, round(draw.uniform(1, 60000), 1))
        ),
        "small_appliance_circuits": draw.choice((2, 2, 3, 4)),
        "laundry_circuits": draw.choice((1, 1, 2)),
        "ranges": drawn_cooking(draw),
        "dryers": drawn_dryers(draw),
        "appliances": [drawn_appliance(draw) for _ in range(draw.choice((0, 1, 2, 3, 4, 5, 8)))],
        **drawn_heating(draw, new=new),
        "chargers": chargers,
        "load_management": drawn_management(draw, chargers),
    }


def drawn_readings(draw: random.Random) -> Json:
    """Some of the readings, chosen."""
    return {name: draw.choice(values) for name, values in READINGS.items() if draw.random() < 0.5}


def drawn_service(draw: random.Random) -> Json:
    """A service of a standard rating, of each system."""
    system, phases = draw.choices(
        (("split-phase-120-240", 1), ("wye-208y-120", 1), ("wye-208y-120", 3)), (6, 2, 1)
    )[0]
    rating = draw.choice([rating for rating in STANDARD_RATINGS_A if 60 <= rating <= 400])
    return {"rating_a": rating, "system": system, "phases": phases}


def drawn_load_request(seed: int) -> Json:
    """A request for a load calculation that states every fact."""
    draw = seeded(seed)
    request: Json = {
        "edition": draw.choice(EDITIONS),
        "occupancy": draw.choice(("one-family", "one-family", "two-family", "multifamily")),
        "service": {**drawn_service(draw), "conductor_ampacity_a": draw.choice((85, 99.5, 100, 175, 400))},
        "dwelling": drawn_dwelling(draw),
        "methods": list(METHODS),
    }
    if draw.random() < 0.6:
        request["readings"] = drawn_readings(draw)
    return request
