"""Units of prices and of hours: which measure each is for, and how much of a unit a quantity is."""

from typing import Final

from branchwright.findings import StepInput
from branchwright.jobs.installation.price_facts import PriceUnit
from branchwright.jobs.installation.price_keys import Measure
from branchwright.quantities.lengths import KM_PER_MI, UNITS_PER_FOOT
from branchwright.questions.ledger import StepLedger

FEET: Final[dict[str, float]] = {"ft": 1.0, "10 ft": 10.0, "100 ft": 100.0, "1000 ft": 1000.0}
METRES: Final[dict[str, float]] = {"m": 1.0, "3 m": 3.0, "10 m": 10.0, "100 m": 100.0}
M_PER_FT: Final = UNITS_PER_FOOT["m"]

STICKS: Final = frozenset({"10 ft", "3 m"})
UNITS_OF: Final[dict[Measure, tuple[str, ...]]] = {
    "count": ("each",),
    "length": (*FEET, *METRES),
    "road": ("mi", "km"),
}
"""The units that a price or a time may be for, by what its key is counted in."""


def length_in(ledger: StepLedger, step_id: str, length: StepInput, unit: str) -> StepInput:
    """Enter a length in feet as a quantity of a unit, to a ten-thousandth of it."""
    feet = float(length.value)
    if unit in METRES:
        value, expression = feet * M_PER_FT / METRES[unit], f"length_ft * {M_PER_FT} / {METRES[unit]:g}"
    else:
        value, expression = feet / FEET[unit], f"length_ft / {FEET[unit]:g}"
    return _quantity(ledger, step_id, f"round({expression}, 4)", {"length_ft": length}, value, unit)


def road_in(ledger: StepLedger, step_id: str, distance: StepInput, unit: str) -> StepInput:
    """Enter a distance by road in miles or kilometres as a quantity of the other, or of the same."""
    value, expression = float(distance.value), "distance"
    if (distance.unit, unit) == ("mi", "km"):
        value, expression = value * KM_PER_MI, f"distance * {KM_PER_MI}"
    elif (distance.unit, unit) == ("km", "mi"):
        value, expression = value / KM_PER_MI, f"distance / {KM_PER_MI}"
    return _quantity(ledger, step_id, f"round({expression}, 4)", {"distance": distance}, value, unit)


def _quantity(
    ledger: StepLedger, step_id: str, expression: str, inputs: dict[str, StepInput], value: float, unit: str
) -> StepInput:
    return ledger.work_out(step_id, "quantity", expression, inputs, round(value, 4), unit, None)


def usual_unit(measure: Measure, *, sticks: bool, road: str) -> PriceUnit | str:
    """Return the unit of a quantity that has no price."""
    if measure == "count":
        return "each"
    if measure == "road":
        return road
    return "10 ft" if sticks else "ft"
