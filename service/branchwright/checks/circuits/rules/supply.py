"""The supply system that the circuit is taken from."""

from branchwright.checks.circuits.circuit import Circuit
from branchwright.checks.circuits.rules.rule import rule
from branchwright.findings import Finding


@rule("supply-phases", subject="supply system", concept="nominal_voltages")
def supply_phases(circuit: Circuit) -> Finding:
    """Does the supply system have as many phases as the charger uses?

    Applies: always.
    Rests on: a split-phase system serves single-phase chargers only; a wye system one or three phases.
    Missing facts: no number of phases stands for one.
    """
    supply = circuit.facts.supply
    greatest = circuit.given.edition.greatest_phases(supply.system)
    phases = supply.phases or 1
    return supply_phases.at_most(
        float(phases),
        greatest.number,
        "count",
        f"The charger uses {phases} phase{'s' if phases > 1 else ''}; a {supply.system} system has "
        f"{'one' if greatest.number == 1 else 'up to three'} for it.",
        supply_phases.cited(circuit.given.edition),
        "/supply/phases",
    )
