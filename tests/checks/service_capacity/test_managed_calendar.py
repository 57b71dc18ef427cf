"""The local clock: days of 23 and 25 hours, nights by their date of arrival, times that the clock skips or repeats."""

import pytest
from tests.checks.service_capacity.studies import EVERY_DAY, Json, charger, session, studied, study

KW = 9.6
"""40 A at 240 V."""

DST = pytest.mark.source("15 USC 260a: second Sunday in March and first Sunday in November, at 2 o'clock")


def nights(start: str, days: int, zone: str = "America/Denver", **stated: object) -> dict[str, Json]:
    """Return the nights of a house that draws nothing; a vehicle takes all it can, 9.6 kW, while it is there."""
    asked = study(
        [0.0] * (96 * days),
        house_load={"start": start, "time_zone": zone},
        chargers=[charger(sessions=[session(**{"energy_kwh": 900, **stated})])],
    )
    return {night["date"]: night for night in studied(asked)["nights"]}


@DST
def test_the_night_of_the_spring_change_is_an_hour_shorter() -> None:
    found = nights("2025-03-07T00:00:00-07:00", 4)
    assert list(found) == ["2025-03-07", "2025-03-08", "2025-03-09"]
    delivered = [night["delivered_kwh"] for night in found.values()]
    assert delivered == pytest.approx([13 * KW, 12 * KW, 13 * KW])


@DST
def test_the_night_of_the_autumn_change_is_an_hour_longer() -> None:
    found = nights("2025-10-31T00:00:00-06:00", 4)
    delivered = [night["delivered_kwh"] for night in found.values()]
    assert delivered == pytest.approx([13 * KW, 14 * KW, 13 * KW])


@DST
@pytest.mark.parametrize(
    "start, date, quarters",
    [("2025-03-08T07:00:00Z", "2025-03-09", 92), ("2025-11-01T06:00:00Z", "2025-11-02", 100)],
)
def test_the_worst_day_has_as_many_intervals_as_the_day_has(start: str, date: str, quarters: int) -> None:
    # The vehicle comes on Sunday only, so that the day of the change is the worst.
    asked = study(
        [0.0] * (96 * 3),
        house_load={"start": start},
        chargers=[charger(sessions=[session(weekdays=["sun"], arrival="12:00", departure="14:00")])],
    )
    worst = studied(asked)["worst_day"]
    assert worst["date"] == date
    assert len(worst["intervals"]) == quarters
    assert worst["intervals"][0]["at"].startswith(f"{date}T00:00:00")


@pytest.mark.source(
    "PEP 495: a time in the gap is as much later as the gap is long, and fold 0 is the first passing"
)
@pytest.mark.parametrize(
    "start, arrival, departure, hours",
    [
        # 2:30 does not exist on 9 March: it is 3:30.
        ("2025-03-09T00:00:00-07:00", "02:30", "05:00", 1.5),
        # From 1:30 to 3:30 on 2 November three hours pass.
        ("2025-11-02T00:00:00-06:00", "01:30", "03:30", 3.0),
        # From 2:00, which is 3:00, to 3:00 there is no time at all.
        ("2025-03-09T00:00:00-07:00", "02:00", "03:00", 0.0),
    ],
)
def test_times_that_the_clock_skips_or_repeats(
    start: str, arrival: str, departure: str, hours: float
) -> None:
    found = nights(start, 2, weekdays=["sun"], arrival=arrival, departure=departure)
    (night,) = found.values()
    assert night["delivered_kwh"] == pytest.approx(hours * KW)


@pytest.mark.source(
    "IANA time zone database: Lord Howe Island moves its clock by half an hour, on 6 April 2025 back"
)
def test_a_change_of_half_an_hour() -> None:
    found = nights("2025-04-04T13:00:00Z", 4, "Australia/Lord_Howe")
    assert [night["delivered_kwh"] for night in found.values()] == pytest.approx(
        [13.5 * KW, 13 * KW, 13 * KW]
    )


def test_weekdays_are_those_of_the_arrival() -> None:
    # 3 January 2025 is a Friday.
    found = nights("2025-01-01T00:00:00-07:00", 7, weekdays=["fri"])
    assert list(found) == ["2025-01-03"]


