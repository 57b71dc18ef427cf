"""Holds the engine against a second sizing that shares no code with it: `oracle`.

The requests are drawn by a seeded generator of their own beside the usual strategies, since it wanders further:
every loop is the same on every run. Values chosen by both must be the same; so must what each rule finds in
a circuit that somebody else sized.
"""

import copy
import json
import random
from collections import Counter
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given
from tests.checks import circuits, oracle, strategies
from tests.checks.effort import examples
from tests.checks.oracle_facts import Facts

Json = dict[str, Any]

BOTH = ["copper", "aluminum"]
AMBIENTS_C = (20, 25, 26, 30, 30, 30, 33, 35, 35.5, 38, 40, 45)
BURIED_RACEWAYS = ("imc", "rmc", "pvc-40", "pvc-80")
FAR_AMBIENTS_C = (-10, 50, 50.5, 55, 60, 62, 75)
WITH_MISSING_FACTS = (
    "overcurrent-continuous-load",
    "breaker-listed-for-panel",
    "receptacle-listing",
    "conductor-continuous-load",
    "conductor-corrected-ampacity",
    "conductor-overcurrent-protection",
    "terminal-materials",
    "wiring-method-location",
    "conductor-insulation-location",
    "raceway-fill",
    "point-rating",
    "ground-fault-protection",
    "emergency-shutoff",
)
CURRENTS_A = (12, 16, 24, 28.8, 32, 38.4, 40, 48, 64, 80)


# ------------------------------------------------------------------------------------ requests by seed


def drawn_terminals(draw: random.Random) -> Json:
    """Terminals with their temperature and metals, seldom with a range of sizes or for one metal alone."""
    found: Json = {"temperature_rating_c": draw.choices((60, 75, 90), (1, 5, 2))[0], "materials": BOTH}
    if draw.random() < 0.04:
        found["largest"] = draw.choice(strategies.SIZES[3:])
    if draw.random() < 0.03:
        found["smallest"] = draw.choice(strategies.SIZES[:7])
    if draw.random() < 0.01:
        found["materials"] = [draw.choice(strategies.MATERIALS)]
    return found


def drawn_length(draw: random.Random) -> Json:
    """A length in any unit, often short enough for a nipple or for the short-length exception."""
    feet = draw.choice((round(draw.uniform(0.5, 12), 1), round(draw.uniform(10, 250), 1), 2.0))
    unit = draw.choice(("ft", "ft", "ft", "m", "in", "mm"))
    value = {"ft": feet, "m": round(feet * 0.3048, 3), "in": round(feet * 12, 1), "mm": round(feet * 304.8)}
    return {"value": value[unit], "unit": unit}


def drawn_segment(draw: random.Random) -> Json:
    """A segment with every fact stated, seldom one that may not be where it is."""
    method = draw.choices(strategies.METHODS, (4, 1, 1, 3, 2, 1, 2, 3, 3, 2, 2, 2, 1))[0]
    usual = draw.random() < 0.98
    segment: Json = {
        "wiring_method": method,
        "length": drawn_length(draw),
        "location": draw.choice(strategies.PLACES[method] if usual else strategies.LOCATIONS),
        "ambient_c": draw.choice(AMBIENTS_C if draw.random() < 0.95 else FAR_AMBIENTS_C),
    }
    if draw.random() < 0.07:
        clearance_in = draw.choice((0.5, 0.75, 0.8, 0.875, 3))
        segment["rooftop_clearance"] = {"value": clearance_in, "unit": "in"}
    if draw.random() < (0.2 if method in strategies.BURIED else 0.01):
        segment["underground"] = drawn_underground(draw)
        segment["location"] = draw.choice(("wet", "wet", "wet", "dry"))
    listed = method in ("mc", "lfmc", "lfnc-b")
    if listed and ("underground" in segment or draw.random() < 0.1):
        segment["underground"] = drawn_underground(draw)
        segment["listed_for_direct_burial"] = draw.random() < 0.8
    if method in strategies.CABLES:
        return {**segment, **drawn_cable(draw, underground="underground" in segment)}
    others = draw.choice((0, 0, 0, 0, 0, 1, 2, 3, 4, 8))
    if others:
        segment["other_current_carrying_conductors"] = others
        segment["other_conductors_area_in2"] = round(draw.choice((0.0211, 0.0097)) * others, 4)
    if method in ("pvc-40", "pvc-80", "lfmc", "lfnc-b") and draw.random() < 0.15:
        segment["raceway_temperature_rating_c"] = draw.choice((50, 60, 75, 80, 90))
    if draw.random() < 0.05:
        segment["raceway_trade_size"] = draw.choice(strategies.TRADE_SIZES)
    return segment


