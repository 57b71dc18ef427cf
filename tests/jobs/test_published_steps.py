"""Comparisons against what printed tables come to, by hand."""

import pytest
from tests.checks.circuits import Json
from tests.jobs.comparisons import USUAL_CURRENTS_A, compared, served

TABLES = "NFPA 70:2023: 625.41, 240.6(A), table 310.16 for copper, 240.4(B) and (D), table 250.122, by hand"


def lugs(temperature_c: int = 75) -> Json:
    return {"temperature_rating_c": temperature_c, "materials": ["copper", "aluminum"]}


def request(*run: Json, **more: object) -> Json:
    """A hardwired charger of each current in a house, every terminal marked 75 degC."""
    return {
        "edition": "nec-2023",
        "premises": {"occupancy": "one-family", "charger_location": "indoors"},
        "supply": {"system": "split-phase-120-240"},
        "charger": {"connection": {"kind": "hardwired"}, "terminals": lugs()},
        "breaker": {"terminals": lugs(), "listed_for_panel": True},
        "conductors": {"material": "copper", "insulation": "THWN-2"},
        "run": list(run),
        **more,
    }


def tubing(feet: float = 20) -> Json:
    return {
        "wiring_method": "emt",
        "length": {"value": feet, "unit": "ft"},
        "location": "dry",
        "ambient_c": 30,
        "other_current_carrying_conductors": 0,
    }


def nm_cable(feet: float = 20) -> Json:
    return {**tubing(feet), "wiring_method": "nm-b"}


def rows(answer: Json, *names: str) -> dict[float, tuple[object, ...]]:
    return {row["charging_current_a"]: tuple(row[name] for name in names) for row in answer["rows"]}


SIZES = ("breaker_rating_a", "ungrounded_size", "grounding_size")


@pytest.mark.source(TABLES)
def test_copper_at_75_degc() -> None:
    answer = compared(request(tubing(), currents_a=[80, 64, 48, 40, 32, 24, 16, 12]))
    assert rows(answer, *SIZES) == {
        12: (15, "14 AWG", "14 AWG"),
        16: (20, "12 AWG", "12 AWG"),
        24: (30, "10 AWG", "10 AWG"),
        32: (40, "8 AWG", "10 AWG"),
        40: (50, "8 AWG", "10 AWG"),
        48: (60, "6 AWG", "10 AWG"),
        64: (80, "4 AWG", "8 AWG"),
        80: (100, "3 AWG", "8 AWG"),
    }


@pytest.mark.source(
    TABLES + "; 334.80 keeps nonmetallic-sheathed cable within the 60 degC column, 2 AWG at most"
)
def test_nonmetallic_cable() -> None:
    answer = compared(request(nm_cable(), currents_a=[24, 32, 40, 48, 56, 64, 72, 80]))
    assert rows(answer, *SIZES) == {
        24: (30, "10 AWG", "10 AWG"),
        32: (40, "8 AWG", "10 AWG"),
        40: (50, "6 AWG", "10 AWG"),
        48: (60, "4 AWG", "10 AWG"),
        56: (70, "4 AWG", "8 AWG"),
        64: (80, "3 AWG", "8 AWG"),
        72: (90, "2 AWG", "8 AWG"),
        80: (None, None, None),
    }
    assert answer["rows"][-1]["failed_rules"] == ["cable-size"]
    assert rows(answer, "mark") == {
        24: ("last current before 8 AWG conductors and a 40 A breaker",),
        32: ("last current before 6 AWG conductors and a 50 A breaker",),
        40: ("last current before 4 AWG conductors and a 60 A breaker",),
        48: (None,),
        56: ("last current before 3 AWG conductors, a disconnecting means and an 80 A breaker",),
        64: ("last current before 2 AWG conductors and a 90 A breaker",),
        72: ("last current that these facts allow",),
        80: (None,),
    }


