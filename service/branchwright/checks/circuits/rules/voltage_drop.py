"""Voltage drop: the caller's target, or what the code suggests."""

from branchwright.checks.circuits.circuit import Circuit, voltage_drop
from branchwright.checks.circuits.given import Given
from branchwright.checks.circuits.rules.rule import Rule, rule
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


def _within(rule_of: Rule, circuit: Circuit, limit: float, asks: str, pointer: str) -> Finding:
    """Judge the drop against a limit in percent; `asks` says who sets it."""
    given = circuit.given
    drop = voltage_drop(given, circuit.ungrounded)
    if drop is None:
        return rule_of.undetermined(
            circuit.pointer("ungrounded"),
            f"The impedance table has no {given.material} of {circuit.ungrounded}.",
            given.edition.citation_of("conductor_impedance"),
        )
    finding = rule_of.at_most(
        round(drop[1], 3),
        limit,
        "%",
        f"{drop[0]:.2f} V, {drop[1]:.2f} percent, at {given.facts.charger.charging_current_a:g} A; "
        f"{asks} at most {limit:g} percent.",
        rule_of.cited(given.edition),
        pointer,
    )
    # The unrounded drop decides.
    finding.outcome = "pass" if drop[1] <= limit else "fail"
    return finding


@rule("voltage-drop-target", subject="voltage drop", concept="voltage-drop", needs=("ungrounded",))
def voltage_drop_target(circuit: Circuit) -> Finding:
    """Does the voltage drop at the charging current stay within the request's target?

    Applies: where the request states a target, which makes it a requirement of the request, not of the code.
    Rests on: resistance at 75 degC and reactance by conductor and raceway, out and back, unity power factor.
    Missing facts: undetermined without the conductor's size.
    """
    target = target_percent(circuit.given)
    if target is None:
        cited = voltage_drop_target.cited(circuit.given.edition)
        return voltage_drop_target.not_applicable("The request states no target.", cited)
    return _within(
        voltage_drop_target, circuit, target, "the request asks for", "/targets/voltage_drop_percent"
    )


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
    suggested = circuit.given.edition.provision("voltage-drop").number("percent")
    pointer = circuit.pointer("ungrounded")
    return _within(voltage_drop_suggestion, circuit, suggested, "the code suggests", pointer)