def drawn_underground(draw: random.Random) -> Json:
    """What lies above, and a cover seldom too small; half of the time none is stated."""
    found: Json = {"under": draw.choice(strategies.GROUNDS)}
    if draw.random() < 0.5:
        found["cover"] = draw.choice(
            ({"value": 24, "unit": "in"}, {"value": 2, "unit": "ft"}, {"value": 30, "unit": "in"})
            if draw.random() < 0.8
            else ({"value": 0, "unit": "in"}, {"value": 6, "unit": "in"}, {"value": 457, "unit": "mm"})
        )
    return found


def drawn_cable(draw: random.Random, *, underground: bool) -> Json:
    """What is special about a cable: bundles, insulation around it, its marking, a sleeve."""
    found: Json = {"cable": {"listed_for_wet": draw.random() < 0.95}}
    if draw.random() < 0.4:
        found["in_thermal_insulation"] = draw.random() < 0.8
    if draw.random() < 0.4:
        found["bundled_cables"] = draw.choice((1, 2, 2, 3, 4, 6))
    if draw.random() < 0.2:
        found["other_current_carrying_conductors"] = draw.choice((0, 1, 2, 4, 9))
    if draw.random() < 0.5:
        found["cable"]["conductor_temperature_rating_c"] = draw.choice((60, 75, 75, 90))
    if len(found) == 1 and draw.random() < 0.4:
        # In a sleeve alone: of bundles in sleeves no diameters are stated.
        found["sleeve_method"] = draw.choice(BURIED_RACEWAYS if underground else strategies.RACEWAYS)
        found["raceway_trade_size"] = draw.choice(strategies.TRADE_SIZES[1:])
        found["cable"]["outside_diameter"] = {"value": draw.choice((0.5, 0.6, 0.7, 0.8, 1)), "unit": "in"}
    return found


def drawn_charger(draw: random.Random) -> Json:
    """A charger, hardwired or on a receptacle, at its rated current or set below it."""
    current = draw.choice((*CURRENTS_A, round(draw.uniform(6, 120), 1), round(draw.uniform(6, 60), 1)))
    rated = draw.choice((current, current, current, max(current, 48), max(current, 80)))
    charger: Json = {
        "charging_current_a": current,
        "rated_current_a": rated if draw.random() < 0.98 else 16,
        "setting_access": draw.choice(("restricted", "unrestricted")),
    }
    if current <= 48 and draw.random() < 0.45:
        large = current > 24 or draw.random() < 0.6
        charger["connection"] = {
            "kind": "receptacle",
            "configuration": draw.choice(
                ("14-60", "14-50", "6-50") if large else ("14-30", "6-30", "6-20", "10-30")
            ),
            "listed_for_ev_charging": draw.random() < 0.95,
            "terminals": drawn_terminals(draw),
        }
    else:
        charger["connection"] = {"kind": "hardwired"}
        charger["terminals"] = drawn_terminals(draw)
        charger["uses_neutral"] = draw.random() < 0.4
    if draw.random() < 0.3:
        charger["power_factor"] = draw.choice((1, 0.99, 0.95, 0.9, 0.8, 0.5))
    if draw.random() < 0.1:
        charger["markings"] = {"greatest_overcurrent_device_a": draw.choice((20, 40, 60, 100))}
    return charger


def drawn_supply(draw: random.Random, *, plugged: bool) -> Json:
    """A supply system, three phases seldom where they cannot be."""
    system = draw.choice(("split-phase-120-240", "wye-208y-120"))
    three = system == "wye-208y-120" and not plugged and draw.random() < 0.5
    return {"system": system, "phases": 3 if three or draw.random() < 0.02 else 1}


def drawn_point(draw: random.Random, segments: int) -> Json:
    """A device or splice on the run, seldom after a segment that there is not."""
    kind = draw.choice(strategies.KINDS)
    after = draw.randrange(segments) if draw.random() < 0.98 else 7
    point: Json = {"after_segment": after, "kind": kind, "terminals": drawn_terminals(draw)}
    if kind != "splice":
        point["rating_a"] = draw.choice((60, 100, 200, 200, 400))
    return point


