"""Household cooking appliances by the table, its three columns and its notes."""

from dataclasses import dataclass
from math import fsum

from branchwright.calculations.dwelling_load import (
    cooking_demand_va,
    cooking_increase_percent,
    growing_cooking_demand_va,
    increased_demand_va,
)
from branchwright.checks.service_capacity.dwelling_load.demands.three_phases import (
    Counted,
    counted,
    whole_demand,
)
from branchwright.checks.service_capacity.dwelling_load.facts import CookingAppliance
from branchwright.checks.service_capacity.dwelling_load.household import Household, Placed
from branchwright.checks.service_capacity.dwelling_load.part import Part
from branchwright.findings import StepInput

KINDS = {
    "range": "range",
    "wall-oven": "wall-mounted oven",
    "counter-cooking-unit": "counter-mounted cooking unit",
}

Units = list[Placed[CookingAppliance]]


@dataclass(slots=True)
class CookingDemand:
    """The lines of cooking, and the demand of the appliances that the table covers; None without any."""

    part: Part
    by_table: StepInput | None
    columns: tuple[str, ...]
    """Names of the demands that are part of it."""


@dataclass(slots=True)
class _Column:
    """The demand of a group of appliances by one column."""

    title: str
    units: Units
    name: str
    demand: StepInput


def cooking_demand(household: Household, part: Part) -> CookingDemand:
    """Enter the cooking appliances at the least demand that the table permits.

    Column C is for all; note 3 lets those up to 8.75 kW, in groups of their own, count by columns A and B instead.
    Whichever is lower is taken. A rating above column C's limit grows its demand by notes 1 and 2; where there is
    one, those up to 8.75 kW, of which these notes do not speak, count by columns A and B. Appliances below the
    table's scope count in full. Note 4, by which a counter-mounted unit and ovens may be one range, is for branch
    circuits, and not taken here.
    """
    edition = household.edition
    rule = edition.provision("range-load")
    covered: Units = []
    for unit in household.ranges:
        rating_w = unit.facts.rating_w
        name = unit.facts.name or KINDS[unit.facts.kind]
        part.item("cooking", name, unit.pointer + "/rating_w", rating_w)
        if rating_w > 1000 * rule.number("greatest_kw"):
            part.lacks(
                unit.pointer + "/rating_w",
                f"The table of cooking appliances ends at {rule.number('greatest_kw'):g} kW.",
            )
        elif rating_w > rule.number("least_w"):
            covered.append(unit)
        else:
            part.line(
                "cooking",
                f"{name}, below the scope of the table",
                rating_w,
                (unit.name, unit.stated(rating_w, "W", "rating_w")),
                rule.citation,
                unit.pointer + "/rating_w",
            )
    if not covered or part.lacking:
        return CookingDemand(part, None, ())
    citation = edition.citation_of("range_demand")
    chosen = _Table(household, part).least(covered)
    for column in chosen:
        part.line(
            "cooking",
            column.title,
            round(fsum(unit.facts.rating_w for unit in column.units), 6),
            (column.name, column.demand),
            citation,
            column.units[0].pointer + "/rating_w" if len(column.units) == 1 else None,
        )
    return CookingDemand(
        part,
        part.add_up(
            "cooking-by-table",
            "demand of the cooking appliances",
            {column.name: column.demand for column in chosen},
            citation,
        ),
        tuple(column.name for column in chosen),
    )


