"""Whole circuits against published tables: conductor minimums, next size up, grounding conductors."""

from typing import Any

import pytest
from tests.checks.circuits import Json, by_rule, designed, reviewed
from tests.checks.replay import printed_table, replay

from branchwright.calculations.grounding import proportional_area_cmil, shortfall_percent
from branchwright.codebook import at


def circuit(current_a: float, temperature_c: int, material: str, **more: Any) -> Json:
    """A short run in tubing, with every terminal marked."""
    lugs = {"temperature_rating_c": temperature_c, "materials": ["copper", "aluminum"]}
    return {
        "edition": "nec-2023",
        "premises": {"occupancy": "one-family", "charger_location": "garage"},
        "supply": {"system": "split-phase-120-240"},
        "charger": {
            "charging_current_a": current_a,
            "rated_current_a": current_a,
            "setting_access": "restricted",
            "connection": {"kind": "hardwired"},
            "terminals": lugs,
        },
        "breaker": {"terminals": lugs, "listed_for_panel": True},
        "conductors": {"material": material},
        "run": [{"wiring_method": "emt", "length": {"value": 10, "unit": "ft"}, "location": "dry"}],
        **more,
    }


MINIMUMS = {
    # charging current: breaker, copper 60 and 75 degC, aluminum 60 and 75 degC
    16: (20, "12", "12", "10", "10"),
    24: (30, "10", "10", "8", "8"),
    32: (40, "8", "8", "6", "8"),
    40: (50, "6", "8", "4", "6"),
    48: (60, "4", "6", "3", "4"),
    64: (80, "3", "4", "1", "2"),
    72: (90, "2", "3", "1/0", "2"),
    80: (100, "1", "3", "1/0", "1"),
}


@pytest.mark.source(
    "NEC tables 310.16, 240.6(A) and 240.4(D): 125 percent of the charging current, read by hand"
)
@pytest.mark.parametrize("current_a", MINIMUMS)
@pytest.mark.parametrize(
    "material, temperature_c, column",
    [("copper", 60, 1), ("copper", 75, 2), ("aluminum", 60, 3), ("aluminum", 75, 4)],
)
def test_the_smallest_conductors_of_a_charging_circuit(
    current_a: float, material: str, temperature_c: int, column: int
) -> None:
    request = circuit(current_a, temperature_c, material)
    answer = designed(request)
    replay(answer, request)
    assert answer["verdict"] == "no-failure-found"
    assert answer["design"]["breaker"]["rating_a"] == MINIMUMS[current_a][0]
    assert answer["design"]["conductors"]["ungrounded"]["size"] == f"{MINIMUMS[current_a][column]} AWG"
    # No growth beyond the minimum, so the grounding conductor is that of the table.
    by_breaker = {20: ("12", "10"), 30: ("10", "8"), 40: ("10", "8"), 50: ("10", "8"), 60: ("10", "8")}
    expected = by_breaker.get(MINIMUMS[current_a][0], ("8", "6"))[0 if material == "copper" else 1]
    assert answer["design"]["conductors"]["grounding"]["least_size"] == f"{expected} AWG"


NEXT_SIZE_UP = {
    15: 15,
    20: 20,
    25: 25,
    30: 30,
    35: 35,
    40: 40,
    50: 50,
    55: 60,
    65: 70,
    70: 70,
    75: 80,
    85: 90,
    95: 100,
    100: 100,
    115: 125,
    130: 150,
    150: 150,
    170: 175,
}


def conductors_of(ampacity_a: int) -> tuple[str, str, int]:
    """A size, metal and termination column of the printed table with that ampacity."""
    for row in printed_table("ampacity", "nec-2023").rows:
        for material in ("copper", "aluminum"):
            for column in (60, 75):
                if row[f"{material}_{column}"] == str(ampacity_a):
                    return row["size"], material, column
    raise LookupError(ampacity_a)


@pytest.mark.source("NEC 240.4(B) and table 240.6(A): greatest device over a printed ampacity, read by hand")
@pytest.mark.parametrize("ampacity_a", NEXT_SIZE_UP)
def test_the_greatest_breaker_over_an_ampacity(ampacity_a: int) -> None:
    size, material, column = conductors_of(ampacity_a)
    greatest = NEXT_SIZE_UP[ampacity_a]
    request = circuit(6, column, material)
    installed = {"breaker_rating_a": greatest, "ungrounded_size": size, "grounding_size": size}
    answer = reviewed({**request, "installed": installed})
    finding = by_rule(answer)["conductor-overcurrent-protection"]
    assert (finding["outcome"], finding["required"]["value"]) == ("pass", greatest)
    ratings = [float(row["rating_a"]) for row in printed_table("standard_ratings", "nec-2023").rows]
    installed["breaker_rating_a"] = min(rating for rating in ratings if rating > greatest)
    larger = reviewed({**request, "installed": installed})
    assert by_rule(larger)["conductor-overcurrent-protection"]["outcome"] == "fail"


