"""Quantities against counting one by one, and against the rules that they follow."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.checks.effort import examples

from branchwright.calculations.take_off import (
    bought_conductor_ft,
    bought_pieces_count,
    couplings_count,
    sticks_count,
    straps_count,
)

tenths = st.integers(1, 5000).map(lambda value: value / 10)


@pytest.mark.source("NEC 358.30(A) and 334.30: within a distance of each box, then at most an interval apart")
@examples(500)
@given(tenths, st.sampled_from((12, 36)), st.sampled_from((36, 54, 60, 72, 120)))
def test_so_many_straps_hold_and_one_fewer_do_not(length_ft: float, within_in: int, interval_in: int) -> None:
    """Straps as far from the boxes and from each other as allowed reach just so far, in exact fractions."""
    length_in = Fraction(str(length_ft)) * 12
    count = int(straps_count(length_ft, within_in, interval_in))
    assert length_in <= 2 * within_in + (count - 1) * interval_in
    assert count == 1 or length_in > 2 * within_in + (count - 2) * interval_in


@examples(500)
@given(tenths, st.sampled_from((0, 5, 7.5, 10)))
def test_sticks_hold_the_length_and_one_fewer_do_not(length_ft: float, percent: float) -> None:
    exact = Fraction(str(length_ft)) * (1 + Fraction(str(percent)) / 100)
    count = int(sticks_count(float(exact), 10.0))
    assert (count - 1) * 10 < exact <= count * 10


@examples(200)
@given(tenths)
def test_couplings_are_one_fewer_than_sticks(length_ft: float) -> None:
    assert couplings_count(length_ft, 10.0) == sticks_count(length_ft, 10.0) - 1


@pytest.mark.source("10 % of 100 ft is 10 ft, though not in binary fractions: 100 * 1.1 is more than 110")
def test_binary_fractions_buy_nothing() -> None:
    assert 100.0 * (1 + 10 / 100) > 110
    assert sticks_count(100.0 * (1 + 10 / 100), 10.0) == 11
    assert bought_pieces_count(100.0, 10.0) == 110


def test_each_conductor_has_ends_of_its_own() -> None:
    """Common practice, no source: 3 conductors of 50 ft, 10 % longer, and 8 ft of ends each."""
    assert bought_conductor_ft(3.0, 50.0, 10.0, 8.0) == pytest.approx(189.0)
