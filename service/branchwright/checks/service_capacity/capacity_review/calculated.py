"""An existing load by one of the methods of the code, and what chargers add to it by the same method."""

from collections.abc import Hashable, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import TypeAlias

from branchwright.checks.service_capacity.capacity_review.charging import ChargingUnit
from branchwright.checks.service_capacity.capacity_review.facts import (
    CalculatedExistingLoad,
    CapacityReviewRequest,
)
from branchwright.checks.service_capacity.capacity_review.spans import Span, known
from branchwright.checks.service_capacity.dwelling_load import (
    DwellingCharger,
    Household,
    MethodLoad,
    Placed,
    Supply,
    method_load,
)
from branchwright.checks.service_capacity.dwelling_load.facts import LoadManagement
from branchwright.checks.service_capacity.dwelling_load.household import Assumption, placed
from branchwright.codebook import Book
from branchwright.questions.ledger import StepLedger

DWELLING = "/existing_load/dwelling"
ASSUMPTIONS: tuple[Assumption, ...] = ("best", "reported", "worst")


def supply_of(request: CapacityReviewRequest, ampacity_a: Span | None) -> Supply:
    """Return what the methods ask of the service."""
    service = request.service
    least_ampacity = ampacity_a.least if ampacity_a is not None and ampacity_a.is_known else None
    return Supply(service.system, service.phases, service.rating_a, least_ampacity)


@dataclass(slots=True)
class Total:
    """A load by a method, and what was asked for on the way to it."""

    load_va: Span | None
    consulted: set[str]
    unknown: set[str]


Totals: TypeAlias = dict[Hashable, Total]
"""Loads that were calculated already: ways to fit ask for many of them again."""


class CalculatedLoad:
    """An existing load by a method of the code.

    What chargers add is the load by the method with them less the load without them: a method may count a charger
    at less than its load, or at no less than a least one.
    """

    def __init__(
        self, facts: CalculatedExistingLoad, book: Book, supply: Supply, unknown: set[str], totals: Totals
    ) -> None:
        """Keep the dwelling.

        Args:
            facts: the dwelling and the method.
            book: the edition and the readings in force.
            supply: what the method asks of the service.
            unknown: where pointers to facts that would move the load go.
            totals: loads of the same dwelling that were calculated already.
        """
        self.facts = facts
        self.book = book
        self.supply = supply
        self.unknown = unknown
        self.totals = totals

    @cached_property
    def load_va(self) -> Span | None:
        """The load without the chargers."""
        return self._span(())

    def added_va(self, units: Sequence[ChargingUnit]) -> Span | None:
        """Return what chargers add to it."""
        without, with_them = self.load_va, self._span(units)
        if without is None or with_them is None:
            return None
        return Span(
            round(with_them.least - without.least, 6),
            round(with_them.reported - without.reported, 6),
            round(with_them.greatest - without.greatest, 6),
        )

    @cached_property
    def lacking(self) -> tuple[str, str] | None:
        """Pointer and message of a fact without which the load cannot be computed."""
        found = self.method((), "reported", StepLedger()).lacking
        return (found[0].pointer, found[0].message) if found else None

    def method(
        self, units: Sequence[ChargingUnit], assumption: Assumption, ledger: StepLedger, prefix: str = ""
    ) -> MethodLoad:
        """Return the load by the method with chargers added, and enter its steps."""
        return method_load(self.household(units, assumption), self.facts.method, ledger, prefix)

    def household(
        self, units: Sequence[ChargingUnit], assumption: Assumption, book: Book | None = None
    ) -> Household:
        """Return the dwelling with its own chargers and those that are added."""
        own = placed(self.facts.dwelling.chargers, DWELLING + "/chargers", "charger")
        added: list[Placed[DwellingCharger]] = []
        held: list[Placed[LoadManagement]] = []
        for unit in units:
            name = None
            if unit.held is not None:
                limit = unit.held.least_a if assumption == "best" else unit.held.reported_a
                if limit is not None:
                    at = f"/shared_circuits/{unit.held.circuit}"
                    name = at
                    held.append(
                        Placed(
                            at,
                            f"shared_circuit_{unit.held.circuit}",
                            LoadManagement(name=name, control_setting_a=limit),
                        )
                    )
            for charger in unit.members:
                facts = charger.facts
                added.append(
                    Placed(
                        charger.pointer,
                        f"added_charger_{charger.place}",
                        DwellingCharger(
                            name=facts.name,
                            new=True,
                            charging_current_a=facts.charging_current_a,
                            rated_current_a=facts.rated_current_a,
                            setting_access=facts.setting_access,
                            connection=facts.connection,
                            managed_by=name,
                        ),
                    )
                )
        household = Household(
            self.facts.dwelling,
            book or self.book,
            self.supply,
            at=DWELLING,
            chargers=(*own, *added),
            assumption=assumption,
        )
        household.management = (*household.management, *held)
        return household

    def _span(self, units: Sequence[ChargingUnit]) -> Span | None:
        """Return the load by the method with chargers added; it depends on no rating of the service."""
        key = (
            self.supply.system,
            self.supply.phases,
            tuple(sorted(self.book.readings.items())),
            tuple((unit.held, tuple(charger.facts for charger in unit.members)) for unit in units),
        )
        found = self.totals.get(key)
        if found is None:
            found = self.totals[key] = self._total(units)
        self.book.consulted |= found.consulted
        self.unknown |= found.unknown
        return found.load_va

    def _total(self, units: Sequence[ChargingUnit]) -> Total:
        book = self.book.afresh()
        # A shared circuit may be open where the dwelling is not: then the best must not pass for what is known.
        is_open = any(unit.held is not None and unit.held.least_a != unit.held.reported_a for unit in units)
        totals: list[float] = []
        unknown: set[str] = set()
        for assumption in ASSUMPTIONS:
            household = self.household(units, assumption, book)
            total = method_load(household, self.facts.method, StepLedger()).total_va
            unknown |= household.unknown
            if total is None:
                return Total(None, book.consulted, unknown)
            if not household.unknown and not is_open:
                return Total(known(total), book.consulted, unknown)
            totals.append(total)
        return Total(Span(min(totals), totals[1], max(totals)), book.consulted, unknown)
