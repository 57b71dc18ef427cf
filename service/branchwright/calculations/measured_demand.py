"""Demand from metered energy: averages over an interval, and what a shorter one can hide."""

from math import ceil, sqrt
from typing import TypeAlias

import numpy as np
import numpy.typing as npt

from branchwright.calculations.calculation import calculation

Energies: TypeAlias = npt.NDArray[np.float64]

SHORT_MINUTES = 15


@calculation("average power of an interval", "60 * energy_wh / interval_minutes", "W")
def average_power_w(energy_wh: float, interval_minutes: float) -> float:
    """Return the average power in W of an interval of so many minutes that took an energy in Wh.

    Source: definition of demand as energy over time. Published example: 5.18 kWh in an hour is 5.18 kW.

    >>> average_power_w(5180.0, 60.0)
    5180.0
    """
    return 60 * energy_wh / interval_minutes


@calculation("energy of an average power", "power_w * interval_minutes / 60", "Wh")
def interval_energy_wh(power_w: float, interval_minutes: float) -> float:
    """Return the energy in Wh that an average power in W takes in an interval of so many minutes.

    Source: definition.

    >>> interval_energy_wh(4800.0, 15.0)
    1200.0
    """
    return power_w * interval_minutes / 60


@calculation("demand if all the energy fell into a quarter of an hour", "energy_wh / 0.25", "W")
def quarter_hour_power_w(energy_wh: float) -> float:
    """Return the average power in W over 15 minutes that took an energy in Wh.

    With the energy of every interval that such 15 minutes can touch it is a bound: the load never gives energy
    back, so no 15 minutes take more than the intervals around them. Source: arithmetic; no factor of experience
    is in it.

    >>> quarter_hour_power_w(5180.0 + 3000.0)
    32720.0
    """
    return energy_wh / 0.25


@calculation("one quantity over another", "part_w / whole_w", "1")
def bound_ratio(part_w: float, whole_w: float) -> float:
    """Return a power in W over another in W.

    >>> bound_ratio(32000.0, 8000.0)
    4.0
    """
    return part_w / whole_w


@calculation("current of a demand, single-phase", "power_w / voltage_v", "A")
def single_phase_demand_a(power_w: float, voltage_v: float) -> float:
    """Return the current in A that a power in W asks for at a voltage in V and power factor 1.

    Between the lines it is the current of balanced legs; to ground it is that of one leg with everything on it.
    Source: definition of active power (IEEE 1459). Published example: 19.2 kW at 240 V is 80 A (SAE J1772).

    >>> single_phase_demand_a(19200.0, 240.0)
    80.0
    """
    return power_w / voltage_v


@calculation("current of a demand, three-phase", "power_w / (sqrt(3) * voltage_v)", "A")
def three_phase_demand_a(power_w: float, voltage_v: float) -> float:
    """Return the current in A of each line of a balanced three-phase power in W at a voltage in V between lines.

    At power factor 1. Source: definition of active power (IEEE 1459).

    >>> round(three_phase_demand_a(36000.0, 208.0), 1)
    99.9
    """
    return power_w / (sqrt(3) * voltage_v)


def intervals_touched(interval_minutes: int) -> int:
    """Return how many neighbouring intervals of so many minutes a span of 15 minutes can touch.

    Where the intervals are a part of 15 minutes, or 15 minutes themselves, the spans that begin with an interval
    are meant, as a demand meter has them; else a span may begin anywhere.

    >>> [intervals_touched(minutes) for minutes in (60, 30, 15, 10, 5)]
    [2, 2, 1, 3, 3]
    """
    if SHORT_MINUTES % interval_minutes == 0:
        return SHORT_MINUTES // interval_minutes
    return ceil(SHORT_MINUTES / interval_minutes) + 1


def greatest_span(energies_wh: Energies, count: int) -> int:
    """Return where the `count` neighbouring intervals with the greatest energy begin; the first of equal ones.

    Missing energies (NaN) count as nothing. The last place from which `count` intervals follow is the last that is
    tried; with fewer intervals than that it is 0.

    >>> greatest_span(np.array([1.0, 5.0, np.nan, 3.0, 4.0]), 2)
    3
    """
    known = np.nan_to_num(energies_wh)
    if len(known) <= count:
        return 0
    sums = np.convolve(known, np.ones(count), "valid")
    return int(np.argmax(sums))
