"""Published load calculations recomputed from the provisions, and what each edition changed of them."""

import tomllib
from pathlib import Path
from typing import Any

import pytest

PROVISIONS = (
    Path(__file__).parents[2] / "service" / "branchwright" / "codebook" / "data" / "nec" / "provisions"
)
EDITIONS = ("nec-2017", "nec-2020", "nec-2023", "nec-2026")
TO_2023 = EDITIONS[:3]


def values(concept: str, edition: str) -> dict[str, Any]:
    about = tomllib.loads((PROVISIONS / f"{concept}.toml").read_text(encoding="utf-8"))
    return about["editions"][edition]["values"]


def by_edition(concept: str, name: str) -> list[Any]:
    return [values(concept, edition).get(name) for edition in EDITIONS]


def circuits_va(edition: str) -> float:
    """The least small-appliance and laundry circuits."""
    return sum(
        record["va_each"] * record["least_circuits"]
        for record in (values("small-appliance-load", edition), values("laundry-load", edition))
    )


def optional_va(edition: str, load_va: float) -> float:
    record = values("optional-dwelling-load", edition)
    rest_va = max(0, load_va - record["first_va"])
    return min(load_va, record["first_va"]) + rest_va * record["rest_percent"] / 100


@pytest.mark.source("Annex D, example D1(a): 1500 ft2, a 12 kW range and a dryer of 5500 VA")
@pytest.mark.parametrize("edition", TO_2023)
def test_standard_calculation_of_annex_d(edition: str):
    lighting_va = 1500 * values("lighting-load", edition)["va_per_ft2"] + circuits_va(edition)
    assert lighting_va == 9000
    dryer_va = max(5500, values("dryer-load", edition)["least_va_each"])
    assert 5100 + 8000 + dryer_va == 18600
    neutral = values("neutral-load", edition)
    on_neutral_va = 8000 * neutral["cooking_percent"] / 100 + dryer_va * neutral["dryer_percent"] / 100
    assert 5100 + on_neutral_va == 14550
    # 60.6 A of neutral is printed as 61; the least service of a one-family dwelling is above the 78 A of load.
    assert values("load-rounding", edition)["dropped_below"] <= 14550 / 240 % 1
    assert values("least-service-rating", edition)["one_family_a"] == 100


@pytest.mark.source(
    "Annex D, example D2(a): general loads of 29 700 VA, five heaters of 9000 VA in all, cooling 1380 VA"
)
@pytest.mark.parametrize("edition", TO_2023)
def test_optional_calculation_of_annex_d_with_heating(edition: str):
    general_va = 1500 * values("optional-dwelling-load", edition)["va_per_ft2"] + circuits_va(edition)
    general_va += 12000 + 2500 + 1200 + 5000
    assert general_va == 29700
    assert optional_va(edition, general_va) == 17880
    conditioning = values("optional-heating-and-cooling", edition)
    assert conditioning["many_units"] <= 5
    heating_va = 9000 * conditioning["many_units_percent"] / 100
    assert max(heating_va, 1380 * conditioning["cooling_percent"] / 100) == 3600
    assert optional_va(edition, general_va) + heating_va == 21480


@pytest.mark.source("Annex D, example D2(b): general loads of 32 800 VA and six coolers of 7 A at 240 V")
@pytest.mark.parametrize("edition", TO_2023)
def test_optional_calculation_of_annex_d_with_cooling(edition: str):
    assert optional_va(edition, 32800) == 19120
    cooling_va = 6 * 7 * 240 * values("optional-heating-and-cooling", edition)["cooling_percent"] / 100
    assert optional_va(edition, 32800) + cooling_va == 29200
    # 13.1 kW at 55 % is printed as 7.2 kW, of which the neutral carries 5040 VA.
    assert 7200 * values("neutral-load", edition)["cooking_percent"] / 100 == 5040


@pytest.mark.source("Annex D, example D6, and a textbook's range of 14 kW: 8.8 kW")
@pytest.mark.parametrize("edition", EDITIONS)
def test_range_above_twelve_kilowatts(edition: str):
    record = values("range-load", edition)
    above_kw = 14 - record["column_c_up_to_kw"]
    assert 8 * (1 + above_kw * record["percent_per_kw"] / 100) == pytest.approx(8.8)
    limits = [record[name] for name in ("column_a_below_kw", "column_b_up_to_kw", "column_c_up_to_kw")]
    assert [record["least_w"] / 1000, *limits, record["greatest_kw"]] == [1.75, 3.5, 8.75, 12, 27]


@pytest.mark.source(
    "trade magazine, part LV of a series on load calculations: four water heaters of 4500 W, 13 500 VA"
)
@pytest.mark.parametrize("edition", EDITIONS)
def test_four_water_heaters(edition: str):
    record = values("appliance-demand", edition)
    assert record["least_count"] == 4
    assert 4 * 4500 * record["percent"] / 100 == 13500


