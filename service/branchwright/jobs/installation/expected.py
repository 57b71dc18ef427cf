"""The expected total: the mean of every distribution in a closed formula, which steps can replay."""

from decimal import Decimal

from branchwright.findings import StepInput
from branchwright.jobs.installation.job import Job
from branchwright.jobs.installation.lines import ENDS, TIE, End
from branchwright.jobs.installation.sources import Sources
from branchwright.jobs.installation.sums import GROUPS, Sums
from branchwright.quantities.money import rounded
from branchwright.questions.ledger import stated

THIRD = "(low + likely + high) / 3"
"""Mean of a triangular distribution, and by the same formula of a sum of them."""


class Expected:
    """The means of the groups and what they come to. Hours and rate are independent, so their means multiply."""

    def __init__(self, job: Job, sources: Sources, sums: Sums) -> None:
        """Take what was summed."""
        self._job = job
        self._sources = sources
        self._sums = sums

    def total(self) -> Decimal:
        """Return the expected total, rounded."""
        means = {
            name: mean for name in ("material", "fees") if (mean := self._third(name, self._sources.money))
        }
        hours = self._third("hours", "h")
        if hours is not None and self._sources.rate_is_usable:
            means["labour"] = self._labour(hours)
        groups = dict(means)
        markup = self._share("markup", self._sums.markup_percent, "/markup_percent", groups)
        if markup is not None:
            means["markup"] = markup
        taxed = {name: means[name] for one in self._sums.taxed if (name := GROUPS.get(one, one)) in means}
        tax = self._share("tax", self._sums.tax_percent, "/tax/percent", taxed)
        if tax is not None:
            means["tax"] = tax
        digits = self._sources.digits
        value = round(sum(float(mean.value) for mean in means.values()) + float(TIE), digits)
        parts = " + ".join(means) or "0"
        expression = f"round({parts} + {TIE}, {digits})"
        self._work_out("mean-total", "expected total", expression, means, float(value), self._sources.money)
        return rounded(Decimal(repr(float(value))), digits)

    def _third(self, name: str, unit: str) -> StepInput | None:
        ends = self._sums.inputs(name)
        if ends is None:
            return None
        low, likely, high = (float(ends[end].value) for end in ENDS)
        inputs: dict[str, StepInput] = {str(end): ends[end] for end in ENDS}
        return self._work_out(
            f"mean-{name}", f"expected {name}", THIRD, inputs, (low + likely + high) / 3, unit
        )

    def _labour(self, hours: StepInput) -> StepInput:
        rate = self._sources.table.hourly_rate
        unit = f"{self._sources.money}/h"
        ends: dict[End, Decimal] = {"low": rate.low, "likely": rate.likely, "high": rate.high}
        inputs = {
            str(end): StepInput(float(price), unit, f"labour:hourly_rate/{end}")
            for end, price in ends.items()
        }
        low, likely, high = (float(ends[end]) for end in ENDS)
        value = float(hours.value) * (low + likely + high) / 3
        inputs["hours"] = hours
        return self._work_out(
            "mean-labour", "expected labour", f"hours * {THIRD}", inputs, value, self._sources.money
        )

    def _share(self, name: str, percent: float, pointer: str, of: dict[str, StepInput]) -> StepInput | None:
        """Return a percentage of some means; None where it is none."""
        if not percent or not of:
            return None
        value = percent / 100 * sum(float(part.value) for part in of.values())
        inputs = {**of, "percent": stated(percent, "%", self._job.facts_at + pointer)}
        expression = f"percent / 100 * ({' + '.join(of)})"
        return self._work_out(
            f"mean-{name}", f"expected {name}", expression, inputs, value, self._sources.money
        )

    def _work_out(
        self,
        step_id: str,
        quantity: str,
        expression: str,
        inputs: dict[str, StepInput],
        value: float,
        unit: str,
    ) -> StepInput:
        return self._job.ledger.work_out(step_id, quantity, expression, inputs, value, unit, None)
