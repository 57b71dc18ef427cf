"""The chargers: what they are set to, can be set to, and are connected to."""

from collections.abc import Callable

from branchwright.checks.service_capacity.capacity_review.case import Case
from branchwright.checks.service_capacity.capacity_review.charging import ChargerLoad
from branchwright.checks.service_capacity.capacity_review.rules.rule import rule
from branchwright.findings import Finding
from branchwright.questions.fields import LEAST_SIGNALLED_A


def settings_a(charger: ChargerLoad) -> list[float]:
    """Return the currents that a charger can be set to, in A, least first: as stated, else whole amperes from 6.

    A setting above the nameplate is none.
    """
    rated = charger.rated_a
    stated = charger.facts.settings_a
    if stated is None:
        return sorted({*(float(whole) for whole in range(LEAST_SIGNALLED_A, int(rated) + 1)), rated})
    return sorted({setting for setting in stated if setting <= rated})


def _worst(chargers: list[ChargerLoad], margin: Callable[[ChargerLoad], float]) -> ChargerLoad:
    """Return the charger with the least margin; the first of several."""
    return min(chargers, key=margin)


@rule("charger-setting-within-rating", subject="chargers", concept="current-setting")
def charger_setting_within_rating(case: Case) -> Finding:
    """Is every charger set within its rating?

    Applies: where the nameplate current is stated.
    Rests on: no setting exceeds the nameplate.
    Missing facts: not applicable where no nameplate current is stated.
    """
    cited = charger_setting_within_rating.cited(case.edition)
    stated = [charger for charger in case.chargers if charger.facts.rated_current_a is not None]
    if not stated:
        return charger_setting_within_rating.not_applicable("No nameplate current is stated.", cited)
    worst = _worst(stated, lambda charger: charger.rated_a - charger.facts.charging_current_a)
    return charger_setting_within_rating.at_most(
        worst.facts.charging_current_a,
        worst.rated_a,
        "A",
        f"Charger {worst.place} is set to {worst.facts.charging_current_a:g} A and rated for {worst.rated_a:g} A.",
        cited,
        f"/chargers/{worst.place}/charging_current_a",
    )


@rule("charger-setting-available", subject="chargers", concept="current-setting")
def charger_setting_available(case: Case) -> Finding:
    """Can every charger be set to its charging current?

    Applies: where the settings of a charger are stated.
    Rests on: a charger has the settings that its maker gave it.
    Missing facts: not applicable where no settings are stated.
    """
    stated = [charger for charger in case.chargers if charger.facts.settings_a is not None]
    if not stated:
        return charger_setting_available.not_applicable("The settings of the chargers are not stated.")
    for charger in stated:
        if charger.facts.charging_current_a not in settings_a(charger):
            return charger_setting_available.finding(
                "fail",
                f"Charger {charger.place} cannot be set to {charger.facts.charging_current_a:g} A.",
                citation=None,
                pointer=f"/chargers/{charger.place}/charging_current_a",
            )
    return charger_setting_available.finding(
        "pass", "The chargers can be set to their charging currents.", citation=None, pointer="/chargers"
    )


@rule("least-charging-current", subject="chargers", concept="current-setting")
def least_charging_current(case: Case) -> Finding:
    """Is every charger set to a current that it can offer a vehicle?

    Applies: always.
    Rests on: the pilot signal of SAE J1772 offers no less than 6 A.
    Missing facts: none; the charging current is always stated.
    """
    worst = _worst(case.chargers, lambda charger: charger.facts.charging_current_a)
    return least_charging_current.at_least(
        worst.facts.charging_current_a,
        float(LEAST_SIGNALLED_A),
        "A",
        f"Charger {worst.place} is set to {worst.facts.charging_current_a:g} A; the pilot signal offers no less than "
        f"{LEAST_SIGNALLED_A} A.",
        None,
        f"/chargers/{worst.place}/charging_current_a",
    )


@rule("charger-circuit-breaker", subject="branch circuits of the chargers", concept="continuous-load")
def charger_circuit_breaker(case: Case) -> Finding:
    """Does the breaker of every charger's own circuit reach 125 percent of its load?

    Applies: where the breaker is stated.
    Rests on: charging is a continuous load. The circuit itself is the matter of a circuit review.
    Missing facts: not applicable where no breaker is stated; undetermined where unknown access to a setting decides.
    """
    cited = charger_circuit_breaker.cited(case.edition)
    stated = [charger for charger in case.chargers if charger.facts.circuit_breaker_a is not None]
    if not stated:
        return charger_circuit_breaker.not_applicable("No breaker of a charger's circuit is stated.", cited)

    def margin_a(charger: ChargerLoad, current_a: float) -> float:
        return (charger.facts.circuit_breaker_a or 0.0) - case.least_circuit_a(current_a)

    # One that fails at its best is shown before one that may fail by more: what is certain decides.
    certain = [charger for charger in stated if margin_a(charger, charger.current_a.least) < 0]
    worst = _worst(certain or stated, lambda charger: margin_a(charger, charger.current_a.greatest))
    breaker = worst.facts.circuit_breaker_a or 0.0
    least, at_best = (
        case.least_circuit_a(current) for current in (worst.current_a.greatest, worst.current_a.least)
    )
    finding = charger_circuit_breaker.at_least(
        breaker,
        least,
        "A",
        f"Breaker of {breaker:g} A for charger {worst.place}; a load of {worst.current_a.greatest:g} A asks for at "
        f"least {least:g} A.",
        cited,
        f"/chargers/{worst.place}/circuit_breaker_a",
    )
    if at_best <= breaker < least:
        finding.outcome = "undetermined"
        finding.message += " Whether its setting counts as the load is not stated."
    return finding
