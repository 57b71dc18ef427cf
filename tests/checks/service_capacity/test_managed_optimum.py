"""Simulated charging against the optimum that a linear program finds for the same limits."""

from collections.abc import Sequence
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import linprog
from tests.checks.effort import examples
from tests.checks.service_capacity import charging_oracle as oracle
from tests.checks.service_capacity.drawn_studies import any_study
from tests.checks.service_capacity.studies import EVERY_DAY, Json, charger, session, simulated, study

KW_PER_A = 0.24
QUARTER_HOUR = 0.25
HIGHS = pytest.mark.source("SciPy, scipy.optimize.linprog with the solver HiGHS")


def delivered_kwh(asked: Json) -> float:
    """Return the energy that the simulation brings to all vehicles."""
    found = simulated(asked)
    return float((found.simulation.sessions.need_kwh - found.course.unmet_kwh).sum())


def optimum_kwh(asked: Json, limits_a: Sequence[float]) -> float:
    """Return the most energy that vehicles can take together under limits by interval.

    A variable is the current of a visit in an interval in which the vehicle is there. All of an interval stay within
    its limit, each within the charger's own, and the energy of a visit within its need.
    """
    plain = oracle.simulate(asked)
    seconds = 60 * asked["house_load"]["interval_minutes"]
    begin = oracle.datetime.fromisoformat(asked["house_load"]["start"]).timestamp()
    own = [oracle.own_limit(one) for one in asked["chargers"]]
    places, worth = [], []
    for number, visit in enumerate(plain.visits):
        for interval in range(len(limits_a)):
            starts = begin + interval * seconds
            hours = (min(starts + seconds, visit.departure) - max(starts, visit.arrival)) / 3600
            if hours > 0:
                places.append((number, interval))
                worth.append(hours * KW_PER_A)
    if not places:
        return 0.0
    rows = len(limits_a) + len(plain.visits)
    matrix = np.zeros((rows, len(places)))
    for column, (number, interval) in enumerate(places):
        matrix[interval, column] = 1.0
        matrix[len(limits_a) + number, column] = worth[column]
    solved = linprog(
        -np.array(worth),
        A_ub=matrix,
        b_ub=[*limits_a, *(visit.need_kwh for visit in plain.visits)],
        bounds=[(0, own[plain.visits[number].charger]) for number, _ in places],
        method="highs",
    )
    assert solved.status == 0
    return float(-solved.fun)


def continuous_limits(asked: Json) -> list[float]:
    """Return the limits that are not cut to whole amperes, with the same pauses."""
    plain = oracle.simulate(asked)
    management = asked["management"]
    return [
        0.0
        if whole == 0 or house is None
        else management["control_setting_a"] - management.get("margin_a", 0) - house
        for whole, house in zip(plain.available_a, plain.house_a, strict=True)
    ]


CURRENTS = st.lists(st.floats(0, 70), min_size=40, max_size=40)


def evening(house_a: Sequence[float], **stated: Any) -> Json:
    """Return a study of ten hours in which one vehicle is there for nine."""
    return study(
        [current * 240 * QUARTER_HOUR for current in house_a],
        house_load={"start": "2025-01-01T18:00:00-07:00"},
        **{
            "chargers": [
                charger(sessions=[session(arrival="18:22", departure="03:21", energy_kwh=stated.pop("kwh"))])
            ],
            **stated,
        },
    )


@HIGHS
@examples(80)
@given(CURRENTS, st.floats(1, 90), st.sampled_from([0, 15, 45]))
def test_one_vehicle_gets_the_optimum_for_the_same_limits(
    house_a: list[float], kwh: float, delay: int
) -> None:
    asked = evening(house_a, kwh=kwh, management={"resume_delay_minutes": delay})
    limits = oracle.simulate(asked).available_a
    assert delivered_kwh(asked) == pytest.approx(optimum_kwh(asked, limits), rel=1e-9, abs=1e-9)


