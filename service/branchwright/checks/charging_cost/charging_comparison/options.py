"""The options of an answer: what may be compared, priced, ranked, and laid out with their bills."""

from dataclasses import dataclass
from decimal import Decimal
from typing import Final

import numpy as np

from branchwright.calculations.energy_bill import billed_quantity
from branchwright.checks.charging_cost.charging_comparison.answers import (
    ComparedOption,
    ComparedSchedule,
    DistanceCost,
    NotOffered,
    ScheduleWindow,
    YearCost,
)
from branchwright.checks.charging_cost.charging_comparison.bill_answers import (
    Account,
    ComparedLine,
    ComparedMonth,
)
from branchwright.checks.charging_cost.charging_comparison.facts import SolarSurplusFirst
from branchwright.checks.charging_cost.charging_comparison.given import Given, may_serve
from branchwright.checks.charging_cost.charging_comparison.pricing import Choice, Priced, Pricer
from branchwright.checks.charging_cost.tariffs.bills import BillLine
from branchwright.quantities.money import rounded

DECIMALS: Final = 6
NOTHING_KWH: Final = 1e-6
"""Energy that counts as none in an answer: the last digit that it shows."""

RATE_DIGITS: Final = 6


@dataclass(slots=True, frozen=True)
class Offers:
    """What may be compared, in the order of the request, and what may not."""

    choices: list[Choice]
    not_offered: list[NotOffered]


def offers_of(given: Given) -> Offers:
    """Return the combinations that the tariffs and schedules allow."""
    request = given.request
    found = Offers([], [])
    for place, tariff in enumerate(request.tariffs):
        for arrangement in given.arrangements:
            if not may_serve(tariff, arrangement):
                why = (
                    f"The tariff states the meters that it may serve: {', '.join(tariff.arrangements or ())}."
                )
                found.not_offered.append(NotOffered(tariff.name, arrangement, why))
                continue
            for number, schedule in enumerate(request.schedules):
                why = ""
                if isinstance(schedule, SolarSurplusFirst):
                    if not given.has_generation:
                        why = f"Schedule {number} takes a surplus first, and no generation is stated."
                    elif arrangement != "whole-house":
                        why = f"Schedule {number} takes a surplus first, which lies behind the house's meter."
                if why:
                    found.not_offered.append(NotOffered(tariff.name, arrangement, why))
                else:
                    found.choices.append(Choice(place, arrangement, number))
    return found


