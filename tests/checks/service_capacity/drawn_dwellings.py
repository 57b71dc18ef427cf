"""Dwellings and requests about their service, drawn by a seed: usual houses, and some that nobody built."""

import copy
import random
from typing import Any

from tests.checks.service_capacity.load_tables import EDITIONS, STANDARD_RATINGS_A

Json = dict[str, Any]

METHODS = ("standard", "optional-new", "optional-existing")
READINGS = {
    "charger-in-optional-method": ("full-value", "in-the-pool"),
    "existing-heating-and-cooling": ("in-the-pool", "left-out"),
    "added-heating-and-cooling": ("at-full-value", "in-the-pool"),
    "omitted-motor": ("compared", "added"),
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
    count = draw.choices((0, 1, 2, 3, 5, 8, draw.randint(1, 99)), (2, 6, 3, 2, 1, 1, 0.6))[0]
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
    count = draw.choices((0, 1, 2, 4, 5, draw.randint(1, 60)), (3, 6, 1, 0.5, 0.5, 1.2))[0]
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


def drawn_record(draw: random.Random) -> Json:
    """A record of demand, most of them a year's at fifteen minutes."""
    demand_w = draw.choice((0, 2400, 4000, 9600, 12800, 14400, 20000, round(draw.uniform(0, 40000), 1)))
    record: Json = {
        "kind": "measured",
        "measured_demand_w": demand_w,
        "averaging_minutes": draw.choice((15, 15, 15, 5, 30, 60)),
        "days": draw.choice((365, 365, 366, 364.9, 30, 45, 29)),
        "coverage_percent": draw.choice((100, 100, 98, 97.9)),
        "has_generation": draw.random() < 0.2,
        "occupied": draw.random() < 0.9,
        "seasonal_load_va": draw.choice((0, 0, 0, 3000, 9000)),
    }
    if draw.random() < 0.2:
        record["fifteen_minute_bound_w"] = round(demand_w * draw.choice((0.9, 1, 1.2, 1.65, 2)), 1)
    return record


def drawn_added_charger(draw: random.Random) -> Json:
    """A charger to be added, seldom with settings of its own, a breaker, or kept from the management."""
    charger = drawn_charger(draw)
    if draw.random() < 0.02:
        charger["charging_current_a"] = draw.choice((5.9, charger["rated_current_a"] + 1))
    if draw.random() < 0.2:
        charger["settings_a"] = draw.choice(([6, 12, 16, 24, 32, 40, 48], [16, 32, 80], [12.5, 24, 28.8]))
    if draw.random() < 0.2:
        charger["circuit_breaker_a"] = draw.choice((20, 40, 50, 60, 100))
    if draw.random() < 0.2:
        charger["managed"] = draw.random() < 0.5
    return charger


def drawn_energy_management(draw: random.Random, rating_a: float, legs: int) -> Json:
    """Management that mostly has what is asked of it."""
    setting = draw.choice((0.8, 0.8, 0.8, 0.79, 0.81, 0.5, 1, 1.1))
    return {
        "control_setting_a": round(rating_a * setting, 2),
        "fail_safe_current_a": draw.choice((0, 0, 6, 6, 12, 16, 32, 48, 3)),
        "monitored_legs": legs if draw.random() < 0.9 else draw.choice((0, 1, 2, 3, 4)),
        "monitor_position": draw.choice(("load-side-of-generation", "supply-side-of-generation")),
        "listed": draw.random() < 0.9,
        "link_loss_tested": draw.random() < 0.9,
        "access": "restricted" if draw.random() < 0.9 else "unrestricted",
    }


def drawn_capacity_request(seed: int, *, calculated: bool) -> Json:
    """A request for a capacity review that states every fact."""
    draw = seeded(seed)
    service = drawn_service(draw)
    if draw.random() < 0.02:
        service.update(system="split-phase-120-240", phases=3)
    rating = service["rating_a"]
    if draw.random() < 0.4:
        service["main_breaker_a"] = draw.choice((rating, rating, rating - 10, rating + 10))
    if draw.random() < 0.4:
        service["busbar_rating_a"] = draw.choice((rating, rating, rating - 25, rating + 25, 400))
        if draw.random() < 0.4:
            service["backfeed_breaker_a"] = draw.choice((15, 20, 30, 40, 60))
            service["backfeed_opposite_main"] = draw.random() < 0.7
            if draw.random() < 0.4:
                service["backfeed_output_a"] = draw.choice((12, 16, 24, 32, 33))
    if calculated or draw.random() < 0.3:
        service["conductors"] = {
            "ampacity_a": draw.choice((83, 85, 99.5, 100, 130, 166, 175, 400, 0.83 * rating, rating)),
            "carry_entire_load": draw.random() < 0.7,
        }
    request: Json = {
        "edition": draw.choice(EDITIONS),
        "occupancy": draw.choice(("one-family", "two-family", "multifamily", "other")),
        "service": service,
        "existing_load": drawn_record(draw),
        "chargers": [drawn_added_charger(draw) for _ in range(draw.choice((1, 1, 1, 2, 3)))],
    }
    if calculated:
        request["existing_load"] = {
            "kind": "calculated",
            "method": draw.choice(METHODS),
            "dwelling": drawn_dwelling(draw, new=0.1),
        }
    if draw.random() < 0.5:
        request["management"] = drawn_energy_management(draw, rating, 3 if service["phases"] == 3 else 2)
    if len(request["chargers"]) > 1 and draw.random() < 0.5:
        request["shared_circuits"] = [drawn_shared_circuit(draw, len(request["chargers"]))]
    if draw.random() < 0.6:
        request["readings"] = drawn_readings(draw)
    return request


def drawn_shared_circuit(draw: random.Random, chargers: int) -> Json:
    """A circuit that two or all of several chargers share."""
    return {
        "chargers": draw.sample(range(chargers), draw.choice((2, chargers))),
        "breaker_a": draw.choice((40, 60, 100)),
        "control_setting_a": draw.choice((32, 48, 80, 90)),
        "fail_safe_current_a": draw.choice((0, 6, 16, 40)),
        "listed": draw.random() < 0.8,
    }


def without_facts(request: Json, seed: int) -> Json:
    """The same request with some of its facts left out."""
    draw = seeded(seed)
    request = copy.deepcopy(request)
    facts: list[tuple[Json, str]] = [
        *((charger, "setting_access") for charger in request["chargers"]),
        *((charger, "rated_current_a") for charger in request["chargers"]),
        *(
            (request["existing_load"], name)
            for name in ("coverage_percent", "has_generation", "occupied", "seasonal_load_va")
        ),
        *(
            (request["service"], name)
            for name in ("busbar_rating_a", "backfeed_opposite_main", "main_breaker_a")
        ),
        *(
            (circuit, name)
            for circuit in request.get("shared_circuits", [])
            for name in ("control_setting_a", "fail_safe_current_a", "listed")
        ),
        *(
            (request.get("management", {}), name)
            for name in (
                "fail_safe_current_a",
                "monitored_legs",
                "monitor_position",
                "listed",
                "link_loss_tested",
                "access",
            )
        ),
    ]
    for place, name in facts:
        if draw.random() < 0.25:
            place.pop(name, None)
    return request
