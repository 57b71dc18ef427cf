"""Lays out the charges of a tariff over a year: which intervals, how many days of each month, where tiers end."""

from collections.abc import Iterable, Iterator, Sequence
from decimal import Decimal
from typing import Literal

import numpy as np

from branchwright.calculations.arrays import Flags
from branchwright.calculations.energy_bill import allowance_kwh, share_of_month
from branchwright.checks.charging_cost.tariffs.charges import (
    CHARGED,
    COUNTED,
    Charge,
    Demand,
    Ends,
    EnergyCharge,
    Minimum,
    Percentage,
    StatedEnd,
    StatedSum,
    TierEnds,
)
from branchwright.checks.charging_cost.tariffs.facts import Tariff
from branchwright.checks.charging_cost.tariffs.local_year import MONTHS, LocalYear
from branchwright.checks.charging_cost.tariffs.price_classes import PriceClasses
from branchwright.checks.charging_cost.tariffs.price_facts import (
    BillCredit,
    ChargePer,
    CriticalPeakEvent,
    Rider,
    Tier,
)

OPEN = TierEnds([[None]] * MONTHS, [None], False, [])
"""The ends of a single open tier."""


class ChargeLayout:
    """The charges of one tariff over one year."""

    def __init__(self, tariff: Tariff, year: LocalYear, classes: PriceClasses) -> None:
        """Count the days of each season in each month."""
        self._tariff = tariff
        self._classes = classes
        self._all = classes.classes
        self._days: dict[str | None, list[int]] = {None: [int(days) for days in year.days_in_month]}
        self._month_of_day = year.month_of_day

    def in_order(self) -> list[Charge]:
        """Return every charge in the order of the bill; taxes come last, after the minimum."""
        return [
            *self._energy(),
            *self._tiers_on_all(),
            *self._critical_peaks(),
            *self._exports(),
            *self._demands(),
            *self._fixed(),
            *self._credits(),
            *self._riders(taxes=False),
            *self._minimum(),
            *self._riders(taxes=True),
        ]

    def _energy(self) -> Iterator[EnergyCharge]:
        for place, price in enumerate(self._classes.prices):
            rate = self._tariff.energy_rates[price.row]
            if not rate.tiers:
                continue
            yield EnergyCharge(
                "energy",
                price.period,
                price.season,
                price.period,
                "taken",
                self._marked(each.price == place and each.event is None for each in self._all),
                None,
                self._ends(rate.tiers, f"/energy_rates/{price.row}/tiers", rate.allowance_per, price.season),
                [tier.per_kwh for tier in rate.tiers],
                [f"/energy_rates/{price.row}/tiers/{at}/per_kwh" for at in range(len(rate.tiers))],
            )

    def _tiers_on_all(self) -> Iterator[EnergyCharge]:
        for at, adder in enumerate(self._tariff.tiers_on_all_energy):
            if not adder.tiers:
                continue
            yield EnergyCharge(
                "all-energy",
                adder.name,
                adder.season,
                None,
                "taken",
                self._marked((each.event is None for each in self._all), adder.season),
                None,
                self._ends(
                    adder.tiers, f"/tiers_on_all_energy/{at}/tiers", adder.allowance_per, adder.season
                ),
                [tier.per_kwh for tier in adder.tiers],
                [f"/tiers_on_all_energy/{at}/tiers/{tier}/per_kwh" for tier in range(len(adder.tiers))],
            )

    def _critical_peaks(self) -> Iterator[EnergyCharge]:
        for at, group in enumerate(self._classes.instead):
            marked = self._marked(each.event == at for each in self._all)
            yield self._critical_peak(group.event, group.place, "taken", marked, None)
        for at, group in enumerate(self._classes.added):
            yield self._critical_peak(
                group.event, group.place, "added", self._marked(False for _ in self._all), at
            )

    @staticmethod
    def _critical_peak(
        event: CriticalPeakEvent, place: int, of: Literal["taken", "added"], marked: Flags, group: int | None
    ) -> EnergyCharge:
        where = [f"/critical_peak_events/{place}/per_kwh"]
        name = f"critical peak, {event.how}"
        return EnergyCharge(
            "critical-peak", name, None, None, of, marked, group, OPEN, [event.per_kwh], where
        )

    def _exports(self) -> Iterator[EnergyCharge]:
        for place, price in enumerate(self._classes.prices):
            rate = self._tariff.energy_rates[price.row].export_per_kwh
            if rate is not None:
                yield EnergyCharge(
                    "export",
                    price.period,
                    price.season,
                    price.period,
                    "delivered",
                    self._marked(each.price == place for each in self._all),
                    None,
                    OPEN,
                    [-rate],
                    [f"/energy_rates/{price.row}/export_per_kwh"],
                )

    def _demands(self) -> Iterator[Demand]:
        for at, charge in enumerate(self._tariff.demand_charges):
            yield Demand(charge, self._shares(charge.season), f"/demand_charges/{at}/per_kw")

    def _fixed(self) -> Iterator[StatedSum]:
        for at, charge in enumerate(self._tariff.fixed_charges):
            yield StatedSum(
                "fixed",
                charge.name,
                charge.season,
                self._times(charge.per, charge.season),
                charge.per,
                charge.amount,
                f"/fixed_charges/{at}/amount",
                charge.arrangements,
            )

    def _credits(self) -> Iterator[EnergyCharge | StatedSum]:
        for at, credit in enumerate(self._tariff.credits):
            if credit.per_kwh is not None:
                yield EnergyCharge(
                    "credit",
                    credit.name,
                    credit.season,
                    credit.period,
                    "taken",
                    self._marked(self._of_period(credit.period), credit.season),
                    None,
                    self._credited(credit, at),
                    [-credit.per_kwh],
                    [f"/credits/{at}/per_kwh"],
                )
            if credit.amount is not None:
                per = credit.per or "month"
                yield StatedSum(
                    "credit",
                    credit.name,
                    credit.season,
                    self._times(per, credit.season),
                    per,
                    -credit.amount,
                    f"/credits/{at}/amount",
                    None,
                )

    def _riders(self, *, taxes: bool) -> Iterator[EnergyCharge | Percentage]:
        for at, rider in enumerate(self._tariff.riders):
            if bool(rider.is_tax) == taxes:
                yield from self._rider(rider, at)

    def _rider(self, rider: Rider, at: int) -> Iterator[EnergyCharge | Percentage]:
        kind: Literal["tax", "rider"] = "tax" if rider.is_tax else "rider"
        if rider.per_kwh is not None:
            marked = self._marked((True for _ in self._all), rider.season)
            where = [f"/riders/{at}/per_kwh"]
            yield EnergyCharge(
                kind, rider.name, rider.season, None, "taken", marked, None, OPEN, [rider.per_kwh], where
            )
        if rider.percent is not None:
            everything = rider.is_tax and rider.applies_to is None
            words = rider.applies_to or CHARGED
            yield Percentage(
                kind,
                rider.name,
                rider.season,
                None if everything else frozenset(each for word in words for each in CHARGED[word]),
                self._shares(rider.season),
                rider.percent,
                f"/riders/{at}/percent",
            )

    def _minimum(self) -> Iterator[Minimum]:
        minimum = self._tariff.minimum_bill
        if minimum is not None:
            yield Minimum(
                frozenset(each for word in minimum.counts for each in COUNTED[word]),
                self._times(minimum.per, None),
                minimum.per,
                minimum.amount,
                "/minimum_bill/amount",
            )

    def _marked(self, wanted: Iterable[bool], season: str | None = None) -> Flags:
        """Return which classes are wanted, of one season's dates or of all."""
        pairs = zip(wanted, self._all, strict=True)
        return np.array([each and season in (None, of.season) for each, of in pairs], dtype=np.bool_)

    def _of_period(self, period: str | None) -> list[bool]:
        """Return of each class whether it is of a period, whatever the season of its price."""
        prices = {place for place, each in enumerate(self._classes.prices) if period in (None, each.period)}
        return [period is None or each.price in prices for each in self._all]

    def days_of(self, season: str | None) -> list[int]:
        """Return how many days of each month lie in a season, or all where none is named."""
        if season not in self._days:
            lies = np.array([each == season for each in self._classes.season_of_day])
            counted = np.bincount(self._month_of_day[lies], minlength=MONTHS)
            self._days[season] = [int(days) for days in counted]
        return self._days[season]

    def _shares(self, season: str | None) -> list[Decimal]:
        pairs = zip(self.days_of(season), self.days_of(None), strict=True)
        return [share_of_month(days, of) for days, of in pairs]

    def _times(self, per: ChargePer, season: str | None) -> list[Decimal]:
        """Return how many months or days of a season each month has."""
        if per == "month":
            return self._shares(season)
        return [Decimal(days) for days in self.days_of(season)]

    def _ends(self, tiers: Sequence[Tier], place: str, per: ChargePer | None, season: str | None) -> TierEnds:
        """Return where tiers end that stand at a place of the tariff."""
        stated = [
            None if tier.up_to_kwh is None else StatedEnd(tier.up_to_kwh, f"{place}/{at}/up_to_kwh")
            for at, tier in enumerate(tiers)
        ]
        return self._tier_ends(stated, season, is_daily=per == "day")

    def _credited(self, credit: BillCredit, at: int) -> TierEnds:
        """Return where a credit for energy ends."""
        if credit.up_to_kwh is None:
            return OPEN
        stated = StatedEnd(credit.up_to_kwh, f"/credits/{at}/up_to_kwh")
        return self._tier_ends([stated], credit.season, is_daily=False)

    def _tier_ends(self, stated: list[StatedEnd | None], season: str | None, *, is_daily: bool) -> TierEnds:
        days = list(zip(self.days_of(season), self.days_of(None), strict=True))
        ends: list[Ends] = [
            [None if end is None else allowance_kwh(end.up_to_kwh, is_daily, counted, of) for end in stated]
            for counted, of in days
        ]
        return TierEnds(ends, stated, is_daily, days)
