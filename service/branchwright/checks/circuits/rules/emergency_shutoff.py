"""The emergency shutoff of chargers outside small dwellings."""

from branchwright.checks.circuits.circuit import Circuit, once_per_circuit
from branchwright.checks.circuits.given import Given
from branchwright.checks.circuits.rules.rule import rule
from branchwright.checks.circuits.segment_conditions import SMALL_DWELLINGS
from branchwright.findings import Finding


def shutoff_need(given: Given) -> tuple[bool | None, str]:
    """Return whether an emergency shutoff is asked for (None: the occupancy is missing), and why."""
    if not given.edition.provision("emergency-shutoff").says("applies"):
        return False, "this edition asks for none"
    if given.receptacle is not None:
        return False, "the charger is not permanently connected"
    occupancy = given.facts.premises.occupancy if given.facts.premises else None
    if occupancy is None:
        return None, "the section exempts one- and two-family dwellings"
    if occupancy in SMALL_DWELLINGS:
        return False, "one- and two-family dwellings are exempt"
    return True, "the charger is permanently connected outside a one- or two-family dwelling"


@once_per_circuit
def shutoff_of(circuit: Circuit) -> tuple[bool | None, str]:
    """Return whether the charger of a circuit needs an emergency shutoff, and why."""
    return shutoff_need(circuit.given)


@rule("emergency-shutoff", subject="emergency shutoff", concept="emergency-shutoff")
def emergency_shutoff(circuit: Circuit) -> Finding:
    """Is there an emergency shutoff for permanently connected chargers where the edition asks for one?

    Applies: in editions that ask for one, outside one- and two-family dwellings.
    Rests on: a shutoff within sight and reach, apart from the disconnecting means; its distance is not judged.
    Missing facts: undetermined without the occupancy where none is there, or where it is not stated whether
    there is one.
    """
    given = circuit.given
    cited = emergency_shutoff.cited(given.edition)
    needed, why = shutoff_of(circuit)
    present = circuit.sizes.emergency_shutoff
    pointer = circuit.pointer("shutoff")
    if needed is None and present:
        return emergency_shutoff.one_of(
            "present",
            ["present"],
            f"It is present, whether asked for or not: {why}.",
            cited,
            pointer,
            holds=True,
        )
    if needed is None:
        return emergency_shutoff.undetermined(
            "/premises/occupancy", f"Not stated, and {why}: /premises/occupancy.", cited
        )
    if not needed:
        return emergency_shutoff.not_applicable(f"Not asked for: {why}.", cited)
    if present is None:
        return emergency_shutoff.undetermined(
            pointer, f"Asked for, as {why}; whether there is one is not stated.", cited
        )
    state = "present" if present else "missing"
    return emergency_shutoff.one_of(
        state,
        ["present"],
        f"Asked for, as {why}. The emergency shutoff is {state}.",
        cited,
        pointer,
        holds=present,
    )
