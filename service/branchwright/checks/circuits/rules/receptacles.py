"""Receptacles that a charger is plugged into."""

from branchwright.checks.circuits.circuit import Circuit
from branchwright.checks.circuits.rules.rule import rule
from branchwright.findings import Finding, Provided, Required


@rule(
    "receptacle-configuration",
    subject="receptacle",
    concept="receptacle-connection",
    consults=("sixty-ampere-receptacle",),
)
def receptacle_configuration(circuit: Circuit) -> Finding:
    """Is the receptacle of a configuration that the edition permits for charging?

    Applies: to chargers that are plugged in.
    Rests on: the receptacles that the edition names for charging equipment, with a grounding contact; one that
    it is only reported to name is read two ways. All of them are single-phase.
    Missing facts: none; the configuration is always stated.
    """
    given = circuit.given
    edition = given.edition
    cited = receptacle_configuration.cited(edition)
    if given.receptacle is None:
        return receptacle_configuration.not_applicable("The charger is hardwired.", cited)
    configuration = given.receptacle.configuration
    known = edition.receptacle_rating(configuration) is not None
    if known and not edition.receptacle_is_printed(configuration):
        known = given.book.reading("sixty-ampere-receptacle") == "printed"
    if known and given.phases > 1:
        return receptacle_configuration.finding(
            "fail",
            f"A {configuration} receptacle is single-phase; a charger on {given.phases} phases cannot use it.",
            citation=cited,
            pointer="/charger/connection/configuration",
            required=Required(1.0, "count", "equal"),
            provided=Provided(float(given.phases), "count"),
        )
    return receptacle_configuration.one_of(
        configuration,
        list(edition.receptacle_configurations),
        f"A {configuration} receptacle is {'permitted' if known else 'not among those permitted'} for charging.",
        cited,
        "/charger/connection/configuration",
        holds=known,
    )


@rule("receptacle-rating", subject="receptacle", concept="receptacle-rating", needs=("breaker",))
def receptacle_rating(circuit: Circuit) -> Finding:
    """Is the single receptacle rated at least as high as its circuit?

    Applies: to chargers that are plugged in.
    Rests on: a single receptacle on an individual branch circuit has at least the circuit's rating; the newest
    edition forbids one of a higher rating for charging.
    Missing facts: undetermined without the breaker's rating.
    """
    given = circuit.given
    edition = given.edition
    cited = receptacle_rating.cited(edition)
    if given.receptacle is None:
        return receptacle_rating.not_applicable("The charger is hardwired.", cited)
    configuration = given.receptacle.configuration
    rating = edition.receptacle_rating(configuration)
    if rating is None:
        return receptacle_rating.not_applicable(f"A {configuration} receptacle is not for charging.", cited)
    if edition.provision("receptacle-rating").says("equal_only") and rating.number > circuit.breaker_a:
        return receptacle_rating.finding(
            "fail",
            f"The {configuration} receptacle is rated {rating.number:g} A; on a circuit of {circuit.breaker_a:g} A "
            "this edition wants one of the circuit's own rating.",
            citation=cited,
            pointer="/charger/connection/configuration",
            required=Required(circuit.breaker_a, "A", "equal"),
            provided=Provided(rating.number, "A"),
        )
    return receptacle_rating.at_least(
        rating.number,
        circuit.breaker_a,
        "A",
        f"The {configuration} receptacle is rated {rating.number:g} A; the breaker has {circuit.breaker_a:g} A.",
        cited,
        "/charger/connection/configuration",
    )


@rule("receptacle-listing", subject="receptacle", concept="receptacle-listing")
def receptacle_listing(circuit: Circuit) -> Finding:
    """Is the receptacle listed for charging where the edition asks for that?

    Applies: to chargers plugged into larger receptacles, in editions that ask for such a listing.
    Rests on: receptacles from a stated rating up are listed for use with charging equipment.
    Missing facts: undetermined where the listing is not stated.
    """
    given = circuit.given
    edition = given.edition
    provision = edition.provision("receptacle-listing")
    cited = provision.citation
    if given.receptacle is None:
        return receptacle_listing.not_applicable("The charger is hardwired.", cited)
    configuration = given.receptacle.configuration
    rating = edition.receptacle_rating(configuration)
    if not provision.says("applies") or rating is None or rating.number < provision.number("from_a"):
        return receptacle_listing.not_applicable(
            f"This edition asks for no special listing of a {configuration} receptacle.", cited
        )
    pointer = "/charger/connection/listed_for_ev_charging"
    listed = given.receptacle.listed_for_ev_charging
    if listed is None:
        return receptacle_listing.undetermined(
            pointer, f"It is not stated whether the {configuration} receptacle is listed for charging.", cited
        )
    return receptacle_listing.one_of(
        "listed" if listed else "not listed",
        ["listed"],
        f"The {configuration} receptacle is stated to be {'listed' if listed else 'not listed'} for charging.",
        cited,
        pointer,
        holds=listed,
    )
