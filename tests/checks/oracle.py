"""A second sizing of charger circuits: by brute force, with exact fractions, from the codebook's data files alone.

It imports nothing of the service. Every rule of the contract is one small function; a design is the first
size of each list for which all of them hold. It reads the same CSV and TOML files as the service, so it
says nothing about the printed values: that is what the checks of the tables are for.

Requests are plain JSON objects. Quantities: A, V, degC, ft, in2, cmil, percent.
"""

import csv
import math
import tomllib
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

Json = dict[str, Any]

DATA = Path(__file__).parents[2] / "service/branchwright/codebook/data/nec"
FEET = {"ft": Fraction(1), "in": Fraction(1, 12), "m": Fraction(10000, 3048), "mm": Fraction(10, 3048)}
"""A unit of length in feet; the foot is 0.3048 m exactly (NIST Special Publication 811)."""


# ---------------------------------------------------------------------------------------- the data files


@cache
def table(name: str) -> list[dict[str, str]]:
    """Return the rows of a table of the 2023 edition, as text."""
    with (DATA / "tables" / name / "rows-nec-2023.csv").open(newline="", encoding="utf-8") as lines:
        return list(csv.DictReader(lines))


@cache
def provision(name: str) -> dict[str, Any]:
    """Return the values of a provision of the 2023 edition."""
    with (DATA / "provisions" / f"{name}.toml").open("rb") as file:
        return dict(tomllib.load(file)["editions"]["nec-2023"]["values"])


@cache
def default_reading(interpretation: str) -> str:
    """Return the reading that holds where a request chooses none."""
    with (DATA / "interpretations.toml").open("rb") as file:
        return str(tomllib.load(file)["interpretations"][interpretation]["default"])


def exact(number: float | str) -> Fraction:
    """Return a number as it is written, without the rounding of floating point."""
    return Fraction(str(number))


@cache
def cell(name: str, column: str, **keys: str) -> str:
    """Return the cell of the row that has these keys; an empty text where the table leaves it empty."""
    for row in table(name):
        if all(row[key] == value for key, value in keys.items()):
            return row[column]
    return ""


def first_at_least(name: str, key: str, wanted: Fraction) -> dict[str, str] | None:
    """Return the first row whose key is at least what is wanted; an empty key has no upper limit."""
    for row in table(name):
        if row[key] == "" or exact(row[key]) >= wanted:
            return row
    return None


@cache
def sizes() -> list[str]:
    """Return the conductor sizes, smallest first."""
    return [row["size"] for row in table("conductor_properties")]


def area_cmil(size: str) -> Fraction:
    """Return the circular mils of a size: chapter 9, table 8."""
    return exact(cell("conductor_properties", "area_cmil", size=size))


def ampacity_a(material: str, size: str, column_c: int) -> Fraction | None:
    """Return the ampacity of table 310.16, or None where the size is not made of the metal."""
    found = cell("ampacity", f"{material}_{column_c}", size=size)
    return exact(found) if found else None


# --------------------------------------------------------------------------------------------- the facts


@dataclass(frozen=True)
class Facts:
    """A request with every unknown fact taken at its worst, or every one at its best (decision 5)."""

    request: Json
    best: bool = False

    @property
    def charger(self) -> Json:
        """The charger."""
        return dict(self.request["charger"])

    @property
    def run(self) -> list[Json]:
        """The segments."""
        return list(self.request["run"])

    @property
    def material(self) -> str:
        """Metal of the ungrounded conductors."""
        return str(self.request["conductors"]["material"])

    @property
    def insulation(self) -> str:
        """Insulation in raceways; THWN-2 by the schema's default."""
        return self.request["conductors"].get("insulation") or "THWN-2"

    @property
    def grounding_material(self) -> str:
        """Metal of the grounding conductor; as the others by the schema's default."""
        installed = (self.request.get("installed") or {}).get("grounding_material")
        return installed or self.request["conductors"].get("grounding_material") or self.material

    @property
    def connection(self) -> Json:
        """How the charger is connected."""
        return dict(self.charger["connection"])

    @property
    def plugged(self) -> bool:
        """Whether it is by a receptacle."""
        return bool(self.connection["kind"] == "receptacle")

    @property
    def points(self) -> list[Json]:
        """Devices and splices on the run."""
        return self.request.get("points") or []

    def reading(self, interpretation: str) -> str:
        """The reading of an interpretation: stated, or the codebook's default."""
        stated = (self.request.get("readings") or {}).get(interpretation)
        if stated:
            return str(stated)
        return default_reading(interpretation)

    def location(self, segment: Json) -> str:
        """Location of a segment; unknown is wet at worst, dry at best."""
        return segment.get("location") or ("dry" if self.best else "wet")

    def terminals(self) -> list[Json]:
        """Rule 3: markings of the breaker, each point, and the receptacle or else the hardwired charger."""
        at_charger = self.connection.get("terminals") if self.plugged else self.charger.get("terminals")
        found = [(self.request.get("breaker") or {}).get("terminals"), at_charger]
        found += [point.get("terminals") for point in self.points]
        return [marking or {} for marking in found]


