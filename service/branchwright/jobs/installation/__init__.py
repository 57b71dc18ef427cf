"""Installation estimates: what will the installation take and cost?"""

from typing import TYPE_CHECKING

from branchwright.jobs.installation.answers import InstallationEstimateAnswer
from branchwright.jobs.installation.facts import InstallationEstimateRequest
from branchwright.questions.when_asked import when_asked

if TYPE_CHECKING:
    from branchwright.jobs.installation.estimate import estimate_installation
    from branchwright.jobs.installation.rules import RULES, Rule

__all__ = [
    "RULES",
    "InstallationEstimateAnswer",
    "InstallationEstimateRequest",
    "Rule",
    "estimate_installation",
]

__getattr__ = when_asked(__name__, {"RULES": "rules", "Rule": "rules", "estimate_installation": "estimate"})
