"""What a load takes from the grid and delivers to it, summed by month and class of intervals."""

from dataclasses import dataclass
from math import isfinite

import numpy as np

from branchwright.calculations.arrays import Floats, Whole
from branchwright.calculations.energy_bill import average_power_kw, sums_by_class
from branchwright.checks.charging_cost.tariffs.local_year import MONTHS, LocalYear
from branchwright.checks.charging_cost.tariffs.price_classes import PriceClasses
from branchwright.checks.charging_cost.tariffs.price_facts import DemandCharge


@dataclass(slots=True, frozen=True)
class Usage:
    """The sums of one load over a year.

    `taken_kwh` and `delivered_kwh` have shape (12, C) for C classes, `added_kwh` (12, G) for G groups of added
    events, `demand_kw` (12, M) for M demand charges. Nothing of them is below zero.
    """

    taken_kwh: Floats
    delivered_kwh: Floats
    added_kwh: Floats
    demand_kw: Floats
    greatest_kw: float


@dataclass(slots=True, frozen=True)
class _Watched:
    """The averaging spans that one demand charge looks at, and where those of each month with any begin."""

    intervals: int
    spans: Whole
    begins: Whole
    months: Whole


class Metering:
    """Sums a load as the meter of one tariff does. A span of demand belongs to where its first interval lies."""

    def __init__(self, year: LocalYear, classes: PriceClasses, demands: tuple[DemandCharge, ...]) -> None:
        """Lay out which interval counts where."""
        self._count = len(classes.classes)
        self._step_h = year.step_h
        self._step_minutes = year.step_minutes
        self._place = year.month_index * self._count + classes.of_interval
        self._month = year.month_index
        self._added = [group.intervals for group in classes.added]
        self._demands = [self._watched(charge, classes) for charge in demands]

    def usage(self, net_kwh: Floats) -> Usage:
        """Return the sums of a load, in kWh of each interval, shape (N,); what it delivers is below zero.

        Raises:
            ValueError: an energy is no number.
        """
        if not isfinite(float(net_kwh.sum())):
            raise ValueError("An energy of the load is no number.")
        delivers = bool(net_kwh.min() < 0.0)
        taken = np.maximum(net_kwh, 0.0) if delivers else net_kwh
        sums = self._by_class(taken)
        delivered = self._by_class(taken - net_kwh) if delivers else np.zeros_like(sums)
        added = [sums_by_class(taken[each], self._month[each], MONTHS) for each in self._added]
        powers: dict[int, Floats] = {}
        demands = [self._demand(watched, net_kwh, powers) for watched in self._demands]
        return Usage(
            sums,
            delivered,
            np.array(added).reshape(-1, MONTHS).T,
            np.array(demands).reshape(-1, MONTHS).T,
            float(taken.max()) / self._step_h,
        )

    def _by_class(self, energy: Floats) -> Floats:
        return sums_by_class(energy, self._place, MONTHS * self._count).reshape(MONTHS, self._count)

    def _watched(self, charge: DemandCharge, classes: PriceClasses) -> _Watched:
        """Return what a charge looks at; an average over less than an interval is that over the interval."""
        intervals = max(1, charge.averaging_minutes // self._step_minutes)
        prices = [at for at, each in enumerate(classes.prices) if charge.period in (None, each.period)]
        wanted = np.array(
            [
                (charge.period is None or each.price in prices) and charge.season in (None, each.season)
                for each in classes.classes
            ],
            dtype=np.bool_,
        )
        spans = np.flatnonzero(wanted[classes.of_interval[::intervals]])
        months, begins = np.unique(self._month[::intervals][spans], return_index=True)
        return _Watched(intervals, spans, begins.astype(np.int64), months.astype(np.int64))

    def _demand(self, watched: _Watched, net_kwh: Floats, powers: dict[int, Floats]) -> Floats:
        if watched.intervals not in powers:
            powers[watched.intervals] = average_power_kw(net_kwh, watched.intervals, self._step_h)
        found = np.zeros(MONTHS)
        if len(watched.spans):
            power = powers[watched.intervals][watched.spans]
            found[watched.months] = np.maximum.reduceat(power, watched.begins)
        return np.maximum(found, 0.0)
