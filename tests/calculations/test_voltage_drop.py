"""Voltage drop against an independent load flow, and against published figures."""

import math

import power_grid_model as pgm
import pytest

from branchwright.calculations.voltage_drop import drop_percent, drop_v, loop_ohm


def load_flow_drop_v(voltage_v: float, load_a: float, resistance_ohm: float, reactance_ohm: float) -> float:
    """Return the drop that a load flow finds for a single-phase loop.

    The solver models three phases and one of them stands for the loop: with the loop's voltage as phase
    voltage the line-to-line voltage is root three times as much, and the line has the loop's impedance. The
    load keeps its current and its power factor of one whatever its voltage is.
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
    load["p_specified"], load["q_specified"] = 3 * voltage_v * load_a, 0
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
    assert drop_v(voltage_v, load_a, resistance, reactance) == pytest.approx(expected, abs=1e-5)


def test_a_current_that_cannot_flow_drops_more_than_there_is() -> None:
    # I X above the source voltage: no load voltage satisfies the phasor diagram.
    assert drop_v(240, 1000, 1, 1) >= 240
    assert drop_percent(drop_v(240, 1000, 1, 1), 240) >= 100


def test_without_reactance_the_drop_is_ohms_law() -> None:
    assert drop_v(240, 48, 0.05, 0) == pytest.approx(2.4)
