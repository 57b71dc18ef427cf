"""What holds of every load calculation, drawn dwellings of all kinds included."""

import hashlib
import json
import math
import random
from decimal import Decimal
from typing import Any

import pytest
import rfc8785
from hypothesis import assume, given
from hypothesis import strategies as st
from tests.checks.effort import examples
from tests.checks.printed import sections
from tests.checks.service_capacity.drawn_dwellings import drawn_load_request
from tests.checks.service_capacity.dwellings import EDITIONS, asked, by, calculated, demand_of
from tests.checks.test_every_answer import citations, is_in_schema

from branchwright.checks.service_capacity.dwelling_load import LoadCalculationRequest
from branchwright.codebook import revision

Json = dict[str, Any]

SCHEMA = LoadCalculationRequest.model_json_schema(by_alias=True)
LISTS = ("ranges", "dryers", "appliances", "heating", "cooling", "heat_pumps", "chargers")

seeds = st.integers(0, 10**12)


@st.composite
def untold(draw: st.DrawFn) -> Json:
    """A drawn request with some of its facts left out or set to null."""
    request = drawn_load_request(draw(seeds))
    chance = random.Random(draw(seeds))  # noqa: S311 - requests to test with, no secrets

    def thinned(value: Any) -> Any:
        if isinstance(value, list):
            return [thinned(item) for item in value]
        if not isinstance(value, dict):
            return value
        kept = {}
        for name, inner in value.items():
            is_needed = name in NEEDED or chance.random() < 0.8
            if is_needed:
                kept[name] = thinned(inner)
            elif chance.random() < 0.3 and name not in LISTS and name != "load_management":
                kept[name] = None
        return kept

    return dict(thinned(request))


NEEDED = (
    "edition",
    "dwelling",
    "system",
    "kind",
    "rating_w",
    "rating_va",
    "compressor_va",
    "control_setting_a",
)
"""Fields that their object must have; `kind` and `name` of some."""
NEEDED += ("name",)


def exact_sum(values: list[float]) -> float:
    """The sum of decimal numbers as they are written, to a millionth."""
    return float(round(sum((Decimal(repr(value)) for value in values), Decimal(0)), 6))


UNITS = {"va": "VA", "w": "W", "a": "A", "ft2": "ft2", "circuits": "count"}
"""Endings of the request's fields and the units of what they state."""


def holds(request: Json, answer: Json) -> None:
    for step in answer["steps"]:
        for given_input in step["inputs"].values():
            kind, _, place = given_input["from"].partition(":")
            if kind == "request":
                assert given_input["unit"] == UNITS[place.rsplit("_", 1)[1]], given_input
    for method in answer["methods"]:
        lines, items = method["lines"], method["items"]
        for line in [*lines, *method["neutral_lines"]]:
            assert line["demand_va"] >= 0
            assert line["connected_va"] > 0
            assert line["demand_va"] == pytest.approx(line["connected_va"] * line["demand_factor"], abs=1e-6)
        if method["total_va"] is not None:
            assert method["total_va"] == exact_sum([line["demand_va"] for line in lines])
            assert method["total_va"] >= 0
            for group in {line["group"] for line in lines}:
                connected = [line["connected_va"] for line in lines if line["group"] == group]
                counted = [item["connected_va"] for item in items if item["group"] == group]
                assert exact_sum(connected) == pytest.approx(exact_sum(counted), abs=1e-5), group
        if method["neutral_va"] is not None:
            assert method["neutral_va"] == exact_sum([line["demand_va"] for line in method["neutral_lines"]])
        if method["current_a"] is not None:
            assert abs(method["rounded_current_a"] - method["current_a"]) <= 0.5 + 1e-6
            least = method["least_service_rating_a"]
            assert least is None or least >= method["rounded_current_a"]
        for line in [*lines, *items]:
            assert line["pointer"] is None or is_in_schema(line["pointer"], SCHEMA), line
    requirements = [item["outcome"] for item in answer["findings"] if item["force"] == "requirement"]
    worst = next((out for out in ("fail", "undetermined") if out in requirements), "no-failure-found")
    assert answer["verdict"] == worst
    for finding in answer["findings"]:
        assert finding["message"].endswith("."), finding
        assert finding["pointer"] is None or is_in_schema(finding["pointer"], SCHEMA), finding
        if finding["outcome"] == "fail":
            assert finding["pointer"] and finding["required"] and finding["provided"], finding
        if finding["outcome"] == "undetermined":
            assert finding["pointer"], finding
    for item in answer["to_verify"]:
        assert is_in_schema(item["pointer"], SCHEMA), item
    for cited in citations(answer):
        assert cited["publication"] == request["edition"]
        assert cited["section"] in sections(request["edition"]), cited
    assert answer["provenance"]["input_sha256"] == hashlib.sha256(rfc8785.dumps(request)).hexdigest()
    assert answer["provenance"]["codebook_revision"] == revision()
    assert answer["cautions"] and answer["not_examined"]


