"""Power and energy of each current, as steps that a reader can replay."""

from branchwright.calculations.charging_energy import energy_kwh, single_phase_power_kw, three_phase_power_kw
from branchwright.checks.circuits.given import Given
from branchwright.findings import Step, StepInput
from branchwright.jobs.current_comparison.facts import CurrentComparisonRequest


class EnergyWorking:
    """Collects the steps of power and energy, current by current."""

    def __init__(self, request: CurrentComparisonRequest) -> None:
        """Open the working of a request."""
        self.steps: list[Step] = []
        self._places: dict[float, int] = {}
        for place, current_a in enumerate(request.currents_a or ()):
            self._places.setdefault(current_a, place)
        self._power_factor = self._stated_or_unity(request.charger.power_factor)
        self._night_h = (
            None if request.night_h is None else StepInput(request.night_h, "h", "request:/night_h")
        )

    def enter(self, given: Given) -> tuple[float, float | None]:
        """Enter the steps of a current; return its power in kW and, where hours are stated, its kWh of a night."""
        current_a = given.facts.charger.charging_current_a
        name = f"{current_a!r}".removesuffix(".0")
        power = (single_phase_power_kw if given.phases == 1 else three_phase_power_kw).step(
            f"power-at-{name}-a",
            {
                "voltage_v": given.edition.voltage_between_lines(given.facts.supply.system),
                "current_a": self._current(current_a, name),
                "power_factor": self._power_factor,
            },
            None,
        )
        self.steps.append(power)
        if self._night_h is None:
            return float(power.value), None
        energy = energy_kwh.step(
            f"energy-of-a-night-at-{name}-a",
            {"power_kw": power.as_input(), "duration_h": self._night_h},
            None,
        )
        self.steps.append(energy)
        return float(power.value), float(energy.value)

    def _current(self, current_a: float, name: str) -> StepInput:
        """Return a current from where it is stated; one of the usual currents is a step of its own."""
        place = self._places.get(current_a)
        if place is not None:
            return StepInput(current_a, "A", f"request:/currents_a/{place}")
        return self._constant(f"current-{name}-a", "usual charging current", name, current_a, "A")

    def _stated_or_unity(self, power_factor: float | None) -> StepInput:
        if power_factor is not None:
            return StepInput(power_factor, "1", "request:/charger/power_factor")
        return self._constant("power-factor", "power factor, taken as unity", "1", 1.0, "1")

    def _constant(self, step_id: str, quantity: str, written: str, value: float, unit: str) -> StepInput:
        step = Step(step_id, quantity, None, written, {}, value, unit, None)
        self.steps.append(step)
        return step.as_input()
