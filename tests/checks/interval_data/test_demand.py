"""Measured demand: the bound on 15 minutes against finer series, amperes, and the steps."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.checks.effort import examples
from tests.checks.interval_data.asking import ask_json
from tests.checks.replay import replay

from branchwright.checks.service_capacity.interval_data.facts import IntervalDataRequest


def regular(energies: list[float | None], minutes: int) -> dict:
    return {
        "kind": "regular",
        "start": "2023-01-01T00:00:00Z",
        "interval_minutes": minutes,
        "energy_wh": energies,
    }


def finer(data: st.DataObject, minutes: int) -> np.ndarray:
    """Energy by the minute over whole intervals: mostly little, sometimes very much for some minutes."""
    count = data.draw(st.integers(2, 8)) * minutes
    energies = np.array(data.draw(st.lists(st.floats(0, 50), min_size=count, max_size=count)))
    for _ in range(data.draw(st.integers(0, 3))):
        first, length = data.draw(st.integers(0, count - 1)), data.draw(st.integers(1, 20))
        energies[first : first + length] += data.draw(st.floats(100, 1000))
    return energies


@pytest.mark.source("every 15 minutes of a series by the minute, by brute force")
@examples(80)
@given(st.data(), st.sampled_from([4, 7, 10, 20, 30, 45, 60, 120]))
def test_no_fifteen_minutes_exceed_the_bound(data: st.DataObject, minutes: int) -> None:
    fine = finer(data, minutes)
    coarse = fine.reshape(-1, minutes).sum(axis=1)
    demand = ask_json(regular(coarse.tolist(), minutes))["measured_demand"]
    if demand is None:
        assert coarse.max() * 60 / minutes < 50, "no dwelling draws so little"
        return
    windows = [fine[at : at + 15].sum() / 0.25 for at in range(len(fine) - 14)]
    assert max(windows, default=0) <= demand["bound_15_minute_w"] * (1 + 1e-9) + 1e-3
    assert demand["bound_factor"] == pytest.approx(demand["bound_15_minute_w"] / demand["greatest_w"])


@pytest.mark.source("every 15 minutes that begin with a reading, by brute force")
@examples(50)
@given(st.data(), st.sampled_from([1, 3, 5, 15]))
def test_readings_of_parts_of_fifteen_minutes_show_the_demand_itself(
    data: st.DataObject, minutes: int
) -> None:
    fine = finer(data, 15)
    coarse = fine.reshape(-1, minutes).sum(axis=1)
    answer = ask_json(regular(coarse.tolist(), minutes))
    if answer["measured_demand"] is None:
        return
    count = 15 // minutes
    windows = [coarse[at : at + count].sum() / 0.25 for at in range(len(coarse) - count + 1)]
    assert answer["measured_demand"]["bound_15_minute_w"] == pytest.approx(max(windows), abs=1e-3)
    load = answer["existing_load"]
    assert load["measured_demand_w"] == pytest.approx(max(windows), abs=1e-3)
    assert load["averaging_minutes"] in (15, minutes)


def test_the_bound_is_reached_where_the_load_is_at_its_worst() -> None:
    # All the energy of two hours in the quarter of an hour around their border.
    demand = ask_json(regular([100, 5000, 4000, 100], 60))["measured_demand"]
    assert demand["bound_15_minute_w"] == 4 * (5000 + 4000)
    assert demand["bound_factor"] == 7.2


def test_a_gap_bounds_nothing() -> None:
    demand = ask_json(regular([100, 5000, None, 4000, 100], 60))["measured_demand"]
    assert demand["bound_15_minute_w"] == 4 * (100 + 5000)
    assert "gaps" in demand["bound_why"]


@pytest.mark.parametrize("minutes, has", [(60, True), (30, False), (15, False)])
def test_the_typical_factor_is_that_of_hours_and_has_a_source(minutes: int, has: bool) -> None:
    typical = ask_json(regular([500, 600, 550], minutes))["measured_demand"]["typical_factor"]
    assert (typical is not None) == has
    if has:
        assert (typical["low"], typical["median"], typical["high"]) == (1.23, 1.65, 2.2)
        assert "no factor is safe" in typical["source"]


@pytest.mark.source("definition of active power (IEEE 1459) at the nominal voltages of NEC 220.5(A)")
@pytest.mark.parametrize(
    "facts, amperes",
    [
        ({"system": "split-phase-120-240"}, 9600 / 240),
        ({"system": "split-phase-120-240", "leg_assumption": "balanced"}, 9600 / 240),
        ({"system": "split-phase-120-240", "leg_assumption": "all-on-one-leg"}, 9600 / 120),
        ({"system": "wye-208y-120"}, 9600 / 208),
        ({"system": "wye-208y-120", "phases": 3}, 9600 / (math.sqrt(3) * 208)),
        ({"system": "split-phase-120-240", "phases": 3}, None),
        ({}, None),
    ],
)
def test_amperes_follow_from_the_system_and_the_legs(facts: dict, amperes: float | None) -> None:
    answer = ask_json(regular([500, 9600, 550], 60), edition="nec-2023", **facts)
    demand = answer["measured_demand"]
    assert demand["greatest_a"] == (None if amperes is None else pytest.approx(amperes))
    assert demand["leg_assumption"] == facts.get("leg_assumption", "balanced")
    stated = [each["stated"] for each in answer["to_verify"] if each["pointer"] == "/leg_assumption"]
    assert "power factor 1" in stated[0]
    assert ("not stated" in stated[0]) == ("leg_assumption" not in facts)


@examples(60)
@given(st.data(), st.sampled_from([5, 10, 15, 30, 60]), st.sampled_from(["balanced", "all-on-one-leg"]))
def test_every_step_replays(data: st.DataObject, minutes: int, legs: str) -> None:
    value = st.one_of(st.none(), st.floats(0, 5000))
    energies = data.draw(
        st.lists(value, min_size=2, max_size=40).filter(lambda drawn: drawn != [None] * len(drawn))
    )
    request = {
        "edition": data.draw(st.sampled_from(["nec-2017", "nec-2026"])),
        "system": data.draw(st.sampled_from(["split-phase-120-240", "wye-208y-120"])),
        "leg_assumption": legs,
        "series": regular(energies, minutes),
    }
    IntervalDataRequest.model_validate(request)
    answer = ask_json(request.pop("series"), **request)
    replay(answer, request)
    assert (answer["measured_demand"] is None) == (answer["steps"] == [])


def test_when_the_greatest_demand_was_is_told_by_the_clock_of_the_zone() -> None:
    energies = [500.0] * 8760
    energies[4567] = 7000.0
    series = {**regular(energies, 60), "start": "2023-01-01T00:00:00-07:00"}
    demand = ask_json(series, time_zone="America/Denver")["measured_demand"]
    assert demand["at"] == "2023-07-10T08:00:00-06:00"
