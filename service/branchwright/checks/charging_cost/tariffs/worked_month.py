"""What one month's bill rests on: the energy of each date by price, and the demands that were measured."""

from dataclasses import dataclass

import numpy as np

from branchwright.calculations.arrays import Floats
from branchwright.calculations.energy_bill import sums_by_class
from branchwright.checks.charging_cost.tariffs.local_year import MONTHS
from branchwright.checks.charging_cost.tariffs.priced import PricedTariff


@dataclass(slots=True, frozen=True)
class EnergyOfDay:
    """The energy of one date in the hours of one price, with or without a critical-peak event.

    `season` and `period` are those of the price, as its energy rates state them; `critical_peak` says how the event of
    these hours meets the price: added, instead, or None where there is none. `of` is the place of the energy among
    those of the month.
    """

    season: str | None
    period: str
    critical_peak: str | None
    taken_kwh: float
    delivered_kwh: float
    of: int


@dataclass(slots=True, frozen=True)
class PricedHours:
    """Hours of a month that a bill does not tell apart: their class, and the added events that they lie in."""

    class_: int
    groups: tuple[int, ...]


@dataclass(slots=True, frozen=True)
class MeasuredDemand:
    """What a demand charge measured: in the billed month first, then in those before it that its ratchet counts."""

    name: str
    months: list[str]
    kw: list[float]


@dataclass(slots=True, frozen=True)
class WorkedMonth:
    """A month day by day; energies that are nothing are left out."""

    month: int
    dates: list[str]
    energies: list[list[EnergyOfDay]]
    hours: list[PricedHours]
    demands: list[MeasuredDemand]


def worked_month(priced: PricedTariff, net_kwh: Floats, month: int) -> WorkedMonth:
    """Return what the bill of a month, 0 to 11, rests on, for a load in kWh of each interval, shape (N,)."""
    year, classes = priced.year, priced.classes
    intervals = year.intervals_of_month(month)
    # Every set of added events that an interval can lie in is a number.
    within = np.zeros(len(intervals), dtype=np.int64)
    sets: list[tuple[int, ...]] = [()]
    for group, events in enumerate(classes.added):
        inside = np.isin(intervals, events.intervals)
        known: int
        for known in np.unique(within[inside]).tolist():
            sets.append((*sets[known], group))
            within[inside & (within == known)] = len(sets) - 1
    place = classes.of_interval[intervals] * len(sets) + within
    known_places, of_interval = np.unique(place, return_inverse=True)
    hours = [PricedHours(int(each) // len(sets), sets[int(each) % len(sets)]) for each in known_places]
    dates, of_day = np.unique(year.day_index[intervals], return_inverse=True)
    days: list[int] = dates.tolist()
    cells = of_day * len(hours) + of_interval
    net = net_kwh[intervals]
    shape = (len(days), len(hours))
    taken = sums_by_class(np.maximum(net, 0.0), cells, len(days) * len(hours)).reshape(shape)
    delivered = sums_by_class(np.maximum(-net, 0.0), cells, len(days) * len(hours)).reshape(shape)
    return WorkedMonth(
        month,
        [year.dates[day].isoformat() for day in days],
        [_energies(priced, hours, taken[day], delivered[day]) for day in range(len(days))],
        hours,
        _demands(priced, net_kwh, month),
    )


def _energies(
    priced: PricedTariff, hours: list[PricedHours], taken: Floats, delivered: Floats
) -> list[EnergyOfDay]:
    found: list[EnergyOfDay] = []
    for at, each in enumerate(hours):
        class_ = priced.classes.classes[each.class_]
        if class_.price is None or not (taken[at] or delivered[at]):
            continue
        price = priced.classes.prices[class_.price]
        event = "instead" if class_.event is not None else "added" if each.groups else None
        found.append(
            EnergyOfDay(price.season, price.period, event, float(taken[at]), float(delivered[at]), at)
        )
    return found


def _demands(priced: PricedTariff, net_kwh: Floats, month: int) -> list[MeasuredDemand]:
    charges = priced.tariff.demand_charges
    if not charges:
        return []
    measured = priced.usage(net_kwh).demand_kw
    found: list[MeasuredDemand] = []
    for at, charge in enumerate(charges):
        before = 0 if charge.ratchet is None else charge.ratchet.months
        months = [(month - back) % MONTHS for back in range(before + 1)]
        found.append(
            MeasuredDemand(
                charge.name,
                [priced.year.months[each] for each in months],
                [float(measured[each, at]) for each in months],
            )
        )
    return found
