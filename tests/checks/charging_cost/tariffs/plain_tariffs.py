"""Small tariffs to work by hand, and loads over their year; the clock is UTC, so that every day has 24 hours."""

from collections.abc import Callable
from datetime import datetime
from typing import Any

import numpy as np
from numpy.typing import NDArray
from tests.checks.charging_cost.asked_bills import Asked

Json = dict[str, Any]

FLAT: Json = {"period": "all-hours", "from": "00:00", "to": "00:00", "tiers": [{"per_kwh": "0.10"}]}
DAY: Json = {"period": "day", "from": "08:00", "to": "20:00", "tiers": [{"per_kwh": "0.30"}]}
NIGHT: Json = {"period": "night", "from": "20:00", "to": "08:00", "tiers": [{"per_kwh": "0.10"}]}
HALVES = [
    {"name": "first", "from": "01-01", "to": "06-15"},
    {"name": "second", "from": "06-16", "to": "12-31"},
]
"""Two seasons that meet in the middle of June: 15 days of its 30 are in each."""


def tariff(*rates: Json, **more: Any) -> Json:
    return {
        "name": "worked by hand",
        "currency": "USD",
        "time_zone": "UTC",
        "energy_rates": list(rates or (FLAT,)),
        **more,
    }


def asked(*rates: Json, step_minutes: int = 60, **more: Any) -> Asked:
    return Asked(tariff(*rates, **more), 2027, step_minutes)


def load(of: Asked, kwh: Callable[[datetime], float]) -> NDArray[np.float64]:
    """Return the energy of each interval by the clock at its beginning."""
    year = of.priced().year
    return np.array([kwh(year.clock(at)) for at in range(year.count)], dtype=np.float64)


def always(kwh: float) -> Callable[[datetime], float]:
    return lambda clock: kwh


def lines(month: Any) -> list[tuple[str, str, str]]:
    """Return kind, quantity and amount of each line, as a bill shows them."""
    return [(line.kind, f"{line.quantity.normalize():f}", f"{line.amount:f}") for line in month.lines]
