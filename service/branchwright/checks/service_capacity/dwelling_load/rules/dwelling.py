"""Rules about the dwelling's facts: whether they are there, agree, and reach what the edition counts."""

from branchwright.checks.service_capacity.dwelling_load.case import LoadCase
from branchwright.checks.service_capacity.dwelling_load.facts import Appliance, Cooling
from branchwright.checks.service_capacity.dwelling_load.household import Placed
from branchwright.checks.service_capacity.dwelling_load.rules.rule import LoadRule, rule
from branchwright.findings import Finding, Provided, Required


@rule("calculated-load", subject="load of the dwelling", concept="lighting-load")
def calculated_load(case: LoadCase) -> Finding:
    """Is everything stated that the loads rest on?

    Applies: always.
    Rests on: the general load is counted by floor area, a charger by its current or nameplate, a current by the
    voltage of the supply.
    Missing facts: undetermined; the totals or currents that need them are null.
    """
    cited = calculated_load.cited(case.edition)
    lacking = {fact.pointer: fact.message for load in case.loads for fact in load.lacking}
    lacking.update({fact.pointer: fact.message for fact in case.neutral.part.lacking})
    if case.household.voltage is None:
        lacking.setdefault(
            case.household.supply.at, "The supply is not stated, and with it the voltage of the currents."
        )
    if not lacking:
        return calculated_load.finding("pass", "Every load and current could be calculated.", citation=cited)
    return calculated_load.undetermined(next(iter(lacking)), " ".join(lacking.values()), cited)


def _circuits(case: LoadCase, of: LoadRule, field: str, count: int | None, words: str) -> Finding:
    least = case.edition.provision(of.concept).number("least_circuits")
    cited = of.cited(case.edition)
    if count is None:
        return of.not_applicable(f"No number of {words} is stated; {least:g} are counted.", cited)
    counted = "" if count >= least else f" The load counts {least:g}."
    return of.at_least(
        float(count),
        least,
        "count",
        f"{words.capitalize()}: {count}; the edition asks for {least:g} or more.{counted}",
        cited,
        f"{case.household.at}/{field}",
    )


@rule("small-appliance-circuits", subject="small-appliance circuits", concept="small-appliance-load")
def small_appliance_circuits(case: LoadCase) -> Finding:
    """Are there as many small-appliance circuits as the edition asks for?

    Applies: where their number is stated.
    Rests on: a dwelling has two or more; the load counts no fewer.
    Missing facts: the least number is counted.
    """
    return _circuits(
        case,
        small_appliance_circuits,
        "small_appliance_circuits",
        case.request.dwelling.small_appliance_circuits,
        "small-appliance circuits",
    )


@rule("laundry-circuits", subject="laundry circuits", concept="laundry-load")
def laundry_circuits(case: LoadCase) -> Finding:
    """Is there a laundry circuit?

    Applies: where the number is stated.
    Rests on: a dwelling has one or more; the load counts no fewer. A unit of a building with a common laundry may do
    without: state one all the same, or read this finding accordingly.
    Missing facts: the least number is counted.
    """
    return _circuits(
        case,
        laundry_circuits,
        "laundry_circuits",
        case.request.dwelling.laundry_circuits,
        "laundry circuits",
    )


@rule("cooking-rating", subject="cooking appliances", concept="range-load")
def cooking_rating(case: LoadCase) -> Finding:
    """Are the cooking appliances within the ratings that the table and its notes cover?

    Applies: where there are any.
    Rests on: the notes to the table end at 27 kW. Note 4, by which a counter-mounted unit and up to two ovens on one
    circuit count as one range, is for branch circuits: here each of them counts by itself.
    Missing facts: none are asked for.
    """
    cited = cooking_rating.cited(case.edition)
    ranges = case.household.ranges
    if not ranges:
        return cooking_rating.not_applicable("No cooking appliance is stated.", cited)
    greatest_w = 1000 * case.edition.provision("range-load").number("greatest_kw")
    largest = max(ranges, key=lambda unit: unit.facts.rating_w)
    return cooking_rating.at_most(
        largest.facts.rating_w,
        greatest_w,
        "W",
        f"The largest cooking appliance has {largest.facts.rating_w:g} W; the table covers household appliances up "
        f"to {greatest_w:g} W.",
        cited,
        largest.pointer + "/rating_w",
    )


