"""What holds of managed charging, whatever the house draws."""

from typing import Any

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from tests.checks.effort import examples
from tests.checks.service_capacity import charging_oracle as oracle
from tests.checks.service_capacity.drawn_studies import any_study
from tests.checks.service_capacity.studies import Json, charger, session, simulated, studied, study

from branchwright.calculations.charging_simulation import OneVehicle
from branchwright.calculations.current_sharing import equal_a, in_turn_a
from branchwright.calculations.shared_charging import SeveralVehicles


def with_setting(asked: Json, setting: float, **management: Any) -> Json:
    return {**asked, "management": {**asked["management"], "control_setting_a": setting, **management}}


@examples(150)
@given(any_study(), st.floats(0, 5))
def test_no_interval_exceeds_the_setting_by_charging(asked: Json, margin: float) -> None:
    asked = with_setting(asked, asked["management"]["control_setting_a"], margin_a=margin)
    found = simulated(asked)
    charging = found.course.current_a[:-1].sum(axis=1)
    total = found.simulation.given.house_a + charging
    limit = asked["management"]["control_setting_a"] - margin
    assert not np.isnan(total[charging > 0]).any(), "charged without knowing what the house draws"
    # A sum of two numbers may be off in its last place.
    assert (total[charging > 0] <= limit * (1 + 1e-15)).all()
    assert ((found.course.current_a == 0) | (found.course.current_a >= 6)).all(), "between 0 and 6 A"
    assert (found.course.current_a <= found.simulation.given.own_a).all()


@examples(60)
@given(any_study())
def test_the_answer_shows_no_interval_above_the_setting(asked: Json) -> None:
    answer = studied(asked)
    setting = asked["management"]["control_setting_a"]
    greatest = answer["year"]["greatest_total_current_a"]
    assert greatest is None or greatest <= setting
    for interval in answer["worst_day"]["intervals"] if answer["worst_day"] else []:
        assert interval["charging_a"] <= interval["available_a"]
        assert interval["charging_a"] == 0 or interval["total_a"] <= setting


def delivered(asked: Json) -> Any:
    found = simulated(asked)
    return found.simulation.sessions.need_kwh - found.course.unmet_kwh


@examples(100)
@given(any_study(), st.floats(0, 40), st.sampled_from(["first-come", "earliest-departure"]))
def test_a_larger_setting_takes_nothing_from_any_vehicle(asked: Json, more: float, sharing: str) -> None:
    # With one vehicle whatever the rule is called; with several where they take in turn.
    setting = asked["management"]["control_setting_a"]
    if len(asked["chargers"]) > 1:
        asked = with_setting(asked, setting, sharing=sharing)
    larger = with_setting(asked, setting + more)
    assert (delivered(larger) >= delivered(asked) - 1e-9).all()


@examples(100)
@given(any_study(), st.data())
def test_more_house_load_brings_no_vehicle_more(asked: Json, data: st.DataObject) -> None:
    asked = {**asked, "chargers": asked["chargers"][:1]}
    house = asked["house_load"]["energy_wh"]
    added = data.draw(st.lists(st.sampled_from([0, 0, 100, 2000]), min_size=len(house), max_size=len(house)))
    fuller = [None if wh is None else wh + more for wh, more in zip(house, added, strict=True)]
    more_load = {**asked, "house_load": {**asked["house_load"], "energy_wh": fuller}}
    assert (delivered(more_load) <= delivered(asked) + 1e-9).all()


