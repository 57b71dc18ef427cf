"""A request bound to an edition and its readings: the household, its loads by method, and the services they ask for."""

from contextlib import suppress
from functools import cached_property

from branchwright.checks.service_capacity.dwelling_load.demands import Demands
from branchwright.checks.service_capacity.dwelling_load.facts import METHODS, LoadCalculationRequest, Method
from branchwright.checks.service_capacity.dwelling_load.household import Assumption, Household, Supply
from branchwright.checks.service_capacity.dwelling_load.methods import (
    MethodLoad,
    NeutralLoad,
    method_load,
    neutral_load,
)
from branchwright.checks.service_capacity.dwelling_load.methods.current import rounded
from branchwright.codebook import Book, ProvisionLacking
from branchwright.findings import Sourced, StepInput
from branchwright.questions.ledger import StepLedger


class LoadCase:
    """The loads of one request, with their steps."""

    def __init__(self, request: LoadCalculationRequest, book: Book) -> None:
        """Calculate the load by each method, and the neutral's."""
        self.request = request
        self.book = book
        self.edition = book.edition
        self.ledger = StepLedger()
        self.household = Household(request.dwelling, book, _supply(request))
        self.methods: tuple[Method, ...] = tuple(
            method for method in METHODS if request.methods is None or method in request.methods
        )
        demands = Demands(self.household, self.ledger)
        self.loads: list[MethodLoad] = [
            method_load(self.household, method, self.ledger, demands=demands) for method in self.methods
        ]
        self.least_services_a: list[float | None] = [self._least_service_a(load) for load in self.loads]
        self.neutral: NeutralLoad = neutral_load(demands)
        self.rounded_neutral: StepInput | None = None
        if self.neutral.current is not None:
            with suppress(ProvisionLacking):
                self.rounded_neutral = rounded(self.household, self.neutral.part, self.neutral.current)

    @property
    def least_service(self) -> Sourced:
        """The least rating of any service of this occupancy."""
        one_family = (self.request.occupancy or "one-family") == "one-family"
        rule = self.edition.provision("least-service-rating")
        return rule.values["one_family_a" if one_family else "other_a"]

    @cached_property
    def worst(self) -> list[MethodLoad]:
        """The loads with every unknown fact at its worst."""
        return self._assuming("worst")

    @cached_property
    def best(self) -> list[MethodLoad]:
        """The loads with every unknown fact at its best."""
        return self._assuming("best")

    def _assuming(self, assumption: Assumption) -> list[MethodLoad]:
        if not self.household.unknown:
            return self.loads
        household = self.household.assuming(assumption)
        ledger = StepLedger()
        demands = Demands(household, ledger)
        return [method_load(household, method, ledger, demands=demands) for method in self.methods]

    def _least_service_a(self, load: MethodLoad) -> float | None:
        """Enter the least standard rating for a load; None where it is undetermined, or none is made or asked for."""
        if load.rounded_current is None or load.rounded_current_a is None:
            return None
        try:
            least = self.least_service
        except ProvisionLacking:
            return None
        found = self.edition.standard_rating_at_least(max(load.rounded_current_a, least.number))
        if found is None:
            return None
        self.ledger.work_out(
            f"{load.method}-least-service-rating",
            "least standard rating of the service",
            "lookup(standard_ratings, max(current_a, least_a))",
            {"current_a": load.rounded_current, "least_a": least},
            found.number,
            "A",
            least.citation,
        )
        return found.number


def _supply(request: LoadCalculationRequest) -> Supply:
    service = request.service
    if service is None:
        return Supply()
    return Supply(service.system, service.phases, service.rating_a, service.conductor_ampacity_a)
