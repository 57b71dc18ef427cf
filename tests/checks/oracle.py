"""A second sizing of charger circuits: by brute force, with exact fractions, from the codebook's data files alone.

It imports nothing of the service. Every rule of the contract is one small function; a design is the first
size of each list for which all of them hold. The facts and the data files are `oracle_facts`.
"""

import math
from fractions import Fraction

from tests.checks.oracle_facts import Facts, Json, exact, feet, has_provision

# ------------------------------------------------------------------- load and breaker: api.md, rules 2 and 10


def rated_a(facts: Facts) -> Fraction:
    """Return the nameplate current; the charging current stands for one that is not stated."""
    return exact(facts.charger.get("rated_current_a") or facts.charger["charging_current_a"])


def setting_counts(facts: Facts) -> bool:
    """Rule 10, 625.42: whether the edition lets the setting stand for the rating.

    2023 and 2026 where access is restricted, 2020 for permanently connected equipment; 2017 by one reading.
    """
    rule = facts.provision("current-setting")
    access = facts.charger.get("setting_access") or ("restricted" if facts.best else "unrestricted")
    permitted = rule["counts"] == "yes" or (
        rule["counts"] == "read-two-ways" and facts.reading("setting-as-rating") == "setting"
    )
    by_access = rule["access"] == "any" or access == rule["access"]
    by_connection = rule["fixed_only"] == "no" or not facts.plugged
    return permitted and by_access and by_connection


def load_a(facts: Facts) -> Fraction:
    """Rule 10: the setting where it counts, otherwise the rated current."""
    if setting_counts(facts):
        return exact(facts.charger["charging_current_a"])
    # A setting above the rating fails by itself; the larger of the two is the careful load meanwhile.
    return max(rated_a(facts), exact(facts.charger["charging_current_a"]))


def setting_holds(facts: Facts) -> bool:
    """A setting above the rating is a contradiction: api.md, status codes."""
    return exact(facts.charger["charging_current_a"]) <= rated_a(facts)


def setting_label_holds(facts: Facts, label: bool) -> bool | None:
    """625.42: the adjusted rating is on the label. None where the edition has no words on such a label."""
    if not setting_counts(facts) or exact(facts.charger["charging_current_a"]) >= rated_a(facts):
        return True
    return label if has_provision(facts.edition, "setting-label") else None


def phases_hold(facts: Facts) -> bool:
    """The supply system has as many phases as the charger uses."""
    return facts.stated_phases == facts.phases


def continuous_breaker_holds(facts: Facts, breaker_a: Fraction) -> bool:
    """Rule 2, 625.41: 125 % always."""
    return breaker_a >= exact(facts.provision("continuous-load")["factor"]) * load_a(facts)


def breaker_is_made(facts: Facts, breaker_a: Fraction) -> bool:
    """A standard rating of 240.6(A), and no less than decision 11 lets a charger have."""
    standard = any(exact(row["rating_a"]) == breaker_a for row in facts.table("standard_ratings"))
    return standard and breaker_a >= exact(facts.provision("branch-circuit-rating")["least_a"])


def marked_device_holds(facts: Facts, breaker_a: Fraction) -> bool:
    """110.3(B): no more than the charger's marking allows."""
    greatest = (facts.charger.get("markings") or {}).get("greatest_overcurrent_device_a")
    return greatest is None or breaker_a <= exact(greatest)


def receptacle_rating_a(facts: Facts) -> Fraction | None:
    """Return the rating of the receptacle, None where the codebook does not have it."""
    found = facts.cell("receptacles", "rating_a", configuration=facts.connection["configuration"])
    return exact(found) if found else None


def receptacle_configuration_holds(facts: Facts) -> bool:
    """Rule 11, 625.44: one that the edition prints, or by one reading reports; all are single-phase."""
    if not facts.plugged:
        return True
    printed = facts.cell("receptacles", "printed", configuration=facts.connection["configuration"])
    reported = printed == "reported" and facts.reading("sixty-ampere-receptacle") == "printed"
    return (printed == "yes" or reported) and facts.phases == 1


def receptacle_rating_holds(facts: Facts, breaker_a: Fraction) -> bool:
    """210.21(B)(1): a single receptacle is rated no less than its circuit; 2026, 625.44: nor more."""
    rating = receptacle_rating_a(facts) if facts.plugged else None
    if rating is None:
        return True
    rule = facts.provision("receptacle-rating")
    equal = rule["equal_only"] == "no" or rating == breaker_a
    return equal and rating >= exact(rule["factor"]) * breaker_a


