"""Voltage drop against an independent load flow, and against published figures."""

import math

import power_grid_model as pgm
import pytest

from branchwright.calculations.voltage_drop import drop_percent, drop_v, line_ohm, loop_ohm


def load_flow_drop_v(
    voltage_v: float, load_a: float, resistance_ohm: float, reactance_ohm: float, power_factor: float = 1.0
) -> float:
    """Return the drop that a load flow finds for a single-phase loop.

    The solver models three phases and one of them stands for the loop: with the loop's voltage as phase
    voltage the line-to-line voltage is root three times as much, and the line has the loop's impedance. The
    load keeps its current and its power factor whatever its voltage is.
    """
    node = pgm.initialize_array("input", "node", 2)
    node["id"] = [1, 2]
    node["u_rated"] = math.sqrt(3) * voltage_v
    line = pgm.initialize_array("input", "line", 1)
    line["id"] = [3]
    line["from_node"], line["to_node"] = [1], [2]
    line["from_status"], line["to_status"] = [1], [1]
    line["r1"], line["x1"], line["c1"], line["tan1"] = resistance_ohm, reactance_ohm, 0, 0
    line["i_n"] = 1000
    load = pgm.initialize_array("input", "sym_load", 1)
    load["id"], load["node"], load["status"] = [4], [2], [1]
    load["type"] = [pgm.LoadGenType.const_current]
    apparent = 3 * voltage_v * load_a
    load["p_specified"] = apparent * power_factor
    load["q_specified"] = apparent * math.sqrt(1 - power_factor**2)
    source = pgm.initialize_array("input", "source", 1)
    source["id"], source["node"], source["status"] = [5], [1], [1]
    # A source next to infinitely strong, so that the drop is the line's alone.
    source["u_ref"], source["sk"] = [1.0], [1e20]
    model = pgm.PowerGridModel({"node": node, "line": line, "sym_load": load, "source": source})
    result = model.calculate_power_flow(
        calculation_method=pgm.CalculationMethod.newton_raphson, error_tolerance=1e-12
    )
    return voltage_v - float(result["node"]["u"][1]) / math.sqrt(3)


@pytest.mark.source("power-grid-model, Newton-Raphson load flow with a constant-current load")
@pytest.mark.parametrize(
    "voltage_v, load_a, ohm_per_kft, reactance_ohm_per_kft, length_ft",
    [
        pytest.param(240, 48, 0.49, 0.064, 45, id="48 A on 6 AWG in steel, 45 ft"),
        pytest.param(240, 32, 0.78, 0.052, 150, id="32 A on 8 AWG in PVC, 150 ft"),
        pytest.param(208, 40, 0.49, 0.051, 200, id="40 A on 6 AWG, 208 V, 200 ft"),
        pytest.param(240, 80, 0.25, 0.059, 400, id="80 A on 3 AWG in steel, 400 ft"),
        pytest.param(240, 16, 3.2, 0.054, 250, id="16 A on 12 AWG aluminum, 250 ft"),
        pytest.param(240, 80, 0.052, 0.052, 1500, id="80 A on 250 kcmil, 1500 ft: reactance as large"),
        pytest.param(208, 100, 0.12, 0.055, 900, id="100 A on 1/0 AWG, 900 ft"),
    ],
)
def test_the_drop_is_that_of_a_load_flow(
    voltage_v: float, load_a: float, ohm_per_kft: float, reactance_ohm_per_kft: float, length_ft: float
) -> None:
    resistance, reactance = loop_ohm(ohm_per_kft, length_ft), loop_ohm(reactance_ohm_per_kft, length_ft)
    expected = load_flow_drop_v(voltage_v, load_a, resistance, reactance)
    assert expected > 1, "a case that shows something"
    assert drop_v(voltage_v, load_a, resistance, reactance, 1.0) == pytest.approx(expected, abs=1e-5)


@pytest.mark.source("power-grid-model, Newton-Raphson load flow with a constant-current load")
@pytest.mark.parametrize("power_factor", [0.7, 0.9, 0.99])
def test_the_drop_at_a_power_factor_is_that_of_a_load_flow(power_factor: float) -> None:
    resistance, reactance = loop_ohm(0.31, 200), loop_ohm(0.06, 200)
    expected = load_flow_drop_v(240, 48, resistance, reactance, power_factor)
    assert drop_v(240, 48, resistance, reactance, power_factor) == pytest.approx(expected, abs=1e-5)


@pytest.mark.source("power-grid-model, Newton-Raphson load flow with a constant-current load")
@pytest.mark.parametrize("power_factor", [1.0, 0.9])
def test_the_drop_of_three_phases_is_that_of_a_load_flow(power_factor: float) -> None:
    # The solver's own three-phase line: one conductor's impedance, voltages between lines.
    ohm, reactance = 0.49 * 0.15, 0.064 * 0.15
    phase = load_flow_drop_v(208 / math.sqrt(3), 48, ohm, reactance, power_factor)
    found = drop_v(208, 48, line_ohm(0.49, 150), line_ohm(0.064, 150), power_factor)
    assert found == pytest.approx(math.sqrt(3) * phase, abs=1e-5)


@pytest.mark.source(
    "EC&M voltage-drop article, formula method: 36 kVA, 208 V, 1 AWG aluminum, 80 ft (from memory)"
)
def test_a_published_three_phase_drop() -> None:
    # K = 21.2 ohm-cmil/ft over 83 690 cmil is 0.2533 ohm per 1000 ft; 36 kVA at 208 V are 99.93 A.
    found = drop_v(208, 36_000 / (math.sqrt(3) * 208), line_ohm(21.2 / 83_690 * 1000, 80), 0, 1)
    assert found == pytest.approx(3.51, abs=0.005)


@pytest.mark.source("NEC Handbook commentary after chapter 9, table 9, example 2 (from memory)")
def test_a_published_drop_at_a_power_factor() -> None:
    # 600 kcmil aluminum in PVC: 0.036 and 0.039 ohm per 1000 ft; 270 A, power factor 0.7, 250 ft, 480 V.
    found = drop_v(480, 270, line_ohm(0.036, 250), line_ohm(0.039, 250), 0.7)
    assert found == pytest.approx(6.208, abs=0.01)
    assert drop_percent(found, 480) == pytest.approx(1.29, abs=0.005)


def test_a_current_that_cannot_flow_drops_more_than_there_is() -> None:
    # I X above the source voltage: no load voltage satisfies the phasor diagram.
    assert drop_v(240, 1000, 1, 1, 1) >= 240
    assert drop_percent(drop_v(240, 1000, 1, 1, 1), 240) >= 100


def test_without_reactance_the_drop_is_ohms_law() -> None:
    assert drop_v(240, 48, 0.05, 0, 1) == pytest.approx(2.4)