# ------------------------------------------------------------------- load and breaker: api.md, rules 2 and 10


def rated_a(facts: Facts) -> Fraction:
    """Return the nameplate current; the charging current stands for one that is not stated."""
    return exact(facts.charger.get("rated_current_a") or facts.charger["charging_current_a"])


def load_a(facts: Facts) -> Fraction:
    """Rule 10, 625.42(B): the setting counts where access is restricted, otherwise the rated current."""
    access = facts.charger.get("setting_access") or ("restricted" if facts.best else "unrestricted")
    if access == provision("current-setting")["access"] and provision("current-setting")["counts"] == "yes":
        return exact(facts.charger["charging_current_a"])
    # A setting above the rating fails by itself; the larger of the two is the careful load meanwhile.
    return max(rated_a(facts), exact(facts.charger["charging_current_a"]))


def setting_holds(facts: Facts) -> bool:
    """A setting above the rating is a contradiction: api.md, status codes."""
    return exact(facts.charger["charging_current_a"]) <= rated_a(facts)


def continuous_breaker_holds(facts: Facts, breaker_a: Fraction) -> bool:
    """Rule 2, 625.41: 125 % always."""
    return breaker_a >= exact(provision("continuous-load")["factor"]) * load_a(facts)


def breaker_is_made(breaker_a: Fraction) -> bool:
    """A standard rating of 240.6(A), and no less than decision 11 lets a charger have."""
    standard = any(exact(row["rating_a"]) == breaker_a for row in table("standard_ratings"))
    return standard and breaker_a >= exact(provision("branch-circuit-rating")["least_a"])


def marked_device_holds(facts: Facts, breaker_a: Fraction) -> bool:
    """110.3(B): no more than the charger's marking allows."""
    greatest = (facts.charger.get("markings") or {}).get("greatest_overcurrent_device_a")
    return greatest is None or breaker_a <= exact(greatest)


def receptacle_configuration_holds(facts: Facts) -> bool:
    """Rule 11, 625.44: the configuration is one that the edition permits."""
    return not facts.plugged or receptacle_rating_a(facts) is not None


def receptacle_rating_a(facts: Facts) -> Fraction | None:
    """Return the rating of the receptacle, None where the codebook does not have it."""
    found = cell("receptacles", "rating_a", configuration=facts.connection["configuration"])
    return exact(found) if found else None


def receptacle_rating_holds(facts: Facts, breaker_a: Fraction) -> bool:
    """210.21(B)(1): a single receptacle is rated no less than its circuit."""
    rating = receptacle_rating_a(facts) if facts.plugged else None
    return rating is None or rating >= exact(provision("receptacle-rating")["factor"]) * breaker_a


def point_ratings_hold(facts: Facts, breaker_a: Fraction) -> bool:
    """Each device on the run is rated no less than the breaker; a splice has no rating."""
    factor = exact(provision("point-rating")["factor"])
    return all(
        exact(point["rating_a"]) >= factor * breaker_a
        for point in facts.points
        if point["kind"] != "splice" and point.get("rating_a") is not None
    )


# --------------------------------------------------------------- ampacity: api.md, rules 1, 3, 4, 5 and 7


def termination_column_c(facts: Facts, breaker_a: Fraction) -> int:
    """Rule 3, 110.14(C)(1): the lowest-rated terminal; 60 degC up to 100 A unless marked, never above 75."""
    rule = provision("termination-temperature")
    lower = breaker_a <= exact(rule["circuit_up_to_a"]) and not facts.best
    unmarked = rule["unmarked_up_to_c"] if lower else rule["unmarked_above_c"]
    ratings = [marking.get("temperature_rating_c") or unmarked for marking in facts.terminals()]
    return int(min([*ratings, rule["greatest_c"]]))


