"""The numbers of the pictures, held against printed tables and hand arithmetic; and that each picture shows them."""

import itertools
import json
import xml.etree.ElementTree as ElementTree
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from tests.checks.service_capacity import charging_oracle
from tests.docs.conftest import PICTURES, examples
from tests.docs.html import BuiltPage

SVG = "{http://www.w3.org/2000/svg}"
NAMES = tuple(PICTURES)
WIDEST_LETTER = 0.62
"""Of the face in which the words of a picture are drawn, in parts of the size: what no usual sans-serif exceeds."""


def drawn(pictures: Any, name: str) -> ElementTree.Element:
    """The picture as it is drawn; that it can be parsed says that it is well formed."""
    (figure,) = [part for part in pictures[name].picture().split("\n\n") if part.startswith("<figure")]
    svg = ElementTree.fromstring(figure).find(f"{SVG}svg")  # noqa: S314 - what is parsed is our own
    assert svg is not None
    return svg


def all_words(svg: ElementTree.Element) -> list[str]:
    return [text.text or "" for text in svg.iter(f"{SVG}text")]


@pytest.mark.source(
    "NEC Table 310.16 as reprinted in the International Residential Code 2021, Table E3705.1: copper"
)
def test_the_ampacities_are_those_of_the_printed_table(pictures: Any) -> None:
    shown = pictures["ampacities"].numbers()
    printed = {
        "14 AWG": (15, 20, 25),
        "12 AWG": (20, 25, 30),
        "10 AWG": (30, 35, 40),
        "8 AWG": (40, 50, 55),
        "6 AWG": (55, 65, 75),
        "4 AWG": (70, 85, 95),
        "3 AWG": (85, 100, 115),
        "2 AWG": (95, 115, 130),
        "1 AWG": (110, 130, 145),
        "1/0 AWG": (125, 150, 170),
    }
    assert shown.sizes == tuple(printed)
    for place, column in enumerate((60, 75, 90)):
        assert shown.columns[column] == tuple(row[place] for row in printed.values())


@pytest.mark.source(
    "NEC 625.41, 240.6(A), 240.4(D) and Table 310.16: 125 percent of the charging current, read by hand"
)
def test_the_circuits_on_the_ampacities_are_those_read_by_hand(pictures: Any) -> None:
    by_hand = {
        16: (20, 20, "12 AWG", "12 AWG"),
        24: (30, 30, "10 AWG", "10 AWG"),
        32: (40, 40, "8 AWG", "8 AWG"),
        40: (50, 50, "6 AWG", "8 AWG"),
        48: (60, 60, "4 AWG", "6 AWG"),
        64: (80, 80, "3 AWG", "4 AWG"),
        80: (100, 100, "1 AWG", "3 AWG"),
    }
    assert {
        item.current_a: (item.least_a, item.breaker_a, item.smallest[60], item.smallest[75])
        for item in pictures["ampacities"].numbers().circuits
    } == by_hand


BY_HAND = [
    # last current, breaker, conductors, grounding conductor, EMT, disconnect
    (12, 15, "14 AWG", "14 AWG", "1/2", False),
    (16, 20, "12 AWG", "12 AWG", "1/2", False),
    (20, 25, "10 AWG", "10 AWG", "1/2", False),
    (24, 30, "10 AWG", "10 AWG", "1/2", False),
    (28, 35, "8 AWG", "10 AWG", "1/2", False),
    (32, 40, "8 AWG", "10 AWG", "1/2", False),
    (36, 45, "8 AWG", "10 AWG", "1/2", False),
    (40, 50, "8 AWG", "10 AWG", "1/2", False),
    (48, 60, "6 AWG", "10 AWG", "3/4", False),
    (52, 70, "6 AWG", "8 AWG", "3/4", False),
    (56, 70, "4 AWG", "8 AWG", "3/4", False),
    (60, 80, "4 AWG", "8 AWG", "3/4", False),
    (64, 80, "4 AWG", "8 AWG", "3/4", True),
    (68, 90, "4 AWG", "8 AWG", "3/4", True),
    (72, 90, "3 AWG", "8 AWG", "1", True),
    (80, 100, "3 AWG", "8 AWG", "1", True),
]
"""Read by hand: 125 percent, the next rating, 65 A of 6 AWG up to 52 A and 85 A of 4 AWG up to 68 A; the fill below."""


