"""Makes bills of what a load took: decimal from here on, and rounded where the tariff says so."""

from collections.abc import Iterator
from decimal import Decimal, localcontext

import numpy as np

from branchwright.calculations.arrays import Floats
from branchwright.calculations.energy_bill import NOTHING, billed_quantity, ratcheted_kw, tier_quantities
from branchwright.checks.charging_cost.tariffs.bills import BilledKind, BillLine, MonthBill, YearBill
from branchwright.checks.charging_cost.tariffs.charges import (
    HUNDRED,
    Charge,
    Demand,
    EnergyCharge,
    Minimum,
    Percentage,
    StatedSum,
)
from branchwright.checks.charging_cost.tariffs.facts import Tariff
from branchwright.checks.charging_cost.tariffs.local_year import MONTHS
from branchwright.checks.charging_cost.tariffs.usage import Usage
from branchwright.quantities.money import Half, minor_digits, rounded, total

ENOUGH_DIGITS = 80
"""Digits that hold the product of any quantity and price of a request."""

USUAL_DIGITS = 2
METER_CHARGE = "separate meter"


class Billing:
    """Makes the bills of one tariff over one year; the charges are laid out once."""

    def __init__(self, tariff: Tariff, months: list[str], charges: list[Charge]) -> None:
        """Take the charges, in the order of the bill."""
        self.charges = charges
        self.months = months
        self.currency = tariff.currency
        digits = minor_digits(tariff.currency)
        self.digits = USUAL_DIGITS if digits is None else digits
        rounding = tariff.rounding
        self.rounds_lines = rounding is None or rounding.line is not False
        self.half: Half = "up" if rounding is None or rounding.half is None else rounding.half
        self._energies = [each for each in charges if isinstance(each, EnergyCharge)]
        self._marks = np.array([each.classes for each in self._energies], dtype=np.float64)

    def year(self, usage: Usage, arrangement: str, extra_monthly: Decimal | None) -> YearBill:
        """Return the bills of a year."""
        energies = self._energies_kwh(usage)
        demands = self.billed_kw(usage)
        with localcontext(prec=ENOUGH_DIGITS):
            months = [
                self._month(at, iter(energies[at]), iter(demands[at]), arrangement, extra_monthly)
                for at in range(MONTHS)
            ]
            return YearBill(months, total(each.total for each in months), usage.greatest_kw)

    def _energies_kwh(self, usage: Usage) -> list[list[float]]:
        """Return the energy of each energy charge in each month, in the order of the charges."""
        if not self._energies:
            return [[]] * MONTHS
        taken, delivered = usage.taken_kwh @ self._marks.T, usage.delivered_kwh @ self._marks.T
        columns: list[Floats] = []
        for at, charge in enumerate(self._energies):
            if charge.group is not None:
                columns.append(usage.added_kwh[:, charge.group])
            else:
                columns.append((taken if charge.of == "taken" else delivered)[:, at])
        found: list[list[float]] = np.array(columns).T.tolist()
        return found

    def billed_kw(self, usage: Usage) -> list[list[float]]:
        """Return the demand that each demand charge bills in each month, before a part of the month is taken of it."""
        columns: list[Floats] = []
        demands = [each for each in self.charges if isinstance(each, Demand)]
        for at, demand in enumerate(demands):
            measured, ratchet = usage.demand_kw[:, at], demand.charge.ratchet
            if ratchet is not None:
                measured = ratcheted_kw(measured, ratchet.percent, ratchet.months)
            columns.append(np.maximum(measured, demand.charge.least_kw or 0.0))
        found: list[list[float]] = np.array(columns, dtype=np.float64).reshape(-1, MONTHS).T.tolist()
        return found

    def _month(
        self,
        month: int,
        energies: Iterator[float],
        demands: Iterator[float],
        arrangement: str,
        extra_monthly: Decimal | None,
    ) -> MonthBill:
        lines: list[BillLine] = []
        for charge in self.charges:
            if isinstance(charge, EnergyCharge):
                lines += self._energy(charge, month, next(energies))
            elif isinstance(charge, Demand):
                lines += self._demand(charge, month, next(demands))
            elif isinstance(charge, StatedSum):
                if charge.arrangements is None or arrangement in charge.arrangements:
                    lines += self._sum(charge, month)
            elif isinstance(charge, Percentage):
                lines += self._percentage(charge, month, lines)
            else:
                lines += self._minimum(charge, month, lines)
        if extra_monthly is not None:
            lines.append(
                self._line("meter", METER_CHARGE, None, None, None, Decimal(1), "month", extra_monthly, "")
            )
        return MonthBill(self.months[month], lines, self._rounded(total(each.amount for each in lines)))

    def _energy(self, charge: EnergyCharge, month: int, energy_kwh: float) -> Iterator[BillLine]:
        quantity = billed_quantity(energy_kwh)
        if not quantity:
            return
        has_tiers = len(charge.rates) > 1
        for tier, part in enumerate(tier_quantities(quantity, charge.ends.of_month[month])):
            if part:
                yield self._line(
                    charge.kind,
                    charge.name,
                    charge.season,
                    charge.period,
                    tier if has_tiers else None,
                    part,
                    "kWh",
                    charge.rates[tier],
                    charge.places[tier],
                )

    def _demand(self, demand: Demand, month: int, billed_kw: float) -> Iterator[BillLine]:
        charge = demand.charge
        quantity = billed_quantity(billed_kw * float(demand.share[month]))
        if quantity:
            yield self._line(
                "demand",
                charge.name,
                charge.season,
                charge.period,
                None,
                quantity,
                "kW",
                charge.per_kw,
                demand.place,
            )

    def _sum(self, charge: StatedSum, month: int) -> Iterator[BillLine]:
        quantity = charge.quantity[month]
        if quantity:
            yield self._line(
                charge.kind,
                charge.name,
                charge.season,
                None,
                None,
                quantity,
                charge.unit,
                charge.rate,
                charge.place,
            )

    def _percentage(self, charge: Percentage, month: int, lines: list[BillLine]) -> Iterator[BillLine]:
        """Yield a percentage of the lines so far; a tax is nothing where these come to less than nothing."""
        base = self._sum_of(lines, charge.of) * charge.share[month]
        if charge.kind == "tax":
            base = max(base, NOTHING)
        if base:
            yield self._line(
                charge.kind,
                charge.name,
                charge.season,
                None,
                None,
                base,
                self.currency,
                charge.percent,
                charge.place,
            )

    def _minimum(self, charge: Minimum, month: int, lines: list[BillLine]) -> Iterator[BillLine]:
        """Yield what is missing to the minimum, if anything is."""
        missing = charge.amount * charge.quantity[month] - self._sum_of(lines, charge.of)
        if missing > 0:
            yield self._line(
                "minimum-bill",
                "minimum bill",
                None,
                None,
                None,
                Decimal(1),
                charge.unit,
                missing,
                charge.place,
            )

    @staticmethod
    def _sum_of(lines: list[BillLine], kinds: frozenset[BilledKind] | None) -> Decimal:
        """Return the sum of the lines of some kinds; a tax is taken of no other tax."""
        wanted = [line for line in lines if (line.kind != "tax" if kinds is None else line.kind in kinds)]
        return total(line.amount for line in wanted)

    def _line(
        self,
        kind: BilledKind,
        name: str,
        season: str | None,
        period: str | None,
        tier: int | None,
        quantity: Decimal,
        unit: str,
        rate: Decimal,
        place: str,
    ) -> BillLine:
        amount = quantity * rate
        if unit == self.currency:
            amount /= HUNDRED
        if self.rounds_lines:
            amount = self._rounded(amount)
        return BillLine(kind, name, season, period, tier, quantity, unit, rate, amount, place)

    def _rounded(self, amount: Decimal) -> Decimal:
        money = rounded(amount, self.digits, self.half)
        # No bill says -0.00.
        return money if money else abs(money)