def is_cable(segment: Json) -> bool:
    """Whether a segment is cable rather than raceway."""
    return cell("wiring_methods", "kind", wiring_method=segment["wiring_method"]) == "cable"


def raceway_listing_c(facts: Facts, segment: Json) -> Fraction | None:
    """Rule 7: the marked temperature of liquidtight or PVC raceway, else the usual one for its location."""
    usual = cell(
        "wiring_methods", f"temperature_{facts.location(segment)}_c", wiring_method=segment["wiring_method"]
    )
    if not usual:
        return None
    return exact(segment.get("raceway_temperature_rating_c") or usual)


def column_cap_c(segment: Json) -> int | None:
    """Rule 4, 334.80: the column that caps the ampacity of a cable."""
    found = cell("wiring_methods", "ampacity_cap_c", wiring_method=segment["wiring_method"])
    return int(found) if found else None


def ampacity_before_a(facts: Facts, size: str, breaker_a: Fraction) -> Fraction | None:
    """Rule 1: ampacity before correction and adjustment, at the lowest column of terminals and caps."""
    caps = [cap for segment in facts.run if (cap := column_cap_c(segment)) is not None]
    return ampacity_a(facts.material, size, min([termination_column_c(facts, breaker_a), *caps]))


def continuous_conductor_holds(facts: Facts, size: str, breaker_a: Fraction) -> bool:
    """Rule 1, 210.19(A)(1): that ampacity carries 125 % of the load."""
    before = ampacity_before_a(facts, size, breaker_a)
    return before is not None and before >= exact(provision("conductor-continuous-load")["factor"]) * load_a(
        facts
    )


def length_ft(segment: Json) -> Fraction:
    """Return the length of a segment."""
    return exact(segment["length"]["value"]) * FEET[segment["length"]["unit"]]


def is_nipple(facts: Facts, segment: Json) -> bool:
    """Rule 9, chapter 9, note 4: a raceway of no more than 24 in with an enclosure at each end.

    The panel, the charger and every point are enclosures; from one raceway straight into the next there is
    none.
    """
    place = next(place for place, other in enumerate(facts.run) if other is segment)
    boxes = {-1, len(facts.run) - 1} | {point["after_segment"] for point in facts.points}
    short = length_ft(segment) * 12 <= exact(provision("nipple")["longest_in"])
    return short and not is_cable(segment) and {place - 1, place} <= boxes


def ambient_c(facts: Facts, segment: Json) -> Fraction:
    """310.15(B)(2): the ambient, and 33 degC more close above a roof in the sun, save for XHHW-2."""
    stated = segment.get("ambient_c")
    ambient = exact(provision("base-ambient")["ambient_c"] if stated is None else stated)
    clearance = segment.get("rooftop_clearance")
    if clearance is None or (facts.insulation == "XHHW-2" and not is_cable(segment)):
        return ambient
    smaller = facts.reading("rooftop-clearance") == "three-quarters-inch"
    enough = provision("rooftop")["clearance_smaller_in" if smaller else "clearance_in"]
    if exact(clearance["value"]) * FEET[clearance["unit"]] * 12 >= exact(enough):
        return ambient
    return ambient + exact(provision("rooftop")["adder_c"])


def has_neutral(facts: Facts) -> bool:
    """The receptacle's configuration decides, or the hardwired charger."""
    if facts.plugged:
        return cell("receptacles", "neutral", configuration=facts.connection["configuration"]) == "yes"
    return bool(facts.charger.get("uses_neutral"))


def current_carrying(facts: Facts, segment: Json) -> int:
    """310.15(E): two ungrounded, the neutral in a wye system, and those of other circuits."""
    neutral = has_neutral(facts) and facts.request["supply"]["system"].startswith("wye")
    return 2 + neutral + (segment.get("other_current_carrying_conductors") or 0)


def count_factor(facts: Facts, segment: Json) -> Fraction:
    """310.15(C)(1): adjustment for more than three; none in a nipple (rule 9)."""
    if is_nipple(facts, segment):
        return Fraction(1)
    count = Fraction(current_carrying(facts, segment))
    row = first_at_least("conductor_count_adjustment", "up_to_count", count)
    assert row is not None
    return exact(row["percent"]) / 100


