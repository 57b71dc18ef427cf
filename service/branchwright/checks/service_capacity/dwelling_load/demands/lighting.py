"""General lighting by floor area, with the small-appliance and laundry circuits."""

from branchwright.calculations.dwelling_load import (
    circuits_load_va,
    demand_va,
    first_part_va,
    floor_area_load_va,
    middle_part_va,
    rest_va,
)
from branchwright.checks.service_capacity.dwelling_load.answers import Group
from branchwright.checks.service_capacity.dwelling_load.household import Household
from branchwright.checks.service_capacity.dwelling_load.part import Part
from branchwright.codebook import Provision
from branchwright.findings import StepInput
from branchwright.questions.ledger import stated

TITLE = "general lighting and receptacles with small-appliance and laundry circuits"


class Circuits:
    """The loads of small-appliance and laundry circuits, worked out once."""

    def __init__(self, household: Household, part: Part) -> None:
        """Enter both loads."""
        edition, dwelling = household.edition, household.dwelling
        small_appliance, laundry = (
            edition.provision("small-appliance-load"),
            edition.provision("laundry-load"),
        )
        self.small_appliance = _circuits(
            household, part, small_appliance, "small_appliance_circuits", dwelling.small_appliance_circuits
        )
        self.laundry = _circuits(household, part, laundry, "laundry_circuits", dwelling.laundry_circuits)


def _circuits(household: Household, part: Part, rule: Provision, field: str, count: int | None) -> StepInput:
    """Enter the load of circuits; the least number of them where none is stated."""
    least = rule.values["least_circuits"]
    return part.ledger.add(
        circuits_load_va.step(
            part.prefix + field.replace("_", "-"),
            {
                "va_each": rule.values["va_each"],
                "circuits": least
                if count is None
                else stated(float(count), "count", f"{household.at}/{field}"),
                "least_circuits": least,
            },
            rule.citation,
        )
    )


def general_load(
    household: Household, circuits: Circuits, part: Part, group: Group, rule: Provision
) -> dict[str, StepInput] | None:
    """Enter the items of the general load, its area at the VA of a provision, and return them by name.

    None where the floor area is not stated, which the part then lacks.
    """
    area = household.dwelling.floor_area_ft2
    at = household.at
    if area is None:
        part.lacks(at + "/floor_area_ft2", "The floor area is not stated.")
        return None
    lighting = part.ledger.add(
        floor_area_load_va.step(
            part.prefix + "floor-area-load",
            {
                "va_per_ft2": rule.values["va_per_ft2"],
                "area_ft2": stated(area, "ft2", at + "/floor_area_ft2"),
            },
            rule.citation,
        )
    )
    dwelling = household.dwelling
    found = {
        "floor_area_load": lighting,
        "small_appliance_circuits": circuits.small_appliance,
        "laundry_circuits": circuits.laundry,
    }
    names = {
        "floor_area_load": "general lighting and receptacles",
        "small_appliance_circuits": "small-appliance circuits",
        "laundry_circuits": "laundry circuits",
    }
    pointers: dict[str, str | None] = {
        "floor_area_load": at + "/floor_area_ft2",
        "small_appliance_circuits": (
            None if dwelling.small_appliance_circuits is None else at + "/small_appliance_circuits"
        ),
        "laundry_circuits": None if dwelling.laundry_circuits is None else at + "/laundry_circuits",
    }
    for name, load in found.items():
        part.item(group, names[name], pointers[name], float(load.value))
    return found


def lighting_demand(household: Household, circuits: Circuits, part: Part) -> Part:
    """Enter general lighting with its circuits, one line for each part of the table that it reaches into."""
    edition = household.edition
    loads = general_load(household, circuits, part, "lighting", edition.provision("lighting-load"))
    if loads is None:
        return part
    total = part.add_up("general-load", "general lighting load with its circuits", loads)
    citation = edition.citation_of("lighting_demand")
    for index, piece in enumerate(edition.dwelling_loads.lighting_demand(float(total.value))):
        at = f"{part.prefix}lighting-part-{index + 1}"
        above, up_to = piece.above_va, piece.up_to_va
        if above is None and up_to is not None:
            step = first_part_va.step(at, {"load_va": total, "up_to_va": up_to}, citation)
            title = f"{TITLE}, first {up_to.number:,.0f} VA"
        elif above is not None and up_to is not None:
            step = middle_part_va.step(at, {"load_va": total, "up_to_va": up_to, "above_va": above}, citation)
            title = f"{TITLE}, from {above.number:,.0f} to {up_to.number:,.0f} VA"
        elif above is not None:
            step = rest_va.step(at, {"load_va": total, "above_va": above}, citation)
            title = f"{TITLE}, above {above.number:,.0f} VA"
        else:
            raise ValueError("A table of one row without limits splits no load.")
        connected = part.ledger.add(step)
        demand = part.ledger.add(
            demand_va.step(at + "-demand", {"load_va": connected, "percent": piece.percent}, citation)
        )
        part.line("lighting", title, float(connected.value), (f"lighting_{index + 1}", demand), citation)
    return part
