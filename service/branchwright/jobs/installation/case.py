"""One estimate in the making: what was asked, the judged circuit, the sources of prices, and what was taken off."""

from dataclasses import dataclass

from branchwright.checks.circuits.answers import Design
from branchwright.checks.circuits.design import JudgedDesign
from branchwright.jobs.installation.facts import InstallationEstimateRequest
from branchwright.jobs.installation.sources import Sources
from branchwright.jobs.installation.taking_off import TakenOff


@dataclass(slots=True, frozen=True)
class Case:
    """What rules and remarks look at; without a design nothing was taken off."""

    request: InstallationEstimateRequest
    judged: JudgedDesign
    sources: Sources
    design: Design | None
    taken: TakenOff | None