@examples(120)
@given(seeds)
def test_every_answer_adds_up(seed: int) -> None:
    request = drawn_load_request(seed)
    holds(request, calculated(request))


@examples(120)
@given(untold())
def test_every_answer_about_untold_facts_adds_up(request: Json) -> None:
    holds(request, calculated(request))


@examples(40)
@given(seeds, st.randoms(use_true_random=False))
def test_the_order_of_loads_changes_nothing(seed: int, shuffled_by: random.Random) -> None:
    request = drawn_load_request(seed)
    mixed = json.loads(json.dumps(request))
    for name in LISTS:
        shuffled_by.shuffle(mixed["dwelling"][name])
    one, other = calculated(request), calculated(mixed)
    assert one["verdict"] == other["verdict"]
    for first, second in zip(one["methods"], other["methods"], strict=True):
        for field in (
            "total_va",
            "current_a",
            "least_service_rating_a",
            "neutral_va",
            "permitted",
            "verdict",
        ):
            assert first[field] == second[field], (first["method"], field)


SIZED = {
    "ranges": "rating_w",
    "dryers": "rating_w",
    "appliances": "rating_va",
    "heating": "rating_w",
    "cooling": "rating_va",
    "heat_pumps": "compressor_va",
}


@examples(100)
@given(seeds, st.sampled_from(sorted(SIZED)), st.floats(1.01, 3), st.integers(0, 10))
def test_a_larger_load_never_lowers_the_total(seed: int, name: str, factor: float, place: int) -> None:
    """At fixed numbers of loads, and with none of them moved into or out of the reach of a count or a column."""
    request = drawn_load_request(seed)
    items = request["dwelling"][name]
    assume(items)
    grown = json.loads(json.dumps(request))
    item = grown["dwelling"][name][place % len(items)]
    before = item[SIZED[name]]
    item[SIZED[name]] = round(before * factor, 3)
    if name == "ranges":
        assume(column(before) == column(item["rating_w"]))
    if name == "appliances":
        assume((before >= 500) == (item["rating_va"] >= 500))
        item.pop("motor_hp", None)
        request["dwelling"][name][place % len(items)].pop("motor_hp", None)
    for first, second in zip(calculated(request)["methods"], calculated(grown)["methods"], strict=True):
        if first["method"] == "standard" and request["edition"] == "nec-2017" and name in CONDITIONING:
            # The larger season may have the smaller motor, of which this edition takes no note in the comparison.
            continue
        assert second["total_va"] >= first["total_va"] - 1e-6, first["method"]


CONDITIONING = ("heating", "cooling", "heat_pumps")


def column(rating_w: float) -> int:
    """The part of the cooking table that a rating belongs to."""
    limits = (1750, 3499.999, 8750, 12_000, 27_000)
    return sum(rating_w > limit for limit in limits)


@examples(50)
@given(seeds, st.floats(1, 2000))
def test_a_larger_dwelling_never_lowers_the_total(seed: int, more_ft2: float) -> None:
    request = drawn_load_request(seed)
    larger = json.loads(json.dumps(request))
    larger["dwelling"]["floor_area_ft2"] += round(more_ft2, 1)
    for first, second in zip(calculated(request)["methods"], calculated(larger)["methods"], strict=True):
        assert second["total_va"] > first["total_va"]
        assert second["neutral_va"] > first["neutral_va"]


@examples(50)
@given(seeds)
def test_another_charger_never_lowers_the_total(seed: int) -> None:
    request = drawn_load_request(seed)
    more = json.loads(json.dumps(request))
    more["dwelling"]["chargers"].append({"charging_current_a": 16, "new": True})
    for first, second in zip(calculated(request)["methods"], calculated(more)["methods"], strict=True):
        assert second["total_va"] > first["total_va"]
        assert second["neutral_va"] == first["neutral_va"]


@examples(40)
@given(seeds)
def test_a_larger_service_never_makes_it_worse(seed: int) -> None:
    request = drawn_load_request(seed)
    order = ("fail", "undetermined", "no-failure-found")
    last = -1
    for rating in (60, 100, 125, 200, 400, 1200):
        request["service"]["rating_a"] = rating
        answer = calculated(request)
        (found,) = [item for item in answer["findings"] if item["rule"] == "service-rating"]
        rank = order.index({"pass": "no-failure-found"}.get(found["outcome"], found["outcome"]))
        assert rank >= last
        last = rank


def fastened(rating_va: float) -> Json:
    return {"rating_va": rating_va, "fastened_in_place": True, "motor": False, "voltage_v": 240}