@pytest.mark.source(
    TABLES + "; chapter 9, tables 1, 4 and 5 for the tubing; 625.43 for the disconnecting means"
)
def test_each_change_of_a_step_with_its_rule() -> None:
    # 2 x 0.0366 + 0.0211 = 0.0943 in2 are 31 percent of trade size 1/2 (0.304 in2), 2 x 0.0507 + 0.0211 = 0.1225
    # in2 are 40.3 percent; 2 x 0.0824 + 0.0366 = 0.2014 in2 are 37.8 percent of trade size 3/4 (0.533 in2).
    answer = compared(request(tubing(), currents_a=[40, 48, 56, 64]))
    changes = {
        row["charging_current_a"]: [
            (
                change["what"],
                change["segment"],
                change["from"],
                change["to"],
                change["rule"],
                change["is_dear"],
            )
            for change in row["changes"]
        ]
        for row in answer["rows"]
    }
    load, ampacity = "overcurrent-continuous-load", "conductor-continuous-load"
    assert changes == {
        40: [],
        48: [
            ("breaker", None, 50, 60, load, False),
            ("ungrounded", None, "8 AWG", "6 AWG", ampacity, True),
            ("raceway", 0, "1/2", "3/4", "raceway-fill", True),
        ],
        56: [
            ("breaker", None, 60, 70, load, False),
            ("ungrounded", None, "6 AWG", "4 AWG", ampacity, True),
            ("grounding", None, "10 AWG", "8 AWG", "grounding-conductor-size", False),
        ],
        64: [
            ("breaker", None, 70, 80, load, False),
            ("disconnect", None, "not-required", "required", "disconnecting-means", True),
        ],
    }
    assert rows(answer, "mark")[40] == (
        "last current before 6 AWG conductors, a raceway of trade size 3/4 and a 60 A breaker",
    )
    assert rows(answer, "mark")[56] == ("last current before a disconnecting means and an 80 A breaker",)


@pytest.mark.source(
    TABLES + "; 250.122(B); chapter 9, table 9: 8 AWG copper in steel conduit has 0.78 ohm per 1000 ft"
)
def test_a_voltage_drop_target_is_the_rule_of_what_it_asks_for() -> None:
    # 32 A over 150 ft and back on 8 AWG: 2 x 0.150 x 0.78 x 32 = 7.5 V, 3.1 percent; on 6 AWG 0.49: 4.7 V.
    answer = compared(request(tubing(150), currents_a=[24, 32], targets={"voltage_drop_percent": 3}))
    (change,) = [item for item in answer["rows"][1]["changes"] if item["what"] == "ungrounded"]
    assert change == {
        "what": "ungrounded",
        "segment": None,
        "from": "8 AWG",
        "to": "6 AWG",
        "rule": "voltage-drop-target",
        "is_dear": True,
    }


@pytest.mark.source("NFPA 70:2023, 250.122(B) and table 250.122; chapter 9, tables 4, 5, 8 and 9, by hand")
def test_a_grown_grounding_conductor_and_its_raceway_may_shrink_with_more_current() -> None:
    # Over 150 ft at most 2.5 percent of 240 V, 6 V: 48 A on 6 AWG (0.49 ohm per 1000 ft) drop 7.1 V, on 4 AWG
    # (0.31) 4.5 V; 56 A on 4 AWG drop 5.2 V. At 48 A the load itself asks for 6 AWG (65 A), so 10 AWG by the 60 A
    # breaker grows: 10 380 x 41 740 / 26 240 = 16 511 cmil, just above 8 AWG. At 56 A it asks for 4 AWG, nothing
    # has grown, and the 70 A breaker asks for 8 AWG. 2 x 0.0824 + 0.0507 = 0.2155 in2 are 40.4 percent of trade
    # size 3/4 (0.533 in2), 2 x 0.0824 + 0.0366 are 37.8 percent.
    answer = compared(request(tubing(150), currents_a=[48, 56], targets={"voltage_drop_percent": 2.5}))
    assert rows(answer, *SIZES) == {
        48: (60, "4 AWG", "6 AWG"),
        56: (70, "4 AWG", "8 AWG"),
    }
    assert [row["raceways"][0]["trade_size"] for row in answer["rows"]] == ["1", "3/4"]
    (raceway,) = [item for item in answer["rows"][1]["changes"] if item["what"] == "raceway"]
    assert (raceway["rule"], raceway["is_dear"]) == ("raceway-fill", False)
    assert answer["rows"][0]["mark"] is None


