"""Raceway tables and wiring methods against product standards, geometry and the trade's rules of thumb."""

import itertools
from math import pi

import pytest

TRADE_SIZES = ["1/2", "3/4", "1", "1-1/4", "1-1/2", "2"]

# Dimensions in inches by trade size, from memory of the product standards.
EMT_OUTSIDE = (0.706, 0.922, 1.163, 1.510, 1.740, 2.197)
EMT_WALL = (0.042, 0.049, 0.057, 0.065, 0.065, 0.065)
PIPE_OUTSIDE = (0.840, 1.050, 1.315, 1.660, 1.900, 2.375)
RMC_WALL = (0.104, 0.107, 0.126, 0.133, 0.138, 0.146)
IMC_OUTSIDE = (0.815, 1.029, 1.290, 1.638, 1.883, 2.360)
IMC_LEAST_WALL = (0.070, 0.075, 0.085, 0.085, 0.090, 0.095)
IMC_WALL_TOLERANCE = (0.015, 0.015, 0.015, 0.020, 0.020, 0.020)
PVC_40_LEAST_WALL = (0.109, 0.113, 0.133, 0.140, 0.145, 0.154)
PVC_80_LEAST_WALL = (0.147, 0.154, 0.179, 0.191, 0.200, 0.218)
FMC_INSIDE_LIMITS = (
    (0.625, 0.645),
    (0.812, 0.837),
    (1.000, 1.040),
    (1.250, 1.300),
    (1.500, 1.575),
    (2.000, 2.080),
)
LIQUIDTIGHT_INSIDE_LIMITS = (
    (0.622, 0.642),
    (0.820, 0.840),
    (1.041, 1.066),
    (1.380, 1.410),
    (1.575, 1.600),
    (2.020, 2.045),
)


def by_wall(outside: tuple[float, ...], wall: tuple[float, ...]) -> list[float]:
    return [diameter - 2 * thickness for diameter, thickness in zip(outside, wall, strict=True)]


def by_least_wall(
    outside: tuple[float, ...], wall: tuple[float, ...], tolerance: tuple[float, ...]
) -> list[float]:
    return [d - 2 * w - t for d, w, t in zip(outside, wall, tolerance, strict=True)]


def pvc_tolerance(wall: tuple[float, ...]) -> tuple[float, ...]:
    """The wall may be thicker by 12 %, at least 0.020 in; printed to three places."""
    return tuple(max(0.020, round(0.12 * thickness, 3)) for thickness in wall)


INSIDE_DIAMETERS = {
    "emt": by_wall(EMT_OUTSIDE, EMT_WALL),
    "rmc": by_wall(PIPE_OUTSIDE, RMC_WALL),
    "imc": by_least_wall(IMC_OUTSIDE, IMC_LEAST_WALL, IMC_WALL_TOLERANCE),
    "pvc-40": by_least_wall(PIPE_OUTSIDE, PVC_40_LEAST_WALL, pvc_tolerance(PVC_40_LEAST_WALL)),
    "pvc-80": by_least_wall(PIPE_OUTSIDE, PVC_80_LEAST_WALL, pvc_tolerance(PVC_80_LEAST_WALL)),
    "fmc": [sum(limits) / 2 for limits in FMC_INSIDE_LIMITS],
    "lfmc": [sum(limits) / 2 for limits in LIQUIDTIGHT_INSIDE_LIMITS],
    "lfnc-b": [sum(limits) / 2 for limits in LIQUIDTIGHT_INSIDE_LIMITS],
}


def fill_percent(
    conductor_areas, raceway_areas, conductors: list[str], wiring_method: str, trade_size: str
) -> float:
    used = sum(conductor_areas.number("area_in2", insulation="THWN-2", size=size) for size in conductors)
    total = raceway_areas.number("area_in2", wiring_method=wiring_method, trade_size=trade_size)
    return 100 * used / total


def test_every_raceway_has_every_trade_size(raceway_areas):
    methods = list(dict.fromkeys(row["wiring_method"] for row in raceway_areas.rows))
    assert set(methods) == set(INSIDE_DIAMETERS)
    for method in methods:
        sizes = [row["trade_size"] for row in raceway_areas.rows if row["wiring_method"] == method]
        assert sizes == TRADE_SIZES, method


