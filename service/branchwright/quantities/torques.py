"""Torques in the units that a request may use, turned into pound-force inches.

One pound-force inch is 0.112 984 829 N m (NIST Special Publication 811, appendix B).
"""

from typing import Final, Literal, TypeAlias

TorqueUnit: TypeAlias = Literal["lbf-in", "lbf-ft", "N-m"]

LBF_IN_PER_UNIT: Final[dict[TorqueUnit, float]] = {"lbf-in": 1.0, "lbf-ft": 12.0, "N-m": 1.0 / 0.112984829}
"""How many pound-force inches make one of each unit."""


def pound_force_inches(value: float, unit: TorqueUnit) -> float:
    """Return a torque in pound-force inches.

    >>> pound_force_inches(3.0, "lbf-ft")
    36.0
    """
    return value * LBF_IN_PER_UNIT[unit]
