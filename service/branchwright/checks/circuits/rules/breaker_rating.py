"""The breaker's rating: against the load, the standard ratings and the charger's marking."""

from branchwright.checks.circuits.circuit import Circuit
from branchwright.checks.circuits.given import least_breaker_a
from branchwright.checks.circuits.rules.rule import rule
from branchwright.findings import Finding


@rule(
    "overcurrent-continuous-load",
    subject="branch circuit breaker",
    concept="continuous-load",
    needs=("breaker",),
    waits_for=("setting_access",),
)
def overcurrent_continuous_load(circuit: Circuit) -> Finding:
    """Does the breaker's rating reach 125 percent of the charging load?

    Applies: always.
    Rests on: charging is a continuous load; the overcurrent device has at least 125 percent of it, also where
    the breaker is listed for its full rating.
    Missing facts: undetermined without the breaker's rating, or where an unknown access to the setting decides.
    """
    given = circuit.given
    least = least_breaker_a(given.edition, given.load_a)
    return overcurrent_continuous_load.at_least(
        circuit.breaker_a,
        least,
        "A",
        f"Breaker of {circuit.breaker_a:g} A; a charging load of {given.load_a:g} A asks for at least {least:g} A.",
        overcurrent_continuous_load.cited(given.edition),
        circuit.pointer("breaker"),
    )


@rule(
    "breaker-standard-rating",
    subject="branch circuit breaker",
    concept="branch-circuit-rating",
    needs=("breaker",),
)
def breaker_standard_rating(circuit: Circuit) -> Finding:
    """Is the breaker's rating one that is made and that a charging circuit may have?

    Applies: always.
    Rests on: the list of standard ratings, and the least rating of a branch circuit for charging.
    Missing facts: undetermined without the breaker's rating.
    """
    edition = circuit.given.edition
    least = edition.provision("branch-circuit-rating").number("least_a")
    rating = circuit.breaker_a
    pointer = circuit.pointer("breaker")
    if rating not in edition.standard_ratings:
        near = [
            f"{standard:g}" for standard in edition.standard_ratings if abs(standard - rating) <= 0.5 * rating
        ]
        return breaker_standard_rating.one_of(
            f"{rating:g}",
            near,
            f"{rating:g} A is no standard rating.",
            edition.citation_of("standard_ratings"),
            pointer,
            holds=False,
        )
    return breaker_standard_rating.at_least(
        rating,
        least,
        "A",
        f"{rating:g} A is a standard rating; a charging circuit has at least {least:g} A.",
        breaker_standard_rating.cited(edition),
        pointer,
    )


@rule("greatest-overcurrent-device", subject="branch circuit breaker", concept="listing", needs=("breaker",))
def greatest_overcurrent_device(circuit: Circuit) -> Finding:
    """Does the breaker stay within the greatest overcurrent device marked on the charger?

    Applies: where the charger's label or manual names one.
    Rests on: listed equipment is used by its instructions.
    Missing facts: not applicable where no marking is stated.
    """
    edition = circuit.given.edition
    cited = greatest_overcurrent_device.cited(edition)
    markings = circuit.facts.charger.markings
    limit = markings.greatest_overcurrent_device_a if markings else None
    if limit is None:
        return greatest_overcurrent_device.not_applicable(
            "The charger's label is not stated to limit it.", cited
        )
    return greatest_overcurrent_device.at_most(
        circuit.breaker_a,
        limit,
        "A",
        f"Breaker of {circuit.breaker_a:g} A; the charger is marked for at most {limit:g} A.",
        cited,
        "/charger/markings/greatest_overcurrent_device_a",
    )


@rule("breaker-listed-for-panel", subject="branch circuit breaker", concept="listing")
def breaker_listed_for_panel(circuit: Circuit) -> Finding:
    """Is the breaker listed for the panel that it goes into?

    Applies: always.
    Rests on: listed equipment is used by its listing; a panel's label names the breakers it takes.
    Missing facts: undetermined where it is not stated.
    """
    cited = breaker_listed_for_panel.cited(circuit.given.edition)
    pointer = "/breaker/listed_for_panel"
    listed = circuit.facts.breaker.listed_for_panel if circuit.facts.breaker else None
    if listed is None:
        return breaker_listed_for_panel.undetermined(
            pointer,
            "It is not stated whether the breaker is listed for the panel: read the panel's label.",
            cited,
        )
    return breaker_listed_for_panel.one_of(
        "listed" if listed else "not listed",
        ["listed"],
        f"The breaker is stated to be {'listed' if listed else 'not listed'} for the panel.",
        cited,
        pointer,
        holds=listed,
    )
