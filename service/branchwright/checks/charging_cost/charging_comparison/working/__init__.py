"""The working of a comparison: the windows, one month's bill, and whether a separate meter pays, step by step."""

from branchwright.checks.charging_cost.charging_comparison.working.steps import Working

__all__ = ["Working"]
