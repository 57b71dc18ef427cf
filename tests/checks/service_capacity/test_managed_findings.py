"""Each rule of a study: what it passes, what it fails, and what it waits for."""

import copy
from typing import Any

import pytest
from tests.checks.service_capacity.studies import EVERY_DAY, Json, by_rule, charger, session, studied, study

from branchwright.checks.service_capacity.managed_charging import RULES

DAYS = 3
QUIET = [120.0] * (96 * DAYS)
"""480 W: two amperes on both legs."""

PRACTICE = pytest.mark.source("common practice, no source")


def changed(asked: Json, pointer: str, value: Any) -> Json:
    """Return a request with one field changed, or taken away where the value is `...`."""
    found = copy.deepcopy(asked)
    here: Any = found
    *way, last = [int(token) if token.isdigit() else token for token in pointer.split("/")[1:]]
    for token in way:
        here = here[token]
    if value is ...:
        del here[last]
    else:
        here[last] = value
    return found


def found(asked: Json, rule: str) -> Json:
    return by_rule(studied(asked))[rule]


def nothing_was_simulated(answer: Json) -> bool:
    empty = ("nights", "unmet_sessions", "by_charger", "by_control_setting", "steps")
    absent = ("year", "smallest", "worst_day")
    return all(answer[name] == [] for name in empty) and all(answer[name] is None for name in absent)


def test_a_sound_study_has_no_failure() -> None:
    answer = studied(study(QUIET, management={"response_s": 30, "margin_a": 2}))
    outcomes = {name: finding["outcome"] for name, finding in by_rule(answer).items()}
    assert outcomes.pop("managed-days-covered") == "fail"
    assert outcomes.pop("managed-battery") == "not-applicable"
    assert set(outcomes.values()) == {"pass"}
    assert answer["verdict"] == "no-failure-found"
    assert list(by_rule(answer)) == [rule.name for rule in RULES]


STOPPING = [
    pytest.param(
        "/house_load/start", "2025-02-29T00:00:00-07:00", "managed-local-clock", "fail", id="29 February"
    ),
    pytest.param("/house_load/time_zone", "America/Springfield", "managed-local-clock", "fail", id="zone"),
    pytest.param("/house_load/energy_wh", ..., "managed-house-load", "undetermined", id="no load"),
    pytest.param("/house_load/leg_currents_a", [[1.0] * 4] * 2, "managed-house-load", "fail", id="two loads"),
    pytest.param("/house_load/energy_wh/7", -0.5, "managed-house-readings", "fail", id="negative"),
    pytest.param("/house_load/energy_wh", [None] * 96, "managed-house-readings", "fail", id="no reading"),
    pytest.param("/service/phases", 3, "managed-phases", "fail", id="phases of the service"),
    pytest.param("/chargers/0/phases", 3, "managed-phases", "fail", id="phases of a charger"),
]


@pytest.mark.parametrize("pointer, value, rule, outcome", STOPPING)
def test_what_nothing_can_be_simulated_with(pointer: str, value: Any, rule: str, outcome: str) -> None:
    answer = studied(changed(study(QUIET), pointer, value))
    finding = by_rule(answer)[rule]
    assert finding["outcome"] == outcome
    assert finding["pointer"] is not None
    assert answer["verdict"] == outcome
    assert nothing_was_simulated(answer)
    if outcome == "fail":
        assert finding["provided"] is not None
        assert finding["required"] is not None


def test_a_negative_reading_is_named_by_its_place() -> None:
    finding = found(changed(study(QUIET), "/house_load/energy_wh/7", -0.5), "managed-house-readings")
    assert finding["pointer"] == "/house_load/energy_wh/7"
    assert finding["provided"] == {"value": -0.5, "unit": "Wh"}
    legs = study(None, house_load={"leg_currents_a": [[1.0] * 96, [1.0] * 95 + [-3.0]]})
    assert found(legs, "managed-house-readings")["pointer"] == "/house_load/leg_currents_a/1/95"


