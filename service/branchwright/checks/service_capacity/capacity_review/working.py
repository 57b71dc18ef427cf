"""The steps behind a capacity review: the loads, what they are held against, and the conductors."""

from branchwright.calculations.continuous_load import least_rating_a
from branchwright.calculations.dwelling_load import (
    charger_load_va,
)
from branchwright.calculations.service_capacity import (
    setting_load_a,
    share_a,
)
from branchwright.checks.service_capacity.capacity_review.case import Case
from branchwright.checks.service_capacity.capacity_review.working_loads import LoadSteps
from branchwright.checks.service_capacity.capacity_review.working_ratings import panel, service_conductors
from branchwright.findings import Step, StepInput
from branchwright.questions.ledger import StepLedger, stated

Inputs = dict[str, StepInput]


def working(case: Case) -> list[Step]:
    """Return the steps of a case in the order in which a reader works."""
    ledger = StepLedger()
    loads = LoadSteps(case, ledger, "reported", "")
    loads.enter()
    if case.total_a is not None and case.total_a.greatest != case.total_a.reported:
        LoadSteps(case, ledger, "worst", "at-most-").enter()
    _management(case, ledger)
    _shared_circuits(case, ledger)
    panel(case, ledger)
    service_conductors(case, ledger)
    return ledger.steps


def _management(case: Case, ledger: StepLedger) -> None:
    """Enter what the control setting counts for, and the load when the monitor is lost, at its worst."""
    management = case.management
    if management is None or not case.managed:
        return
    rule = case.edition.provision("energy-management-load")
    ledger.note(
        setting_load_a.step(
            "control-setting-load",
            {
                "factor": rule.values["factor"],
                "control_setting_a": stated(
                    management.control_setting_a, "A", "/management/control_setting_a"
                ),
            },
            rule.citation,
        )
    )
    if management.fail_safe_current_a is None:
        return
    loads = LoadSteps(case, ledger, "worst", "lost-link-")
    existing = loads.existing()
    if existing is None:
        return
    count = len(case.managed)
    inputs: Inputs = {
        "each_a": stated(management.fail_safe_current_a, "A", "/management/fail_safe_current_a"),
        "voltage_v": loads.voltage,
    }
    expression = f"{count} * round(each_a * voltage_v, 6)"
    value = count * charger_load_va.value(management.fail_safe_current_a, case.voltage_v)
    others = [unit for unit in case.units if not unit.is_managed]
    if others:
        uncontrolled = loads.added(others, existing, "uncontrolled-")
        if uncontrolled is None:
            return
        inputs["uncontrolled_va"] = uncontrolled
        expression += " + uncontrolled_va"
        value += float(uncontrolled.value)
    charging = ledger.work_out(
        "lost-link-charging",
        "charging load with every monitor lost",
        expression,
        inputs,
        value,
        "VA",
        case.edition.provision("energy-management-equipment").citation,
    )
    loads.current(existing, loads.on_service(charging, "lost-link-"), "lost-link-total")


def _shared_circuits(case: Case, ledger: StepLedger) -> None:
    """Enter the least breaker of each shared circuit, and the share of each of its chargers."""
    rule = case.edition.provision("continuous-load")
    for number, circuit in enumerate(case.request.shared_circuits or ()):
        if circuit.control_setting_a is None:
            continue
        setting = stated(circuit.control_setting_a, "A", f"/shared_circuits/{number}/control_setting_a")
        ledger.note(
            least_rating_a.step(
                f"shared-circuit-{number}-least-breaker",
                {"factor": rule.values["factor"], "load_a": setting},
                rule.citation,
            )
        )
        count = len(set(circuit.chargers))
        ledger.work_out(
            f"shared-circuit-{number}-share",
            share_a.quantity,
            f"setting_a / {count}",
            {"setting_a": setting},
            share_a.value(circuit.control_setting_a, count),
            "A",
            None,
        )
