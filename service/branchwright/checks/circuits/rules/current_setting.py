"""The current setting and its label."""

from branchwright.checks.circuits.circuit import Circuit
from branchwright.checks.circuits.given import Given
from branchwright.checks.circuits.rules.rule import rule
from branchwright.findings import Finding

SETTING = "/charger/charging_current_a"


@rule("current-setting", subject="charger current setting", concept="current-setting")
def current_setting(circuit: Circuit) -> Finding:
    """Is the charger set within its rating, and which of the two counts as its load?

    Applies: where the nameplate current is stated and differs from the charging current.
    Rests on: an adjusted setting counts as the rating where the edition permits it: by restricted access to the
    setting, or for permanently connected equipment alone; otherwise the nameplate counts. An edition without
    words on settings is read two ways. No setting may exceed the nameplate.
    Missing facts: unknown access to the setting makes the nameplate current count where access matters.
    """
    given = circuit.given
    charger = circuit.facts.charger
    setting, rated = charger.charging_current_a, charger.rated_current_a
    cited = current_setting.cited(given.edition)
    if rated is None:
        return current_setting.not_applicable(
            f"No nameplate current is stated; {setting:g} A is taken for it.", cited
        )
    if given.load_pointer == SETTING:
        counts = f"The setting of {setting:g} A counts as the load"
    else:
        counts = f"{_why_not(given)}, so the rated {rated:g} A count as the load"
    if setting > rated:
        counts = f"No charger rated {rated:g} A can be set to {setting:g} A"
    return current_setting.at_most(setting, rated, "A", counts + ".", cited, SETTING)


def _why_not(given: Given) -> str:
    """Return in words why the setting does not count."""
    provision = given.edition.provision("current-setting")
    if provision.values["counts"].name != "yes":
        return "This edition does not say that an adjusted setting counts as the rating"
    if provision.says("fixed_only") and given.receptacle is not None:
        return "This edition lets a setting count for permanently connected equipment only"
    if given.facts.charger.setting_access == "unrestricted":
        return "Access to the setting is not restricted"
    return "Access to the setting is not stated to be restricted"


@rule("setting-label", subject="label of the adjusted current", concept="setting-label")
def setting_label(circuit: Circuit) -> Finding:
    """Is the adjusted current on the charger's label?

    Applies: where a setting below the nameplate counts as the load.
    Rests on: the adjusted rating stands on a durable label.
    Missing facts: undetermined where it is not stated whether the label shows it, or where the edition has no
    words on such a label.
    """
    given = circuit.given
    charger = circuit.facts.charger
    setting, rated = charger.charging_current_a, charger.rated_current_a
    if rated is None or rated <= setting or given.load_pointer != SETTING:
        return setting_label.not_applicable("No adjusted setting counts as the load.")
    cited = setting_label.cited(given.edition)
    pointer = circuit.pointer("label")
    shown = circuit.sizes.setting_label
    if shown is None:
        return setting_label.undetermined(
            pointer, "It is not stated whether the label shows the setting.", cited
        )
    message = (
        f"The label shows the adjusted {setting:g} A."
        if shown
        else f"The label does not show the adjusted {setting:g} A."
    )
    return setting_label.one_of(
        "shown" if shown else "not shown", ["shown"], message, cited, pointer, holds=shown
    )
