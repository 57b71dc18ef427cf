"""Load calculations as they are published: Annex D of the code, magazines, a textbook, ordinances.

Where a published figure drops a fraction of a kilowatt or of an ampere, the check says so: the engine drops fractions
of amperes alone, where the edition lets it. A published error is not reproduced.
"""

from typing import Any

import pytest
from tests.checks.service_capacity.dwellings import (
    D1A,
    D2A,
    D2B,
    THREE_VA,
    asked,
    by,
    calculated,
    demand_of,
    findings,
)

Json = dict[str, Any]

ANNEX_D = "NEC Annex D in the Pocket Guide to the National Electrical Code, 2005 edition, example {}"


@pytest.mark.source(ANNEX_D.format("D1(a)") + "; scan of the 2017 annex")
@pytest.mark.parametrize("edition", THREE_VA)
def test_one_family_dwelling_by_the_standard_method(edition: str) -> None:
    found = by(asked(edition, D1A), "standard")
    assert demand_of(found, "lighting") == 5100
    assert demand_of(found, "cooking") == 8000
    assert found["total_va"] == 18600
    assert found["current_a"] == 77.5
    assert found["rounded_current_a"] == 78
    assert found["neutral_va"] == 14550
    assert found["neutral_current_a"] == 60.625
    assert found["rounded_neutral_current_a"] == 61
    assert found["least_service_rating_a"] == 100


@pytest.mark.source(
    ANNEX_D.format("D1(b)") + ", from memory: 99 A on line A, 104 A on line B, 83 A on the neutral"
)
def test_one_family_dwelling_with_motors() -> None:
    """The annex adds amperes line by line; the engine spreads the loads evenly, and so comes between."""
    dwelling = {
        **D1A,
        "appliances": [
            {
                "name": "disposer",
                "rating_va": 8 * 115,
                "fastened_in_place": True,
                "motor": True,
                "voltage_v": 115,
            },
            {
                "name": "dishwasher",
                "rating_va": 10 * 120,
                "fastened_in_place": True,
                "motor": False,
                "voltage_v": 120,
            },
        ],
        "cooling": [{"rating_va": 6 * 230}, {"rating_va": 12 * 115}],
    }
    found = by(asked("nec-2017", dwelling), "standard")
    assert demand_of(found, "largest-motor") == 0.25 * 12 * 115
    assert 99 <= found["rounded_current_a"] <= 104


@pytest.mark.source(ANNEX_D.format("D2(a)") + "; amperes from memory")
@pytest.mark.parametrize("edition", THREE_VA)
def test_optional_method_with_heating(edition: str) -> None:
    found = by(asked(edition, D2A), "optional-new")
    pooled = [item["connected_va"] for item in found["items"] if item["group"] == "pool"]
    assert sum(pooled) == 29700
    assert demand_of(found, "pool") == 17880
    assert demand_of(found, "heating") == 3600
    assert demand_of(found, "cooling") == 0
    assert found["total_va"] == 21480
    assert found["current_a"] == 89.5
    assert found["rounded_current_a"] == 90
    assert found["neutral_va"] == 15400
    assert found["rounded_neutral_current_a"] == 64


@pytest.mark.source(ANNEX_D.format("D2(b)") + "; 122 A also on a study page for 2017; neutral from memory")
@pytest.mark.parametrize("edition", THREE_VA)
def test_optional_method_with_cooling(edition: str) -> None:
    found = by(asked(edition, D2B), "optional-new")
    pooled = [item["connected_va"] for item in found["items"] if item["group"] == "pool"]
    assert sum(pooled) == 32800
    assert demand_of(found, "pool") == 19120
    assert demand_of(found, "cooling") == 10080
    assert demand_of(found, "heating") == 0
    assert found["total_va"] == 29200
    assert found["rounded_current_a"] == 122
    # Published: 7200 VA of cooking, of 13.1 kW x 55 % = 7.205 kW, and so 14,840 VA for the neutral.
    (cooking,) = [line for line in found["neutral_lines"] if line["group"] == "cooking"]
    assert cooking["connected_va"] == 7205
    assert cooking["demand_va"] == pytest.approx(5040, abs=5)
    assert found["neutral_va"] == pytest.approx(14840, abs=5)
    assert found["rounded_neutral_current_a"] == 62


@pytest.mark.source(
    "NEC Annex D, example D2(c), from memory: 33,200 VA, 19,280 VA, 15,510 VA, 34,790 VA, 145 A"
)
@pytest.mark.parametrize("edition", THREE_VA)
def test_optional_method_with_a_heat_pump(edition: str) -> None:
    dwelling = {
        **D2A,
        "floor_area_ft2": 2000,
        "appliances": [{**D2A["appliances"][0], "rating_va": 4500}, D2A["appliances"][1]],
        "heating": [],
        "cooling": [],
        "heat_pumps": [{"compressor_va": 24 * 240, "supplemental_heat_w": 15000}],
    }
    found = by(asked(edition, dwelling), "optional-new")
    assert sum(item["connected_va"] for item in found["items"] if item["group"] == "pool") == 33_200
    assert demand_of(found, "pool") == 19_280
    assert demand_of(found, "heating") == 15_510
    assert found["total_va"] == 34_790
    assert found["rounded_current_a"] == 145