def receptacle_listing_holds(facts: Facts) -> bool:
    """2026, 625.44: receptacles from a rating up are listed for charging."""
    rule, rating = (
        facts.provision("receptacle-listing"),
        receptacle_rating_a(facts) if facts.plugged else None,
    )
    if rating is None or rule["applies"] == "no" or rating < exact(rule["from_a"]):
        return True
    return facts.known(facts.connection.get("listed_for_ev_charging"))


def point_ratings_hold(facts: Facts, breaker_a: Fraction) -> bool:
    """Each device on the run is rated no less than the breaker; a splice has no rating."""
    factor = exact(facts.provision("point-rating")["factor"])
    return all(
        exact(point["rating_a"]) >= factor * breaker_a
        for point in facts.points
        if point["kind"] != "splice" and point.get("rating_a") is not None
    )


# --------------------------------------------------------------- ampacity: api.md, rules 1, 3, 4, 5 and 7


def termination_column_c(facts: Facts, breaker_a: Fraction) -> int:
    """Rule 3, 110.14(C)(1): the lowest-rated terminal; 60 degC up to 100 A unless marked, never above 75."""
    rule = facts.provision("termination-temperature")
    lower = breaker_a <= exact(rule["circuit_up_to_a"]) and not facts.best
    unmarked = rule["unmarked_up_to_c"] if lower else rule["unmarked_above_c"]
    ratings = [marking.get("temperature_rating_c") or unmarked for marking in facts.terminals()]
    return int(min([*ratings, rule["greatest_c"]]))


def ampacity_before_a(facts: Facts, size: str, breaker_a: Fraction) -> Fraction | None:
    """Rule 1: ampacity before correction and adjustment, at the lowest column of terminals and caps.

    Cables may have conductors of a temperature below that of the terminals: 110.14(C) names these as well.
    """
    columns = [termination_column_c(facts, breaker_a)]
    for segment in facts.run:
        if facts.is_cable(segment):
            columns.append(facts.conductor_column_c(segment))
            cap = facts.column_cap_c(segment, size)
            columns += [] if cap is None else [cap]
    return facts.ampacity_a(facts.material, size, min(columns))


def continuous_conductor_holds(facts: Facts, size: str, breaker_a: Fraction) -> bool:
    """Rule 1, 210.19(A)(1): that ampacity carries 125 % of the load."""
    before = ampacity_before_a(facts, size, breaker_a)
    factor = exact(facts.provision("conductor-continuous-load")["factor"])
    return before is not None and before >= factor * load_a(facts)


def segment_ampacity_a(facts: Facts, segment: Json, size: str) -> Fraction | None:
    """Rule 1: from the insulation's own column, corrected, adjusted, capped. None: no current at all."""
    column = facts.conductor_column_c(segment)
    row = facts.first_at_least("ambient_correction", "up_to_c", facts.ambient_c(segment))
    if row is None or row[str(column)] == "":
        return None
    from_table = facts.ampacity_a(facts.material, size, column)
    if from_table is None:
        return None
    corrected = from_table * exact(row[str(column)]) * facts.count_factor(segment)
    cap_c = facts.column_cap_c(segment, size)
    cap_a = None if cap_c is None else facts.ampacity_a(facts.material, size, cap_c)
    return corrected if cap_a is None else min(corrected, cap_a)


def ampacity_after_a(facts: Facts, size: str) -> Fraction | None:
    """Rule 4: the worst segment governs, save for the short-length exception as decision 9 reads it.

    It never serves a cable whose article caps it, whatever is calculated: 334.80 and the like.
    """
    rule = facts.provision("short-length-exception")
    found = [(segment_ampacity_a(facts, segment, size), segment) for segment in facts.run]
    known = [(ampacity, segment) for ampacity, segment in found if ampacity is not None]
    if len(known) < len(found):
        return None
    holding = []
    for candidate, _ in known:
        below = [segment for ampacity, segment in known if ampacity < candidate]
        above = [segment for ampacity, segment in known if ampacity >= candidate]
        short = sum((feet(segment["length"]) for segment in below), Fraction(0))
        rest = sum((feet(segment["length"]) for segment in above), Fraction(0))
        most = min(exact(rule["longest_ft"]), exact(rule["greatest_percent"]) / 100 * rest)
        if short <= most and not any(facts.column_cap_c(segment, size) for segment in below):
            holding.append(candidate)
    return max(holding)


def corrected_ampacity_holds(facts: Facts, size: str) -> bool:
    """Rule 1, 210.19(A)(2): after correction and adjustment, the load itself."""
    after = ampacity_after_a(facts, size)
    factor = exact(facts.provision("conductor-actual-load")["factor"])
    return after is not None and after >= factor * load_a(facts)