def test_a_missing_reading_leaves_the_verdict_open_and_charges_nothing() -> None:
    asked = study([*QUIET[:100], None, *QUIET[101:]], chargers=[charger(sessions=[session(energy_kwh=400)])])
    answer = studied(asked)
    finding = by_rule(answer)["managed-house-readings"]
    assert (finding["outcome"], finding["pointer"]) == ("undetermined", "/house_load/energy_wh/100")
    assert answer["verdict"] == "undetermined"
    assert answer["year"]["intervals_without_reading"] == 1
    # 100 is one o'clock at night on 2 January: that quarter hour and the one of the resume delay are lost.
    nights = {night["date"]: night for night in answer["nights"]}
    assert nights["2025-01-01"]["delivered_kwh"] == pytest.approx(12.5 * 9.6)
    assert nights["2025-01-01"]["hours_paused"] == 0.5


@pytest.mark.parametrize(
    "legs, pointer",
    [
        ([[1.0] * 96] * 3, "/house_load/leg_currents_a"),
        ([[1.0] * 96, [1.0] * 95], "/house_load/leg_currents_a/1"),
    ],
)
def test_legs_that_do_not_fit(legs: list[list[float]], pointer: str) -> None:
    answer = studied(study(None, house_load={"leg_currents_a": legs}))
    finding = by_rule(answer)["managed-house-load"]
    assert (finding["outcome"], finding["pointer"]) == ("fail", pointer)
    assert nothing_was_simulated(answer)


def test_the_larger_leg_counts() -> None:
    asked = study(None, house_load={"leg_currents_a": [[30.0] * 288, [10.0] * 288]})
    answer = studied(asked)
    assert answer["year"]["greatest_house_current_a"] == 30
    assert answer["worst_day"]["intervals"][80]["available_a"] == 30


@pytest.mark.source("definition of active power (IEEE 1459)")
@pytest.mark.parametrize(
    "service, house, current",
    [
        ({"system": "split-phase-120-240"}, {}, 10.0),
        ({"system": "split-phase-120-240"}, {"leg_assumption": "balanced"}, 10.0),
        ({"system": "split-phase-120-240"}, {"leg_assumption": "all-on-one-leg"}, 20.0),
        ({"system": "split-phase-120-240"}, {"power_factor": 0.8}, 12.5),
        ({"system": "wye-208y-120"}, {}, 2400 / 208),
        ({"system": "wye-208y-120", "phases": 3}, {}, 2400 / 208 / 3**0.5),
        ({"system": "wye-208y-120", "phases": 3}, {"leg_assumption": "all-on-one-leg"}, 20.0),
    ],
)
def test_energy_becomes_current_by_system_and_assumption(service: Json, house: Json, current: float) -> None:
    answer = studied(study([600.0] * 288, service=service, house_load=house))
    assert answer["year"]["greatest_house_current_a"] == pytest.approx(current, abs=1e-6)


@pytest.mark.source(
    "SAE J1772: AC level 2 of 80 A at 240 V is 19.2 kW; a balanced three-phase load has root three"
)
@pytest.mark.parametrize(
    "service, phases, kwh",
    [
        ({"system": "split-phase-120-240"}, 1, 19.2),
        ({"system": "wye-208y-120", "phases": 3}, 1, 16.64),
        ({"system": "wye-208y-120", "phases": 3}, 3, 28.821),
    ],
)
def test_an_hour_brings_the_energy_of_the_voltage(service: Json, phases: int, kwh: float) -> None:
    one_hour = session(arrival="09:00", departure="10:00", energy_kwh=900)
    eighty = charger(charging_current_a=80, circuit_breaker_a=100, phases=phases, sessions=[one_hour])
    answer = studied(
        study([0.0] * 96, service=service, chargers=[eighty], management={"control_setting_a": 100})
    )
    assert answer["year"]["energy_delivered_kwh"] == pytest.approx(kwh, abs=5e-4)


