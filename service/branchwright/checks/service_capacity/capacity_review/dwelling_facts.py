"""What the rules of load calculations find of the facts of the dwelling."""

from branchwright.checks.service_capacity.capacity_review.calculated import CalculatedLoad
from branchwright.checks.service_capacity.capacity_review.case import Case
from branchwright.checks.service_capacity.dwelling_load import LoadCalculationRequest
from branchwright.checks.service_capacity.dwelling_load.case import LoadCase
from branchwright.checks.service_capacity.dwelling_load.rules import LoadRule
from branchwright.checks.service_capacity.dwelling_load.rules.chargers import (
    dwelling_charger_setting,
    dwelling_load_management,
)
from branchwright.checks.service_capacity.dwelling_load.rules.dwelling import (
    cooking_rating,
    heat_pump_listed_once,
    heating_control,
    laundry_circuits,
    listed_once,
    motor_within_rating,
    small_appliance_circuits,
)
from branchwright.findings import Finding

RULES: tuple[LoadRule, ...] = (
    listed_once,
    heat_pump_listed_once,
    small_appliance_circuits,
    laundry_circuits,
    cooking_rating,
    motor_within_rating,
    heating_control,
    dwelling_charger_setting,
    dwelling_load_management,
)
"""Rules of load calculations about facts alone; none of them depends on a reading, the service or the chargers."""


def dwelling_case(case: Case) -> LoadCase | None:
    """Return the dwelling of a calculated load as a load calculation sees it; None of a measured one."""
    load = case.existing
    if not isinstance(load, CalculatedLoad):
        return None
    request = LoadCalculationRequest(
        edition=case.request.edition, dwelling=load.facts.dwelling, methods=(load.facts.method,)
    )
    of_dwelling = LoadCase(request, case.book.afresh())
    # The same dwelling, at the place where this request states it.
    of_dwelling.household = load.household((), "reported")
    return of_dwelling


def dwelling_findings(of_dwelling: LoadCase | None) -> list[Finding]:
    """Return what the rules find of a dwelling."""
    return [] if of_dwelling is None else [rule(of_dwelling) for rule in RULES]
