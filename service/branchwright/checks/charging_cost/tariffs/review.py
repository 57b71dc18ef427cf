"""Reviews a tariff: judges it, and says what each hour of it costs."""

from dataclasses import dataclass
from datetime import date

from branchwright.checks.charging_cost.tariffs.answers import (
    PricedMonth,
    PricedWeek,
    ReviewedPeriod,
    TariffReviewAnswer,
)
from branchwright.checks.charging_cost.tariffs.facts import TariffReviewRequest
from branchwright.checks.charging_cost.tariffs.given import Given
from branchwright.checks.charging_cost.tariffs.local_year import LocalYear, local_year
from branchwright.checks.charging_cost.tariffs.next_kwh import NextKwh
from branchwright.checks.charging_cost.tariffs.priced import PricedTariff, least_step_minutes
from branchwright.checks.charging_cost.tariffs.remarks import NOT_EXAMINED, cautions, to_verify
from branchwright.checks.charging_cost.tariffs.soundness import can_be_priced, judged
from branchwright.checks.charging_cost.tariffs.tables import (
    Weeks,
    counted_holidays,
    days_of_other_length,
    priced_months,
    reviewed_periods,
)
from branchwright.checks.charging_cost.tariffs.working import Working
from branchwright.findings import Step, verdict_of
from branchwright.questions.remarks import provenance_of

TARIFF = "/tariff"


@dataclass(slots=True, frozen=True)
class Prices:
    """What the hours of a tariff cost; empty where it cannot be priced."""

    weeks: list[PricedWeek]
    by_month_and_hour: list[PricedMonth]
    periods: list[ReviewedPeriod]
    steps: list[Step]


NOTHING = Prices([], [], [], [])


def review_tariff(request: TariffReviewRequest) -> TariffReviewAnswer:
    """Return whether a tariff is sound, and what each hour of the year costs."""
    given = Given(request.tariff, date(request.year, 1, 1), TARIFF)
    findings = judged(given)
    year = year_of(given)
    prices = NOTHING if year is None or not can_be_priced(findings) else priced(given, year)
    short_days, long_days = ([], []) if year is None else days_of_other_length(year)
    return TariffReviewAnswer(
        verdict=verdict_of(findings),
        findings=findings,
        steps=prices.steps,
        to_verify=to_verify(request.tariff, TARIFF),
        not_examined=NOT_EXAMINED,
        cautions=cautions(),
        provenance=provenance_of(request.model_dump(by_alias=True, exclude_unset=True)),
        weeks=prices.weeks,
        price_by_month_and_hour=prices.by_month_and_hour,
        periods=prices.periods,
        holidays=counted_holidays(given),
        hours_in_year=None if year is None else year.count * year.step_h,
        short_days=short_days,
        long_days=long_days,
    )


def year_of(given: Given) -> LocalYear | None:
    """Return the twelve months in intervals that cut no price; None where the zone is not known."""
    if given.zone is None:
        return None
    return local_year(given.zone, given.first, least_step_minutes([given.tariff], given.first))


def priced(given: Given, year: LocalYear) -> Prices:
    """Return what the hours of a tariff without a failing requirement cost."""
    tariff = PricedTariff(given.tariff, year)
    prices = NextKwh(tariff)
    working = Working(tariff, prices, given.prefix)
    working.dearest_hour()
    return Prices(
        weeks=list(Weeks(given, tariff, prices).weeks()),
        by_month_and_hour=priced_months(tariff, prices),
        periods=reviewed_periods(tariff),
        steps=working.steps,
    )
