"""What an existing circuit allows: the greatest charging current on the sizes that are there."""

from branchwright.checks.circuits.answers import ExistingCircuit
from branchwright.checks.circuits.circuit import Circuit
from branchwright.checks.circuits.given import Given
from branchwright.checks.circuits.rules.breaker_rating import overcurrent_continuous_load
from branchwright.checks.circuits.rules.conductor_ampacity import (
    conductor_continuous_load,
    conductor_corrected_ampacity,
)
from branchwright.checks.circuits.rules.disconnecting_means import disconnecting_means
from branchwright.checks.circuits.rules.neutral import neutral_size
from branchwright.checks.circuits.rules.raceway_temperature import raceway_temperature
from branchwright.checks.circuits.rules.voltage_drop import voltage_drop_target
from branchwright.checks.circuits.sizing import minimum_size
from branchwright.questions.changes import changed
from branchwright.questions.fields import GREATEST_SIGNALLED_A, LEAST_SIGNALLED_A

OF_THE_LOAD = (
    overcurrent_continuous_load,
    conductor_continuous_load,
    conductor_corrected_ampacity,
    neutral_size,
    raceway_temperature,
    voltage_drop_target,
    disconnecting_means,
)
"""Rules that ask less where the charger takes less; the others fail or hold whatever it takes."""


def existing_circuit(circuit: Circuit) -> ExistingCircuit:
    """Return the greatest whole current of a charger that the installed sizes carry, and what limits it.

    The charger is taken to be rated for that current. Every rule about the load only ever asks for more as the
    current rises, so the greatest current is found by halving. A size that is not stated leaves it unknown.
    """
    if circuit.missing:
        return ExistingCircuit(None, [])
    failing = _failing(circuit, LEAST_SIGNALLED_A)
    if failing:
        return ExistingCircuit(None, failing)
    holds, fails = LEAST_SIGNALLED_A, GREATEST_SIGNALLED_A + 1
    limited_by: list[str] = []
    while fails - holds > 1:
        middle = (holds + fails) // 2
        failing = _failing(circuit, middle)
        if failing:
            fails, limited_by = middle, failing
        else:
            holds = middle
    return ExistingCircuit(float(holds), limited_by)


def _failing(circuit: Circuit, current_a: int) -> list[str]:
    """Return the rules about the load that fail at a current, unknown facts at their worst."""
    facts = changed(circuit.facts, "/charger/charging_current_a", float(current_a))
    facts = changed(facts, "/charger/rated_current_a", None)
    # The readings that this consults belong to the question asked here, not to the review's verdict.
    book = circuit.given.book.afresh()
    given = Given(facts, book, circuit.sizes.breaker_a)
    tried = Circuit(given, circuit.sizes, minimum_size(given), is_review=True)
    return [rule.name for rule in OF_THE_LOAD if rule.function(tried).outcome == "fail"]
