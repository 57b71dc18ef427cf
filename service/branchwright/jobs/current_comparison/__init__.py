"""Current comparisons: what does each step of charging current cost, and what does it bring in?"""

from typing import TYPE_CHECKING

from branchwright.jobs.current_comparison.answers import CurrentComparisonAnswer
from branchwright.jobs.current_comparison.facts import CurrentComparisonRequest
from branchwright.questions.when_asked import when_asked

if TYPE_CHECKING:
    from branchwright.jobs.current_comparison.comparison import compare

__all__ = ["CurrentComparisonAnswer", "CurrentComparisonRequest", "compare"]

__getattr__ = when_asked(__name__, {"compare": "comparison"})