@pytest.mark.source("NEC 220.53: four appliances fastened in place count 75 percent, three count in full")
@pytest.mark.parametrize("edition", EDITIONS)
def test_a_fourth_appliance_may_lower_the_standard_total(edition: str) -> None:
    three = [fastened(4500)] * 3
    totals = [
        by(asked(edition, {"floor_area_ft2": 1500, "appliances": [*three, *more]}), "standard")["total_va"]
        for more in ([], [fastened(600)], [fastened(4500)])
    ]
    assert totals[1] - totals[0] == 0.75 * (13_500 + 600) - 13_500 < 0
    assert totals[2] == totals[0]
    pooled = [
        by(asked(edition, {"floor_area_ft2": 1500, "appliances": [*three, *more]}), "optional-new")[
            "total_va"
        ]
        for more in ([], [fastened(600)])
    ]
    assert pooled[1] - pooled[0] == 0.4 * 600


def cooking_va(ratings_w: list[float]) -> float:
    dwelling = {
        "floor_area_ft2": 0,
        "ranges": [{"kind": "range", "rating_w": rating} for rating in ratings_w],
    }
    return demand_of(by(asked("nec-2023", dwelling), "standard"), "cooking")


@pytest.mark.source(
    "NEC Table 220.55, column B; drops recomputed in the project's reference on dwelling loads"
)
def test_column_b_drops_where_its_percentage_does() -> None:
    """Of 4 kW each: the demand of n appliances falls at 16, 21, 26, 31, 41, 51 and 61 of them, as printed."""
    demand = {count: cooking_va([4000] * count) for count in range(1, 63)}
    drops = [count for count in range(2, 63) if demand[count] < demand[count - 1]]
    assert drops == [16, 21, 26, 31, 41, 51, 61]
    assert demand[15] == 0.32 * 60_000
    assert demand[16] == 0.28 * 64_000


@pytest.mark.source("NEC Table 220.55, columns A and C: neither total falls as appliances are added")
@pytest.mark.parametrize("rating_w", [3000, 12_000, 9000, 20_000])
def test_other_columns_never_drop(rating_w: float) -> None:
    demand = [cooking_va([rating_w] * count) for count in range(1, 63)]
    assert demand == sorted(demand)


@pytest.mark.source("NEC Table 220.55: figures for numbers of appliances, notes 1 to 3")
@pytest.mark.parametrize(
    "ratings_w, demand_va",
    [
        ([1750], 1750),  # below the scope of the table: in full
        ([1751], 0.8 * 1751),  # column A
        ([3499], 0.8 * 3499),
        ([3500, 3500], 0.65 * 7000),  # column B
        ([3000, 4000], 0.8 * 3000 + 0.8 * 4000),  # note 3: a group each
        ([8750], 7000),  # column B is lower than the 8 kW of column C
        ([8751], 8000),  # column C
        ([8750, 8750], 11_000),  # 65 % of 17.5 kW are 11.375: column C is lower
        ([8000] * 5, 18_000),  # 45 % of 40 kW are 18, below the 20 kW of column C
        ([12_000, 4000], 11_000),  # column C for both: 8 + 3.2 kW are more
        ([12_000, 3000], 8000 + 2400),  # and here less than 11 kW
        ([12_400], 8000),  # no major fraction
        ([12_500], 8400),  # a half is one
        ([13_000], 8400),
        ([27_000], 8000 * 1.75),
        ([14_000, 9000], 11_000 * 1.05),  # note 2: 9 counts as 12, so 13 kW
        ([14_000, 4000], 8800 + 3200),  # the notes on large ranges do not speak of the small one
    ],
)
def test_cooking_by_the_table(ratings_w: list[float], demand_va: float) -> None:
    assert cooking_va(ratings_w) == pytest.approx(demand_va, abs=1e-6)


@pytest.mark.source("NEC Table 220.54: 5 kVA each at least; its percentages by the number of dryers")
@pytest.mark.parametrize(
    "count, percent",
    [(1, 100), (4, 100), (5, 85), (6, 75), (11, 47), (12, 46), (23, 35), (24, 34.5), (42, 25.5), (43, 25)],
)
def test_dryers_by_the_table(count: int, percent: float) -> None:
    dwelling = {"floor_area_ft2": 0, "dryers": [{"rating_w": 4500}] * count}
    found = by(asked("nec-2023", dwelling), "standard")
    assert demand_of(found, "dryers") == pytest.approx(count * 5000 * percent / 100, abs=1e-6)
    optional = by(asked("nec-2023", dwelling), "optional-new")
    pool = [item["connected_va"] for item in optional["items"] if "dryer" in item["item"]]
    assert math.fsum(pool) == count * 4500
