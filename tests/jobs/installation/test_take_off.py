"""Quantities against what one counts by hand from the design and the drawing."""

import pytest
from tests.checks.circuits import Json, designed
from tests.jobs.installation.estimates import (
    NO_WASTE,
    by_key,
    circuit,
    estimated,
    findings,
    quantities,
    request,
    segment,
)

BY_HAND = "counted by hand from the design of the same circuit; waste and ends are common practice, no source"
SUPPORTS = "NFPA 70:2023, 358.30(A): within 3 ft of each box, then every 10 ft; 334.30: 12 in and 4.5 ft"


@pytest.mark.source(BY_HAND)
def test_a_straight_run_of_tubing() -> None:
    """40 ft of EMT at 48 A: 6 AWG on 60 A, 10 AWG to ground (table 250.122), trade size 3/4."""
    answer = estimated(request(segment(40)))
    assert quantities(answer) == {
        "breaker/60 A/2-pole": 1,
        "conductor/copper/THWN-2/6 AWG": 80,
        "conductor/copper/THWN-2/10 AWG": 40,
        "raceway/emt/3/4": 4,
        "coupling/emt/3/4": 3,
        "connector/emt/3/4": 2,
        "strap/emt/3/4": 5,
    }
    assert quantities(answer, "labour") == {
        "breaker": 1,
        "charger/hardwired": 1,
        "pull/6 AWG": 0.8,
        "pull/10 AWG": 0.4,
        "raceway/emt/3/4": 0.4,
        "commissioning": 1,
    }
    assert answer["hours"]["low"] == pytest.approx(
        0.3 + 1 + 0.8 * 1.2 + 0.4 * 0.79 + 0.4 * 4 + 0.5, abs=0.011
    )


@pytest.mark.source(BY_HAND)
def test_waste_and_ends() -> None:
    """10 % of 40 ft and 8 ft of ends: 52 ft a conductor; 44 ft of raceway are five sticks; 20 % of 5 straps is one."""
    waste = {
        "cable_percent": 10,
        "cable_ends": {"value": 8, "unit": "ft"},
        "raceway_percent": 10,
        "fittings_percent": 20,
        "consumables_percent": 0,
    }
    found = quantities(estimated(request(segment(40), waste=waste)))
    assert found["conductor/copper/THWN-2/6 AWG"] == 104
    assert found["raceway/emt/3/4"] == 5
    assert found["coupling/emt/3/4"] == 4  # 3 and 20 % of them
    assert found["strap/emt/3/4"] == 6


@pytest.mark.source("the international foot is 0.3048 m exactly (NIST SP 811)")
def test_metres_are_converted_exactly() -> None:
    """12.192 m are 40 ft; the same run in either unit takes the same, and a price per metre gets metres."""
    metric = segment(40) | {"length": {"value": 12.192, "unit": "m"}}
    assert quantities(estimated(request(metric))) == quantities(estimated(request(segment(40))))
    price = {"unit": "m", "low": "1", "likely": "1", "high": "1"}
    stick = {"unit": "3 m", "low": "1", "likely": "1", "high": "1"}
    book = {
        "name": "Metric",
        "currency": "USD",
        "dated": "2026-01-31",
        "prices": {"conductor/copper/THWN-2/6 AWG": price, "raceway/emt/3/4": stick},
    }
    found = by_key(estimated(request(metric, price_book=book)))
    assert found["conductor/copper/THWN-2/6 AWG"]["quantity"] == 24.384
    assert found["conductor/copper/THWN-2/6 AWG"]["amount"]["likely"] == "24.38"
    # 12.192 m are five sticks of 3 m, which four couplings join.
    assert found["raceway/emt/3/4"]["quantity"] == 5
    assert found["coupling/emt/3/4"]["quantity"] == 4


