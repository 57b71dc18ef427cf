"""Rules about the chargers of the dwelling and the load management that holds them."""

from branchwright.checks.service_capacity.dwelling_load.case import LoadCase
from branchwright.checks.service_capacity.dwelling_load.facts import DwellingCharger
from branchwright.checks.service_capacity.dwelling_load.household import Placed
from branchwright.checks.service_capacity.dwelling_load.rules.rule import rule
from branchwright.findings import Finding, Provided, Required


def _rated_a(case: LoadCase, charger: Placed[DwellingCharger]) -> float | None:
    """Return the rated current of a charger in A, from its nameplate in VA where that is all there is."""
    facts, voltage = charger.facts, case.household.voltage
    if facts.rated_current_a is not None:
        return facts.rated_current_a
    if facts.nameplate_va is None or voltage is None:
        return None
    return round(facts.nameplate_va / voltage.number, 6)


@rule("dwelling-charger-setting", subject="chargers", concept="current-setting")
def dwelling_charger_setting(case: LoadCase) -> Finding:
    """Is every charger set within its rating?

    Applies: where setting and rating of a charger are stated.
    Rests on: no setting exceeds the nameplate. One that does is counted as it is.
    Missing facts: a charger without a rating is taken to be set to it.
    """
    cited = dwelling_charger_setting.cited(case.edition)
    both = [
        (charger, charger.facts.charging_current_a, rated)
        for charger in case.household.chargers
        if charger.facts.charging_current_a is not None and (rated := _rated_a(case, charger)) is not None
    ]
    if not both:
        return dwelling_charger_setting.not_applicable(
            "Setting and rating of a charger are not both stated.", cited
        )
    charger, setting, rated = max(both, key=lambda found: found[1] - found[2])
    return dwelling_charger_setting.at_most(
        setting,
        rated,
        "A",
        f"A charger of {rated:g} A is set to {setting:g} A.",
        cited,
        charger.pointer + "/charging_current_a",
    )


@rule("dwelling-load-management", subject="load management", concept="energy-management-load")
def dwelling_load_management(case: LoadCase) -> Finding:
    """Does every managed charger name a load management that is stated, and each of those another name?

    Applies: where a charger is managed, or load management is stated.
    Rests on: chargers that a load management holds count together, at no more than its control setting.
    Missing facts: a charger whose management is not stated counts by itself, and this finding fails.
    """
    of = dwelling_load_management
    cited = of.cited(case.edition)
    household = case.household
    names = [item.facts.name for item in household.management]
    managed = [charger for charger in household.chargers if charger.facts.managed_by is not None]
    if not names and not managed:
        return of.not_applicable("No load management is stated.", cited)
    for item in household.management:
        if names.count(item.facts.name) > 1:
            return of.finding(
                "fail",
                f"Two load managements are called {item.facts.name!r}.",
                citation=cited,
                pointer=item.pointer + "/name",
                required=Required(1.0, "count", "equal"),
                provided=Provided(float(names.count(item.facts.name)), "count"),
            )
    for charger in managed:
        if charger.facts.managed_by not in names:
            return of.one_of(
                str(charger.facts.managed_by),
                names,
                f"No load management is called {charger.facts.managed_by!r}; the charger counts by itself.",
                cited,
                charger.pointer + "/managed_by",
                holds=False,
            )
    return of.finding("pass", "Every managed charger names its load management.", citation=cited)
