"""What is published as different between two editions differs, and nothing else does."""

import csv
import itertools
import tomllib
from pathlib import Path
from typing import Any

import pytest

DATA = Path(__file__).parents[2] / "service" / "branchwright" / "codebook" / "data" / "nec"
EDITIONS = ("nec-2017", "nec-2020", "nec-2023", "nec-2026")
Y17, Y20, Y23, Y26 = EDITIONS


def editions_of(path: Path) -> dict[str, Any]:
    return tomllib.loads(path.read_text(encoding="utf-8"))["editions"]


PROVISIONS = {path.stem: editions_of(path) for path in sorted((DATA / "provisions").glob("*.toml"))}
TABLES = {path.parent.name: editions_of(path) for path in sorted((DATA / "tables").glob("*/about.toml"))}


def values(concept: str, edition: str) -> dict[str, Any] | None:
    """What an edition provides on a concept; None where it has no such provision."""
    record = PROVISIONS[concept].get(edition)
    return None if record is None else record["values"]


def rows(table: str, edition: str) -> list[dict[str, str]]:
    """The rows of a table in an edition, reprints followed; none where it has no such table."""
    record = TABLES[table].get(edition)
    if record is None:
        return []
    while "same_as" in record:
        record = TABLES[table][record["same_as"]]
    with (DATA / "tables" / table / record["rows"]).open(encoding="utf-8", newline="") as lines:
        return list(csv.DictReader(lines))


def column(table: str, edition: str, name: str) -> list[str]:
    return [row[name] for row in rows(table, edition)]


def of_method(edition: str, method: str) -> dict[str, str]:
    (row,) = (row for row in rows("wiring_methods", edition) if row["wiring_method"] == method)
    return row


# Concepts whose values differ, and tables whose rows do, from each edition to the next.
CHANGED_PROVISIONS = {
    (Y17, Y20): {
        "appliance-demand",
        "current-setting",
        "grounding-proportion",
        "hardwired-protection",
        "noncoincident-load",
        "receptacle-protection",
        "setting-label",
        "shared-circuit",
    },
    (Y20, Y23): {
        "appliance-demand",
        "charger-load",
        "current-setting",
        "energy-management-equipment",
        "hardwired-protection",
        "noncoincident-load",
        "rooftop",
    },
    (Y23, Y26): {
        "charger-load",
        "disconnect",
        "emergency-shutoff",
        "energy-management-load",
        "existing-dwelling-load",
        "hardwired-protection",
        "lighting-load",
        "optional-dwelling-load",
        "permanently-wired-protection",
        "qualified-persons",
        "receptacle-listing",
        "receptacle-protection",
        "receptacle-rating",
    },
}
CHANGED_TABLES = {
    (Y17, Y20): {"dwelling_service_sizes", "wiring_methods"},
    (Y20, Y23): {"receptacles", "standard_ratings"},
    (Y23, Y26): {"receptacles"},
}
PAIRS = list(itertools.pairwise(EDITIONS))


@pytest.mark.source(
    "code-change guides and continuing-education pages on articles 110, 120, 210, 220, 240, 250, 310, 338, 625 and 750 "
    "of 2020, 2023 and 2026: these rules changed, none of the others is reported to have"
)
@pytest.mark.parametrize("pair", PAIRS, ids=" to ".join)
def test_exactly_the_reported_rules_changed(pair: tuple[str, str]):
    before, after = pair
    changed = {concept for concept in PROVISIONS if values(concept, before) != values(concept, after)}
    assert changed == CHANGED_PROVISIONS[pair]


@pytest.mark.source(
    "International Residential Code of 2018 and 2021, which reprint the ampacity and correction tables of 2017 and "
    "2020 with the same cells; lesson on the 10 A rating of 2023; trade magazine on 625.44 of 2026; a distributor's "
    "page on Table 310.12 of 2020, new in that edition"
)
@pytest.mark.parametrize("pair", PAIRS, ids=" to ".join)
def test_exactly_the_reported_tables_changed(pair: tuple[str, str]):
    before, after = pair
    assert {name for name in TABLES if rows(name, before) != rows(name, after)} == CHANGED_TABLES[pair]


@pytest.mark.parametrize("table", sorted(TABLES))
def test_rows_stand_in_a_new_file_only_where_they_differ(table: str):
    own = [edition for edition, record in TABLES[table].items() if "rows" in record]
    for one, other in itertools.combinations(own, 2):
        assert rows(table, one) != rows(table, other), (one, other)


