"""Loads are those of the decimal numbers that a person writes: binary fractions move no ampere across a half."""

from decimal import ROUND_HALF_UP, Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.checks.effort import examples

from branchwright.calculations.dwelling_load import (
    charger_load_va,
    cooking_increase_percent,
    demand_va,
    first_part_va,
    line_current_a,
    middle_part_va,
    rest_va,
    rounded_current_a,
    three_phase_count,
)

MILLIONTH = Decimal("0.000001")

loads = st.decimals("0.01", "1000000", places=2)
percents = st.sampled_from((25, 35, 40, 47, 65, 70, 75, 100))


@pytest.mark.source("A percentage of a load by decimal arithmetic")
@examples(300)
@given(loads, percents)
def test_every_demand_is_exact(load_va: Decimal, percent: int) -> None:
    assert demand_va(float(load_va), percent) == float((load_va * percent / 100).quantize(MILLIONTH))


@pytest.mark.source("Volts times amperes by decimal arithmetic")
@examples(200)
@given(st.decimals("0.1", "1000", places=2), st.sampled_from((208, 240)))
def test_every_load_of_a_charger_is_exact(current_a: Decimal, voltage_v: int) -> None:
    assert charger_load_va(float(current_a), voltage_v) == float(current_a * voltage_v)


@pytest.mark.source("NEC 220.5(B): a fraction below half an ampere is dropped; by decimal arithmetic")
@examples(300)
@given(st.integers(1, 4_000_000), st.sampled_from((208, 240)))
def test_every_current_is_rounded_as_the_edition_does(tenths_va: int, voltage_v: int) -> None:
    exact = Decimal(tenths_va) / 10 / voltage_v
    expected = exact.quantize(Decimal(1), ROUND_HALF_UP)
    assert rounded_current_a(line_current_a(tenths_va / 10, voltage_v), 0.5) == float(expected)


@pytest.mark.parametrize(
    "current_a, whole_a", [(0.49, 0), (0.5, 1), (77.499999, 77), (77.4999999, 78), (77.5, 78)]
)
def test_a_current_within_a_millionth_of_a_half_is_one(current_a: float, whole_a: float) -> None:
    assert rounded_current_a(current_a, 0.5) == whole_a


@examples(200)
@given(st.decimals("3000.01", "1000000", places=2))
def test_the_parts_of_a_load_add_up_to_it(load_va: Decimal) -> None:
    load, total = float(load_va), Decimal(0)
    parts = [first_part_va(load, 3000.0), middle_part_va(load, 120_000.0, 3000.0)]
    if load > 120_000:
        parts.append(rest_va(load, 120_000.0))
    for part in parts:
        assert part > 0
        total += Decimal(repr(part))
    assert total == load_va


@pytest.mark.source("NEC Table 220.55, note 1: 5 percent for each kilowatt and major fraction above 12")
@pytest.mark.parametrize(
    "average_kw, percent",
    [(8, 0), (12, 0), (12.49, 0), (12.5, 5), (13, 5), (13.49, 5), (13.5, 10), (13.6, 10), (16, 20), (27, 75)],
)
def test_increase_of_column_c(average_kw: float, percent: float) -> None:
    assert cooking_increase_percent(5.0, average_kw, 12.0) == percent


@pytest.mark.source("NEC 220.55: twice the greatest number between two of three phases, spread evenly")
@pytest.mark.parametrize("appliances, counted", [(2, 2), (3, 2), (4, 4), (6, 4), (7, 6), (10, 8), (20, 14)])
def test_appliances_on_three_phases(appliances: float, counted: float) -> None:
    assert three_phase_count(appliances) == counted
