"""Current comparisons: what does each step of charging current cost, and what does it bring in?"""

from branchwright.jobs.current_comparison.answers import CurrentComparisonAnswer
from branchwright.jobs.current_comparison.comparison import compare
from branchwright.jobs.current_comparison.facts import CurrentComparisonRequest

__all__ = ["CurrentComparisonAnswer", "CurrentComparisonRequest", "compare"]
