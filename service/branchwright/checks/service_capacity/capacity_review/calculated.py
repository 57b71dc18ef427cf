"""An existing load by one of the methods of the code, and what chargers add to it by the same method."""

from collections.abc import Sequence
from functools import cached_property

from branchwright.checks.service_capacity.capacity_review.charging import ChargingUnit
from branchwright.checks.service_capacity.capacity_review.facts import (
    CalculatedExistingLoad,
    CapacityReviewRequest,
)
from branchwright.checks.service_capacity.capacity_review.spans import Span
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


class CalculatedLoad:
    """An existing load by a method of the code.

    What chargers add is the load by the method with them less the load without them: a method may count a charger
    at less than its load, or at no less than a least one.
    """

    def __init__(self, facts: CalculatedExistingLoad, book: Book, supply: Supply, unknown: set[str]) -> None:
        """Keep the dwelling; pointers to facts that would move its load go to `unknown`."""
        self.facts = facts
        self.book = book
        self.supply = supply
        self.unknown = unknown

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

    def household(self, units: Sequence[ChargingUnit], assumption: Assumption) -> Household:
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
            self.book,
            self.supply,
            at=DWELLING,
            chargers=(*own, *added),
            assumption=assumption,
        )
        household.management = (*household.management, *held)
        return household

    def _span(self, units: Sequence[ChargingUnit]) -> Span | None:
        # A shared circuit may be open where the dwelling is not: then the best must not pass for what is known.
        is_open = any(unit.held is not None and unit.held.least_a != unit.held.reported_a for unit in units)
        totals: list[float] = []
        for assumption in ASSUMPTIONS:
            household = self.household(units, assumption)
            total = method_load(household, self.facts.method, StepLedger()).total_va
            if total is None:
                return None
            if not household.unknown and not is_open:
                return Span(total, total, total)
            self.unknown.update(household.unknown)
            totals.append(total)
        return Span(min(totals), totals[1], max(totals))