@pytest.mark.source(
    "NEC 625.41, 240.6(A), 240.4(B) and (D), 625.43, Tables 310.16 and 250.122 and chapter 9: read by hand"
)
def test_every_stair_is_the_one_read_by_hand(pictures: Any) -> None:
    shown = pictures["staircase"].numbers()
    assert [stair.current_a for stair in shown] == list(range(6, 81))
    for stair in shown:
        expected = next(row for row in BY_HAND if stair.current_a <= row[0])
        assert (
            stair.breaker_a,
            stair.ungrounded,
            stair.grounding,
            stair.trade_size,
            stair.disconnect,
        ) == expected[1:], stair.current_a


@pytest.mark.source("NEC chapter 9, tables 1, 4 (EMT) and 5 (THWN-2): areas in square inches, added by hand")
def test_the_raceways_of_the_stairs_hold_by_hand() -> None:
    """The areas that decide: 6 AWG is too much for 1/2 by 0.0009 square inches, 3 AWG for 3/4 by 0.018."""
    half, three_quarters = 0.304 * 0.4, 0.533 * 0.4
    assert 2 * 0.0366 + 0.0211 <= half < 2 * 0.0507 + 0.0211
    assert 2 * 0.0824 + 0.0366 <= three_quarters < 2 * 0.0973 + 0.0366


def test_the_stops_are_the_last_currents_before_a_step_in_cost(pictures: Any) -> None:
    """Where by hand more copper, a larger raceway or a disconnect begins, and nowhere else."""
    expected = [
        row[0]
        for row, after in itertools.pairwise(BY_HAND)
        if (row[2], row[4], row[5]) != (after[2], after[4], after[5])
    ]
    stops = pictures["staircase"].marks()
    assert list(stops) == expected
    assert "8 AWG" in stops[24]
    assert "3/4" in stops[40]
    assert "disconnect" in stops[60]


@pytest.mark.source(
    "Neher and McGrath, AIEE Transactions 76 (1957): the rise goes with the square of the current; worked by hand "
    "with the 75 degC column of NEC Table 310.16"
)
def test_the_temperatures_are_those_worked_by_hand(pictures: Any) -> None:
    """(24/35)^2, (40/50)^2, (48/65)^2 and (48/85)^2 of 45 K: 21.16, 28.80, 24.54 and 14.35 K above ambient."""
    by_hand = {
        ("10 AWG", 24.0): (35, 51.16, 38.84),
        ("8 AWG", 40.0): (50, 58.80, 31.20),
        ("6 AWG", 48.0): (65, 54.54, 35.46),
        ("4 AWG", 48.0): (85, 44.35, 45.65),
    }
    shown = {(item.size, item.current_a): item for item in pictures["temperatures"].numbers()}
    assert set(shown) == set(by_hand)
    ambients = list(pictures["temperatures"].AMBIENTS_C)
    for key, (ampacity_a, at_30_c, ambient_for_60_c) in by_hand.items():
        item = shown[key]
        assert item.ampacity_a == ampacity_a
        assert item.temperatures_c[ambients.index(30)] == pytest.approx(at_30_c, abs=0.005)
        assert item.greatest_ambient_c[60.0] == pytest.approx(ambient_for_60_c, abs=0.005)
        assert item.greatest_ambient_c[75.0] == pytest.approx(ambient_for_60_c + 15, abs=0.005)
        # One degree of ambient is one degree of the conductor.
        steps = zip(ambients, item.temperatures_c, strict=True)
        assert all(
            temperature - ambient == pytest.approx(at_30_c - 30, abs=0.005) for ambient, temperature in steps
        )


@pytest.mark.source(
    "NEC 220.41 to 220.60, 220.82 and 220.83 of 2023, worked by hand with 3 VA/ft2, 35 and 40 percent, 8 kW of the "
    "range table and a quarter of the largest motor"
)
def test_the_loads_by_each_method_are_those_worked_by_hand(pictures: Any) -> None:
    """1800 ft2: 5400 + 3000 + 1500 VA; range 12, dryer 5, heater and dishwasher 5.7, cooling 5.76 kVA."""
    shown = {method.name: method for method in pictures["load_methods"].numbers()}
    assert shown["standard"].demands_va == {
        "general": 3000 + 0.35 * 6900,
        "cooking": 8000,
        "appliances": 5000 + 4500 + 1200,
        "cooling": 1.25 * 5760,
        "charger": 48 * 240,
    }
    pool = 9900 + 12000 + 5000 + 4500 + 1200
    assert shown["optional-new"].demands_va == {
        "pool in full": 10000,
        "rest of pool": pytest.approx(0.4 * (pool - 10000)),
        "charger": 48 * 240,
        "cooling": 5760,
    }
    assert shown["optional-existing"].demands_va == {
        "pool in full": 8000,
        "rest of pool": pytest.approx(0.4 * (pool + 5760 - 8000)),
        "charger": 48 * 240,
    }
    for method in shown.values():
        assert method.total_va == pytest.approx(sum(method.demands_va.values()))
    assert [method.least_service_a for method in shown.values()] == [200, 175, 150]


