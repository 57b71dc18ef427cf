"""Heating and cooling: what runs together in either season, and the motors among it."""

from collections.abc import Collection

from branchwright.checks.service_capacity.dwelling_load.answers import Group
from branchwright.checks.service_capacity.dwelling_load.facts import HeatPump
from branchwright.checks.service_capacity.dwelling_load.household import Household, Placed
from branchwright.checks.service_capacity.dwelling_load.part import Part
from branchwright.findings import StepInput

Pump = Placed[HeatPump]
Inputs = dict[str, StepInput]


def heating_items(
    household: Household,
    part: Part,
    group: Group,
    *,
    together: bool = False,
    without: Collection[str] = (),
) -> None:
    """Enter the items of all that heats, `without` heating at some pointers.

    Both of an interlocked pair are items only where they are listed `together`.
    """
    for heating in household.heating:
        if heating.pointer in without:
            continue
        part.item(
            group,
            heating.facts.name or "space heating",
            heating.pointer + "/rating_w",
            heating.facts.rating_w,
        )
    for pump in household.heat_pumps:
        name = pump.facts.name or "heat pump"
        compressor, supplemental = pump.facts.compressor_va, pump.facts.supplemental_heat_w or 0.0
        if together or compressor_heats(pump):
            part.item(group, f"{name}, compressor", pump.pointer + "/compressor_va", compressor)
        if supplemental and (together or supplemental_heats(pump)):
            part.item(
                group, f"{name}, supplemental heat", pump.pointer + "/supplemental_heat_w", supplemental
            )


def cooling_items(household: Household, part: Part, group: Group, *, pumps: bool = True) -> None:
    """Enter the items of all that cools; heat pumps only where they are not counted by their heating already."""
    for cooling in household.cooling:
        part.item(
            group, cooling.facts.name or "cooling", cooling.pointer + "/rating_va", cooling.facts.rating_va
        )
    for pump in household.heat_pumps if pumps else ():
        name = pump.facts.name or "heat pump"
        part.item(group, f"{name}, compressor", pump.pointer + "/compressor_va", pump.facts.compressor_va)


def compressor_heats(pump: Pump) -> bool:
    """Whether the compressor counts while heating: not where it is interlocked with larger supplemental heat."""
    return not pump.facts.interlocked or pump.facts.compressor_va >= (pump.facts.supplemental_heat_w or 0.0)


def supplemental_heats(pump: Pump) -> bool:
    """Whether the supplemental heat counts: not where it is interlocked with a larger compressor."""
    return not pump.facts.interlocked or not compressor_heats(pump)


def compressor(pump: Pump) -> StepInput:
    """Return the compressor's rating."""
    return pump.stated(pump.facts.compressor_va, "VA", "compressor_va")


def pumps_heating(household: Household) -> Inputs:
    """Return what the heat pumps take while they heat, by name."""
    found: Inputs = {}
    for pump in household.heat_pumps:
        supplemental = pump.facts.supplemental_heat_w
        if compressor_heats(pump):
            found[pump.name] = compressor(pump)
        if supplemental is not None and supplemental_heats(pump):
            found[pump.name + "_supplemental"] = pump.stated(supplemental, "W", "supplemental_heat_w")
    return found


def cooling_loads(household: Household) -> Inputs:
    """Return what takes load while the dwelling is cooled, by name."""
    found: Inputs = {
        cooling.name: cooling.stated(cooling.facts.rating_va, "VA", "rating_va")
        for cooling in household.cooling
    }
    found.update({pump.name: compressor(pump) for pump in household.heat_pumps})
    return found


def heating_motors(household: Household) -> Inputs:
    """Return the compressors that run while the dwelling is heated."""
    return {pump.name: compressor(pump) for pump in household.heat_pumps if compressor_heats(pump)}


def cooling_motors(household: Household) -> Inputs:
    """Return the motors that run while the dwelling is cooled."""
    found: Inputs = {}
    for cooling in household.cooling:
        motor_va = cooling.facts.motor_va
        found[cooling.name] = (
            cooling.stated(cooling.facts.rating_va, "VA", "rating_va")
            if motor_va is None
            else cooling.stated(motor_va, "VA", "motor_va")
        )
    found.update({pump.name: compressor(pump) for pump in household.heat_pumps})
    return found


def appliance_motors(household: Household) -> Inputs:
    """Return the motors among the appliances that are loads of their own."""
    found: Inputs = {}
    for appliance in household.appliances:
        if household.is_counted(appliance):
            motor = household.motor_va(appliance)
            if motor is not None:
                found[appliance.name] = motor
    return found
