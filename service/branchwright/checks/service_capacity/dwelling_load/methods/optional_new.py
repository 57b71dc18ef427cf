"""The optional method for a dwelling."""

from dataclasses import dataclass

from branchwright.checks.service_capacity.dwelling_load.demands import Demands
from branchwright.checks.service_capacity.dwelling_load.demands.seasons import (
    compressor,
    cooling_items,
    cooling_loads,
    heating_items,
)
from branchwright.checks.service_capacity.dwelling_load.facts import Heating
from branchwright.checks.service_capacity.dwelling_load.methods.pool import (
    enter_pool,
    nameplates,
)
from branchwright.checks.service_capacity.dwelling_load.part import Part
from branchwright.findings import Sourced, StepInput

TITLES: dict[Heating, str] = {
    "central": "central electric heating",
    "separately-controlled": "separately controlled electric heating",
    "thermal-storage": "thermal storage heating",
}


def optional_new(demands: Demands, part: Part) -> None:
    """Enter the load by the optional method for a dwelling."""
    rule = demands.household.edition.provision("optional-dwelling-load")
    loads = nameplates(demands, part, rule)
    enter_pool(demands, part, loads, rule, "optional-new")
    _heating_or_cooling(demands, part)


@dataclass(slots=True)
class _Kind:
    """One kind of heating: its load, and what it counts; None where a larger one keeps it from running."""

    name: str
    title: str
    connected_va: float
    demand: StepInput | None


def _heating_or_cooling(demands: Demands, part: Part) -> None:
    """Enter heating or cooling, whichever is larger at its percentages.

    What heats together is one load: heating of several kinds, and a heat pump with its supplemental heat. A heat
    pump cools as well.
    """
    household = demands.household
    if not (household.heating or household.cooling or household.heat_pumps):
        return
    rule = household.edition.provision("optional-heating-and-cooling")
    kinds = [*_space_heating(demands, part), *_heat_pumps(demands, part)]
    running = {kind.name: kind.demand for kind in kinds if kind.demand is not None}
    heat = part.add_up("heating", "load while heating, at its percentages", running, rule.citation)
    cooling = part.add_up("cooling", "load while cooling", cooling_loads(household), rule.citation)
    cool = part.percent_of("cooling-demand", cooling, rule.values["cooling_percent"], rule.citation)
    part.greatest(
        "heating-or-cooling",
        "larger of heating and cooling",
        {"heating": heat, "cooling": cool},
        rule.citation,
    )
    cooling_counts = float(cool.value) > float(heat.value)
    heating_items(household, part, "heating", together=True)
    cooling_items(household, part, "cooling")
    for kind in kinds:
        if kind.demand is None:
            part.omitted("heating", f"{kind.title}, interlocked", kind.connected_va, rule.citation)
        elif cooling_counts:
            part.omitted("heating", f"{kind.title}, smaller than cooling", kind.connected_va, rule.citation)
        else:
            part.line("heating", kind.title, kind.connected_va, (kind.name, kind.demand), rule.citation)
    if cooling_counts:
        part.line("cooling", "cooling", float(cooling.value), ("cooling", cool), rule.citation)
    elif float(cooling.value):
        part.omitted("cooling", "cooling, smaller than heating", float(cooling.value), rule.citation)


def _space_heating(demands: Demands, part: Part) -> list[_Kind]:
    """Enter each kind of space heating at its percentage."""
    household = demands.household
    rule = household.edition.provision("optional-heating-and-cooling")
    many = household.separately_controlled_units >= rule.number("many_units")
    percents: dict[Heating, Sourced] = {
        "central": rule.values["supplemental_percent"],
        "separately-controlled": rule.values["many_units_percent" if many else "few_units_percent"],
        "thermal-storage": rule.values["storage_percent"],
    }
    found: list[_Kind] = []
    for kind, percent in percents.items():
        units = [item for item in household.heating if household.heating_kind(item) == kind]
        if units:
            load = part.add_up(
                f"{kind}-heating",
                TITLES[kind],
                {item.name: item.stated(item.facts.rating_w, "W", "rating_w") for item in units},
                rule.citation,
            )
            demand = part.percent_of(f"{kind}-heating-demand", load, percent, rule.citation)
            found.append(_Kind(kind.replace("-", "_"), TITLES[kind], float(load.value), demand))
    return found


def _heat_pumps(demands: Demands, part: Part) -> list[_Kind]:
    """Enter compressors and supplemental heat at their percentages; of two that are interlocked the larger."""
    household = demands.household
    rule = household.edition.provision("optional-heating-and-cooling")
    found: list[_Kind] = []
    for pump in household.heat_pumps:
        title = pump.facts.name or "heat pump"
        step = pump.name.replace("_", "-")
        compressor_demand = part.percent_of(
            step + "-compressor-demand", compressor(pump), rule.values["heat_pump_percent"], rule.citation
        )
        running = _Kind(pump.name, f"{title}, compressor", pump.facts.compressor_va, compressor_demand)
        found.append(running)
        supplemental_w = pump.facts.supplemental_heat_w
        if supplemental_w is None:
            continue
        supplemental_demand = part.percent_of(
            step + "-supplemental-demand",
            pump.stated(supplemental_w, "W", "supplemental_heat_w"),
            rule.values["supplemental_percent"],
            rule.citation,
        )
        supplemental = _Kind(
            pump.name + "_supplemental",
            f"{title}, supplemental heat",
            supplemental_w,
            supplemental_demand,
        )
        found.append(supplemental)
        if pump.facts.interlocked:
            larger = float(compressor_demand.value) >= float(supplemental_demand.value)
            (supplemental if larger else running).demand = None
    return found
