"""Prices what may be chosen: a tariff, a meter arrangement and a schedule, over the whole year."""

from dataclasses import dataclass
from decimal import Decimal
from functools import cached_property
from typing import TypeAlias

import numpy as np

from branchwright.calculations.arrays import Floats
from branchwright.calculations.charging_schedule import Delivery
from branchwright.checks.charging_cost.charging_comparison.answers import LeastCostBasis
from branchwright.checks.charging_cost.charging_comparison.facts import LeastCost as LeastCostSchedule
from branchwright.checks.charging_cost.charging_comparison.facts import SolarSurplusFirst, Timer
from branchwright.checks.charging_cost.charging_comparison.given import Given
from branchwright.checks.charging_cost.charging_comparison.least_cost import LeastCost, Meter, surplus_of
from branchwright.checks.charging_cost.charging_comparison.nights import Nights, Prices
from branchwright.checks.charging_cost.tariffs.bills import YearBill
from branchwright.checks.charging_cost.tariffs.price_facts import Arrangement
from branchwright.checks.charging_cost.tariffs.priced import PricedTariff

Charged: TypeAlias = tuple[Floats, YearBill, LeastCostBasis | None]


@dataclass(slots=True, frozen=True)
class Choice:
    """One tariff, meter arrangement and schedule; tariff and schedule by their places in the request."""

    tariff: int
    arrangement: Arrangement
    schedule: int


@dataclass(slots=True, frozen=True)
class Priced:
    """What a choice comes to.

    `house` are the bills of the house's meter, which takes in the vehicle where it has no meter of its own; `vehicle`
    those of its own meter. `charging_kwh` is what it charges in each interval, shape (count,).
    """

    choice: Choice
    house: YearBill | None
    vehicle: YearBill | None
    charging_kwh: Floats
    delivery: Delivery
    least_cost_basis: LeastCostBasis | None

    @property
    def total(self) -> Decimal:
        """All bills of the year."""
        return sum((bill.total for bill in (self.house, self.vehicle) if bill), Decimal(0))


class Pricer:
    """Prices choices over the given year; what several of them share is worked out once."""

    def __init__(self, given: Given) -> None:
        """Lay out every tariff."""
        self.given = given
        self.tariffs = [PricedTariff(tariff, given.year) for tariff in given.request.tariffs]
        self.digits = self.tariffs[0].billing.digits
        """Digits of the currency after the point."""
        self._houses: dict[int, YearBill] = {}
        self._nights: dict[tuple[int | None, float], Nights] = {}
        # Nights are kept, so that each is known by its identity.
        self._least: dict[tuple[int, Arrangement, int], Charged] = {}

    def house_alone(self, tariff: int) -> YearBill:
        """Return the bills of the house alone on a tariff."""
        if tariff not in self._houses:
            self._houses[tariff] = self.tariffs[tariff].bill(self.given.house_kwh, "whole-house")
        return self._houses[tariff]

    @cached_property
    def present(self) -> YearBill | None:
        """The bills of the house alone on the tariff that it is on today; None where it is on none."""
        place = self.given.house_place
        return None if place is None else self.house_alone(place)

    def nights(self, schedule: int, scale: float = 1.0) -> Nights:
        """Return the nights of a schedule, at a multiple of the stated need."""
        key = (schedule if isinstance(self.given.request.schedules[schedule], Timer) else None, scale)
        if key not in self._nights:
            windows = self.given.windows[schedule]
            self._nights[key] = Nights(self.given, windows, self.given.needed_kwh * scale)
        return self._nights[key]

    def price(self, choice: Choice, scale: float = 1.0) -> Priced:
        """Return what a choice comes to, at a multiple of the stated need."""
        given, nights = self.given, self.nights(choice.schedule, scale)
        whole = choice.arrangement == "whole-house"
        separate = given.meter(choice.arrangement)
        meter = Meter(
            self.tariffs[choice.tariff], choice.arrangement, separate.monthly_charge if separate else None
        )
        other = given.house_kwh if whole else self._nothing
        charging, bill, basis = self._charged(choice, nights, meter, other)
        if whole:
            return Priced(choice, bill, None, charging, nights.delivery, basis)
        return Priced(choice, self.present, bill, charging, nights.delivery, basis)

    @cached_property
    def _nothing(self) -> Floats:
        """What the vehicle's own meter takes beside the vehicle."""
        return np.zeros(self.given.year.count)

    def _charged(self, choice: Choice, nights: Nights, meter: Meter, other: Floats) -> Charged:
        """Return the charging of each interval, the bills with it, and whether that is the least cost."""
        schedule, priced = self.given.request.schedules[choice.schedule], meter.priced
        if isinstance(schedule, LeastCostSchedule):
            key = (choice.tariff, choice.arrangement, id(nights))
            if key not in self._least:
                search = LeastCost(self.given, nights, meter, other)
                self._least[key] = (*search.found(), "optimum" if search.is_optimum else "best-of-tried")
            return self._least[key]
        charging = nights.in_order
        if isinstance(schedule, SolarSurplusFirst):
            surplus = surplus_of(other)
            prices = Prices(priced.marginal_per_kwh, priced.export_per_kwh)
            charging = (
                nights.cheapest(prices, None) if surplus is None else nights.surplus_first(prices, surplus)
            )
        return charging, meter.bill(other + charging), None
