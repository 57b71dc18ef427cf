"""What a load calculation says beside its findings: what to verify, and what was not looked at."""

from contextlib import suppress

from branchwright.checks.service_capacity.dwelling_load.case import LoadCase
from branchwright.checks.service_capacity.dwelling_load.facts import DwellingCharger, LoadCalculationRequest
from branchwright.checks.service_capacity.dwelling_load.household import Household, Placed
from branchwright.codebook import ProvisionLacking
from branchwright.questions.answers import ToVerify

NOT_EXAMINED = [
    "condition and labelling of service and panel",
    "ratings of busbar and main breaker, and the size of the service conductors",
    "how the loads are spread over the lines",
    "loads that are not stated, and nonlinear loads on the neutral",
    "branch circuits and their number",
    "local amendments of the code",
]
NAMEPLATE = "nameplate"


def not_examined(request: LoadCalculationRequest) -> list[str]:
    """Return what was not looked at."""
    found = list(NOT_EXAMINED)
    if request.jurisdiction is not None:
        found.append(f"amendments in force in {request.jurisdiction}")
    return found


def to_verify(case: LoadCase) -> list[ToVerify]:
    """Return the facts that were merely declared, or assumed where nothing was stated."""
    household = case.household
    return [
        *_general(case),
        *_appliances(household),
        *_heating_and_cooling(household),
        *_chargers(household),
        *_service(case),
    ]


def _general(case: LoadCase) -> list[ToVerify]:
    dwelling, at = case.request.dwelling, case.household.at
    found: list[ToVerify] = []
    if dwelling.floor_area_ft2 is not None:
        found.append(
            ToVerify(
                at + "/floor_area_ft2",
                f"{dwelling.floor_area_ft2:g}",
                "outside dimensions, without open porches and spaces that cannot be made use of",
            )
        )
    for field, concept, count in (
        ("small_appliance_circuits", "small-appliance-load", dwelling.small_appliance_circuits),
        ("laundry_circuits", "laundry-load", dwelling.laundry_circuits),
    ):
        if count is None:
            with suppress(ProvisionLacking):
                least = case.edition.provision(concept).number("least_circuits")
                found.append(ToVerify(f"{at}/{field}", f"not stated, taken as {least:g}", "panel directory"))
    return found


def _appliances(household: Household) -> list[ToVerify]:
    found: list[ToVerify] = []
    for one in household.appliances:
        facts = one.facts
        if facts.fastened_in_place is None:
            found.append(
                ToVerify(
                    one.pointer + "/fastened_in_place",
                    "not stated: counted in full",
                    "how it is installed",
                )
            )
        if facts.fastened_in_place is False and facts.on_own_circuit is None:
            found.append(ToVerify(one.pointer + "/on_own_circuit", "not stated: counted", "panel directory"))
        if facts.motor is None and facts.motor_va is None and facts.motor_hp is None:
            found.append(ToVerify(one.pointer + "/motor", "not stated, taken as none", NAMEPLATE))
        if facts.voltage_v is None and facts.uses_neutral is None:
            found.append(
                ToVerify(
                    one.pointer + "/voltage_v", "not stated: the neutral is taken to carry it", NAMEPLATE
                )
            )
    return found


def _heating_and_cooling(household: Household) -> list[ToVerify]:
    found = [
        ToVerify(heating.pointer + "/kind", "not stated, taken as central", "how it is controlled")
        for heating in household.heating
        if heating.facts.kind is None and heating.facts.separately_controlled_units is None
    ]
    found.extend(
        ToVerify(heating.pointer + "/separately_controlled_units", "not stated, taken as 1", "thermostats")
        for heating in household.heating
        if heating.facts.kind == "separately-controlled" and heating.facts.separately_controlled_units is None
    )
    found.extend(
        ToVerify(
            pump.pointer + "/interlocked",
            "not stated, taken as not",
            "whether the compressor stops when the supplemental heat runs",
        )
        for pump in household.heat_pumps
        if pump.facts.interlocked is None and pump.facts.supplemental_heat_w is not None
    )
    if household.heat_pumps:
        found.extend(
            ToVerify(
                cooling.pointer + "/rating_va",
                f"{cooling.facts.rating_va:g}",
                "that this cooling is not the heat pump's own, which counts already",
            )
            for cooling in household.cooling
        )
    return found


def _chargers(household: Household) -> list[ToVerify]:
    found: list[ToVerify] = []
    for charger in household.chargers:
        facts = charger.facts
        setting = facts.charging_current_a
        if setting is not None and facts.rated_current_a is None and facts.nameplate_va is None:
            found.append(
                ToVerify(
                    charger.pointer + "/rated_current_a",
                    f"not stated, taken as {setting:g} A",
                    "nameplate of the charger",
                )
            )
        if facts.connection is None and _connection_decides(household, charger):
            found.append(
                ToVerify(
                    charger.pointer + "/connection", "not stated, taken as hardwired", "how it is connected"
                )
            )
        access = charger.pointer + "/setting_access"
        if access in household.unknown:
            found.append(ToVerify(access, "not stated, taken as unrestricted", "how the setting is reached"))
        elif facts.setting_access is not None:
            found.append(ToVerify(access, facts.setting_access, "how the setting is reached"))
        if facts.managed_by is not None:
            found.append(
                ToVerify(
                    charger.pointer + "/managed_by",
                    facts.managed_by,
                    "listed equipment with its setting restricted, and a tested lost link",
                )
            )
    return found


def _connection_decides(household: Household, charger: Placed[DwellingCharger]) -> bool:
    """Whether the setting of a charger counts for a hardwired one alone, and there is one below the rating."""
    facts = charger.facts
    has_rating = facts.rated_current_a is not None or facts.nameplate_va is not None
    if not has_rating or facts.charging_current_a is None:
        return False
    with suppress(ProvisionLacking):
        return household.edition.provision("current-setting").says("fixed_only")
    return False


def _service(case: LoadCase) -> list[ToVerify]:
    request, household = case.request, case.household
    found: list[ToVerify] = []
    if request.occupancy is None:
        found.append(ToVerify("/occupancy", "not stated, taken as one-family", "the building"))
    if household.phases == 3:
        found.append(
            ToVerify(
                household.supply.at + "/phases",
                "3, the loads between lines taken as spread evenly",
                "panel directory",
            )
        )
    if household.supply.system is not None and household.supply.conductor_ampacity_a is None:
        found.append(
            ToVerify(
                household.supply.at + "/conductor_ampacity_a",
                "not stated",
                "size and insulation of the service conductors",
            )
        )
    return found
