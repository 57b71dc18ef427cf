"""The disconnecting means at the charger."""

from typing import Final

from branchwright.checks.circuits.circuit import Circuit, once_per_circuit
from branchwright.checks.circuits.facts import InstalledDisconnect
from branchwright.checks.circuits.given import Given
from branchwright.checks.circuits.rules.rule import rule
from branchwright.findings import Finding, Provided, Required

SOUND_DISCONNECT: Final = InstalledDisconnect(present=True, readily_accessible=True, lockable_open=True)
"""One that lacks nothing that is asked for: what a design prescribes and a remedy proposes."""


def disconnect_need(given: Given) -> tuple[bool, str]:
    """Return whether a disconnecting means is asked for at the charger, and why."""
    provision = given.edition.provision("disconnect")
    charger = given.facts.charger
    rating = max(charger.rated_current_a or 0.0, charger.charging_current_a)
    limit_a, limit_v = provision.number("above_a"), provision.number("above_v_to_ground")
    if provision.says("hardwired_only") and given.receptacle is not None:
        return False, "the charger is not permanently connected; its plug disconnects it"
    if limit_a == 0:
        return True, "the charger is permanently connected"
    if rating > limit_a:
        return True, f"the charger's rating of {rating:g} A is above {limit_a:g} A"
    if limit_v < given.to_ground_v:
        return True, f"{given.to_ground_v:g} V to ground is above {limit_v:g} V"
    return False, (
        f"the charger's rating of {rating:g} A is not above {limit_a:g} A, "
        f"nor {given.to_ground_v:g} V to ground above {limit_v:g} V"
    )


@once_per_circuit
def disconnect_of(circuit: Circuit) -> tuple[bool, str]:
    """Return whether the charger of a circuit needs a disconnecting means, and why."""
    return disconnect_need(circuit.given)


@rule("disconnecting-means", subject="disconnecting means", concept="disconnect")
def disconnecting_means(circuit: Circuit) -> Finding:
    """Does the charger have a readily accessible disconnecting means that locks open, where one is asked for?

    Applies: to chargers rated above 60 A or connected above 150 V to ground; in the newest edition to every
    permanently connected one.
    Rests on: the rating of the equipment, not of its circuit; an adjusted setting does not lower it here.
    Missing facts: undetermined where it is not stated whether there is one, can be reached and locked.
    """
    given = circuit.given
    cited = disconnecting_means.cited(given.edition)
    needed, why = disconnect_of(circuit)
    if not needed:
        return disconnecting_means.not_applicable(f"Not asked for: {why}.", cited)
    installed = circuit.sizes.disconnect
    if installed is None:
        return disconnecting_means.undetermined(
            circuit.pointer("disconnect"), f"Asked for, as {why}; whether there is one is not stated.", cited
        )
    qualities = {
        "present": installed.present,
        "readily_accessible": installed.readily_accessible,
        "lockable_open": installed.lockable_open,
    }
    lacking = [name for name, quality in qualities.items() if quality is False]
    unknown = [name for name, quality in qualities.items() if quality is None]
    if unknown and not lacking:
        return disconnecting_means.undetermined(
            f"/installed/disconnect/{unknown[0]}", f"Asked for, as {why}; {unknown[0]} is not stated.", cited
        )
    state = (
        "present, readily accessible and lockable open"
        if not lacking
        else f"not {lacking[0].replace('_', ' ')}"
    )
    return disconnecting_means.finding(
        "fail" if lacking else "pass",
        f"Asked for, as {why}. The disconnecting means is {state}.",
        citation=cited,
        pointer=f"/installed/disconnect/{lacking[0]}" if lacking else circuit.pointer("disconnect"),
        required=Required("readily accessible, lockable open", "text", "present"),
        provided=Provided(state, "text"),
    )
