"""The neutral, where the connection needs one."""

from branchwright.checks.circuits.circuit import (
    Circuit,
    least_of_cables,
    neutral_count,
    run_ampacity_a,
    terminal_ampacity_a,
)
from branchwright.checks.circuits.rules.rule import rule
from branchwright.findings import Finding


@rule(
    "neutral-size",
    subject="neutral",
    concept="neutral-size",
    waits_for=("temperature_rating_c", "setting_access", "location"),
)
def neutral_size(circuit: Circuit) -> Finding:
    """Is there a neutral where one is needed, and does it carry the load?

    Applies: to receptacles with a neutral contact and to hardwired chargers that use one.
    Rests on: the receptacle's configuration; a neutral that is not connected to an overcurrent device carries
    the load at 100 percent, at the terminals' column and after correction.
    Missing facts: undetermined where one is needed and no size is stated.
    """
    given = circuit.given
    cited = neutral_size.cited(given.edition)
    if given.receptacle is not None and not given.wants_neutral and circuit.facts.charger.uses_neutral:
        configuration = given.receptacle.configuration
        return neutral_size.one_of(
            configuration,
            [
                name
                for name in given.edition.receptacle_configurations
                if given.edition.receptacle_has_neutral(name)
            ],
            f"The charger uses a neutral, and a {configuration} receptacle has no contact for it.",
            given.edition.citation_of("receptacles"),
            "/charger/connection/configuration",
            holds=False,
        )
    if not neutral_count(given):
        return neutral_size.not_applicable("The connection needs no neutral.", cited)
    size, pointer, segment = least_of_cables(
        given, "neutral_size", circuit.sizes.neutral, circuit.pointer("neutral")
    )
    if size is None:
        return neutral_size.undetermined(pointer, "A neutral is needed, and none is stated.", cited)
    ampacity = min(terminal_ampacity_a(given, size), run_ampacity_a(given, size))
    return neutral_size.at_least(
        ampacity,
        given.load_a,
        "A",
        f"Neutral of {size} {given.material} has {ampacity:g} A; the load is {given.load_a:g} A.",
        cited,
        pointer,
        segment,
    )
