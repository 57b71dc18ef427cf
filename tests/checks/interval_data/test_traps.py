"""Traps of meter data: each is found, named with its place, and never mended in silence."""

import pytest
from tests.checks.interval_data.asking import ask_csv, ask_json, failures, finding, outcome, stamped

DENVER = {"time_zone": "America/Denver"}
DAY = [
    300,
    250,
    240,
    230,
    260,
    400,
    900,
    1200,
    800,
    500,
    450,
    480,
    700,
    600,
    520,
    610,
    900,
    2100,
    3400,
    2900,
    1800,
    1200,
    700,
    400,
]
"""A day by the hour, Wh: invented."""


def hourly(energies: list[float | None], **facts: object) -> dict:
    series = {
        "kind": "regular",
        "start": "2023-01-01T00:00:00-07:00",
        "interval_minutes": 60,
        "energy_wh": energies,
    }
    return ask_json(series, **DENVER, **facts)


def a_year(day: list[float | None] = DAY) -> list[float | None]:
    return day * 365


def at(hour: int, minute: int = 0) -> str:
    return f"2023-02-{1 + hour // 24:02}T{hour % 24:02}:{minute:02}:00Z"


READINGS = [(at(hour), float(wh)) for hour, wh in enumerate(DAY)]


def test_a_sound_year_has_nothing_but_its_hours_in_doubt() -> None:
    answer = hourly(a_year(), edition="nec-2023", has_generation=False)
    assert failures(answer) == {"resolution"}
    assert answer["verdict"] == "undetermined"


def test_a_sound_year_of_quarters_has_no_failure() -> None:
    series = {
        "kind": "regular",
        "start": "2023-01-01T00:00:00-07:00",
        "interval_minutes": 15,
        "energy_wh": [wh / 4 for wh in DAY for _ in range(4)] * 365,
    }
    answer = ask_json(series, edition="nec-2023", has_generation=False, **DENVER)
    assert failures(answer) == set()
    assert answer["verdict"] == "no-failure-found"
    assert answer["existing_load"]["measured_demand_w"] == 3400
    assert answer["existing_load"]["averaging_minutes"] == 15
    assert answer["existing_load"]["days"] == 365


@pytest.mark.parametrize(
    "unit, factor", [("energy-wh", 1), ("energy-kwh", 1000), ("power-w", 1), ("power-kw", 1000)]
)
def test_a_register_sent_as_intervals_is_found(unit: str, factor: float) -> None:
    register, readings = 48_000.0, []
    for hour, wh in enumerate(DAY * 3):
        register += wh
        readings.append((at(hour), register / factor))
    answer = ask_json(stamped(readings, unit), edition="nec-2023")
    failed = finding(answer, "registers")
    assert (failed["outcome"], failed["pointer"]) == ("fail", "/series/unit")
    assert failed["required"]["value"] == ["register-wh", "register-kwh"]
    assert answer["quality"]["register_like"] is True
    assert answer["measured_demand"] is None and answer["existing_load"] is None
    assert answer["series"] is not None, "what was sent is shown"


def test_a_register_with_a_new_meter_in_it_is_found_all_the_same() -> None:
    registers = [48_000.0 + sum((DAY * 60)[:at]) for at in range(1440)]
    registers = [*registers[:700], *[each - registers[700] for each in registers[700:]]]
    readings = [
        (f"2023-{1 + at // 720:02}-{1 + at % 720 // 24:02}T{at % 24:02}:00:00Z", each)
        for at, each in enumerate(registers[:1300])
    ]
    # 28 days of February.
    readings = [reading for reading in readings if not reading[0].startswith(("2023-02-29", "2023-02-30"))]
    assert ask_json(stamped(readings))["quality"]["register_like"] is True


def test_energy_that_rises_for_some_hours_is_no_register() -> None:
    assert hourly([100.0 + at for at in range(23)])["quality"]["register_like"] is False
    assert hourly(a_year())["quality"]["register_like"] is False