def insulation_column_c(facts: Facts, segment: Json) -> int:
    """Rules 1 and 4: the column where correction starts; the lowest where the insulation may not be used.

    That it may not is another rule's failure, or undetermined where the location is unknown.
    """
    if is_cable(segment):
        return int(cell("wiring_methods", "ampacity_start_c", wiring_method=segment["wiring_method"]))
    return int(cell("insulations", f"{facts.location(segment)}_c", insulation=facts.insulation) or 60)


def segment_ampacity_a(facts: Facts, segment: Json, size: str) -> Fraction | None:
    """Rule 1: from the insulation's own column, corrected, adjusted, capped. None: no current at all."""
    column = insulation_column_c(facts, segment)
    row = first_at_least("ambient_correction", "up_to_c", ambient_c(facts, segment))
    if row is None or row[str(column)] == "":
        return None
    from_table = ampacity_a(facts.material, size, column)
    if from_table is None:
        return None
    corrected = from_table * exact(row[str(column)]) * count_factor(facts, segment)
    cap_c = column_cap_c(segment)
    cap_a = None if cap_c is None else ampacity_a(facts.material, size, cap_c)
    return corrected if cap_a is None else min(corrected, cap_a)


def ampacity_after_a(facts: Facts, size: str) -> Fraction | None:
    """Rule 4: the worst segment governs, save for the short-length exception as decision 9 reads it."""
    rule = provision("short-length-exception")
    found = [(segment_ampacity_a(facts, segment, size), segment) for segment in facts.run]
    known = [(ampacity, segment) for ampacity, segment in found if ampacity is not None]
    if len(known) < len(found):
        return None
    holding = []
    for candidate, _ in known:
        below = [segment for ampacity, segment in known if ampacity < candidate]
        above = [segment for ampacity, segment in known if ampacity >= candidate]
        short = sum((length_ft(segment) for segment in below), Fraction(0))
        rest = sum((length_ft(segment) for segment in above), Fraction(0))
        most = min(exact(rule["longest_ft"]), exact(rule["greatest_percent"]) / 100 * rest)
        if short <= most and not any(is_cable(segment) for segment in below):
            holding.append(candidate)
    return max(holding)


def corrected_ampacity_holds(facts: Facts, size: str) -> bool:
    """Rule 1, 210.19(A)(2): after correction and adjustment, the load itself."""
    after = ampacity_after_a(facts, size)
    return after is not None and after >= exact(provision("conductor-actual-load")["factor"]) * load_a(facts)


def protection_holds(facts: Facts, size: str, breaker_a: Fraction) -> bool:
    """Rule 1, 240.4: the breaker is no more than the least ampacity, or than the next standard rating."""
    before, after = ampacity_before_a(facts, size, breaker_a), ampacity_after_a(facts, size)
    if before is None or after is None:
        return False
    least = min(before, after)
    if breaker_a <= least:
        return True
    next_up = first_at_least("standard_ratings", "rating_a", least)
    rule = provision("next-size-up")
    if next_up is None or rule["permitted"] != "yes":
        return False
    # Where the least value is itself a standard rating, the first that is at least it is no step up.
    return breaker_a <= exact(next_up["rating_a"]) <= exact(rule["up_to_a"])


def small_conductor_holds(facts: Facts, size: str, breaker_a: Fraction) -> bool:
    """Rule 5, 240.4(D): after everything else."""
    limit = cell(
        "small_conductor_limits", "greatest_overcurrent_device_a", material=facts.material, size=size
    )
    return not limit or breaker_a <= exact(limit)


def carries_and_is_protected(facts: Facts, size: str, breaker_a: Fraction) -> bool:
    """Whether a size is large enough by every rule about ampacity."""
    return (
        continuous_conductor_holds(facts, size, breaker_a)
        and corrected_ampacity_holds(facts, size)
        and protection_holds(facts, size, breaker_a)
        and small_conductor_holds(facts, size, breaker_a)
    )


# ------------------------------------------------- what else bears on the ungrounded size: rules 4, 7 and 8


