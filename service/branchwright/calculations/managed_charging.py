"""What energy management leaves to a charger in one interval, and what that brings the vehicle."""

from math import floor
from typing import Final

from branchwright.calculations.calculation import calculation

ASSUMED_EFFICIENCY: Final = 0.85
"""Charging efficiency where none is stated: the low end of common practice, 0.85 to 0.92; no source."""


@calculation("apparent power of an interval", "power_w / power_factor", "VA")
def apparent_power_va(power_w: float, power_factor: float) -> float:
    """Return the apparent power in VA of an average power in W at a power factor.

    Source: definition of the power factor (IEEE 1459).

    >>> apparent_power_va(4750.0, 0.95)
    5000.0
    """
    return power_w / power_factor


@calculation(
    "whole amperes that charger, circuit and vehicle allow",
    "floor(min(charging_current_a, breaker_a / factor, onboard_a))",
    "A",
)
def own_limit_a(charging_current_a: float, breaker_a: float, factor: float, onboard_a: float) -> float:
    """Return the greatest whole amperes that a vehicle draws at its charger, whatever the house does.

    The least of the charger's setting, the branch circuit's rating over the factor of a continuous load, and the
    limit of the onboard charger. Source: NEC 625.41, factor 1.25; whole amperes: common practice, no source.

    >>> own_limit_a(48.0, 50.0, 1.25, 80.0)
    40.0
    """
    return float(floor(min(charging_current_a, breaker_a / factor, onboard_a)))


@calculation(
    "limit of charging in an interval",
    "max(0, floor(min(own_limit_a, setting_a - margin_a - house_a)))",
    "A",
)
def charging_limit_a(own_limit_a: float, setting_a: float, margin_a: float, house_a: float) -> float:
    """Return the whole amperes to which charging is limited in an interval, before the pause below the least current.

    Formula: the least of the charger's own limit and what the house leaves of the control setting on its largest
    leg, the margin kept free. Source: definition of a control setting, NEC 220.70 (2023).

    >>> charging_limit_a(40.0, 80.0, 2.0, 51.3)
    26.0
    """
    return float(max(0, floor(min(own_limit_a, setting_a - margin_a - house_a))))


@calculation("current after the pause", "limit_a * min(1, floor(limit_a / least_a))", "A")
def current_or_pause_a(limit_a: float, least_a: float) -> float:
    """Return the current in A that a limit permits: the limit itself, or nothing below the least current.

    A vehicle is never offered less than 6 A, and no current is rounded up to that. Source: SAE J1772.

    >>> current_or_pause_a(26.0, 6.0), current_or_pause_a(5.0, 6.0)
    (26.0, 0.0)
    """
    return limit_a * min(1, floor(limit_a / least_a))


@calculation("energy needed at the wall", "energy_kwh / efficiency", "kWh")
def wall_energy_kwh(energy_kwh: float, efficiency: float) -> float:
    """Return the energy in kWh at the wall that brings an energy in kWh into the battery. Source: definition.

    >>> wall_energy_kwh(9.0, 0.9)
    10.0
    """
    return energy_kwh / efficiency


@calculation("least service rating for energy management", "round(factor * max(setting_a, house_a), 6)", "A")
def managed_service_a(factor: float, setting_a: float, house_a: float) -> float:
    """Return the least service rating in A for a control setting in A, and for the house alone at its greatest.

    Management cannot hold the service below what the house draws, so that the setting is at least that. Formula:
    factor times the larger of the two. Source: NEC 220.70 (2023), the setting as a continuous load.

    >>> managed_service_a(1.25, 80.0, 51.3)
    100.0
    """
    return round(factor * max(setting_a, house_a), 6)


@calculation(
    "least service rating for the house and least operating currents",
    "round(factor * house_a + least_a * chargers, 6)",
    "A",
)
def least_operating_service_a(factor: float, house_a: float, least_a: float, chargers: float) -> float:
    """Return the least service rating in A for what is not controlled and the least current of each charger in A.

    Formula: factor times the greatest current of the house, measured, and the least operating current of each
    controlled load. Source: NEC 120.7 (2026) as trade press has it; the factor of measured demand, NEC 220.87.

    >>> least_operating_service_a(1.25, 48.0, 6.0, 3.0)
    78.0
    """
    return round(factor * house_a + least_a * chargers, 6)
