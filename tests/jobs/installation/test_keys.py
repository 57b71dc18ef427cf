"""The demo book and table have every key that an estimate may ask for, and the engine asks for no other."""

import tomllib
from importlib import resources
from itertools import product
from pathlib import Path

import pytest
from hypothesis import given
from tests.checks.circuits import Json
from tests.checks.effort import examples
from tests.checks.replay import demo
from tests.checks.strategies import CABLES, CONFIGURATIONS, METHODS
from tests.jobs.installation.estimates import circuit, estimated, estimates, segment

from branchwright.jobs.installation.demo import demo_labour_table, demo_price_book
from branchwright.jobs.installation.price_keys import (
    PRICE_FORMS,
    PRICE_MEASURES,
    TASK_FORMS,
    TASK_MEASURES,
)
from branchwright.jobs.installation.sources import fits, in_order

EVERYTHING: Json = {
    "charger": "by-contractor",
    "energy_management": True,
    "meter_socket": True,
    "submeter": True,
    "panel": {"rating_a": 200},
    "permit": True,
    "paperwork": True,
    "load_calculation": True,
}


def test_the_demo_book_has_every_key_once_in_a_unit_of_its_own() -> None:
    assert set(demo_price_book().prices) == set(PRICE_MEASURES)
    assert set(demo_labour_table().tasks) == set(TASK_MEASURES)
    for key, price in demo_price_book().prices.items():
        assert fits(price.unit, PRICE_MEASURES[key])
        assert in_order(price.low, price.likely, price.high) and price.low > 0
    for key, task in demo_labour_table().tasks.items():
        assert fits(task.unit, TASK_MEASURES[key])
        assert in_order(task.hours_low, task.hours_likely, task.hours_high) and task.hours_low > 0


def test_no_two_forms_write_the_same_key() -> None:
    for forms, measures in ((PRICE_FORMS, PRICE_MEASURES), (TASK_FORMS, TASK_MEASURES)):
        assert sum(len(form.keys) for form in forms) == len(measures)


def test_the_demo_says_that_it_is_invented() -> None:
    for name in ("price-book", "labour-table"):
        of = demo(name)
        assert of["is_demo"] is True
        assert "invented" in of["name"]
        assert of["dated"] == "2026-11-01"


@pytest.mark.source("the hours of the task as the trade reckons them; common practice, no source")
def test_hours_of_the_demo_table() -> None:
    tasks = demo_labour_table().tasks

    def hours(key: str) -> tuple[float, float]:
        return tasks[key].hours_low, tasks[key].hours_high

    assert hours("breaker") == (0.3, 0.6)
    assert hours("cable/nm-b/6 AWG") == (3, 5)
    assert hours("raceway/emt/3/4") == (4, 7)
    assert hours("pull/6 AWG") == (1.2, 2)
    assert hours("charger/hardwired") == (1, 2)
    assert hours("receptacle") == (0.5, 1)
    assert hours("trench/soil/hand/18 in") == (4, 8)
    assert tasks["trench/soil/hand/18 in"].unit == "10 m"
    assert hours("panel") == hours("meter-socket") == (8, 16)
    assert hours("energy-management") == (1.5, 3)
    assert hours("paperwork") == (1, 2)


def asks_only_for_known_keys(answer: Json) -> set[str]:
    asked: set[str] = set()
    for line in answer["lines"]:
        known = TASK_MEASURES if line["group"] == "labour" else PRICE_MEASURES
        if line["key"] is not None:
            assert line["key"] in known, line
            asked.add(line["key"])
    return asked


@examples(60)
@given(estimates(usual=False))
def test_any_estimate_asks_only_for_known_keys(request: Json) -> None:
    asks_only_for_known_keys(estimated({**request, "price_book": None}))


@examples(50)
@given(estimates(usual=True))
def test_usual_estimates_ask_only_for_known_keys(request: Json) -> None:
    asks_only_for_known_keys(estimated({**request, "supplies": EVERYTHING, "price_book": None}))


def test_every_method_current_and_connection_is_priced() -> None:
    """Wiring methods, sizes and ratings from the smallest charger to the largest that has a circuit."""
    asked: set[str] = set()
    currents = (6, 12, 16, 20, 24, 32, 40, 48, 56, 64, 72, 80, 100, 120, 160, 200, 240)
    for method, material, current in product(METHODS, ("copper", "aluminum"), currents):
        of = circuit(segment(40, wiring_method=method))
        of["conductors"] = {"material": material}
        of["charger"] |= {"charging_current_a": current, "rated_current_a": current}
        answer = estimated({"circuit": of, "supplies": EVERYTHING, "risk": {"draws": 100}})
        asked |= asks_only_for_known_keys(answer)
        lacking = [line["key"] for line in answer["lines"] if line["amount"] is None]
        assert not lacking, (method, material, current)
    assert {f"connector/{method}" for method in CABLES} <= asked
    assert {f"breaker/{rating} A/2-pole" for rating in (15, 60, 100, 200, 250)} <= asked


def test_every_receptacle_and_point_is_priced() -> None:
    for configuration, kind, poles in product(
        CONFIGURATIONS, ("disconnect", "meter-socket", "submeter", "splice"), (1, 3)
    ):
        of = circuit(segment(20), segment(20, wiring_method="mc"))
        if poles == 3:
            of["supply"] = {"system": "wye-208y-120", "phases": 3}
        else:
            lugs = {"temperature_rating_c": 75, "materials": ["copper", "aluminum"]}
            receptacle = {"kind": "receptacle", "configuration": configuration, "terminals": lugs}
            of["charger"] = {"charging_current_a": 12, "rated_current_a": 12, "connection": receptacle}
        of["points"] = [{"after_segment": 0, "kind": kind}]
        if kind != "splice":
            of["points"][0]["rating_a"] = 100
        answer = estimated({"circuit": of, "supplies": EVERYTHING, "risk": {"draws": 100}})
        asks_only_for_known_keys(answer)
        assert not [line["key"] for line in answer["lines"] if line["amount"] is None]


def test_the_data_is_part_of_the_package() -> None:
    """Read as the service reads it; the wheel packs every file below the package."""
    folder = resources.files("branchwright.jobs.installation").joinpath("data")
    assert {file.name for file in folder.iterdir()} == {"labour-table.toml", "price-book.toml"}
    root = Path(__file__).parents[3]
    packed = tomllib.loads((root / "pyproject.toml").read_text(encoding="utf-8"))
    assert packed["tool"]["hatch"]["build"]["targets"]["wheel"] == {"packages": ["service/branchwright"]}
