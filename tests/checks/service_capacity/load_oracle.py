"""A second load calculation for dwellings, by hand-written arithmetic with exact fractions.

It imports nothing of the service and reads none of its data files: `load_tables` has what is printed, `load_facts`
what is stated. A method's answer is the load of each group, so that what differs can be named.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor

from tests.checks.service_capacity import load_tables as tables
from tests.checks.service_capacity.load_facts import Home, Json, exact, of

METHODS = ("standard", "optional-new", "optional-existing")
HALF = Fraction(1, 2)
LINE_TO_LINE_V = 150


@dataclass(frozen=True)
class Load:
    """What one method makes of a dwelling: VA by group, the neutral, and amperes before rounding."""

    groups: dict[str, Fraction]
    neutral_va: Fraction
    current_a: Fraction
    neutral_current_a: Fraction
    permitted: bool | None

    @property
    def total_va(self) -> Fraction:
        """The load of all groups."""
        return sum(self.groups.values(), Fraction(0))


def total(values: Iterable[Fraction]) -> Fraction:
    """Return a sum that is a fraction also where there is nothing to add."""
    return sum(values, Fraction(0))


def rounded(value: Fraction) -> int:
    """220.5(B): to the nearest whole ampere, a half and more upward."""
    return floor(value + HALF)


def by_steps(load_va: Fraction) -> Fraction:
    """Table 220.42: what remains of general lighting with its circuits."""
    demand, below = Fraction(0), Fraction(0)
    for up_to, share in tables.LIGHTING_STEPS:
        top = load_va if up_to is None else min(load_va, Fraction(up_to))
        demand += share * max(top - below, Fraction(0))
        below = top
    return demand


# ---------------------------------------------------------------------------------- cooking: 220.55


def note_share(average_kw: Fraction) -> Fraction:
    """Notes 1 and 2: 5 percent more for each kilowatt above 12, a major fraction counting as one."""
    return 1 + tables.MORE_PER_KW * max(floor(average_kw - tables.COLUMN_C_UP_TO_KW + HALF), 0)


def spread(home: Home, ratings: list[Fraction]) -> tuple[list[Fraction], Fraction]:
    """220.54 and 220.55 on three phases: twice the greatest number between any two, which see two thirds of the load.

    The largest are taken to be those between the two. Annex D, example D5(a), has the same arithmetic.
    """
    if not home.three_phases or len(ratings) == 1:
        return ratings, Fraction(1)
    return sorted(ratings, reverse=True)[: 2 * ceil(Fraction(len(ratings), 3))], Fraction(3, 2)


def column_c_va(home: Home, ratings_kw: list[Fraction]) -> Fraction:
    """Column C with notes 1 and 2; those of less than 12 kW count as 12 in the average.

    The average is that of all ranges also where three phases make the table count fewer: the note says so.
    """
    if not ratings_kw:
        return Fraction(0)
    counted, more = spread(home, ratings_kw)
    demand_kw = tables.column_c_kw(len(counted))
    if max(ratings_kw) > tables.COLUMN_C_UP_TO_KW:
        average = total(max(kw, tables.COLUMN_C_UP_TO_KW) for kw in ratings_kw) / len(ratings_kw)
        demand_kw *= note_share(average)
    return 1000 * more * demand_kw


def columns_a_and_b_va(home: Home, ratings_kw: list[Fraction]) -> Fraction:
    """Note 3: each column's share of its own appliances, added."""
    demand_kw = Fraction(0)
    for ratings, column in (
        ([kw for kw in ratings_kw if kw < tables.COLUMN_A_BELOW_KW], tables.column_a),
        ([kw for kw in ratings_kw if kw >= tables.COLUMN_A_BELOW_KW], tables.column_b),
    ):
        if ratings:
            counted, more = spread(home, ratings)
            demand_kw += more * column(len(counted)) * total(counted)
    return 1000 * demand_kw


def small_cooking_va(home: Home) -> Fraction:
    """What is too small for table 220.55."""
    ratings = [of(unit, "rating_w") for unit in home.items("ranges")]
    return total(watts for watts in ratings if watts / 1000 <= tables.RANGE_SCOPE_KW)


def table_cooking_va(home: Home) -> Fraction:
    """The least that table 220.55 permits.

    Column C for all where none exceeds 12 kW; or column C for those above 8 3/4 kW and note 3 for the rest.
    """
    all_kw = [of(unit, "rating_w") / 1000 for unit in home.items("ranges")]
    inside = [kw for kw in all_kw if kw > tables.RANGE_SCOPE_KW]
    small = [kw for kw in inside if kw <= tables.COLUMN_B_UP_TO_KW]
    large = [kw for kw in inside if kw > tables.COLUMN_B_UP_TO_KW]
    permitted = [column_c_va(home, large) + columns_a_and_b_va(home, small)]
    if not large or max(large) <= tables.COLUMN_C_UP_TO_KW:
        permitted.append(column_c_va(home, inside))
    return min(permitted)