def drawn_design(seed: int) -> Json:
    """A design request that states every fact."""
    draw = random.Random(seed)  # noqa: S311 - requests to test with, no secrets
    run = [drawn_segment(draw) for _ in range(draw.choice((1, 1, 2, 2, 3, 4)))]
    charger = drawn_charger(draw)
    conductors: Json = {
        "material": draw.choice(strategies.MATERIALS),
        "insulation": draw.choice(strategies.INSULATIONS),
    }
    # Aluminum beside copper of 14 AWG: see test_no_grounding_conductor_is_of_a_size_that_is_not_made.
    if charger["charging_current_a"] > 20 and draw.random() < 0.5:
        conductors["grounding_material"] = draw.choice(strategies.MATERIALS)
    request: Json = {
        "edition": draw.choice(strategies.EDITIONS),
        "premises": {
            "occupancy": draw.choice(("one-family", "two-family", "multifamily", "other")),
            "charger_location": draw.choice(("outdoors", "garage", "accessory-building", "indoors")),
        },
        "supply": drawn_supply(draw, plugged=charger["connection"]["kind"] == "receptacle"),
        "charger": charger,
        "breaker": {"terminals": drawn_terminals(draw), "listed_for_panel": draw.random() < 0.98},
        "conductors": conductors,
        "run": run,
        "points": [drawn_point(draw, len(run)) for _ in range(draw.choice((0, 0, 1, 1, 2)))],
    }
    if draw.random() < 0.4:
        request["targets"] = {"voltage_drop_percent": draw.choice((1, 1.5, 2, 3, 5))}
    if draw.random() < 0.6:
        request["readings"] = {
            name: draw.choice(readings)
            for name, readings in strategies.READINGS.items()
            if draw.random() < 0.5
        }
    return request


def forgetful(request: Json, seed: int) -> Json:
    """The same request with some of its facts left out."""
    draw = random.Random(seed)  # noqa: S311 - requests to test with, no secrets
    request = copy.deepcopy(request)
    charger = request["charger"]
    at_charger = charger.get("terminals") or charger["connection"].get("terminals")
    markings = [request["breaker"]["terminals"], at_charger]
    markings += [point["terminals"] for point in request["points"]]
    facts: list[tuple[Json, str]] = [
        *((marking, "temperature_rating_c") for marking in markings),
        *((marking, "materials") for marking in markings),
        *((segment, "location") for segment in request["run"]),
        *((segment, "ambient_c") for segment in request["run"]),
        *((segment, "other_conductors_area_in2") for segment in request["run"]),
        *((point, "rating_a") for point in request["points"]),
        (charger, "setting_access"),
        (charger, "rated_current_a"),
        *((segment["cable"], "listed_for_wet") for segment in request["run"] if "cable" in segment),
        *((segment, "listed_for_direct_burial") for segment in request["run"]),
        (charger["connection"], "listed_for_ev_charging"),
        (request["breaker"], "listed_for_panel"),
    ]
    if request.get("readings", {}).get("hardwired-outlet") != "not-an-outlet":
        # With that reading: see test_unknown_premises_do_not_matter_where_no_reading_asks_for_them.
        facts += [(request["premises"], "occupancy"), (request["premises"], "charger_location")]
    for place, name in facts:
        if draw.random() < 0.25:
            place.pop(name, None)
    return request


def drawn_review(seed: int) -> Json:
    """A circuit near one that holds: each installed size at, above or below what the oracle chooses."""
    draw = random.Random(seed)  # noqa: S311 - requests to test with, no secrets
    request = drawn_design(seed)
    for segment in request["run"]:
        if segment["wiring_method"] in strategies.RACEWAYS:
            segment.pop("raceway_trade_size", None)
        if "underground" in segment:
            segment["underground"].setdefault("cover", {"value": 24, "unit": "in"})
    chosen = oracle.design(request) or {"breaker_a": 60, "ungrounded": "6 AWG", "grounding": "10 AWG"}

    def near(chosen_size: Any, all_sizes: tuple[Any, ...]) -> Any:
        place = all_sizes.index(chosen_size) + draw.choice((-2, -1, -1, 0, 0, 0, 1, 1, 3))
        return all_sizes[max(0, min(len(all_sizes) - 1, place))]

    for place, segment in enumerate(request["run"]):
        if segment["wiring_method"] in strategies.RACEWAYS:
            trade_size = chosen["segments"][place]["trade_size"] if "segments" in chosen else "1"
            segment["raceway_trade_size"] = near(trade_size, strategies.TRADE_SIZES)
    request["installed"] = {
        "breaker_rating_a": near(int(chosen["breaker_a"]), strategies.RATINGS_A),
        "ungrounded_size": near(chosen["ungrounded"], strategies.SIZES),
        "grounding_size": near(chosen["grounding"], strategies.SIZES),
        "grounding_material": draw.choice(strategies.MATERIALS),
        "ground_fault_protection": draw.choice(("breaker", "charger", "none")),
        "disconnect": {
            fact: draw.random() < 0.9 for fact in ("present", "readily_accessible", "lockable_open")
        },
        "emergency_shutoff": draw.random() < 0.5,
        "setting_label": draw.random() < 0.5,
    }
    if request["installed"]["grounding_size"] == "14 AWG":
        # Of aluminum it would not be made.
        request["installed"]["grounding_material"] = "copper"
    if Facts(request).has_neutral():
        # One that nothing needs: see test_a_spare_neutral_counts_for_fill.
        request["installed"]["neutral_size"] = near(chosen["ungrounded"], strategies.SIZES)
    return request