class _Table:
    """The table of cooking appliances, asked for one household."""

    def __init__(self, household: Household, part: Part) -> None:
        self.household = household
        self.part = part
        self.rule = household.edition.provision("range-load")
        self.citation = household.edition.citation_of("range_demand")

    def least(self, covered: Units) -> list[_Column]:
        """Return the columns of the lower demand; where there are two ways, both are entered."""
        rule = self.rule
        limit_w = 1000 * rule.number("column_b_up_to_kw")
        below_w = 1000 * rule.number("column_a_below_kw")
        large = [unit for unit in covered if unit.facts.rating_w > limit_w]
        small = [unit for unit in covered if unit.facts.rating_w <= limit_w]
        by_groups = [self._column_c(large, "cooking-large", f"above {limit_w / 1000:g} kW")] if large else []
        if not small:
            return by_groups
        column_a = [unit for unit in small if unit.facts.rating_w < below_w]
        column_b = [unit for unit in small if unit.facts.rating_w >= below_w]
        by_groups += [
            self._percentage(group, name) for name, group in (("a", column_a), ("b", column_b)) if group
        ]
        if any(unit.facts.rating_w > 1000 * rule.number("column_c_up_to_kw") for unit in large):
            return by_groups
        together = self._column_c(covered, "cooking-together", "all of them")
        by_groups_va = self.part.add_up(
            "cooking-by-groups",
            "demand of the cooking appliances in groups",
            {column.name: column.demand for column in by_groups},
            self.citation,
        )
        lower = min(float(together.demand.value), float(by_groups_va.value))
        self.part.ledger.work_out(
            self.part.prefix + "cooking-lower",
            "lower of the two permitted demands",
            "min(together, by_groups)",
            {"together": together.demand, "by_groups": by_groups_va},
            lower,
            "VA",
            self.rule.citation,
        )
        return [together] if float(together.demand.value) < float(by_groups_va.value) else by_groups

    def _counted(self, units: Units, step: str) -> Counted[CookingAppliance]:
        return counted(self.household, self.part, step, units, lambda facts: facts.rating_w, self.citation)

    def _column_c(self, units: Units, step: str, which: str) -> _Column:
        """Enter the demand of a group by column C, grown by notes 1 and 2 where ratings exceed its limit."""
        part, rule = self.part, self.rule
        among = self._counted(units, step)
        row = self.household.edition.dwelling_loads.range_demand(among.count)
        at = part.prefix + step
        if row.demand_kw_per_appliance is None:
            printed = cooking_demand_va.step(at + "-column-c", {"demand_kw": row.demand_kw}, self.citation)
        else:
            printed = growing_cooking_demand_va.step(
                at + "-column-c",
                {
                    "demand_kw": row.demand_kw,
                    "demand_kw_per_appliance": row.demand_kw_per_appliance,
                    "appliances": among.number,
                },
                self.citation,
            )
        demand = part.ledger.add(printed)
        limit_kw = rule.values["column_c_up_to_kw"]
        title = f"cooking appliances by column C, {which}"
        if any(unit.facts.rating_w > 1000 * limit_kw.number for unit in units):
            increase = part.ledger.add(
                cooking_increase_percent.step(
                    at + "-increase",
                    {
                        "percent_per_kw": rule.values["percent_per_kw"],
                        "average_kw": self._average_kw(units, at),
                        "limit_kw": limit_kw,
                    },
                    rule.citation,
                )
            )
            demand = part.ledger.add(
                increased_demand_va.step(
                    at + "-increased", {"demand_va": demand, "increase_percent": increase}, rule.citation
                )
            )
            title += " with its increase"
        demand = whole_demand(part, step, among, demand, self.citation)
        return _Column(title, units, step.replace("-", "_"), demand)

    def _average_kw(self, units: Units, at: str) -> StepInput:
        """Enter the average rating, those below the limit of column C taken for it."""
        limit_kw = self.rule.values["column_c_up_to_kw"]
        least_w = 1000 * limit_kw.number
        inputs: dict[str, StepInput] = {
            unit.name: unit.stated(unit.facts.rating_w, "W", "rating_w") for unit in units
        }
        terms = [
            f"max({unit.name}, 1000 * limit_kw)" if unit.facts.rating_w < least_w else unit.name
            for unit in units
        ]
        if any(unit.facts.rating_w < least_w for unit in units):
            inputs["limit_kw"] = limit_kw
        total_w = fsum(max(unit.facts.rating_w, least_w) for unit in units)
        return self.part.ledger.work_out(
            at + "-average",
            "average rating of the cooking appliances",
            f"round(({' + '.join(terms)}) / (1000 * {len(units)}), 6)",
            inputs,
            round(total_w / (1000 * len(units)), 6),
            "kW",
            self.rule.citation,
        )

    def _percentage(self, units: Units, name: str) -> _Column:
        """Enter the demand of a group by column A or B."""
        part = self.part
        step = f"cooking-column-{name}"
        among = self._counted(units, step)
        row = self.household.edition.dwelling_loads.range_demand(among.count)
        connected = part.add_up(
            f"{step}-ratings",
            "ratings of the cooking appliances that count",
            {unit.name: unit.stated(unit.facts.rating_w, "W", "rating_w") for unit in among.units},
            self.rule.citation,
        )
        demand = part.percent_of(
            step, connected, row.column_a_percent if name == "a" else row.column_b_percent, self.citation
        )
        demand = whole_demand(part, step, among, demand, self.citation)
        return _Column(f"cooking appliances by column {name.upper()}", units, step.replace("-", "_"), demand)