def test_the_invented_house_is_the_same_in_every_build_and_the_one_of_the_guides(pictures: Any) -> None:
    house = pictures["hidden_peak"].invented_house
    energies = house.energy_wh()
    house.energy_wh.cache_clear()
    assert house.energy_wh() == energies
    assert len(energies) == 365 * 24 * 4
    # Never more than all that stands in it draws at once, and never nothing.
    everything_w = (
        house.RANGE_W + house.DRYER_W + house.WATER_HEATER_W + house.DISHWASHER_W + house.COOLING_W + 3000
    )
    assert min(energies) > 0
    assert 4 * max(energies) < everything_w
    (measured,) = [
        json.loads(example.text)
        for example in examples("guides/capacity-reviews.md")
        if example.title == "measured.json"
    ]
    assert measured["existing_load"]["measured_demand_w"] == 4 * max(energies)


def test_what_an_hour_hides_is_added_up_by_hand(pictures: Any) -> None:
    picture = pictures["hidden_peak"]
    quarters = picture.invented_house.energy_wh()
    for read in picture.numbers():
        step = read.minutes // 15
        energies = [sum(quarters[at : at + step]) for at in range(0, len(quarters), step)]
        assert read.greatest_w == pytest.approx(max(energies) * 60 / read.minutes)
        # Fifteen minutes touch two neighbours of longer intervals, and are one of their own length.
        touched = max(map(sum, itertools.pairwise(energies))) if step > 1 else max(energies)
        assert read.bound_w == pytest.approx(4 * touched)
        assert read.bound_w >= 4 * max(quarters)
    day = picture.day()
    assert max(day.quarters_w) == 4 * max(quarters)
    assert list(day.hours_w) == [
        pytest.approx(sum(day.quarters_w[at : at + 4]) / 4) for at in range(0, 48, 4)
    ]


def test_the_worst_day_keeps_its_limit_as_a_second_simulation_does(pictures: Any) -> None:
    picture = pictures["worst_day"]
    house = pictures["hidden_peak"].invented_house
    shown = picture.numbers()
    expected = charging_oracle.simulate(picture.managed_house.request(picture.SHARING))
    days = {visit.date: 0.0 for visit in expected.visits}
    for visit in expected.visits:
        days[visit.date] += visit.paused_h
    assert all(expected.nights().values())
    assert days[picture.date()] == max(days.values())
    # Midnight in summer is an hour before that of the readings, which stand in standard time.
    at = 96 * (date.fromisoformat(picture.date()) - date(2025, 1, 1)).days - 4
    for place, interval in enumerate(shown):
        assert interval.house_a == pytest.approx(house.energy_wh()[at + place] * 4 / 240, abs=1e-6)
        assert interval.left_a == expected.available_a[at + place]
        assert interval.charging_a == sum(expected.currents_a[at + place])
        assert interval.total_a <= 80 or interval.charging_a == 0
    assert any(interval.is_waiting for interval in shown)
    assert max(interval.total_a for interval in shown) > 79


@pytest.mark.parametrize("sharing", ["equal", "first-come", "earliest-departure"])
def test_the_nights_that_are_met_are_those_of_a_second_simulation(pictures: Any, sharing: str) -> None:
    """At the smallest setting that meets all of them, one ampere below it, and at points of the curve."""
    (curve,) = [found for found in pictures["nights_met"].numbers().by_sharing if found.sharing == sharing]
    request = pictures["nights_met"].managed_house.request(sharing)
    points = [curve.smallest_a - 1, curve.smallest_a, *list(curve.share_percent)[::9]]
    for setting_a in points:
        asked = {**request, "management": {**request["management"], "control_setting_a": setting_a}}
        nights = charging_oracle.simulate(asked).nights().values()
        share = 100 * sum(nights) / len(nights)
        if setting_a in curve.share_percent:
            assert curve.share_percent[setting_a] == pytest.approx(share, abs=0.001)
        assert (share == 100) is (setting_a >= curve.smallest_a)
    assert pictures["nights_met"].numbers().house_alone_a == pytest.approx(
        4 * max(request["house_load"]["energy_wh"]) / 240, abs=1e-6
    )