class Options:
    """The choices of a comparison, priced and ranked."""

    def __init__(self, pricer: Pricer, choices: list[Choice]) -> None:
        """Price every choice."""
        self._pricer = pricer
        self._given = pricer.given
        priced = [pricer.price(choice) for choice in choices]
        self.ranked: list[Priced] = sorted(
            priced, key=lambda each: (each.delivery.unmet_kwh > NOTHING_KWH, each.total)
        )
        """Those that meet the need first, then the cheapest; of equals in the order of the request."""

    def rank_of(self, choice: Choice) -> int | None:
        """Return the rank of a choice, from 1; None where it was not priced."""
        return next((rank for rank, each in enumerate(self.ranked, 1) if each.choice == choice), None)

    def listed(self) -> list[ComparedOption]:
        """Return the options of the answer."""
        return [self._option(rank, priced) for rank, priced in enumerate(self.ranked, 1)]

    def _option(self, rank: int, priced: Priced) -> ComparedOption:
        request, delivery, choice = self._given.request, priced.delivery, priced.choice
        schedule = request.schedules[choice.schedule]
        annual = self._annual(priced)
        charged = billed_quantity(float(delivery.charged.sum()))
        bill = priced.vehicle or priced.house
        return ComparedOption(
            rank=rank,
            tariff=request.tariffs[choice.tariff].name,
            arrangement=choice.arrangement,
            schedule=ComparedSchedule(choice.schedule, schedule.kind, schedule.name),
            annual=annual,
            months=months_of(priced),
            per_kwh=rounded(annual.charging / charged, RATE_DIGITS) if charged else None,
            per_distance=self._per_distance(annual.charging, priced),
            charged_kwh=float(charged),
            greatest_demand_kw=round(bill.greatest_demand_kw, DECIMALS) if bill else 0.0,
            unmet_kwh=_shown(delivery.unmet_kwh),
            nights_unmet=int(np.count_nonzero(delivery.owed + delivery.lost > NOTHING_KWH)),
            least_cost_basis=priced.least_cost_basis,
        )

    def _annual(self, priced: Priced) -> YearCost:
        present, choice = self._pricer.present, priced.choice
        nothing = rounded(Decimal(0), self._pricer.digits)
        without = nothing if present is None else present.total
        repriced = nothing
        if choice.arrangement == "whole-house":
            repriced = self._pricer.house_alone(choice.tariff).total - without
        return YearCost(priced.total, without, priced.total - without, repriced)

    def _per_distance(self, cost: Decimal, priced: Priced) -> DistanceCost | None:
        """Return the cost of a distance unit that was charged for."""
        unit = self._given.need.distance_unit
        distance, needed = self._given.distance_per_year, float(self._given.needed_kwh.sum())
        charged = float(priced.delivery.charged.sum())
        if unit is None or not distance or needed <= 0 or charged <= NOTHING_KWH:
            return None
        driven = billed_quantity(distance * charged / needed)
        if not driven:
            return None
        return DistanceCost(rounded(cost / driven, RATE_DIGITS), unit)


def windows_of(pricer: Pricer) -> list[ScheduleWindow]:
    """Return for each schedule whether its hours bring what is needed."""
    given = pricer.given
    found: list[ScheduleWindow] = []
    needs = given.needed_kwh > 0
    for place, worst in enumerate(given.worst_days):
        delivery = pricer.nights(place).delivery
        met = needs & (delivery.owed + delivery.lost <= NOTHING_KWH)
        found.append(
            ScheduleWindow(
                schedule=place,
                nights=int(needs.sum()),
                nights_met=int(met.sum()),
                unmet_kwh=_shown(delivery.unmet_kwh),
                worst_day=worst,
            )
        )
    return found


def months_of(priced: Priced) -> list[ComparedMonth]:
    """Return the bills of an option month by month, those of the house's meter first."""
    months = priced.house or priced.vehicle
    names = [] if months is None else [each.month for each in months.months]
    return [ComparedMonth(name, lines_of(priced, at), total_of(priced, at)) for at, name in enumerate(names)]


def lines_of(priced: Priced, month: int) -> list[ComparedLine]:
    """Return the lines of one month, 0 to 11."""
    return [compared(account, line) for account, line in bill_lines(priced, month)]


def bill_lines(priced: Priced, month: int) -> list[tuple[Account, BillLine]]:
    """Return the lines of one month with the account that they stand on."""
    found: list[tuple[Account, BillLine]] = []
    if priced.house is not None:
        found.extend(("house", line) for line in priced.house.months[month].lines)
    if priced.vehicle is not None:
        found.extend(("charging", line) for line in priced.vehicle.months[month].lines)
    return found


def total_of(priced: Priced, month: int) -> Decimal:
    """Return what one month comes to, all accounts together."""
    return sum((bill.months[month].total for bill in (priced.house, priced.vehicle) if bill), Decimal(0))


def compared(account: Account, line: BillLine) -> ComparedLine:
    """Return a line as the answer shows it."""
    return ComparedLine(
        account,
        line.kind,
        line.name,
        line.season,
        line.period,
        line.tier,
        line.quantity,
        line.unit,
        line.rate,
        line.amount,
    )


def _shown(energy_kwh: float) -> float:
    return 0.0 if energy_kwh <= NOTHING_KWH else round(energy_kwh, DECIMALS)
