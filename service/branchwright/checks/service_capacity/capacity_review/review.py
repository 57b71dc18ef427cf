"""Reviews whether a service carries the chargers, and computes what would make them fit."""

from collections.abc import Sequence

from branchwright.checks.service_capacity.capacity_review.answers import (
    Capacity,
    CapacityReviewAnswer,
    LargestChargingCurrent,
)
from branchwright.checks.service_capacity.capacity_review.case import Case
from branchwright.checks.service_capacity.capacity_review.dwelling_facts import (
    dwelling_case,
    dwelling_findings,
)
from branchwright.checks.service_capacity.capacity_review.facts import CapacityReviewRequest
from branchwright.checks.service_capacity.capacity_review.judging import judge
from branchwright.checks.service_capacity.capacity_review.managing import largest_managed_a
from branchwright.checks.service_capacity.capacity_review.remarks import cautions, not_examined, to_verify
from branchwright.checks.service_capacity.capacity_review.settings import largest_unmanaged_a
from branchwright.checks.service_capacity.capacity_review.ways import ways_to_fit
from branchwright.checks.service_capacity.capacity_review.working import working
from branchwright.findings import Finding, Verdict, verdict_of
from branchwright.questions.interpretations import consulted_interpretations
from branchwright.questions.readings import bind
from branchwright.questions.remarks import provenance_of


def review_capacity(request: CapacityReviewRequest) -> CapacityReviewAnswer:
    """Return what the rules find of a service with its chargers, and what would make them fit."""
    book = bind(request.edition, request.readings)
    case = Case(request, book)
    dwelling = dwelling_case(case)
    of_dwelling = dwelling_findings(dwelling)
    findings = [*judge(case), *of_dwelling]
    verdict = verdict_of(findings)

    def verdict_under(name: str, reading: str) -> Verdict:
        return verdict_of([*judge(case.under(name, reading)), *of_dwelling])

    interpretations = consulted_interpretations(book, verdict, verdict_under)
    return CapacityReviewAnswer(
        edition=request.edition,
        jurisdiction=request.jurisdiction,
        verdict=verdict,
        findings=findings,
        steps=working(case),
        interpretations=interpretations,
        to_verify=to_verify(case, dwelling),
        not_examined=not_examined(case),
        cautions=cautions(case),
        provenance=provenance_of(request.model_dump(by_alias=True, exclude_unset=True)),
        capacity=capacity(case, findings),
    )


def capacity(case: Case, findings: Sequence[Finding]) -> Capacity:
    """Return what the service carries, and what it could; failing findings get their remedies."""
    existing, charging, total = case.existing.load_va, case.charging_va, case.total_a
    alone = case.existing_a
    added = None if charging is None else case.on_service_va(charging.reported)
    return Capacity(
        existing_load_va=None if existing is None else existing.reported,
        charger_load_va=added,
        total_va=None if existing is None or added is None else round(existing.reported + added, 6),
        total_a=None if total is None else total.reported,
        greatest_total_a=None if total is None else total.greatest,
        limit_a=case.limit_a,
        headroom_a=None if alone is None else case.limit_a - alone.reported,
        least_headroom_a=None if alone is None else case.limit_a - alone.greatest,
        managed_total_a=case.setting_a,
        lost_link_total_a=None if case.lost_link_a is None else case.lost_link_a.greatest,
        largest_charging_current_a=LargestChargingCurrent(
            unmanaged=largest_unmanaged_a(case), managed=largest_managed_a(case)
        ),
        ways_to_fit=ways_to_fit(case, findings),
    )
