"""What a service carries: measured demand, charging loads, settings of energy management, conductors and busbars."""

from branchwright.calculations.calculation import calculation


@calculation("demand with the load of other seasons", "demand_w + seasonal_va", "W")
def seasonal_demand_w(demand_w: float, seasonal_va: float) -> float:
    """Return a measured demand in W with the load in VA that belongs to another season than the record's.

    Watts count as volt-amperes. Source: NEC 220.87, exception.

    >>> seasonal_demand_w(8000.0, 4000.0)
    12000.0
    """
    return demand_w + seasonal_va


@calculation("existing load by measured demand", "round(factor * demand_w, 6)", "VA")
def measured_load_va(factor: float, demand_w: float) -> float:
    """Return the existing load in VA that a measured demand in W stands for.

    Formula: factor times the greatest demand; watts count as volt-amperes. Source: NEC 220.87, factor 1.25. Rounded
    to a millionth, so that binary fractions decide nothing.

    >>> measured_load_va(1.25, 12000.0)
    15000.0
    """
    return round(factor * demand_w, 6)


@calculation(
    "bound on the demand of a shorter interval", "2 * averaging_minutes / short_minutes * demand_w", "W"
)
def short_demand_bound_w(averaging_minutes: float, short_minutes: float, demand_w: float) -> float:
    """Return what no demand over the shorter interval can exceed, in W, where the greatest over a longer one is known.

    A short interval lies in at most two neighbouring long ones, so its energy is at most theirs: no more than twice
    the greatest demand times the long interval. Source: arithmetic; no factor of experience is in it.

    >>> short_demand_bound_w(60.0, 15.0, 5000.0)
    40000.0
    """
    return 2 * averaging_minutes / short_minutes * demand_w


@calculation("load of the chargers on the service", "round(factor * charging_va, 6)", "VA")
def charging_on_service_va(factor: float, charging_va: float) -> float:
    """Return what a charging load in VA counts for at the devices and conductors of the service.

    Formula: factor times load. Source: NEC 230.42(A) and 215.3, factor 1.25 for continuous loads.

    >>> charging_on_service_va(1.25, 11520.0)
    14400.0
    """
    return round(factor * charging_va, 6)


@calculation("load of the service", "round(existing_va + charging_va, 6)", "VA")
def service_load_va(existing_va: float, charging_va: float) -> float:
    """Return the load in VA of what is there and of the chargers. Source: definition.

    >>> service_load_va(15000.0, 14400.0)
    29400.0
    """
    return round(existing_va + charging_va, 6)


@calculation("current of the busiest line on three phases", "existing_a + charging_va / voltage_v", "A")
def three_phase_service_a(existing_a: float, charging_va: float, voltage_v: float) -> float:
    """Return the current in A of the busiest line of three phases: a balanced load, and single-phase chargers.

    Formula: the balanced current in A and the chargers' own, all of them between the same two lines, which is the
    worst that they can do. Source: Kirchhoff's current law.

    >>> three_phase_service_a(60.0, 12480.0, 208.0)
    120.0
    """
    return existing_a + charging_va / voltage_v


@calculation("headroom", "limit_a - existing_a", "A")
def headroom_a(limit_a: float, existing_a: float) -> float:
    """Return what a limit in A leaves beside an existing load in A; below zero where it leaves nothing.

    Source: definition.

    >>> headroom_a(100.0, 62.5)
    37.5
    """
    return limit_a - existing_a


@calculation("current of energy management that counts", "round(factor * control_setting_a, 6)", "A")
def setting_load_a(factor: float, control_setting_a: float) -> float:
    """Return the current in A that a control setting in A counts for.

    Formula: factor times setting, since the setting is a continuous load. Source: NEC 220.70 (2023).

    >>> setting_load_a(1.25, 80.0)
    100.0
    """
    return round(factor * control_setting_a, 6)


@calculation("greatest continuous load of a rating", "round(rating_a / factor, 6)", "A")
def greatest_continuous_a(rating_a: float, factor: float) -> float:
    """Return the greatest continuous load in A that a rating in A takes.

    Formula: rating over factor. Source: NEC 625.41, factor 1.25. Published example: 80 A on a circuit of 100 A,
    a continuing-education page on 625.42.

    >>> greatest_continuous_a(100.0, 1.25)
    80.0
    """
    return round(rating_a / factor, 6)


@calculation("share of each charger", "setting_a / chargers", "A")
def share_a(setting_a: float, chargers: float) -> float:
    """Return the equal share in A of a setting that so many chargers hold together. Source: definition.

    >>> round(share_a(80.0, 3.0), 2)
    26.67
    """
    return setting_a / chargers


@calculation("least ampacity of dwelling service conductors", "round(percent / 100 * rating_a, 6)", "A")
def least_service_ampacity_a(percent: float, rating_a: float) -> float:
    """Return the least ampacity in A of conductors that carry the entire load of a dwelling.

    Formula: percent of the service rating. Source: NEC 310.12, 83 percent. Published example: 200 A asks for 166 A.

    >>> least_service_ampacity_a(83.0, 200.0)
    166.0
    """
    return round(percent / 100 * rating_a, 6)


@calculation("current of both supplies of a busbar", "round(main_breaker_a + factor * backfeed_a, 6)", "A")
def busbar_supplies_a(main_breaker_a: float, factor: float, backfeed_a: float) -> float:
    """Return what the main breaker and a backfeed in A can put on a busbar together, in A.

    Formula: main breaker plus factor times the output current of the inverter; the factor is 1 where the backfed
    breaker, sized at 125 percent of it, is taken. Source: NEC 705.12.

    >>> busbar_supplies_a(100.0, 1.25, 32.0)
    140.0
    """
    return round(main_breaker_a + factor * backfeed_a, 6)


@calculation("greatest current of both supplies", "round(percent / 100 * busbar_a, 6)", "A")
def busbar_limit_a(percent: float, busbar_a: float) -> float:
    """Return what both supplies of a busbar in A may come to, in A. Source: NEC 705.12, 120 percent.

    >>> busbar_limit_a(120.0, 200.0)
    240.0
    """
    return round(percent / 100 * busbar_a, 6)
