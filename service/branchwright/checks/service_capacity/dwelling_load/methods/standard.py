"""The standard method: every load at a demand factor of its own."""

from dataclasses import dataclass

from branchwright.checks.service_capacity.dwelling_load.answers import Group
from branchwright.checks.service_capacity.dwelling_load.demands import Demands
from branchwright.checks.service_capacity.dwelling_load.demands.seasons import (
    appliance_motors,
    cooling_items,
    cooling_loads,
    cooling_motors,
    heating_items,
    heating_motors,
    pumps_heating,
)
from branchwright.checks.service_capacity.dwelling_load.part import Part
from branchwright.findings import StepInput


@dataclass(slots=True)
class _Motor:
    """The largest motor of some, as it was stated, and the addition for it."""

    stated: StepInput
    added: StepInput


@dataclass(slots=True)
class _Season:
    """What runs together: heating or cooling with its load, and the largest motor in it."""

    group: Group
    load: StepInput
    motor: _Motor | None

    @property
    def load_va(self) -> float:
        return float(self.load.value)

    @property
    def added_va(self) -> float:
        return 0.0 if self.motor is None else float(self.motor.added.value)


def standard(demands: Demands, part: Part) -> None:
    """Enter the load by the standard method."""
    part.take(
        (
            demands.lighting,
            demands.cooking.part,
            demands.dryers,
            demands.appliances,
            _seasons(demands, demands.part(part.prefix.removeprefix(demands.prefix))),
            demands.chargers,
        )
    )


def _seasons(demands: Demands, part: Part) -> Part:
    """Enter heating or cooling, whichever counts, the other left out, and the addition for the largest motor.

    To 2017 the larger of the two counts. From 2020 on a motor of the smaller one that is the largest counts in the
    comparison with its addition: the season whose load with the addition is greater is taken. By another reading
    the larger load is taken, with the addition for the motor that is left out.
    """
    household = demands.household
    rule = household.edition.provision("noncoincident-load")
    motors = appliance_motors(household)
    seasons: list[_Season] = []
    if household.heating or household.heat_pumps:
        seasons.append(
            _Season(
                "heating",
                _heating(demands, part),
                _largest_motor(demands, part, "heating", {**heating_motors(household), **motors}),
            )
        )
    if household.cooling or household.heat_pumps:
        seasons.append(
            _Season(
                "cooling",
                part.add_up("cooling", "load while cooling", cooling_loads(household), rule.citation),
                _largest_motor(demands, part, "cooling", {**cooling_motors(household), **motors}),
            )
        )
    if not seasons:
        _enter_motor(demands, part, _largest_motor(demands, part, None, motors))
        return part
    chosen, motor = seasons[0], seasons[0].motor
    if len(seasons) > 1:
        chosen, motor = _greater(demands, part, *seasons)
    for season in seasons:
        _enter(demands, part, season, counts=season is chosen)
    _enter_motor(demands, part, motor)
    return part


def _enter(demands: Demands, part: Part, season: _Season, *, counts: bool) -> None:
    """Enter the items of a season and its line."""
    household, group = demands.household, season.group
    rule = household.edition.provision("noncoincident-load")
    (heating_items if group == "heating" else cooling_items)(household, part, group)
    if counts:
        by_heating = household.edition.provision("space-heating-load").citation
        citation = by_heating if group == "heating" else rule.citation
        part.line(group, group, season.load_va, (group, season.load), citation)
    else:
        part.omitted(group, f"{group}, not in use together with the other", season.load_va, rule.citation)


def _enter_motor(demands: Demands, part: Part, motor: _Motor | None) -> None:
    """Enter the addition for the largest motor, if there is one."""
    if motor is None:
        return
    rule = demands.household.edition.provision("largest-motor")
    motor_va = float(motor.stated.value)
    pointer = motor.stated.origin.removeprefix("request:")
    part.item("largest-motor", "largest motor", pointer, motor_va)
    part.line(
        "largest-motor",
        f"{rule.number('added_percent'):g} percent of the largest motor",
        motor_va,
        ("largest_motor", motor.added),
        rule.citation,
        pointer,
    )


def _heating(demands: Demands, part: Part) -> StepInput:
    """Enter the load while heating: space heating at its percentage, and the heat pumps."""
    household = demands.household
    rule = household.edition.provision("space-heating-load")
    inputs = pumps_heating(household)
    if household.heating:
        connected = part.add_up(
            "space-heating",
            "space heating",
            {item.name: item.stated(item.facts.rating_w, "W", "rating_w") for item in household.heating},
            rule.citation,
        )
        inputs["space_heating"] = part.percent_of(
            "space-heating-demand", connected, rule.values["percent"], rule.citation
        )
    return part.add_up("heating", "load while heating", inputs, rule.citation)


def _largest_motor(
    demands: Demands, part: Part, group: Group | None, motors: dict[str, StepInput]
) -> _Motor | None:
    """Enter the largest motor of a season, or of all the year, and the addition for it."""
    if not motors:
        return None
    rule = demands.household.edition.provision("largest-motor")
    step = "largest-motor" if group is None else f"{group}-largest-motor"
    quantity = "largest motor" if group is None else f"largest motor while {group}"
    greatest = part.greatest(step, quantity, motors, rule.citation)
    added = part.percent_of(f"{step}-addition", greatest, rule.values["added_percent"], rule.citation)
    return _Motor(next(item for item in motors.values() if item.value == greatest.value), added)


def _greater(
    demands: Demands, part: Part, heating: _Season, cooling: _Season
) -> tuple[_Season, _Motor | None]:
    """Enter the comparison of two seasons; return the one that counts, and the motor that has the addition."""
    household = demands.household
    rule = household.edition.provision("noncoincident-load")
    larger, smaller = sorted(
        (heating, cooling), key=lambda season: (season.load_va, season.added_va), reverse=True
    )
    with_motors = False
    motor = larger.motor
    if rule.values["smaller_motor"].name != "neither" and smaller.added_va > larger.added_va:
        with_motors = household.book.reading("omitted-motor") == "compared"
        motor = smaller.motor
    inputs: dict[str, StepInput] = {}
    terms: list[str] = []
    for season in (heating, cooling):
        inputs[season.group] = season.load
        terms.append(season.group)
        if with_motors and season.motor is not None:
            inputs[f"{season.group}_motor"] = season.motor.added
            terms[-1] += f" + {season.group}_motor"
    values = {
        season.group: season.load_va + (season.added_va if with_motors else 0.0)
        for season in (heating, cooling)
    }
    part.ledger.work_out(
        part.prefix + "noncoincident",
        "larger of heating and cooling",
        f"max({', '.join(terms)})",
        inputs,
        max(values.values()),
        "VA",
        rule.citation,
    )
    if not with_motors:
        return larger, motor
    chosen = smaller if values[smaller.group] > values[larger.group] else larger
    return chosen, chosen.motor