def test_a_departure_at_the_time_of_arrival_is_a_day_later() -> None:
    found = nights("2025-01-01T00:00:00-07:00", 3, weekdays=["wed"], arrival="09:00", departure="09:00")
    assert found["2025-01-01"]["delivered_kwh"] == pytest.approx(24 * KW)


def test_minutes_within_an_interval_count() -> None:
    found = nights("2025-01-01T00:00:00-07:00", 2, weekdays=["wed"], arrival="09:04", departure="09:11")
    assert found["2025-01-01"]["delivered_kwh"] == pytest.approx(7 / 60 * KW)


def test_the_same_instants_in_another_offset_are_the_same_study() -> None:
    here = nights("2025-01-01T00:00:00-07:00", 3)
    assert here == nights("2025-01-01T07:00:00Z", 3) == nights("2025-01-01T16:00:00+09:00", 3)


def test_sessions_that_the_readings_cut_are_left_out_with_their_date() -> None:
    asked = study(
        [0.0] * (96 * 2),
        chargers=[charger(sessions=[session(), session(arrival="12:00", departure="13:00", energy_kwh=2)])],
    )
    answer = studied(asked)
    # The night of 31 December had begun before; that of 2 January ends after, and its noon goes with it.
    assert [night["date"] for night in answer["nights"]] == ["2025-01-01"]
    assert answer["year"]["sessions"] == 2
    assert answer["year"]["sessions_left_out"] == 3


def test_a_vehicle_begins_with_the_interval_after_the_one_before_it_has_left() -> None:
    first = session(weekdays=["wed"], arrival="09:00", departure="10:05", energy_kwh=900)
    second = session(weekdays=["wed"], arrival="10:06", departure="11:00", energy_kwh=900)
    third = session(weekdays=["thu"], arrival="10:06", departure="10:10", energy_kwh=900)
    fourth = session(weekdays=["thu"], arrival="09:00", departure="10:05", energy_kwh=900)
    asked = study([0.0] * (96 * 3), chargers=[charger(sessions=[first, second, third, fourth])])
    unmet = {(each["date"], each["session"]): each for each in studied(asked)["unmet_sessions"]}
    assert unmet["2025-01-01", 0]["delivered_kwh"] == pytest.approx(65 / 60 * KW)
    assert unmet["2025-01-01", 1]["delivered_kwh"] == pytest.approx(45 / 60 * KW)
    assert unmet["2025-01-02", 2]["delivered_kwh"] == 0
    assert unmet["2025-01-02", 3]["delivered_kwh"] == pytest.approx(65 / 60 * KW)


def test_every_day_of_a_year_has_its_night() -> None:
    found = nights("2025-01-01T00:00:00-07:00", 366, weekdays=EVERY_DAY)
    assert len(found) == 365
    assert sum(night["delivered_kwh"] for night in found.values()) == pytest.approx(365 * 13 * KW)


def test_what_is_left_of_an_interval_counts_for_the_next_vehicle() -> None:
    # The second begins at 10:15, with the interval after the one in which the first leaves, and goes at 10:20.
    first = session(weekdays=["wed"], arrival="09:00", departure="10:05", energy_kwh=900)
    second = session(weekdays=["wed"], arrival="10:06", departure="10:20", energy_kwh=900)
    asked = study([0.0] * (96 * 2), chargers=[charger(sessions=[first, second])])
    unmet = {each["session"]: each for each in studied(asked)["unmet_sessions"]}
    assert unmet[1]["delivered_kwh"] == pytest.approx(5 / 60 * KW)


def test_a_session_without_any_time_keeps_nobody_from_charging() -> None:
    # On 9 March 2:00 is 3:00, when the first has to go; the second comes at 3:05.
    first = session(weekdays=["sun"], arrival="02:00", departure="03:00", energy_kwh=900)
    second = session(weekdays=["sun"], arrival="03:05", departure="04:00", energy_kwh=900)
    asked = study(
        [0.0] * (96 * 2),
        house_load={"start": "2025-03-09T00:00:00-07:00"},
        chargers=[charger(sessions=[first, second])],
    )
    unmet = {each["session"]: each for each in studied(asked)["unmet_sessions"]}
    assert unmet[0]["delivered_kwh"] == 0
    assert unmet[1]["delivered_kwh"] == pytest.approx(55 / 60 * KW)
