"""Voltage drop: the caller's target, or what the code suggests."""

from branchwright.checks.circuits.circuit import Circuit, voltage_drop
from branchwright.checks.circuits.given import Given
from branchwright.checks.circuits.rules.rule import rule
from branchwright.findings import Finding
from branchwright.quantities.conductor_sizes import ConductorSize


def target_percent(given: Given) -> float | None:
    """Return the greatest drop in percent that the caller asks for, if any."""
    targets = given.facts.targets
    return targets.voltage_drop_percent if targets else None


def meets_target(given: Given, breaker_a: float, size: ConductorSize) -> bool:
    """Return whether a size keeps the caller's target."""
    target = target_percent(given)
    if target is None:
        return True
    drop = voltage_drop(given, size)
    return drop is not None and drop[1] <= target


@rule("voltage-drop-target", subject="voltage drop", concept="voltage-drop", needs=("ungrounded",))
def voltage_drop_target(circuit: Circuit) -> Finding:
    """Does the voltage drop at the charging current stay within the request's target?

    Applies: where the request states a target, which makes it a requirement of the request, not of the code.
    Rests on: resistance at 75 degC and reactance by conductor and raceway, out and back, unity power factor.
    Missing facts: undetermined without the conductor's size.
    """
    given = circuit.given
    cited = voltage_drop_target.cited(given.edition)
    target = target_percent(given)
    if target is None:
        return voltage_drop_target.not_applicable("The request states no target.", cited)
    drop = voltage_drop(given, circuit.ungrounded)
    if drop is None:
        return voltage_drop_target.undetermined(
            circuit.pointer("ungrounded"),
            f"The impedance table has no {given.material} of {circuit.ungrounded}.",
            given.edition.citation_of("conductor_impedance"),
        )
    finding = voltage_drop_target.at_most(
        round(drop[1], 3),
        target,
        "%",
        f"{drop[0]:.2f} V, {drop[1]:.2f} percent, at {given.facts.charger.charging_current_a:g} A; "
        f"the request asks for at most {target:g} percent.",
        cited,
        "/targets/voltage_drop_percent",
    )
    finding.outcome = "pass" if drop[1] <= target else "fail"
    return finding


@rule(
    "voltage-drop-suggestion",
    subject="voltage drop",
    concept="voltage-drop",
    force="recommendation",
    needs=("ungrounded",),
)
def voltage_drop_suggestion(circuit: Circuit) -> Finding:
    """Does the voltage drop stay within what the code suggests for branch circuits?

    Applies: always, as a recommendation.
    Rests on: an informational note that suggests at most 3 percent at the farthest outlet.
    Missing facts: undetermined without the conductor's size.
    """
    given = circuit.given
    provision = given.edition.provision("voltage-drop")
    suggested = provision.number("percent")
    drop = voltage_drop(given, circuit.ungrounded)
    if drop is None:
        return voltage_drop_suggestion.undetermined(
            circuit.pointer("ungrounded"),
            f"The impedance table has no {given.material} of {circuit.ungrounded}.",
            given.edition.citation_of("conductor_impedance"),
        )
    finding = voltage_drop_suggestion.at_most(
        round(drop[1], 3),
        suggested,
        "%",
        f"{drop[0]:.2f} V, {drop[1]:.2f} percent, at {given.facts.charger.charging_current_a:g} A; "
        f"the code suggests at most {suggested:g} percent.",
        provision.citation,
        circuit.pointer("ungrounded"),
    )
    finding.outcome = "pass" if drop[1] <= suggested else "fail"
    return finding