GROWN = [
    # table's grounding conductor, from, to, circular mils asked for, size before the cap
    ("10", "8", "4", 26242.4, "4"),
    ("10", "8", "6", 16497.3, "8"),
    ("10", "8", "1", 52616.7, "3"),
    ("12", "12", "6", 26240.0, "6"),
    ("10", "6", "4", 16511.5, "6"),
    ("10", "6", "3", 20815.4, "6"),
    ("8", "4", "2", 26248.3, "4"),
    ("12", "12", "1/0", 105600.0, "1/0"),
]
SHORT_BY_A_HAIR = [
    # table's grounding conductor, from, to, circular mils asked for, size that just fails, percent short
    ("14", "12", "10", 6533.2, "12", 0.049),
    ("14", "12", "6", 16515.5, "8", 0.0335),
    ("10", "8", "4", 26242.4, "6", 0.009),
    ("10", "6", "4", 16511.5, "8", 0.009),
    ("10", "6", "2", 26250.6, "6", 0.0405),
    ("10", "6", "1/0", 41773.2, "4", 0.0794),
    ("10", "4", "1/0", 26260.9, "6", 0.0794),
    ("10", "3", "2/0", 26255.8, "6", 0.06),
    ("8", "4", "2", 26248.3, "6", 0.0316),
    ("8", "4", "1/0", 41769.4, "4", 0.0705),
    ("8", "4", "2/0", 52646.9, "3", 0.0511),
    ("8", "3", "1", 26258.5, "6", 0.0704),
    ("8", "3", "2/0", 41761.3, "4", 0.0511),
    ("8", "3", "3/0", 52648.8, "3", 0.0546),
    ("8", "2", "3/0", 41747.7, "4", 0.0185),
    ("8", "2", "4/0", 52644.9, "3", 0.0473),
    ("8", "1", "2/0", 26257.4, "6", 0.0662),
    ("8", "1", "4/0", 41743.5, "4", 0.0085),
]
NEEDS = {
    # Copper size that just serves: charging current and terminal temperature, from the table of minimums above.
    "8": (32, 75),
    "6": (48, 75),
    "4": (48, 60),
    "3": (80, 75),
    "2": (72, 60),
    "1": (80, 60),
    "12": (16, 75),
}


def area_cmil(size: str) -> float:
    return at("nec-2023").edition.areas_cmil[f"{size} AWG"].number


@pytest.mark.source("NEC 250.122(B) and chapter 9, table 8; computed by hand with the exact ratio")
@pytest.mark.parametrize("table, small, large, asked_cmil, size", GROWN)
def test_a_grounding_conductor_grows_in_exact_proportion(
    table: str, small: str, large: str, asked_cmil: float, size: str
) -> None:
    found = proportional_area_cmil(area_cmil(table), area_cmil(large), area_cmil(small))
    assert found == pytest.approx(asked_cmil, abs=0.05)
    assert at("nec-2023").edition.size_with_area_at_least(found) == f"{size} AWG"


@pytest.mark.source(
    "NEC 250.122(B) and chapter 9, table 8; every case short by less than 0.1 percent, by hand"
)
@pytest.mark.parametrize("table, small, large, asked_cmil, size, percent", SHORT_BY_A_HAIR)
def test_the_cases_that_are_short_by_a_hair(
    table: str, small: str, large: str, asked_cmil: float, size: str, percent: float
) -> None:
    found = proportional_area_cmil(area_cmil(table), area_cmil(large), area_cmil(small))
    assert found == pytest.approx(asked_cmil, abs=0.05)
    assert shortfall_percent(area_cmil(size), found) == pytest.approx(percent, abs=5e-4)


def least_after_growth(small: str, large: str, table: str) -> tuple[str, str]:
    """The least grounding conductor by the strict reading, and by the one that forgives a hair."""
    order = [row["size"] for row in printed_table("conductor_properties", "nec-2023").rows]
    areas = [float(row["area_cmil"]) for row in printed_table("conductor_properties", "nec-2023").rows]
    asked = area_cmil(table) * area_cmil(large) / area_cmil(small)
    place = next(place for place, area in enumerate(areas) if area >= asked)
    # Never larger than the ungrounded conductors.
    strict = min(place, order.index(f"{large} AWG"))
    forgiven = place - 1 if areas[place - 1] >= 0.999 * asked else place
    return order[strict], order[min(forgiven, strict)]


REVIEWABLE = [
    (small, large, table)
    for table, small, large in [case[:3] for case in GROWN] + [case[:3] for case in SHORT_BY_A_HAIR]
    if small in NEEDS and table == ("12" if NEEDS[small][0] <= 16 else "10" if NEEDS[small][0] <= 48 else "8")
]
"""The cases above that a charging circuit makes: not every size is the least behind every breaker."""


@pytest.mark.source("NEC 250.122(A) and (B), table 250.122 and chapter 9, table 8")
@pytest.mark.parametrize("small, large, table", sorted(set(REVIEWABLE)))
def test_a_grown_circuit_is_reviewed_by_both_readings(small: str, large: str, table: str) -> None:
    current_a, temperature_c = NEEDS[small]
    request = circuit(current_a, temperature_c, "copper")
    order = [row["size"] for row in printed_table("conductor_properties", "nec-2023").rows]
    readings = zip(("strict", "within-rounding"), least_after_growth(small, large, table), strict=True)
    for reading, least in readings:
        installed = {
            "breaker_rating_a": MINIMUMS[current_a][0],
            "ungrounded_size": f"{large} AWG",
            "grounding_size": least,
        }
        asked = {**request, "readings": {"grounding-near-miss": reading}, "installed": installed}
        finding = by_rule(reviewed(asked))["grounding-conductor-size"]
        assert (finding["outcome"], finding["required"]["value"]) == ("pass", least)
        installed["grounding_size"] = order[order.index(least) - 1]
        assert by_rule(reviewed(asked))["grounding-conductor-size"]["outcome"] == "fail"
