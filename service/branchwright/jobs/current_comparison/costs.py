"""What the circuit of each current costs: totals of the installation estimate of the same facts."""

from decimal import Decimal

from branchwright.checks.circuits.answers import Design
from branchwright.checks.circuits.design import JudgedDesign
from branchwright.checks.circuits.facts import CircuitDesignRequest, CircuitFacts
from branchwright.jobs.current_comparison.answers import ComparedCost
from branchwright.jobs.current_comparison.facts import CurrentComparisonRequest
from branchwright.jobs.installation.answers import UsedLabourTable, UsedPriceBook
from branchwright.jobs.installation.case import Case
from branchwright.jobs.installation.facts import InstallationEstimateRequest, JobFacts
from branchwright.jobs.installation.remarks import assumptions, exclusions, price_cautions
from branchwright.jobs.installation.rules import RULES
from branchwright.jobs.installation.sources import Sources
from branchwright.jobs.installation.taking_off import TakenOff, taken_off
from branchwright.questions.answers import ToVerify

SHOWN_ELSEWHERE = frozenset({"estimate-circuit", "estimate-conditions", "estimate-priced"})
"""Rules of an estimate whose findings stand in each row, or among what is to be verified."""


class Costs:
    """Estimates one current after the other; asks for nothing where no prices are stated."""

    def __init__(self, request: CurrentComparisonRequest) -> None:
        """Take prices and job from a request."""
        self._request = request
        self._job = request.job or JobFacts()
        self._sources = None
        if request.price_book is not None or request.demo_prices:
            self._sources = Sources(request.price_book, request.labour_table)
        self._first: tuple[JudgedDesign, Design, TakenOff] | None = None
        self._lower: Decimal | None = None

    def of(self, judged: JudgedDesign, design: Design) -> ComparedCost | None:
        """Return the cost of one current that has a design, currents in ascending order; None without prices."""
        if self._sources is None:
            return None
        taken = taken_off(judged.shown, design, self._job, self._sources, circuit_at="", facts_at="/job")
        self._first = self._first or (judged, design, taken)
        totals = taken.sums.totals(is_complete=taken.is_complete)
        lower, self._lower = self._lower, totals.total.likely
        return ComparedCost(
            totals.total,
            None if lower is None else totals.total.likely - lower,
            totals.is_complete,
            taken.pricing.unpriced,
            totals.currency,
        )

    @property
    def price_book(self) -> UsedPriceBook | None:
        """The price book that was applied."""
        return self._sources.used_book() if self._sources else None

    @property
    def labour_table(self) -> UsedLabourTable | None:
        """The labour table that was applied."""
        return self._sources.used_table() if self._sources else None

    def exclusions(self, judged: JudgedDesign) -> list[str]:
        """Return what the costs do not hold."""
        return exclusions(self._job, judged.circuit.given) if self._sources else []

    def to_verify(self) -> list[ToVerify]:
        """Return what was taken for granted, as of the lowest current that has a design."""
        if self._sources is None or self._first is None:
            return []
        return assumptions(self._first[2].job, self._sources)

    def cautions(self) -> list[str]:
        """Return what to bear in mind about the prices, and what an estimate would find in them."""
        if self._sources is None:
            return []
        found = price_cautions(self._sources)
        if self._first is not None:
            judged, design, taken = self._first
            estimate = _as_estimate(self._request, judged.circuit.facts, self._job)
            case = Case(estimate, judged, self._sources, design, taken)
            findings = [rule(case) for rule in RULES if rule.name not in SHOWN_ELSEWHERE]
            found += [
                f"{finding.rule}: {finding.message}"
                for finding in findings
                if finding.outcome in ("fail", "undetermined")
            ]
        return found


def _as_estimate(
    request: CurrentComparisonRequest, circuit: CircuitFacts, job: JobFacts
) -> InstallationEstimateRequest:
    """Return the request of the estimate of one current. Its parts are valid already and are not validated again."""
    design = CircuitDesignRequest.model_construct(
        **{name: getattr(circuit, name) for name in CircuitFacts.model_fields}
    )
    return InstallationEstimateRequest.model_construct(
        circuit=design,
        price_book=request.price_book,
        labour_table=request.labour_table,
        **{name: getattr(job, name) for name in JobFacts.model_fields},
    )
