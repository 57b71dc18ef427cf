"""The load of the neutral: the same by every method, from the demands of the standard method."""

from dataclasses import dataclass

from branchwright.calculations.dwelling_load import reduced_neutral_current_a
from branchwright.checks.service_capacity.dwelling_load.demands import Demands
from branchwright.checks.service_capacity.dwelling_load.demands.appliances import (
    Appliances,
    Shares,
    enter_lines,
    shares,
)
from branchwright.checks.service_capacity.dwelling_load.methods.current import current_of
from branchwright.checks.service_capacity.dwelling_load.part import EDITION, Part
from branchwright.codebook import ProvisionLacking
from branchwright.findings import StepInput


@dataclass(slots=True)
class NeutralLoad:
    """The neutral's lines, its load in VA, and its current in A after any reduction; None where undetermined."""

    part: Part
    total: StepInput | None
    current: StepInput | None


def neutral_load(demands: Demands) -> NeutralLoad:
    """Enter the load of the neutral.

    What runs between lines alone adds nothing. Cooking and dryers count at a percentage of their demand, and a large
    current at a percentage above a limit, save on two lines and the neutral of a wye system.
    """
    part = demands.part("neutral-")
    try:
        return _entered(demands, part)
    except ProvisionLacking as lacking:
        part.lacks(EDITION, str(lacking))
        return NeutralLoad(part, None, None)


def _entered(demands: Demands, part: Part) -> NeutralLoad:
    """Enter the lines of the neutral, their sum and its current."""
    household = demands.household
    part.lines.extend(demands.lighting.lines)
    part.demands.update(demands.lighting.demands)
    part.lacking.extend(demands.lighting.lacking)
    _cooking_and_dryers(demands, part)
    _appliances(demands, part)
    if part.lacking:
        return NeutralLoad(part, None, None)
    rule = household.edition.provision("neutral-load")
    total = part.add_up("load", "load of the neutral", part.demands, rule.citation)
    current = current_of(household, part, total)
    if current is not None and float(current.value) > rule.number("above_a") and _reduces(demands):
        current = part.ledger.add(
            reduced_neutral_current_a.step(
                part.prefix + "reduced-current",
                {
                    "current_a": current,
                    "above_a": rule.values["above_a"],
                    "above_percent": rule.values["above_percent"],
                },
                rule.citation,
            )
        )
    return NeutralLoad(part, total, current)


def _reduces(demands: Demands) -> bool:
    """Whether the reductions hold for this supply."""
    household = demands.household
    rule = household.edition.provision("neutral-load")
    return not household.is_wye_three_wire or rule.says("wye_three_wire_reduces")


def _cooking_and_dryers(demands: Demands, part: Part) -> None:
    """Enter cooking and dryers at their share of the demand; what no table covers counts in full."""
    rule = demands.household.edition.provision("neutral-load")
    cooking, dryers = demands.cooking, demands.dryers
    part.lacking.extend(cooking.part.lacking)
    by_table = {
        "cooking": (cooking.by_table, "cooking_percent"),
        "dryers": (next(iter(dryers.demands.values()), None), "dryer_percent"),
    }
    titles = {"cooking": "cooking appliances, demand by the table", "dryers": "clothes dryers, demand"}
    for group, (load, percent) in by_table.items():
        if load is None:
            continue
        demand = load
        if _reduces(demands):
            demand = part.percent_of(group, load, rule.values[percent], rule.citation)
        part.line(
            "cooking" if group == "cooking" else "dryers",
            titles[group],
            float(load.value),
            (group, demand),
            rule.citation,
        )
    covered = set(cooking.columns)
    for (name, demand), line in zip(cooking.part.demands.items(), cooking.part.lines, strict=True):
        if name not in covered:
            part.line("cooking", line.item, line.connected_va, (name, demand), line.citation, line.pointer)


def _appliances(demands: Demands, part: Part) -> None:
    """Enter the appliances that the neutral carries, at the share they have in the standard method, and the addition
    for the largest motor among them.
    """
    household = demands.household
    edition = household.edition
    rule = edition.provision("appliance-demand")
    found = shares(household)
    carried = Shares(
        [one for one in found.shared if household.uses_neutral(one)],
        [one for one in found.full if household.uses_neutral(one)],
        [],
    )
    title = "appliances fastened in place that the neutral carries"
    enter_lines(part, carried, rule, title, f"load of the {title}")
    _largest_motor(demands, part, [*carried.shared, *carried.full])


def _largest_motor(demands: Demands, part: Part, appliances: Appliances) -> None:
    household = demands.household
    motors = {one.name: motor for one in appliances if (motor := household.motor_va(one)) is not None}
    if not motors:
        return
    rule = household.edition.provision("largest-motor")
    greatest = part.greatest("largest-motor", "largest motor that the neutral carries", motors, rule.citation)
    added = part.percent_of("largest-motor-addition", greatest, rule.values["added_percent"], rule.citation)
    part.line(
        "largest-motor",
        f"{rule.number('added_percent'):g} percent of the largest motor",
        float(greatest.value),
        ("largest_motor", added),
        rule.citation,
    )
