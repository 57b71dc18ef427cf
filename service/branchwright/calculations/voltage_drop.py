"""Voltage drop of a single-phase or three-phase circuit."""

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


@calculation("impedance of the segment between the lines", "sqrt(3) * ohm_per_kft * length_ft / 1000", "ohm")
def line_ohm(ohm_per_kft: float, length_ft: float) -> float:
    """Return the resistance or reactance in ohm of a balanced three-phase segment, seen between its lines.

    A line's own ohm times the square root of three: with it the drop between lines follows from the current in
    one line, as in a single-phase loop. Source: NEC chapter 9, table 9 (ohm to neutral per 1000 ft).

    >>> round(line_ohm(2.0, 100.0), 4)
    0.3464
    """
    return sqrt(3) * ohm_per_kft * length_ft / 1000


@calculation(
    "voltage drop",
    "voltage_v - sqrt(max(0, voltage_v ^ 2"
    " - (load_a * (reactance_ohm * power_factor - resistance_ohm * sqrt(max(0, 1 - power_factor ^ 2)))) ^ 2))"
    " + load_a * (resistance_ohm * power_factor + reactance_ohm * sqrt(max(0, 1 - power_factor ^ 2)))",
    "V",
)
def drop_v(
    voltage_v: float, load_a: float, resistance_ohm: float, reactance_ohm: float, power_factor: float
) -> float:
    """Return the voltage drop in V at a load in A of a lagging power factor.

    The source voltage is the hypotenuse over the load voltage with the drop in phase with it, and the drop
    across it. A result above the source voltage means that the current cannot flow over that length at all.
    Source: phasor diagram of a series impedance, e.g. IEEE 141, section 3.11. Published example: 600 kcmil
    aluminum, 270 A, power factor 0.7, 250 ft at 480 V three-phase, handbook commentary after chapter 9, table 9.

    >>> round(drop_v(240.0, 48.0, 0.049, 0.0, 1.0), 3)
    2.352
    >>> round(drop_v(480.0, 270.0, line_ohm(0.036, 250.0), line_ohm(0.039, 250.0), 0.7), 1)
    6.2
    """
    sine = sqrt(max(0.0, 1 - power_factor**2))
    across = load_a * (reactance_ohm * power_factor - resistance_ohm * sine)
    along = load_a * (resistance_ohm * power_factor + reactance_ohm * sine)
    return voltage_v - sqrt(max(0.0, voltage_v**2 - across**2)) + along


@calculation("voltage drop in percent", "100 * drop_v / voltage_v", "%")
def drop_percent(drop_v: float, voltage_v: float) -> float:
    """Return a drop in percent of the nominal voltage.

    >>> drop_percent(7.2, 240.0)
    3.0
    """
    return 100 * drop_v / voltage_v
