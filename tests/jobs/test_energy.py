"""Power and energy of each row, and their steps, which replay from the request."""

import hashlib

import pytest
import rfc8785
from hypothesis import given
from hypothesis import strategies as st
from tests.checks.circuits import Json
from tests.checks.effort import examples
from tests.checks.replay import replay
from tests.jobs.comparisons import USUAL_CURRENTS_A, compared, comparisons
from tests.jobs.test_published_steps import request, rows, tubing

from branchwright.codebook import revision

ENERGY = ("power_kw", "kwh_per_hour", "kwh_per_night")


@pytest.mark.source("240 V x 48 A = 11.52 kW, and eight hours of it, by hand; SAE J1772: 80 A are 19.2 kW")
def test_power_and_energy_of_a_night() -> None:
    answer = compared(request(tubing(), currents_a=[48, 80, 6], night_h=8))
    assert rows(answer, *ENERGY) == {
        6: (1.44, 1.44, 11.52),
        48: (11.52, 11.52, 92.16),
        80: (19.2, 19.2, 153.6),
    }


def test_without_hours_there_is_no_night() -> None:
    answer = compared(request(tubing(), currents_a=[48]))
    assert rows(answer, *ENERGY) == {48: (11.52, 11.52, None)}


@pytest.mark.source("208 / 240 = 0.867: 13 percent less, by hand")
def test_a_wye_gives_13_percent_less() -> None:
    wye = compared(request(tubing(), currents_a=[48], supply={"system": "wye-208y-120"}, night_h=10))
    assert rows(wye, *ENERGY) == {48: (9.984, 9.984, 99.84)}
    split = compared(request(tubing(), currents_a=[48]))
    share = wye["rows"][0]["power_kw"] / split["rows"][0]["power_kw"]
    assert share == pytest.approx(0.87, abs=0.005)


@pytest.mark.source("Square root of three x 208 V x 48 A = 17.29 kW, by hand; three poles for three phases")
def test_three_phases_give_the_root_of_three() -> None:
    supply = {"system": "wye-208y-120", "phases": 3}
    answer = compared(request(tubing(), currents_a=[48], supply=supply, night_h=2))
    assert rows(answer, "poles", *ENERGY) == {48: (3, 17.293, 17.293, 34.586)}


def test_a_stated_power_factor_counts() -> None:
    body = request(tubing(), currents_a=[48])
    body["charger"]["power_factor"] = 0.95
    answer = compared(body)
    assert rows(answer, "power_kw") == {48: (10.944,)}
    assert {item["pointer"]: item["stated"] for item in answer["to_verify"]}[
        "/charger/power_factor"
    ] == "0.95"


def test_a_row_without_a_circuit_still_says_what_the_current_would_bring() -> None:
    answer = compared(request({**tubing(), "wiring_method": "nm-b"}, currents_a=[80]))
    assert rows(answer, "verdict", "breaker_rating_a", "power_kw") == {80: ("fail", None, 19.2)}


def holds_for_every_comparison(asked: Json) -> None:
    answer = compared(asked)
    replay(answer, asked)
    steps = {step["id"]: step for step in answer["steps"]}
    assert len(steps) == len(answer["steps"])
    for row in answer["rows"]:
        name = f"{row['charging_current_a']!r}".removesuffix(".0")
        power = steps.pop(f"power-at-{name}-a")
        assert row["power_kw"] == row["kwh_per_hour"] == round(power["value"], 3)
        assert (power["unit"], power["inputs"]["current_a"]["value"]) == ("kW", row["charging_current_a"])
        if asked.get("night_h") is None:
            assert row["kwh_per_night"] is None
        else:
            energy = steps.pop(f"energy-of-a-night-at-{name}-a")
            assert row["kwh_per_night"] == round(energy["value"], 3)
            assert energy["value"] == pytest.approx(power["value"] * asked["night_h"])
    # What is left are figures that the request does not state.
    assert {step["id"] for step in steps.values()} <= {
        "power-factor",
        *(f"current-{current}-a" for current in USUAL_CURRENTS_A),
    }
    assert answer["provenance"]["input_sha256"] == hashlib.sha256(rfc8785.dumps(asked)).hexdigest()
    assert answer["provenance"]["codebook_revision"] == revision()


@examples(60)
@given(st.one_of(comparisons(usual=True), comparisons(usual=False)))
def test_every_step_replays(asked: Json) -> None:
    holds_for_every_comparison(asked)