@pytest.mark.source(
    "ANSI C80.3 (EMT), C80.1 (RMC), C80.6 (IMC), UL 651 (PVC), UL 1 (FMC), UL 360 and UL 1660 (liquidtight); "
    "dimensions from memory"
)
@pytest.mark.parametrize("method", sorted(INSIDE_DIAMETERS))
def test_inside_diameter_follows_from_the_product_standard(raceway_areas, method: str):
    printed = raceway_areas.numbers("inside_diameter_in", wiring_method=method)
    assert printed == pytest.approx(INSIDE_DIAMETERS[method], abs=0.0011)


def test_raceway_area_is_that_of_the_circle(raceway_areas):
    for row in raceway_areas.rows:
        diameter = float(row["inside_diameter_in"])
        tolerance = 0.0005 + pi / 2 * diameter * 0.0005
        assert float(row["area_in2"]) == pytest.approx(pi / 4 * diameter**2, abs=tolerance), row


def test_raceway_area_grows_with_trade_size(raceway_areas):
    for method in INSIDE_DIAMETERS:
        areas = raceway_areas.numbers("area_in2", wiring_method=method)
        assert all(lower < upper for lower, upper in itertools.pairwise(areas)), method


def test_thicker_walls_leave_less_room(raceway_areas):
    for size in TRADE_SIZES:
        area = {
            method: raceway_areas.number("area_in2", wiring_method=method, trade_size=size)
            for method in INSIDE_DIAMETERS
        }
        assert area["pvc-80"] < area["pvc-40"] < area["rmc"] < area["imc"], size
        assert area["lfmc"] == area["lfnc-b"], size


@pytest.mark.source("NEC Table 300.1(C): metric designators 16, 21, 27, 35, 41, 53 for trade sizes 1/2 to 2")
def test_metric_designator_is_the_inside_diameter_of_tubing_in_millimetres(raceway_areas):
    inches = raceway_areas.numbers("inside_diameter_in", wiring_method="emt")
    assert [25.4 * diameter for diameter in inches] == pytest.approx([16, 21, 27, 35, 41, 53], abs=0.5)


@pytest.mark.source("common practice, no source: 16 mm is about 5/8 in")
def test_half_inch_tubing_is_about_five_eighths_inside(raceway_areas):
    five_eighths_mm = 25.4 * 5 / 8
    assert five_eighths_mm == pytest.approx(16, abs=0.2)
    diameter = raceway_areas.number("inside_diameter_in", wiring_method="emt", trade_size="1/2")
    assert diameter == pytest.approx(5 / 8, abs=0.01)


@pytest.mark.source("NEC Chapter 9, Table 1; two equal circles in a circle cover 50 % at most, three 64.6 %")
def test_fill_is_below_what_geometry_allows(raceway_fill):
    allowed = [(row["up_to_conductors"], float(row["percent"])) for row in raceway_fill.rows]
    assert allowed == [("1", 53), ("2", 31), ("", 40)]
    assert all(percent < most for (_, percent), most in zip(allowed, (100, 50, 64.6), strict=True))


@pytest.mark.source(
    "common practice, no source: two 6 AWG and a 10 AWG go easily into 3/4 LFNC-B, 23 of 40 %"
)
def test_two_six_and_a_ten_go_easily_into_three_quarter_liquidtight(conductor_areas, raceway_areas):
    used = fill_percent(conductor_areas, raceway_areas, ["6 AWG", "6 AWG", "10 AWG"], "lfnc-b", "3/4")
    assert used == pytest.approx(23, abs=0.5)


@pytest.mark.source("common practice, no source: two 4 AWG and an 8 AWG just go into 3/4 LFNC-B, 37 of 40 %")
def test_two_four_and_an_eight_just_go_into_three_quarter_liquidtight(
    conductor_areas, raceway_areas, raceway_fill
):
    used = fill_percent(conductor_areas, raceway_areas, ["4 AWG", "4 AWG", "8 AWG"], "lfnc-b", "3/4")
    assert used == pytest.approx(37, abs=0.5)
    assert used < raceway_fill.number("percent", up_to_conductors="")


@pytest.mark.source("common practice, no source: three 3 AWG and an 8 AWG go into 1 in EMT")
def test_three_three_and_an_eight_go_into_one_inch_tubing(conductor_areas, raceway_areas, raceway_fill):
    used = fill_percent(conductor_areas, raceway_areas, ["3 AWG", "3 AWG", "3 AWG", "8 AWG"], "emt", "1")
    assert used < raceway_fill.number("percent", up_to_conductors="")


