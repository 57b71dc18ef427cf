"""Ground-fault protection of the charging outlet."""

from dataclasses import dataclass

from branchwright.checks.circuits.circuit import Circuit, once_per_circuit
from branchwright.checks.circuits.given import Given
from branchwright.checks.circuits.rules.rule import rule
from branchwright.findings import Citation, Finding, Provided, Required

DWELLINGS = frozenset({"one-family", "two-family", "multifamily"})
COVERED = {
    "outdoors": "outdoors",
    "garage": "garage",
    "accessory-building": "accessory_building",
    "indoors": "indoors",
}
"""The name that the provision uses for each location of a charger."""
PLACES = {
    "outdoors": "outdoors",
    "garage": "in a garage",
    "accessory-building": "in an accessory building",
    "indoors": "elsewhere indoors",
}


@dataclass(slots=True)
class ProtectionNeed:
    """Whether protection is asked for (None: a fact is missing), why, by what, and what is missing."""

    required: bool | None
    why: str
    citation: Citation
    missing: str | None = None


def protection_need(given: Given, breaker_a: float) -> ProtectionNeed:
    """Return whether the outlet needs ground-fault protection for personnel."""
    if given.receptacle is not None:
        return _of_receptacle(given, given.receptacle.configuration)
    permanent = given.edition.provision("permanently-wired-protection")
    if (
        permanent.says("applies")
        and given.to_ground_v <= permanent.number("up_to_v_to_ground")
        and given.book.reading("permanently-wired-protection") == "required"
    ):
        return ProtectionNeed(
            True, "every permanently connected charger needs it, whatever its circuit", permanent.citation
        )
    return _of_hardwired_outlet(given, breaker_a)


def _of_receptacle(given: Given, configuration: str) -> ProtectionNeed:
    rule_of_receptacles = given.edition.provision("receptacle-protection")
    cited = rule_of_receptacles.citation
    rating = given.edition.receptacle_rating(configuration)
    limit_a, limit_v = rule_of_receptacles.limit("up_to_a"), rule_of_receptacles.limit("up_to_v_to_ground")
    if rating is not None and rating.number > limit_a:
        return ProtectionNeed(False, f"a receptacle of more than {limit_a:g} A is outside the section", cited)
    if given.to_ground_v > limit_v:
        return ProtectionNeed(False, "the voltage to ground is above the section's limit", cited)
    return ProtectionNeed(True, "a receptacle for charging needs it", cited)


def _of_hardwired_outlet(given: Given, breaker_a: float) -> ProtectionNeed:
    hardwired = given.edition.provision("hardwired-protection")
    cited = hardwired.citation
    if not any(hardwired.says(place) for place in COVERED.values()):
        return ProtectionNeed(False, "this edition asks for it at receptacles only", cited)
    limit = hardwired.number("up_to_a")
    if breaker_a > limit:
        return ProtectionNeed(
            False, f"a hardwired charger on more than {limit:g} A is outside the section", cited
        )
    if hardwired.says("single_phase_only") and given.phases > 1:
        return ProtectionNeed(False, "the section is for single-phase outlets", cited)
    if hardwired.number("up_to_v_to_ground") < given.to_ground_v:
        return ProtectionNeed(False, "the voltage to ground is above the section's limit", cited)
    premises = given.facts.premises
    occupancy = premises.occupancy if premises else None
    location = premises.charger_location if premises else None
    if occupancy is not None and occupancy not in DWELLINGS:
        return ProtectionNeed(False, "the section is for dwellings", cited)
    if location is not None and not hardwired.says(COVERED[location]):
        return ProtectionNeed(False, f"the section does not cover outlets {PLACES[location]}", cited)
    if given.book.reading("hardwired-outlet") == "not-an-outlet":
        return ProtectionNeed(False, "by this reading a hardwired charger is no outlet", cited)
    if occupancy is None or location is None:
        missing = "/premises/occupancy" if occupancy is None else "/premises/charger_location"
        return ProtectionNeed(
            None, "the section covers dwellings by the location of the charger", cited, missing
        )
    return ProtectionNeed(
        True, f"a dwelling's outlet {PLACES[location]} on a circuit of up to {limit:g} A needs it", cited
    )


@once_per_circuit
def protection_of(circuit: Circuit) -> ProtectionNeed:
    """Return whether the outlet of a circuit with a breaker needs ground-fault protection."""
    return protection_need(circuit.given, circuit.breaker_a)


@rule(
    "ground-fault-protection",
    subject="ground-fault protection for personnel",
    concept="hardwired-protection",
    needs=("breaker",),
    consults=("hardwired-outlet", "permanently-wired-protection"),
)
def ground_fault_protection(circuit: Circuit) -> Finding:
    """Is the charging outlet protected against ground faults where the edition asks for it?

    Applies: to receptacles for charging; to hardwired chargers of dwellings by location and rating, or, where
    the edition says so, to every hardwired charger.
    Rests on: protection by the breaker or the receptacle; the charger's own protection does not stand for it.
    Missing facts: undetermined where occupancy or location would decide and no protection is there, or where
    the installed protection is not stated. A manufacturer who forbids a ground-fault breaker leaves the question
    to the authority.
    """
    given = circuit.given
    need = protection_of(circuit)
    markings = given.facts.charger.markings
    by = circuit.sizes.ground_fault_protection
    permitted = ["breaker", "receptacle"] if given.receptacle is not None else ["breaker"]
    if need.required is None and by in permitted and not (markings and markings.forbids_gfci_breaker):
        return ground_fault_protection.finding(
            "pass",
            f"It is by the {by}, whether asked for or not: {need.why}.",
            citation=need.citation,
            pointer=circuit.pointer("protection"),
            required=Required(permitted, "text", "one-of"),
            provided=Provided(by, "text"),
        )
    if need.required is None:
        return ground_fault_protection.undetermined(
            need.missing, f"Not stated, and {need.why}: {need.missing}.", need.citation
        )
    if not need.required:
        return ground_fault_protection.not_applicable(f"Not asked for: {need.why}.", need.citation)
    if markings and markings.forbids_gfci_breaker and by in (None, "breaker"):
        return ground_fault_protection.undetermined(
            "/charger/markings/forbids_gfci_breaker",
            f"Asked for ({need.why}), but the manufacturer forbids a ground-fault breaker: the authority having "
            "jurisdiction decides.",
            need.citation,
        )
    if by is None:
        return ground_fault_protection.undetermined(
            circuit.pointer("protection"),
            f"Asked for ({need.why}); what is installed is not stated.",
            need.citation,
        )
    return ground_fault_protection.finding(
        "pass" if by in permitted else "fail",
        f"Asked for: {need.why}. It is {'by the ' + by if by != 'none' else 'missing'}"
        + (", which is not protection of the outlet." if by == "charger" else "."),
        citation=need.citation,
        pointer=circuit.pointer("protection"),
        required=Required(permitted, "text", "one-of"),
        provided=Provided(by, "text"),
    )