@pytest.mark.parametrize("name", NAMES)
def test_a_picture_is_described_for_those_who_do_not_see_it(pictures: Any, name: str) -> None:
    svg = drawn(pictures, name)
    assert svg.get("role") == "img"
    labels = (svg.get("aria-labelledby") or "").split()
    texts = {part.get("id"): part.text for part in svg if part.tag in (f"{SVG}title", f"{SVG}desc")}
    assert labels == list(texts)
    assert all(text and len(text.split()) >= 7 for text in texts.values())


@pytest.mark.parametrize(
    ("name", "units"),
    [
        ("ampacities", ["ampacity, A", "conductor size, AWG"]),
        (
            "staircase",
            ["breaker, A", "charging current, A", "stop at, A", "conductors, AWG", "EMT, trade size"],
        ),
        ("temperatures", ["conductor temperature, degC", "ambient temperature, degC"]),
        ("load_methods", ["demand, kVA", "service, 100 A"]),
        ("hidden_peak", ["mean power, kW", "local time on 2025-07-09, h"]),
        ("worst_day", ["current on the larger leg, A", "local time", "control setting, 80 A"]),
        ("nights_met", ["nights met, %", "control setting, A"]),
        ("price_heat", ["USD/kWh", "hour of the local clock, h", "month"]),
        ("bills", ["a year, USD", "the house alone, 1320.30"]),
        ("pay_back", ["saved, USD", "years", "installed cost, 950"]),
        ("estimate_spread", ["total of the job, USD"]),
    ],
)
def test_the_axes_say_what_they_are_in_which_unit(pictures: Any, name: str, units: list[str]) -> None:
    assert set(units) <= set(all_words(drawn(pictures, name)))


@pytest.mark.parametrize("name", NAMES)
def test_no_words_are_cut_off_or_lie_on_others(pictures: Any, name: str) -> None:
    """By a generous width of the letters; the real widths were looked at in a browser."""
    svg = drawn(pictures, name)
    _, _, width, height = (float(number) for number in (svg.get("viewBox") or "").split())
    size = float(svg.get("font-size") or 0)
    boxes: list[tuple[float, float, float, float, str]] = []
    for text in svg.iter(f"{SVG}text"):
        words = text.text or ""
        long = WIDEST_LETTER * size * len(words)
        x, y = float(text.get("x") or 0), float(text.get("y") or 0)
        left = x - {"start": 0.0, "middle": long / 2, "end": long}[text.get("text-anchor") or "start"]
        assert left >= 0, words
        assert left + long <= width, words
        assert size / 2 <= y <= height - size / 2, words
        boxes.append((left, left + long, y - size / 2, y + size / 2, words))
    # What stands on another line may touch; what stands on the same one may not.
    for place, (left, right, top, bottom, words) in enumerate(boxes):
        for other_left, other_right, other_top, other_bottom, other in boxes[place + 1 :]:
            apart = right <= other_left or other_right <= left
            assert apart or bottom <= other_top + 3 or other_bottom <= top + 3, f"{words} | {other}"


FIRST_CELLS = {
    "ampacities": "16 A",
    "staircase": "6 to 12 A",
    "temperatures": "10 AWG at 24 A",
    "load_methods": "standard",
    "hidden_peak": "15 minutes",
    "worst_day": "00:00",
    "nights_met": "equal",
    "price_heat": "2027-01",
    "bills": "1",
    "pay_back": "the present tariff",
    "estimate_spread": "16 A",
}
"""Where the table below each picture begins."""


@pytest.mark.parametrize("name", NAMES)
def test_the_page_has_the_picture_and_its_numbers(site: Path, pictures: Any, name: str) -> None:
    page = BuiltPage(site / f"{PICTURES[name]}.html")
    for words in all_words(drawn(pictures, name)):
        assert page.shows(words), words
    tables = [table for section in page.sections.values() for table in section.tables]
    assert [table[1][0] for table in tables].count(FIRST_CELLS[name]) == 1


def test_the_page_of_pictures_has_or_names_all_of_them(site: Path) -> None:
    page = BuiltPage(site / "pictures.html")
    for shown in set(PICTURES.values()) - {"pictures"}:
        assert str((site / f"{shown}.html").resolve()) in page.linked
