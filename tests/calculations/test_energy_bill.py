"""The sums of a bill against their definitions, worked out one by one."""

from decimal import Decimal

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.checks.effort import examples

from branchwright.calculations.energy_bill import (
    allowance_kwh,
    average_power_kw,
    billed_quantity,
    ratcheted_kw,
    share_of_month,
    sums_by_class,
    tier_quantities,
)

QUANTITIES = st.integers(0, 10**10).map(lambda number: Decimal(number) / 10**6)


@pytest.mark.source(
    "arithmetic: whatever is used lies in exactly one tier, and no tier holds more than its width"
)
@examples(200)
@given(QUANTITIES, st.lists(QUANTITIES.filter(bool), max_size=4, unique=True).map(sorted))
def test_every_kwh_lies_in_one_tier(quantity: Decimal, ends: list[Decimal]) -> None:
    parts = tier_quantities(quantity, [*ends, None])
    assert sum(parts) == quantity
    for part, begin, end in zip(parts, [Decimal(0), *ends], ends, strict=False):
        assert 0 <= part <= end - begin
    for part, end in zip(parts[1:], ends, strict=True):
        assert part == 0 or quantity > end


@pytest.mark.source("worked by hand")
def test_what_lies_beyond_a_closed_tier_is_in_none() -> None:
    assert tier_quantities(Decimal(250), [Decimal(100)]) == [100]
    assert tier_quantities(Decimal(40), [Decimal(100)]) == [40]


@pytest.mark.source("sums one by one, in plain Python")
@examples(100)
@given(st.lists(st.tuples(st.integers(0, 4), st.integers(0, 4000)), min_size=1, max_size=50))
def test_energy_is_summed_by_class(items: list[tuple[int, int]]) -> None:
    classes = np.array([item[0] for item in items], dtype=np.int64)
    energies = np.array([item[1] for item in items], dtype=np.float64)
    expected = [float(sum(energy for at, energy in items if at == each)) for each in range(5)]
    assert sums_by_class(energies, classes, 5).tolist() == expected


@pytest.mark.source("the definition of demand, span by span in plain Python")
@examples(100)
@given(st.lists(st.integers(-4000, 4000), min_size=2, max_size=40), st.sampled_from([1, 2, 4]))
def test_power_is_averaged_over_whole_spans(energies: list[int], intervals: int) -> None:
    spans = [energies[at : at + intervals] for at in range(0, len(energies), intervals)]
    found = average_power_kw(np.array(energies, dtype=np.float64), intervals, 0.25)
    assert found == pytest.approx([sum(span) / (intervals * 0.25) for span in spans])


@pytest.mark.source("the definition of a ratchet, month by month in plain Python")
@examples(100)
@given(st.lists(st.integers(0, 50), min_size=12, max_size=12), st.integers(1, 100), st.integers(1, 11))
def test_a_ratchet_looks_back(measured: list[int], percent: int, months: int) -> None:
    expected = []
    for month in range(12):
        before = [measured[(month - back) % 12] for back in range(1, months + 1)]
        expected.append(max(measured[month], max(before) * percent / 100))
    assert ratcheted_kw(np.array(measured, dtype=np.float64), percent, months) == pytest.approx(expected)


@pytest.mark.source("worked by hand")
def test_quantities_are_decimals_of_six_digits() -> None:
    assert billed_quantity(1 / 3) == Decimal("0.333333")
    assert billed_quantity(0.0000004) == 0
    assert billed_quantity(123456789.1234565) == Decimal("123456789.123456")
    assert share_of_month(10, 30) == Decimal("0.333333")
    assert share_of_month(0, 31) == 0
    assert share_of_month(28, 28) == 1
    assert allowance_kwh(300, False, 10, 31) == Decimal("96.774194")
    assert allowance_kwh(12.5, True, 10, 31) == 125