@pytest.mark.source(
    "Continuing-education page on 220.82 of 2014: 36,400 VA, 20,560 VA, 9750 VA, 30,310 VA, 126 A"
)
@pytest.mark.parametrize("edition", THREE_VA)
def test_optional_method_with_central_heating(edition: str) -> None:
    dwelling = {
        "floor_area_ft2": 2800,
        "ranges": [{"kind": "range", "rating_w": 14_000}],
        "dryers": [{"rating_w": 5000}],
        "appliances": [
            {"rating_va": rating, "fastened_in_place": True, "motor": False} for rating in (3000, 1500)
        ],
        "heating": [{"rating_w": 15_000, "kind": "central"}],
        "cooling": [{"rating_va": 29 * 240}],
    }
    found = by(asked(edition, dwelling), "optional-new")
    assert sum(item["connected_va"] for item in found["items"] if item["group"] == "pool") == 36_400
    assert demand_of(found, "pool") == 20_560
    assert demand_of(found, "heating") == 9750
    assert found["total_va"] == 30_310
    assert found["rounded_current_a"] == 126


@pytest.mark.source(
    "Forum on electrical codes, thread on an examination's question: 6150 VA of lighting, 32,650 VA"
)
@pytest.mark.parametrize("edition", THREE_VA)
def test_standard_method_with_heating_and_a_disposer(edition: str) -> None:
    dwelling = {
        "floor_area_ft2": 2500,
        "ranges": [{"kind": "range", "rating_w": 11_000}],
        "dryers": [{"rating_w": 4500}],
        "appliances": [
            {
                "name": "disposer",
                "rating_va": 800,
                "fastened_in_place": True,
                "motor": True,
                "voltage_v": 120,
            },
            *[
                {"rating_va": 1250, "fastened_in_place": False, "on_own_circuit": True, "motor": False}
                for _ in range(2)
            ],
        ],
        "heating": [{"rating_w": 10_000}],
    }
    found = by(asked(edition, dwelling), "standard")
    assert demand_of(found, "lighting") == 6150
    assert demand_of(found, "dryers") == 5000
    assert demand_of(found, "largest-motor") == 200
    assert found["total_va"] == 32_650


@pytest.mark.source(
    "Forum on electrical codes, thread on chargers and 220.83: D2(b) with one to four chargers of 48 A"
)
@pytest.mark.parametrize("chargers, total_va", [(1, 33_808), (2, 38_416), (3, 43_024), (4, 47_632)])
def test_optional_method_with_pooled_chargers(chargers: int, total_va: float) -> None:
    dwelling = {**D2B, "chargers": [{"charging_current_a": 48}] * chargers}
    request = asked("nec-2023", dwelling, readings={"charger-in-optional-method": "in-the-pool"})
    assert by(request, "optional-new")["total_va"] == total_va
    in_full = by(asked("nec-2023", dwelling), "optional-new")
    assert in_full["total_va"] == 29_200 + chargers * 11_520


@pytest.mark.source(ANNEX_D.format("D6"))
def test_many_ranges_of_one_rating() -> None:
    dwelling = {"floor_area_ft2": 0, "ranges": [{"kind": "range", "rating_w": 16000}] * 24}
    found = by(asked("nec-2017", dwelling), "standard")
    assert demand_of(found, "cooking") == 46_800


@pytest.mark.source(ANNEX_D.format("D6"))
def test_many_ranges_of_unequal_ratings() -> None:
    ratings = [11000] * 5 + [12000] * 2 + [13500] * 20 + [18000] * 3
    dwelling = {"floor_area_ft2": 0, "ranges": [{"kind": "range", "rating_w": rating} for rating in ratings]}
    answer = calculated(asked("nec-2017", dwelling, "standard"))
    (found,) = answer["methods"]
    assert demand_of(found, "cooking") == 49_500
    (average,) = [step for step in answer["steps"] if step["id"].endswith("-average")]
    assert average["value"] == 13.6


@pytest.mark.source("Textbook of residential wiring: one range of 14 kW counts 8.8 kW")
def test_one_large_range() -> None:
    found = by(
        asked("nec-2023", {"floor_area_ft2": 0, "ranges": [{"kind": "range", "rating_w": 14000}]}), "standard"
    )
    assert demand_of(found, "cooking") == 8800


@pytest.mark.source(
    "Electrical Contractor magazine, Branch-Circuit, Feeder and Service Calculations, part LV"
)
@pytest.mark.parametrize("edition", [*THREE_VA, "nec-2026"])
def test_four_water_heaters(edition: str) -> None:
    heater = {"rating_va": 4500, "fastened_in_place": True, "motor": False, "voltage_v": 240}
    dwelling = {"floor_area_ft2": 0, "appliances": [heater] * 4}
    found = by(asked(edition, dwelling), "standard")
    assert demand_of(found, "appliances") == 13_500
    assert (
        demand_of(by(asked(edition, {**dwelling, "appliances": [heater] * 3}), "standard"), "appliances")
        == 13_500
    )


