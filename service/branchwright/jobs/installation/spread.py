"""Draws the total of an estimate again and again, so that its spread is seen."""

from collections.abc import Sequence
from decimal import Decimal
from typing import Final
from zlib import crc32

import numpy as np

from branchwright.calculations.arrays import Floats
from branchwright.calculations.triangular import triangular_quantiles
from branchwright.findings import StepInput
from branchwright.jobs.installation.answers import EstimateRisk
from branchwright.jobs.installation.facts import Risk
from branchwright.jobs.installation.job import Job
from branchwright.jobs.installation.lines import ENDS, End, PricedLine
from branchwright.jobs.installation.sources import Sources
from branchwright.jobs.installation.sums import GROUPS, Sums
from branchwright.quantities.money import rounded


def _figures(inputs: dict[End, StepInput]) -> tuple[float, float, float]:
    low, likely, high = (float(inputs[end].value) for end in ENDS)
    return low, likely, high


DEFAULT_SEED: Final = 1
DEFAULT_DRAWS: Final = 10_000
HOURS: Final = "hours"
METHOD: Final = (
    "Each draw takes a rank between 0 and 1 for each key of the price book, one for all hours of work and one for the "
    "hourly rate, and reads the triangular distribution of low, likely and high at it. A rank depends on seed and key "
    "alone (PCG64 of numpy {numpy}). The mean is that of the distributions."
)
"""Hours share a rank: one crew works on one site. Each price moves by itself."""


class Spread:
    """The draws of the total of priced lines."""

    def __init__(
        self, job: Job, sources: Sources, lines: Sequence[PricedLine], sums: Sums, risk: Risk | None
    ) -> None:
        """Take what is drawn and how often."""
        self._sources = sources
        self._lines = lines
        self._sums = sums
        self._consumables = float(job.percent("consumables").value) / 100
        self._ranks: dict[str, Floats] = {}
        self.seed = DEFAULT_SEED if risk is None or risk.seed is None else risk.seed
        self.draws = DEFAULT_DRAWS if risk is None or risk.draws is None else risk.draws

    def risk(self, mean: Decimal) -> EstimateRisk:
        """Return the percentiles of the draws beside the mean of the distributions."""
        p10, p50, p90 = (self._shown(float(value)) for value in np.quantile(self._totals(), (0.1, 0.5, 0.9)))
        method = METHOD.format(numpy=np.__version__)
        return EstimateRisk(self.seed, self.draws, p10, p50, p90, mean, method)

    def _shown(self, amount: float) -> Decimal:
        """Return an amount rounded, and within the totals: lines are rounded before they are added, draws are not."""
        figure = rounded(Decimal(repr(amount)), self._sources.digits)
        return min(max(figure, self._sums.amount("total", "low")), self._sums.amount("total", "high"))

    def _drawn(self, name: str, low: float, likely: float, high: float) -> Floats:
        """Return the figures of something at its own ranks, shape (draws,)."""
        ranks = self._ranks.get(name)
        if ranks is None:
            ranks = np.random.default_rng([self.seed, crc32(name.encode())]).random(self.draws)
            # Hours are asked for again and again, a price once.
            if name == HOURS:
                self._ranks[name] = ranks
        return triangular_quantiles(low, likely, high, ranks)

    def _totals(self) -> Floats:
        """Return the drawn totals, shape (draws,)."""
        sums = {name: np.zeros(self.draws) for name in GROUPS.values()}
        bearing, hours = np.zeros(self.draws), np.zeros(self.draws)
        rate = None
        for priced in self._lines:
            price = priced.line.unit_price
            if price is None or not priced.amounts:
                continue
            if priced.line.group == "labour":
                hours += self._drawn(HOURS, *_figures(priced.hours))
                rate = price
                continue
            drawn = self._drawn(f"price {priced.line.key}", *_figures(priced.amounts))
            sums[GROUPS[priced.line.group]] += drawn
            if priced.bears_consumables:
                bearing += drawn
        sums["material"] += bearing * self._consumables
        if rate is not None:
            ends = (float(rate.low), float(rate.likely), float(rate.high))
            sums["labour"] += hours * self._drawn("hourly rate", *ends)
        base: Floats = sum(sums.values(), np.zeros(self.draws))
        sums["markup"] = base * self._sums.markup_percent / 100
        taxed: Floats = sum((sums[GROUPS.get(part, part)] for part in self._sums.taxed), np.zeros(self.draws))
        return np.asarray(base + sums["markup"] + taxed * self._sums.tax_percent / 100)
