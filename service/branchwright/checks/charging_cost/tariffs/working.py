"""The working of a review: what the next kWh costs in the dearest hour, step by step."""

from typing import Literal

from branchwright.checks.charging_cost.tariffs.bills import BilledKind
from branchwright.checks.charging_cost.tariffs.charges import EnergyCharge, Percentage
from branchwright.checks.charging_cost.tariffs.next_kwh import NextKwh
from branchwright.checks.charging_cost.tariffs.priced import PricedTariff
from branchwright.findings import StepInput
from branchwright.questions.ledger import StepLedger, stated

BEFORE_TAX: tuple[BilledKind, ...] = ("energy", "all-energy", "critical-peak", "credit", "rider")


class Working(StepLedger):
    """The steps of a review."""

    def __init__(self, priced: PricedTariff, prices: NextKwh, prefix: str) -> None:
        """Open the working of a tariff that stands at a pointer of the request."""
        super().__init__()
        self._layout = priced.layout
        self._percentages = prices.percentages
        self._prefix = prefix
        self._unit = f"{priced.tariff.currency}/kWh"
        at = prices.dearest()
        self._hour = prices.at(at)
        self._when = f"{priced.year.clock(at):%Y-%m-%d %H:%M}"

    def dearest_hour(self) -> None:
        """Enter the price of the dearest hour: its rates, what is taken of them in percent, and the taxes."""
        rates = {kind: self._rates_of(kind) for kind in (*BEFORE_TAX, "tax")}
        known: dict[str, StepInput] = {kind: rate for kind, rate in rates.items() if rate is not None}
        tax = known.pop("tax", None)
        before = {kind.replace("-", "_"): rate for kind, rate in known.items()}
        for at, rider in enumerate(self._of_kind("rider")):
            before[f"rider_{at}"] = self._share_of(rider, known)
        price = self._sum("price-before-tax", f"price of a kWh at {self._when}, before taxes", before)
        parts = {"before_tax": price} if tax is None else {"before_tax": price, "tax": tax}
        for at, rider in enumerate(self._of_kind("tax")):
            of = known if rider.of else {"before-tax": price}
            parts[f"tax_{at}"] = self._share_of(rider, of)
        self._sum("dearest-hour", f"price of the next kWh at {self._when}, the dearest hour", parts)

    def _of_kind(self, kind: BilledKind) -> list[Percentage]:
        """Return the percentages of one kind that the month has days of."""
        return [each for each in self._percentages if each.kind == kind and each.share[self._hour.month]]

    def _rates_of(self, kind: BilledKind) -> StepInput | None:
        """Enter the sum of the prices per kWh of one kind of line; None where the hour has none."""
        charges = [charge for charge in self._hour.charges if charge.kind == kind]
        if not charges:
            return None
        names = ", ".join(dict.fromkeys(charge.name for charge in charges))
        return self._sum(
            f"{kind}-rate",
            f"{kind.replace('-', ' ')}, for each kWh: {names}",
            {f"rate_{at}": self._rate(charge) for at, charge in enumerate(charges)},
            sign="-" if kind == "credit" else "+",
        )

    def _rate(self, charge: EnergyCharge) -> StepInput:
        # A credit is stated above zero and taken off.
        rate = -charge.rates[0] if charge.kind == "credit" else charge.rates[0]
        return stated(float(rate), self._unit, self._prefix + charge.places[0])

    def _share_of(self, rider: Percentage, rates: dict[str, StepInput]) -> StepInput:
        """Enter what a percentage adds to a kWh; of a month that it holds in part, as many days as it does."""
        month = self._hour.month
        bases = {
            kind.replace("-", "_"): rate
            for kind, rate in rates.items()
            if rider.of is None or kind in rider.of
        }
        percent = stated(float(rider.percent), "%", self._prefix + rider.place)
        days, of_days = self._layout.days_of(rider.season)[month], self._layout.days_of(None)[month]
        part = "" if days == of_days else f" * {days} / {of_days}"
        base = sum(_number(rate) for rate in bases.values())
        return self.work_out(
            rider.place.removesuffix("/percent").strip("/").replace("/", "-"),
            f"{rider.name} on a kWh",
            f"({' + '.join(bases) or '0'}) * percent / 100{part}",
            {**bases, "percent": percent},
            base * _number(percent) / 100 * days / of_days,
            self._unit,
            None,
        )

    def _sum(
        self, step_id: str, quantity: str, parts: dict[str, StepInput], sign: Literal["+", "-"] = "+"
    ) -> StepInput:
        """Enter a sum; with a minus, that it is taken off."""
        expression = " + ".join(parts)
        value = sum(_number(part) for part in parts.values())
        return self.work_out(
            step_id,
            quantity,
            expression if sign == "+" else f"-({expression})",
            parts,
            value if sign == "+" else -value,
            self._unit,
            None,
        )


def _number(known: StepInput) -> float:
    """Return the number that an input is; those of this working are no names."""
    return float(known.value)
