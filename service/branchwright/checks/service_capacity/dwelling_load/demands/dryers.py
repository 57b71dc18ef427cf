"""Household clothes dryers by the table."""

from math import fsum

from branchwright.calculations.dwelling_load import dryers_percent
from branchwright.checks.service_capacity.dwelling_load.demands.three_phases import counted, whole_demand
from branchwright.checks.service_capacity.dwelling_load.household import Household
from branchwright.checks.service_capacity.dwelling_load.part import Part
from branchwright.findings import StepInput


def dryer_demand(household: Household, part: Part) -> Part:
    """Enter the dryers, each at no less than the least load, at the percentage for their number."""
    if not household.dryers:
        return part
    edition = household.edition
    rule = edition.provision("dryer-load")
    citation = edition.citation_of("dryer_demand")
    least = rule.values["least_va_each"]
    for dryer in household.dryers:
        part.item(
            "dryers",
            dryer.facts.name or "clothes dryer",
            dryer.pointer + "/rating_w",
            max(dryer.facts.rating_w, least.number),
        )
    among = counted(household, part, "dryers", household.dryers, lambda facts: facts.rating_w, citation)
    inputs: dict[str, StepInput] = {
        dryer.name: dryer.stated(dryer.facts.rating_w, "W", "rating_w") for dryer in among.units
    }
    terms = [f"max({name}, least_va)" for name in inputs]
    load = part.ledger.work_out(
        part.prefix + "dryers-load",
        "load of the dryers that count",
        f"round({' + '.join(terms)}, 6)",
        {**inputs, "least_va": least},
        round(fsum(max(dryer.facts.rating_w, least.number) for dryer in among.units), 6),
        "VA",
        rule.citation,
    )
    row = edition.dwelling_loads.dryer_demand(among.count)
    percent: StepInput = row.percent
    if row.less_percent_per_dryer is not None and row.above_dryers is not None:
        percent = part.ledger.add(
            dryers_percent.step(
                part.prefix + "dryers-percent",
                {
                    "percent": row.percent,
                    "less_percent_per_dryer": row.less_percent_per_dryer,
                    "dryers": among.number,
                    "above_dryers": row.above_dryers,
                },
                citation,
            )
        )
    demand = part.percent_of("dryers", load, percent, citation)
    part.line(
        "dryers",
        "clothes dryers" if len(household.dryers) > 1 else "clothes dryer",
        round(fsum(max(dryer.facts.rating_w, least.number) for dryer in household.dryers), 6),
        ("dryers", whole_demand(part, "dryers", among, demand, citation)),
        citation,
        household.dryers[0].pointer + "/rating_w" if len(household.dryers) == 1 else None,
    )
    return part
