"""The vectorised simulation against a plain one, interval by interval over whole years."""

from random import Random
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.checks.effort import examples
from tests.checks.service_capacity import charging_oracle as oracle
from tests.checks.service_capacity.studies import (
    EVERY_DAY,
    YEAR,
    Json,
    charger,
    energies,
    session,
    simulated,
    studied,
    study,
)

WORKDAYS, WEEKEND = EVERY_DAY[:5], EVERY_DAY[5:]


def agree(asked: Json) -> None:
    """Hold every interval of a study, and what every vehicle got, against the plain simulation."""
    expected = oracle.simulate(asked)
    found = simulated(asked)
    windows = found.simulation.windows
    assert [
        (visit.charger, visit.session, visit.arrival, visit.departure) for visit in expected.visits
    ] == list(
        zip(
            windows.charger.tolist(),
            windows.session.tolist(),
            windows.arrival.tolist(),
            windows.departure.tolist(),
            strict=True,
        )
    )
    assert windows.left_out == expected.left_out
    assert found.available[:-1].tolist() == expected.available_a
    currents = found.course.current_a[:-1]
    different = np.flatnonzero((currents != np.array(expected.currents_a)).any(axis=1))
    assert not len(different), (
        f"interval {different[0]}: {currents[different[0]]}, not {expected.currents_a[different[0]]}"
    )
    np.testing.assert_allclose(
        found.course.unmet_kwh, [visit.remaining_kwh for visit in expected.visits], atol=1e-8
    )
    np.testing.assert_allclose(
        found.course.paused_h, [visit.paused_h for visit in expected.visits], atol=1e-9
    )


def three_vehicles() -> list[Json]:
    """A vehicle of every evening, one that comes twice a day, and one with a small onboard charger at odd minutes."""
    return [
        charger(sessions=[session(energy_kwh=30)]),
        charger(
            charging_current_a=32,
            circuit_breaker_a=40,
            sessions=[
                session(weekdays=WORKDAYS, arrival="12:05", departure="13:50", energy_kwh=9),
                session(weekdays=WORKDAYS, arrival="17:20", departure="06:40", energy_kwh=22),
                session(weekdays=["sat"], arrival="09:00", departure="09:00", energy_kwh=60),
            ],
        ),
        charger(
            vehicle={"onboard_limit_a": 16.5, "charging_efficiency": 0.9},
            sessions=[session(arrival="20:07", departure="23:59", energy_kwh=8, basis="battery")],
        ),
    ]


@pytest.mark.parametrize("delay", [0, 15, 40])
def test_a_year_of_one_vehicle(delay: int) -> None:
    vehicle = charger(
        sessions=[
            session(arrival="18:10", departure="06:55"),
        ]
    )
    agree(
        study(
            energies(YEAR, 1),
            chargers=[vehicle],
            management={"control_setting_a": 45, "margin_a": 2, "resume_delay_minutes": delay},
        )
    )


@pytest.mark.parametrize("sharing", ["equal", "first-come", "earliest-departure"])
@pytest.mark.parametrize("setting", [30, 52.5])
def test_a_year_of_three_vehicles(sharing: str, setting: float) -> None:
    agree(
        study(
            energies(YEAR, 2),
            chargers=three_vehicles(),
            management={"control_setting_a": setting, "resume_delay_minutes": 15, "sharing": sharing},
        )
    )


@pytest.mark.parametrize("sharing", ["equal", "first-come", "earliest-departure"])
def test_a_year_of_a_garage_in_which_somebody_always_charges(sharing: str) -> None:
    random = Random(4)
    chargers = []
    for _ in range(12):
        comes, stays = random.randrange(1440), random.randrange(45, 1380)
        goes = (comes + stays) % 1440
        chargers.append(
            charger(
                charging_current_a=random.choice([24, 32, 40]),
                sessions=[
                    session(
                        weekdays=random.sample(EVERY_DAY, random.randint(2, 7)),
                        arrival=f"{comes // 60:02}:{comes % 60:02}",
                        departure=f"{goes // 60:02}:{goes % 60:02}",
                        energy_kwh=random.randint(5, 40),
                    )
                ],
            )
        )
    agree(
        study(
            energies(YEAR, 5, minutes=15),
            chargers=chargers,
            management={"control_setting_a": 90, "sharing": sharing},
        )
    )