def test_with_equal_sharing_a_larger_setting_may_meet_fewer_nights() -> None:
    # At 11 A the first of two has them all and is done in its two hours; at 12 A it has six and is not.
    short = session(arrival="18:00", departure="20:00", energy_kwh=11 * 0.24 * 2)
    long = session(arrival="18:30", departure="07:00", energy_kwh=10)
    asked = study(
        [0.0] * (96 * 3),
        chargers=[charger(sessions=[short]), charger(sessions=[long])],
        management={"control_setting_a": 12, "sharing": "equal", "resume_delay_minutes": 0},
    )
    assert studied(with_setting(asked, 11))["year"]["nights_met"] == 2
    answer = studied(asked)
    assert answer["year"]["nights_met"] == 0
    # Every whole ampere was tried, so that the search is not misled.
    assert answer["smallest"]["control_setting_a"] == 11
    assert answer["smallest"]["is_least"]
    met = {point["control_setting_a"]: point["nights_met"] for point in answer["by_control_setting"]}
    assert (met[11], met[12], met[18]) == (2, 0, 2)


@examples(40)
@given(any_study())
def test_the_smallest_setting_meets_every_night_and_one_less_does_not(asked: Json) -> None:
    smallest = studied(asked)["smallest"]
    assume(smallest is not None)

    def meets_all(setting: float) -> bool:
        return all(oracle.simulate(with_setting(asked, setting)).nights().values())

    assert smallest["is_least"]
    if smallest["control_setting_a"] is None:
        assert not meets_all(1000)
        return
    assert meets_all(smallest["control_setting_a"])
    assert smallest["control_setting_a"].is_integer()
    for less in (1, 2, 5):
        assert not meets_all(smallest["control_setting_a"] - less)


@examples(80)
@given(any_study(), st.integers(8, 120))
def test_what_is_ruled_out_without_simulation_misses_a_night(asked: Json, setting: int) -> None:
    simulation = simulated(asked).simulation
    assume(len(simulation.nights) > 0)
    bound = simulation.least_possible(0, 1000)
    if all(oracle.simulate(with_setting(asked, setting)).nights().values()):
        assert bound is not None
        assert bound <= setting


OWN = st.lists(st.integers(6, 80), min_size=1, max_size=12)


@examples(300)
@given(OWN, st.lists(st.booleans(), min_size=12, max_size=12), st.integers(0, 400))
def test_shares_are_those_of_handing_out_ampere_by_ampere(
    own: list[int], there: list[bool], available: int
) -> None:
    active = np.array([there[: len(own)]])
    limits = np.array([own], dtype=float)
    left = np.array([float(available)])
    members = [limit for limit, is_there in zip(own, there, strict=False) if is_there]
    for rule, share in (("equal", equal_a), ("first-come", in_turn_a)):
        given_a = share(left.copy(), active, limits, np.unique(limits), 6.0)[0]
        assert given_a[active[0]].tolist() == oracle.shared(rule, available, members)
        assert (given_a[~active[0]] == 0).all()
        assert given_a.sum() <= available


@pytest.mark.parametrize("sharing", ["equal", "first-come", "earliest-departure"])
@examples(40)
@given(asked=any_study())
def test_alone_a_vehicle_shares_with_nobody(sharing: str, asked: Json) -> None:
    asked = {**asked, "chargers": asked["chargers"][:1]}
    found = simulated(with_setting(asked, 40))
    sessions = found.simulation.sessions
    assume(len(sessions) > 0)
    hours = asked["house_load"]["interval_minutes"] / 60
    alone, shared = OneVehicle(sessions, hours), SeveralVehicles(sessions, hours, sharing, 6.0)
    one, several = alone.course(found.available), shared.course(found.available, 1)
    np.testing.assert_array_equal(one.current_a, several.current_a)
    np.testing.assert_array_equal(one.vehicles, several.vehicles)
    np.testing.assert_allclose(one.unmet_kwh, several.unmet_kwh, atol=1e-9)
    np.testing.assert_allclose(one.paused_h, several.paused_h, atol=1e-9)
    settings = np.array([20.0, 33.0, 60.0])
    np.testing.assert_allclose(
        alone.unmet_kwh(found.simulation.available(settings)),
        shared.unmet_kwh(found.simulation.available(settings)),
        atol=1e-9,
    )
