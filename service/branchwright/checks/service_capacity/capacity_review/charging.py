"""What the added chargers draw: each alone, or several of them held together on one circuit."""

from dataclasses import dataclass
from math import fsum

from branchwright.checks.service_capacity.capacity_review.facts import (
    AddedCharger,
    CapacityReviewRequest,
    SharedCircuit,
)
from branchwright.checks.service_capacity.capacity_review.spans import Span, known
from branchwright.codebook import Book
from branchwright.questions.current_setting import setting_counts
from branchwright.questions.fields import LEAST_SIGNALLED_A


@dataclass(slots=True)
class ChargerLoad:
    """A charger with the current that counts as its load, in A, and where that is stated at the worst."""

    place: int
    facts: AddedCharger
    current_a: Span
    pointer: str
    is_managed: bool

    @property
    def rated_a(self) -> float:
        """The current of its nameplate; the charging current where none is stated."""
        return self.facts.rated_current_a or self.facts.charging_current_a


@dataclass(slots=True)
class ChargingUnit:
    """What counts as one load: a charger alone, or the chargers of a shared circuit; its current in A."""

    members: tuple[ChargerLoad, ...]
    circuit: int | None
    current_a: Span

    @property
    def is_managed(self) -> bool:
        """Whether the management of the service holds all of it."""
        return all(charger.is_managed for charger in self.members)


def charger_loads(request: CapacityReviewRequest, book: Book, unknown: set[str]) -> list[ChargerLoad]:
    """Return the added chargers with the currents that count; pointers to facts that would decide go to `unknown`."""
    found: list[ChargerLoad] = []
    for place, charger in enumerate(request.chargers):
        setting, rated = charger.charging_current_a, charger.rated_current_a
        at = f"/chargers/{place}"
        pointer = at + "/charging_current_a"
        current = known(setting)
        if rated is not None and rated > setting:
            least, greatest = _counting(charger, book, at, unknown)
            current = Span(setting if least else rated, setting if greatest else rated)
            if not greatest:
                pointer = at + "/rated_current_a"
        is_managed = request.management is not None and charger.managed is not False
        found.append(ChargerLoad(place, charger, current, pointer, is_managed))
    return found


def _counting(charger: AddedCharger, book: Book, at: str, unknown: set[str]) -> tuple[bool, bool]:
    """Return whether the setting counts as the rating with unknown facts at their best, and at their worst."""
    counts = setting_counts(
        book, charger.setting_access, fastened_in_place=charger.connection != "receptacle"
    )
    if counts is None:
        unknown.add(at + "/setting_access")
    return counts is not False, counts is True


def members_of(circuit: SharedCircuit, chargers: list[ChargerLoad]) -> tuple[ChargerLoad, ...]:
    """Return the chargers of a shared circuit that there are, each once."""
    return tuple(chargers[place] for place in dict.fromkeys(circuit.chargers) if place < len(chargers))


def charging_units(
    request: CapacityReviewRequest, chargers: list[ChargerLoad], unknown: set[str]
) -> list[ChargingUnit]:
    """Return the loads that the chargers make, in the order of their first charger.

    Chargers that share a circuit under listed management draw together what it lets them. A charger that two
    circuits name belongs to the first; that is a failing finding of its own.
    """
    taken: dict[int, int] = {}
    units: list[ChargingUnit] = []
    for number, circuit in enumerate(request.shared_circuits or ()):
        members = tuple(charger for charger in members_of(circuit, chargers) if charger.place not in taken)
        taken.update((charger.place, number) for charger in members)
        if members:
            units.append(ChargingUnit(members, number, _shared_a(circuit, number, members, unknown)))
    units.extend(
        ChargingUnit((charger,), None, charger.current_a)
        for charger in chargers
        if charger.place not in taken
    )
    return sorted(units, key=lambda unit: unit.members[0].place)


def _shared_a(
    circuit: SharedCircuit, number: int, members: tuple[ChargerLoad, ...], unknown: set[str]
) -> Span:
    """Return what the chargers of a shared circuit draw together."""
    together = Span(
        fsum(charger.current_a.least for charger in members),
        fsum(charger.current_a.greatest for charger in members),
    )
    if circuit.listed is False or len(members) < 2:
        return together
    if circuit.control_setting_a is None:
        unknown.add(f"/shared_circuits/{number}/control_setting_a")
    if circuit.listed is None:
        unknown.add(f"/shared_circuits/{number}/listed")
    held = LEAST_SIGNALLED_A if circuit.control_setting_a is None else circuit.control_setting_a
    is_held = circuit.listed and circuit.control_setting_a is not None
    return Span(min(together.least, held), min(together.greatest, held) if is_held else together.greatest)