def dryers_va(home: Home) -> Fraction:
    """220.54: no less than 5,000 VA each, at the table's share."""
    loads = [max(of(dryer, "rating_w"), Fraction(tables.LEAST_DRYER_VA)) for dryer in home.items("dryers")]
    counted, more = spread(home, loads)
    return more * tables.dryer_share(len(counted)) * total(counted)


# ------------------------------------------------------------------------------- appliances: 220.53


def is_general(appliance: Json) -> bool:
    """Whether a portable appliance without a circuit of its own is among the lighting and small-appliance loads."""
    return appliance.get("fastened_in_place") is False and appliance.get("on_own_circuit") is False


def counts_to_four(home: Home, appliance: Json) -> bool:
    """Whether an appliance is one of the four or more fastened in place."""
    if appliance.get("fastened_in_place") is not True:
        return False
    large = of(appliance, "rating_va") >= tables.LEAST_APPLIANCE_VA[home.edition]
    return large or of(appliance, "motor_hp") >= tables.LEAST_APPLIANCE_HP


def appliance_share(home: Home, appliance: Json) -> Fraction:
    """75 percent for each of four or more, otherwise all of it; nothing for one among the general loads."""
    if is_general(appliance):
        return Fraction(0)
    four = [one for one in home.items("appliances") if counts_to_four(home, one)]
    if len(four) >= tables.FOUR_APPLIANCES and counts_to_four(home, appliance):
        return tables.FOUR_APPLIANCES_SHARE
    return Fraction(1)


def appliances_va(home: Home) -> Fraction:
    """Every appliance at its share."""
    return total(appliance_share(home, one) * of(one, "rating_va") for one in home.items("appliances"))


# -------------------------------------------------------- heating, cooling and motors: 220.50, 51, 60


def heat_pump_heat_va(pump: Json) -> Fraction:
    """Compressor and supplemental heat together; where they are interlocked the larger one."""
    compressor, supplemental = of(pump, "compressor_va"), of(pump, "supplemental_heat_w")
    return max(compressor, supplemental) if pump.get("interlocked") else compressor + supplemental


def heat_motors(home: Home) -> list[Fraction]:
    """Compressors that run while the house is heated."""
    return [
        of(pump, "compressor_va")
        for pump in home.items("heat_pumps")
        if not (pump.get("interlocked") and of(pump, "supplemental_heat_w") > of(pump, "compressor_va"))
    ]


def cool_motors(home: Home) -> list[Fraction]:
    """Compressors that run while the house is cooled."""
    coolers = [exact(cooler.get("motor_va") or cooler["rating_va"]) for cooler in home.items("cooling")]
    return coolers + [of(pump, "compressor_va") for pump in home.items("heat_pumps")]


def cooling_va(home: Home) -> Fraction:
    """All that cools, at 100 percent."""
    return total(of(cooler, "rating_va") for cooler in home.items("cooling")) + total(
        of(pump, "compressor_va") for pump in home.items("heat_pumps")
    )


def other_motors(home: Home) -> list[Fraction]:
    """Motors among the appliances."""
    return [motor_va(one) for one in home.items("appliances") if motor_va(one)]


def motor_va(appliance: Json) -> Fraction:
    """The part of an appliance that a motor takes, all of it unless stated."""
    if is_general(appliance) or not appliance.get("motor"):
        return Fraction(0)
    return exact(appliance.get("motor_va") or appliance["rating_va"])


def heating_va(home: Home) -> Fraction:
    """All that heats, at 100 percent."""
    return total(of(heat, "rating_w") for heat in home.items("heating")) + total(
        heat_pump_heat_va(pump) for pump in home.items("heat_pumps")
    )


def season(home: Home) -> tuple[Fraction, Fraction]:
    """Heating or cooling, whichever counts, and 25 percent of the largest motor that counts with it.

    2017: the larger of the two, with the motors that run then. From 2020, by one reading, the one that is larger with
    its motor at 125 percent; by the other the larger of the two, and the motor left out if it is the largest.
    """
    cool, heat = (
        (load_va, tables.LARGEST_MOTOR_MORE * max(motors + other_motors(home), default=Fraction(0)))
        for load_va, motors in ((cooling_va(home), cool_motors(home)), (heating_va(home), heat_motors(home)))
    )
    if not tables.OMITTED_MOTOR_COUNTS[home.edition]:
        return max(cool, heat)
    if home.reading("omitted-motor") == "added":
        return max(cool[0], heat[0]), max(cool[1], heat[1])
    return max((max(cool, heat), min(cool, heat)), key=sum)


