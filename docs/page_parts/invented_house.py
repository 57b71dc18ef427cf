"""A year of an invented house, the same in every build: nobody lives there, and no meter has seen it.

It is the house of the guides: 1800 ft2, heated by gas, with electric range, dryer, water heater and central cooling on
a service of 100 A. The weather follows the season with runs of cool and hot days; what is switched on starts at times
drawn from a generator of fixed state. `random` promises the same draws of `Random.random` in every version, so that
nothing else of it is used.
"""

from collections.abc import Iterator
from functools import cache
from math import cos, pi
from random import Random

START = "2025-01-01T00:00:00-06:00"
TIME_ZONE = "America/Chicago"
INTERVAL_MINUTES = 15
DAYS = 365
PER_HOUR = 60 // INTERVAL_MINUTES
PER_DAY = 24 * PER_HOUR
SUMMER_TIME = range(67, 305)
"""Days of the year, from 0, on whose evenings the clock is an hour ahead: people go by the clock."""

STATE = 7401
BASE_W = 320
COOLING_W = 5760
WATER_HEATER_W = 4500
DRYER_W = 5000
DISHWASHER_W = 1200
RANGE_W = 12_000

Run = tuple[int, int, float]
"""First interval of the day, number of intervals, power in W."""


@cache
def energy_wh() -> tuple[int, ...]:
    """Return the energy of each quarter of an hour of the year, Wh."""
    draws = Random(STATE)  # noqa: S311 - it draws an invented house
    found: list[int] = []
    departure_c = 0.0
    for day in range(DAYS):
        # A run of cool or hot days: most of yesterday's departure from the season stays.
        departure_c = 0.7 * departure_c + 7.0 * (draws.random() - 0.5)
        mean_c = 12.5 - 14.5 * cos(2 * pi * (day - 18) / DAYS) + departure_c
        powers = [_steady_w(mean_c, place, draws) for place in range(PER_DAY)]
        for first, length, power_w in _switched_on(day, draws):
            for place in range(first, min(first + length, PER_DAY)):
                powers[place] += power_w
        found += [round(power / PER_HOUR) for power in powers]
    return tuple(found)


def _steady_w(mean_c: float, place: int, draws: Random) -> float:
    """Return what the house draws by itself in a quarter of an hour of a day with a mean temperature, W."""
    outside_c = mean_c - 5.0 * cos(2 * pi * (place / PER_DAY - 4.5 / 24))
    blower_w = 350 * min(1.0, max(0.0, (16.0 - outside_c) / 30.0))
    cooling_w = COOLING_W * min(1.0, max(0.0, (outside_c - 21.0) / 15.0))
    return BASE_W * (0.8 + 0.4 * draws.random()) + blower_w + cooling_w


def _switched_on(day: int, draws: Random) -> Iterator[Run]:
    """Yield what is switched on in a day."""
    shift = PER_HOUR if day in SUMMER_TIME else 0

    def at(clock_h: float, spread_h: float) -> int:
        return round((clock_h + spread_h * (draws.random() - 0.5)) * PER_HOUR) - shift

    yield at(6.75, 0.8), 3 + round(2 * draws.random()), WATER_HEATER_W
    yield at(20.5, 2.5), 2 + round(2 * draws.random()), WATER_HEATER_W
    yield at(18.25, 1.0), 2 + round(3 * draws.random()), RANGE_W * (0.15 + 0.3 * draws.random())
    yield at(17.75, 0.5), 22, 700 * (0.6 + draws.random())
    yield at(6.5, 0.6), 5, 900 * (0.6 + draws.random())
    if draws.random() < 0.6:
        yield at(20.0, 1.5), 4, DISHWASHER_W
    if draws.random() < 0.4:
        yield at(19.25, 3.0), 3 + round(2 * draws.random()), DRYER_W
    if draws.random() < 0.3:
        yield at(12.0, 3.0), 3, RANGE_W * (0.1 + 0.2 * draws.random())
