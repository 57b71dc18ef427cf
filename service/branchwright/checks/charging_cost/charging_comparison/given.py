"""What the stated facts come to before anything is priced: year, need, stays, house, and what to compare."""

from datetime import date
from functools import cached_property
from math import sqrt
from typing import Final

from branchwright.calculations.arrays import Floats
from branchwright.checks.charging_cost.charging_comparison.answers import WorstWinterDay
from branchwright.checks.charging_cost.charging_comparison.energy_need import Need
from branchwright.checks.charging_cost.charging_comparison.facts import (
    ChargingComparisonRequest,
    Schedule,
    SeparateMeter,
    Submeter,
    Timer,
)
from branchwright.checks.charging_cost.charging_comparison.house_flow import energy_of
from branchwright.checks.charging_cost.charging_comparison.need_facts import DistanceEachDay
from branchwright.checks.charging_cost.charging_comparison.series_facts import IntervalEnergy, NoLoad
from branchwright.checks.charging_cost.charging_comparison.stays import Stays, Windows
from branchwright.checks.charging_cost.charging_comparison.window_feasibility import worst_winter_day
from branchwright.checks.charging_cost.tariffs.facts import Tariff
from branchwright.checks.charging_cost.tariffs.local_year import LocalYear, local_year
from branchwright.checks.charging_cost.tariffs.price_facts import Arrangement
from branchwright.checks.charging_cost.tariffs.priced import least_step_minutes
from branchwright.checks.charging_cost.tariffs.soundness import judged_tariff
from branchwright.findings import Finding
from branchwright.questions.local_time import zone_named

ASSUMED_YEARS: Final = 10
ARRANGEMENTS: Final[tuple[Arrangement, ...]] = ("whole-house", "own-meter", "submeter")
SEPARATE: Final[tuple[Arrangement, ...]] = ("own-meter", "submeter")


def may_serve(tariff: Tariff, arrangement: Arrangement) -> bool:
    """Return whether a tariff may serve a meter."""
    return tariff.arrangements is None or arrangement in tariff.arrangements


class Given:
    """The facts of a request, and what follows from them."""

    def __init__(self, request: ChargingComparisonRequest) -> None:
        """Bind a request."""
        self.request = request
        self.need = Need(request.charging)
        self.zones = sorted({tariff.time_zone for tariff in request.tariffs})
        self.zone = zone_named(self.zones[0]) if len(self.zones) == 1 else None
        self.first = date(request.year, request.first_month or 1, 1)
        charger, vehicle = request.charging.charger, request.charging.vehicle
        onboard = None if vehicle is None else vehicle.onboard_limit_a
        self.current_a = min(
            charger.charging_current_a, charger.charging_current_a if onboard is None else onboard
        )
        """What charger and vehicle both allow, A."""
        self.kw_per_a = charger.voltage_v * (sqrt(3) if charger.phases == 3 else 1.0) / 1000
        self.power_kw = self.current_a * self.kw_per_a

    @cached_property
    def arrangements(self) -> list[Arrangement]:
        """The meters to compare, in the order of this service."""
        request = self.request
        stated = request.arrangements
        if stated is None:
            has = {"whole-house": True, "own-meter": request.separate_meter, "submeter": request.submeter}
            return [each for each in ARRANGEMENTS if has[each]]
        return [each for each in ARRANGEMENTS if each in stated]

    @property
    def separate_arrangements(self) -> list[Arrangement]:
        """Those of them in which the vehicle has a meter of its own."""
        return [each for each in SEPARATE if each in self.arrangements]

    @cached_property
    def house_place(self) -> int | None:
        """Place of the tariff that the house is on today; None where there is no such tariff."""
        wanted = self.request.house_tariff
        for place, tariff in enumerate(self.request.tariffs):
            if may_serve(tariff, "whole-house") if wanted is None else tariff.name == wanted:
                return place
        return None

    @property
    def has_house(self) -> bool:
        """Whether there is a house at all: load or generation."""
        return self.has_generation or not isinstance(self.request.house_load, NoLoad)

    @property
    def has_generation(self) -> bool:
        """Whether a generation is stated."""
        return self.request.generation is not None and not isinstance(self.request.generation, NoLoad)

    @cached_property
    def step_minutes(self) -> int:
        """Length of the priced intervals: what tariffs, clock and series need, minutes."""
        needed = [least_step_minutes(self.request.tariffs, self.first)]
        for flow in (self.request.house_load, self.request.generation):
            if isinstance(flow, IntervalEnergy):
                needed.append(flow.interval_minutes)
        return min(needed)

    @cached_property
    def year(self) -> LocalYear:
        """The year that is priced; the zone has to be known."""
        if self.zone is None:
            raise ValueError("There is no year without a zone.")
        return local_year(self.zone, self.first, self.step_minutes)

    @cached_property
    def soundness(self) -> list[list[Finding]]:
        """What the rules of tariff reviews find wrong, or cannot tell, of each tariff over the priced year."""
        return [
            [
                finding
                for finding in judged_tariff(tariff, self.first, f"/tariffs/{place}")
                if finding.outcome in ("fail", "undetermined")
            ]
            for place, tariff in enumerate(self.request.tariffs)
        ]

    @cached_property
    def stays(self) -> Stays:
        """The stays of the priced year."""
        return Stays(self.request.charging, self.year)

    @cached_property
    def whole_stays(self) -> Windows:
        """All of every stay."""
        return self.stays.whole()

    @cached_property
    def windows(self) -> list[Windows]:
        """What each schedule may use of the stays."""
        return [self._windows_of(schedule) for schedule in self.request.schedules]

    def _windows_of(self, schedule: Schedule) -> Windows:
        return self.stays.in_windows(schedule.windows) if isinstance(schedule, Timer) else self.whole_stays

    @cached_property
    def worst_days(self) -> list[WorstWinterDay | None]:
        """The worst winter day of each schedule; None where nothing is needed."""
        return [worst_winter_day(self, windows) for windows in self.windows]

    @cached_property
    def needed_kwh(self) -> Floats:
        """What each night needs, kWh at the wall, shape (N,)."""
        return self.need.of_nights(self.stays.weekdays, self.stays.months)

    @cached_property
    def distance_per_year(self) -> float | None:
        """Distance driven in the priced year, in the request's unit; None where the need is stated as energy."""
        if isinstance(self.need.facts, DistanceEachDay):
            return float(self.need.stated[self.stays.weekdays].sum())
        return None

    @cached_property
    def house_kwh(self) -> Floats:
        """What the house takes in each interval less what it generates, kWh, shape (count,)."""
        load = energy_of(self.request.house_load, self.year)
        return load - energy_of(self.request.generation, self.year) if self.has_generation else load

    def meter(self, arrangement: Arrangement) -> SeparateMeter | Submeter | None:
        """Return the costs of a separate meter; None where they are not stated, or there is none."""
        if arrangement == "whole-house":
            return None
        submeter = self.request.submeter if arrangement == "submeter" else None
        return submeter or self.request.separate_meter