@pytest.mark.source(SUPPORTS)
@pytest.mark.parametrize(
    ("feet", "straps"),
    [(1, 1), (6, 1), (6.1, 2), (16, 2), (16.1, 3), (26, 3), (40, 5), (100, 11)],
)
def test_straps_of_tubing(feet: float, straps: int) -> None:
    found = quantities(estimated(request(segment(feet))))
    # Up to 24 in a raceway is a nipple, which is filled more and smaller.
    assert found["strap/emt/1/2" if feet <= 2 else "strap/emt/3/4"] == straps


@pytest.mark.source(SUPPORTS)
def test_straps_and_connectors_of_a_cable_in_two_segments() -> None:
    """Two segments of NM-B are one cable: two connectors, one length; 2 ft + 4.5 ft spans: 20 ft have 5 straps."""
    cable = segment(20, wiring_method="nm-b")
    found = quantities(estimated(request(cable, cable)))
    assert found["cable/nm-b/copper/4 AWG/2-conductor"] == 40
    assert found["connector/nm-b"] == 2
    assert found["strap/nm-b"] == 2 * (1 + 4)
    assert not [key for key in found if key and key.startswith(("box/", "splice/", "conductor/", "raceway/"))]


@pytest.mark.source(BY_HAND)
def test_a_cable_that_goes_on_as_conductors_is_spliced_in_a_box() -> None:
    found = quantities(estimated(request(segment(20, wiring_method="nm-b"), segment(10))))
    assert found["box/splice"] == 1
    assert found["splice/copper/4 AWG"] == 2
    assert found["splice/copper/10 AWG"] == 1
    assert found["conductor/copper/THWN-2/4 AWG"] == 20


@pytest.mark.source(BY_HAND)
def test_conductors_run_through_raceways_that_follow_each_other() -> None:
    """EMT and PVC: one piece of conductor with one pair of ends; a disconnect between them makes it two."""
    ends = {**NO_WASTE, "cable_ends": {"value": 10, "unit": "ft"}}
    two = (segment(20), segment(20, wiring_method="pvc-40"))
    assert quantities(estimated(request(*two, waste=ends)))["conductor/copper/THWN-2/6 AWG"] == 2 * 50
    asked = request(*two, waste=ends)
    marked = {"temperature_rating_c": 75, "materials": ["copper"]}
    point = {"after_segment": 0, "kind": "disconnect", "rating_a": 60, "terminals": marked}
    asked["circuit"]["points"] = [point]
    found = quantities(estimated(asked))
    assert found["conductor/copper/THWN-2/6 AWG"] == 2 * 60
    assert found["disconnect/60 A/2-pole"] == 1


@pytest.mark.source("NFPA 70:2023, table 300.5(A): 18 in over nonmetallic raceways in soil; by hand")
def test_a_trench_is_as_deep_as_its_cover() -> None:
    buried = segment(30, wiring_method="pvc-40", location="wet", underground={"under": "soil"})
    trench = {"surface": "soil", "by": "hand"}
    answer = estimated(request(buried, trench=trench))
    assert quantities(answer)["trench/soil/hand/18 in"] == 30
    # 30 ft are 9.144 m.
    assert quantities(answer, "labour")["trench/soil/hand/18 in"] == 0.9144
    assert quantities(answer)["elbow/pvc-40/3/4"] == 2
    assert "strap/pvc-40/3/4" not in quantities(answer)
    deeper = segment(
        30,
        wiring_method="pvc-40",
        location="wet",
        underground={"under": "soil", "cover": {"value": 0.6, "unit": "m"}},
    )
    assert quantities(estimated(request(deeper, trench=trench)))["trench/soil/hand/24 in"] == 30
    unknown = estimated(request(buried))
    assert findings(unknown)["estimate-trench"]["outcome"] == "undetermined"
    assert by_key(unknown)[None]["quantity"] == 30
    assert unknown["totals"]["is_complete"] is False


