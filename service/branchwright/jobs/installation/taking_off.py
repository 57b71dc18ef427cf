"""Takes off a designed circuit, prices what it needs, and sums it up: what an estimate and a comparison share."""

from dataclasses import dataclass

from branchwright.checks.circuits.answers import Design
from branchwright.checks.circuits.circuit import Circuit
from branchwright.jobs.installation.conductors import take_off_conductors
from branchwright.jobs.installation.devices import take_off_devices
from branchwright.jobs.installation.facts import JobFacts
from branchwright.jobs.installation.job import Job
from branchwright.jobs.installation.pricing import Pricing
from branchwright.jobs.installation.raceways import take_off_raceways
from branchwright.jobs.installation.site_work import take_off_orders, take_off_trench
from branchwright.jobs.installation.sources import Sources
from branchwright.jobs.installation.sums import Sums


@dataclass(slots=True, frozen=True)
class TakenOff:
    """A job with its lines and sums."""

    job: Job
    pricing: Pricing
    sums: Sums

    @property
    def is_complete(self) -> bool:
        """Whether every line has an amount."""
        return not self.pricing.unpriced


def taken_off(
    circuit: Circuit, design: Design, facts: JobFacts, sources: Sources, *, circuit_at: str, facts_at: str
) -> TakenOff:
    """Return what a designed circuit takes and costs; the two pointers say where circuit and job facts stand."""
    job = Job(circuit, design, facts, circuit_at, facts_at, sources.book)
    take_off_devices(job)
    take_off_conductors(job)
    take_off_raceways(job)
    take_off_trench(job)
    take_off_orders(job)
    pricing = Pricing(job, sources)
    return TakenOff(job, pricing, Sums(job, sources, pricing.lines))
