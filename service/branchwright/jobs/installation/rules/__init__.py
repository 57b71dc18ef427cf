"""The rules of an installation estimate, in the order in which they stand in an answer."""

from branchwright.jobs.installation.rules.circuit import (
    estimate_circuit,
    estimate_conditions,
    estimate_site,
    estimate_trench,
)
from branchwright.jobs.installation.rules.figures import (
    estimate_currency,
    estimate_dates,
    estimate_keys,
    estimate_priced,
    estimate_ranges,
    estimate_units,
)
from branchwright.jobs.installation.rules.rule import Rule

RULES: tuple[Rule, ...] = (
    estimate_circuit,
    estimate_site,
    estimate_conditions,
    estimate_trench,
    estimate_ranges,
    estimate_units,
    estimate_keys,
    estimate_currency,
    estimate_dates,
    estimate_priced,
)
"""Every rule of an estimate."""

__all__ = ["RULES", "Rule"]