def is_protected(facts: Facts, least: Fraction, breaker_a: Fraction) -> bool:
    """240.4: the breaker is no more than an ampacity, or than the next standard rating above it."""
    if breaker_a <= least:
        return True
    next_up, rule = (
        facts.first_at_least("standard_ratings", "rating_a", least),
        facts.provision("next-size-up"),
    )
    if next_up is None or rule["permitted"] != "yes":
        return False
    # Where the least value is itself a standard rating, the first that is at least it is no step up.
    return breaker_a <= exact(next_up["rating_a"]) <= exact(rule["up_to_a"])


def protection_holds(facts: Facts, size: str, breaker_a: Fraction) -> bool:
    """Rule 1, 240.4: the breaker protects the least ampacity."""
    before, after = ampacity_before_a(facts, size, breaker_a), ampacity_after_a(facts, size)
    return before is not None and after is not None and is_protected(facts, min(before, after), breaker_a)


def small_conductor_holds(facts: Facts, size: str, breaker_a: Fraction) -> bool:
    """Rule 5, 240.4(D): after everything else."""
    column = "greatest_overcurrent_device_a"
    limit = facts.cell("small_conductor_limits", column, material=facts.material, size=size)
    return not limit or breaker_a <= exact(limit)


def carries_and_is_protected(facts: Facts, size: str, breaker_a: Fraction) -> bool:
    """Whether a size is large enough by every rule about ampacity."""
    return (
        continuous_conductor_holds(facts, size, breaker_a)
        and corrected_ampacity_holds(facts, size)
        and protection_holds(facts, size, breaker_a)
        and small_conductor_holds(facts, size, breaker_a)
    )


def carries_before_correction(facts: Facts, size: str, breaker_a: Fraction) -> bool:
    """Whether a size would be large enough if nothing were corrected or adjusted."""
    before = ampacity_before_a(facts, size, breaker_a)
    return (
        before is not None
        and continuous_conductor_holds(facts, size, breaker_a)
        and is_protected(facts, before, breaker_a)
        and small_conductor_holds(facts, size, breaker_a)
    )


# ------------------------------------------------- what else bears on the ungrounded size: rules 4, 7 and 8


def operating_temperature_c(facts: Facts, segment: Json, size: str) -> Fraction | None:
    """Rule 7 and decision 6: ambient + (75 - 30) (load / 75 degC column, adjusted for the count) squared."""
    reference_c = int(facts.provision("operating-temperature")["reference_c"])
    at_reference = facts.ampacity_a(facts.material, size, reference_c)
    if at_reference is None:
        return None
    rise = reference_c - exact(facts.provision("base-ambient")["ambient_c"])
    ratio = load_a(facts) / (at_reference * facts.count_factor(segment))
    return facts.ambient_c(segment) + rise * ratio**2


def raceway_listing_c(facts: Facts, segment: Json) -> Fraction | None:
    """Rule 7: the marked temperature of liquidtight or PVC raceway, else the usual one for its location."""
    usual = facts.method(segment, f"temperature_{facts.location(segment)}_c")
    return exact(segment.get("raceway_temperature_rating_c") or usual) if usual else None


def takes_sixty_degree_column(facts: Facts, segment: Json) -> bool:
    """Whether the other reading of rule 7 is chosen and this is wet liquidtight; damp counts as wet."""
    wet = facts.method(segment, "liquidtight") == "yes" and facts.location(segment) != "dry"
    return wet and facts.reading("liquidtight-temperature") == "sixty-degree-column"


def raceway_temperature_holds(facts: Facts, size: str) -> bool:
    """Rule 7, 350.12(2), 356.12(2) and 352.10(I): within the listing.

    By the other reading the conductor in wet liquidtight that is listed for 60 degC is taken from the 60 degC
    column, which then carries the continuous load.
    """
    for segment in facts.run:
        listing = raceway_listing_c(facts, segment)
        if listing is None:
            continue
        if takes_sixty_degree_column(facts, segment) and listing <= 60:
            at_60 = facts.ampacity_a(facts.material, size, 60)
            factor = exact(facts.provision("conductor-continuous-load")["factor"])
            if at_60 is None or at_60 < factor * load_a(facts):
                return False
            continue
        temperature = operating_temperature_c(facts, segment, size)
        if temperature is None or temperature > listing:
            return False
    return True