@rule("motor-within-rating", subject="motors", concept="largest-motor")
def motor_within_rating(case: LoadCase) -> Finding:
    """Is the motor of every appliance and cooling unit a part of its rating?

    Applies: where the motor's part is stated.
    Rests on: a part is no larger than the whole; an appliance without a motor has no part for one.
    Missing facts: none are asked for.
    """
    of = motor_within_rating
    cited = of.cited(case.edition)
    rated: tuple[Placed[Appliance | Cooling], ...] = (*case.household.appliances, *case.household.cooling)
    stated = [item for item in rated if item.facts.motor_va is not None]
    for item in case.household.appliances:
        facts = item.facts
        if facts.motor is False and (facts.motor_va is not None or facts.motor_hp is not None):
            return of.finding(
                "fail",
                "A motor's rating is stated for an appliance that is stated to have no motor.",
                citation=cited,
                pointer=item.pointer + "/motor",
                required=Required(["yes"], "text", "one-of"),
                provided=Provided("no", "text"),
            )
    if not stated:
        return of.not_applicable("No motor's part of a rating is stated.", cited)
    worst = max(stated, key=lambda item: (item.facts.motor_va or 0.0) - item.facts.rating_va)
    motor_va = worst.facts.motor_va or 0.0
    return of.at_most(
        motor_va,
        worst.facts.rating_va,
        "VA",
        f"A motor of {motor_va:g} VA is stated within a rating of {worst.facts.rating_va:g} VA.",
        cited,
        worst.pointer + "/motor_va",
    )


@rule("heating-control", subject="space heating", concept="optional-heating-and-cooling")
def heating_control(case: LoadCase) -> Finding:
    """Do kind and number of units of the space heating agree?

    Applies: where both are stated.
    Rests on: central and storage heating has one control; units with a control each are separately controlled.
    Missing facts: a number of units means separately controlled, no number one unit.
    """
    cited = heating_control.cited(case.edition)
    both = [
        item
        for item in case.household.heating
        if item.facts.kind is not None and item.facts.separately_controlled_units is not None
    ]
    if not both:
        return heating_control.not_applicable("Kind and number of units are not both stated.", cited)
    for item in both:
        units = item.facts.separately_controlled_units or 1
        if item.facts.kind != "separately-controlled" and units > 1:
            return heating_control.one_of(
                str(item.facts.kind),
                ["separately-controlled"],
                f"{units} units with a control each are stated for {item.facts.kind} heating.",
                cited,
                item.pointer + "/kind",
                holds=False,
            )
    return heating_control.finding("pass", "Kind and number of units agree.", citation=cited)


@rule("listed-once", subject="loads of the dwelling", concept="noncoincident-load")
def listed_once(case: LoadCase) -> Finding:
    """Is every load listed once?

    Applies: where loads of different lists have a name.
    Rests on: a load that stands in two lists counts twice. A heat pump cools as well: its cooling is no second load.
    Missing facts: loads without a name cannot be compared.
    """
    cited = listed_once.cited(case.edition)
    seen: dict[str, str] = {}
    for kind, items in case.household.lists.items():
        for item in items:
            if item.facts.name is None:
                continue
            name = " ".join(item.facts.name.casefold().split())
            if seen.setdefault(name, kind) != kind:
                return listed_once.finding(
                    "fail",
                    f"{item.facts.name!r} stands in {seen[name]} and in {kind}: it would count twice.",
                    citation=cited,
                    pointer=item.pointer + "/name",
                    required=Required("one list", "text", "equal"),
                    provided=Provided(f"{seen[name]} and {kind}", "text"),
                )
    if not seen:
        return listed_once.not_applicable("No load has a name.", cited)
    return listed_once.finding("pass", "No name stands in two lists.", citation=cited)


@rule("heat-pump-listed-once", subject="heat pumps", concept="noncoincident-load", force="recommendation")
def heat_pump_listed_once(case: LoadCase) -> Finding:
    """Is no part of a heat pump listed as heating or cooling as well?

    Applies: where there are heat pumps beside heating or cooling.
    Rests on: common practice, no source: equal ratings in two lists are likely one piece of equipment. A heat pump's
    compressor counts for cooling already, and its supplemental heat for heating.
    Missing facts: none are asked for.
    """
    of = heat_pump_listed_once
    household = case.household
    if not household.heat_pumps or not (household.heating or household.cooling):
        return of.not_applicable("There is no heat pump beside heating or cooling.")
    compressors = {pump.facts.compressor_va for pump in household.heat_pumps}
    supplemental = {pump.facts.supplemental_heat_w for pump in household.heat_pumps}
    alike = [
        (item.pointer + "/rating_va", item.facts.rating_va, "VA", "a heat pump's compressor")
        for item in household.cooling
        if item.facts.rating_va in compressors
    ]
    alike += [
        (item.pointer + "/rating_w", item.facts.rating_w, "W", "a heat pump's supplemental heat")
        for item in household.heating
        if item.facts.rating_w in supplemental
    ]
    if not alike:
        return of.finding(
            "pass", "No heating or cooling has the rating of a heat pump's part.", citation=None
        )
    pointer, rating, unit, what = alike[0]
    return of.finding(
        "fail",
        f"{rating:g} {unit} is the rating of {what} too: list it once if it is the same.",
        citation=None,
        pointer=pointer,
        required=Required("one list", "text", "equal"),
        provided=Provided(rating, unit),
    )
