"""A tariff laid out over a year: what the next kWh costs in each interval, and the bills of any load."""

from collections.abc import Iterable
from datetime import date
from decimal import Decimal
from functools import cached_property

from branchwright.calculations.arrays import Floats
from branchwright.checks.charging_cost.tariffs.billing import Billing
from branchwright.checks.charging_cost.tariffs.bills import UnpriceableError, YearBill
from branchwright.checks.charging_cost.tariffs.charge_layout import ChargeLayout
from branchwright.checks.charging_cost.tariffs.charges import EnergyCharge, StatedSum
from branchwright.checks.charging_cost.tariffs.facts import Tariff
from branchwright.checks.charging_cost.tariffs.local_year import LocalYear, zone_step_minutes
from branchwright.checks.charging_cost.tariffs.marginal import MarginalPrices
from branchwright.checks.charging_cost.tariffs.price_classes import PriceClasses
from branchwright.checks.charging_cost.tariffs.usage import Metering, Usage
from branchwright.questions.local_days import minutes_of
from branchwright.questions.local_time import zone_named


def least_step_minutes(tariffs: Iterable[Tariff], first: date) -> int:
    """Return the longest of 60, 30 and 15 minutes that does justice to some tariffs in the year from a date on.

    No price changes within such an interval, and demand is averaged over no less than one.
    """
    steps = [60]
    for tariff in tariffs:
        steps += [price_step_minutes(tariff, first)]
        steps += [charge.averaging_minutes for charge in tariff.demand_charges]
    return min(steps)


def price_step_minutes(tariff: Tariff, first: date) -> int:
    """Return the longest of 60, 30 and 15 minutes within which no price changes, and the clock does not shift."""
    zone = zone_named(tariff.time_zone)
    clocks = {clock for rate in tariff.energy_rates for clock in (rate.begin, rate.end)}
    clocks |= {clock for event in tariff.critical_peak_events for clock in (event.begin, event.end)}
    steps = [clock_step_minutes(clock) for clock in clocks]
    return min([60, *steps, *([] if zone is None else [zone_step_minutes(zone, first)])])


def clock_step_minutes(clock: str) -> int:
    """Return the longest of 60, 30 and 15 minutes that a clock time on a quarter of an hour is a multiple of.

    >>> clock_step_minutes("14:00"), clock_step_minutes("14:30"), clock_step_minutes("14:45")
    (60, 30, 15)
    """
    minutes = minutes_of(clock)
    return next(step for step in (60, 30, 15) if minutes % step == 0)


def depends_on_use(tariff: Tariff) -> bool:
    """Return whether what a kWh costs depends on what else is used: by tiers, demand, a minimum, or a credit's end."""
    return bool(
        tariff.demand_charges
        or tariff.minimum_bill is not None
        or any(len(rate.tiers) > 1 for rate in tariff.energy_rates)
        or any(len(adder.tiers) > 1 for adder in tariff.tiers_on_all_energy)
        or any(credit.up_to_kwh is not None for credit in tariff.credits)
    )


def has_tax_in_percent(tariff: Tariff) -> bool:
    """Return whether a tax is taken of a bill, and so is nothing where the bill is below nothing."""
    return any(rider.is_tax and rider.percent is not None for rider in tariff.riders)


class PricedTariff:
    """A tariff over the N intervals of a year. An unknown name of a tariff matches nothing."""

    def __init__(self, tariff: Tariff, year: LocalYear) -> None:
        """Lay the tariff out.

        Raises:
            ValueError: the intervals are so long that prices change within one.
        """
        if price_step_minutes(tariff, year.first) % year.step_minutes:
            raise ValueError(f"{tariff.name} changes its price within {year.step_minutes} minutes.")
        self.tariff = tariff
        self.year = year
        self.classes = PriceClasses(tariff, year)
        self.layout = ChargeLayout(tariff, year, self.classes)
        self.billing = Billing(tariff, year.months, self.layout.in_order())
        self._metering = Metering(year, self.classes, tariff.demand_charges)

    @cached_property
    def is_linear(self) -> bool:
        """Whether every kWh of one interval costs the same, whatever else is used.

        No tiers, no demand charge, no minimum, no credit with an end, and no tax that stops at a bill below zero.
        """
        return not (
            depends_on_use(self.tariff) or (has_tax_in_percent(self.tariff) and self._may_be_below_nothing())
        )

    def _may_be_below_nothing(self) -> bool:
        """Return whether something takes off the bill: exports, credits, and prices below zero."""
        return any(
            charge.rate < 0
            if isinstance(charge, StatedSum)
            else isinstance(charge, EnergyCharge) and any(rate < 0 for rate in charge.rates)
            for charge in self.billing.charges
        )

    @property
    def marginal_per_kwh(self) -> Floats:
        """What the next kWh costs in each interval in the first tiers, shape (N,); NaN where it has no price."""
        return self._marginal.first

    def marginal_reached(self, net_kwh: Floats) -> Floats:
        """Return what the next kWh costs in each interval in the tiers that a load reaches, shape (N,)."""
        return self._marginal.reached(self.usage(net_kwh))

    @property
    def export_per_kwh(self) -> Floats:
        """What a kWh brings that is delivered in each interval, shape (N,)."""
        return self._marginal.export

    @cached_property
    def _marginal(self) -> MarginalPrices:
        return MarginalPrices(self.year, self.classes, self.billing.charges)

    @cached_property
    def unpriceable(self) -> str | None:
        """Why no bill can be made, with the first place; None where one can."""
        for wrong, what in (
            (self.classes.matches == 0, "no price"),
            (self.classes.matches > 1, "two prices"),
        ):
            if wrong.any():
                return (
                    f"{self.tariff.name} has {what} at {self.year.clock(int(wrong.argmax())):%Y-%m-%d %H:%M}."
                )
        for row, rate in enumerate(self.tariff.energy_rates):
            if not rate.tiers or rate.tiers[-1].up_to_kwh is not None:
                return f"{self.tariff.name} has no open last tier at /energy_rates/{row}/tiers."
        return None

    def usage(self, net_kwh: Floats) -> Usage:
        """Return the sums of a load by month and class."""
        return self._metering.usage(net_kwh)

    def bill(
        self, net_kwh: Floats, arrangement: str = "whole-house", extra_monthly: Decimal | None = None
    ) -> YearBill:
        """Return the bills of a load, in kWh of each interval, shape (N,); what it delivers is below zero.

        `arrangement` says which meter it is: fixed charges may be for some meters alone. `extra_monthly` is a charge
        of the meter itself; it stands on each bill as stated, and neither riders nor taxes nor a minimum look at it.

        Raises:
            UnpriceableError: the tariff leaves an interval without a price, or prices one twice.
            ValueError: an energy of the load is no number.
        """
        if self.unpriceable is not None:
            raise UnpriceableError(self.unpriceable)
        return self.billing.year(self.usage(net_kwh), arrangement, extra_monthly)
