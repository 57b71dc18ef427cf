"""Draws managed-charging studies of a few days."""

from typing import Any

from hypothesis import strategies as st
from tests.checks.service_capacity.studies import Json, charger, energies, session, study

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
