"""Capacity reviews as Hypothesis draws them: any that fits the schema, and usual ones."""

from typing import Any

from hypothesis import strategies as st
from tests.checks.service_capacity.drawn_dwellings import drawn_dwelling, drawn_readings, seeded
from tests.checks.service_capacity.load_tables import EDITIONS

Json = dict[str, Any]

CURRENTS_A = (6, 12, 16, 24, 28.8, 32, 40, 48, 80)
RATINGS_A = (60, 100, 125, 150, 200, 400)


def perhaps(strategy: st.SearchStrategy[Any]) -> st.SearchStrategy[Any]:
    """A fact that is often not stated."""
    return st.none() | strategy


def stated(**facts: st.SearchStrategy[Any]) -> st.SearchStrategy[Json]:
    """An object whose facts are left out where they are None."""
    return st.fixed_dictionaries(facts).map(
        lambda drawn: {name: value for name, value in drawn.items() if value is not None}
    )


def numbers(least: float, most: float, *usual: float) -> st.SearchStrategy[float]:
    """A number of a range, often a usual one."""
    drawn = st.floats(least, most, allow_nan=False)
    return st.sampled_from(usual) | drawn if usual else drawn


AMPERES = numbers(0.5, 1000, *CURRENTS_A)
RATINGS = numbers(1, 6000, *RATINGS_A)
ACCESS = st.sampled_from(("restricted", "unrestricted"))


def services() -> st.SearchStrategy[Json]:
    """A service, with or without its panel and conductors."""
    return stated(
        rating_a=RATINGS,
        system=st.sampled_from(("split-phase-120-240", "wye-208y-120")),
        phases=perhaps(st.sampled_from((1, 3))),
        main_breaker_a=perhaps(RATINGS),
        busbar_rating_a=perhaps(RATINGS),
        backfeed_breaker_a=perhaps(numbers(1, 200, 20, 40)),
        backfeed_output_a=perhaps(numbers(1, 200, 16, 32)),
        backfeed_opposite_main=perhaps(st.booleans()),
        conductors=perhaps(
            stated(
                material=perhaps(st.sampled_from(("copper", "aluminum"))),
                size=perhaps(
                    st.sampled_from(("14 AWG", "4 AWG", "2 AWG", "2/0 AWG", "4/0 AWG", "250 kcmil"))
                ),
                ampacity_a=perhaps(RATINGS),
                conductor_temperature_rating_c=perhaps(st.sampled_from((60, 75, 90))),
                terminal_temperature_rating_c=perhaps(st.sampled_from((60, 75, 90))),
                ambient_c=perhaps(numbers(-60, 120, 30, 45)),
                current_carrying_conductors=perhaps(st.integers(1, 100)),
                carry_entire_load=perhaps(st.booleans()),
            )
        ),
    )


def records() -> st.SearchStrategy[Json]:
    """An existing load that was measured."""
    return stated(
        kind=st.just("measured"),
        measured_demand_w=numbers(0, 10_000_000, 2000, 8000, 15_000),
        averaging_minutes=numbers(0.1, 1440, 1, 15, 30, 60),
        days=numbers(0, 36_525, 20, 30, 365),
        coverage_percent=perhaps(numbers(0, 100, 99)),
        has_generation=perhaps(st.booleans()),
        occupied=perhaps(st.booleans()),
        seasonal_load_va=perhaps(numbers(0, 10_000_000, 0, 5000)),
        fifteen_minute_bound_w=perhaps(numbers(0, 10_000_000, 10_000, 30_000)),
    )


def calculated_loads() -> st.SearchStrategy[Json]:
    """An existing load that is calculated, of a dwelling drawn by a seed."""
    return st.builds(
        lambda seed, method: {
            "kind": "calculated",
            "method": method,
            "dwelling": drawn_dwelling(seeded(seed)),
        },
        st.integers(0, 10**9),
        st.sampled_from(("standard", "optional-new", "optional-existing")),
    )


