"""The month that is worked out: whose bill it is, what each meter took day by day, and the lines."""

from dataclasses import dataclass

from branchwright.calculations.arrays import Floats
from branchwright.checks.charging_cost.charging_comparison.bill_answers import (
    Account,
    MonthDemand,
    PeriodEnergy,
    WorkedBillAnswer,
    WorkedDay,
    WorkedDemand,
)
from branchwright.checks.charging_cost.charging_comparison.given import Given
from branchwright.checks.charging_cost.charging_comparison.options import Options, lines_of, total_of
from branchwright.checks.charging_cost.charging_comparison.pricing import Choice, Priced, Pricer
from branchwright.checks.charging_cost.tariffs.bills import MonthBill, YearBill
from branchwright.checks.charging_cost.tariffs.local_year import MONTHS
from branchwright.checks.charging_cost.tariffs.priced import PricedTariff
from branchwright.checks.charging_cost.tariffs.quantity_steps import BillPlaces
from branchwright.checks.charging_cost.tariffs.worked_month import WorkedMonth, worked_month


@dataclass(slots=True, frozen=True)
class WorkedMeter:
    """One meter's bill in the worked month, what it rests on, and where both stand."""

    account: Account
    priced: PricedTariff
    month: WorkedMonth
    bill: MonthBill
    places: BillPlaces


@dataclass(slots=True, frozen=True)
class WorkedBill:
    """The month as the answer shows it, and the meters whose bills make it up."""

    answer: WorkedBillAnswer
    meters: list[WorkedMeter]


def worked_bill(pricer: Pricer, options: Options) -> WorkedBill | None:
    """Return the month that was asked for, or the first of the first option; None where it is of no option."""
    given = pricer.given
    wanted = given.request.worked_bill
    rank = 1 if wanted is None else options.rank_of(_choice(given))
    if rank is None or rank > len(options.ranked):
        return None
    priced = options.ranked[rank - 1]
    month = 0 if wanted is None else (wanted.month - given.first.month) % MONTHS
    dates = [date.isoformat() for date in given.year.dates]
    days = [
        WorkedDay(dates[day], []) for day, of in enumerate(given.year.month_of_day.tolist()) if of == month
    ]
    answer = WorkedBillAnswer(
        rank, given.year.months[month], days, [], lines_of(priced, month), total_of(priced, month)
    )
    meters: list[WorkedMeter] = []
    for account, tariff, net_kwh, bill in _bills(given, priced):
        worked = worked_month(pricer.tariffs[tariff], net_kwh, month)
        places = BillPlaces(
            prefix=f"{account}-",
            tariff=f"/tariffs/{tariff}",
            meter_charge=meter_pointer(given, priced.choice) + "/monthly_charge",
            rows_before=[len(day.kwh_by_period) for day in days],
            demands_before=len(answer.demands),
        )
        _enter(answer, account, worked)
        meters.append(WorkedMeter(account, pricer.tariffs[tariff], worked, bill.months[month], places))
    return WorkedBill(answer, meters)


def meter_pointer(given: Given, choice: Choice) -> str:
    """Return where the costs of a separate meter are stated."""
    is_own = choice.arrangement == "submeter" and given.request.submeter is not None
    return "/submeter" if is_own else "/separate_meter"


def _choice(given: Given) -> Choice:
    """Return what the request wants to be worked out; of a tariff that is not there, none of the options."""
    wanted = given.request.worked_bill
    if wanted is None:
        raise ValueError("No month is asked for.")
    names = [tariff.name for tariff in given.request.tariffs]
    place = names.index(wanted.tariff) if wanted.tariff in names else -1
    return Choice(place, wanted.arrangement, wanted.schedule)


def _bills(given: Given, priced: Priced) -> list[tuple[Account, int, Floats, YearBill]]:
    """Return each meter's tariff, net energy in kWh of each interval, and bills."""
    found: list[tuple[Account, int, Floats, YearBill]] = []
    choice, shared = priced.choice, priced.vehicle is None
    if priced.house is not None:
        net_kwh = given.house_kwh + priced.charging_kwh if shared else given.house_kwh
        tariff = choice.tariff if shared or given.house_place is None else given.house_place
        found.append(("house", tariff, net_kwh, priced.house))
    if priced.vehicle is not None:
        found.append(("charging", choice.tariff, priced.charging_kwh, priced.vehicle))
    return found


def _enter(answer: WorkedBillAnswer, account: Account, worked: WorkedMonth) -> None:
    """Enter what one meter measured."""
    for day, energies in zip(answer.days, worked.energies, strict=True):
        day.kwh_by_period += [
            PeriodEnergy(
                account, each.season, each.period, each.critical_peak, each.taken_kwh, each.delivered_kwh
            )
            for each in energies
        ]
    for demand in worked.demands:
        months = [MonthDemand(month, kw) for month, kw in zip(demand.months, demand.kw, strict=True)]
        answer.demands.append(WorkedDemand(account, demand.name, months))
