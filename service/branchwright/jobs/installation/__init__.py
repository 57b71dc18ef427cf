"""Installation estimates: what will the installation take and cost?"""

from branchwright.jobs.installation.answers import InstallationEstimateAnswer
from branchwright.jobs.installation.facts import InstallationEstimateRequest

__all__ = ["InstallationEstimateAnswer", "InstallationEstimateRequest"]
