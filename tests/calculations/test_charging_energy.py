"""Power and energy of charging against published figures."""

import pytest

from branchwright.calculations.charging_energy import energy_kwh, single_phase_power_kw, three_phase_power_kw


@pytest.mark.source(
    "A hobbyists' table of AC level 2 charging by SAE J1772, in kW, some cut off instead of rounded"
)
@pytest.mark.parametrize(
    ("current_a", "at_208_v", "at_240_v"),
    [(16, 3.3, 3.8), (24, 5.0, 5.7), (32, 6.6, 7.7), (40, 8.3, 9.6), (48, 10.0, 11.5), (80, 16.6, 19.2)],
)
def test_single_phase_power(current_a: float, at_208_v: float, at_240_v: float) -> None:
    assert single_phase_power_kw(208, current_a, 1) == pytest.approx(at_208_v, abs=0.1)
    assert single_phase_power_kw(240, current_a, 1) == pytest.approx(at_240_v, abs=0.1)


@pytest.mark.source("Volts times amperes, by hand")
def test_power_is_exact_where_the_factors_are() -> None:
    assert single_phase_power_kw(240, 48, 1) == 11.52
    assert single_phase_power_kw(240, 6, 1) == 1.44
    assert single_phase_power_kw(240, 48, 0.95) == pytest.approx(10.944, rel=1e-12)


@pytest.mark.source(
    "European practice, from memory: 16 A and 32 A at 400 V three-phase are called 11 and 22 kW"
)
@pytest.mark.parametrize(("current_a", "called_kw"), [(16, 11), (32, 22)])
def test_three_phase_power(current_a: float, called_kw: float) -> None:
    assert three_phase_power_kw(400, current_a, 1) == pytest.approx(called_kw, rel=0.01)


@pytest.mark.source(
    "Three phases of 120 V to neutral carry the same current each: 3 x 120 x 48 = 17.28 kW, by hand"
)
def test_three_phase_power_is_that_of_its_phases() -> None:
    # 208 V is the rounded 120 V times the square root of three, 207.85 V.
    assert three_phase_power_kw(208, 48, 1) == pytest.approx(17.28, rel=1e-3)
    assert three_phase_power_kw(208, 48, 0.9) == pytest.approx(0.9 * three_phase_power_kw(208, 48, 1))


@pytest.mark.source("Definition, by hand")
def test_energy() -> None:
    assert energy_kwh(11.52, 1) == 11.52
    assert energy_kwh(9.6, 7.5) == 72