def voltage_drop_percent(facts: Facts, size: str) -> float | None:
    """Rule 8 and decision 8: at the charging current, by phasors, the supply's voltage held. None: not made.

    There and back for one phase, the square root of three times one way for three, between the lines.
    """
    volts = float(facts.supply("between_lines_v"))
    current = float(facts.charger["charging_current_a"])
    cosine = float(facts.charger.get("power_factor") or facts.provision("voltage-drop")["power_factor"])
    sine = math.sqrt(1 - cosine**2)
    ways = math.sqrt(3) if facts.phases == 3 else 2
    resistance = reactance = 0.0
    for segment in facts.run:
        conduit = facts.method(segment, "impedance_column")
        per_kft = facts.cell("conductor_impedance", f"{facts.material}_{conduit}", size=size)
        if not per_kft:
            return None
        kft = float(feet(segment["length"])) / 1000
        resistance += ways * kft * float(per_kft)
        reactance += ways * kft * float(facts.cell("conductor_impedance", f"reactance_{conduit}", size=size))
    in_phase = current * (resistance * cosine + reactance * sine)
    across = current * (reactance * cosine - resistance * sine)
    if abs(across) > volts:
        return math.inf
    at_charger = math.sqrt(volts**2 - across**2) - in_phase
    return (volts - at_charger) / volts * 100


def target_holds(facts: Facts, size: str) -> bool:
    """The drop that the caller asks for, where one is asked for."""
    target = (facts.request.get("targets") or {}).get("voltage_drop_percent")
    drop = voltage_drop_percent(facts, size)
    return target is None or (drop is not None and drop <= target)


def cable_size_holds(facts: Facts, size: str) -> bool:
    """334.104 and the like: the cable is made in this size."""
    for segment in facts.run:
        if facts.is_cable(segment):
            smallest = facts.method(segment, f"{facts.material}_smallest")
            largest = facts.method(segment, f"{facts.material}_largest")
            if not facts.area_cmil(smallest) <= facts.area_cmil(size) <= facts.area_cmil(largest):
                return False
    return True


def terminal_sizes_hold(facts: Facts, size: str) -> bool:
    """110.14(A): within the range of every lug."""
    for marking in facts.terminals():
        smallest, largest = marking.get("smallest"), marking.get("largest")
        if smallest and facts.area_cmil(size) < facts.area_cmil(smallest):
            return False
        if largest and facts.area_cmil(size) > facts.area_cmil(largest):
            return False
    return True


def terminal_materials_hold(facts: Facts) -> bool:
    """110.14: every terminal is identified for the metal; unmarked ones take copper, at best aluminum too."""
    unmarked = ["copper", "aluminum"] if facts.best else ["copper"]
    return all(facts.material in (marking.get("materials") or unmarked) for marking in facts.terminals())


# ------------------------------------------------------------------------------ places: rules 4, 7 and 11


def methods_hold(facts: Facts) -> bool:
    """Wiring method permitted in its location: 334.12(B)(4) and the like; metal-clad in the wet as listed."""
    for segment in facts.run:
        permitted = facts.method(segment, facts.location(segment))
        listed = facts.known((segment.get("cable") or {}).get("listed_for_wet"))
        if permitted == "no" or (permitted == "listed" and not listed):
            return False
    return True


def underground_holds(facts: Facts) -> bool:
    """Wiring method permitted underground: article 340 and the like; some only as marked for burial.

    The marking is for direct burial, 330.10(A)(5): a cable in a raceway that may be buried needs none.
    """
    for segment in facts.run:
        permitted = facts.method(segment, "underground") if segment.get("underground") else "yes"
        sleeve = facts.cell("wiring_methods", "underground", wiring_method=segment.get("sleeve_method") or "")
        listed = facts.known(segment.get("listed_for_direct_burial")) or sleeve == "yes"
        if permitted == "no" or (permitted == "listed" and not listed):
            return False
    return True


def cover_holds(facts: Facts) -> bool:
    """Table 300.5: least cover; an empty cell means not there, a cover not stated is made the least.

    A driveway is a dwelling's only at one- and two-family dwellings; an unknown occupancy is none at worst.
    A method that may not be buried reads no column.
    """
    for segment in facts.run:
        underground = segment.get("underground")
        # A cable in a raceway lies as deep as the raceway must.
        sleeve = segment.get("sleeve_method")
        column = facts.cell(
            "wiring_methods", "cover_column", wiring_method=sleeve or segment["wiring_method"]
        )
        if not underground:
            continue
        if not column:
            return False
        occupancy = facts.occupancy or ("one-family" if facts.best else "other")
        under = underground["under"]
        if under == "dwelling-driveway" and occupancy not in ("one-family", "two-family"):
            under = "street"
        cover = underground.get("cover") or {"value": math.inf, "unit": "in"}
        if cover["unit"] in ("m", "mm"):
            # 90.9(D): either system as it is printed, and 450 mm is less than 18 in.
            given, column = (
                cover["value"] * (1000 if cover["unit"] == "m" else 1),
                column.replace("_in", "_mm"),
            )
        else:
            given = cover["value"] * (12 if cover["unit"] == "ft" else 1)
        least = facts.cell("burial_cover", column, under=under)
        if not least or given < float(least):
            return False
    return True


