"""Branch circuits that several chargers share under management."""

from branchwright.calculations.service_capacity import greatest_continuous_a, share_a
from branchwright.checks.service_capacity.capacity_review.case import Case
from branchwright.checks.service_capacity.capacity_review.facts import SharedCircuit
from branchwright.checks.service_capacity.capacity_review.rules.rule import rule
from branchwright.findings import Finding
from branchwright.questions.fields import LEAST_SIGNALLED_A

AT = "/shared_circuits"
NONE = "No circuit is stated to be shared."


def _circuits(case: Case) -> list[tuple[int, SharedCircuit]]:
    return list(enumerate(case.request.shared_circuits or ()))


def greatest_shared_a(case: Case, breaker_a: float) -> float:
    """Return the greatest current that chargers may draw together from a circuit, A."""
    return greatest_continuous_a.value(breaker_a, case.edition.provision("continuous-load").number("factor"))


@rule("shared-circuit-members", subject="shared circuits", concept="shared-circuit")
def shared_circuit_members(case: Case) -> Finding:
    """Are the chargers of every shared circuit there, and on one circuit only?

    Applies: where circuits are shared.
    Rests on: a charger is connected to one circuit.
    Missing facts: none; the chargers of a shared circuit are always stated.
    """
    seen: set[int] = set()
    for number, circuit in _circuits(case):
        for index, place in enumerate(circuit.chargers):
            if place >= len(case.chargers) or place in seen:
                why = "there is no such charger" if place >= len(case.chargers) else "it is named twice"
                return shared_circuit_members.finding(
                    "fail",
                    f"Shared circuit {number} names charger {place}: {why}.",
                    citation=None,
                    pointer=f"{AT}/{number}/chargers/{index}",
                )
            seen.add(place)
    if not seen:
        return shared_circuit_members.not_applicable(NONE)
    return shared_circuit_members.finding(
        "pass", "Every charger of a shared circuit is there once.", citation=None, pointer=AT
    )


@rule("shared-circuit-management", subject="shared circuits", concept="shared-circuit")
def shared_circuit_management(case: Case) -> Finding:
    """May the chargers share a circuit?

    Applies: where circuits are shared.
    Rests on: a charger has a circuit of its own, except where listed management holds those that share one; never
    two ordinary loads. An edition may have no such exception.
    Missing facts: undetermined where it is not stated whether the management is listed.
    """
    provision = case.edition.provision("shared-circuit")
    circuits = _circuits(case)
    if not circuits:
        return shared_circuit_management.not_applicable(NONE, provision.citation)
    if not provision.says("permitted"):
        return shared_circuit_management.one_of(
            "shared circuit",
            ["individual circuits"],
            "This edition asks for a circuit of its own for every charger.",
            provision.citation,
            AT,
            holds=False,
        )
    number, circuit = min(circuits, key=lambda item: {False: 0, None: 1, True: 2}[item[1].listed])
    return shared_circuit_management.states(
        circuit.listed,
        "the management of every shared circuit is listed for it",
        f"the management of shared circuit {number} is not listed for it",
        f"the management of shared circuit {number} is listed for it",
        provision.citation,
        f"{AT}/{number}/listed",
    )


@rule("shared-circuit-setting", subject="shared circuits", concept="continuous-load")
def shared_circuit_setting(case: Case) -> Finding:
    """Does the breaker of every shared circuit reach 125 percent of what its chargers draw together?

    Applies: where circuits are shared.
    Rests on: charging is a continuous load; what the management lets the chargers draw is their load.
    Missing facts: undetermined where the setting is not stated.
    """
    cited = shared_circuit_setting.cited(case.edition)
    circuits = _circuits(case)
    if not circuits:
        return shared_circuit_setting.not_applicable(NONE, cited)
    number, circuit = min(
        circuits,
        key=lambda item: item[1].breaker_a - case.least_circuit_a(item[1].control_setting_a or 0.0),
    )
    unknown = [number for number, other in circuits if other.control_setting_a is None]
    if unknown and case.least_circuit_a(circuit.control_setting_a or 0.0) <= circuit.breaker_a:
        return shared_circuit_setting.undetermined(
            f"{AT}/{unknown[0]}/control_setting_a",
            f"It is not stated what the chargers of shared circuit {unknown[0]} may draw together.",
            cited,
        )
    setting = circuit.control_setting_a or 0.0
    least = case.least_circuit_a(setting)
    return shared_circuit_setting.at_least(
        circuit.breaker_a,
        least,
        "A",
        f"Breaker of {circuit.breaker_a:g} A on shared circuit {number}; its setting of {setting:g} A asks for at "
        f"least {least:g} A, and {greatest_shared_a(case, circuit.breaker_a):g} A is the greatest that it may be.",
        cited,
        f"{AT}/{number}/breaker_a",
    )


@rule("shared-circuit-share", subject="shared circuits", concept="shared-circuit", force="recommendation")
def shared_circuit_share(case: Case) -> Finding:
    """Can the chargers of every shared circuit all charge at once?

    Applies: where circuits are shared and their settings stated.
    Rests on: the pilot signal of SAE J1772 offers no less than 6 A; with a smaller share chargers wait for each other.
    Missing facts: not applicable where no setting is stated.
    """
    shares = [
        (share_a.value(circuit.control_setting_a, len(set(circuit.chargers))), number, circuit)
        for number, circuit in _circuits(case)
        if circuit.control_setting_a is not None
    ]
    if not shares:
        return shared_circuit_share.not_applicable(NONE)
    share, number, circuit = min(shares, key=lambda item: item[0])
    return shared_circuit_share.at_least(
        share,
        float(LEAST_SIGNALLED_A),
        "A",
        f"{len(set(circuit.chargers))} chargers share {circuit.control_setting_a:g} A on circuit {number}: "
        f"{share:.2f} A each.",
        None,
        f"{AT}/{number}/control_setting_a",
    )


@rule("shared-circuit-lost-link", subject="shared circuits", concept="energy-management-equipment")
def shared_circuit_lost_link(case: Case) -> Finding:
    """Does every shared circuit hold when its chargers have lost each other?

    Applies: where circuits are shared.
    Rests on: 125 percent of their fail-safe currents together are within the breaker; on a malfunction nothing is
    overloaded.
    Missing facts: undetermined where the fail-safe current is not stated.
    """
    cited = shared_circuit_lost_link.cited(case.edition)
    circuits = _circuits(case)
    if not circuits:
        return shared_circuit_lost_link.not_applicable(NONE, cited)

    def least_a(circuit: SharedCircuit) -> float:
        return case.least_circuit_a(len(set(circuit.chargers)) * (circuit.fail_safe_current_a or 0.0))

    number, circuit = min(circuits, key=lambda item: item[1].breaker_a - least_a(item[1]))
    unknown = [number for number, other in circuits if other.fail_safe_current_a is None]
    if unknown and least_a(circuit) <= circuit.breaker_a:
        return shared_circuit_lost_link.undetermined(
            f"{AT}/{unknown[0]}/fail_safe_current_a",
            f"It is not stated what a charger of shared circuit {unknown[0]} draws when it has lost the others.",
            cited,
        )
    return shared_circuit_lost_link.at_least(
        circuit.breaker_a,
        least_a(circuit),
        "A",
        f"Breaker of {circuit.breaker_a:g} A on shared circuit {number}; fail-safe currents of "
        f"{circuit.fail_safe_current_a:g} A each ask for at least {least_a(circuit):g} A.",
        cited,
        f"{AT}/{number}/fail_safe_current_a",
    )
