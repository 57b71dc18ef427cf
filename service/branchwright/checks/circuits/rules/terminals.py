"""Terminals: materials, sizes and tightening torque."""

from branchwright.checks.circuits.circuit import Circuit
from branchwright.checks.circuits.facts import Terminals
from branchwright.checks.circuits.given import Given, TerminalsAt
from branchwright.checks.circuits.rules.rule import rule
from branchwright.findings import Finding, Provided, Required
from branchwright.quantities.conductor_sizes import RANK, ConductorSize
from branchwright.quantities.torques import pound_force_inches


def refusing_material(given: Given) -> TerminalsAt | None:
    """Return the first terminals that are marked for other materials than the conductors', if any."""
    for place in given.terminals:
        if place.marked and place.marked.materials and given.material not in place.marked.materials:
            return place
    return None


def is_above_range(marked: Terminals | None, size: ConductorSize) -> bool:
    """Return whether a size is above the largest that terminals are marked for, where that is stated."""
    return marked is not None and marked.largest is not None and RANK[size] > RANK[marked.largest]


def refusing_size(given: Given, size: ConductorSize) -> TerminalsAt | None:
    """Return the first terminals that do not take a size, if any."""
    for place in given.terminals:
        marked = place.marked
        is_below = marked and marked.smallest and RANK[size] < RANK[marked.smallest]
        if is_below or is_above_range(marked, size):
            return place
    return None


def take_size(given: Given, breaker_a: float, size: ConductorSize) -> bool:
    """Return whether all terminals take a size, as far as their range is stated."""
    return refusing_size(given, size) is None


@rule("terminal-materials", subject="terminals", concept="terminal-materials")
def terminal_materials(circuit: Circuit) -> Finding:
    """Are all terminals identified for the conductors' metal?

    Applies: always.
    Rests on: a terminal takes only the materials that it is identified for.
    Missing facts: unmarked terminals are taken to accept copper (common practice, no source); for aluminum they
    make the finding undetermined.
    """
    given = circuit.given
    cited = terminal_materials.cited(given.edition)
    refusing = refusing_material(given)
    if refusing is not None and refusing.marked and refusing.marked.materials:
        return terminal_materials.one_of(
            given.material,
            list(refusing.marked.materials),
            f"The terminals at {refusing.at} are marked for {' and '.join(refusing.marked.materials)} only, "
            f"not for {given.material}.",
            cited,
            refusing.pointer + "/materials",
            holds=False,
        )
    unmarked = [place for place in given.terminals if not (place.marked and place.marked.materials)]
    if unmarked and given.material != "copper":
        return terminal_materials.undetermined(
            unmarked[0].pointer + "/materials",
            f"It is not stated that the terminals at {', '.join(place.at for place in unmarked)} take "
            f"{given.material}.",
            cited,
        )
    return terminal_materials.one_of(
        given.material,
        [given.material],
        f"No terminal is stated to refuse {given.material}.",
        cited,
        "/conductors/material",
        holds=True,
    )


@rule("terminal-sizes", subject="terminals", concept="terminal-sizes", needs=("ungrounded",))
def terminal_sizes(circuit: Circuit) -> Finding:
    """Do all terminals take the ungrounded conductors' size?

    Applies: where a range of sizes is stated.
    Rests on: a terminal takes only the sizes that it is identified for.
    Missing facts: terminals without a stated range are not judged, and are listed as to verify.
    """
    given = circuit.given
    cited = terminal_sizes.cited(given.edition)
    size = circuit.ungrounded
    refusing = refusing_size(given, size)
    if refusing is not None and refusing.marked:
        marked = refusing.marked
        too_large = is_above_range(marked, size)
        limit = (marked.largest if too_large else marked.smallest) or size
        return terminal_sizes.finding(
            "fail",
            f"The terminals at {refusing.at} take {'at most' if too_large else 'at least'} {limit}; "
            f"the conductors are {size}.",
            citation=cited,
            pointer=f"{refusing.pointer}/{'largest' if too_large else 'smallest'}",
            required=Required(limit, "size", "at-most" if too_large else "at-least"),
            provided=Provided(size, "size"),
        )
    ranged = [
        place for place in given.terminals if place.marked and (place.marked.smallest or place.marked.largest)
    ]
    if not ranged:
        return terminal_sizes.not_applicable("No terminal's range of sizes is stated.", cited)
    return terminal_sizes.finding(
        "pass",
        f"The terminals at {', '.join(place.at for place in ranged)} take {size}.",
        citation=cited,
        pointer=ranged[0].pointer,
        provided=Provided(size, "size"),
    )


@rule("terminal-torque", subject="terminals", concept="terminal-torque", review_only=True)
def terminal_torque(circuit: Circuit) -> Finding:
    """Is there a record for every terminal with a marked torque, and does it agree with the marking?

    Applies: to terminals whose marked torque is stated.
    Rests on: a marked torque is applied by an approved means. A record agrees within the permissible deviation
    of a hand torque tool.
    Missing facts: undetermined without a record; a terminal without a stated marking is listed as to verify.
    """
    given = circuit.given
    rule_of_torque = given.edition.provision("terminal-torque")
    cited = rule_of_torque.citation
    tolerance = rule_of_torque.number("tolerance_percent") / 100
    records = {
        record.at: (index, record.torque) for index, record in enumerate(circuit.sizes.torque_records or ())
    }
    places = {place.at for place in given.terminals}
    for at, (index, _) in records.items():
        if at not in places:
            return terminal_torque.one_of(
                at,
                [place.at for place in given.terminals],
                f"The torque record is for {at}, which this circuit does not have.",
                cited,
                f"/installed/torque_records/{index}/at",
                holds=False,
            )
    marked = [place for place in given.terminals if place.marked and place.marked.torque]
    missing = [place for place in marked if place.at not in records]
    for place in marked:
        if place.at in records and place.marked and place.marked.torque:
            index, torque = records[place.at]
            recorded = pound_force_inches(torque.value, torque.unit)
            asked = pound_force_inches(place.marked.torque.value, place.marked.torque.unit)
            if abs(recorded - asked) > tolerance * asked:
                return terminal_torque.finding(
                    "fail",
                    f"At {place.at} {recorded:.4g} lbf-in was recorded; {asked:.4g} lbf-in is marked.",
                    citation=cited,
                    pointer=f"/installed/torque_records/{index}/torque",
                    required=Required(asked, "lbf-in", "equal"),
                    provided=Provided(recorded, "lbf-in"),
                )
    if missing:
        return terminal_torque.undetermined(
            "/installed/torque_records",
            f"No torque is recorded for {', '.join(place.at for place in missing)}.",
            cited,
        )
    if not marked:
        return terminal_torque.not_applicable("No marked torque is stated: read the markings.", cited)
    return terminal_torque.finding(
        "pass",
        f"The recorded torques at {', '.join(place.at for place in marked)} agree with the markings.",
        citation=cited,
        pointer="/installed/torque_records",
    )