def test_wiring_method_says_what_its_kind_needs(wiring_methods):
    of_the_cable = ("copper_smallest", "copper_largest", "sizes_section")
    of_cables_only = (
        "ampacity_start_c",
        "ampacity_cap_c",
        "aluminum_smallest",
        "insulated_cap_c",
        "insulated_cap_up_to",
        "bundle_count",
    )
    for row in wiring_methods.rows:
        assert row["kind"] in {"raceway", "cable"}, row["wiring_method"]
        assert row["impedance_column"] in {"pvc", "aluminum", "steel"}, row["wiring_method"]
        if row["kind"] == "raceway":
            assert not any(row[c] for c in (*of_cables_only, *of_the_cable)), row
            assert row["marked_rating"] == "no", row
        else:
            assert all(row[c] for c in of_the_cable), row
            assert row["ampacity_start_c"], row
            assert row["liquidtight"] == "no", row


def test_wiring_method_names_the_section_of_every_limit(wiring_methods):
    groups = {
        "location_section": ("dry", "damp", "wet"),
        "underground_section": ("underground",),
        "ampacity_section": ("ampacity_start_c", "ampacity_cap_c"),
        "insulated_section": ("insulated_cap_c", "insulated_cap_up_to"),
        "bundle_section": ("bundle_count",),
        "temperature_section": (
            "temperature_dry_c",
            "temperature_damp_c",
            "temperature_wet_c",
            "ambient_limit_c",
        ),
        "sizes_section": ("copper_smallest", "copper_largest", "aluminum_smallest", "aluminum_largest"),
    }
    for row, (section, columns) in itertools.product(wiring_methods.rows, groups.items()):
        assert bool(row[section]) == any(row[column] for column in columns), (row["wiring_method"], section)
        # Article 338 prints no conductor sizes: the least sizes of conductors stand in for it.
        if row[section] and (row["wiring_method"], section) != ("se", "sizes_section"):
            assert row["article"] in row[section], (row["wiring_method"], section)


USE = ("no", "listed", "yes")
"""From what is never permitted to what always is."""


def test_wetter_is_never_hotter_nor_more_freely_permitted(wiring_methods):
    for row in wiring_methods.rows:
        listed = [float(row[f"temperature_{place}_c"] or "inf") for place in ("dry", "damp", "wet")]
        assert listed == sorted(listed, reverse=True), row["wiring_method"]
        allowed = [USE.index(row[place]) for place in ("dry", "damp", "wet")]
        assert allowed == sorted(allowed, reverse=True), row["wiring_method"]
        assert float(row["ampacity_cap_c"] or 0) <= float(row["ampacity_start_c"] or "inf"), row[
            "wiring_method"
        ]


@pytest.mark.source("NEC 300.5(B): the interior of an enclosure or raceway underground is a wet location")
def test_what_may_be_buried_may_be_wet(wiring_methods, burial_cover):
    for row in wiring_methods.rows:
        assert USE.index(row["underground"]) <= USE.index(row["wet"]), row["wiring_method"]
        assert bool(row["cover_column"]) == (row["underground"] != "no"), row["wiring_method"]
        if row["cover_column"]:
            assert burial_cover.number(row["cover_column"], under="soil") > 0, row["wiring_method"]


def test_a_cap_in_thermal_insulation_is_below_the_start(wiring_methods):
    capped = [row for row in wiring_methods.rows if row["insulated_cap_c"]]
    assert capped
    for row in capped:
        assert float(row["insulated_cap_c"]) < float(row["ampacity_start_c"]), row["wiring_method"]


@pytest.mark.source("NEC 334.80 and 334.104, as quoted in code forums")
def test_nonmetallic_sheathed_cable_starts_at_90_and_ends_at_60(wiring_methods):
    row = wiring_methods.row(wiring_method="nm-b")
    assert (row["ampacity_start_c"], row["ampacity_cap_c"], row["ampacity_section"]) == ("90", "60", "334.80")
    assert (row["copper_smallest"], row["copper_largest"]) == ("14 AWG", "2 AWG")
    assert (row["aluminum_smallest"], row["aluminum_largest"]) == ("12 AWG", "2 AWG")


