"""Reviews whether a service carries the chargers, and computes what would make them fit."""

from branchwright.checks.service_capacity.capacity_review.answers import (
    Capacity,
    CapacityReviewAnswer,
    LargestChargingCurrent,
)
from branchwright.checks.service_capacity.capacity_review.case import Case
from branchwright.checks.service_capacity.capacity_review.facts import CapacityReviewRequest
from branchwright.checks.service_capacity.capacity_review.rules import RULES
from branchwright.findings import Finding, Verdict, verdict_of
from branchwright.questions.interpretations import consulted_interpretations
from branchwright.questions.readings import bind
from branchwright.questions.remarks import CAUTIONS, provenance_of


def judge(case: Case) -> list[Finding]:
    """Return one finding of each rule."""
    return [rule(case) for rule in RULES]


def review_capacity(request: CapacityReviewRequest) -> CapacityReviewAnswer:
    """Return what the rules find of a service with its chargers, and what would make them fit."""
    book = bind(request.edition, request.readings)
    case = Case(request, book)
    findings = judge(case)
    verdict = verdict_of(findings)

    def verdict_under(name: str, reading: str) -> Verdict:
        return verdict_of(judge(Case(request, book.with_reading(name, reading))))

    return CapacityReviewAnswer(
        edition=request.edition,
        jurisdiction=request.jurisdiction,
        verdict=verdict,
        findings=findings,
        steps=[],
        interpretations=consulted_interpretations(book, verdict, verdict_under),
        to_verify=[],
        not_examined=["condition of the service"],
        cautions=list(CAUTIONS),
        provenance=provenance_of(request.model_dump(by_alias=True, exclude_unset=True)),
        capacity=Capacity(
            existing_load_va=None if case.existing.load_va is None else case.existing.load_va.greatest,
            charger_load_va=None,
            total_va=None,
            total_a=None if case.total_a is None else case.total_a.greatest,
            least_total_a=None if case.total_a is None else case.total_a.least,
            limit_a=case.limit_a,
            headroom_a=None,
            managed_total_a=case.setting_a,
            lost_link_total_a=None if case.lost_link_a is None else case.lost_link_a.greatest,
            largest_charging_current_a=LargestChargingCurrent(None, None),
            ways_to_fit=[],
        ),
    )
