"""Receptacles that a charger is plugged into."""

from branchwright.checks.circuits.circuit import Circuit
from branchwright.checks.circuits.rules.rule import rule
from branchwright.findings import Finding


@rule("receptacle-configuration", subject="receptacle", concept="receptacle-connection")
def receptacle_configuration(circuit: Circuit) -> Finding:
    """Is the receptacle of a configuration that the edition permits for charging?

    Applies: to chargers that are plugged in.
    Rests on: the receptacles that the edition names for charging equipment, with a grounding contact.
    Missing facts: none; the configuration is always stated.
    """
    given = circuit.given
    edition = given.edition
    cited = receptacle_configuration.cited(edition)
    if given.receptacle is None:
        return receptacle_configuration.not_applicable("The charger is hardwired.", cited)
    configuration = given.receptacle.configuration
    known = edition.receptacle_rating(configuration) is not None
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
    Rests on: a single receptacle on an individual branch circuit has at least the circuit's rating.
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
    return receptacle_rating.at_least(
        rating.number,
        circuit.breaker_a,
        "A",
        f"The {configuration} receptacle is rated {rating.number:g} A; the breaker has {circuit.breaker_a:g} A.",
        cited,
        "/charger/connection/configuration",
    )