@pytest.mark.parametrize(
    "factor, expected, has_demand",
    [
        (1e-3, "fail", False),
        (1e-2, "fail", False),
        (0.05, "undetermined", True),
        (1, "pass", True),
        (100, "undetermined", True),
        (1000, "fail", False),
    ],
    ids=["kWh sent as Wh", "3 W", "170 W", "as they are", "340 kW", "Wh sent as kWh"],
)
def test_values_a_thousand_times_off_are_found(factor: float, expected: str, has_demand: bool) -> None:
    answer = hourly([wh * factor for wh in a_year()])
    found = finding(answer, "magnitude")
    assert found["outcome"] == expected
    assert (answer["measured_demand"] is not None) == has_demand
    if expected != "pass":
        assert found["pointer"] == "/series/energy_wh"
    assert answer["series"]["energy_wh"][:2] == [300 * factor, 250 * factor], "nothing is mended"


def test_a_marker_for_a_missing_value_is_found() -> None:
    readings = [*READINGS, (at(24), 99_999_999.0)]
    answer = ask_json(stamped(readings))
    assert answer["quality"]["out_of_range"] == 1
    assert outcome(answer, "magnitude") == "fail"
    assert answer["measured_demand"] is None


def test_nothing_but_zeros_is_no_dwelling() -> None:
    assert outcome(hourly([0.0] * 48), "magnitude") == "fail"


def test_unsorted_readings_are_counted_and_put_in_order() -> None:
    mixed = [*READINGS[:5], READINGS[10], *READINGS[5:10], *READINGS[11:]]
    answer = ask_json(stamped(mixed))
    assert answer["quality"]["unsorted"] == 5
    failed = finding(answer, "order")
    assert (failed["outcome"], failed["force"]) == ("fail", "recommendation")
    assert failed["pointer"] == "/series/readings/6"
    assert failed["provided"] == {"value": 5, "unit": "count"}
    assert answer["series"] == ask_json(stamped(READINGS))["series"]


def test_the_same_reading_twice_is_harmless() -> None:
    answer = ask_json(stamped([*READINGS[:8], READINGS[7], *READINGS[8:]]))
    assert answer["quality"]["duplicates"] == 1
    assert answer["quality"]["conflicting_duplicates"] == 0
    assert outcome(answer, "duplicates") == outcome(answer, "order") == "pass"
    assert answer["series"] == ask_json(stamped(READINGS))["series"]


@pytest.mark.parametrize("other", [100.0, 5000.0])
def test_two_values_for_one_interval_fail_and_the_greatest_counts(other: float) -> None:
    answer = ask_json(stamped([*READINGS[:8], (at(7), other), *READINGS[8:]]))
    failed = finding(answer, "duplicates")
    assert (failed["outcome"], failed["force"]) == ("fail", "requirement")
    assert failed["pointer"] == "/series/readings/8"
    assert "/series/readings/7" in failed["message"]
    assert answer["series"]["energy_wh"][7] == max(other, DAY[7])
    assert answer["quality"]["conflicting_duplicates"] == 1


def test_readings_that_overlap_are_left_out_and_named() -> None:
    answer = ask_json(stamped([*READINGS[:8], (at(7, 30), 900.0), *READINGS[8:]]))
    assert answer["quality"]["overlaps"] == 2, "it begins in one and ends in another"
    failed = finding(answer, "intervals")
    assert (failed["outcome"], failed["pointer"]) == ("fail", "/series/readings/8")
    assert answer["series"]["energy_wh"] == DAY


def test_intervals_of_two_lengths_are_a_failure() -> None:
    rows = "".join(
        f"2023-02-01 {hour:02}:00,2023-02-01 {hour:02}:59,{wh}\n" for hour, wh in enumerate(DAY[:20])
    )
    rows += "".join(
        f"2023-02-01 20:{minute:02},2023-02-01 20:{minute + 14},300\n" for minute in (0, 15, 30, 45)
    )
    answer = ask_csv(
        "from,to,Wh\n" + rows,
        time_column="from",
        end_column="to",
        value_column="Wh",
        unit="energy-wh",
        **DENVER,
    )
    assert outcome(answer, "intervals") == "fail"
    assert "15-minute reading" in finding(answer, "intervals")["message"]
    assert answer["series"]["energy_wh"] == DAY[:20]