# --------------------------------------------------------------------------------------- comparison


def same_design(request: Json) -> bool:
    """Assert that engine and oracle choose the same; return whether there is a design."""
    engine, second = circuits.designed(request)["design"], oracle.design(request)
    said = json.dumps(request)
    if second is None:
        assert engine is None, said
        return False
    assert engine is not None, said
    assert engine["breaker"]["rating_a"] == second["breaker_a"], said
    conductors = engine["conductors"]
    assert conductors["ungrounded"]["size"] == second["ungrounded"], said
    assert conductors["ungrounded"]["count"] == second["count"], said
    assert (conductors["neutral"] or {"size": None})["size"] == second["neutral"], said
    assert conductors["grounding"]["size"] == second["grounding"], said
    assert conductors["grounding"]["least_size"] == second["grounding"], said
    for one, other in zip(engine["segments"], second["segments"], strict=True):
        assert (one["raceway"] or {"trade_size": None})["trade_size"] == other["trade_size"], said
        assert one["ampacity_a"] == pytest.approx(float(other["ampacity_a"] or 0)), said
    # The answer rounds percents to three places at most.
    assert engine["voltage_drop"]["percent"] == pytest.approx(second["voltage_drop_percent"], abs=6e-4), said
    protection = engine["breaker"]["ground_fault_protection"]
    assert protection["required"] is second["ground_fault_protection"], said
    assert engine["disconnect"]["required"] is second["disconnect"], said
    return True


@pytest.mark.source(
    "NEC 2023, tables 310.16 and 240.6(A): 125 % of the current, least sizes looked up by hand"
)
@pytest.mark.parametrize(
    ("current_a", "breaker_a", "copper_60", "copper_75", "aluminum_60", "aluminum_75"),
    [
        (16, 20, "12 AWG", "12 AWG", "10 AWG", "10 AWG"),
        (24, 30, "10 AWG", "10 AWG", "8 AWG", "8 AWG"),
        (32, 40, "8 AWG", "8 AWG", "6 AWG", "8 AWG"),
        (40, 50, "6 AWG", "8 AWG", "4 AWG", "6 AWG"),
        (48, 60, "4 AWG", "6 AWG", "3 AWG", "4 AWG"),
        (64, 80, "3 AWG", "4 AWG", "1 AWG", "2 AWG"),
        (72, 90, "2 AWG", "3 AWG", "1/0 AWG", "2 AWG"),
        (80, 100, "1 AWG", "3 AWG", "1/0 AWG", "1 AWG"),
    ],
)
def test_the_oracle_knows_the_usual_circuits(
    current_a: int, breaker_a: int, copper_60: str, copper_75: str, aluminum_60: str, aluminum_75: str
) -> None:
    by_hand = {
        ("copper", 60): copper_60,
        ("copper", 75): copper_75,
        ("aluminum", 60): aluminum_60,
        ("aluminum", 75): aluminum_75,
    }
    for (material, column_c), size in by_hand.items():
        found = oracle.design(plain_request(current_a, material=material, column_c=column_c))
        assert found is not None
        assert (found["breaker_a"], found["ungrounded"]) == (Fraction(breaker_a), size)


