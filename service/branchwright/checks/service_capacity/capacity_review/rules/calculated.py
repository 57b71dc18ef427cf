"""Whether the calculated existing load can be computed, and whether its method may be used."""

from branchwright.checks.service_capacity.capacity_review.calculated import CalculatedLoad
from branchwright.checks.service_capacity.capacity_review.case import Case
from branchwright.checks.service_capacity.capacity_review.rules.rule import rule
from branchwright.checks.service_capacity.dwelling_load import Method
from branchwright.findings import Finding, Outcome
from branchwright.questions.ledger import StepLedger

MEASURED = "The existing load is measured, not calculated."

CONCEPTS: dict[Method, str] = {
    "standard": "lighting-load",
    "optional-new": "optional-dwelling-load",
    "optional-existing": "existing-dwelling-load",
}
"""What each method rests on."""


@rule("existing-load-facts", subject="calculated existing load", concept="lighting-load")
def existing_load_facts(case: Case) -> Finding:
    """Is everything stated that the existing load is calculated from?

    Applies: where the existing load is calculated.
    Rests on: the general load is counted by floor area, a charger that is there already by its current or nameplate.
    Missing facts: undetermined; nothing can be told of the load.
    """
    load, cited = case.existing, existing_load_facts.cited(case.edition)
    if not isinstance(load, CalculatedLoad):
        return existing_load_facts.not_applicable(MEASURED, cited)
    if load.lacking is not None:
        return existing_load_facts.undetermined(*load.lacking, cited)
    return existing_load_facts.finding("pass", "The existing load could be calculated.", citation=cited)


@rule("existing-load-method", subject="calculated existing load", concept="existing-dwelling-load")
def existing_load_method(case: Case) -> Finding:
    """May the method of the load calculation be used here?

    Applies: where the existing load is calculated.
    Rests on: the standard method is for every dwelling. The optional ones are for one three-wire supply: that for a
    dwelling asks for conductors of 100 A or more, that for an existing dwelling is for one that takes on load.
    Missing facts: undetermined where the ampacity of the conductors would decide.
    """
    load = case.existing
    if not isinstance(load, CalculatedLoad):
        return existing_load_method.not_applicable(MEASURED)
    cited = case.edition.citation_of(CONCEPTS[load.facts.method])
    found = load.method(case.units, "reported", StepLedger())
    pointer = found.permission_pointer
    if pointer == "/service/conductor_ampacity_a":
        pointer = "/service/conductors"
    outcome: Outcome = "pass" if found.permitted else "fail"
    if found.permitted is None:
        outcome = "undetermined"
    return existing_load_method.finding(outcome, found.why, citation=cited, pointer=pointer)
