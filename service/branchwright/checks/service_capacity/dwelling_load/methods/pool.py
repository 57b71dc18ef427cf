"""A pool of loads, of which the first part counts in full and the rest at a percentage."""

from branchwright.calculations.dwelling_load import first_part_va, rest_va
from branchwright.checks.service_capacity.dwelling_load.demands import Demands
from branchwright.checks.service_capacity.dwelling_load.demands.chargers import charger_loads
from branchwright.checks.service_capacity.dwelling_load.demands.cooking import KINDS
from branchwright.checks.service_capacity.dwelling_load.demands.lighting import general_load
from branchwright.checks.service_capacity.dwelling_load.facts import Method
from branchwright.checks.service_capacity.dwelling_load.part import Part
from branchwright.codebook import Provision
from branchwright.findings import StepInput

Inputs = dict[str, StepInput]


def nameplates(demands: Demands, part: Part, rule: Provision) -> Inputs:
    """Enter what both optional methods pool: the general load, and appliances, cooking and dryers at their nameplates.

    The loads come back by name. A floor area that is not stated is entered as lacking.
    """
    household = demands.household
    found = general_load(household, demands.circuits, part, "pool", rule) or {}
    for unit in household.ranges:
        title = unit.facts.name or KINDS[unit.facts.kind]
        part.item("pool", title, unit.pointer + "/rating_w", unit.facts.rating_w)
        found[unit.name] = unit.stated(unit.facts.rating_w, "W", "rating_w")
    for dryer in household.dryers:
        title = dryer.facts.name or "clothes dryer"
        part.item("pool", title, dryer.pointer + "/rating_w", dryer.facts.rating_w)
        found[dryer.name] = dryer.stated(dryer.facts.rating_w, "W", "rating_w")
    for one in household.appliances:
        if household.is_counted(one):
            title = one.facts.name or "appliance"
            part.item("pool", title, one.pointer + "/rating_va", one.facts.rating_va)
            found[one.name] = one.stated(one.facts.rating_va, "VA", "rating_va")
    return found


def _chargers_beside(demands: Demands, part: Part, pool: Inputs, method: Method) -> Part | None:
    """Return the chargers as a part beside the pool; None without any, or where the reading in force pools them.

    Pooled chargers are entered into the pool.
    """
    household = demands.household
    if not household.chargers:
        return None
    in_pool = household.book.reading("charger-in-optional-method") == "in-the-pool"
    chargers = charger_loads(
        household,
        demands.nameplates,
        demands.part(part.prefix.removeprefix(demands.prefix)),
        method=method,
    )
    if not in_pool:
        return chargers
    part.lacking.extend(chargers.lacking)
    for line in chargers.lines:
        part.item("pool", line.item, line.pointer, line.demand_va)
    pool.update(chargers.demands)
    return None


def enter_pool(demands: Demands, part: Part, loads: Inputs, rule: Provision, method: Method) -> None:
    """Enter the pool's first part in full and its remainder at the percentage, and chargers in it or beside it.

    Where a load of the pool is lacking, there is none.
    """
    beside = _chargers_beside(demands, part, loads, method)
    _enter_parts(part, loads, rule)
    if beside is not None:
        part.take((beside,))


def _enter_parts(part: Part, loads: Inputs, rule: Provision) -> None:
    if part.lacking:
        return
    total = part.add_up("pool", "loads of the pool", loads, rule.citation)
    first = rule.values["first_va"]
    counted = part.ledger.add(
        first_part_va.step(part.prefix + "pool-first", {"load_va": total, "up_to_va": first}, rule.citation)
    )
    part.line(
        "pool",
        f"first {first.number:,.0f} VA of the loads",
        float(counted.value),
        ("pool_first", counted),
        rule.citation,
    )
    if float(total.value) <= first.number:
        return
    remainder = part.ledger.add(
        rest_va.step(part.prefix + "pool-rest", {"load_va": total, "above_va": first}, rule.citation)
    )
    demand = part.percent_of("pool-rest-demand", remainder, rule.values["rest_percent"], rule.citation)
    part.line("pool", "remainder of the loads", float(remainder.value), ("pool_rest", demand), rule.citation)
