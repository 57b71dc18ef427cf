"""Voltage drop of a single-phase circuit at unity power factor."""

from math import sqrt

from branchwright.calculations.calculation import calculation


@calculation("impedance of the segment, both conductors", "2 * ohm_per_kft * length_ft / 1000", "ohm")
def loop_ohm(ohm_per_kft: float, length_ft: float) -> float:
    """Return the resistance or reactance in ohm out and back over a length in ft.

    Source: NEC chapter 9, table 9 (ohm to neutral per 1000 ft); two conductors in series.

    >>> loop_ohm(2.0, 100.0)
    0.4
    """
    return 2 * ohm_per_kft * length_ft / 1000


@calculation(
    "voltage drop",
    "voltage_v - (sqrt(max(0, voltage_v ^ 2 - (load_a * reactance_ohm) ^ 2)) - load_a * resistance_ohm)",
    "V",
)
def drop_v(voltage_v: float, load_a: float, resistance_ohm: float, reactance_ohm: float) -> float:
    """Return the voltage drop in V at a load in A of unity power factor.

    The source voltage is the hypotenuse over (load voltage + I R) and I X. A result above the source voltage
    means that the current cannot flow over that length at all.
    Source: phasor diagram of a series impedance, e.g. IEEE 141, section 3.11.

    >>> round(drop_v(240.0, 48.0, 0.049, 0.0), 3)
    2.352
    """
    return voltage_v - (
        sqrt(max(0.0, voltage_v**2 - (load_a * reactance_ohm) ** 2)) - load_a * resistance_ohm
    )


@calculation("voltage drop in percent", "100 * drop_v / voltage_v", "%")
def drop_percent(drop_v: float, voltage_v: float) -> float:
    """Return a drop in percent of the nominal voltage.

    >>> drop_percent(7.2, 240.0)
    3.0
    """
    return 100 * drop_v / voltage_v
