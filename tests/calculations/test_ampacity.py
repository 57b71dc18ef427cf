"""Ampacity: published corrections, the short-length exception by hand, the operating temperature by physics."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.checks.effort import examples

from branchwright.calculations.ampacity import (
    corrected_ampacity_a,
    governing_ampacity_a,
    rooftop_ambient_c,
    short_length_limit_ft,
)
from branchwright.calculations.conductor_temperature import operating_temperature_c


@pytest.mark.source("NEC 310.15(B): I' = I sqrt((Tc - Ta') / (Tc - Ta)), with Ta = 30 degC")
@examples(100)
@given(
    st.floats(-40, 74),
    st.sampled_from((20, 35, 50, 65, 85, 100, 115, 130, 150)),
    st.sampled_from((100, 80, 70, 50, 35)),
)
def test_at_its_corrected_ampacity_a_conductor_has_its_rated_temperature(
    ambient_c: float, ampacity_a: float, adjustment_percent: float
) -> None:
    corrected = ampacity_a * math.sqrt((75 - ambient_c) / (75 - 30)) * adjustment_percent / 100

    def operating_c(load_a: float) -> float:
        return operating_temperature_c(ambient_c, 75, 30, load_a, ampacity_a, adjustment_percent)

    assert operating_c(corrected) == pytest.approx(75)
    # Half the current heats by a quarter; none leaves the ambient.
    assert operating_c(corrected / 2) == pytest.approx(ambient_c + (75 - ambient_c) / 4)
    assert operating_c(0) == ambient_c


@pytest.mark.source("NEC 310.15(B) equation, used backwards; table 310.16")
@pytest.mark.parametrize(
    "load_a, ampacity_a",
    [(48, 65), (32, 50), (40, 50), (64, 85), (80, 100), (16, 25)],
)
@pytest.mark.parametrize("ambient_c", [10, 30, 40, 72])
def test_the_operating_temperature_solves_the_ampacity_equation(
    load_a: float, ampacity_a: float, ambient_c: float
) -> None:
    # The temperature Tc at which load = ampacity_75(30 degC) * sqrt((Tc - Ta) / (75 - 30)).
    temperature = operating_temperature_c(ambient_c, 75, 30, load_a, ampacity_a, 100)
    assert ampacity_a * math.sqrt((temperature - ambient_c) / 45) == pytest.approx(load_a)


@pytest.mark.source("EC&M Code Q&A 112: 10 AWG at 90 degC, four conductors in a raceway")
def test_four_conductors_in_a_raceway() -> None:
    assert corrected_ampacity_a(40, 1, 80) == 32


@pytest.mark.source("NEC 310.15(B)(2): a raceway close above a roof, 33 degC")
def test_a_roof_in_the_sun() -> None:
    assert rooftop_ambient_c(38, 33) == 71


CASES = {
    "a short hot end, 10 percent exactly": ([65, 50], [90, 9], [False, False], 65),
    "a hair over 10 percent": ([65, 50], [90, 9.001], [False, False], 50),
    "10 ft is the end of it, however long the rest": ([65, 50], [500, 10], [False, False], 65),
    "more than 10 ft": ([65, 50], [500, 10.5], [False, False], 50),
    "the low end first makes no difference": ([50, 65], [9, 90], [False, False], 65),
    "two short ends count together": ([50, 65, 50], [5, 90, 4], [False, False, False], 65),
    "and are too long together": ([50, 65, 50], [5, 90, 5], [False, False, False], 50),
    "a cable that the exception does not reach": ([65, 55], [200, 5], [False, True], 55),
    "one exempt cable among two low ends bars the first step and not the second": (
        [65, 55, 50],
        [200, 5, 4],
        [False, True, False],
        55,
    ),
    "an exempt cable at the higher ampacity does no harm": ([65, 50], [200, 5], [True, False], 65),
    "three steps: the lowest may go, the middle not": ([80, 65, 50], [50, 50, 6], [False] * 3, 65),
    "three steps: both lower ones are short": ([80, 65, 50], [100, 5, 4], [False] * 3, 80),
    "one segment": ([65], [50], [False], 65),
    "all alike": ([65, 65], [50, 3], [False, False], 65),
    "two short halves of one length": ([65, 65], [1, 1], [True, True], 65),
}


@pytest.mark.source("NEC 310.14(A)(2) Exception: the lesser of 10 ft and 10 percent at the higher ampacity")
@pytest.mark.parametrize("case", CASES, ids=str)
def test_the_short_length_exception(case: str) -> None:
    ampacities, lengths, exempt, governing = CASES[case]
    assert governing_ampacity_a(ampacities, lengths, exempt, 10, 10) == governing


@pytest.mark.source("NEC 310.14(A)(2) Exception")
def test_the_limit_of_the_short_length() -> None:
    assert short_length_limit_ft(10, 10, 60) == 6
    assert short_length_limit_ft(10, 10, 100) == 10
    assert short_length_limit_ft(10, 10, 400) == 10


@examples(100)
@given(
    st.lists(st.tuples(st.sampled_from((40, 50, 55, 65, 75)), st.floats(0.5, 200)), min_size=1, max_size=6),
    st.randoms(use_true_random=False),
)
def test_the_governing_ampacity_is_one_of_the_run_whatever_the_order(segments, shuffled_by) -> None:
    def governing(run):
        return governing_ampacity_a([a for a, _ in run], [ft for _, ft in run], [False] * len(run), 10, 10)

    shuffled = list(segments)
    shuffled_by.shuffle(shuffled)
    found = governing(segments)
    assert found == governing(shuffled)
    assert found in [ampacity for ampacity, _ in segments]
    # Whatever is below it is short.
    below = math.fsum(length for ampacity, length in segments if ampacity < found)
    assert below <= 10
    # A run without the exception is the lowest of its segments.
    assert governing_ampacity_a(
        [a for a, _ in segments], [ft for _, ft in segments], [True] * len(segments), 10, 10
    ) == min(a for a, _ in segments)