def test_intervals_that_are_no_whole_minutes_cannot_be_used() -> None:
    readings = [(f"2023-02-01T00:{at // 2:02}:{at % 2 * 30:02}Z", 10.0 + at) for at in range(40)]
    answer = ask_json(stamped(readings))
    assert answer["series"] is None
    assert "30 s apart" in finding(answer, "intervals")["message"]


def test_one_reading_tells_no_interval() -> None:
    answer = ask_json(stamped(READINGS[:1]))
    assert outcome(answer, "layout") == "undetermined"
    assert ask_json(stamped(READINGS[:1], interval_minutes=60))["series"]["energy_wh"] == [300]


def test_readings_centuries_apart_do_not_fill_the_memory() -> None:
    answer = ask_json(
        stamped([("1971-01-01T00:00:00Z", 500.0), ("2199-01-01T00:00:00Z", 500.0)], interval_minutes=1)
    )
    assert answer["series"] is None
    assert "at most 210240" in finding(answer, "intervals")["message"]


def test_gaps_are_named_and_counted_by_month() -> None:
    energies = a_year()
    energies[24 * 40 + 3 : 24 * 40 + 9] = [None] * 6
    energies[24 * 200] = None
    answer = hourly(energies)
    quality = answer["quality"]
    assert quality["gap_count"] == 2
    assert quality["gaps"] == [
        {"from": "2023-02-10T03:00:00-07:00", "to": "2023-02-10T09:00:00-07:00", "minutes": 360},
        {"from": "2023-07-20T01:00:00-06:00", "to": "2023-07-20T02:00:00-06:00", "minutes": 60},
    ]
    said = finding(answer, "coverage")["message"]
    assert said.endswith("2 gaps, the longest of 360 minutes from 2023-02-10T03:00:00-07:00.")
    by_month = {month["month"]: month["coverage_percent"] for month in quality["months"]}
    assert by_month["2023-02"] == pytest.approx(100 * (672 - 6) / 672, abs=1e-3)
    assert by_month["2023-07"] == pytest.approx(100 * (744 - 1) / 744, abs=1e-3)
    assert by_month["2023-05"] == 100
    assert quality["coverage_percent"] == pytest.approx(100 * 8753 / 8760, abs=1e-3)


def test_values_missing_at_the_ends_are_missing_and_not_absent() -> None:
    answer = hourly([None] * 24 + a_year()[48:] + [None] * 24)
    assert answer["quality"]["expected"] == 8760
    assert answer["quality"]["gap_count"] == 2
    assert answer["series"]["start"] == "2023-01-01T00:00:00-07:00"


@pytest.mark.source("common practice, no source: 98 percent")
def test_coverage_is_held_against_98_percent() -> None:
    energies = a_year()
    energies[1000:1176] = [None] * 176
    assert outcome(hourly(energies), "coverage") == "fail", "175.2 hours are two percent of a year"
    energies[1000] = 500
    assert outcome(hourly(energies), "coverage") == "pass"


def test_a_month_that_is_missing_fails_by_its_name() -> None:
    energies = a_year()
    energies[24 * 181 : 24 * 212] = [None] * (24 * 31)
    failed = finding(hourly(energies), "months")
    assert failed["outcome"] == "fail"
    assert "2023-07 (" in failed["message"]


@pytest.mark.source("common practice, no source: 90 percent")
def test_a_month_is_held_against_90_percent() -> None:
    energies = a_year()
    # April has 720 hours and begins after 90 days, one hour late by the clock.
    energies[24 * 95 : 24 * 98] = [None] * 72
    assert outcome(hourly(energies), "months") == "pass"
    energies[24 * 98] = None
    failed = finding(hourly(energies), "months")
    assert failed["outcome"] == "fail"
    assert "2023-04" in failed["message"]


