"""The steps of a comparison, in the order in which they stand in an answer."""

from decimal import Decimal

from branchwright.calculations.present_value import NO_RATE_PERCENT, discounted_years
from branchwright.checks.charging_cost.charging_comparison.answers import (
    ComparedOption,
    ScheduleWindow,
    SeparateMeterResult,
)
from branchwright.checks.charging_cost.charging_comparison.given import ASSUMED_YEARS, Given
from branchwright.checks.charging_cost.charging_comparison.worked_bill import WorkedBill
from branchwright.checks.charging_cost.charging_comparison.working.window_steps import WindowSteps
from branchwright.checks.charging_cost.tariffs.bill_steps import BillSteps, rounded_expression
from branchwright.findings import StepInput
from branchwright.questions.ledger import StepLedger, stated


class Working(StepLedger):
    """The steps of a comparison."""

    def __init__(self, given: Given, digits: int) -> None:
        """Open the working; `digits` are those of the currency after the point."""
        super().__init__()
        self._given = given
        self._currency = given.request.tariffs[0].currency
        self._digits = digits

    def windows(self, windows: list[ScheduleWindow]) -> None:
        """Enter the worst winter day of each schedule."""
        WindowSteps(self, self._given).windows(windows)

    def month(self, worked: WorkedBill) -> None:
        """Enter one month's bills, to the cent."""
        bills = {
            meter.account: BillSteps(self, meter.priced, meter.month, meter.bill, meter.places).write()
            for meter in worked.meters
        }
        self.work_out(
            "total-of-month",
            f"what house and vehicle pay for {worked.answer.month}",
            " + ".join(bills),
            {str(account): bill for account, bill in bills.items()},
            float(worked.answer.total),
            self._currency,
            None,
        )

    def separate_meter(self, result: SeparateMeterResult, options: list[ComparedOption]) -> None:
        """Enter saving, pay-back and net present value against each way to do without the meter."""
        arrangement = options[result.option - 1].arrangement
        own = arrangement == "submeter" and self._given.request.submeter is not None
        pointer = f"/{'submeter' if own else 'separate_meter'}/installed_cost"
        cost = stated(float(result.installed_cost), self._currency, pointer)
        worth = self._worth(result)
        for each in result.against:
            saving = self.work_out(
                f"annual-saving-{each.against}",
                f"annual saving against {each.against}",
                "with_one_meter - with_two",
                {
                    "with_one_meter": self._annual(options, each.option),
                    "with_two": self._annual(options, result.option),
                },
                float(each.annual_saving),
                self._currency,
                None,
            )
            if each.payback_years is not None:
                self.work_out(
                    f"payback-{each.against}",
                    f"simple payback time against {each.against}",
                    "round(installed_cost / annual_saving, 6)",
                    {"installed_cost": cost, "annual_saving": saving},
                    each.payback_years,
                    "years",
                    None,
                )
            is_negative = each.net_present_value < 0
            value = "annual_saving * worth - installed_cost"
            value = "(installed_cost - annual_saving * worth)" if is_negative else f"({value})"
            self.work_out(
                f"net-present-value-{each.against}",
                f"net present value against {each.against}",
                rounded_expression(value, self._digits, "up", is_negative=is_negative),
                {"annual_saving": saving, "worth": worth, "installed_cost": cost},
                float(each.net_present_value),
                self._currency,
                None,
            )

    def _annual(self, options: list[ComparedOption], rank: int) -> StepInput:
        amount: Decimal = options[rank - 1].annual.with_charging
        return StepInput(float(amount), self._currency, f"answer:/options/{rank - 1}/annual/with_charging")

    def _worth(self, result: SeparateMeterResult) -> StepInput:
        """Return what one a year is worth today."""
        facts = self._given.request.separate_meter
        if facts is None or facts.years is None:
            years = self.work_out(
                "years-counted",
                "years of savings, assumed",
                f"{ASSUMED_YEARS}",
                {},
                float(ASSUMED_YEARS),
                "years",
                None,
            )
        else:
            years = stated(float(facts.years), "years", "/separate_meter/years")
        if result.discount_rate_percent <= NO_RATE_PERCENT:
            return self.work_out(
                "worth-of-one-a-year",
                "worth today of one a year, without a rate",
                "years",
                {"years": years},
                float(result.years),
                "years",
                None,
            )
        rate = stated(result.discount_rate_percent, "%", "/separate_meter/discount_rate_percent")
        return self.add(
            discounted_years.step("worth-of-one-a-year", {"rate_percent": rate, "years": years}, None)
        )
