"""What the added chargers draw: each alone, or several of them held together on one circuit."""

from dataclasses import dataclass

from branchwright.checks.service_capacity.capacity_review.facts import (
    AddedCharger,
    CapacityReviewRequest,
    SharedCircuit,
)
from branchwright.checks.service_capacity.capacity_review.spans import Span, known, total
from branchwright.codebook import Book
from branchwright.questions.current_setting import setting_counts
from branchwright.questions.fields import LEAST_SIGNALLED_A


@dataclass(slots=True)
class ChargerLoad:
    """A charger with the current that counts as its load, in A."""

    place: int
    facts: AddedCharger
    current_a: Span
    is_managed: bool

    @property
    def pointer(self) -> str:
        """Where the charger is stated."""
        return f"/chargers/{self.place}"

    @property
    def rated_a(self) -> float:
        """The current of its nameplate; the charging current where none is stated."""
        return self.facts.rated_current_a or self.facts.charging_current_a


@dataclass(slots=True, frozen=True)
class HeldCurrent:
    """What a shared circuit lets its chargers draw together, A; None where nothing holds them."""

    circuit: int
    least_a: float | None
    reported_a: float | None


@dataclass(slots=True)
class ChargingUnit:
    """What counts as one load: a charger alone, or the chargers of a shared circuit."""

    members: tuple[ChargerLoad, ...]
    held: HeldCurrent | None
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
        current = known(setting)
        if rated is not None and rated > setting:
            counts = counting(charger, book)
            if counts is None:
                unknown.add(f"/chargers/{place}/setting_access")
            worst = setting if counts else rated
            current = Span(rated if counts is False else setting, worst, worst)
        is_managed = request.management is not None and charger.managed is not False
        found.append(ChargerLoad(place, charger, current, is_managed))
    return found


def counting(charger: AddedCharger, book: Book) -> bool | None:
    """Return whether the setting of a charger counts as its rating; None where unknown access decides."""
    return setting_counts(book, charger.setting_access, fastened_in_place=charger.connection != "receptacle")


def charging_units(
    request: CapacityReviewRequest, chargers: list[ChargerLoad], unknown: set[str]
) -> list[ChargingUnit]:
    """Return the loads that the chargers make, in the order of their first charger.

    Chargers that share a circuit under listed management draw together what it lets them. A charger that two
    circuits name belongs to the first; that is a failing finding of its own.
    """
    taken: set[int] = set()
    units: list[ChargingUnit] = []
    for number, circuit in enumerate(request.shared_circuits or ()):
        members = tuple(
            chargers[place]
            for place in dict.fromkeys(circuit.chargers)
            if place < len(chargers) and place not in taken
        )
        taken.update(charger.place for charger in members)
        if members:
            held = _held(circuit, number, unknown) if len(members) > 1 else None
            units.append(ChargingUnit(members, held, _drawn(members, held)))
    units.extend(
        ChargingUnit((charger,), None, charger.current_a)
        for charger in chargers
        if charger.place not in taken
    )
    return sorted(units, key=lambda unit: unit.members[0].place)


def _held(circuit: SharedCircuit, number: int, unknown: set[str]) -> HeldCurrent | None:
    """Return what a shared circuit holds its chargers to; None where its management is not listed for that."""
    if circuit.listed is False:
        return None
    setting = circuit.control_setting_a
    if setting is None:
        unknown.add(f"/shared_circuits/{number}/control_setting_a")
    if circuit.listed is None:
        unknown.add(f"/shared_circuits/{number}/listed")
    return HeldCurrent(
        number, float(LEAST_SIGNALLED_A) if setting is None else setting, setting if circuit.listed else None
    )


def _drawn(members: tuple[ChargerLoad, ...], held: HeldCurrent | None) -> Span:
    drawn = total([charger.current_a for charger in members])
    if held is None:
        return drawn

    def at_most(current: float, limit: float | None) -> float:
        return current if limit is None else min(current, limit)

    return Span(
        at_most(drawn.least, held.least_a),
        at_most(drawn.reported, held.reported_a),
        at_most(drawn.greatest, held.reported_a),
    )
