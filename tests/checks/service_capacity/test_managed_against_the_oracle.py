"""The vectorised simulation against a plain one, interval by interval over whole years."""

import numpy as np
import pytest
from hypothesis import given
from tests.checks.effort import examples
from tests.checks.service_capacity import charging_oracle as oracle
from tests.checks.service_capacity.drawn_studies import any_study
from tests.checks.service_capacity.studies import (
    EVERY_DAY,
    YEAR,
    Json,
    charger,
    energies,
    seeded,
    session,
    simulated,
    studied,
    study,
)

from branchwright.calculations import long_nights

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
    random = seeded(4)
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
    random = seeded(6)
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


@examples(150)
@given(any_study())
def test_any_few_days(asked: Json) -> None:
    agree(asked)


@examples(60)
@given(any_study())
def test_sessions_that_are_cut_into_many_parts_are_the_same(asked: Json) -> None:
    # Cuts are made once a day in times of more than a day; here every three hours in any of more than four.
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(long_nights, "DAY_H", 3)
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