def test_an_impossible_stamp_is_named_by_its_place() -> None:
    readings = [*READINGS[:3], ("2023-02-30T00:00:00Z", 500.0), *READINGS[3:]]
    answer = ask_json(stamped(readings))
    failed = finding(answer, "readings")
    assert (failed["outcome"], failed["pointer"]) == ("fail", "/series/readings/3/at")
    assert failed["provided"]["value"] == "2023-02-30T00:00:00Z"
    assert answer["series"]["energy_wh"] == DAY
    # What stands behind it keeps its own place.
    again = ask_json(stamped([*readings, (at(7), 9000.0)]))
    assert finding(again, "duplicates")["pointer"] == "/series/readings/25"


def test_only_a_hundred_gaps_are_listed_the_longest() -> None:
    energies = a_year()
    for gap in range(300):
        energies[gap * 20] = None
    energies[7000:7003] = [None] * 3
    quality = hourly(energies)["quality"]
    assert quality["gap_count"] == 301
    assert len(quality["gaps"]) == 100
    assert max(gap["minutes"] for gap in quality["gaps"]) == 180


def test_long_zeros_may_be_gaps() -> None:
    energies = a_year()
    energies[2000:2300] = [0.0] * 300
    answer = hourly(energies)
    assert answer["quality"]["zeros"] == 300
    assert answer["quality"]["longest_zero_run_minutes"] == 300 * 60
    found = finding(answer, "coverage")
    assert found["outcome"] == "undetermined"
    assert "300 of them are zeros" in found["message"]


def test_zeros_by_day_alone_are_export_cut_off() -> None:
    sunny = [0.0 if 10 <= hour < 15 else wh for hour, wh in enumerate(DAY)]
    answer = hourly(a_year(sunny), edition="nec-2023")
    assert answer["quality"]["clipped"] == 5 * 365, "by the local clock from 9 to 16, summer time included"
    assert outcome(answer, "generation") == "fail"
    denied = hourly(a_year(sunny), edition="nec-2023", has_generation=False)
    assert outcome(denied, "generation") == "undetermined"


def test_zeros_of_an_empty_house_are_no_export() -> None:
    energies = [*a_year()[: 24 * 351], *[0.0] * (24 * 14)]
    assert hourly(energies)["quality"]["clipped"] == 0


def test_a_reading_below_zero_is_generation() -> None:
    energies = a_year()
    energies[12] = -400.0
    answer = hourly(energies, edition="nec-2023", has_generation=False)
    assert answer["quality"]["negative"] == 1
    failed = finding(answer, "generation")
    assert (failed["outcome"], failed["pointer"]) == ("fail", "/has_generation")
    assert "1 readings are below zero" in failed["message"]
    demand = answer["measured_demand"]
    assert demand["bound_15_minute_w"] is None, "what was drawn is hidden"
    assert demand["greatest_w"] == 3400


def test_readings_all_below_zero_are_no_load() -> None:
    answer = hourly([-400.0 - at for at in range(48)], edition="nec-2023")
    assert answer["existing_load"] is None
    assert outcome(answer, "generation") == "fail"


@pytest.mark.source("NEC 220.87 Exception: renewable sources bar it; interpretation measured-with-generation")
def test_generation_is_an_interpretation_for_a_year() -> None:
    answer = hourly(a_year(), edition="nec-2023", has_generation=True)
    assert outcome(answer, "generation") == "fail"
    (consulted,) = (each for each in answer["interpretations"] if each["name"] == "measured-with-generation")
    assert consulted["reading"] == "refused"
    assert consulted["other_readings"] == [{"reading": "measured-gross", "verdict": "undetermined"}]
    assert consulted["changes_verdict"] is True
    gross = hourly(
        a_year(),
        edition="nec-2023",
        has_generation=True,
        readings={"measured-with-generation": "measured-gross"},
    )
    assert outcome(gross, "generation") == "pass"