def operating_temperature_c(facts: Facts, segment: Json, size: str) -> Fraction | None:
    """Rule 7 and decision 6: ambient + (75 - 30) (load / 75 degC column, adjusted for the count) squared."""
    at_75 = ampacity_a(facts.material, size, int(provision("operating-temperature")["reference_c"]))
    if at_75 is None:
        return None
    rise = 75 - exact(provision("base-ambient")["ambient_c"])
    ratio = load_a(facts) / (at_75 * count_factor(facts, segment))
    return ambient_c(facts, segment) + rise * ratio**2


def takes_sixty_degree_column(facts: Facts, segment: Json) -> bool:
    """Whether the other reading of rule 7 is chosen and this is wet liquidtight; damp counts as wet."""
    wet = segment["wiring_method"] == "lfnc-b" and facts.location(segment) != "dry"
    return wet and facts.reading("liquidtight-temperature") == "sixty-degree-column"


def raceway_temperature_holds(facts: Facts, size: str) -> bool:
    """Rule 7, 356.12(2) and 352.10(I): within the listing.

    By the other reading the conductor in wet liquidtight that is listed for 60 degC is taken from the 60 degC
    column, which then carries the continuous load.
    """
    for segment in facts.run:
        listing = raceway_listing_c(facts, segment)
        if listing is None:
            continue
        if takes_sixty_degree_column(facts, segment) and listing <= 60:
            at_60 = ampacity_a(facts.material, size, 60)
            factor = exact(provision("conductor-continuous-load")["factor"])
            if at_60 is None or at_60 < factor * load_a(facts):
                return False
            continue
        temperature = operating_temperature_c(facts, segment, size)
        if temperature is None or temperature > listing:
            return False
    return True


def voltage_drop_percent(facts: Facts, size: str) -> float | None:
    """Rule 8 and decision 8: the charging current, there and back, at unity power factor. None: not made."""
    volts = float(cell("nominal_voltages", "between_lines_v", system=facts.request["supply"]["system"]))
    current = float(facts.charger["charging_current_a"])
    resistance = reactance = 0.0
    for segment in facts.run:
        conduit = cell("wiring_methods", "impedance_column", wiring_method=segment["wiring_method"])
        per_kft = cell("conductor_impedance", f"{facts.material}_{conduit}", size=size)
        if not per_kft:
            return None
        kft = float(length_ft(segment)) / 1000
        resistance += 2 * kft * float(per_kft)
        reactance += 2 * kft * float(cell("conductor_impedance", f"reactance_{conduit}", size=size))
    if current * reactance > volts:
        return math.inf
    at_charger = math.sqrt(volts**2 - (current * reactance) ** 2) - current * resistance
    return (volts - at_charger) / volts * 100


def target_holds(facts: Facts, size: str) -> bool:
    """The drop that the caller asks for, where one is asked for."""
    target = (facts.request.get("targets") or {}).get("voltage_drop_percent")
    drop = voltage_drop_percent(facts, size)
    return target is None or (drop is not None and drop <= target)


def cable_size_holds(facts: Facts, size: str) -> bool:
    """334.104: the cable is made in this size."""
    for segment in facts.run:
        if is_cable(segment):
            method = segment["wiring_method"]
            smallest = cell("wiring_methods", f"{facts.material}_smallest", wiring_method=method)
            largest = cell("wiring_methods", f"{facts.material}_largest", wiring_method=method)
            if not area_cmil(smallest) <= area_cmil(size) <= area_cmil(largest):
                return False
    return True


def terminal_sizes_hold(facts: Facts, size: str) -> bool:
    """110.14(A): within the range of every lug."""
    for marking in facts.terminals():
        smallest, largest = marking.get("smallest"), marking.get("largest")
        if smallest and area_cmil(size) < area_cmil(smallest):
            return False
        if largest and area_cmil(size) > area_cmil(largest):
            return False
    return True


def terminal_materials_hold(facts: Facts) -> bool:
    """110.14: every terminal is identified for the metal, where it says for which it is."""
    return all(
        facts.material in (marking.get("materials") or [facts.material]) for marking in facts.terminals()
    )


# ------------------------------------------------------------------------------ places: rules 4, 7 and 11


def methods_hold(facts: Facts) -> bool:
    """Wiring method permitted in its location: 334.12(B)(4) and the like."""
    return all(
        cell("wiring_methods", facts.location(segment), wiring_method=segment["wiring_method"]) == "yes"
        for segment in facts.run
    )