def plain_request(current_a: float, *, material: str = "copper", column_c: int = 75) -> Json:
    """A hardwired charger on 30 ft of dry EMT."""
    terminals = {"temperature_rating_c": column_c, "materials": BOTH}
    return {
        "edition": "nec-2023",
        "premises": {"occupancy": "one-family", "charger_location": "garage"},
        "supply": {"system": "split-phase-120-240"},
        "charger": {
            "charging_current_a": current_a,
            "rated_current_a": current_a,
            "setting_access": "restricted",
            "connection": {"kind": "hardwired"},
            "uses_neutral": False,
            "terminals": terminals,
        },
        "breaker": {"terminals": terminals, "listed_for_panel": True},
        "conductors": {"material": material, "insulation": "THWN-2"},
        "run": [
            {
                "wiring_method": "emt",
                "length": {"value": 30, "unit": "ft"},
                "location": "dry",
                "ambient_c": 30,
            }
        ],
    }


@pytest.mark.source("NEC by the oracle, which shares the codebook's data files and no code")
@examples(200)
@given(strategies.usual_designs())
def test_usual_designs_are_those_of_the_oracle(request_body: Json) -> None:
    same_design(request_body)


@pytest.mark.source("NEC by the oracle, which shares the codebook's data files and no code")
def test_designs_with_every_fact_known_are_those_of_the_oracle() -> None:
    made = sum(same_design(drawn_design(seed)) for seed in range(1200))
    assert 480 < made < 720, "the requests are to be of both kinds"


@pytest.mark.source("NEC by the oracle; 110.14(C)(1) for unmarked terminals")
def test_designs_with_missing_facts_are_those_of_the_oracle_at_the_worst() -> None:
    seen: Counter[str] = Counter()
    for seed in range(10_000, 11_000):
        request = forgetful(drawn_design(seed), seed)
        answer = circuits.designed(request)
        serves_at_best_only = oracle.size_is_open(request) or (
            answer["verdict"] == "undetermined" and oracle.design(request) is None
        )
        if serves_at_best_only:
            seen["open"] += 1
            if answer["design"] is not None:
                # What serves at the best is shown, undetermined: it is the least that does.
                best = oracle.Facts(request, best=True)
                breaker_a = oracle.least_breaker_a(best)
                assert answer["verdict"] == "undetermined", json.dumps(request)
                assert breaker_a is not None
                least = oracle.least_size(best, breaker_a)
                assert answer["design"]["conductors"]["ungrounded"]["size"] == least, json.dumps(request)
                seen["shown"] += 1
        elif same_design(request):
            seen["made"] += 1
    assert seen["made"] > 400
    assert 0 < seen["shown"] <= seen["open"] < 60, seen


def same_review(request: Json) -> Counter[tuple[str, bool | None]]:
    """Assert that each rule finds what the oracle finds; return what that is."""
    engine, second = circuits.outcomes(circuits.reviewed(request)), oracle.review(request)
    for rule, holds in second.items():
        allowed = {True: ["pass", "not-applicable"], False: ["fail"], None: ["undetermined"]}[holds]
        assert engine[rule] in allowed, (rule, holds, json.dumps(request))
    return Counter(second.items())


@pytest.mark.source("NEC by the oracle, which shares the codebook's data files and no code")
def test_every_rule_of_a_review_finds_what_the_oracle_finds() -> None:
    seen: Counter[tuple[str, bool | None]] = Counter()
    for seed in range(30_000, 30_800):
        seen += same_review(drawn_review(seed))
    for rule in oracle.review(drawn_review(30_000)):
        assert min(seen[rule, True], seen[rule, False]) > 0, f"{rule} was never seen both ways"


@pytest.mark.source("NEC by the oracle: a rule is undetermined where the unknown facts decide it, else not")
def test_reviews_with_missing_facts_find_what_the_oracle_finds() -> None:
    seen: Counter[tuple[str, bool | None]] = Counter()
    for seed in range(50_000, 50_400):
        seen += same_review(forgetful(drawn_review(seed), seed))
    for rule in WITH_MISSING_FACTS:
        assert seen[rule, None] > 0, f"{rule} was never undetermined"


# ------------------------------------------------------------- where the engine and the oracle differ


@pytest.mark.source("NEC 2023, tables 250.122 and 310.16: no aluminum conductor smaller than 12 AWG")
def test_no_grounding_conductor_is_of_a_size_that_is_not_made() -> None:
    request = plain_request(12)
    request["conductors"]["grounding_material"] = "aluminum"
    assert same_design(request)


