"""The entry of a comparison: judges the facts, prices what may be chosen, ranks it and works out one month."""

from dataclasses import dataclass
from decimal import localcontext

from branchwright.checks.charging_cost.charging_comparison.answers import (
    ChargingComparisonAnswer,
    ComparedOption,
    ScheduleWindow,
    SeparateMeterResult,
)
from branchwright.checks.charging_cost.charging_comparison.bill_answers import WorkedBillAnswer
from branchwright.checks.charging_cost.charging_comparison.facts import ChargingComparisonRequest
from branchwright.checks.charging_cost.charging_comparison.given import Given
from branchwright.checks.charging_cost.charging_comparison.options import (
    Offers,
    Options,
    offers_of,
    windows_of,
)
from branchwright.checks.charging_cost.charging_comparison.pricing import Pricer
from branchwright.checks.charging_cost.charging_comparison.remarks import cautions, not_examined, to_verify
from branchwright.checks.charging_cost.charging_comparison.rules import RULES
from branchwright.checks.charging_cost.charging_comparison.separate_meter import SeparateMeterSearch
from branchwright.checks.charging_cost.charging_comparison.worked_bill import worked_bill
from branchwright.checks.charging_cost.charging_comparison.working import Working
from branchwright.checks.charging_cost.tariffs.billing import ENOUGH_DIGITS
from branchwright.findings import Finding, Step, verdict_of
from branchwright.questions.remarks import provenance_of


@dataclass(slots=True, frozen=True)
class Outcome:
    """What was priced; empty where the findings say why nothing was."""

    options: list[ComparedOption]
    windows: list[ScheduleWindow]
    separate_meter: SeparateMeterResult | None
    worked_bill: WorkedBillAnswer | None
    steps: list[Step]


NOTHING = Outcome([], [], None, None, [])


def compare_charging(request: ChargingComparisonRequest) -> ChargingComparisonAnswer:
    """Return what charging costs a year by tariff, meter arrangement and schedule, and what was found in the facts."""
    stated = request.model_dump(by_alias=True, exclude_unset=True)
    given = Given(request)
    findings, is_stopped = judged(given)
    offers = offers_of(given)
    with localcontext(prec=ENOUGH_DIGITS):
        outcome = NOTHING if is_stopped else outcome_of(given, offers)
    year = None if given.zone is None else given.year
    currencies = {tariff.currency for tariff in request.tariffs}
    return ChargingComparisonAnswer(
        verdict=verdict_of(findings),
        findings=findings,
        steps=outcome.steps,
        to_verify=to_verify(given),
        not_examined=not_examined(given),
        cautions=cautions(),
        provenance=provenance_of(stated),
        currency=currencies.pop() if len(currencies) == 1 else None,
        priced_from=None if year is None else year.dates[0].isoformat(),
        priced_until=None if year is None else year.dates[-1].isoformat(),
        interval_minutes=None if year is None else year.step_minutes,
        options=outcome.options,
        not_offered=offers.not_offered,
        windows=outcome.windows,
        separate_meter=outcome.separate_meter,
        worked_bill=outcome.worked_bill,
    )


def judged(given: Given) -> tuple[list[Finding], bool]:
    """Return the findings of every rule, and whether one of them says that nothing can be priced."""
    findings: list[Finding] = []
    is_stopped = given.zone is None
    for rule in RULES:
        found = rule(given)
        findings += found
        is_stopped |= any(each.rule == rule.name and each.outcome in rule.stops for each in found)
    return findings, is_stopped


def outcome_of(given: Given, offers: Offers) -> Outcome:
    """Return the options, the windows, whether a separate meter pays, and the working."""
    pricer = Pricer(given)
    working = Working(given, pricer.digits)
    options = Options(pricer, offers.choices)
    windows = windows_of(pricer)
    working.windows(windows)
    listed = options.listed()
    separate_meter = SeparateMeterSearch(pricer, options).result()
    worked = worked_bill(pricer, options)
    if worked is not None:
        working.month(worked)
    if separate_meter is not None:
        working.separate_meter(separate_meter, listed)
    return Outcome(
        options=listed,
        windows=windows,
        separate_meter=separate_meter,
        worked_bill=None if worked is None else worked.answer,
        steps=working.steps,
    )
