"""The optional method for an existing dwelling that takes on load."""

from branchwright.checks.service_capacity.dwelling_load.demands import Demands
from branchwright.checks.service_capacity.dwelling_load.demands.seasons import (
    cooling_items,
    cooling_loads,
    heating_items,
    pumps_heating,
)
from branchwright.checks.service_capacity.dwelling_load.methods.pool import (
    Inputs,
    enter_pool,
    nameplates,
)
from branchwright.checks.service_capacity.dwelling_load.part import Part
from branchwright.codebook import Book, interpretations

_SECTIONS = {item.name: item.sections for item in interpretations()}


def optional_existing(demands: Demands, part: Part) -> None:
    """Enter the load by the optional method for an existing dwelling.

    Where heating or cooling is being added, the larger of the two counts in full beside the pool; many separately
    controlled heaters stay in it. Where none is, what is there already is in the pool, or left out by another reading.
    """
    household = demands.household
    rule = household.edition.provision("existing-dwelling-load")
    loads = nameplates(demands, part, rule)
    apart = household.adds_heating_or_cooling and _counts_in_full(household.book)
    if apart:
        _pool_separate_heaters(demands, part, loads)
    elif household.adds_heating_or_cooling or _is_counted(demands):
        heating_items(household, part, "pool")
        cooling_items(household, part, "pool", pumps=False)
        for item in household.heating:
            loads[item.name] = item.stated(item.facts.rating_w, "W", "rating_w")
        loads.update(pumps_heating(household))
        for cooling in household.cooling:
            loads[cooling.name] = cooling.stated(cooling.facts.rating_va, "VA", "rating_va")
    enter_pool(demands, part, loads, rule, "optional-existing")
    if apart:
        _heating_or_cooling(demands, part)


def _counts_in_full(book: Book) -> bool:
    """Whether heating or cooling that is added counts beside the pool; an edition may be read two ways."""
    name = "added-heating-and-cooling"
    return book.edition.name not in _SECTIONS[name] or book.reading(name) == "at-full-value"


def _is_counted(demands: Demands) -> bool:
    """Whether heating and cooling that are there already are in the pool."""
    household = demands.household
    if not (household.heating or household.cooling or household.heat_pumps):
        return False
    return household.book.reading("existing-heating-and-cooling") == "in-the-pool"


def _stays_in_pool(demands: Demands) -> set[str]:
    """Return the pointers of the separately controlled heaters, where there are many of them."""
    household = demands.household
    rule = household.edition.provision("existing-dwelling-load")
    if household.separately_controlled_units < rule.number("many_units"):
        return set()
    return {
        item.pointer for item in household.heating if household.heating_kind(item) == "separately-controlled"
    }


def _pool_separate_heaters(demands: Demands, part: Part, loads: Inputs) -> None:
    """Put many separately controlled heaters into the pool."""
    pooled = _stays_in_pool(demands)
    for item in demands.household.heating:
        if item.pointer in pooled:
            title = item.facts.name or "space heating"
            part.item("pool", title, item.pointer + "/rating_w", item.facts.rating_w)
            loads[item.name] = item.stated(item.facts.rating_w, "W", "rating_w")


def _heating_or_cooling(demands: Demands, part: Part) -> None:
    """Enter the larger of heating and cooling, the other left out."""
    household = demands.household
    rule = household.edition.provision("existing-dwelling-load")
    pooled = _stays_in_pool(demands)
    inputs = {
        item.name: item.stated(item.facts.rating_w, "W", "rating_w")
        for item in household.heating
        if item.pointer not in pooled
    }
    inputs.update(pumps_heating(household))
    heating = part.add_up("heating", "load while heating", inputs, rule.citation)
    cooling = part.add_up("cooling", "load while cooling", cooling_loads(household), rule.citation)
    heat = part.percent_of("heating-demand", heating, rule.values["new_heating_percent"], rule.citation)
    cool = part.percent_of("cooling-demand", cooling, rule.values["new_cooling_percent"], rule.citation)
    part.greatest(
        "heating-or-cooling",
        "larger of heating and cooling",
        {"heating": heat, "cooling": cool},
        rule.citation,
    )
    heating_items(household, part, "heating", without=pooled)
    cooling_items(household, part, "cooling")
    cooling_counts = float(cool.value) > float(heat.value)
    connected = {"heating": float(heating.value), "cooling": float(cooling.value)}
    if cooling_counts:
        part.line("cooling", "cooling", connected["cooling"], ("cooling", cool), rule.citation)
        if connected["heating"]:
            part.omitted("heating", "heating, smaller than cooling", connected["heating"], rule.citation)
    elif connected["heating"]:
        part.line("heating", "heating", connected["heating"], ("heating", heat), rule.citation)
        if connected["cooling"]:
            part.omitted("cooling", "cooling, smaller than heating", connected["cooling"], rule.citation)