@HIGHS
@examples(80)
@given(CURRENTS, st.floats(1, 90))
def test_whole_amperes_cost_less_than_an_ampere(house_a: list[float], kwh: float) -> None:
    # The limits of a charger that could be set to any current: what rounding down loses is below 1 A for nine hours.
    asked = evening(house_a, kwh=kwh)
    lost = optimum_kwh(asked, continuous_limits(asked)) - delivered_kwh(asked)
    assert -1e-9 <= lost < 9 * KW_PER_A


@HIGHS
@examples(80)
@given(st.lists(st.integers(0, 70), min_size=40, max_size=40), st.floats(1, 90))
def test_where_the_house_leaves_whole_amperes_rounding_loses_nothing(house_a: list[int], kwh: float) -> None:
    # The readings are legs in amperes, so that the house's current is the number that is stated.
    asked = evening(house_a, kwh=kwh)
    del asked["house_load"]["energy_wh"]
    asked["house_load"]["leg_currents_a"] = [house_a, [0] * len(house_a)]
    continuous = optimum_kwh(asked, continuous_limits(asked))
    assert delivered_kwh(asked) == pytest.approx(continuous, rel=1e-9, abs=1e-9)


@HIGHS
@examples(60)
@given(any_study())
def test_several_vehicles_get_at_most_the_optimum(asked: Json) -> None:
    # A vehicle that is done within an interval keeps its share to the end of it, and no rule of sharing looks ahead.
    limits = oracle.simulate(asked).available_a
    assert delivered_kwh(asked) <= optimum_kwh(asked, limits) + 1e-6


@pytest.mark.source(
    "F. Glover, Maximum matching in a convex bipartite graph, Naval Research Logistics Quarterly 14, 1967: to serve "
    "the earliest deadline first uses the most places. Here each interval goes to one vehicle as a whole"
)
@HIGHS
@examples(60)
@given(
    st.lists(st.tuples(st.integers(0, 38), st.integers(1, 40), st.integers(1, 12)), min_size=2, max_size=4),
    st.integers(6, 40),
)
def test_the_earliest_departure_first_brings_the_most_where_vehicles_take_all_in_turn(
    visits: list[tuple[int, int, int]], left_a: int
) -> None:
    # The house draws nothing, every charger could take all that is left, and a need is a number of whole intervals.
    chargers = []
    for arrives, stays, intervals in visits:
        goes = min(arrives + stays, 40)
        chargers.append(
            charger(
                sessions=[
                    session(
                        weekdays=["wed"],
                        arrival=f"{arrives // 4:02}:{arrives % 4 * 15:02}",
                        departure=f"{goes // 4:02}:{goes % 4 * 15:02}",
                        energy_kwh=intervals * left_a * KW_PER_A * QUARTER_HOUR,
                    )
                ]
            )
        )
    asked = study(
        [0.0] * 48,
        chargers=chargers,
        management={"control_setting_a": left_a, "sharing": "earliest-departure"},
    )
    assert delivered_kwh(asked) == pytest.approx(optimum_kwh(asked, [left_a] * 48), rel=1e-9)


@HIGHS
def test_first_come_may_bring_less_than_the_optimum() -> None:
    # The first has all night and takes the hour that the second has.
    night = session(weekdays=EVERY_DAY, arrival="00:00", departure="08:00", energy_kwh=9.6)
    hour = session(weekdays=EVERY_DAY, arrival="00:00", departure="01:00", energy_kwh=9.6)
    asked = study(
        [0.0] * 48,
        chargers=[charger(sessions=[night]), charger(sessions=[hour])],
        management={"control_setting_a": 40, "sharing": "first-come"},
    )
    assert delivered_kwh(asked) == pytest.approx(9.6)
    assert optimum_kwh(asked, [40.0] * 48) == pytest.approx(19.2)
    earliest = {**asked, "management": {**asked["management"], "sharing": "earliest-departure"}}
    assert delivered_kwh(earliest) == pytest.approx(19.2)
