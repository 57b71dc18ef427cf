"""Asking the engine for the bills of a tariff, and looking at them by kind of line."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import Any
from zoneinfo import ZoneInfo

import numpy as np

from branchwright.checks.charging_cost.tariffs.facts import Tariff
from branchwright.checks.charging_cost.tariffs.local_year import local_year
from branchwright.checks.charging_cost.tariffs.priced import PricedTariff

Json = dict[str, Any]


@dataclass(frozen=True)
class Asked:
    """A tariff and the year that it is priced over."""

    tariff: Json
    year: int
    step_minutes: int = 60
    first_month: int = 1

    def priced(self) -> PricedTariff:
        year = local_year(
            ZoneInfo(self.tariff["time_zone"]), date(self.year, self.first_month, 1), self.step_minutes
        )
        return PricedTariff(Tariff.model_validate(self.tariff), year)

    def bill(self, net_kwh: Sequence[float], arrangement: str = "whole-house") -> Any:
        return self.priced().bill(np.array(net_kwh, dtype=np.float64), arrangement)


def of_kind(month: Any, *kinds: str) -> Decimal:
    """Return the sum of the amounts of some kinds of lines."""
    return sum((line.amount for line in month.lines if line.kind in kinds), Decimal(0))
