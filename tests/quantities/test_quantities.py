"""Sizes in their order, lengths and torques in their units."""

import math

import pytest

from branchwright.quantities.conductor_sizes import RANK, SIZES, sizes_above, smaller_of
from branchwright.quantities.lengths import feet, inches
from branchwright.quantities.torques import pound_force_inches
from branchwright.quantities.trade_sizes import TRADE_SIZE_RANK, TRADE_SIZES


def diameter_in(size: str) -> float:
    """Diameter of a round wire of that size, in inches: ASTM B258, or from the circular mils."""
    number, unit = size.split(" ")
    if unit == "kcmil":
        return math.sqrt(float(number) * 1000) / 1000
    gauge = 1 - int(number.removesuffix("/0")) if number.endswith("/0") else int(number)
    return float(0.005 * 92 ** ((36 - gauge) / 39))


@pytest.mark.source("ASTM B258: d = 0.005 in x 92^((36 - n) / 39)")
def test_sizes_are_in_the_order_of_their_diameter() -> None:
    diameters = [diameter_in(size) for size in SIZES]
    assert diameters == sorted(diameters)
    assert len(set(SIZES)) == len(SIZES)
    assert [RANK[size] for size in SIZES] == list(range(len(SIZES)))


def test_smaller_and_larger_sizes() -> None:
    assert smaller_of("1/0 AWG", "1 AWG") == "1 AWG"
    assert smaller_of("8 AWG", "8 AWG") == "8 AWG"
    assert sizes_above("250 kcmil") == ()
    assert sizes_above("2 AWG")[0] == "1 AWG"
    for size in SIZES:
        assert [*SIZES[: RANK[size] + 1], *sizes_above(size)] == list(SIZES)


def test_trade_sizes_are_in_the_order_of_the_openings_they_name() -> None:
    def named_in(trade_size: str) -> float:
        whole, _, part = trade_size.rpartition("-")
        if "/" not in trade_size:
            return float(trade_size)
        top, bottom = part.split("/")
        return float(whole or 0) + int(top) / int(bottom)

    assert [named_in(size) for size in TRADE_SIZES] == sorted(named_in(size) for size in TRADE_SIZES)
    assert [TRADE_SIZE_RANK[size] for size in TRADE_SIZES] == list(range(len(TRADE_SIZES)))


@pytest.mark.source("NIST SP 811, appendix B: 1 ft = 0.3048 m exactly, 1 in = 25.4 mm exactly")
@pytest.mark.parametrize(
    "value, unit, in_feet",
    [
        (1, "ft", 1),
        (12, "in", 1),
        (0.3048, "m", 1),
        (304.8, "mm", 1),
        (610, "mm", 610 / 25.4 / 12),
        (100, "m", 328.0839895),
    ],
)
def test_lengths(value: float, unit: str, in_feet: float) -> None:
    assert feet(value, unit) == pytest.approx(in_feet, rel=1e-9)
    assert inches(value, unit) == pytest.approx(12 * in_feet, rel=1e-9)


@pytest.mark.source("NIST SP 811, appendix B.8: 1 lbf-in = 0.1129848 N m; 1 lbf-ft = 1.355818 N m")
@pytest.mark.parametrize(
    "value, unit, lbf_in",
    [
        (45, "lbf-in", 45),
        (1, "lbf-ft", 12),
        (0.1129848, "N-m", 1),
        (1.355818, "N-m", 12),
        (5.1, "N-m", 45.1388),
    ],
)
def test_torques(value: float, unit: str, lbf_in: float) -> None:
    assert pound_force_inches(value, unit) == pytest.approx(lbf_in, rel=1e-6)
