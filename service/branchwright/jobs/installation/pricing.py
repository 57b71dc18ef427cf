"""Prices what was taken off: needs of one key become one line, with its hours and amounts."""

from collections.abc import Sequence
from decimal import Decimal

from branchwright.findings import StepInput
from branchwright.jobs.installation.answers import EstimateLine, HoursRange, MoneyRange
from branchwright.jobs.installation.job import Job, Need
from branchwright.jobs.installation.lines import (
    ENDS,
    MEASURES,
    TIE,
    End,
    PricedLine,
    as_decimal,
    line_of,
    product,
    quantity_of,
    range_of,
)
from branchwright.jobs.installation.price_facts import Condition, ConditionFactor, Task
from branchwright.jobs.installation.sources import Sources
from branchwright.jobs.installation.units import usual_unit
from branchwright.quantities.money import total


class Pricing:
    """Turns needs into lines, and keeps account of what has no price or no hours."""

    def __init__(self, job: Job, sources: Sources) -> None:
        """Price everything: material, then small parts, then labour, then fees."""
        self.job = job
        self.sources = sources
        self.lines: list[PricedLine] = []
        self.unpriced: list[str] = []
        gathered: dict[tuple[object, ...], list[Need]] = {}
        for need in job.needs:
            kind = (need.group, need.key or need.item, need.condition, need.finish)
            gathered.setdefault(kind, []).append(need)
        for group in ("material", "labour", "fee"):
            for needs in gathered.values():
                if needs[0].group == group:
                    self.lines.append(self._labour(needs) if group == "labour" else self._bought(needs))
            if group == "material":
                self._consumables()

    @property
    def _step(self) -> str:
        return f"line-{len(self.lines)}"

    def _bought(self, needs: Sequence[Need]) -> PricedLine:
        """Return a line of material or fees."""
        key = needs[0].key
        price = self.sources.price(key) if key is not None else None
        priced, quantity = self._opened(needs, price.unit if price else None)
        if price is None:
            return self._without(priced, key)
        unit = f"{self.sources.money}/{price.unit}"
        prices = MoneyRange(price.low, price.likely, price.high)
        origin = f"price-book:{key}"
        self._priced(priced, "quantity", dict.fromkeys(ENDS, quantity), prices, unit, origin)
        return priced

    def _labour(self, needs: Sequence[Need]) -> PricedLine:
        """Return a line of labour: hours as far as they are known, and what they are charged at."""
        key, condition = needs[0].key, needs[0].condition
        task = self.sources.task(key) if key is not None else None
        priced, quantity = self._opened(needs, task.unit if task else None)
        if task is None:
            return self._without(priced, key)
        factor = None
        if condition is not None and self.sources.table.condition_factors is not None:
            factor = self.sources.factor(condition)
            if factor is None:
                return self._without(priced, f"condition_factors/{condition}")
        hours: dict[End, StepInput] = {
            end: self._hours(priced, quantity, task, condition, factor, end) for end in ENDS
        }
        priced.hours = hours
        priced.line.hours = HoursRange(*(float(hours[end].value) for end in ENDS))
        if not self.sources.rate_is_usable:
            return self._without(priced, "hourly_rate")
        rate = self.sources.table.hourly_rate
        rates = MoneyRange(rate.low, rate.likely, rate.high)
        self._priced(priced, "hours", hours, rates, f"{self.sources.money}/h", "labour:hourly_rate")
        return priced

    def _opened(self, needs: Sequence[Need], unit: str | None) -> tuple[PricedLine, StepInput]:
        """Return a line with its quantity, which is in the unit of its price, or in the usual one."""
        first = needs[0]
        unit = unit or usual_unit(
            MEASURES[first.finish], sticks=first.finish == "sticks", road=first.amount.unit
        )
        quantity = quantity_of(self.job, self._step, needs, unit)
        return PricedLine(line_of(needs, quantity, unit), self._step), quantity

    def _without(self, priced: PricedLine, key: str | None) -> PricedLine:
        """Enter that a line lacks the entry of a key, or that a missing fact leaves its key open."""
        missing = key or priced.line.item
        if missing not in self.unpriced:
            self.unpriced.append(missing)
        return priced

    def _hours(
        self,
        priced: PricedLine,
        quantity: StepInput,
        task: Task,
        condition: Condition | None,
        factor: ConditionFactor | None,
        end: End,
    ) -> StepInput:
        each = float(getattr(task, f"hours_{end}"))
        inputs = {
            "quantity": quantity,
            "hours": StepInput(each, "h", f"labour:{priced.line.key}/hours_{end}"),
        }
        value, expression = float(quantity.value) * each, "quantity * hours"
        if factor is not None:
            times = float(getattr(factor, end))
            inputs["factor"] = StepInput(times, "1", f"labour:condition_factors/{condition}/{end}")
            value, expression = value * times, expression + " * factor"
        expression = f"round({expression}, 2)"
        name = f"{priced.step}-hours-{end}"
        return self.job.ledger.work_out(name, f"hours, {end}", expression, inputs, round(value, 2), "h", None)

    def _priced(
        self,
        priced: PricedLine,
        word: str,
        figures: dict[End, StepInput],
        prices: MoneyRange,
        unit: str,
        origin: str,
    ) -> None:
        """Enter unit price and amounts of a line: a quantity, or hours, by a price each."""
        priced.line.unit_price = prices
        amounts: dict[End, Decimal] = {}
        for end in ENDS:
            figure, price = figures[end], getattr(prices, end)
            amounts[end] = product(as_decimal(float(figure.value)), price, self.sources.digits)
            inputs = {word: figure, "price": StepInput(float(price), unit, f"{origin}/{end}")}
            self._amount(priced, end, f"{word} * price", inputs, amounts[end])
        priced.line.amount = range_of(amounts)

    def _amount(
        self, priced: PricedLine, end: End, expression: str, inputs: dict[str, StepInput], amount: Decimal
    ) -> None:
        priced.amounts[end] = self.job.ledger.work_out(
            f"{priced.step}-{end}",
            f"amount, {end}",
            f"round({expression} + {TIE}, {self.sources.digits})",
            inputs,
            float(amount),
            self.sources.money,
            None,
        )

    def _consumables(self) -> None:
        """Enter small parts as a percentage of the material that has a price, save a charger."""
        percent = self.job.percent("consumables")
        bearing = [priced for priced in self.lines if priced.bears_consumables and priced.amounts]
        if not bearing or not percent.value:
            return
        line = EstimateLine(
            item="small parts",
            group="material",
            key=None,
            quantity=float(percent.value),
            unit="%",
            why="in percent of the material save a charger",
            hours=None,
            unit_price=None,
            amount=None,
            rests_on=[percent.origin] if percent.origin.startswith("request:") else [],
        )
        priced = PricedLine(line, self._step)
        amounts: dict[End, Decimal] = {}
        share = as_decimal(float(percent.value)).scaleb(-2)
        for end in ENDS:
            base = total(getattr(one.line.amount, end) for one in bearing)
            amounts[end] = product(share, base, self.sources.digits)
            parts = [one.amounts[end] for one in bearing]
            name = f"{priced.step}-base-{end}"
            summed = self.job.total(name, f"material for small parts, {end}", parts, self.sources.money)
            self._amount(
                priced, end, "percent / 100 * base", {"percent": percent, "base": summed}, amounts[end]
            )
        line.amount = range_of(amounts)
        self.lines.append(priced)