def insulation_holds(facts: Facts) -> bool:
    """310.10: insulation permitted in its location."""
    return all(
        is_cable(segment)
        or cell("insulations", f"{facts.location(segment)}_c", insulation=facts.insulation) != ""
        for segment in facts.run
    )


def raceway_ambient_holds(facts: Facts) -> bool:
    """Rule 7, 352.12(D): PVC at no more than 50 degC ambient."""
    for segment in facts.run:
        limit = cell("wiring_methods", "ambient_limit_c", wiring_method=segment["wiring_method"])
        if limit and ambient_c(facts, segment) > exact(limit):
            return False
    return True


def points_are_on_run(facts: Facts) -> bool:
    """Each point follows a segment that there is."""
    return all(point["after_segment"] < len(facts.run) for point in facts.points)


def listed_for_panel(facts: Facts) -> bool:
    """110.3(B): the breaker is listed for the panel, or nobody said that it is not."""
    return (facts.request.get("breaker") or {}).get("listed_for_panel") is not False


# -------------------------------------------------------- grounding, neutral and raceway: rules 6 and 9


def least_ungrounded_size(facts: Facts, breaker_a: Fraction) -> str | None:
    """250.122(B): the least size with sufficient ampacity; the 2023 edition counts correction into it."""
    assert provision("grounding-proportion")["counts_correction"] == "no"
    for size in sizes():
        if carries_and_is_protected(facts, size, breaker_a):
            return size
    return None


def required_grounding_cmil(facts: Facts, size: str, breaker_a: Fraction) -> Fraction | None:
    """Rule 6: by the breaker, in exact proportion, never larger than the ungrounded conductors."""
    row = first_at_least("grounding_conductor", "overcurrent_device_up_to_a", breaker_a)
    if row is None:
        return None
    required = area_cmil(row[facts.grounding_material])
    least = least_ungrounded_size(facts, breaker_a)
    if least is not None and area_cmil(size) > area_cmil(least):
        required = required * area_cmil(size) / area_cmil(least)
    return min(required, area_cmil(size))


def grounding_holds(facts: Facts, size: str, breaker_a: Fraction, grounding: str) -> bool:
    """Rule 6 and decision 7: a near miss of less than 0.1 % holds only by the other reading.

    A size that table 310.16 does not have in the metal is not made: there is no 14 AWG aluminum.
    """
    required = required_grounding_cmil(facts, size, breaker_a)
    if required is None or ampacity_a(facts.grounding_material, grounding, 60) is None:
        return False
    short_percent = (required - area_cmil(grounding)) / required * 100
    if facts.reading("grounding-near-miss") == "within-rounding":
        return short_percent <= 0 or short_percent < exact(
            provision("grounding-proportion")["near_miss_percent"]
        )
    return short_percent <= 0


def neutral_holds(facts: Facts, breaker_a: Fraction, neutral: str) -> bool:
    """210.19(A)(1), exception 2: the load itself, before and after correction."""
    least = exact(provision("neutral-size")["factor"]) * load_a(facts)
    before, after = ampacity_before_a(facts, neutral, breaker_a), ampacity_after_a(facts, neutral)
    return before is not None and after is not None and min(before, after) >= least


def conductor_area_in2(facts: Facts, size: str) -> Fraction:
    """Chapter 9, table 5."""
    return exact(cell("conductor_areas", "area_in2", insulation=facts.insulation, size=size))


def fill_limit_percent(facts: Facts, segment: Json) -> Fraction:
    """Rule 9, chapter 9, table 1 and its note 4; two ungrounded and a grounding conductor are three."""
    if is_nipple(facts, segment):
        return exact(provision("nipple")["fill_percent"])
    count = 3 + has_neutral(facts) + (segment.get("other_current_carrying_conductors") or 0)
    row = first_at_least("raceway_fill", "up_to_conductors", Fraction(count))
    assert row is not None
    return exact(row["percent"])


def filling_conductors(size: str, neutral: str | None, grounding: str) -> list[str]:
    """Rule 9: the sizes of every conductor of the circuit, the grounding conductor too."""
    return [size, size, grounding, *([neutral] if neutral else [])]


def raceway_area_in2(segment: Json, trade_size: str) -> Fraction:
    """Chapter 9, table 4: the whole area."""
    method = segment["wiring_method"]
    return exact(cell("raceway_areas", "area_in2", wiring_method=method, trade_size=trade_size))


