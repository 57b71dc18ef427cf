"""A service with its chargers under one set of readings: the loads that its rules hold against the ratings."""

from collections.abc import Sequence
from functools import cached_property
from typing import TypeAlias

from branchwright.calculations.continuous_load import least_rating_a
from branchwright.calculations.dwelling_load import (
    charger_load_va,
    line_current_a,
    rounded_current_a,
    three_phase_current_a,
)
from branchwright.calculations.service_capacity import (
    charging_on_service_va,
    service_load_va,
    setting_load_a,
    three_phase_service_a,
)
from branchwright.checks.service_capacity.capacity_review.ampacity import conductor_ampacity_a
from branchwright.checks.service_capacity.capacity_review.calculated import CalculatedLoad, Totals, supply_of
from branchwright.checks.service_capacity.capacity_review.changes import Change, changed_request
from branchwright.checks.service_capacity.capacity_review.charging import charger_loads, charging_units
from branchwright.checks.service_capacity.capacity_review.facts import (
    CapacityReviewRequest,
    MeasuredExistingLoad,
)
from branchwright.checks.service_capacity.capacity_review.measured import MeasuredLoad
from branchwright.checks.service_capacity.capacity_review.spans import Span, both, each, known
from branchwright.codebook import Book

ExistingLoad: TypeAlias = CalculatedLoad | MeasuredLoad


