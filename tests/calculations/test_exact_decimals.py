"""Results are those of the decimal numbers that a person writes, to a millionth: binary fractions move nothing.

The expected values are computed with `decimal`, which is exact here, and rounded half to even, as the functions say.
"""

from decimal import ROUND_HALF_EVEN, Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.checks.effort import examples

from branchwright.calculations.ampacity import corrected_ampacity_a
from branchwright.calculations.continuous_load import least_rating_a
from branchwright.calculations.raceway_fill import fill_percent

MILLIONTH = Decimal("0.000001")


def number(exact: Decimal) -> float:
    return float(exact.quantize(MILLIONTH, ROUND_HALF_EVEN))


@pytest.mark.source("1.25 times the load by decimal arithmetic; NEC 210.20(A) and 625.41 for the factor")
@pytest.mark.parametrize("load_a", ["6.01", "6.24", "28.8", "30.8", "36.8", "0.0000011"])
def test_a_least_rating_is_exact(load_a: str) -> None:
    # In binary 1.25 x 6.24 is 7.800000000000001: a breaker of 7.8 A would not reach it.
    assert least_rating_a(1.25, float(load_a)) == number(Decimal("1.25") * Decimal(load_a))


@examples(300)
@given(st.decimals("0.01", "1000", places=2))
def test_every_least_rating_is_exact(load_a: Decimal) -> None:
    assert least_rating_a(1.25, float(load_a)) == number(Decimal("1.25") * load_a)


@pytest.mark.source("NEC tables 310.15(B)(1)(1) and 310.15(C)(1), factors multiplied by decimal arithmetic")
@pytest.mark.parametrize("ampacity_a", [20, 25, 30, 40, 55, 75, 95, 115, 130])
@pytest.mark.parametrize("correction", ["0.94", "0.58", "0.82", "0.71", "1.04", "1.08", "0.96", "0.87"])
@pytest.mark.parametrize("adjustment_percent", [100, 80, 70, 50, 45, 40, 35])
def test_a_corrected_ampacity_is_exact(ampacity_a: int, correction: str, adjustment_percent: int) -> None:
    exact = ampacity_a * Decimal(correction) * adjustment_percent / 100
    assert corrected_ampacity_a(ampacity_a, float(correction), adjustment_percent) == number(exact)


def test_a_corrected_ampacity_ends_at_a_millionth() -> None:
    # 1/7 of 1 A: 0.142857 and no further digit.
    assert corrected_ampacity_a(1, 1 / 7, 100) == 0.142857


@pytest.mark.source("NEC chapter 9, tables 1 and 4: areas of EMT filled to the printed limits exactly")
@pytest.mark.parametrize("raceway_in2", ["0.304", "0.533", "0.864", "1.496", "2.036", "3.356", "3.408"])
@pytest.mark.parametrize("limit", ["0.31", "0.40", "0.53", "0.60"])
def test_a_raceway_that_is_exactly_full_is_not_overfull(raceway_in2: str, limit: str) -> None:
    # In binary 0.533 x 0.31 of 0.533 is 30.999999999999993 percent.
    area_in2 = Decimal(raceway_in2) * Decimal(limit)
    assert fill_percent(float(area_in2), float(raceway_in2)) == float(Decimal(limit) * 100)


def test_a_fill_ends_at_a_millionth() -> None:
    assert fill_percent(1, 7) == 14.285714
