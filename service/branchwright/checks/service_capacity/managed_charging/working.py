"""The working of a study: the fullest interval of the worst night, and the smallest service, step by step."""

import numpy as np

from branchwright.calculations.calculation import Calculation
from branchwright.calculations.charging_energy import energy_kwh, single_phase_power_kw, three_phase_power_kw
from branchwright.calculations.managed_charging import (
    ASSUMED_EFFICIENCY,
    apparent_power_va,
    charging_limit_a,
    current_or_pause_a,
    least_operating_service_a,
    managed_service_a,
    own_limit_a,
    wall_energy_kwh,
)
from branchwright.calculations.measured_demand import (
    average_power_w,
    single_phase_demand_a,
    three_phase_demand_a,
)
from branchwright.checks.service_capacity.managed_charging.given import Given
from branchwright.checks.service_capacity.managed_charging.simulation import LEAST_A, Simulation
from branchwright.checks.service_capacity.managed_charging.smallest import Search
from branchwright.findings import Step, StepInput
from branchwright.questions.ledger import StepLedger, stated


class Working(StepLedger):
    """The steps of a study, and the inputs that several of them share."""

    def __init__(self, given: Given) -> None:
        """Open the working of a study."""
        super().__init__()
        self._given = given
        self._house: dict[int, StepInput] = {}
        self._least_a: StepInput | None = None

    def worst_interval(self, simulation: Simulation, session: int) -> None:
        """Enter what the fullest interval of a session left to its charger, before any sharing, and what it needs."""
        sessions = simulation.sessions
        place, number = int(sessions.charger[session]), int(simulation.windows.session[session])
        self._needed(place, number)
        # The last row of a course stands for the time after the readings.
        first, last = int(sessions.first[session]), min(int(sessions.last[session]), self._given.readings - 1)
        house_a = self._given.house_a[first : last + 1]
        if np.isnan(house_a).all():
            return
        limit = self.add(
            charging_limit_a.step(
                "charging-limit",
                {
                    "own_limit_a": self._own_limit(place),
                    "setting_a": stated(self._given.setting_a, "A", "/management/control_setting_a"),
                    "margin_a": self._margin(),
                    "house_a": self._house_current(first + int(np.nanargmax(house_a))),
                },
                None,
            )
        )
        current = self.add(
            current_or_pause_a.step("charging-current", {"limit_a": limit, "least_a": self._least()}, None)
        )
        self._energy(place, current)

    def smallest_service(self, search: Search) -> None:
        """Enter the service rating for the smallest setting that was found."""
        rating, edition = search.service(), self._given.edition
        if rating is None or search.smallest_a is None:
            return
        smallest = self._constant(
            "smallest-setting",
            "smallest control setting found at which every night is met",
            f"{search.smallest_a}",
            float(search.smallest_a),
            "A",
        )
        provision = edition.provision("energy-management-load")
        house_a = self._house_current(int(np.nanargmax(self._given.house_a)))
        factor = provision.values["factor"]
        inputs = {"factor": factor, "setting_a": smallest, "house_a": house_a}
        needed = {
            "least_a": self.add(managed_service_a.step("least-service-current", inputs, provision.citation))
        }
        expression = "lookup(standard_ratings, least_a)"
        if provision.says("least_currents_count"):
            chargers = len(self._given.request.chargers)
            inputs = {
                "factor": factor,
                "house_a": house_a,
                "least_a": self._least(),
                "chargers": self._constant(
                    "chargers", "controlled chargers", f"{chargers}", float(chargers), "count"
                ),
            }
            needed["operating_a"] = self.add(
                least_operating_service_a.step("least-operating-current", inputs, provision.citation)
            )
            expression = "lookup(standard_ratings, max(least_a, operating_a))"
        self.work_out(
            "smallest-service-rating",
            "smallest standard rating of the service",
            expression,
            needed,
            rating.number,
            "A",
            edition.citation_of("standard_ratings"),
        )

    def _needed(self, place: int, number: int) -> None:
        """Enter the energy at the wall that a session needs, where it is stated for the battery."""
        charger = self._given.request.chargers[place]
        session = charger.sessions[number]
        if session.basis == "wall":
            return
        pointer = f"/chargers/{place}/sessions/{number}/energy_kwh"
        vehicle = charger.vehicle
        if vehicle is None or vehicle.charging_efficiency is None:
            written = f"{ASSUMED_EFFICIENCY:g}"
            efficiency = self._constant(
                "charging-efficiency", "charging efficiency, assumed", written, ASSUMED_EFFICIENCY, "1"
            )
        else:
            efficiency = stated(
                vehicle.charging_efficiency, "1", f"/chargers/{place}/vehicle/charging_efficiency"
            )
        self.note(
            wall_energy_kwh.step(
                "energy-needed",
                {"energy_kwh": stated(session.energy_kwh, "kWh", pointer), "efficiency": efficiency},
                None,
            )
        )

    def _own_limit(self, place: int) -> StepInput:
        charger = self._given.request.chargers[place]
        pointer = f"/chargers/{place}"
        setting = stated(charger.charging_current_a, "A", pointer + "/charging_current_a")
        vehicle = charger.vehicle
        onboard = setting
        if vehicle is not None and vehicle.onboard_limit_a is not None:
            onboard = stated(vehicle.onboard_limit_a, "A", pointer + "/vehicle/onboard_limit_a")
        provision = self._given.edition.provision("continuous-load")
        return self.add(
            own_limit_a.step(
                "own-limit",
                {
                    "charging_current_a": setting,
                    "breaker_a": stated(charger.circuit_breaker_a, "A", pointer + "/circuit_breaker_a"),
                    "factor": provision.values["factor"],
                    "onboard_a": onboard,
                },
                provision.citation,
            )
        )

    def _least(self) -> StepInput:
        """Enter the least current that a vehicle is offered, once."""
        if self._least_a is None:
            quantity = "least current that a vehicle is offered"
            self._least_a = self._constant("least-current", quantity, f"{LEAST_A:g}", LEAST_A, "A")
        return self._least_a

    def _margin(self) -> StepInput:
        margin_a = self._given.request.management.margin_a
        if margin_a is None:
            return self._constant("margin", "margin below the setting, taken as none", "0", 0.0, "A")
        return stated(margin_a, "A", "/management/margin_a")

    def _house_current(self, interval: int) -> StepInput:
        """Enter the current of the house on its largest leg in an interval, once."""
        found = self._house.get(interval)
        if found is None:
            found = self._house[interval] = self.add(self._leg_current(interval))
        return found

    def _leg_current(self, interval: int) -> Step:
        given, house = self._given, self._given.request.house_load
        step_id = f"house-current-{interval}"
        if house.leg_currents_a is not None:
            inputs = {
                f"leg_{leg}_a": stated(
                    float(given.values[leg, interval]), "A", f"/house_load/leg_currents_a/{leg}/{interval}"
                )
                for leg in range(len(house.leg_currents_a))
            }
            quantity = "house current on the largest leg"
            value = float(given.house_a[interval])
            return Step(step_id, quantity, None, f"max({', '.join(inputs)})", inputs, value, "A", None)
        power = self.add(
            average_power_w.step(
                f"house-power-{interval}",
                {
                    "energy_wh": stated(
                        float(given.values[0, interval]), "Wh", f"/house_load/energy_wh/{interval}"
                    ),
                    "interval_minutes": stated(
                        float(house.interval_minutes), "min", "/house_load/interval_minutes"
                    ),
                },
                None,
            )
        )
        if house.power_factor is not None:
            factor = stated(house.power_factor, "1", "/house_load/power_factor")
            power = self.add(
                apparent_power_va.step(
                    f"house-apparent-power-{interval}", {"power_w": power, "power_factor": factor}, None
                )
            )
        demand: Calculation[[float, float]] = single_phase_demand_a
        if given.is_balanced and given.phases == 3:
            demand = three_phase_demand_a
        volts = given.voltage_v if given.is_balanced else given.to_ground_v
        return demand.step(step_id, {"power_w": power, "voltage_v": volts}, None)

    def _energy(self, place: int, current: StepInput) -> None:
        """Enter what the current brings in a whole interval."""
        charger = self._given.request.chargers[place]
        unity = self._constant("power-factor", "power factor, taken as unity", "1", 1.0, "1")
        power_kw = three_phase_power_kw if charger.phases == 3 else single_phase_power_kw
        power = self.add(
            power_kw.step(
                "charging-power",
                {"voltage_v": self._given.voltage_v, "current_a": current, "power_factor": unity},
                None,
            )
        )
        minutes = stated(
            float(self._given.request.house_load.interval_minutes), "min", "/house_load/interval_minutes"
        )
        hours = self.work_out(
            "interval-length",
            "length of an interval",
            "minutes / 60",
            {"minutes": minutes},
            self._given.interval_h,
            "h",
            None,
        )
        self.note(energy_kwh.step("energy-of-interval", {"power_kw": power, "duration_h": hours}, None))

    def _constant(self, step_id: str, quantity: str, written: str, value: float, unit: str) -> StepInput:
        return self.work_out(step_id, quantity, written, {}, value, unit, None)