class Case:
    """The facts of a review bound to an edition and its readings, with the loads that follow from them.

    Loads are spans: with every unknown fact at its best, and at its worst. They are None where the existing load
    cannot be computed.
    """

    def __init__(self, request: CapacityReviewRequest, book: Book, totals: Totals | None = None) -> None:
        """Bind the facts; loads are worked out when they are asked for, unless they are among the totals."""
        self.request = request
        self.totals: Totals = {} if totals is None else totals
        self.book = book
        self.edition = book.edition
        service = request.service
        self.service = service
        self.management = request.management
        self.unknown: set[str] = set()
        self.voltage_v = self.edition.voltage_between_lines(service.system).number
        self.ampacity_a = conductor_ampacity_a(service.conductors, service.rating_a, self.edition)
        # A system that has fewer phases than stated is a failing finding; the rest counts with what it has.
        self.phases = int(min(service.phases or 1, self.edition.greatest_phases(service.system).number))
        self.ungrounded_count = 2 if self.phases == 1 else 3
        self.chargers = charger_loads(request, book, self.unknown)
        self.units = charging_units(request, self.chargers, self.unknown)
        self.managed = [charger for charger in self.chargers if charger.is_managed]

    def with_changes(self, changes: Sequence[Change]) -> "Case":
        """Return the case of the request with changes made; what it consults is its own."""
        return Case(changed_request(self.request, changes), self.book.afresh(), self.totals)

    def under(self, name: str, reading: str) -> "Case":
        """Return the case under one other reading."""
        return Case(self.request, self.book.with_reading(name, reading), self.totals)

    @cached_property
    def existing(self) -> ExistingLoad:
        """The existing load and how chargers add to it."""
        facts = self.request.existing_load
        if isinstance(facts, MeasuredExistingLoad):
            return MeasuredLoad(facts, self.book, self.voltage_v)
        return CalculatedLoad(
            facts, self.book, supply_of(self.request, self.ampacity_a), self.unknown, self.totals
        )

    @cached_property
    def service_factor(self) -> float:
        """Factor on the load of chargers at the devices and conductors of the service."""
        if self.book.reading("charger-on-service") == "at-its-load":
            return 1.0
        return self.edition.provision("charger-on-service").number("factor")

    @cached_property
    def charging_va(self) -> Span | None:
        """What all chargers add without management, VA, before the factor."""
        return self.existing.added_va(self.units)

    @cached_property
    def uncontrolled_va(self) -> Span | None:
        """What the chargers add that no management holds, VA, before the factor."""
        return self.existing.added_va([unit for unit in self.units if not unit.is_managed])

    @cached_property
    def existing_a(self) -> Span | None:
        """The existing load alone, A."""
        existing = self.existing.load_va
        if existing is None:
            return None
        return each(lambda existing_va: self.line_a(existing_va, 0.0), existing)

    @cached_property
    def total_a(self) -> Span | None:
        """Existing load and all chargers without management, A on the busiest line."""
        return self._with_charging_a(self.charging_va)

    @cached_property
    def counted_a(self) -> Span | None:
        """The same in whole amperes, as the edition rounds."""
        return self.rounded(self.total_a)

    @cached_property
    def lost_link_a(self) -> Span | None:
        """What the service carries when managed chargers have lost their monitor, A; None where it is not known."""
        if self.management is None or self.management.fail_safe_current_a is None:
            return None
        return self.with_managed_at_a(self.management.fail_safe_current_a)

    def with_managed_at_a(self, each_a: float) -> Span | None:
        """Return what the service carries when every managed charger draws so many amperes."""
        if self.uncontrolled_va is None:
            return None
        held_va = len(self.managed) * charger_load_va.value(each_a, self.voltage_v)
        return self._with_charging_a(each(lambda load_va: load_va + held_va, self.uncontrolled_va))

    @cached_property
    def setting_a(self) -> float | None:
        """What the control setting counts for on the service, A; None without management of any charger."""
        if self.management is None or not self.managed:
            return None
        factor = self.edition.provision("energy-management-load").number("factor")
        return setting_load_a.value(factor, self.management.control_setting_a)

    @property
    def is_held_by_setting(self) -> bool:
        """Whether the control setting counts for less than the load itself, and so stands for it."""
        if self.setting_a is None:
            return False
        return self.counted_a is None or self.setting_a < self.counted_a.greatest

    @property
    def held_a(self) -> Span | None:
        """What ratings are held against, A: the load in whole amperes, or what the control setting counts for."""
        if self.setting_a is None:
            return self.counted_a
        setting = known(self.setting_a)
        return setting if self.counted_a is None else both(min, self.counted_a, setting)

    @property
    def limit_a(self) -> float:
        """The least of the ratings that the load is held against."""
        service = self.service
        ratings = (service.rating_a, service.main_breaker_a, service.busbar_rating_a)
        return min(rating for rating in ratings if rating is not None)

    @property
    def is_carried_unmanaged(self) -> bool:
        """Whether the service carries the chargers at their full current, whatever the unknown facts are."""
        return self.counted_a is not None and self.counted_a.greatest <= self.limit_a

    @property
    def waits_for_a_finer_record(self) -> bool:
        """Whether the demand as measured and its bound are judged unlike."""
        held = self.counted_a
        if self.setting_a is not None and not self.is_carried_unmanaged:
            held = self.rounded(self.lost_link_a)
        return held is not None and held.least <= self.limit_a < held.greatest

    @property
    def has_generation(self) -> bool:
        """Whether generation behind the meter is stated with the record of demand."""
        return isinstance(self.existing, MeasuredLoad) and self.existing.facts.has_generation is True

    def rounded(self, current_a: Span | None) -> Span | None:
        """Return a current in whole amperes, as the edition rounds."""
        if current_a is None:
            return None
        dropped = self.edition.provision("load-rounding").number("dropped_below")
        return each(lambda current: rounded_current_a.value(current, dropped), current_a)

    def least_circuit_a(self, current_a: float) -> float:
        """Return the least breaker of a charging circuit in A for its load in A."""
        return least_rating_a.value(self.edition.provision("continuous-load").number("factor"), current_a)

    def _with_charging_a(self, charging_va: Span | None) -> Span | None:
        existing = self.existing.load_va
        if existing is None or charging_va is None:
            return None
        return both(self.line_a, existing, charging_va)

    def on_service_va(self, charging_va: float) -> float:
        """Return what a charging load counts for at the devices and conductors of the service."""
        return charging_on_service_va.value(self.service_factor, charging_va)

    def line_a(self, existing_va: float, charging_va: float) -> float:
        """Return the current of the busiest line: on three phases, all chargers are taken to be on the same two."""
        on_service = self.on_service_va(charging_va)
        if self.phases == 1:
            return line_current_a.value(service_load_va.value(existing_va, on_service), self.voltage_v)
        existing_a = three_phase_current_a.value(existing_va, self.voltage_v)
        return three_phase_service_a.value(existing_a, on_service, self.voltage_v)