@pytest.mark.source(
    "NEC 340.80 and 340.104, copies of article 340: 60 degC conductors, 14 AWG copper or 12 AWG aluminum to 4/0; "
    "340.10(1) and (3): direct burial, wet places; 340.10(4): as nonmetallic-sheathed cable by part II of 334"
)
def test_underground_feeder_cable_is_a_60_degree_cable_for_the_ground(wiring_methods):
    row = wiring_methods.row(wiring_method="uf-b")
    assert (row["ampacity_start_c"], row["ampacity_cap_c"], row["marked_rating"]) == ("60", "60", "no")
    assert (row["copper_smallest"], row["copper_largest"]) == ("14 AWG", "4/0 AWG")
    assert (row["aluminum_smallest"], row["aluminum_largest"]) == ("12 AWG", "4/0 AWG")
    assert (row["underground"], row["cover_column"], row["wet"]) == ("yes", "cable_in", "yes")
    assert (row["bundle_count"], row["bundle_section"]) == ("2", "340.10(4) and 334.80")


@pytest.mark.source(
    "NEC 338.10(B)(4)(a), continuing-education pages on 2017 and 2020: 10 AWG and smaller at 60 degC in thermal "
    "insulation, larger ones by their rating; trade magazine of 2008 on article 338: listed from 14 AWG copper and "
    "12 AWG aluminum, outdoors in the sun and wet, above ground"
)
def test_service_entrance_cable_is_capped_in_insulation_when_small(wiring_methods):
    row = wiring_methods.row(wiring_method="se")
    assert (row["insulated_cap_c"], row["insulated_cap_up_to"]) == ("60", "10 AWG")
    assert (row["ampacity_start_c"], row["ampacity_cap_c"], row["marked_rating"]) == ("75", "", "yes")
    assert (row["wet"], row["underground"]) == ("yes", "no")
    assert (row["copper_smallest"], row["aluminum_smallest"]) == ("14 AWG", "12 AWG")


@pytest.mark.source(
    "NEC 330.10(A)(5) and (11), copy of article 330: buried where identified, wet with jacket and wet-rated parts; "
    "330.30(B), copy: 12 in from a box, 6 ft"
)
def test_metal_clad_cable_is_wet_or_buried_only_as_listed(wiring_methods, supports):
    row = wiring_methods.row(wiring_method="mc")
    assert (row["damp"], row["wet"], row["underground"]) == ("yes", "listed", "listed")
    assert (row["insulated_cap_c"], row["ampacity_cap_c"], row["marked_rating"]) == ("", "", "yes")
    assert supports.row(wiring_method="mc")["interval_in"] == str(6 * 12)


@pytest.mark.source(
    "NEC 320.10(3), 320.12(2) and 320.80(A), copies of article 320 and of a state's amendment"
)
def test_armored_cable_stays_dry_and_is_capped_in_insulation(wiring_methods):
    row = wiring_methods.row(wiring_method="ac")
    assert (row["dry"], row["damp"], row["wet"], row["underground"]) == ("yes", "no", "no", "no")
    assert (row["insulated_cap_c"], row["insulated_cap_up_to"]) == ("60", "")
    assert (row["ampacity_start_c"], row["marked_rating"]) == ("75", "yes")


@pytest.mark.source("NEC 352.12(D): 50 degC ambient; UL 651: PVC conduit is for conductors to 90 degC")
@pytest.mark.parametrize("method", ["pvc-40", "pvc-80"])
def test_pvc_conduit_is_limited_in_ambient_and_conductor_temperature(wiring_methods, method: str):
    row = wiring_methods.row(wiring_method=method)
    assert row["ambient_limit_c"] == "50"
    assert {row[f"temperature_{place}_c"] for place in ("dry", "damp", "wet")} == {"90"}


@pytest.mark.source(
    "manufacturers' data sheets for LFNC-B and LFMC: 80 degC dry, 60 degC wet; damp read as wet"
)
@pytest.mark.parametrize("method", ["lfmc", "lfnc-b"])
def test_liquidtight_conduit_is_cooler_where_wet(wiring_methods, method: str):
    row = wiring_methods.row(wiring_method=method)
    assert [row[f"temperature_{place}_c"] for place in ("dry", "damp", "wet")] == ["80", "60", "60"]
    assert (row["liquidtight"], row["wet"], row["underground"]) == ("yes", "yes", "listed")


