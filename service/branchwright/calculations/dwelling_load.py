"""Load of a dwelling: parts of a load, demand factors, cooking appliances, chargers, and the current of it all.

Loads are rounded to a millionth of a volt-ampere, so that binary fractions move no ampere across a half. Otherwise
the arithmetic is exact: a fraction of a kilowatt is not dropped, as some published examples do.
"""

from math import ceil, floor

from branchwright.calculations.calculation import calculation


@calculation("general lighting load by floor area", "round(va_per_ft2 * area_ft2, 6)", "VA")
def floor_area_load_va(va_per_ft2: float, area_ft2: float) -> float:
    """Return the general lighting and receptacle load in VA of a floor area in square feet.

    Source: NEC 220.41 (2023). Published example: 1500 ft2 at 3 VA, Annex D, example D1(a).

    >>> floor_area_load_va(3.0, 1500.0)
    4500.0
    """
    return round(va_per_ft2 * area_ft2, 6)


@calculation("load of the circuits", "round(va_each * max(circuits, least_circuits), 6)", "VA")
def circuits_load_va(va_each: float, circuits: float, least_circuits: float) -> float:
    """Return the load in VA of small-appliance or laundry circuits, no fewer than the least number.

    Source: NEC 220.52. Published example: two circuits, Annex D, example D1(a).

    >>> circuits_load_va(1500.0, 2.0, 2.0)
    3000.0
    """
    return round(va_each * max(circuits, least_circuits), 6)


@calculation("first part of the load", "min(load_va, up_to_va)", "VA")
def first_part_va(load_va: float, up_to_va: float) -> float:
    """Return the part in VA of a load up to a limit. Source: NEC Table 220.45 and 220.82(B) (2023).

    >>> first_part_va(9000.0, 3000.0)
    3000.0
    """
    return min(load_va, up_to_va)


@calculation("part of the load between two limits", "round(min(load_va, up_to_va) - above_va, 6)", "VA")
def middle_part_va(load_va: float, up_to_va: float, above_va: float) -> float:
    """Return the part in VA between two limits of a load that reaches beyond the lower one.

    Source: NEC Table 220.45 (2023).

    >>> middle_part_va(9000.0, 120000.0, 3000.0)
    6000.0
    """
    return round(min(load_va, up_to_va) - above_va, 6)


@calculation("remainder of the load", "round(load_va - above_va, 6)", "VA")
def rest_va(load_va: float, above_va: float) -> float:
    """Return the part in VA of a load beyond a limit that it reaches. Source: NEC Table 220.45 and 220.82(B) (2023).

    >>> rest_va(29700.0, 10000.0)
    19700.0
    """
    return round(load_va - above_va, 6)


@calculation("demand of the load", "round(load_va * percent / 100, 6)", "VA")
def demand_va(load_va: float, percent: float) -> float:
    """Return a percentage of a load, VA.

    Source: NEC article 220, wherever it has a demand factor. Published example: four water heaters of 4500 W at
    75 percent, Electrical Contractor magazine, Branch-Circuit, Feeder and Service Calculations, part LV.

    >>> demand_va(18000.0, 75.0)
    13500.0
    """
    return round(load_va * percent / 100, 6)


@calculation("demand factor of the dryers", "percent - less_percent_per_dryer * (dryers - above_dryers)", "%")
def dryers_percent(
    percent: float, less_percent_per_dryer: float, dryers: float, above_dryers: float
) -> float:
    """Return the percentage at which the load of many dryers counts, where the table prints a formula.

    Source: NEC Table 220.54: 47 percent less 1 percent for each dryer above 11, from 12 to 23 dryers.

    >>> dryers_percent(47.0, 1.0, 15.0, 11.0)
    43.0
    """
    return percent - less_percent_per_dryer * (dryers - above_dryers)


@calculation("appliances that count on three phases", "2 * ceil(appliances / 3)", "count")
def three_phase_count(appliances: float) -> float:
    """Return how many single-phase appliances the demand is taken for when they are spread over three phases.

    Twice the greatest number between any two phases. Source: NEC 220.54 and 220.55. Published example: ten ranges,
    Annex D, example D5(a).

    >>> three_phase_count(10.0)
    8.0
    """
    return 2.0 * ceil(appliances / 3)


@calculation("demand on three phases", "round(3 / 2 * demand_va, 6)", "VA")
def three_phase_demand_va(demand_va: float) -> float:
    """Return the load in VA of three phases, two of which see a demand in VA.

    Source: NEC 220.55. Published example: 23,000 VA become 34,500, Annex D, example D5(a).

    >>> three_phase_demand_va(23000.0)
    34500.0
    """
    return round(3 / 2 * demand_va, 6)