def fill_percent(facts: Facts, segment: Json, trade_size: str, conductors: list[str]) -> Fraction:
    """Rule 9: the areas of all conductors, those of other circuits too, over that of the raceway."""
    filled = sum((conductor_area_in2(facts, size) for size in conductors), Fraction(0))
    filled += exact(segment.get("other_conductors_area_in2") or 0)
    return filled / raceway_area_in2(segment, trade_size) * 100


def fill_holds(facts: Facts, segment: Json, trade_size: str, conductors: list[str]) -> bool:
    """Chapter 9, table 1; by note 7 a decimal of 0.8 counts as one more conductor where all are of one size.

    Note 7: reference facts on raceways, "notes to tables".
    """
    limit = fill_limit_percent(facts, segment)
    if fill_percent(facts, segment, trade_size, conductors) <= limit:
        return True
    alone = not segment.get("other_conductors_area_in2") and not segment.get(
        "other_current_carrying_conductors"
    )
    if not alone or len(set(conductors)) > 1:
        return False
    count = limit / 100 * raceway_area_in2(segment, trade_size) / conductor_area_in2(facts, conductors[0])
    permitted = math.floor(count) + (1 if count - math.floor(count) >= Fraction(8, 10) else 0)
    return len(conductors) <= permitted


def others_are_known(segment: Json) -> bool:
    """Rule 9: unknown other conductors leave the fill, and with it the trade size, open."""
    others = segment.get("other_current_carrying_conductors") or 0
    return not others or segment.get("other_conductors_area_in2") is not None


def trade_sizes(segment: Json) -> list[str]:
    """Return the trade sizes of a method, smallest first; the stated one alone where one is stated."""
    made = [
        row["trade_size"]
        for row in table("raceway_areas")
        if row["wiring_method"] == segment["wiring_method"]
    ]
    stated = segment.get("raceway_trade_size")
    return [stated] if stated else made


# ---------------------------------------------------------------- protection and disconnect: rule 11


def ground_fault_protection_required(facts: Facts, breaker_a: Fraction) -> bool:
    """Rule 11: 625.54 for every receptacle; 210.8(F) for dwellings, by location and circuit rating.

    An unknown place is a dwelling outdoors at worst, and neither at best.
    """
    if facts.plugged:
        return bool(provision("receptacle-protection")["all_receptacles"] == "yes")
    rule = provision("hardwired-protection")
    to_ground_v = cell("nominal_voltages", "to_ground_v", system=facts.request["supply"]["system"])
    premises = facts.request.get("premises") or {}
    occupancy = premises.get("occupancy") or ("other" if facts.best else "one-family")
    location = premises.get("charger_location") or ("indoors" if facts.best else "outdoors")
    return (
        occupancy != "other"
        and rule[location.replace("-", "_")] == "yes"
        and breaker_a <= exact(rule["up_to_a"])
        and exact(to_ground_v) <= exact(rule["up_to_v_to_ground"])
        and facts.reading("hardwired-outlet") == "outlet"
    )


def disconnect_required(facts: Facts) -> bool | None:
    """Rule 11, 625.43: the rating of the equipment above 60 A, or more than 150 V to ground.

    None where it hangs on whether a setting that counts as the rating (rule 10) does so here too: the sources
    leave that open.
    """
    rule = provision("disconnect")
    to_ground_v = cell("nominal_voltages", "to_ground_v", system=facts.request["supply"]["system"])
    if exact(to_ground_v) > exact(rule["above_v_to_ground"]):
        return True
    by_setting, by_nameplate = (
        current > exact(rule["above_a"]) for current in (load_a(facts), rated_a(facts))
    )
    return by_setting if by_setting == by_nameplate else None


# ------------------------------------------------------------------------------------------- the answers


def least_breaker_a(facts: Facts) -> Fraction | None:
    """Return the first rating that is made and carries the continuous load, if the other limits allow it."""
    for row in table("standard_ratings"):
        breaker_a = exact(row["rating_a"])
        if breaker_is_made(breaker_a) and continuous_breaker_holds(facts, breaker_a):
            limits = (marked_device_holds, receptacle_rating_holds, point_ratings_hold)
            return breaker_a if all(holds(facts, breaker_a) for holds in limits) else None
    return None