@pytest.mark.source(
    "metal conduit and tubing set no temperature limit of their own, articles 342, 344, 348, 358"
)
@pytest.mark.parametrize("method", ["emt", "imc", "rmc", "fmc"])
def test_metal_conduit_sets_no_temperature_limit(wiring_methods, method: str):
    row = wiring_methods.row(wiring_method=method)
    assert not any(cell for column, cell in row.items() if column.startswith("temperature"))
    assert (row["liquidtight"], row["impedance_column"]) == ("no", "steel")


@pytest.mark.source("NEC 348.12 as listed by a trade magazine: not in wet locations, not underground")
def test_flexible_metal_conduit_stays_out_of_the_wet(wiring_methods):
    row = wiring_methods.row(wiring_method="fmc")
    assert (row["dry"], row["damp"], row["wet"], row["underground"]) == ("yes", "yes", "no", "no")


def test_every_wiring_method_is_there(wiring_methods):
    assert [row["wiring_method"] for row in wiring_methods.rows] == (
        ["emt", "imc", "rmc", "pvc-40", "pvc-80", "fmc", "lfmc", "lfnc-b", "nm-b", "uf-b", "se", "mc", "ac"]
    )


def test_every_raceway_offered_has_areas(wiring_methods, raceway_areas):
    raceways = {row["wiring_method"] for row in wiring_methods.rows if row["kind"] == "raceway"}
    assert raceways <= {row["wiring_method"] for row in raceway_areas.rows}


def test_every_wiring_method_has_supports(wiring_methods, supports):
    for method in wiring_methods.rows:
        sizes = [
            row["trade_size"] for row in supports.rows if row["wiring_method"] == method["wiring_method"]
        ]
        assert sizes == (TRADE_SIZES if method["kind"] == "raceway" else ["any"]), method["wiring_method"]


def test_support_sections_are_of_the_right_article(supports, wiring_methods):
    # Run as nonmetallic-sheathed cable, these two are supported like it.
    elsewhere = {"uf-b": "340.10(4) and 334.30", "se": "338.10(B)(4) and 334.30"}
    for row in supports.rows:
        article = wiring_methods.row(wiring_method=row["wiring_method"])["article"]
        assert row["section"].startswith(elsewhere.get(row["wiring_method"], f"{article}.30")), row


@pytest.mark.source(
    "NEC 320.30, 330.30, 334.30, 342.30, 344.30, 348.30, 350.30, 352.30, 356.30, 358.30: printed as 0.3, 0.9, 1.4, "
    "1.5, 1.8 and 3 m as well"
)
def test_support_distances_agree_with_their_metric_print(supports):
    metres = {12: 0.3, 36: 0.9, 54: 1.4, 60: 1.5, 72: 1.8, 120: 3.0}
    for row in supports.rows:
        for column in ("within_of_box_in", "interval_in"):
            inches = int(row[column])
            assert inches * 0.0254 == pytest.approx(metres[inches], rel=0.025), row
        assert int(row["within_of_box_in"]) <= int(row["interval_in"]), row


@pytest.mark.source(
    "copies of 330.30, 340.10(4), 348.30 and 356.30; a trade magazine on 334.30; a textbook on 342.30: feet, inches"
)
@pytest.mark.parametrize(
    ("method", "interval_ft", "box_in"),
    [
        ("imc", 10, 36),
        ("rmc", 10, 36),
        ("emt", 10, 36),
        ("fmc", 4.5, 12),
        ("lfmc", 4.5, 12),
        ("lfnc-b", 3, 12),
        ("nm-b", 4.5, 12),
        ("uf-b", 4.5, 12),
        ("se", 4.5, 12),
        ("ac", 4.5, 12),
        ("mc", 6, 12),
    ],
)
def test_supports_are_those_of_the_articles(supports, method: str, interval_ft: float, box_in: int):
    assert set(supports.numbers("interval_in", wiring_method=method)) == {12 * interval_ft}
    assert set(supports.numbers("within_of_box_in", wiring_method=method)) == {box_in}


@pytest.mark.source(
    "NEC Table 352.30 as quoted on public pages: 3 ft to trade size 1, 5 ft to 2, any schedule"
)
@pytest.mark.parametrize("method", ["pvc-40", "pvc-80"])
def test_pvc_is_supported_at_three_or_five_feet(supports, method: str):
    assert supports.numbers("interval_in", wiring_method=method) == [36, 36, 36, 60, 60, 60]