@pytest.mark.source("continuing-education lesson on Table 240.6(A): 10 A in 2023, 15 A the least in 2020")
def test_ten_amperes_entered_in_2023():
    for edition in (Y17, Y20):
        assert column("standard_ratings", edition, "rating_a")[0] == "15"
    for edition in (Y23, Y26):
        assert column("standard_ratings", edition, "rating_a")[:2] == ["10", "15"]
    least = {values("branch-circuit-rating", edition)["least_a"] for edition in EDITIONS}
    assert least == {15}, "no charging circuit is a 10 A circuit"


@pytest.mark.source(
    "forum quotations of 625.44(B) of 2017 and 625.44 of 2020, of 625.44(A)(3) of 2023 (60 A at 125/250 V); trade "
    "magazine of November 2025 that prints 625.44(B) of 2026 (30, 50 and 60 A at 125/250 V, 30 and 50 A at 250 V)"
)
def test_receptacles_for_charging_by_edition():
    up_to_50 = {"14-50", "14-30", "6-50", "6-30", "6-20"}
    for edition in (Y17, Y20):
        assert set(column("receptacles", edition, "configuration")) == up_to_50
        assert set(column("receptacles", edition, "printed")) == {"yes"}
    for edition, said in ((Y23, "reported"), (Y26, "yes")):
        printed = {row["configuration"]: row["printed"] for row in rows("receptacles", edition)}
        assert printed == {**dict.fromkeys(up_to_50, "yes"), "14-60": said}


@pytest.mark.source(
    "NEC 250.130(C) and 406.4: 10-30 and 10-50 have no grounding contact, for existing ranges only"
)
def test_receptacles_without_a_grounding_contact_are_in_no_edition():
    for edition in EDITIONS:
        assert not {"10-30", "10-50"} & set(column("receptacles", edition, "configuration"))


@pytest.mark.source(
    "forum report of a state's chief engineer on 2017; continuing-education lesson on 625.42 of 2023: 2020 fixed in "
    "place only, 2023 cord-connected as well; forum quotation of 625.42(B) and 750.30(C)(3) of 2023"
)
def test_adjusted_settings_by_edition():
    counts, access, fixed = (
        {e: values("current-setting", e)[k] for e in EDITIONS} for k in ("counts", "access", "fixed_only")
    )
    assert counts == {Y17: "read-two-ways", Y20: "yes", Y23: "yes", Y26: "yes"}
    assert [access[edition] for edition in (Y20, Y23, Y26)] == ["any", "restricted", "restricted"]
    assert [fixed[edition] for edition in (Y20, Y23, Y26)] == ["yes", "no", "no"]
    assert Y17 not in PROVISIONS["setting-label"], "2017 has no word on the label"
    assert [values("setting-label", edition)["label"] for edition in (Y20, Y23, Y26)] == ["yes"] * 3


@pytest.mark.source("forum quotation of 625.43 of 2023; continuing-education page on 625.43 of 2026")
def test_disconnecting_means_by_edition():
    threshold = {"above_a": 60, "above_v_to_ground": 150, "hardwired_only": "no"}
    for edition in (Y17, Y20, Y23):
        assert values("disconnect", edition) == threshold
        assert values("emergency-shutoff", edition) == {"applies": "no"}
    assert values("disconnect", Y26) == {"above_a": 0, "above_v_to_ground": 0, "hardwired_only": "yes"}
    assert values("emergency-shutoff", Y26) == {"applies": "yes", "dwellings_exempt_up_to_units": 2}


@pytest.mark.source(
    "TIA 17-2 as quoted in a forum (2017: single-phase, 150 V to ground, 50 A); trade quiz of February 2021 (2020: "
    "all receptacles); copies of the second draft of 625.54 of 2026 (150 V to ground)"
)
def test_protection_of_receptacles_by_edition():
    assert [values("receptacle-protection", edition) for edition in EDITIONS] == [
        {"up_to_a": 50, "up_to_v_to_ground": 150},
        {},
        {},
        {"up_to_v_to_ground": 150},
    ]


@pytest.mark.source(
    "forum quotation of 210.8(F) of 2020; code-change page on 2023; continuing-education page on 2026: 60 A, and at "
    "garages and accessory buildings instead of in them"
)
def test_protection_of_hardwired_chargers_by_edition():
    covered = {
        edition: {
            place
            for place in ("outdoors", "garage", "accessory_building", "indoors")
            if record[place] == "yes"
        }
        for edition in EDITIONS
        if (record := values("hardwired-protection", edition))
    }
    assert covered == {
        Y17: set(),
        Y20: {"outdoors"},
        Y23: {"outdoors", "garage", "accessory_building"},
        Y26: {"outdoors"},
    }
    assert [values("hardwired-protection", edition)["up_to_a"] for edition in (Y20, Y23, Y26)] == [50, 50, 60]
    assert {values("hardwired-protection", edition)["up_to_v_to_ground"] for edition in EDITIONS} == {150}
    for edition in (Y17, Y20, Y23):
        assert values("permanently-wired-protection", edition) == {"applies": "no"}
    assert values("permanently-wired-protection", Y26) == {"applies": "yes", "up_to_v_to_ground": 150}


