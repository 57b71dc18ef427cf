"""Chargers as loads of a dwelling: at their setting or rating, at the edition's least, or held together."""

from math import fsum

from branchwright.calculations.dwelling_load import charger_load_va
from branchwright.checks.service_capacity.dwelling_load.facts import DwellingCharger, LoadManagement, Method
from branchwright.checks.service_capacity.dwelling_load.household import Household, Placed
from branchwright.checks.service_capacity.dwelling_load.part import Part
from branchwright.findings import Citation, Sourced, StepInput

ChargerAt = Placed[DwellingCharger]


class Nameplates:
    """What each charger draws by its setting or nameplate, worked out once; None where nothing tells it."""

    def __init__(self, household: Household, part: Part) -> None:
        """Enter the load of each charger."""
        self.loads: dict[str, StepInput | None] = {}
        self.lacking: dict[str, tuple[str, str]] = {}
        """Pointer and message of the fact that is missing, by the charger's pointer."""
        if household.chargers:
            # All provisions are asked for before any step is entered.
            citation = household.edition.provision("charger-load").citation
            currents = [_current(household, charger) for charger in household.chargers]
            for charger, current in zip(household.chargers, currents, strict=True):
                self.loads[charger.pointer] = self._load(household, part, charger, current, citation)

    def _load(
        self,
        household: Household,
        part: Part,
        charger: ChargerAt,
        current: StepInput | None,
        citation: Citation,
    ) -> StepInput | None:
        facts = charger.facts
        if current is None and facts.nameplate_va is not None:
            return charger.stated(facts.nameplate_va, "VA", "nameplate_va")
        if current is None:
            self.lacking[charger.pointer] = (
                charger.pointer,
                "Neither current nor nameplate of the charger is stated.",
            )
            return None
        if household.voltage is None:
            self.lacking[charger.pointer] = (
                household.supply.at,
                "The supply is not stated, and with it the voltage of the charger.",
            )
            return None
        return part.ledger.add(
            charger_load_va.step(
                f"{part.prefix}{charger.name.replace('_', '-')}-load",
                {"current_a": current, "voltage_v": household.voltage},
                citation,
            )
        )


def _current(household: Household, charger: ChargerAt) -> StepInput | None:
    """Return the current that counts as a charger's load; None where its nameplate in VA does, or nothing is known.

    A setting counts where the edition takes it for the rating; one above the rating, which is a failing finding,
    counts as it is.
    """
    facts = charger.facts
    setting, rated = facts.charging_current_a, facts.rated_current_a
    if facts.nameplate_va is not None:
        if setting is None or household.voltage is None:
            return None
        exceeds = setting * household.voltage.number > facts.nameplate_va
        if not (exceeds or household.setting_counts(charger)):
            return None
        return charger.stated(setting, "A", "charging_current_a")
    if setting is None:
        return None if rated is None else charger.stated(rated, "A", "rated_current_a")
    if rated is None or rated <= setting or household.setting_counts(charger):
        return charger.stated(setting, "A", "charging_current_a")
    return charger.stated(rated, "A", "rated_current_a")


def charger_loads(
    household: Household,
    nameplates: Nameplates,
    part: Part,
    *,
    method: Method,
) -> Part:
    """Enter the chargers, those that a load management holds together as one load.

    Args:
        household: the dwelling.
        nameplates: what each charger draws.
        part: where they are entered.
        method: the method; an edition's least load may hold for one method alone.
    """
    edition = household.edition
    rule = edition.provision("charger-load")
    least_for = rule.values.get("least_holds_for")
    least = rule.values.get("least_va") if least_for is not None and least_for.name == method else None
    held = {item.facts.name: item for item in household.management}
    together: dict[str, dict[str, StepInput]] = {}
    for charger in household.chargers:
        load = _counted(household, nameplates, part, charger, least)
        if load is None:
            continue
        title = charger.facts.name or "charger"
        part.item("chargers", title, charger.pointer, float(load.value))
        manager = charger.facts.managed_by
        if manager is not None and manager in held:
            together.setdefault(manager, {})[charger.name] = load
        else:
            part.line(
                "chargers", title, float(load.value), (charger.name, load), rule.citation, charger.pointer
            )
    for name, loads in together.items():
        _held_together(household, part, held[name], loads)
    return part


def _counted(
    household: Household,
    nameplates: Nameplates,
    part: Part,
    charger: ChargerAt,
    least: Sourced | None,
) -> StepInput | None:
    """Return the load of a charger by the edition; None where it cannot be told, which the part then lacks."""
    rule = household.edition.provision("charger-load")
    nameplate = nameplates.loads[charger.pointer]
    basis = rule.values["basis"].name
    if nameplate is None:
        if basis == "nameplate-else-least" and least is not None and _has_no_nameplate(charger):
            return least
        part.lacks(*nameplates.lacking[charger.pointer])
        return None
    if basis != "greater-of-nameplate-and-least" or least is None:
        return nameplate
    return part.greatest(
        f"{charger.name.replace('_', '-')}-least",
        "load of the charger, no less than the least",
        {"nameplate_va": nameplate, "least_va": least},
        rule.citation,
    )


def _has_no_nameplate(charger: ChargerAt) -> bool:
    facts = charger.facts
    return facts.charging_current_a is None and facts.rated_current_a is None


def _held_together(
    household: Household,
    part: Part,
    management: Placed[LoadManagement],
    loads: dict[str, StepInput],
) -> None:
    """Enter chargers that share a control setting: what it lets them draw together, and no more than they would."""
    citation: Citation = household.edition.provision("energy-management-load").citation
    setting_a = management.facts.control_setting_a
    pointer = management.pointer + "/control_setting_a"
    if household.voltage is None:
        part.lacks(household.supply.at, "The supply is not stated, and with it the voltage of the chargers.")
        return
    step = management.name.replace("_", "-")
    permitted = part.ledger.add(
        charger_load_va.step(
            f"{part.prefix}{step}-setting",
            {
                "current_a": management.stated(setting_a, "A", "control_setting_a"),
                "voltage_v": household.voltage,
            },
            citation,
        )
    )
    connected = part.add_up(f"{step}-chargers", "load of the chargers held together", loads, citation)
    value = min(float(permitted.value), float(connected.value))
    demand = part.ledger.work_out(
        f"{part.prefix}{step}-load",
        "load of the chargers under load management",
        "min(permitted_va, connected_va)",
        {"permitted_va": permitted, "connected_va": connected},
        value,
        "VA",
        citation,
    )
    part.line(
        "chargers",
        f"chargers held by {management.facts.name}",
        round(fsum(float(load.value) for load in loads.values()), 6),
        (management.name, demand),
        citation,
        pointer,
    )
