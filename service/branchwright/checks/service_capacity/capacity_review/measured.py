"""An existing load by measured demand, and what chargers add to it."""

from collections.abc import Sequence
from functools import cached_property

from branchwright.calculations.dwelling_load import charger_load_va
from branchwright.calculations.service_capacity import (
    measured_load_va,
    seasonal_demand_w,
    short_demand_bound_w,
)
from branchwright.checks.service_capacity.capacity_review.charging import ChargingUnit
from branchwright.checks.service_capacity.capacity_review.facts import MeasuredExistingLoad
from branchwright.checks.service_capacity.capacity_review.spans import Span, each, known, total
from branchwright.codebook import Book

BOUND = "/existing_load/fifteen_minute_bound_w"


class MeasuredLoad:
    """An existing load by measured demand; chargers add their own load."""

    def __init__(self, facts: MeasuredExistingLoad, book: Book, voltage_v: float) -> None:
        """Keep the record and the provision."""
        self.facts = facts
        self.book = book
        self.provision = book.edition.provision("measured-demand")
        self.voltage_v = voltage_v

    @cached_property
    def is_year(self) -> bool:
        """Whether the record is as long as the rule asks for; else only its exception can hold."""
        return self.facts.days >= self.provision.number("year_days")

    @cached_property
    def is_fine(self) -> bool:
        """Whether its interval is as short as the exception asks for."""
        return self.facts.averaging_minutes <= self.provision.number("short_minutes")

    @cached_property
    def is_as_metered(self) -> bool:
        """Whether the demand over the meter's own interval is the one that counts."""
        return self.is_fine or self.book.reading("measured-demand-interval") == "as-metered"

    @cached_property
    def demand_w(self) -> Span:
        """The greatest demand over the interval that counts, W: as measured, and by its bound."""
        demand = self.facts.measured_demand_w
        if self.is_as_metered:
            return known(demand)
        bound = self.facts.fifteen_minute_bound_w
        if bound is None:
            bound = short_demand_bound_w.value(
                self.facts.averaging_minutes, self.provision.number("short_minutes"), demand
            )
        return Span(demand, demand, max(bound, demand))

    @cached_property
    def load_va(self) -> Span:
        """The load that the demand stands for."""
        factor, seasonal = self.provision.number("factor"), self.facts.seasonal_load_va or 0.0
        return each(
            lambda demand: measured_load_va.value(factor, seasonal_demand_w.value(demand, seasonal)),
            self.demand_w,
        )

    def added_va(self, units: Sequence[ChargingUnit]) -> Span:
        """Return the sum of the chargers' own loads."""
        return total(
            [
                each(lambda current: charger_load_va.value(current, self.voltage_v), unit.current_a)
                for unit in units
            ]
        )

    lacking: tuple[str, str] | None = None
    """A record always has its demand."""