def insulation_holds(facts: Facts) -> bool:
    """310.10: insulation permitted in its location."""
    return all(
        facts.is_cable(segment)
        or facts.cell("insulations", f"{facts.location(segment)}_c", insulation=facts.insulation) != ""
        for segment in facts.run
    )


def raceway_ambient_holds(facts: Facts) -> bool:
    """Rule 7, 352.12(D): PVC at no more than 50 degC ambient."""
    for segment in facts.run:
        limit = facts.method(segment, "ambient_limit_c")
        if limit and facts.ambient_c(segment) > exact(limit):
            return False
    return True


def points_are_on_run(facts: Facts) -> bool:
    """Each point follows a segment that there is."""
    return all(point["after_segment"] < len(facts.run) for point in facts.points)


def listed_for_panel(facts: Facts) -> bool:
    """110.3(B): the breaker is listed for the panel."""
    return facts.known((facts.request.get("breaker") or {}).get("listed_for_panel"))


# -------------------------------------------------------- grounding, neutral and raceway: rules 6 and 9


def growth_starts_before_correction(facts: Facts) -> bool:
    """250.122(B): growth for correction and adjustment does not count from 2020 on; 2017 is read two ways."""
    rule = facts.provision("grounding-proportion")["counts_correction"]
    read = rule == "read-two-ways" and facts.reading("grounding-growth") == "counts-correction"
    return bool(rule == "yes" or read)


def least_ungrounded_size(facts: Facts, breaker_a: Fraction) -> str | None:
    """250.122(B): the least size with sufficient ampacity, from which growth counts."""
    least = carries_before_correction if growth_starts_before_correction(facts) else carries_and_is_protected
    return next((size for size in facts.sizes() if least(facts, size, breaker_a)), None)


def required_grounding_cmil(facts: Facts, size: str, breaker_a: Fraction) -> Fraction | None:
    """Rule 6: by the breaker, in exact proportion, never larger than the ungrounded conductors."""
    row = facts.first_at_least("grounding_conductor", "overcurrent_device_up_to_a", breaker_a)
    if row is None:
        return None
    required = facts.area_cmil(row[facts.grounding_material])
    least = least_ungrounded_size(facts, breaker_a)
    if least is not None and facts.area_cmil(size) > facts.area_cmil(least):
        required = required * facts.area_cmil(size) / facts.area_cmil(least)
    return min(required, facts.area_cmil(size))


def grounding_holds(facts: Facts, size: str, breaker_a: Fraction, grounding: str) -> bool:
    """Rule 6 and decision 7: a near miss of less than 0.1 % holds only by the other reading.

    A size that table 310.16 does not have in the metal is not made: there is no 14 AWG aluminum.
    """
    required = required_grounding_cmil(facts, size, breaker_a)
    if required is None or facts.ampacity_a(facts.grounding_material, grounding, 60) is None:
        return False
    short_percent = (required - facts.area_cmil(grounding)) / required * 100
    near_miss = exact(facts.provision("grounding-proportion")["near_miss_percent"])
    if facts.reading("grounding-near-miss") == "within-rounding":
        return short_percent <= 0 or short_percent < near_miss
    return short_percent <= 0


def neutral_holds(facts: Facts, breaker_a: Fraction, neutral: str) -> bool:
    """210.19(A)(1), exception 2: the load itself, before and after correction."""
    least = exact(facts.provision("neutral-size")["factor"]) * load_a(facts)
    before, after = ampacity_before_a(facts, neutral, breaker_a), ampacity_after_a(facts, neutral)
    return before is not None and after is not None and min(before, after) >= least


def conductor_area_in2(facts: Facts, size: str) -> Fraction:
    """Chapter 9, table 5."""
    return exact(facts.cell("conductor_areas", "area_in2", insulation=facts.insulation, size=size))


def fill_limit_percent(facts: Facts, segment: Json, conductors: int) -> Fraction:
    """Rule 9, chapter 9, table 1 and its note 4."""
    if facts.is_nipple(segment):
        return exact(facts.provision("nipple")["fill_percent"])
    count = conductors + (segment.get("other_current_carrying_conductors") or 0)
    row = facts.first_at_least("raceway_fill", "up_to_conductors", Fraction(count))
    assert row is not None
    return exact(row["percent"])