def chargers() -> st.SearchStrategy[Json]:
    """A charger, its settings possible or not."""
    return stated(
        charging_current_a=AMPERES,
        rated_current_a=perhaps(AMPERES),
        setting_access=perhaps(ACCESS),
        connection=perhaps(st.sampled_from(("hardwired", "receptacle"))),
        settings_a=perhaps(st.lists(AMPERES, min_size=1, max_size=6)),
        managed=perhaps(st.booleans()),
        circuit_breaker_a=perhaps(numbers(1, 200, 20, 40, 60)),
    )


def managements() -> st.SearchStrategy[Json]:
    """Energy management, sound or not."""
    return stated(
        control_setting_a=numbers(0.5, 6000, 80, 100, 160),
        fail_safe_current_a=perhaps(numbers(0, 1000, 0, 6, 16)),
        monitored_legs=perhaps(st.integers(0, 12)),
        monitor_position=perhaps(st.sampled_from(("supply-side-of-generation", "load-side-of-generation"))),
        listed=perhaps(st.booleans()),
        link_loss_tested=perhaps(st.booleans()),
        access=perhaps(ACCESS),
    )


def shared_circuits() -> st.SearchStrategy[Json]:
    """A shared circuit, its chargers there or not."""
    return stated(
        chargers=st.lists(st.integers(0, 5), min_size=2, max_size=4),
        breaker_a=numbers(1, 200, 40, 60, 100),
        control_setting_a=perhaps(numbers(0.5, 200, 32, 80)),
        fail_safe_current_a=perhaps(numbers(0, 100, 0, 6)),
        listed=perhaps(st.booleans()),
    )


def any_reviews() -> st.SearchStrategy[Json]:
    """Any request that fits the schema."""
    return stated(
        edition=st.sampled_from(EDITIONS),
        jurisdiction=perhaps(st.just("a county")),
        readings=perhaps(st.builds(lambda seed: drawn_readings(seeded(seed)), st.integers(0, 10**9))),
        occupancy=perhaps(st.sampled_from(("one-family", "two-family", "multifamily", "other"))),
        service=services(),
        existing_load=records() | calculated_loads(),
        chargers=st.lists(chargers(), min_size=1, max_size=4),
        management=perhaps(managements()),
        shared_circuits=perhaps(st.lists(shared_circuits(), min_size=1, max_size=2)),
    )


def sound_chargers() -> st.SearchStrategy[Json]:
    """A charger that can be what it is said to be."""
    return st.builds(
        lambda setting, rated, access: {
            "charging_current_a": setting,
            "rated_current_a": max(setting, rated),
            "setting_access": access,
        },
        st.integers(6, 48),
        st.sampled_from((32, 40, 48, 80)),
        ACCESS,
    )


def usual_reviews() -> st.SearchStrategy[Json]:
    """A request whose facts are all stated and do not contradict each other, around where it just fits or does not."""
    sound = stated(
        kind=st.just("measured"),
        measured_demand_w=st.integers(0, 24_000),
        averaging_minutes=st.sampled_from((15, 30, 60)),
        days=st.just(365),
        coverage_percent=st.just(100),
        has_generation=st.just(False),
    )
    return stated(
        edition=st.sampled_from(EDITIONS),
        readings=perhaps(st.builds(lambda seed: drawn_readings(seeded(seed)), st.integers(0, 10**9))),
        service=stated(rating_a=st.sampled_from(RATINGS_A), system=st.just("split-phase-120-240")),
        existing_load=sound | calculated_loads(),
        chargers=st.lists(sound_chargers(), min_size=1, max_size=3),
        management=perhaps(
            stated(
                control_setting_a=st.sampled_from((48, 80, 100, 160)),
                fail_safe_current_a=st.sampled_from((0, 6, 10)),
                monitored_legs=st.just(2),
                listed=st.just(True),
                link_loss_tested=st.just(True),
                access=st.just("restricted"),
            )
        ),
    )
