"""Sums of an estimate: groups, markup, tax and total, each rounded once and made of the figures that are shown."""

from collections.abc import Sequence
from decimal import Decimal

from branchwright.findings import StepInput
from branchwright.jobs.installation.answers import EstimateTotals, HoursRange
from branchwright.jobs.installation.job import Job
from branchwright.jobs.installation.lines import ENDS, TIE, End, PricedLine, as_decimal, product, range_of
from branchwright.jobs.installation.sources import Sources
from branchwright.quantities.money import rounded, total
from branchwright.questions.ledger import stated

GROUPS = {"material": "material", "labour": "labour", "fee": "fees"}
"""Each group of lines and its name among the totals."""


class Sums:
    """The totals of priced lines, with their working."""

    def __init__(self, job: Job, sources: Sources, lines: Sequence[PricedLine]) -> None:
        """Sum the groups, then put markup and tax on them."""
        self._job = job
        self._sources = sources
        self._lines = lines
        self._figures: dict[str, dict[End, Decimal]] = {
            name: {} for name in (*GROUPS.values(), "markup", "tax", "total")
        }
        self._inputs: dict[tuple[str, End], StepInput] = {}
        self.hours = self._hours()
        self.markup_percent = job.facts.markup_percent or 0.0
        tax = job.facts.tax
        self.tax_percent = tax.percent if tax else 0.0
        self.taxed = tuple(dict.fromkeys(tax.on)) if tax else ()
        for end in ENDS:
            for group, name in GROUPS.items():
                self._sum_of_lines(end, group, name)
            self._share(end, "markup", self.markup_percent, "/markup_percent", list(GROUPS.values()))
            self._share(
                end, "tax", self.tax_percent, "/tax/percent", [GROUPS.get(one, one) for one in self.taxed]
            )
            self._add_up(end)

    def amount(self, name: str, end: End) -> Decimal:
        """Return one of the totals."""
        return self._figures[name][end]

    def totals(self, *, is_complete: bool) -> EstimateTotals:
        """Return the totals as the answer shows them."""
        shown = {name: range_of(figures) for name, figures in self._figures.items()}
        return EstimateTotals(**shown, is_complete=is_complete, currency=self._sources.currency)

    def inputs(self, name: str) -> dict[End, StepInput] | None:
        """Return one of the totals, or the hours, as inputs of steps; None where it has no steps."""
        found: dict[End, StepInput] = {
            end: self._inputs[name, end] for end in ENDS if (name, end) in self._inputs
        }
        return found or None

    def _hours(self) -> HoursRange | None:
        """Return the hours of all lines that have some."""
        known = [priced for priced in self._lines if priced.hours]
        if not known:
            return None
        found: list[float] = []
        for end in ENDS:
            parts = [priced.hours[end] for priced in known]
            # Hundredths add up exactly as decimals.
            hours = float(total(as_decimal(float(part.value)) for part in parts))
            self._inputs["hours", end] = self._enter(
                f"hours-{end}", f"hours of work, {end}", parts, hours, "h"
            )
            found.append(hours)
        return HoursRange(*found)

    def _sum_of_lines(self, end: End, group: str, name: str) -> None:
        own = [priced for priced in self._lines if priced.line.group == group and priced.amounts]
        # None at all is written with the digits of the currency too.
        figure = rounded(total(getattr(priced.line.amount, end) for priced in own), self._sources.digits)
        self._figures[name][end] = figure
        parts = [priced.amounts[end] for priced in own]
        self._inputs[name, end] = self._enter(
            f"{name}-{end}", f"{name}, {end}", parts, float(figure), self._sources.money
        )

    def _share(self, end: End, name: str, percent: float, pointer: str, of: list[str]) -> None:
        """Enter a percentage of some totals."""
        base = total(self._figures[part][end] for part in of)
        figure = product(as_decimal(percent).scaleb(-2), base, self._sources.digits)
        self._figures[name][end] = figure
        if not percent:
            return
        inputs = {part: self._inputs[part, end] for part in of if (part, end) in self._inputs}
        inputs["percent"] = stated(percent, "%", self._job.facts_at + pointer)
        parts = " + ".join(part for part in inputs if part != "percent") or "0"
        self._inputs[name, end] = self._job.ledger.work_out(
            f"{name}-{end}",
            f"{name}, {end}",
            f"round(percent / 100 * ({parts}) + {TIE}, {self._sources.digits})",
            inputs,
            float(figure),
            self._sources.money,
            None,
        )

    def _add_up(self, end: End) -> None:
        parts = [name for name in self._figures if name != "total"]
        figure = total(self._figures[name][end] for name in parts)
        self._figures["total"][end] = figure
        inputs = [self._inputs[name, end] for name in parts if (name, end) in self._inputs]
        self._enter(f"total-{end}", f"total, {end}", inputs, float(figure), self._sources.money)

    def _enter(
        self, step_id: str, quantity: str, parts: list[StepInput], value: float, unit: str
    ) -> StepInput:
        inputs = {f"part_{place}": part for place, part in enumerate(parts)}
        return self._job.ledger.work_out(
            step_id, quantity, " + ".join(inputs) or "0", inputs, value, unit, None
        )
