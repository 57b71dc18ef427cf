"""The steps of the worst winter day: what is needed, what the hours bring, and the current that would do."""

from branchwright.calculations.charging_energy import single_phase_power_kw, three_phase_power_kw
from branchwright.calculations.managed_charging import ASSUMED_EFFICIENCY
from branchwright.checks.charging_cost.charging_comparison.answers import ScheduleWindow, WorstWinterDay
from branchwright.checks.charging_cost.charging_comparison.energy_need import (
    DISTANCE_OF,
    kwh_per_distance,
    units_in,
)
from branchwright.checks.charging_cost.charging_comparison.given import Given
from branchwright.checks.charging_cost.charging_comparison.need_facts import DistanceEachDay
from branchwright.findings import StepInput
from branchwright.quantities.lengths import KM_PER_MI
from branchwright.questions.fields import LEAST_SIGNALLED_A
from branchwright.questions.ledger import StepLedger, stated
from branchwright.questions.local_days import WEEKDAYS

NEED = "/charging/energy_need"


class WindowSteps:
    """Enters the steps of each schedule's worst winter day into a ledger."""

    def __init__(self, ledger: StepLedger, given: Given) -> None:
        """Take the facts; what several schedules share is entered once."""
        self._ledger = ledger
        self._given = given
        self._needs: dict[int, StepInput] = {}

    def windows(self, windows: list[ScheduleWindow]) -> None:
        """Enter the steps of each schedule that has a worst day."""
        for place, window in enumerate(windows):
            if window.worst_day is not None:
                self._window(place, window.worst_day)

    def _window(self, place: int, worst: WorstWinterDay) -> None:
        pointer = f"answer:/windows/{place}/worst_day"
        date = next(at for at, date in enumerate(self._given.stays.dates) if date.isoformat() == worst.date)
        needed = self._needed(int(self._given.stays.weekdays[date]), worst.needed_kwh)
        hours = StepInput(worst.hours, "h", f"{pointer}/hours")
        deliverable = self._ledger.work_out(
            f"deliverable-{place}",
            f"energy that schedule {place} can deliver on the worst winter day",
            "round(power_kw * hours, 6)",
            {"power_kw": self._power(), "hours": hours},
            worst.deliverable_kwh,
            "kWh",
            None,
        )
        self._ledger.work_out(
            f"shortfall-{place}",
            f"shortfall of schedule {place} on the worst winter day",
            "max(0, round(needed_kwh - deliverable_kwh, 6))",
            {"needed_kwh": needed, "deliverable_kwh": deliverable},
            worst.shortfall_kwh,
            "kWh",
            None,
        )
        if worst.current_that_would_do_a is not None:
            phases = "sqrt(3) * " if self._given.request.charging.charger.phases == 3 else ""
            self._ledger.work_out(
                f"current-that-would-do-{place}",
                f"least whole current that would do for schedule {place}",
                f"max({LEAST_SIGNALLED_A}, ceil(round(needed_kwh * 1000 / ({phases}voltage_v * hours), 6)))",
                {"needed_kwh": needed, "voltage_v": self._voltage(), "hours": hours},
                worst.current_that_would_do_a,
                "A",
                None,
            )

    def _voltage(self) -> StepInput:
        return stated(self._given.request.charging.charger.voltage_v, "V", "/charging/charger/voltage_v")

    def _power(self) -> StepInput:
        """Return the power of charging, entered once."""
        found = next((step for step in self._ledger.steps if step.id == "charging-power"), None)
        if found is not None:
            return found.as_input()
        charging = self._given.request.charging
        setting = stated(charging.charger.charging_current_a, "A", "/charging/charger/charging_current_a")
        current = setting
        if charging.vehicle is not None and charging.vehicle.onboard_limit_a is not None:
            limit = stated(charging.vehicle.onboard_limit_a, "A", "/charging/vehicle/onboard_limit_a")
            current = self._ledger.work_out(
                "charging-current",
                "current that charger and vehicle both allow",
                "min(setting_a, limit_a)",
                {"setting_a": setting, "limit_a": limit},
                self._given.current_a,
                "A",
                None,
            )
        unity = self._constant("power-factor", "power factor, taken as unity", "1", 1.0, "1")
        power_kw = three_phase_power_kw if charging.charger.phases == 3 else single_phase_power_kw
        inputs = {"voltage_v": self._voltage(), "current_a": current, "power_factor": unity}
        return self._ledger.add(power_kw.step("charging-power", inputs, None))

    def _needed(self, weekday: int, value: float) -> StepInput:
        """Return what the worst winter day needs on a weekday, entered once."""
        if weekday in self._needs:
            return self._needs[weekday]
        need, day = self._given.need.facts, WEEKDAYS[weekday]
        inputs = {}
        if isinstance(need, DistanceEachDay):
            amount = stated(
                float(self._given.need.stated[weekday]),
                need.distance_unit,
                f"{NEED}/distance_by_weekday/{day}",
            )
            inputs = {"amount": amount, "per_distance": self._per_distance(need)}
            written = "amount * per_distance"
        else:
            inputs["amount"] = stated(
                float(self._given.need.stated[weekday]), "kWh", f"{NEED}/kwh_by_weekday/{day}"
            )
            written = "amount"
        inputs["factor"] = self._worst_factor()
        written += " * factor"
        if need.basis == "battery":
            inputs["efficiency"] = self._efficiency()
            written += " / efficiency"
        found = self._ledger.work_out(
            f"needed-{day}",
            f"energy needed at the wall on the worst winter day, {day}",
            f"round({written}, 6)",
            inputs,
            value,
            "kWh",
            None,
        )
        self._needs[weekday] = found
        return found

    def _per_distance(self, need: DistanceEachDay) -> StepInput:
        """Return the consumption for one unit of distance, as it is driven."""
        found = next((step for step in self._ledger.steps if step.id == "consumption"), None)
        if found is not None:
            return found.as_input()
        consumption = need.consumption
        unit = consumption.unit
        value = units_in(DISTANCE_OF[unit], need.distance_unit) * kwh_per_distance(consumption.value, unit)
        written = "value / 100" if "100" in unit else "1 / value" if unit.endswith("/kWh") else "value"
        if DISTANCE_OF[unit] != need.distance_unit:
            written += f" * {KM_PER_MI}" if need.distance_unit == "mi" else f" / {KM_PER_MI}"
        return self._ledger.work_out(
            "consumption",
            f"consumption for one {need.distance_unit}",
            written,
            {"value": stated(consumption.value, unit, f"{NEED}/consumption/value")},
            value,
            f"kWh/{need.distance_unit}",
            None,
        )

    def _worst_factor(self) -> StepInput:
        need = self._given.need
        if need.facts.worst_day_factor is not None:
            return stated(need.facts.worst_day_factor, "1", f"{NEED}/worst_day_factor")
        if need.facts.winter_factor_by_month is not None:
            return stated(
                need.worst_day_factor, "1", f"{NEED}/winter_factor_by_month/{need.winter_months[0]}"
            )
        return self._constant("worst-day-factor", "factor of the worst winter day, assumed", "1", 1.0, "1")

    def _efficiency(self) -> StepInput:
        need = self._given.need.facts
        if need.charging_efficiency is not None:
            return stated(need.charging_efficiency, "1", f"{NEED}/charging_efficiency")
        written = f"{ASSUMED_EFFICIENCY:g}"
        return self._constant(
            "charging-efficiency", "charging efficiency, assumed", written, ASSUMED_EFFICIENCY, "1"
        )

    def _constant(self, step_id: str, quantity: str, written: str, value: float, unit: str) -> StepInput:
        """Return a constant, entered once."""
        found = next((step for step in self._ledger.steps if step.id == step_id), None)
        if found is not None:
            return found.as_input()
        return self._ledger.work_out(step_id, quantity, written, {}, value, unit, None)
