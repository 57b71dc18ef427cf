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


# Newton metres printed beside the pound-force inches: narrow slot, wide slot, split bolt, other connectors.
NEWTON_METRES = {
    "14 12 10": (2.3, 4.0, 9.0, 8.5),
    "8": (2.8, 4.5, 9.0, 8.5),
    "6 4": (4.0, 5.1, 18.6, 12.4),
    "3": (4.0, 5.6, 31.1, 16.9),
    "2": (4.5, 5.6, 31.1, 16.9),
    "1": (None, 5.6, 31.1, 16.9),
    "1/0 2/0": (None, 5.6, 43.5, 20.3),
    "3/0 4/0": (None, 5.6, 56.5, 28.2),
    "250": (None, 5.6, 73.4, 36.7),
}


@pytest.mark.source("Annex I, Table I.1, newton metres as reprinted in equipment installation guides")
@pytest.mark.parametrize(
    ("gauge", "printed"),
    [(gauge, printed) for band, printed in NEWTON_METRES.items() for gauge in band.split()],
)
def test_torques_are_those_printed_in_newton_metres(
    terminal_torque, gauge: str, printed: tuple[float | None, ...]
):
    row = next(row for row in terminal_torque.rows if row["conductor_up_to"].split(" ")[0] == gauge)
    for cell, newton_metres in zip(list(row.values())[1:], printed, strict=True):
        if newton_metres is None:
            assert cell == ""
        else:
            assert float(cell) * 4.4482216 * 0.0254 == pytest.approx(newton_metres, abs=0.06)


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
