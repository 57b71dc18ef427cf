"""The working of an answer: every figure as a step that a reader can replay.

Sizes are named as the request states them, or, where the design chose them, as the row of the codebook's
table that they are; so every input comes from the request, the codebook or an earlier step.
"""

from branchwright.checks.circuits.circuit import Circuit
from branchwright.checks.circuits.working import ampacities, loads
from branchwright.checks.circuits.working.grounding import grounding_conductor
from branchwright.checks.circuits.working.ledger import Ledger
from branchwright.checks.circuits.working.raceways import operating_temperature, raceway_fill
from branchwright.checks.circuits.working.voltage_drop import voltage_drop
from branchwright.findings import Step


def working(circuit: Circuit) -> list[Step]:
    """Return the steps of a circuit in order, as far as what is stated or chosen reaches."""
    ledger = Ledger(circuit)
    load_a = loads.load(ledger)
    breaker_a = loads.breaker(ledger, load_a)
    column_c = loads.termination_column(ledger)
    given = circuit.given
    # A metal that is not made in this size has no ampacity to work with.
    if (
        circuit.sizes.ungrounded is None
        or (circuit.ungrounded, given.material, 90) not in ledger.edition.ampacities
    ):
        return ledger.steps
    ampacities.least_ampacity(ledger, load_a)
    terminal_a = ampacities.terminal_ampacity(ledger, column_c)
    by_segment = {segment.index: ampacities.segment_ampacity(ledger, segment) for segment in given.segments}
    known = {index: item for index, item in by_segment.items() if item is not None}
    if len(known) == len(by_segment):
        ampacities.protection(ledger, ampacities.run_ampacity(ledger, known), terminal_a)
    if breaker_a is not None:
        grounding_conductor(ledger, breaker_a)
    for segment in given.segments:
        raceway_fill(ledger, segment)
        operating_temperature(ledger, segment, load_a)
    voltage_drop(ledger)
    return ledger.steps


__all__ = ["working"]