def test_a_year_of_a_three_phase_service_in_amperes() -> None:
    random = Random(6)
    legs = [[round(random.gammavariate(2, 12), 1) for _ in range(YEAR)] for _ in range(3)]
    legs[1][700] = None
    agree(
        study(
            None,
            service={"system": "wye-208y-120", "phases": 3},
            house_load={"leg_currents_a": legs},
            chargers=[charger(phases=3), charger(charging_current_a=24)],
            management={"control_setting_a": 70, "sharing": "first-come", "margin_a": 2.5},
        )
    )


CLOCK = st.builds(lambda minutes: f"{minutes // 60:02}:{minutes % 60:02}", st.integers(0, 1439))


@st.composite
def any_study(draw: st.DrawFn) -> Json:
    """A few days with up to four vehicles, often around a change of the clock."""
    minutes = draw(st.sampled_from([5, 15, 20, 30, 60]))
    days = draw(st.integers(2, 5))
    zone, start = draw(
        st.sampled_from(
            [
                ("America/Denver", "2025-03-07T00:00:00-07:00"),
                ("America/Denver", "2025-10-31T13:37:00-06:00"),
                ("America/New_York", "2024-11-02T05:00:00Z"),
                ("America/Phoenix", "2025-06-01T00:00:00-07:00"),
                ("Australia/Lord_Howe", "2025-04-04T10:00:00Z"),
            ]
        )
    )
    chargers: list[Json] = []
    for _ in range(draw(st.integers(1, 4))):
        stated: Json = {"charging_current_a": draw(st.sampled_from([5, 7.5, 16, 32, 48]))}
        clocks = sorted(draw(st.lists(CLOCK, min_size=2, max_size=6, unique=True)))
        if draw(st.booleans()):
            # The last session then goes on past midnight.
            clocks = [*clocks[1:], clocks[0]]
        stated["sessions"] = [
            session(arrival=arrival, departure=departure, energy_kwh=draw(st.sampled_from([0.5, 3, 20])))
            for arrival, departure in zip(clocks[::2], clocks[1::2], strict=False)
        ]
        if draw(st.booleans()):
            stated["vehicle"] = {"onboard_limit_a": draw(st.sampled_from([6, 12, 80]))}
        chargers.append(charger(circuit_breaker_a=draw(st.sampled_from([20, 40, 60])), **stated))
    count = days * 1440 // minutes
    house: list[Any] = energies(count, draw(st.integers(0, 99)), minutes=minutes)
    if draw(st.booleans()):
        house[draw(st.integers(0, count - 1))] = None
    management: Json = {
        "control_setting_a": draw(st.sampled_from([8, 15, 24, 40, 100])),
        "sharing": draw(st.sampled_from(["equal", "first-come", "earliest-departure"])),
    }
    if draw(st.booleans()):
        management["resume_delay_minutes"] = draw(st.sampled_from([0, 7, 30, 61]))
    return study(
        house,
        house_load={"start": start, "time_zone": zone, "interval_minutes": minutes},
        chargers=chargers,
        management=management,
    )


@examples(150)
@given(any_study())
def test_any_few_days(asked: Json) -> None:
    agree(asked)


@examples(25)
@given(any_study())
def test_the_answer_counts_what_the_plain_simulation_counts(asked: Json) -> None:
    expected, answer = oracle.simulate(asked), studied(asked)
    nights = expected.nights()
    assert {night["date"]: night["met"] for night in answer["nights"]} == nights
    assert answer["year"]["nights_met"] == sum(nights.values())
    assert answer["year"]["sessions_met"] == sum(visit.is_met for visit in expected.visits)
    delivered = sum(visit.need_kwh - visit.remaining_kwh for visit in expected.visits)
    assert answer["year"]["energy_delivered_kwh"] == pytest.approx(delivered, abs=1e-5)
    for point in answer["by_control_setting"]:
        other = {
            **asked,
            "management": {**asked["management"], "control_setting_a": point["control_setting_a"]},
        }
        assert point["nights_met"] == sum(oracle.simulate(other).nights().values())