@pytest.mark.source("common practice, no source: finished walls take 1.2 to 1.5 times as long")
def test_a_condition_lengthens_the_work_along_the_run_alone() -> None:
    of_open = estimated(request(segment(40)))
    walls = estimated(
        request(segment(40), site={"segments": [{"segment": 0, "condition": "finished-walls"}]})
    )
    opened, closed = by_key(of_open, "labour"), by_key(walls, "labour")
    run = closed["raceway/emt/3/4"]["hours"]
    assert [run[end] for end in ("low", "high")] == pytest.approx(
        [opened["raceway/emt/3/4"]["hours"]["low"] * 1.2, opened["raceway/emt/3/4"]["hours"]["high"] * 1.5]
    )
    assert closed["pull/6 AWG"]["hours"] == opened["pull/6 AWG"]["hours"]
    assert quantities(of_open) == quantities(walls)


@pytest.mark.source(BY_HAND)
def test_what_is_ordered_is_counted_once() -> None:
    ordered = {
        "charger": "by-contractor",
        "energy_management": True,
        "meter_socket": True,
        "submeter": True,
        "panel": {"rating_a": 200},
        "permit": True,
        "paperwork": True,
        "load_calculation": True,
    }
    site = {
        "segments": [{"segment": 0, "condition": "open", "elbows": 2, "pull_points": 1}],
        "travel": {"distance": {"value": 10, "unit": "mi"}, "trips": 3},
        "wall_patches": 2,
    }
    answer = estimated(request(segment(40), supplies=ordered, site=site))
    found = quantities(answer)
    expected = {
        "charger/48 A/hardwired": 1,
        "energy-management": 1,
        "current-transformer": 2,
        "meter-socket/100 A/single-phase": 1,
        "submeter/100 A/single-phase": 1,
        "panel/200 A/single-phase": 1,
        "wall-patch": 2,
        "elbow/emt/3/4": 2,
        "conduit-body/emt/3/4": 1,
    }
    assert {key: found[key] for key in expected} == expected
    assert quantities(answer, "fee") == {"permit": 1, "travel": 30}
    labour = quantities(answer, "labour")
    assert {"permit", "inspection", "paperwork", "load-calculation", "travel", "panel"} <= set(labour)
    assert labour["travel"] == 30
    stated = {"after_segment": 0, "kind": "meter-socket", "rating_a": 200}
    asked = request(segment(40), supplies={"meter_socket": True})
    asked["circuit"]["points"] = [stated]
    sockets = {key: count for key, count in quantities(estimated(asked)).items() if key and "meter-s" in key}
    assert sockets == {"meter-socket/200 A/single-phase": 1}


@pytest.mark.source(
    "NFPA 70:2023, 210.8(F) and 625.54: a receptacle for charging has ground-fault protection"
)
def test_a_receptacle_with_its_box_cover_and_breaker() -> None:
    asked = request(segment(40))
    asked["circuit"]["charger"] = {
        "charging_current_a": 40,
        "rated_current_a": 40,
        "connection": {
            "kind": "receptacle",
            "configuration": "14-50",
            "listed_for_ev_charging": True,
            "terminals": {"temperature_rating_c": 75, "materials": ["copper"]},
        },
    }
    asked["circuit"]["premises"]["charger_location"] = "outdoors"
    found = quantities(estimated(asked))
    expected = {
        "breaker/50 A/2-pole/ground-fault": 1,
        "receptacle/14-50/listed-for-ev-charging": 1,
        "box/receptacle": 1,
        "receptacle-cover/outdoors": 1,
        # A 14-50 has a neutral: three insulated conductors of 8 AWG.
        "conductor/copper/THWN-2/8 AWG": 120,
    }
    assert {key: found[key] for key in expected} == expected


def test_sizes_are_those_of_the_circuit_design() -> None:
    """The estimate shows the very design that a circuit design answers."""
    of: Json = circuit(segment(140), segment(90, wiring_method="pvc-40", location="wet"))
    assert estimated({"circuit": of})["design"] == designed(of)["design"]
