"""Power and energy of charging, at the wall and at the nominal voltage."""

from math import sqrt

from branchwright.calculations.calculation import calculation


@calculation("charging power, single-phase", "voltage_v * current_a * power_factor / 1000", "kW")
def single_phase_power_kw(voltage_v: float, current_a: float, power_factor: float) -> float:
    """Return the power in kW of a single-phase charger at a voltage in V and a current in A.

    Formula: voltage times current times power factor. Source: definition of active power (IEEE 1459).
    Published example: AC level 2 charging of 80 A at 240 V is 19.2 kW (SAE J1772).

    >>> single_phase_power_kw(240.0, 80.0, 1.0)
    19.2
    """
    return voltage_v * current_a * power_factor / 1000


@calculation("charging power, three-phase", "sqrt(3) * voltage_v * current_a * power_factor / 1000", "kW")
def three_phase_power_kw(voltage_v: float, current_a: float, power_factor: float) -> float:
    """Return the power in kW of a balanced three-phase charger at a voltage in V between lines and a current in A.

    Formula: square root of three times voltage times current times power factor. Source: definition of active
    power (IEEE 1459). Published example: 32 A at 400 V three-phase is called 22 kW in Europe.

    >>> round(three_phase_power_kw(400.0, 32.0, 1.0), 1)
    22.2
    """
    return sqrt(3) * voltage_v * current_a * power_factor / 1000


@calculation("energy", "power_kw * duration_h", "kWh")
def energy_kwh(power_kw: float, duration_h: float) -> float:
    """Return the energy in kWh that a constant power in kW brings in a duration in h. Source: definition.

    >>> round(energy_kwh(11.52, 8.0), 2)
    92.16
    """
    return power_kw * duration_h