# ------------------------------------------------------------------------------------- the methods


def chargers_va(home: Home, *, part_three: bool) -> Fraction | None:
    """All chargers; None where one of them cannot be told. Those that are managed together take what they are let."""
    loads = [home.charger_va(charger, part_three=part_three) for charger in home.items("chargers")]
    known = [load for load in loads if load is not None]
    if len(known) < len(loads):
        return None
    groups: dict[str, Fraction] = {}
    free = Fraction(0)
    for charger, own in zip(home.items("chargers"), known, strict=True):
        group = charger.get("managed_by")
        if group is None:
            free += own
        else:
            groups[group] = groups.get(group, Fraction(0)) + own
    settings = {one["name"]: exact(one["control_setting_a"]) for one in home.items("load_management")}
    return free + total(min(sum_va, settings[name] * home.line_v) for name, sum_va in groups.items())


def standard(home: Home) -> dict[str, Fraction] | None:
    """Part III: every load at its own demand factor."""
    chargers = chargers_va(home, part_three=True)
    if chargers is None:
        return None
    conditioning, motor = season(home)
    return {
        "lighting": by_steps(home.lighting_va() + home.circuits_va()),
        "appliances": appliances_va(home),
        "cooking": small_cooking_va(home) + table_cooking_va(home),
        "dryers": dryers_va(home),
        "heating-or-cooling": conditioning,
        "largest-motor": motor,
        "chargers": chargers,
    }


def nameplates_va(home: Home) -> Fraction:
    """What 220.82(B) and 220.83 put together: lighting, circuits and every nameplate."""
    return (
        home.lighting_va()
        + home.circuits_va()
        + total(of(unit, "rating_w") for unit in home.items("ranges") + home.items("dryers"))
        + total(of(one, "rating_va") for one in home.items("appliances") if not is_general(one))
    )


def pooled(load_va: Fraction, first_va: int) -> Fraction:
    """The first so many VA in full, the rest at 40 percent."""
    return min(load_va, Fraction(first_va)) + tables.REST * max(load_va - first_va, Fraction(0))


def with_chargers(home: Home, pool_va: Fraction, chargers: Fraction, first_va: int) -> dict[str, Fraction]:
    """The pool, with the chargers in it or beside it."""
    if home.reading("charger-in-optional-method") == "in-the-pool":
        return {"pool": pooled(pool_va + chargers, first_va), "chargers": Fraction(0)}
    return {"pool": pooled(pool_va, first_va), "chargers": chargers}


def largest_selection_va(home: Home) -> Fraction:
    """220.82(C): the largest of the selections; what heats together is one selection."""
    factors = {
        "thermal-storage": Fraction(1),
        "central": tables.FEW_UNITS,
        "separately-controlled": tables.MANY_UNITS if home.many_units() else tables.FEW_UNITS,
    }
    heat = total(factors[home.heating_kind(one)] * of(one, "rating_w") for one in home.items("heating"))
    for pump in home.items("heat_pumps"):
        compressor = of(pump, "compressor_va")
        supplemental = tables.SUPPLEMENTAL_HEAT * of(pump, "supplemental_heat_w")
        heat += max(compressor, supplemental) if pump.get("interlocked") else compressor + supplemental
    return max(heat, cooling_va(home))


def optional_new(home: Home) -> dict[str, Fraction] | None:
    """220.82."""
    chargers = chargers_va(home, part_three=False)
    if chargers is None:
        return None
    return {
        **with_chargers(home, nameplates_va(home), chargers, tables.OPTIONAL_FIRST_VA[home.edition]),
        "heating-or-cooling": largest_selection_va(home),
    }


def existing_in_pool_va(home: Home) -> Fraction:
    """220.83(A): heating and cooling that is there, all of it in the pool by one reading, none by the other.

    What table 120.83 of 2026 does with them was not seen: the same two readings.
    """
    if home.reading("existing-heating-and-cooling") == "left-out" and not home.has_new_heating_or_cooling():
        return Fraction(0)
    return heating_va(home) + total(of(cooler, "rating_va") for cooler in home.items("cooling"))