@calculation(
    "demand of the cooking appliances",
    "round(1000 * (demand_kw + demand_kw_per_appliance * appliances), 6)",
    "VA",
)
def growing_cooking_demand_va(demand_kw: float, demand_kw_per_appliance: float, appliances: float) -> float:
    """Return the demand in VA of many cooking appliances, where the table has so much for each.

    Source: NEC Table 220.55, column C. Published example: 30 ranges count 15 kW and 1 kW each, Annex D, example D6.

    >>> growing_cooking_demand_va(15.0, 1.0, 30.0)
    45000.0
    """
    return round(1000 * (demand_kw + demand_kw_per_appliance * appliances), 6)


@calculation("demand of the cooking appliances", "round(1000 * demand_kw, 6)", "VA")
def cooking_demand_va(demand_kw: float) -> float:
    """Return the demand in VA of cooking appliances that the table prints in kW.

    Source: NEC Table 220.55, column C. Published example: one range of 12 kW counts 8 kW, Annex D, example D1(a).

    >>> cooking_demand_va(8.0)
    8000.0
    """
    return round(1000 * demand_kw, 6)


@calculation(
    "increase for large ratings",
    "percent_per_kw * floor(max(round(average_kw - limit_kw, 6), 0) + 0.5)",
    "%",
)
def cooking_increase_percent(percent_per_kw: float, average_kw: float, limit_kw: float) -> float:
    """Return by how many percent the demand of column C grows for an average rating in kW above its limit.

    So much for each kW and for a major fraction of one, which is a half or more. Source: NEC Table 220.55, notes 1
    and 2. Published example: an average of 13.6 kW adds 10 percent, Annex D, example D6.

    >>> cooking_increase_percent(5.0, 13.6, 12.0)
    10.0
    """
    return percent_per_kw * floor(max(round(average_kw - limit_kw, 6), 0.0) + 0.5)


@calculation(
    "increased demand of the cooking appliances", "round(demand_va * (100 + increase_percent) / 100, 6)", "VA"
)
def increased_demand_va(demand_va: float, increase_percent: float) -> float:
    """Return a demand in VA grown by a percentage.

    Source: NEC Table 220.55, notes 1 and 2. Published example: one range of 14 kW, 8.8 kW, from a residential wiring
    textbook.

    >>> increased_demand_va(8000.0, cooking_increase_percent(5.0, 14.0, 12.0))
    8800.0
    """
    return round(demand_va * (100 + increase_percent) / 100, 6)


@calculation("load of the charger", "round(current_a * voltage_v, 6)", "VA")
def charger_load_va(current_a: float, voltage_v: float) -> float:
    """Return the load in VA of a single-phase charger by its current in A and the voltage in V.

    Source: definition of apparent power. Published example: 50 A at 240 V, 2026 Annex D, example D15.

    >>> charger_load_va(50.0, 240.0)
    12000.0
    """
    return round(current_a * voltage_v, 6)


@calculation("current of the load", "load_va / voltage_v", "A")
def line_current_a(load_va: float, voltage_v: float) -> float:
    """Return the current in A that a load in VA draws from two lines with a voltage in V between them.

    Loads from line to neutral are taken as spread evenly over the lines. Source: definition of apparent power.
    Published example: 18,600 VA at 240 V, Annex D, example D1(a).

    >>> line_current_a(18600.0, 240.0)
    77.5
    """
    return load_va / voltage_v


@calculation("current of the load on three phases", "load_va / (sqrt(3) * voltage_v)", "A")
def three_phase_current_a(load_va: float, voltage_v: float) -> float:
    """Return the current in A that a load in VA, spread evenly, draws from each of three phases.

    Source: definition of apparent power. Published example: 75,090 VA at 208 V, Annex D, example D5(a).

    >>> round(three_phase_current_a(75090.0, 208.0))
    208
    """
    return load_va / (3**0.5 * voltage_v)


@calculation("rounded current", "floor(round(current_a, 6) + 1 - dropped_below)", "A")
def rounded_current_a(current_a: float, dropped_below: float) -> float:
    """Return a current in whole amperes; a fraction below the given one is dropped, others count as one.

    Source: NEC 220.5(B), 0.5 A. Published examples: 77.5 A are 78 and 64.17 A are 64, Annex D, examples D1(a) and
    D2(a).

    >>> rounded_current_a(77.5, 0.5), rounded_current_a(64.1667, 0.5)
    (78.0, 64.0)
    """
    return float(floor(round(current_a, 6) + 1 - dropped_below))


@calculation(
    "current of the neutral after reduction",
    "above_a + (current_a - above_a) * above_percent / 100",
    "A",
)
def reduced_neutral_current_a(current_a: float, above_a: float, above_percent: float) -> float:
    """Return the current in A that a neutral counts, where its unbalanced current exceeds a limit in A.

    Source: NEC 220.61(B). Published example: 276.5 A count 253.6 A, Annex D, example D5(a).

    >>> round(reduced_neutral_current_a(276.5, 200.0, 70.0), 2)
    253.55
    """
    return above_a + (current_a - above_a) * above_percent / 100