def least_size(facts: Facts, breaker_a: Fraction) -> str | None:
    """Return the first size for which every rule about the ungrounded conductors holds, and the target."""
    for size in sizes():
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


def design(request: Json) -> Json | None:
    """Return what is chosen, or None where no circuit can be made.

    Unknown facts are at their worst. Since larger conductors have grown if the facts turn out at their best,
    the grounding conductor is the larger of what the worst and the best ask for (decision 5).
    """
    worst, best = Facts(request), Facts(request, best=True)
    if not (
        setting_holds(best)
        and receptacle_configuration_holds(best)
        and terminal_materials_hold(best)
        and methods_hold(best)
        and insulation_holds(best)
        and raceway_ambient_holds(best)
        and points_are_on_run(best)
        and listed_for_panel(best)
    ):
        return None
    breaker_a = least_breaker_a(worst)
    if breaker_a is None:
        return None
    size = least_size(worst, breaker_a)
    if size is None:
        return None
    # Where there is a neutral it is as large as the others; the sources ask for no less than `neutral_holds`.
    neutral = size if has_neutral(worst) else None
    grounding = next(
        found
        for found in sizes()
        if grounding_holds(worst, size, breaker_a, found) and grounding_holds(best, size, breaker_a, found)
    )
    conductors = filling_conductors(size, neutral, grounding)
    segments = []
    for segment in worst.run:
        trade_size = None
        if not is_cable(segment) and others_are_known(segment):
            for trade_size in trade_sizes(segment):
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
        "neutral": neutral,
        "grounding": grounding,
        "segments": segments,
        "voltage_drop_percent": voltage_drop_percent(worst, size),
        # By the schema null where a fact is missing that decides.
        "ground_fault_protection": protection if protection == protected_at_best else None,
        "disconnect": disconnect_required(worst),
    }


def review(request: Json) -> dict[str, bool | None]:
    """Return for each rule, by its published name, whether the installed circuit keeps it; all facts known.

    None where the tables cannot tell: the impedance of a size that is not made.
    """
    facts, installed = Facts(request), request["installed"]
    breaker_a, size = exact(installed["breaker_rating_a"]), installed["ungrounded_size"]
    grounding = installed["grounding_size"]
    conductors = filling_conductors(size, installed.get("neutral_size"), grounding)
    filled = all(
        fill_holds(facts, segment, segment["raceway_trade_size"], conductors)
        for segment in facts.run
        if not is_cable(segment)
    )
    target = (request.get("targets") or {}).get("voltage_drop_percent")
    return {
        "current-setting": setting_holds(facts),
        "overcurrent-continuous-load": continuous_breaker_holds(facts, breaker_a),
        "breaker-standard-rating": breaker_is_made(breaker_a),
        "greatest-overcurrent-device": marked_device_holds(facts, breaker_a),
        "breaker-listed-for-panel": listed_for_panel(facts),
        "receptacle-configuration": receptacle_configuration_holds(facts),
        "receptacle-rating": receptacle_rating_holds(facts, breaker_a),
        "conductor-continuous-load": continuous_conductor_holds(facts, size, breaker_a),
        "conductor-corrected-ampacity": corrected_ampacity_holds(facts, size),
        "conductor-overcurrent-protection": protection_holds(facts, size, breaker_a),
        "small-conductor-protection": small_conductor_holds(facts, size, breaker_a),
        "terminal-materials": terminal_materials_hold(facts),
        "terminal-sizes": terminal_sizes_hold(facts, size),
        "neutral-size": not has_neutral(facts) or neutral_holds(facts, breaker_a, installed["neutral_size"]),
        "grounding-conductor-size": grounding_holds(facts, size, breaker_a, grounding),
        "wiring-method-location": methods_hold(facts),
        "conductor-insulation-location": insulation_holds(facts),
        "cable-size": cable_size_holds(facts, size),
        "raceway-fill": filled,
        "raceway-temperature": raceway_temperature_holds(facts, size),
        "raceway-ambient": raceway_ambient_holds(facts),
        "points-on-run": points_are_on_run(facts),
        "point-rating": point_ratings_hold(facts, breaker_a),
        "voltage-drop-target": (
            None if target and voltage_drop_percent(facts, size) is None else target_holds(facts, size)
        ),
    }