def filling_conductors(facts: Facts, size: str, neutral: str | None, grounding: str) -> list[str]:
    """Rule 9: the sizes of every conductor of the circuit, the grounding conductor too."""
    return [*[size] * facts.ungrounded, grounding, *([neutral] if neutral else [])]


def raceway_area_in2(facts: Facts, method: str, trade_size: str) -> Fraction:
    """Chapter 9, table 4: the whole area."""
    return exact(facts.cell("raceway_areas", "area_in2", wiring_method=method, trade_size=trade_size))


def fill_percent(facts: Facts, segment: Json, trade_size: str, conductors: list[str]) -> Fraction:
    """Rule 9: the areas of all conductors, those of other circuits too, over that of the raceway."""
    filled = sum((conductor_area_in2(facts, size) for size in conductors), Fraction(0))
    filled += exact(segment.get("other_conductors_area_in2") or 0)
    return filled / raceway_area_in2(facts, segment["wiring_method"], trade_size) * 100


def fill_holds(facts: Facts, segment: Json, trade_size: str, conductors: list[str]) -> bool:
    """Chapter 9, table 1; by note 7 a decimal of 0.8 counts as one more conductor where all are of one size.

    Note 7: reference facts on raceways, "notes to tables".
    """
    limit = fill_limit_percent(facts, segment, len(conductors))
    if fill_percent(facts, segment, trade_size, conductors) <= limit:
        return True
    alone = not segment.get("other_conductors_area_in2") and not segment.get(
        "other_current_carrying_conductors"
    )
    if not alone or len(set(conductors)) > 1:
        return False
    area = raceway_area_in2(facts, segment["wiring_method"], trade_size)
    count = limit / 100 * area / conductor_area_in2(facts, conductors[0])
    permitted = math.floor(count) + (1 if count - math.floor(count) >= Fraction(8, 10) else 0)
    return len(conductors) <= permitted


def sleeve_holds(facts: Facts, segment: Json) -> bool:
    """Rule 9: a cable in a sleeve is one conductor of the diameter of its sheath, chapter 9, note 9.

    Where the sleeve's kind or size or the cable's diameter is unknown, nothing is found to fail.
    """
    method, trade_size = segment.get("sleeve_method"), segment.get("raceway_trade_size")
    diameter = (segment.get("cable") or {}).get("outside_diameter")
    if not (method and trade_size and diameter):
        return True
    filled = math.pi / 4 * float(feet(diameter) * 12) ** 2
    limit = facts.first_at_least("raceway_fill", "up_to_conductors", Fraction(1))
    assert limit is not None
    return filled / float(raceway_area_in2(facts, method, trade_size)) * 100 <= float(limit["percent"])


def others_are_known(segment: Json) -> bool:
    """Rule 9: unknown other conductors leave the fill, and with it the trade size, open."""
    others = segment.get("other_current_carrying_conductors") or 0
    return not others or segment.get("other_conductors_area_in2") is not None


def trade_sizes(facts: Facts, segment: Json) -> list[str]:
    """Return the trade sizes of a method, smallest first; the stated one alone where one is stated."""
    made = [
        row["trade_size"]
        for row in facts.table("raceway_areas")
        if row["wiring_method"] == segment["wiring_method"]
    ]
    stated = segment.get("raceway_trade_size")
    return [stated] if stated else made


# ---------------------------------------------------------------- protection and disconnect: rule 11


def ground_fault_protection_required(facts: Facts, breaker_a: Fraction) -> bool:
    """Rule 11: 625.54 for receptacles; 210.8(F) for dwellings, and in 2026 625.54(B) by one reading.

    An unknown place is a dwelling outdoors at worst, and neither at best.
    """
    if facts.plugged:
        rule = facts.provision("receptacle-protection")
        rating = receptacle_rating_a(facts)
        by_rating = "up_to_a" not in rule or rating is None or rating <= exact(rule["up_to_a"])
        by_voltage = "up_to_v_to_ground" not in rule or facts.to_ground_v <= exact(rule["up_to_v_to_ground"])
        return by_rating and by_voltage
    every = facts.provision("permanently-wired-protection")
    if every["applies"] == "yes" and facts.reading("permanently-wired-protection") == "required":
        return facts.to_ground_v <= exact(every["up_to_v_to_ground"])
    rule = facts.provision("hardwired-protection")
    occupancy = facts.occupancy or ("other" if facts.best else "one-family")
    location = facts.charger_location or ("indoors" if facts.best else "outdoors")
    return (
        occupancy != "other"
        and facts.phases == 1  # 210.8(F): outlets that are supplied by single-phase branch circuits
        and rule[location.replace("-", "_")] == "yes"
        and breaker_a <= exact(rule["up_to_a"])
        and facts.to_ground_v <= exact(rule["up_to_v_to_ground"])
        and facts.reading("hardwired-outlet") == "outlet"
    )