@pytest.mark.source(
    "forum quotations of 220.53 of 2017, 2020 and 2023; manufacturer's code-change guide of 2023"
)
def test_which_appliances_count_by_edition():
    assert by_edition("appliance-demand", "least_w") == [None, 500, 500, 500]
    assert by_edition("appliance-demand", "least_hp") == [None, 0.25, 0.25, 0.25]
    assert by_edition("appliance-demand", "excludes_charger") == ["no", "no", "yes", "yes"]


@pytest.mark.source(
    "continuing-education lesson on 220.57 of 2023: 7200 VA for one of 5000, 14 400 for one of 14 400; engineering "
    "article on 120.57 of 2026"
)
def test_load_of_a_charger_by_edition():
    assert by_edition("charger-load", "basis") == [
        "nameplate",
        "nameplate",
        "greater-of-nameplate-and-least",
        "nameplate-else-least",
    ]
    assert by_edition("charger-load", "least_va") == [None, None, 7200, 7200]
    assert by_edition("charger-load", "least_holds_for") == [None, None, "standard", "standard"]


@pytest.mark.source(
    "trade magazine on the changes of 2026: 2 VA, first 8 kVA; continuing-education pages on 120.13 and Table 120.83"
)
def test_lighting_and_first_parts_by_edition():
    for concept in ("lighting-load", "optional-dwelling-load", "existing-dwelling-load"):
        assert by_edition(concept, "va_per_ft2") == [3, 3, 3, 2], concept
    assert by_edition("optional-dwelling-load", "first_va") == [10000, 10000, 10000, 8000]
    assert by_edition("existing-dwelling-load", "first_va") == [8000, 8000, 8000, 8000]
    for concept in ("optional-dwelling-load", "existing-dwelling-load"):
        assert by_edition(concept, "rest_percent") == [40, 40, 40, 40], concept


@pytest.mark.source("forum threads on 220.60 of 2020 and 2023")
def test_an_omitted_motor_by_edition():
    assert by_edition("noncoincident-load", "smaller_motor") == [
        "neither",
        "motor",
        "motor-or-cooling",
        "motor-or-cooling",
    ]
    assert by_edition("noncoincident-load", "smaller_motor_percent") == [100, 125, 125, 125]


@pytest.mark.source(
    "manufacturer's page on 220.70 and 750.6 of 2023, new in that edition; trade magazine on 120.7 of 2026; 750.30(C) "
    "of 2017 and 2020 from memory"
)
def test_energy_management_by_edition():
    assert by_edition("energy-management-load", "factor") == [1.25] * 4
    assert by_edition("energy-management-load", "least_currents_count") == ["no", "no", "no", "yes"]
    assert by_edition("energy-management-equipment", "listed") == ["no", "no", "yes", "yes"]
    assert by_edition("energy-management-equipment", "restricted_access") == ["no", "no", "yes", "yes"]
    assert by_edition("energy-management-equipment", "fail_safe") == ["yes"] * 4
    assert by_edition("monitored-conductors", "every_ungrounded") == ["yes"] * 4


@pytest.mark.source(
    "220.87, 430.24, 310.12, 705.12(B)(3), 230.42 as quoted in trade pages; 220.61(C) from memory"
)
def test_figures_that_no_edition_changed():
    unchanged = {
        ("measured-demand", "factor"): 1.25,
        ("measured-demand", "year_days"): 365,
        ("measured-demand", "short_days"): 30,
        ("measured-demand", "short_minutes"): 15,
        ("largest-motor", "added_percent"): 25,
        ("neutral-load", "above_a"): 200,
        ("neutral-load", "above_percent"): 70,
        ("neutral-load", "wye_three_wire_reduces"): "no",
        ("optional-heating-and-cooling", "supplemental_percent"): 65,
        ("optional-heating-and-cooling", "few_units_percent"): 65,
        ("optional-heating-and-cooling", "storage_percent"): 100,
        ("existing-dwelling-load", "new_cooling_percent"): 100,
        ("existing-dwelling-load", "new_heating_percent"): 100,
        ("dwelling-service-conductors", "percent"): 83,
        ("dwelling-service-conductors", "from_a"): 100,
        ("dwelling-service-conductors", "to_a"): 400,
        ("busbar-with-backfeed", "percent"): 120,
        ("busbar-with-backfeed", "anywhere_percent"): 100,
        ("busbar-with-backfeed", "backfeed_factor"): 1.25,
        ("charger-on-service", "factor"): 1.25,
        ("least-service-rating", "other_a"): 60,
    }
    for (concept, name), figure in unchanged.items():
        assert by_edition(concept, name) == [figure] * 4, (concept, name)
