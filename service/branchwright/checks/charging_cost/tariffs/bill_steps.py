"""Writes the steps of one month's bill, from the energy of each date to the total.

A reader with a pencil can replay each. Before money is rounded, the product is rounded to the ninth digit of the
smallest coin: what is beyond comes from the binary fractions of the reader's own machine.
"""

from collections.abc import Iterable
from decimal import Decimal

from branchwright.checks.charging_cost.tariffs.bills import BilledKind, BillLine, MonthBill
from branchwright.checks.charging_cost.tariffs.charges import (
    Charge,
    Demand,
    EnergyCharge,
    Minimum,
    Percentage,
)
from branchwright.checks.charging_cost.tariffs.priced import PricedTariff
from branchwright.checks.charging_cost.tariffs.quantity_steps import BillPlaces, QuantitySteps
from branchwright.checks.charging_cost.tariffs.worked_month import WorkedMonth
from branchwright.findings import StepInput
from branchwright.quantities.money import Half
from branchwright.questions.ledger import StepLedger, stated

CREDITED: tuple[BilledKind, ...] = ("export", "credit")
"""What a tariff states as a positive price and a bill takes off."""


def rounded_expression(product: str, digits: int, half: Half, *, is_negative: bool) -> str:
    """Return the expression that rounds a product of at least nothing to so many digits; a minus is put before it.

    >>> rounded_expression("quantity * rate", 2, "up", is_negative=False)
    'floor(round(quantity * rate * 100, 9) + 0.5) / 100'
    >>> rounded_expression("quantity * rate", 0, "even", is_negative=True)
    '-round(round(quantity * rate, 9), 0)'
    """
    scaled = f"{product} * {10**digits}" if digits else product
    whole = f"floor(round({scaled}, 9) + 0.5)" if half == "up" else f"round(round({scaled}, 9), 0)"
    return f"{'-' if is_negative else ''}{whole}{f' / {10**digits}' if digits else ''}"


class BillSteps:
    """Writes the steps of one bill into a ledger."""

    def __init__(
        self,
        ledger: StepLedger,
        priced: PricedTariff,
        worked: WorkedMonth,
        bill: MonthBill,
        places: BillPlaces,
    ) -> None:
        """Take the bill, what it rests on, and where both stand."""
        self._ledger = ledger
        self._bill = bill
        self._places = places
        self._month = worked.month
        self._billing = priced.billing
        self._quantities = QuantitySteps(ledger, priced, worked, places)
        self._charges = _charges_by_place(priced.billing.charges)
        self._amounts: list[tuple[BillLine, StepInput]] = []

    def write(self) -> StepInput:
        """Write all steps and return the total as an input of later ones."""
        for number, line in enumerate(self._bill.lines):
            self._amounts.append((line, self._line(number, line)))
        inputs = {f"line_{number + 1}": amount for number, (_, amount) in enumerate(self._amounts)}
        lines = f"({' + '.join(inputs) or 0})"
        return self._money("total", "total of the bill", lines, inputs, self._bill.total, is_rounded=True)

    def _line(self, number: int, line: BillLine) -> StepInput:
        """Write the steps of one line, and return its amount."""
        charge, tier = self._charges.get(line.place, (None, 0))
        name = f"line-{number + 1}"
        quantity = f"{line.kind}: {line.name}"
        if isinstance(charge, Minimum):
            expression, inputs = self._missing(charge)
        elif isinstance(charge, Percentage):
            expression = "base * percent / 100"
            base = self._base(name, charge, line)
            inputs = {"base": base, "percent": self._rate(line, "%")}
        elif isinstance(charge, (EnergyCharge, Demand)):
            unit = f"{self._billing.currency}/{line.unit}"
            expression = "quantity * rate"
            inputs = {
                "quantity": self._quantities.energy(name, charge, tier, line)
                if isinstance(charge, EnergyCharge)
                else self._quantities.demand(name, charge, line),
                "rate": self._rate(line, unit),
            }
        else:
            expression = "amount" if line.quantity == 1 else f"{line.quantity:f} * amount"
            inputs = {"amount": self._rate(line, self._billing.currency)}
        return self._money(
            name,
            quantity,
            expression,
            inputs,
            line.amount,
            is_rounded=self._billing.rounds_lines,
            is_credited=line.kind in CREDITED,
        )

    def _rate(self, line: BillLine, unit: str) -> StepInput:
        """Return a line's price as the request states it: what is credited stands there as a positive amount."""
        value = abs(line.rate) if line.kind in CREDITED else line.rate
        pointer = self._places.tariff + line.place if line.place else self._places.meter_charge
        return stated(float(value), unit, pointer)

    def _base(self, name: str, charge: Percentage, line: BillLine) -> StepInput:
        """Write what a percentage is taken of."""
        lines, inputs = self._lines_of(charge.of)
        expression = f"({lines})"
        share = charge.share[self._month]
        if share != 1:
            expression += f" * {share:f}"
        return self._ledger.work_out(
            f"{self._places.prefix}{name}-base",
            f"what {line.name} is taken of",
            expression,
            inputs,
            float(line.quantity),
            self._billing.currency,
            None,
        )

    def _missing(self, charge: Minimum) -> tuple[str, dict[str, StepInput]]:
        """Return the expression of what is missing to a minimum, and its inputs."""
        lines, inputs = self._lines_of(charge.of)
        least = stated(float(charge.amount), self._billing.currency, self._places.tariff + charge.place)
        times = charge.quantity[self._month]
        expression = "least" if times == 1 else f"{times:f} * least"
        if inputs:
            expression = f"({expression} - ({lines}))"
        return expression, {"least": least, **inputs}

    def _lines_of(self, kinds: Iterable[BilledKind] | None) -> tuple[str, dict[str, StepInput]]:
        """Return the sum of the lines of some kinds, of all but taxes where none are named, and its inputs."""
        inputs = {
            f"line_{number + 1}": amount
            for number, (line, amount) in enumerate(self._amounts)
            if (line.kind != "tax" if kinds is None else line.kind in kinds)
        }
        return " + ".join(inputs), inputs

    def _money(
        self,
        name: str,
        quantity: str,
        product: str,
        inputs: dict[str, StepInput],
        amount: Decimal,
        *,
        is_rounded: bool,
        is_credited: bool = False,
    ) -> StepInput:
        """Write an amount of money, rounded as the tariff says; of what is credited the product is taken off."""
        billing = self._billing
        if amount < 0 and not is_credited:
            product = f"-({product})"
        expression = f"-{product}" if is_credited else product
        if is_rounded:
            expression = rounded_expression(product, billing.digits, billing.half, is_negative=amount < 0)
        elif amount < 0 and not is_credited:
            expression = product.removeprefix("-")
        return self._ledger.work_out(
            self._places.prefix + name, quantity, expression, inputs, float(amount), billing.currency, None
        )


def _charges_by_place(charges: Iterable[Charge]) -> dict[str, tuple[Charge, int]]:
    """Return each charge, and which of its tiers, by where its price stands in the tariff."""
    found: dict[str, tuple[Charge, int]] = {}
    for charge in charges:
        if isinstance(charge, EnergyCharge):
            found |= {place: (charge, tier) for tier, place in enumerate(charge.places)}
        else:
            found[charge.place] = (charge, 0)
    return found