def disconnect_required(facts: Facts) -> bool:
    """Rule 11, 625.43: the rating of the equipment, which no setting lowers, or the voltage to ground."""
    rule = facts.provision("disconnect")
    if rule["hardwired_only"] == "yes" and facts.plugged:
        return False
    # A setting above the rating fails by itself; the larger of the two is the careful one meanwhile.
    rating_a = max(rated_a(facts), exact(facts.charger["charging_current_a"]))
    return rating_a > exact(rule["above_a"]) or facts.to_ground_v > exact(rule["above_v_to_ground"])


def shutoff_required(facts: Facts) -> bool:
    """625.43(D) of 2026: for permanently connected chargers outside dwellings of one and two units."""
    rule = facts.provision("emergency-shutoff")
    if rule["applies"] == "no" or facts.plugged:
        return False
    occupancy = facts.occupancy or ("one-family" if facts.best else "other")
    units = {"one-family": 1, "two-family": 2}.get(occupancy)
    return units is None or units > rule["dwellings_exempt_up_to_units"]


# ------------------------------------------------------------------------------------------- the answers


def least_breaker_a(facts: Facts) -> Fraction | None:
    """Return the first rating that is made, carries the continuous load and keeps every other limit."""
    for row in facts.table("standard_ratings"):
        breaker_a = exact(row["rating_a"])
        limits = (
            breaker_is_made,
            continuous_breaker_holds,
            marked_device_holds,
            receptacle_rating_holds,
            point_ratings_hold,
        )
        if all(holds(facts, breaker_a) for holds in limits):
            return breaker_a
    return None


def least_size(facts: Facts, breaker_a: Fraction) -> str | None:
    """Return the first size for which every rule about the ungrounded conductors holds, and the target."""
    for size in facts.sizes():
        if (
            carries_and_is_protected(facts, size, breaker_a)
            and raceway_temperature_holds(facts, size)
            and target_holds(facts, size)
            and cable_size_holds(facts, size)
            and terminal_sizes_hold(facts, size)
        ):
            return size
    return None


def size_is_open(request: Json) -> bool:
    """Whether no size holds with the unknown facts at their worst, but one does at their best.

    The sources say that such a circuit is undetermined and its design stands, not which size it has.
    """
    worst, best = Facts(request), Facts(request, best=True)
    at_worst, at_best = least_breaker_a(worst), least_breaker_a(best)
    fits_at_worst = at_worst is not None and least_size(worst, at_worst) is not None
    fits_at_best = at_best is not None and least_size(best, at_best) is not None
    return fits_at_best and not fits_at_worst


def may_be_made(facts: Facts) -> bool:
    """Whether everything holds that no choice of sizes could mend."""
    return (
        phases_hold(facts)
        and setting_holds(facts)
        and receptacle_configuration_holds(facts)
        and receptacle_listing_holds(facts)
        and terminal_materials_hold(facts)
        and methods_hold(facts)
        and underground_holds(facts)
        and cover_holds(facts)
        and insulation_holds(facts)
        and raceway_ambient_holds(facts)
        and points_are_on_run(facts)
        and listed_for_panel(facts)
        and all(sleeve_holds(facts, segment) for segment in facts.run if facts.is_cable(segment))
    )


def design(request: Json) -> Json | None:
    """Return what is chosen, or None where no circuit can be made.

    Unknown facts are at their worst. Since larger conductors have grown if the facts turn out at their best,
    the grounding conductor is the larger of what the worst and the best ask for (decision 5).
    """
    worst, best = Facts(request), Facts(request, best=True)
    if not may_be_made(best):
        return None
    breaker_a = least_breaker_a(worst)
    if breaker_a is None:
        return None
    size = least_size(worst, breaker_a)
    if size is None:
        return None
    # Where there is a neutral it is as large as the others; the sources ask for no less than `neutral_holds`.
    neutral = size if worst.has_neutral() else None
    grounding = next(
        found
        for found in worst.sizes()
        if grounding_holds(worst, size, breaker_a, found) and grounding_holds(best, size, breaker_a, found)
    )
    conductors = filling_conductors(worst, size, neutral, grounding)
    segments = []
    for segment in worst.run:
        trade_size = None
        if not worst.is_cable(segment) and others_are_known(segment):
            for trade_size in trade_sizes(worst, segment):
                if fill_holds(worst, segment, trade_size, conductors):
                    break
            else:
                return None
        ampacity = segment_ampacity_a(worst, segment, size)
        segments.append({"trade_size": trade_size, "ampacity_a": ampacity})
    protection = ground_fault_protection_required(worst, breaker_a)
    protected_at_best = ground_fault_protection_required(best, breaker_a)
    return {
        "breaker_a": breaker_a,
        "ungrounded": size,
        "count": worst.ungrounded,
        "neutral": neutral,
        "grounding": grounding,
        "segments": segments,
        "voltage_drop_percent": voltage_drop_percent(worst, size),
        # By the schema null where a fact is missing that decides.
        "ground_fault_protection": protection if protection == protected_at_best else None,
        "disconnect": disconnect_required(worst),
    }


