"""Receptacles and the tightening torque of terminals."""

import itertools

import pytest


@pytest.mark.source("ANSI/NEMA WD 6: series 6 is 250 V 2-pole 3-wire, series 14 is 125/250 V 3-pole 4-wire")
def test_receptacle_is_what_its_configuration_says(receptacles):
    series = {"6": (250, 2, 3, "no"), "14": (250, 3, 4, "yes")}
    for row in receptacles.rows:
        number, rating = row["configuration"].split("-")
        assert row["rating_a"] == rating
        found = (int(row["voltage_v"]), int(row["poles"]), int(row["wires"]), row["neutral"])
        assert found == series[number], row


def test_receptacle_names_the_section_that_permits_it(receptacles):
    assert all(row["section"].startswith("625.44") for row in receptacles.rows)


@pytest.mark.source("Annex I, Table I.1: newton metres printed beside pound-force inches in equipment guides")
def test_torques_are_those_printed_with_their_metric_twin(terminal_torque):
    newton_metres = {
        20: 2.3,
        25: 2.8,
        35: 4.0,
        40: 4.5,
        45: 5.1,
        50: 5.6,
        75: 8.5,
        80: 9.0,
        110: 12.4,
        150: 16.9,
        165: 18.6,
        180: 20.3,
        250: 28.2,
        275: 31.1,
        325: 36.7,
        385: 43.5,
        500: 56.5,
        650: 73.4,
    }
    columns = [column for column in terminal_torque.rows[0] if column.endswith("_lbf_in")]
    printed = {int(torque) for column in columns for torque in terminal_torque.numbers(column)}
    assert printed == set(newton_metres)
    for torque in printed:
        assert torque * 4.4482216 * 0.0254 == pytest.approx(newton_metres[torque], abs=0.06), torque


def test_torque_never_falls_as_the_conductor_grows(terminal_torque):
    for column in list(terminal_torque.rows[0])[1:]:
        torques = terminal_torque.numbers(column)
        assert all(lower <= upper for lower, upper in itertools.pairwise(torques)), column


def test_a_broad_slot_takes_more_torque_than_a_narrow_one(terminal_torque):
    for row in terminal_torque.rows:
        if row["slotted_narrow_lbf_in"]:
            assert float(row["slotted_narrow_lbf_in"]) < float(row["slotted_wide_lbf_in"]), row
        assert float(row["slotted_wide_lbf_in"]) < float(row["hex_other_lbf_in"]), row


@pytest.mark.source("Annex I, Table I.1 as quoted on a practice page: split bolt 275, others 150 lbf-in")
def test_torque_for_2_awg(terminal_torque):
    row = terminal_torque.row(conductor_up_to="2 AWG")
    assert (row["hex_split_bolt_lbf_in"], row["hex_other_lbf_in"]) == ("275", "150")


def test_torque_covers_every_conductor_size(terminal_torque, ampacity):
    assert [row["conductor_up_to"] for row in terminal_torque.rows] == [row["size"] for row in ampacity.rows]