@pytest.mark.source(
    "continuing-education page on 625.44 of 2026; trade magazine of November 2025; three reports of 625.4"
)
def test_what_is_new_in_2026():
    for edition in (Y17, Y20, Y23):
        assert values("receptacle-listing", edition) == {"applies": "no"}
        assert values("receptacle-rating", edition)["equal_only"] == "no"
        assert values("qualified-persons", edition) == {"applies": "no"}
    assert values("receptacle-listing", Y26) == {"applies": "yes", "from_a": 30}
    assert values("receptacle-rating", Y26) == {"factor": 1.0, "equal_only": "yes"}
    assert values("qualified-persons", Y26) == {"applies": "yes"}


@pytest.mark.source(
    "guide to 250.122(B) of 2017, text and paraphrase; trade magazine of April 2022 on 2020: other than as required in "
    "310.15(B) or (C)"
)
def test_growth_of_the_grounding_conductor_by_edition():
    counts = [values("grounding-proportion", edition)["counts_correction"] for edition in EDITIONS]
    assert counts == ["read-two-ways", "no", "no", "no"]
    assert {values("grounding-proportion", edition)["near_miss_percent"] for edition in EDITIONS} == {0.1}


@pytest.mark.source("continuing-education pages on rooftops of 2017 and 2020 (7/8 in) and of 2023 (3/4 in)")
def test_rooftop_clearance_by_edition():
    for edition in EDITIONS:
        record = values("rooftop", edition)
        assert (record["clearance_in"], record["adder_c"]) == (7 / 8, 33)
        assert record.get("clearance_smaller_in") == (None if edition in (Y17, Y20) else 3 / 4)
        # 60 degF of difference, the other figure that the section prints.
        assert record["adder_c"] * 9 / 5 == pytest.approx(60, abs=1)


@pytest.mark.source(
    "trade magazine's answer on 330.80(C) of 2020; copy of 338.10(B)(4)(a); a state's amendment of 320.80(A) of 2023: "
    "more than two cables. 334.80 and 340.10(4) in every edition"
)
def test_bundles_in_thermal_insulation_by_edition():
    for edition in EDITIONS:
        bundled = {row["wiring_method"]: row["bundle_count"] for row in rows("wiring_methods", edition)}
        named = {method for method, count in bundled.items() if count}
        assert named == {"nm-b", "uf-b"} | (set() if edition == Y17 else {"se", "mc", "ac"})
        assert {bundled[method] for method in named} == {"2"}


def test_between_2017_and_2020_the_wiring_methods_differ_in_nothing_else():
    apart = {"bundle_count", "bundle_section", "sizes_section"}
    for method in column("wiring_methods", Y17, "wiring_method"):
        before, after = of_method(Y17, method), of_method(Y20, method)
        differing = {name for name in before if before[name] != after[name]}
        assert differing <= (apart if method in {"se", "mc", "ac"} else set()), method
    assert (of_method(Y17, "se")["sizes_section"], of_method(Y20, "se")["sizes_section"]) == (
        "310.106(A)",
        "310.3(A)",
    )


@pytest.mark.source(
    "continuing-education pages on 338.10(B)(4) of 2017 and 2020: 2017 brought the cap for small sizes"
)
def test_service_entrance_cable_in_insulation_is_the_same_from_2017_on():
    for edition in EDITIONS:
        row = of_method(edition, "se")
        assert (row["insulated_cap_c"], row["insulated_cap_up_to"]) == ("60", "10 AWG")


@pytest.mark.source(
    "NEC 625.41, 210.19(A), 110.14(C)(1), 240.4(B), 310.14(A)(2), 310.15(C)(1): the same in all four"
)
def test_figures_that_no_edition_changed():
    unchanged = {
        ("continuous-load", "factor"): 1.25,
        ("conductor-continuous-load", "factor"): 1.25,
        ("conductor-actual-load", "factor"): 1.0,
        ("termination-temperature", "circuit_up_to_a"): 100,
        ("termination-temperature", "unmarked_up_to_c"): 60,
        ("termination-temperature", "unmarked_above_c"): 75,
        ("next-size-up", "up_to_a"): 800,
        ("short-length-exception", "longest_ft"): 10,
        ("short-length-exception", "greatest_percent"): 10,
        ("nipple", "longest_in"): 24,
        ("nipple", "fill_percent"): 60,
        ("bundling", "longest_in"): 24,
        ("voltage-drop", "percent"): 3,
    }
    for (concept, name), figure in unchanged.items():
        assert {values(concept, edition)[name] for edition in EDITIONS} == {figure}, concept
