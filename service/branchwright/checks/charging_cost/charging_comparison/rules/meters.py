"""Rules about separate meters, and about the month that is worked out."""

from branchwright.checks.charging_cost.charging_comparison.given import Given
from branchwright.checks.charging_cost.charging_comparison.options import offers_of
from branchwright.checks.charging_cost.charging_comparison.pricing import Choice
from branchwright.checks.charging_cost.charging_comparison.rules.rule import rule
from branchwright.findings import Finding


@rule("charging-separate-meter", subject="separate meter")
def charging_separate_meter(given: Given) -> Finding:
    """Is all known that decides whether a separate meter pays?

    Applies: where own-meter or submeter is compared.
    Rests on: it pays by what it saves against one meter for both, from which its own charge a month and what its
    installation costs have to be earned.
    Missing facts: undetermined without its costs: its options are priced without a charge of the meter, and no pay-back
    is worked out. So it is where no option has one meter for both.
    """
    compared = given.separate_arrangements
    if not compared:
        return charging_separate_meter.not_applicable("No separate meter is compared.")
    for arrangement in compared:
        if given.meter(arrangement) is None:
            return charging_separate_meter.undetermined(
                "/separate_meter", f"What {arrangement} costs is not stated."
            )
    if given.request.separate_meter is None:
        return charging_separate_meter.undetermined(
            "/separate_meter", "The discount rate is stated in separate_meter, which is missing."
        )
    if not any(choice.arrangement == "whole-house" for choice in offers_of(given).choices):
        return charging_separate_meter.undetermined(
            "/arrangements", "No option has one meter for both, against which a separate one could pay."
        )
    return charging_separate_meter.passed("The costs of a separate meter are stated.", "/separate_meter")


@rule("charging-worked-bill", subject="worked bill")
def charging_worked_bill(given: Given) -> Finding:
    """Is the month that is to be worked out one of an option?

    Applies: where one is stated.
    Rests on: an option is a tariff, an arrangement that it may serve and a schedule of the request.
    Missing facts: the first month of the first option stands for it.
    """
    wanted = given.request.worked_bill
    if wanted is None:
        return charging_worked_bill.not_applicable(
            "No month is stated; that of the first option is worked out."
        )
    names = [tariff.name for tariff in given.request.tariffs]
    if wanted.tariff not in names:
        return charging_worked_bill.none_of(
            wanted.tariff, names, f"No tariff is named {wanted.tariff}.", "/worked_bill/tariff"
        )
    if wanted.schedule >= len(given.request.schedules):
        return charging_worked_bill.at_most(
            float(wanted.schedule),
            float(len(given.request.schedules) - 1),
            "count",
            f"There are {len(given.request.schedules)} schedules, counted from 0.",
            None,
            "/worked_bill/schedule",
        )
    choice = Choice(names.index(wanted.tariff), wanted.arrangement, wanted.schedule)
    choices = offers_of(given).choices
    if choice not in choices:
        offered: list[str] = [
            each.arrangement
            for each in choices
            if (each.tariff, each.schedule) == (choice.tariff, choice.schedule)
        ]
        return charging_worked_bill.none_of(
            wanted.arrangement,
            offered,
            f"{wanted.tariff} with {wanted.arrangement} and schedule {wanted.schedule} is none of the options.",
            "/worked_bill/arrangement",
        )
    return charging_worked_bill.passed("The month belongs to an option.", "/worked_bill")
