"""What an answer says beside its findings: what to verify, what was not examined, and the cautions."""

from branchwright.checks.circuits.facts import Receptacle
from branchwright.checks.circuits.given import DEFAULT_INSULATION, Given
from branchwright.questions.answers import ToVerify
from branchwright.questions.remarks import CAUTIONS

NOT_EXAMINED = [
    "condition and labelling of the panel, and its space and busbar",
    "whether the service carries the added load",
    "whether the circuit serves nothing else",
    "box and enclosure fill, bends, and physical protection",
    "working space, bonding at the panel, and surge protection",
    "height of the coupler, length of the output cable, and ventilation",
    "local amendments of the code",
]
"""What no circuit review looks at; authorities and local practice do."""

ALUMINUM = (
    "Aluminum terminations need lugs marked for aluminum, clean strands and the marked torque; "
    "a loose one overheats."
)
RECEPTACLE = (
    "Receptacles overheat under hours of charging when they are worn, light-duty or loosely wired; "
    "use one made for the duty and feel for heat in use."
)


def cautions(given: Given, grounding_material: str) -> list[str]:
    """Return the cautions that every answer bears, and those that the case adds."""
    facts = given.facts
    found = list(CAUTIONS)
    if facts.conductors.material == "aluminum":
        found.append(ALUMINUM)
    if grounding_material == "aluminum":
        rule = given.edition.provision("aluminum-grounding")
        found.append(
            "An aluminum grounding conductor is not terminated outdoors within "
            f"{rule.number('above_earth_in'):g} in of the earth ({rule.citation.section})."
        )
    if isinstance(facts.charger.connection, Receptacle):
        found.append(RECEPTACLE)
    return found


def not_examined(given: Given) -> list[str]:
    """Return what was not looked at."""
    facts = given.facts
    found = list(NOT_EXAMINED)
    qualified = given.edition.provision("qualified-persons")
    if qualified.says("applies"):
        found.append(f"whether qualified persons installed it ({qualified.citation.section})")
    if facts.jurisdiction is not None:
        found.append(f"amendments in force in {facts.jurisdiction}")
    return found


def to_verify(given: Given) -> list[ToVerify]:
    """Return the facts that were merely declared, or assumed where nothing was stated."""
    facts = given.facts
    found: list[ToVerify] = []
    for place in given.terminals:
        marked = place.marked
        evidence = (
            "marking on the " + place.at if not place.at.startswith("points/") else "marking on the device"
        )
        rating = marked.temperature_rating_c if marked else None
        found.append(
            ToVerify(
                place.pointer + "/temperature_rating_c",
                f"{rating}" if rating is not None else "not stated, taken as unmarked",
                evidence,
            )
        )
        if marked is None or (marked.smallest is None and marked.largest is None):
            found.append(ToVerify(place.pointer + "/largest", "not stated, not judged", evidence))
        if marked is None or marked.torque is None:
            found.append(ToVerify(place.pointer + "/torque", "not stated: read the marking", evidence))
    charger = facts.charger
    if charger.rated_current_a is None:
        found.append(
            ToVerify(
                "/charger/rated_current_a",
                f"not stated, taken as {charger.charging_current_a:g} A",
                "nameplate of the charger",
            )
        )
    factor = f"{given.power_factor:g}"
    found.append(
        ToVerify(
            "/charger/power_factor",
            factor if charger.power_factor is not None else f"not stated, taken as {factor}",
            "data sheet of the charger",
        )
    )
    if given.setting_matters:
        found.append(
            ToVerify(
                "/charger/setting_access",
                f"not stated, taken as unrestricted: the rated {charger.rated_current_a:g} A count",
                "how the setting is reached",
            )
        )
    if charger.setting_access is not None:
        found.append(
            ToVerify("/charger/setting_access", charger.setting_access, "how the setting is reached")
        )
    if facts.breaker and facts.breaker.listed_for_panel is not None:
        stated = "listed" if facts.breaker.listed_for_panel else "not listed"
        found.append(ToVerify("/breaker/listed_for_panel", stated, "label of the panel"))
    if facts.conductors.insulation is None and any(segment.method.is_raceway for segment in given.segments):
        found.append(
            ToVerify(
                "/conductors/insulation",
                f"not stated, taken as {DEFAULT_INSULATION}",
                "print on the conductor",
            )
        )
    for segment in given.segments:
        at = f"/run/{segment.index}"
        if segment.facts.ambient_c is None:
            found.append(
                ToVerify(
                    at + "/ambient_c",
                    f"not stated, taken as {segment.base_ambient_c:g} degC",
                    "hottest hour where the segment lies",
                )
            )
        if segment.method.is_raceway and segment.facts.other_current_carrying_conductors is None:
            found.append(
                ToVerify(
                    at + "/other_current_carrying_conductors",
                    "not stated, taken as none",
                    "inside of the raceway",
                )
            )
        if segment.facts.raceway_temperature_rating_c is not None:
            found.append(
                ToVerify(
                    at + "/raceway_temperature_rating_c",
                    f"{segment.facts.raceway_temperature_rating_c:g}",
                    "print on the raceway",
                )
            )
        if segment.method.is_raceway:
            continue
        cable = segment.facts.cable
        if segment.facts.in_thermal_insulation is None:
            found.append(
                ToVerify(at + "/in_thermal_insulation", "not stated, taken as not", "where the cable lies")
            )
        if segment.method.marked_rating:
            rating = cable.conductor_temperature_rating_c if cable else None
            found.append(
                ToVerify(
                    at + "/cable/conductor_temperature_rating_c",
                    f"{rating}" if rating else f"not stated, taken as {segment.start_column} degC",
                    "print on the cable",
                )
            )
        if cable is None or cable.grounding_size is None:
            found.append(
                ToVerify(
                    at + "/cable/grounding_size",
                    "not stated: at least as designed or installed",
                    "print on the cable",
                )
            )
    return found