@pytest.mark.source("Municipal ordinance 152.47, example: 5100 W net, 13,100 W with a range of 12 kW")
def test_ordinance_example() -> None:
    dwelling = {**D1A, "dryers": []}
    found = by(asked("nec-2017", dwelling), "standard")
    assert demand_of(found, "lighting") == 5100
    assert found["total_va"] == 13_100


@pytest.mark.source(
    "Municipal ordinance 152.50: prints 750 W for 35 percent of 3000 W, an error, and 3750 W net"
)
def test_published_error_is_not_reproduced() -> None:
    """1000 ft2 at 3 W and two circuits of 1500 W are 6000 W. 35 percent of the second 3000 W are 1050 W."""
    found = by(asked("nec-2017", {"floor_area_ft2": 1000}), "standard")
    first, rest = found["lines"][:2]
    assert first["demand_va"] == 3000
    # The engine counts the laundry circuit, which the ordinance leaves out: 4500 W beyond the first part, not 3000.
    assert rest["connected_va"] == 4500
    assert rest["demand_va"] == 1575
    assert rest["demand_va"] - 0.35 * 1500 == 1050


@pytest.mark.source(
    "Continuing-education lesson on 220.57 of 2023: 5000 VA count 7200, 14,400 VA count 14,400"
)
@pytest.mark.parametrize("nameplate_va, counted_va", [(5000, 7200), (14_400, 14_400)])
def test_least_load_of_a_charger(nameplate_va: float, counted_va: float) -> None:
    dwelling = {"floor_area_ft2": 0, "chargers": [{"nameplate_va": nameplate_va}]}
    assert demand_of(by(asked("nec-2023", dwelling), "standard"), "chargers") == counted_va


@pytest.mark.source(
    "NEC 2026 Annex D15 as quoted in Electrical Contractor magazine: a charger of 50 A has 12,000 VA"
)
def test_charger_of_fifty_amperes() -> None:
    dwelling = {"floor_area_ft2": 0, "chargers": [{"charging_current_a": 50}]}
    assert demand_of(by(asked("nec-2026", dwelling), "standard"), "chargers") == 12_000


@pytest.mark.source(
    "NEC Annex D, example D5(a), on a forum and in an online copy: 10 and 20 ranges on three phases"
)
@pytest.mark.parametrize("ranges, demand_va", [(10, 34_500), (20, 43_500)])
def test_ranges_on_three_phases(ranges: int, demand_va: float) -> None:
    dwelling = {"floor_area_ft2": 0, "ranges": [{"kind": "range", "rating_w": 12000}] * ranges}
    request = asked("nec-2017", dwelling, service={"system": "wye-208y-120", "phases": 3})
    assert demand_of(by(request, "standard"), "cooking") == demand_va


@pytest.mark.source(
    "NEC Annex D, example D4(a), from memory: 840 ft2, 3882 VA without and 11,882 VA with a range"
)
def test_apartment_without_laundry_is_counted_with_one() -> None:
    """The annex's apartments share a laundry; the engine counts a laundry circuit of 1500 VA, 35 percent of it here."""
    dwelling = {"floor_area_ft2": 840, "ranges": [{"kind": "range", "rating_w": 8000}]}
    found = by(asked("nec-2017", dwelling), "standard")
    assert demand_of(found, "lighting") - 0.35 * 1500 == 3882


@pytest.mark.source("NEC Annex D, example D5(b), in an online copy: 18,782 VA at 208 V are 90.3 A")
def test_apartment_on_two_lines_of_a_wye_system() -> None:
    """All of the load is taken between the lines, as the annex does first; its second figure, 87.8 A, is lower."""
    dwelling = {
        "floor_area_ft2": 0,
        "small_appliance_circuits": 2,
        "laundry_circuits": 1,
        "appliances": [{"rating_va": 18_782 - 3000 - 0.35 * 1500, "fastened_in_place": True}],
    }
    request = asked("nec-2017", dwelling, service={"system": "wye-208y-120"})
    found = by(request, "standard")
    assert found["total_va"] == 18_782
    assert found["current_a"] == pytest.approx(90.3, abs=0.05)


@pytest.mark.source(ANNEX_D.format("D1(a)") + ": 78 A call for a service of 100 A")
def test_service_of_the_annex_holds() -> None:
    request = asked("nec-2017", D1A, service={"system": "split-phase-120-240", "rating_a": 100})
    answer = calculated(request)
    assert findings(answer)["service-rating"]["outcome"] == "pass"
    assert findings(answer)["least-service-rating"]["outcome"] == "pass"
    assert answer["verdict"] == "no-failure-found"
