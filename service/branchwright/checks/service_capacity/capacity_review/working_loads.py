"""The steps of the loads: existing load, what the chargers add, and the currents of both."""

from branchwright.calculations.dwelling_load import (
    charger_load_va,
    line_current_a,
    rounded_current_a,
    three_phase_current_a,
)
from branchwright.calculations.service_capacity import (
    charging_on_service_va,
    headroom_a,
    measured_load_va,
    seasonal_demand_w,
    service_load_va,
    short_demand_bound_w,
    three_phase_service_a,
)
from branchwright.checks.service_capacity.capacity_review.calculated import CalculatedLoad
from branchwright.checks.service_capacity.capacity_review.case import Case
from branchwright.checks.service_capacity.capacity_review.charging import ChargerLoad, ChargingUnit
from branchwright.checks.service_capacity.capacity_review.measured import BOUND, MeasuredLoad
from branchwright.checks.service_capacity.capacity_review.spans import Span
from branchwright.checks.service_capacity.dwelling_load.household import Assumption
from branchwright.findings import Sourced, StepInput
from branchwright.questions.ledger import StepLedger, stated

Inputs = dict[str, StepInput]


class LoadSteps:
    """The steps of the loads under one assumption about unknown facts, their ids with a prefix."""

    def __init__(self, case: Case, ledger: StepLedger, assumption: Assumption, prefix: str) -> None:
        """Bind a case, the ledger, the assumption, and what every id begins with."""
        self.case = case
        self.ledger = ledger
        self.assumption: Assumption = assumption
        self.prefix = prefix
        self.voltage: Sourced = case.edition.voltage_between_lines(case.service.system)

    def enter(self) -> None:
        """Enter existing load, charging load, their sum, the current, and the headroom."""
        case, prefix = self.case, self.prefix
        existing = self.existing()
        if existing is None:
            return
        charging = self.added(case.units, existing, "with-chargers-")
        if charging is None:
            return
        current = self.current(existing, self.on_service(charging, prefix), prefix + "total")
        dropped = case.edition.provision("load-rounding")
        self.ledger.note(
            rounded_current_a.step(
                prefix + "rounded-total-current",
                {"current_a": current, "dropped_below": dropped.values["dropped_below"]},
                dropped.citation,
            )
        )
        ratings = _ratings(case)
        names = ", ".join(ratings)
        limit = self.ledger.work_out(
            prefix + "limit",
            "least of the ratings that the load is held against",
            f"min({names})" if len(ratings) > 1 else names,
            ratings,
            case.limit_a,
            "A",
            None,
        )
        self.ledger.note(
            headroom_a.step(
                prefix + "headroom",
                {"limit_a": limit, "existing_a": self.existing_current(existing)},
                None,
            )
        )

    def existing(self) -> StepInput | None:
        """Enter the existing load and return it."""
        load = self.case.existing
        if isinstance(load, CalculatedLoad):
            return load.method((), self.assumption, self.ledger, self.prefix + "existing-").total
        demand = self._demand(load)
        if load.facts.seasonal_load_va is not None:
            seasonal = stated(load.facts.seasonal_load_va, "VA", "/existing_load/seasonal_load_va")
            demand = self.ledger.add(
                seasonal_demand_w.step(
                    self.prefix + "demand-with-season",
                    {"demand_w": demand, "seasonal_va": seasonal},
                    load.provision.citation,
                )
            )
        return self.ledger.add(
            measured_load_va.step(
                self.prefix + "existing-load",
                {"factor": load.provision.values["factor"], "demand_w": demand},
                load.provision.citation,
            )
        )

    def _demand(self, load: MeasuredLoad) -> StepInput:
        facts = load.facts
        measured = stated(facts.measured_demand_w, "W", "/existing_load/measured_demand_w")
        if self.assumption != "worst" or load.demand_w.greatest == facts.measured_demand_w:
            return measured
        if facts.fifteen_minute_bound_w is not None:
            return stated(facts.fifteen_minute_bound_w, "W", BOUND)
        return self.ledger.add(
            short_demand_bound_w.step(
                self.prefix + "demand",
                {
                    "averaging_minutes": stated(
                        facts.averaging_minutes, "min", "/existing_load/averaging_minutes"
                    ),
                    "short_minutes": load.provision.values["short_minutes"],
                    "demand_w": measured,
                },
                load.provision.citation,
            )
        )

    def added(self, units: list[ChargingUnit], existing: StepInput, part: str) -> StepInput | None:
        """Enter what chargers add to the existing load and return it."""
        load, prefix = self.case.existing, self.prefix + part
        if isinstance(load, CalculatedLoad):
            total = load.method(units, self.assumption, self.ledger, prefix).total
            if total is None:
                return None
            return self.ledger.work_out(
                prefix + "added-load",
                "load that the chargers add",
                "round(total_va - existing_va, 6)",
                {"total_va": total, "existing_va": existing},
                round(float(total.value) - float(existing.value), 6),
                "VA",
                None,
            )
        loads = [self._unit(unit, prefix) for unit in units]
        names = [f"load_{place}" for place in range(len(loads))]
        return self.ledger.work_out(
            prefix + "added-load",
            "load that the chargers add",
            " + ".join(names),
            dict(zip(names, loads, strict=True)),
            self._of(load.added_va(units)),
            "VA",
            None,
        )

    def _unit(self, unit: ChargingUnit, prefix: str) -> StepInput:
        """Enter the load of a charger, or of the chargers of a shared circuit, and return it."""
        currents = [self._current_of(charger) for charger in unit.members]
        name = f"{prefix}charger-{unit.members[0].place}"
        current = currents[0]
        if len(currents) > 1:
            inputs: Inputs = {f"current_{place}": each for place, each in enumerate(currents)}
            expression = " + ".join(inputs)
            held = None if unit.held is None else unit.held.reported_a
            if unit.held is not None and held is not None:
                inputs["setting_a"] = stated(
                    held, "A", f"/shared_circuits/{unit.held.circuit}/control_setting_a"
                )
                expression = f"min({expression}, setting_a)"
            current = self.ledger.work_out(
                name + "-and-others-current",
                "current of the chargers of a circuit together",
                expression,
                inputs,
                self._of(unit.current_a),
                "A",
                None,
            )
        return self.ledger.add(
            charger_load_va.step(
                name + "-load",
                {"current_a": current, "voltage_v": self.voltage},
                self.case.edition.provision("charger-load").citation,
            )
        )

    def _current_of(self, charger: ChargerLoad) -> StepInput:
        value = self._of(charger.current_a)
        is_setting = value == charger.facts.charging_current_a
        return stated(
            value, "A", f"{charger.pointer}/{'charging_current_a' if is_setting else 'rated_current_a'}"
        )

    def on_service(self, charging: StepInput, prefix: str) -> StepInput:
        """Enter what a charging load counts for on the service, by the reading in force, and return it."""
        if self.case.book.reading("charger-on-service") == "at-its-load":
            return charging
        rule = self.case.edition.provision("charger-on-service")
        return self.ledger.add(
            charging_on_service_va.step(
                prefix + "charging-on-service",
                {"factor": rule.values["factor"], "charging_va": charging},
                rule.citation,
            )
        )

    def current(self, existing: StepInput, charging: StepInput, name: str) -> StepInput:
        """Enter the load and its current on the busiest line, and return the current."""
        load = self.ledger.add(
            service_load_va.step(name + "-load", {"existing_va": existing, "charging_va": charging}, None)
        )
        if self.case.phases == 1:
            return self.ledger.add(
                line_current_a.step(
                    name + "-current", {"load_va": load, "voltage_v": self.voltage}, self.voltage.citation
                )
            )
        balanced = self.ledger.add(
            three_phase_current_a.step(
                name + "-existing-current",
                {"load_va": existing, "voltage_v": self.voltage},
                self.voltage.citation,
            )
        )
        return self.ledger.add(
            three_phase_service_a.step(
                name + "-current",
                {"existing_a": balanced, "charging_va": charging, "voltage_v": self.voltage},
                self.voltage.citation,
            )
        )

    def existing_current(self, existing: StepInput) -> StepInput:
        """Enter the current of the existing load and return it."""
        calculation = line_current_a if self.case.phases == 1 else three_phase_current_a
        return self.ledger.add(
            calculation.step(
                self.prefix + "existing-current",
                {"load_va": existing, "voltage_v": self.voltage},
                self.voltage.citation,
            )
        )

    def _of(self, span: Span) -> float:
        return span.greatest if self.assumption == "worst" else span.reported


def _ratings(case: Case) -> Inputs:
    service = case.service
    named = {
        "rating_a": service.rating_a,
        "main_breaker_a": service.main_breaker_a,
        "busbar_rating_a": service.busbar_rating_a,
    }
    return {
        name: stated(rating, "A", f"/service/{name}") for name, rating in named.items() if rating is not None
    }