@pytest.mark.source("NEC 2023, chapter 9, table 1: the area of all conductors in the raceway")
def test_a_spare_neutral_counts_for_fill() -> None:
    request = plain_request(48)
    request["run"][0]["raceway_trade_size"] = "3/4"
    request["installed"] = {
        "breaker_rating_a": 60,
        "ungrounded_size": "6 AWG",
        "neutral_size": "3 AWG",
        "grounding_size": "10 AWG",
    }
    # Two of 0.0507, 0.0973 and 0.0211 in2 are 0.2198; 40 % of 0.533 in2 are 0.2132.
    assert not oracle.fill_holds(
        Facts(request), request["run"][0], "3/4", [*["6 AWG"] * 2, "3 AWG", "10 AWG"]
    )
    assert circuits.outcomes(circuits.reviewed(request))["raceway-fill"] == "fail"


@pytest.mark.source(
    "NEC 2023, chapter 9, tables 1, 4 and 5: 3 x 0.0211 + 0.0507 = 0.1140 = 40 % of 0.285 in2"
)
def test_a_raceway_that_is_filled_exactly_to_the_limit_holds() -> None:
    request = plain_request(28.8)
    request["charger"]["uses_neutral"] = True
    request["run"][0].update(wiring_method="pvc-40", raceway_trade_size="1/2")
    request["installed"] = {
        "breaker_rating_a": 40,
        "ungrounded_size": "10 AWG",
        "neutral_size": "6 AWG",
        "grounding_size": "10 AWG",
    }
    assert oracle.fill_holds(Facts(request), request["run"][0], "1/2", [*["10 AWG"] * 3, "6 AWG"])
    assert circuits.outcomes(circuits.reviewed(request))["raceway-fill"] == "pass"


@pytest.mark.source("NEC 2023, 210.8(F), by the reading that a hardwired charger is no outlet")
def test_unknown_premises_do_not_matter_where_no_reading_asks_for_them() -> None:
    request = plain_request(32)
    del request["premises"]["occupancy"]
    request["readings"] = {"hardwired-outlet": "not-an-outlet"}
    assert same_design(request)


@pytest.mark.source(
    "NEC 2023, 356.12(2): liquidtight in a dry place at 60 degC ambient is within its 80 degC"
)
def test_a_size_that_holds_only_at_the_best_is_not_the_largest_there_is() -> None:
    request = plain_request(16, material="aluminum")
    request["conductors"]["insulation"] = "RHW-2"
    request["run"] = [
        {"wiring_method": "lfnc-b", "length": {"value": 51, "unit": "ft"}, "ambient_c": 60},
    ]
    assert oracle.size_is_open(request)
    answer = circuits.designed(request)
    assert answer["verdict"] == "undetermined"
    assert answer["design"]["conductors"]["ungrounded"]["size"] == "10 AWG"


@pytest.mark.source(
    "NEC 2020 and 2023, 210.8(F): outlets supplied by single-phase branch circuits; reference on edition rules"
)
@pytest.mark.parametrize("edition", ["nec-2020", "nec-2023"])
def test_three_phases_are_outside_a_single_phase_section(edition: str) -> None:
    request = plain_request(32)
    request.update(edition=edition, supply={"system": "wye-208y-120", "phases": 3})
    request["premises"]["charger_location"] = "outdoors"
    second = oracle.design(request)
    assert second is not None
    assert second["ground_fault_protection"] is False
    assert circuits.designed(request)["design"]["breaker"]["ground_fault_protection"]["required"] is False


@pytest.mark.source(
    "NEC 110.14(C): no more than the lowest temperature of any terminal, conductor or device; table 310.16: "
    "6 AWG copper has 55 A at 60 degC, less than 1.25 x 48 A; 4 AWG has 70 A"
)
def test_a_cable_of_60_degree_conductors_is_taken_from_that_column() -> None:
    request = plain_request(48)
    request["run"][0].update(wiring_method="mc", cable={"conductor_temperature_rating_c": 60})
    second = oracle.design(request)
    assert second is not None
    assert second["ungrounded"] == "4 AWG"
    assert same_design(request)


@pytest.mark.source("NEC 2023, 210.8(F): nothing more is asked for where the breaker protects already")
def test_protection_that_is_there_needs_no_premises() -> None:
    request = plain_request(32)
    request["premises"] = {}
    request["installed"] = {
        "breaker_rating_a": 40,
        "ungrounded_size": "8 AWG",
        "grounding_size": "10 AWG",
        "ground_fault_protection": "breaker",
    }
    assert circuits.outcomes(circuits.reviewed(request))["ground-fault-protection"] == "pass"