@pytest.mark.parametrize("chargers, outcome", [(38, "pass"), (39, "fail")])
def test_a_study_may_have_eight_million_readings_times_chargers(chargers: int, outcome: str) -> None:
    # Six years of quarter hours.
    night = session(weekdays=["mon"], energy_kwh=5)
    asked = study([120.0] * 210_240, chargers=[charger(sessions=[night])] * chargers)
    answer = studied(asked)
    finding = by_rule(answer)["managed-study-size"]
    assert finding["outcome"] == outcome
    assert finding["provided"] == {"value": 210_240.0 * chargers, "unit": "count"}
    assert finding["required"] == {"value": 8_000_000.0, "unit": "count", "comparison": "at-most"}
    assert nothing_was_simulated(answer) == (outcome == "fail")


@pytest.mark.parametrize(
    "sessions, overlap",
    [
        ([session()], None),
        ([session(arrival="18:00", departure="18:00")], None),
        ([session(), session(arrival="07:00", departure="18:00")], None),
        ([session(), session(arrival="06:59", departure="12:00")], 1),
        ([session(weekdays=["mon"]), session(weekdays=["tue"], arrival="03:00", departure="04:00")], 1),
        ([session(weekdays=["sun"]), session(weekdays=["mon"], arrival="03:00", departure="04:00")], 1),
        ([session(weekdays=["sun"]), session(weekdays=["sat"], arrival="19:00", departure="18:30")], 1),
        ([session(weekdays=["mon", "mon"])], None),
        ([session(weekdays=EVERY_DAY[:3]), session(weekdays=EVERY_DAY[2:])], 1),
    ],
)
def test_sessions_of_a_charger_do_not_overlap(sessions: list[Json], overlap: int | None) -> None:
    answer = studied(study(QUIET, chargers=[charger(), charger(sessions=sessions)]))
    finding = by_rule(answer)["managed-sessions"]
    assert finding["outcome"] == ("pass" if overlap is None else "fail")
    assert finding["pointer"] == (None if overlap is None else f"/chargers/1/sessions/{overlap}")
    assert nothing_was_simulated(answer) == (overlap is not None)


@pytest.mark.source("NEC 625.41 by a public forum quotation: 125 percent of the load")
@pytest.mark.parametrize("breaker, outcome", [(49.9, "fail"), (50, "pass")])
def test_the_circuit_is_rated_for_the_charging_current(breaker: float, outcome: str) -> None:
    asked = study(QUIET, chargers=[charger(circuit_breaker_a=60), charger(circuit_breaker_a=breaker)])
    finding = found(asked, "managed-charger-circuit")
    assert finding["outcome"] == outcome
    assert finding["pointer"] == "/chargers/1/circuit_breaker_a"
    assert finding["required"]["value"] == 50


@pytest.mark.source("SAE J1772: 6 A at least")
@pytest.mark.parametrize(
    "pointer, value, rule_points_to",
    [
        ("/chargers/0/charging_current_a", 5.9, "/chargers/0/charging_current_a"),
        ("/chargers/0/circuit_breaker_a", 7.4, "/chargers/0/circuit_breaker_a"),
        ("/chargers/0/vehicle", {"onboard_limit_a": 5}, "/chargers/0/vehicle/onboard_limit_a"),
        ("/management", {"control_setting_a": 8, "margin_a": 2.1}, "/management/control_setting_a"),
    ],
)
def test_below_six_amperes_nothing_ever_charges(pointer: str, value: Any, rule_points_to: str) -> None:
    answer = studied(changed(study([0.0] * 288), pointer, value))
    finding = by_rule(answer)["managed-least-current"]
    assert (finding["outcome"], finding["pointer"]) == ("fail", rule_points_to)
    assert answer["year"]["energy_delivered_kwh"] == 0
    assert answer["year"]["greatest_total_current_a"] is None
    if not pointer.startswith("/management"):
        assert answer["smallest"]["control_setting_a"] is None
        assert answer["smallest"]["service_rating_a"] is None


