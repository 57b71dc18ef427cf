"""Appliances apart from cooking, dryers, heating, cooling and chargers."""

from dataclasses import dataclass

from branchwright.checks.service_capacity.dwelling_load.facts import Appliance
from branchwright.checks.service_capacity.dwelling_load.household import Household, Placed
from branchwright.checks.service_capacity.dwelling_load.part import Part
from branchwright.codebook import Provision

Appliances = list[Placed[Appliance]]


@dataclass(slots=True)
class Shares:
    """Which appliances count at a share, because there are enough of them; the others count in full."""

    shared: Appliances
    full: Appliances
    uncounted: Appliances


def shares(household: Household) -> Shares:
    """Return how each appliance counts.

    Those fastened in place that reach the edition's least rating count at a percentage where there are enough of
    them. Chargers are never among them: from 2023 on the edition says so, and before, their load is continuous.
    """
    rule = household.edition.provision("appliance-demand")
    counted = [one for one in household.appliances if household.is_counted(one)]
    uncounted = [one for one in household.appliances if not household.is_counted(one)]
    # At its best an appliance that may be portable is left out and makes up the number all the same: whatever it is,
    # the load is no less.
    eligible = {
        one.pointer
        for one in household.appliances
        if household.is_fastened(one) and _reaches(rule, one.facts)
    }
    if len(eligible) < rule.number("least_count"):
        return Shares([], counted, uncounted)
    return Shares(
        [one for one in counted if one.pointer in eligible],
        [one for one in counted if one.pointer not in eligible],
        uncounted,
    )


def _reaches(rule: Provision, facts: Appliance) -> bool:
    """Whether an appliance reaches the least rating, where the edition sets one; either rating will do."""
    least_w, least_hp = rule.values.get("least_w"), rule.values.get("least_hp")
    if least_w is None or facts.rating_va >= least_w.number:
        return True
    return least_hp is not None and facts.motor_hp is not None and facts.motor_hp >= least_hp.number


def appliance_demand(household: Household, part: Part) -> Part:
    """Enter the appliances: one line for those that count at a share, one for each of the others."""
    rule = household.edition.provision("appliance-demand")
    found = shares(household)
    for appliance in household.appliances:
        part.item(
            "appliances",
            appliance.facts.name or "appliance",
            appliance.pointer + "/rating_va",
            appliance.facts.rating_va,
        )
    title = f"{len(found.shared)} appliances fastened in place"
    enter_lines(part, found, rule, title, "load of the appliances fastened in place")
    for one in found.uncounted:
        part.omitted(
            "appliances",
            f"{one.facts.name or 'appliance'}, portable: part of the general load",
            one.facts.rating_va,
            household.edition.provision("lighting-load").citation,
            one.pointer + "/rating_va",
        )
    return part


def enter_lines(part: Part, found: Shares, rule: Provision, title: str, quantity: str) -> None:
    """Enter one line for the appliances that count at a share, and one for each that counts in full."""
    if found.shared:
        connected = part.add_up(
            "appliances-load",
            quantity,
            {one.name: one.stated(one.facts.rating_va, "VA", "rating_va") for one in found.shared},
            rule.citation,
        )
        demand = part.percent_of("appliances", connected, rule.values["percent"], rule.citation)
        part.line("appliances", title, float(connected.value), ("appliances", demand), rule.citation)
    for one in found.full:
        part.line(
            "appliances",
            one.facts.name or "appliance",
            one.facts.rating_va,
            (one.name, one.stated(one.facts.rating_va, "VA", "rating_va")),
            rule.citation,
            one.pointer + "/rating_va",
        )