def review(request: Json) -> dict[str, bool | None]:
    """Return for each rule, by its published name, whether the installed circuit keeps it.

    None where it does with the unknown facts at their best and does not with them at their worst, and where
    nothing can tell: the impedance of a size that is not made, a label of which the edition has no words.
    """
    worst, best = (judged(Facts(request, best=best)) for best in (False, True))
    # Where access to the setting is unknown the nameplate counts, says the rule on settings: no label is due.
    best["setting-label"] = worst["setting-label"]
    return {rule: holds if holds == best[rule] else None for rule, holds in worst.items()}


def judged(facts: Facts) -> dict[str, bool | None]:
    """Return for each rule whether the circuit keeps it, the unknown facts at their worst or at their best."""
    request, installed = facts.request, facts.request["installed"]
    breaker_a, size = exact(installed["breaker_rating_a"]), installed["ungrounded_size"]
    grounding, disconnect = installed["grounding_size"], installed["disconnect"]
    conductors = filling_conductors(facts, size, installed.get("neutral_size"), grounding)
    filled: bool | None = all(
        sleeve_holds(facts, segment)
        if facts.is_cable(segment)
        else fill_holds(facts, segment, segment["raceway_trade_size"], conductors)
        for segment in facts.run
        if others_are_known(segment)
    )
    if filled and not all(facts.is_cable(segment) or others_are_known(segment) for segment in facts.run):
        filled = None
    ratings_known = all(point["kind"] == "splice" or point.get("rating_a") for point in facts.points)
    target = (request.get("targets") or {}).get("voltage_drop_percent")
    protected = installed["ground_fault_protection"] in ("breaker", "receptacle")
    can_disconnect = all(disconnect[each] for each in ("present", "readily_accessible", "lockable_open"))
    return {
        "supply-phases": phases_hold(facts),
        "current-setting": setting_holds(facts),
        "setting-label": setting_label_holds(facts, installed["setting_label"]),
        "overcurrent-continuous-load": continuous_breaker_holds(facts, breaker_a),
        "breaker-standard-rating": breaker_is_made(facts, breaker_a),
        "greatest-overcurrent-device": marked_device_holds(facts, breaker_a),
        "breaker-listed-for-panel": listed_for_panel(facts),
        "receptacle-configuration": receptacle_configuration_holds(facts),
        "receptacle-rating": receptacle_rating_holds(facts, breaker_a),
        "receptacle-listing": receptacle_listing_holds(facts),
        "conductor-continuous-load": continuous_conductor_holds(facts, size, breaker_a),
        "conductor-corrected-ampacity": corrected_ampacity_holds(facts, size),
        "conductor-overcurrent-protection": protection_holds(facts, size, breaker_a),
        "small-conductor-protection": small_conductor_holds(facts, size, breaker_a),
        "terminal-materials": terminal_materials_hold(facts),
        "terminal-sizes": terminal_sizes_hold(facts, size),
        "neutral-size": not facts.has_neutral() or neutral_holds(facts, breaker_a, installed["neutral_size"]),
        "grounding-conductor-size": grounding_holds(facts, size, breaker_a, grounding),
        "wiring-method-location": methods_hold(facts),
        "wiring-method-underground": underground_holds(facts),
        "burial-cover": cover_holds(facts),
        "conductor-insulation-location": insulation_holds(facts),
        "cable-size": cable_size_holds(facts, size),
        "raceway-fill": filled,
        "raceway-temperature": raceway_temperature_holds(facts, size),
        "raceway-ambient": raceway_ambient_holds(facts),
        "points-on-run": points_are_on_run(facts),
        "point-rating": point_ratings_hold(facts, breaker_a) and (ratings_known or facts.best),
        "voltage-drop-target": (
            None if target and voltage_drop_percent(facts, size) is None else target_holds(facts, size)
        ),
        "ground-fault-protection": not ground_fault_protection_required(facts, breaker_a) or protected,
        "disconnecting-means": not disconnect_required(facts) or can_disconnect,
        "emergency-shutoff": not shutoff_required(facts) or bool(installed["emergency_shutoff"]),
    }
