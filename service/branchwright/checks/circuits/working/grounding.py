"""Steps of the grounding conductor."""

from branchwright.calculations.grounding import proportional_area_cmil
from branchwright.checks.circuits.rules.grounding_conductor import need_of
from branchwright.checks.circuits.working.ledger import Ledger
from branchwright.findings import StepInput


def grounding_conductor(ledger: Ledger, breaker_a: StepInput) -> None:
    """Enter the grounding conductor by the breaker and, where it grew, its least area."""
    circuit, edition = ledger.circuit, ledger.edition
    need = need_of(circuit)
    if need is None:
        return
    ledger.work_out(
        "grounding-conductor-by-breaker",
        "grounding conductor by the breaker's rating",
        "lookup(grounding_conductor, breaker_a, material)",
        {"breaker_a": breaker_a, "material": ledger.grounding_material()},
        need.table.value,
        "size",
        need.table.citation,
    )
    if need.grew:
        ledger.note(
            proportional_area_cmil.step(
                "grounding-conductor-area",
                {
                    "table_cmil": edition.areas_cmil[need.table.name],
                    "installed_cmil": edition.areas_cmil[need.installed],
                    "minimum_cmil": edition.areas_cmil[need.minimum],
                },
                edition.provision("grounding-proportion").citation,
            )
        )
