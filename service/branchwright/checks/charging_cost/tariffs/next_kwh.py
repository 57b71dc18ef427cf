"""What the next kWh costs in each hour, exactly: in decimals, with riders and taxes, in the first tier of everything.

What depends on more than this kWh, such as demand, fixed charges and a minimum bill, has no price by the hour.
"""

from dataclasses import dataclass
from decimal import Decimal, localcontext

import numpy as np

from branchwright.calculations.arrays import Whole
from branchwright.checks.charging_cost.tariffs.billing import ENOUGH_DIGITS
from branchwright.checks.charging_cost.tariffs.bills import UnpriceableError
from branchwright.checks.charging_cost.tariffs.charges import EnergyCharge, Percentage, factor_of
from branchwright.checks.charging_cost.tariffs.local_year import MONTHS
from branchwright.checks.charging_cost.tariffs.price_classes import Price
from branchwright.checks.charging_cost.tariffs.price_facts import CriticalPeakEvent
from branchwright.checks.charging_cost.tariffs.priced import PricedTariff
from branchwright.quantities.money import total

SHOWN_DIGITS = Decimal("1e-8")
"""Prices are shown to so many digits after the point, as many as a tariff can state."""


@dataclass(slots=True, frozen=True)
class HourPrice:
    """The price of intervals that differ in nothing that a bill looks at, in one month of the year, 0 to 11.

    `charges` are the prices per kWh that it is made of, `event` the critical-peak event that it lies in.
    """

    month: int
    price: Price
    charges: tuple[EnergyCharge, ...]
    event: CriticalPeakEvent | None
    per_kwh: Decimal
    last_tier_per_kwh: Decimal
    with_riders_per_kwh: Decimal
    export_per_kwh: Decimal | None


class NextKwh:
    """The prices of a sound tariff's N intervals: `of_interval` is the place in `prices` of each, shape (N,)."""

    def __init__(self, priced: PricedTariff) -> None:
        """Work out the price of each kind of interval.

        Raises:
            UnpriceableError: the tariff leaves an hour without a price.
        """
        self._priced = priced
        classes = priced.classes
        self._charges = [each for each in priced.billing.charges if isinstance(each, EnergyCharge)]
        self.percentages = [each for each in priced.billing.charges if isinstance(each, Percentage)]
        added = np.zeros(priced.year.count, dtype=np.int64)
        for group, each in enumerate(classes.added):
            added[each.intervals] = group + 1
        place = priced.year.month_index * len(classes.classes) + classes.of_interval
        kinds, inverse = np.unique(place * (len(classes.added) + 1) + added, return_inverse=True)
        self.of_interval: Whole = inverse.astype(np.int64)
        with localcontext(prec=ENOUGH_DIGITS):
            self.prices = [self._price(int(kind)) for kind in kinds]

    def at(self, interval: int) -> HourPrice:
        """Return the price of an interval."""
        return self.prices[int(self.of_interval[interval])]

    def dearest(self) -> int:
        """Return the first of the intervals whose next kWh costs most."""
        greatest = max(price.with_riders_per_kwh for price in self.prices)
        is_dearest = np.array([price.with_riders_per_kwh == greatest for price in self.prices])
        return int(is_dearest[self.of_interval].argmax())

    def averages(self) -> list[list[Decimal]]:
        """Return the average over the hours of each month by the hour of the clock, 12 lists of 24, to six digits."""
        year = self._priced.year
        hours = year.month_index * 24 + year.minute_of_day // 60
        counts = np.zeros((MONTHS * 24, len(self.prices)), dtype=np.int64)
        np.add.at(counts, (hours, self.of_interval), 1)
        with localcontext(prec=ENOUGH_DIGITS):
            return [
                [self._average(counts[24 * month + hour]) for hour in range(24)] for month in range(MONTHS)
            ]

    def _average(self, counts: Whole) -> Decimal:
        parts = [int(count) * self.prices[place].with_riders_per_kwh for place, count in _present(counts)]
        return (total(parts) / int(counts.sum())).quantize(Decimal("1e-6"))

    def _price(self, kind: int) -> HourPrice:
        classes = self._priced.classes
        place, group = divmod(kind, len(classes.added) + 1)
        month, number = divmod(place, len(classes.classes))
        found = classes.classes[number]
        if found.price is None:
            raise UnpriceableError(f"{self._priced.tariff.name} leaves an hour without a price.")
        price = classes.prices[found.price]
        rate = self._priced.tariff.energy_rates[price.row]
        event = None if found.event is None else classes.instead[found.event].event
        if group:
            event = classes.added[group - 1].event
        charges = tuple(
            each
            for each in self._charges
            if (each.of == "taken" and each.classes[number])
            or (each.of == "added" and each.group == group - 1)
        )
        exact = total(each.rates[0] * factor_of(self.percentages, each.kind, month) for each in charges)
        return HourPrice(
            month,
            price,
            charges,
            event,
            rate.tiers[0].per_kwh,
            rate.tiers[-1].per_kwh,
            exact.quantize(SHOWN_DIGITS).normalize(),
            rate.export_per_kwh,
        )


def _present(counts: Whole) -> list[tuple[int, int]]:
    return [(int(place), int(counts[place])) for place in np.flatnonzero(counts)]