def optional_existing(home: Home) -> dict[str, Fraction] | None:
    """220.83(A), or (B) where heating or cooling is added."""
    chargers = chargers_va(home, part_three=False)
    if chargers is None:
        return None
    pool = nameplates_va(home)
    beside = Fraction(0)
    in_full = home.edition != "nec-2026" or home.reading("added-heating-and-cooling") == "at-full-value"
    if home.has_new_heating_or_cooling() and in_full:
        heat = total(heat_pump_heat_va(pump) for pump in home.items("heat_pumps"))
        for heater in home.items("heating"):
            if home.many_units() and home.heating_kind(heater) == "separately-controlled":
                pool += of(heater, "rating_w")
            else:
                heat += of(heater, "rating_w")
        beside = max(heat, cooling_va(home))
    else:
        pool += existing_in_pool_va(home)
    return {
        **with_chargers(home, pool, chargers, tables.EXISTING_FIRST_VA),
        "heating-or-cooling": beside,
    }


# ------------------------------------------------------------------------------------- the neutral


def uses_neutral(appliance: Json) -> bool:
    """Whether an appliance runs from a line to the neutral, needs both, or of a voltage that nobody stated."""
    voltage = appliance.get("voltage_v")
    return voltage is None or voltage < LINE_TO_LINE_V or bool(appliance.get("uses_neutral"))


def neutral_va(home: Home) -> Fraction:
    """220.61(A) and (B), the same by every method: lighting, cooking and dryers, and what runs on 120 V.

    The 70 percent are for what table 220.55 determines: a cooking unit too small for it counts in full.
    """
    cooking = dryers = Fraction(1)
    if not (home.wye and not home.three_phases):
        cooking, dryers = tables.COOKING_ON_NEUTRAL, tables.DRYERS_ON_NEUTRAL
    low = [one for one in home.items("appliances") if uses_neutral(one)]
    low_motors = [motor_va(one) for one in low]
    return (
        by_steps(home.lighting_va() + home.circuits_va())
        + small_cooking_va(home)
        + cooking * table_cooking_va(home)
        + dryers * dryers_va(home)
        + total(appliance_share(home, one) * of(one, "rating_va") for one in low)
        + tables.LARGEST_MOTOR_MORE * max(low_motors, default=Fraction(0))
    )


def neutral_a(home: Home, load_va: Fraction) -> Fraction:
    """220.61(B)(2): beyond 200 A at 70 percent, save on three wires of a wye."""
    current = home.current_a(load_va)
    beyond = max(current - tables.NEUTRAL_FULL_UP_TO_A, Fraction(0))
    if home.wye and not home.three_phases:
        return current
    return current - beyond + tables.NEUTRAL_BEYOND * beyond


# ----------------------------------------------------------------------------- what is asked of it


def permitted(home: Home, method: str) -> bool | None:
    """Whether an optional method may be used: one unit on three wires, and for a new one 100 A or more."""
    if method == "standard":
        return True
    if home.three_phases:
        return False
    if method == "optional-existing":
        # For a dwelling that is there and takes on load: not to be told where nothing is being added.
        return True if home.adds_anything() else None
    ampacity = home.service.get("conductor_ampacity_a")
    return None if ampacity is None else exact(ampacity) >= tables.LEAST_OPTIONAL_AMPACITY_A


def load(home: Home, method: str) -> Load | None:
    """The load by one method; None where a charger's load cannot be told."""
    compute = {"standard": standard, "optional-new": optional_new, "optional-existing": optional_existing}
    groups = compute[method](home)
    if groups is None:
        return None
    neutral = neutral_va(home)
    return Load(
        groups=groups,
        neutral_va=neutral,
        current_a=home.current_a(total(groups.values())),
        neutral_current_a=neutral_a(home, neutral),
        permitted=permitted(home, method),
    )


def service_carries(home: Home, loads: list[Load]) -> bool | None:
    """Whether any permitted method gives a load within the rating; None where that is open."""
    rating = exact(home.service["rating_a"])
    within = [
        load.permitted for load in loads if load.permitted is not False and rounded(load.current_a) <= rating
    ]
    return True if True in within else None if within else False


def verdict(home: Home, methods: list[str]) -> str:
    """What is found of the service: whether it carries the load by a permitted method, and is no smaller than any."""
    loads = [found for method in methods if (found := load(home, method)) is not None]
    carries = service_carries(home, loads)
    least = tables.LEAST_SERVICE_A[home.request.get("occupancy") or "one-family"]
    if carries is False or exact(home.service["rating_a"]) < least:
        return "fail"
    return "undetermined" if carries is None else "no-failure-found"


def least_service_a(home: Home, current_a: Fraction) -> int | None:
    """The smallest standard rating for a rounded current, and no less than 230.79 asks for."""
    occupancy = home.request.get("occupancy") or "one-family"
    least = max(rounded(current_a), tables.LEAST_SERVICE_A[occupancy])
    return next((rating for rating in tables.STANDARD_RATINGS_A if rating >= least), None)