@pytest.mark.source("NEC 220.87 and its Exception: a year, or 30 days of 15 minutes without generation")
@pytest.mark.parametrize(
    "days, minutes, generation, expected",
    [
        (365, 15, False, "pass"),
        (364, 15, False, "pass"),
        (364, 60, False, "fail"),
        (30, 15, False, "pass"),
        (30, 15, None, "undetermined"),
        (30, 15, True, "fail"),
        (30, 5, False, "pass"),
        (29, 15, False, "fail"),
        (30, 30, False, "fail"),
        (365, 60, True, "pass"),
        (500, 60, False, "pass"),
    ],
)
def test_duration(days: int, minutes: int, generation: bool | None, expected: str) -> None:
    series = {
        "kind": "regular",
        "start": "2023-01-01T00:00:00Z",
        "interval_minutes": minutes,
        "energy_wh": [wh * minutes / 60 for wh in DAY for _ in range(60 // minutes)] * days,
    }
    answer = ask_json(series, edition="nec-2023", has_generation=generation)
    assert outcome(answer, "duration") == expected
    assert finding(answer, "duration")["citation"] == {"publication": "nec-2023", "section": "220.87"}


@pytest.mark.source(
    "interpretation measured-demand-interval; demand intervals of meters: common practice, no source"
)
@pytest.mark.parametrize(
    "minutes, reading, expected",
    [
        (5, None, "pass"),
        (15, None, "pass"),
        (30, None, "undetermined"),
        (60, "fifteen-minutes", "undetermined"),
        (60, "as-metered", "pass"),
        (120, "as-metered", "undetermined"),
    ],
)
def test_resolution(minutes: int, reading: str | None, expected: str) -> None:
    series = {
        "kind": "regular",
        "start": "2023-01-01T00:00:00Z",
        "interval_minutes": minutes,
        "energy_wh": [500.0 + at % 7 * 40 for at in range(400)],
    }
    readings = None if reading is None else {"measured-demand-interval": reading}
    assert outcome(ask_json(series, edition="nec-2023", readings=readings), "resolution") == expected


def test_without_edition_what_rests_on_the_code_is_undetermined() -> None:
    answer = hourly(a_year(), has_generation=False)
    assert answer["edition"] is None
    assert failures(answer) == {"duration", "resolution", "generation"}
    assert {finding(answer, rule)["pointer"] for rule in failures(answer)} == {"/edition"}
    assert answer["interpretations"] == []
    assert answer["measured_demand"]["greatest_w"] == 3400
    assert answer["measured_demand"]["greatest_a"] is None


@pytest.mark.parametrize("edition", ["nec-2017", "nec-2020", "nec-2023", "nec-2026"])
def test_every_edition_is_cited_by_its_own_section(edition: str) -> None:
    answer = hourly(a_year(), edition=edition, has_generation=False)
    section = "120.87" if edition == "nec-2026" else "220.87"
    for rule in ("duration", "resolution", "generation"):
        assert finding(answer, rule)["citation"] == {"publication": edition, "section": section}


def test_energy_and_power_at_once_or_neither_is_a_contradiction() -> None:
    series = {"kind": "regular", "start": "2023-01-01T00:00:00Z", "interval_minutes": 60}
    for stated in ({}, {"energy_wh": [1.0], "power_w": [1.0]}):
        failed = finding(ask_json({**series, **stated}), "layout")
        assert (failed["outcome"], failed["pointer"]) == ("fail", "/series")


@pytest.mark.source("A split-phase system is single-phase: NEC 220.5(A), 120/240 V")
def test_phases_that_the_system_has_not_are_a_contradiction() -> None:
    failed = finding(hourly(a_year(), edition="nec-2023", system="split-phase-120-240", phases=3), "phases")
    assert (failed["outcome"], failed["pointer"]) == ("fail", "/phases")
    for system, phases in (("split-phase-120-240", 1), ("wye-208y-120", 1), ("wye-208y-120", 3)):
        assert outcome(hourly(DAY, edition="nec-2023", system=system, phases=phases), "phases") == "pass"
    assert outcome(hourly(DAY, edition="nec-2023", phases=3), "phases") == "not-applicable"