@pytest.mark.source("arithmetic: 40 kWh at the wall are 36 kWh in the battery at an efficiency of 0.9")
@pytest.mark.parametrize(
    "basis, battery, outcome",
    [("wall", 36, "pass"), ("wall", 35.9, "fail"), ("battery", 39, "fail"), (None, 40, "pass")],
)
def test_a_battery_takes_what_it_holds(basis: str | None, battery: float, outcome: str) -> None:
    vehicle = {"battery_kwh": battery, "charging_efficiency": 0.9}
    night = session(energy_kwh=40, **({} if basis is None else {"basis": basis}))
    if basis is None:
        del night["basis"]
    finding = found(study(QUIET, chargers=[charger(vehicle=vehicle, sessions=[night])]), "managed-battery")
    assert finding["outcome"] == outcome


@pytest.mark.parametrize(
    "response, outcome", [(900, "pass"), (901, "fail"), (0, "pass"), (None, "not-applicable")]
)
def test_a_response_is_shorter_than_an_interval(response: float | None, outcome: str) -> None:
    stated = {} if response is None else {"response_s": response}
    finding = found(study(QUIET, management=stated), "managed-response")
    assert finding["outcome"] == outcome


@pytest.mark.source("NEC 220.70 of 2023 as trade pages have it: 80 A on a service of 100 A")
@pytest.mark.parametrize("edition", ["nec-2017", "nec-2020", "nec-2023", "nec-2026"])
@pytest.mark.parametrize("setting, outcome", [(80, "pass"), (80.1, "fail")])
def test_the_service_is_rated_for_the_setting(edition: str, setting: float, outcome: str) -> None:
    asked = {**study(QUIET, management={"control_setting_a": setting}), "edition": edition}
    finding = found(asked, "managed-setting-on-service")
    assert finding["outcome"] == outcome
    assert finding["pointer"] == "/management/control_setting_a"
    unrated = found(changed(asked, "/service/rating_a", ...), "managed-setting-on-service")
    assert unrated["outcome"] == "not-applicable"


def test_the_house_alone_stays_within_the_setting() -> None:
    peaky = [*QUIET[:150], 61 * 240 / 4, *QUIET[151:]]
    answer = studied(study(peaky, management={"control_setting_a": 60}))
    finding = by_rule(answer)["managed-house-below-setting"]
    assert (finding["outcome"], finding["pointer"]) == ("fail", "/house_load/energy_wh/150")
    assert finding["provided"] == {"value": 61.0, "unit": "A"}
    assert answer["year"]["hours_house_above_setting"] == 0.25
    assert answer["verdict"] == "fail"
    legs = study(None, house_load={"leg_currents_a": [[2.0] * 288, [*[2.0] * 287, 61.0]]})
    assert found(legs, "managed-house-below-setting")["pointer"] == "/house_load/leg_currents_a/1/287"


def test_a_need_that_no_setting_meets_is_told_apart() -> None:
    asked = study(QUIET, chargers=[charger(sessions=[session(energy_kwh=13 * 9.6 + 0.1)])])
    answer = studied(asked)
    finding = by_rule(answer)["managed-need-in-window"]
    assert (finding["outcome"], finding["force"]) == ("fail", "recommendation")
    assert finding["required"]["value"] == pytest.approx(13 * 9.6)
    assert by_rule(answer)["managed-nights-met"]["outcome"] == "fail"
    assert answer["verdict"] == "no-failure-found"
    assert answer["smallest"]["control_setting_a"] is None


def test_readings_without_a_whole_session_leave_nights_open() -> None:
    answer = studied(study([0.0] * 40))
    assert by_rule(answer)["managed-nights-met"]["outcome"] == "undetermined"
    assert answer["nights"] == []
    assert answer["year"]["share_met_percent"] is None
    assert answer["year"]["sessions_left_out"] == 1
    assert answer["smallest"] is None


@PRACTICE
@pytest.mark.parametrize("days, outcome", [(364, "fail"), (365, "pass")])
def test_a_year_is_recommended(days: int, outcome: str) -> None:
    asked = study([100.0] * (24 * days), house_load={"interval_minutes": 60})
    finding = found(asked, "managed-days-covered")
    assert (finding["outcome"], finding["force"]) == (outcome, "recommendation")