@pytest.mark.source(
    "NFPA 70:2023, 625.42: an adjusted setting counts where access is restricted, and is labelled"
)
def test_settings_of_a_rated_charger() -> None:
    charger = {
        "rated_current_a": 48,
        "setting_access": "restricted",
        "connection": {"kind": "hardwired"},
        "terminals": lugs(),
    }
    answer = compared(request(tubing(), charger=charger, currents_a=[40, 48, 56]))
    assert rows(answer, "breaker_rating_a", "label_required", "failed_rules", "mark") == {
        40: (
            50,
            True,
            [],
            "last current before 6 AWG conductors, a raceway of trade size 3/4 and a 60 A breaker",
        ),
        48: (60, False, [], "last current that these facts allow"),
        56: (None, None, ["current-setting"], None),
    }
    anyone = compared(
        request(tubing(), charger={**charger, "setting_access": "unrestricted"}, currents_a=[16, 48])
    )
    assert {row["breaker_rating_a"] for row in anyone["rows"]} == {60}


@pytest.mark.source("NFPA 70:2023, 250.122(B); chapter 9, tables 4, 5, 8 and 9, as above")
def test_a_higher_current_may_have_a_circuit_where_a_lower_one_has_none() -> None:
    # Trade size 3/4 as it lies takes the conductors of 56 A, and not the grown grounding conductor of 48 A.
    run = {**tubing(150), "raceway_trade_size": "3/4"}
    answer = compared(request(run, currents_a=[40, 48, 56], targets={"voltage_drop_percent": 2.5}))
    assert rows(answer, "verdict", "failed_rules", "breaker_rating_a") == {
        40: ("no-failure-found", [], 50),
        48: ("fail", ["raceway-fill"], None),
        56: ("no-failure-found", [], 70),
    }
    lowest, _, highest = answer["rows"]
    # What changes is counted from the next lower current that has a circuit.
    assert [(change["what"], change["from"], change["to"]) for change in highest["changes"]] == [
        ("breaker", 50, 70),
        ("ungrounded", "6 AWG", "4 AWG"),
    ]
    assert lowest["mark"] == "last current before 4 AWG conductors and a 70 A breaker"
    assert highest["mark"] is None


@pytest.mark.source(TABLES + "; 12 AWG by the 20 A breaker, 10 AWG by the 30 A one")
def test_a_cable_brings_its_own_grounding_conductor() -> None:
    cable = {**nm_cable(), "cable": {"grounding_size": "10 AWG"}}
    answer = compared(request(cable, currents_a=[16, 24]))
    assert rows(answer, *SIZES) == {16: (20, "12 AWG", "10 AWG"), 24: (30, "10 AWG", "10 AWG")}
    assert "grounding" not in {change["what"] for change in answer["rows"][1]["changes"]}


@pytest.mark.source("The usual settings are common practice, no source; 6 and 80 A: SAE J1772")
def test_the_usual_currents_are_compared_where_none_are_stated() -> None:
    for stated in ({}, {"currents_a": None}):
        answer = compared(request(tubing(), **stated))
        assert [row["charging_current_a"] for row in answer["rows"]] == USUAL_CURRENTS_A
    assert len(served(answer)) == len(USUAL_CURRENTS_A)
    assert answer["rows"][-1]["mark"] is None, "nothing above 80 A was compared"
