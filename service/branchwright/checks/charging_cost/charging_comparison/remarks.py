"""What a comparison says beside its findings: what to verify, what was not examined, and the cautions."""

from typing import Final

from branchwright.calculations.managed_charging import ASSUMED_EFFICIENCY
from branchwright.checks.charging_cost.charging_comparison.given import ASSUMED_YEARS, Given
from branchwright.checks.charging_cost.charging_comparison.series_facts import AnnualEnergy, IntervalEnergy
from branchwright.checks.charging_cost.tariffs import remarks as tariff_remarks
from branchwright.questions.answers import ToVerify
from branchwright.questions.remarks import CAUTIONS

ESTIMATE: Final = (
    "Costs are those of the stated tariffs, load and need in one priced year; the utility's own bill and tariff sheet "
    "govern."
)
NOT_EXAMINED: Final = [
    "changes of the tariffs, and of what house and vehicle use, after the priced year",
    "the vehicle's taper near full, its own consumption while parked, and charging away from home",
    "whether circuit and service carry the charging current: circuit designs and service-capacity reviews ask",
    "utility programs, rebates and income tax",
    "installation of a separate meter beyond its stated cost",
]
RING: Final = (
    "nights across the ends of the priced year: what is charged after its end is priced at its beginning"
)
SPREAD: Final = (
    "peaks within the {minutes} minutes of a reading, which shorter averaging of a demand charge would show"
)
PROFILE_PEAKS: Final = (
    "the house's own peaks, which a profile averages out: a demand charge bills greater ones than it shows"
)
BELOW_ZERO: Final = (
    "what becomes of a month's bill below zero, carried on, paid out or lost: it is counted as paid out"
)
RATCHET: Final = (
    "demands before the priced year: what a ratchet looks back at before its beginning is taken from its end"
)
LEAST_COST: Final = (
    "every way to charge under tiers, demand charges and minimum bills: least cost is the best of some"
)


def cautions() -> list[str]:
    """Return the cautions of every comparison."""
    return [ESTIMATE, *CAUTIONS]


def not_examined(given: Given) -> list[str]:
    """Return what was not looked at."""
    found = [*NOT_EXAMINED, RING]
    tariffs = given.request.tariffs
    averaged = [charge.averaging_minutes for each in tariffs for charge in each.demand_charges]
    flows = (given.request.house_load, given.request.generation)
    lengths = [flow.interval_minutes for flow in flows if isinstance(flow, IntervalEnergy)]
    if averaged and lengths and max(lengths) > min(averaged):
        found.append(SPREAD.format(minutes=max(lengths)))
    if averaged and any(isinstance(flow, AnnualEnergy) for flow in flows):
        found.append(PROFILE_PEAKS)
    if any(each.credits or any(rate.export_per_kwh for rate in each.energy_rates) for each in tariffs):
        found.append(BELOW_ZERO)
    if any(charge.ratchet is not None for each in tariffs for charge in each.demand_charges):
        found.append(RATCHET)
    if any(schedule.kind == "least-cost" for schedule in given.request.schedules):
        found.append(LEAST_COST)
    return found


def to_verify(given: Given) -> list[ToVerify]:
    """Return the facts that were merely declared, or assumed where nothing was stated."""
    return [*_of_the_need(given), *_of_house_and_meters(given), *_of_tariffs(given)]


def _of_tariffs(given: Given) -> list[ToVerify]:
    return [
        item
        for place, tariff in enumerate(given.request.tariffs)
        for item in tariff_remarks.to_verify(tariff, f"/tariffs/{place}")
    ]


def _assumed(pointer: str, taken: str, evidence: str) -> ToVerify:
    return ToVerify(pointer, f"not stated, taken as {taken}", evidence)


def _of_the_need(given: Given) -> list[ToVerify]:
    need, charging = given.need, given.request.charging
    pointer = "/charging/energy_need"
    found = [
        ToVerify(
            "/charging/charger/voltage_v",
            f"{charging.charger.voltage_v:g} V",
            "voltage at the charger while it charges; 208 V bring 13 percent less than 240 V",
        ),
        ToVerify(
            f"{pointer}/basis",
            need.facts.basis,
            "where the figure comes from: meter, or display",
        ),
    ]
    if charging.charger.phases is None:
        found.append(_assumed("/charging/charger/phases", "1", "data sheet of charger and vehicle"))
    if need.uses_efficiency and need.facts.charging_efficiency is None:
        found.append(
            _assumed(
                f"{pointer}/charging_efficiency",
                f"{ASSUMED_EFFICIENCY:g}",
                "energy at the wall against energy in the battery",
            )
        )
    if need.facts.winter_factor_by_month is None:
        found.append(
            _assumed(
                f"{pointer}/winter_factor_by_month",
                "1 in every month",
                "use in winter against summer; 1.2 to 1.4 over a winter is common practice",
            )
        )
    if need.facts.worst_day_factor is None:
        found.append(
            _assumed(
                f"{pointer}/worst_day_factor",
                f"{need.worst_day_factor:g}, the greatest of the months",
                "use on the coldest day; 1.55 to 1.64 was measured on the worst days",
            )
        )
    vehicle = charging.vehicle
    if vehicle is None or vehicle.onboard_limit_a is None:
        found.append(_assumed("/charging/vehicle/onboard_limit_a", "no limit", "data sheet of the vehicle"))
    if vehicle is None or vehicle.battery_kwh is None:
        found.append(
            _assumed(
                "/charging/vehicle/battery_kwh",
                "one that makes up nothing in later nights",
                "data sheet of the vehicle",
            )
        )
    return found


def _of_house_and_meters(given: Given) -> list[ToVerify]:
    request = given.request
    found: list[ToVerify] = []
    if request.house_tariff is None and given.house_place is not None:
        name = request.tariffs[given.house_place].name
        found.append(_assumed("/house_tariff", name, "the house's last bill"))
    if isinstance(request.house_load, AnnualEnergy) and request.house_load.profile is None:
        found.append(
            _assumed(
                "/house_load/profile", "even over the year, as no house is", "interval data of the meter"
            )
        )
    if isinstance(request.house_load, IntervalEnergy) and given.zone is not None:
        negative = sum(1 for energy in request.house_load.energy_kwh if energy is not None and energy < 0)
        if negative:
            stated = f"{negative} readings below zero, taken as delivered to the grid"
            found.append(ToVerify("/house_load/energy_kwh", stated, "the meter's two registers"))
    for name in ("house_load", "generation"):
        flow = getattr(request, name)
        if isinstance(flow, IntervalEnergy) and flow.interval_minutes > given.step_minutes:
            found.append(
                ToVerify(
                    f"/{name}/interval_minutes",
                    f"{flow.interval_minutes} minutes, spread evenly over intervals of {given.step_minutes}",
                    "interval data as short as the tariffs ask for",
                )
            )
    compared = given.separate_arrangements
    for arrangement in compared:
        if given.meter(arrangement) is None:
            found.append(
                _assumed(
                    "/separate_meter/monthly_charge", "no charge", f"the utility's terms for {arrangement}"
                )
            )
            break
    if compared and request.separate_meter is not None and request.separate_meter.years is None:
        found.append(_assumed("/separate_meter/years", f"{ASSUMED_YEARS}", "how long the meter is to serve"))
    return found
