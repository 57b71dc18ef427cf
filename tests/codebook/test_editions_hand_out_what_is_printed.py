"""The typed look-ups of every edition against the printed tables, which the tests read from the files themselves."""

import tomllib
from math import inf

import pytest
from tests.checks.replay import DATA, PrintedTable, printed_table

from branchwright import codebook
from branchwright.codebook import EditionBook, ProvisionLacking, loader
from branchwright.codebook.records import CodebookFault

EDITIONS = ("nec-2017", "nec-2020", "nec-2023", "nec-2026")
METALS = ("copper", "aluminum")
COLUMNS = (60, 75, 90)
PLACES = ("dry", "damp", "wet")
GROUNDS = ("soil", "dwelling-driveway", "street", "building", "concrete")

pytestmark = [
    pytest.mark.source("the rows files of the codebook, each held against print in test_tables_*"),
    pytest.mark.parametrize("edition", EDITIONS),
]


def book(edition: str) -> EditionBook:
    return codebook.at(edition).edition


def value(found) -> float | str | None:
    return None if found is None else found.value


def cells(table: PrintedTable, column: str, *keys: str) -> dict:
    """The cells of a numeric column that are not empty, by the row's keys."""
    found = {}
    for row in table.rows:
        if row[column] != "":
            key = tuple(row[name] for name in keys)
            found[key if len(key) > 1 else key[0]] = float(row[column])
    return found


def provision_of(concept: str, edition: str) -> dict[str, tuple[float | str, str]]:
    """The values of a provision with their units, in the order of their descriptions."""
    about = tomllib.loads((DATA / "provisions" / f"{concept}.toml").read_text(encoding="utf-8"))
    given = about["editions"][edition]["values"]
    return {name: (given[name], item["unit"]) for name, item in about["values"].items() if name in given}


def test_ampacities(edition: str) -> None:
    printed = printed_table("ampacity", edition)
    expected = {
        (size, metal, column): ampacity_a
        for metal in METALS
        for column in COLUMNS
        for size, ampacity_a in cells(printed, f"{metal}_{column}", "size").items()
    }
    assert book(edition).ampacities_a == expected
    assert {key: cell.value for key, cell in book(edition).ampacities.items()} == expected
    sizes = [row["size"] for row in printed.rows]
    for metal in METALS:
        for column in COLUMNS:
            ladder = book(edition).ampacity_ladders[metal, column]
            assert ladder == [expected.get((size, metal, column), 0) for size in sizes]
    assert len(book(edition).ampacity_ladders) == 6


def test_areas_of_conductors(edition: str) -> None:
    expected = cells(printed_table("conductor_areas", edition), "area_in2", "insulation", "size")
    assert book(edition).conductor_areas_in2 == expected
    assert {key: cell.value for key, cell in book(edition).conductor_areas.items()} == expected
    bare = cells(printed_table("conductor_properties", edition), "area_cmil", "size")
    assert {size: cell.value for size, cell in book(edition).areas_cmil.items()} == bare


def test_the_smallest_size_of_an_area(edition: str) -> None:
    bare = cells(printed_table("conductor_properties", edition), "area_cmil", "size")
    for size, area_cmil in bare.items():
        assert book(edition).size_with_area_at_least(area_cmil) == size
        larger = [other for other, area in bare.items() if area > area_cmil]
        assert book(edition).size_with_area_at_least(area_cmil + 0.5) == (larger[0] if larger else None)


def test_temperatures_of_insulations(edition: str) -> None:
    printed = printed_table("insulations", edition)
    assert {key: cell.value for key, cell in book(edition).insulation_temperatures.items()} == {
        (insulation, place): rating_c
        for place in PLACES
        for insulation, rating_c in cells(printed, f"{place}_c", "insulation").items()
    }


def test_standard_ratings(edition: str) -> None:
    ratings = [float(row["rating_a"]) for row in printed_table("standard_ratings", edition).rows]
    assert list(book(edition).standard_ratings) == ratings
    for below, rating in zip([0.0, *ratings], ratings, strict=False):
        assert value(book(edition).standard_rating_at_least(below + 0.01)) == rating
        assert value(book(edition).standard_rating_at_least(rating)) == rating
    assert book(edition).standard_rating_at_least(ratings[-1] + 0.01) is None


def test_corrections_and_adjustments(edition: str) -> None:
    correction = printed_table("ambient_correction", edition)
    for column in COLUMNS:
        for row in correction.rows:
            expected = float(row[str(column)]) if row[str(column)] else None
            assert value(book(edition).ambient_correction(float(row["up_to_c"]), column)) == expected
    for row in printed_table("conductor_count_adjustment", edition).rows:
        count = int(row["up_to_count"] or 1000)
        assert value(book(edition).count_adjustment(count)) == float(row["percent"])
    for row in printed_table("raceway_fill", edition).rows:
        count = int(row["up_to_conductors"] or 1000)
        assert value(book(edition).fill_percent(count)) == float(row["percent"])


def test_grounding_conductors_and_small_conductors(edition: str) -> None:
    printed = printed_table("grounding_conductor", edition)
    for row in printed.rows:
        for metal in METALS:
            found = book(edition).grounding_conductor(float(row["overcurrent_device_up_to_a"]), metal)
            assert value(found) == (row[metal] or None)
    small = cells(
        printed_table("small_conductor_limits", edition), "greatest_overcurrent_device_a", "material", "size"
    )
    for row in printed_table("ampacity", edition).rows:
        for metal in METALS:
            expected = small.get((metal, row["size"]))
            assert value(book(edition).small_conductor_limit(metal, row["size"])) == expected


def test_impedances(edition: str) -> None:
    expected = {}
    for row in printed_table("conductor_impedance", edition).rows:
        for metal in METALS:
            for raceway in ("pvc", "aluminum", "steel"):
                resistance, reactance = row[f"{metal}_{raceway}"], row[f"reactance_{raceway}"]
                assert value(book(edition).resistance(row["size"], metal, raceway)) == (
                    float(resistance) if resistance else None
                )
                assert value(book(edition).reactance(row["size"], raceway)) == float(reactance)
                if resistance:
                    expected[row["size"], metal, raceway] = (float(resistance), float(reactance))
    assert book(edition).impedances_ohm == expected


def test_supports(edition: str) -> None:
    rows = {(row["wiring_method"], row["trade_size"]): row for row in printed_table("supports", edition).rows}
    sizes = {row["trade_size"] for row in printed_table("raceway_areas", edition).rows}
    for method in book(edition).methods:
        for size in sizes:
            row, found = rows.get((method, size)), book(edition).support(method, size)
            if row is None or "" in (row["within_of_box_in"], row["interval_in"], row["section"]):
                assert found is None
                continue
            within_in, interval_in, citation = found
            assert (within_in, interval_in) == (float(row["within_of_box_in"]), float(row["interval_in"]))
            assert (citation.publication, citation.section) == (edition, row["section"])


def test_supplies(edition: str) -> None:
    for row in printed_table("nominal_voltages", edition).rows:
        system = row["system"]
        assert value(book(edition).voltage_between_lines(system)) == float(row["between_lines_v"])
        assert value(book(edition).voltage_to_ground(system)) == float(row["to_ground_v"])
        assert value(book(edition).greatest_phases(system)) == float(row["phases"])


def test_cover_of_buried_methods(edition: str) -> None:
    rows = {row["under"]: row for row in printed_table("burial_cover", edition).rows}
    assert set(rows) == set(GROUNDS)
    for under, row in rows.items():
        for column in ("cable_in", "rigid_metal_in", "other_raceway_in"):
            metric = column.replace("_in", "_mm")
            for unit, printed in (("in", row[column]), ("mm", row[metric])):
                found = value(book(edition).burial_cover(under, column, unit))
                assert found == (float(printed) if printed else None)
            assert value(book(edition).burial_cover(under, column)) == (
                float(row[column]) if row[column] else None
            )


def test_receptacles(edition: str) -> None:
    rows = {row["configuration"]: row for row in printed_table("receptacles", edition).rows}
    assert list(book(edition).receptacle_configurations) == list(rows)
    for configuration, row in rows.items():
        assert value(book(edition).receptacle_rating(configuration)) == float(row["rating_a"])
        assert book(edition).receptacle_has_neutral(configuration) is (row["neutral"] == "yes")
        assert book(edition).receptacle_is_printed(configuration) is (row["printed"] == "yes")
    assert book(edition).receptacle_rating("no such") is None
    assert book(edition).receptacle_has_neutral("no such") is False
    assert book(edition).receptacle_is_printed("no such") is False


def test_wiring_methods(edition: str) -> None:
    printed = printed_table("wiring_methods", edition)
    sizes = [row["size"] for row in printed_table("ampacity", edition).rows]
    table_section = book(edition).citation_of("wiring_methods").section
    areas = printed_table("raceway_areas", edition)
    assert [row["wiring_method"] for row in printed.rows] == list(book(edition).methods)
    for row in printed.rows:
        found = book(edition).methods[row["wiring_method"]]

        def number(column: str, row: dict[str, str] = row) -> float | None:
            return float(row[column]) if row[column] else None

        def section(citation) -> str | None:
            assert citation is None or citation.publication == edition
            return None if citation is None else citation.section

        assert found.name == row["wiring_method"]
        assert found.is_raceway is (row["kind"] == "raceway")
        assert found.impedance_column == row["impedance_column"]
        assert found.permitted == {place: row[place] for place in PLACES}
        assert section(found.location_citation) == (row["location_section"] or table_section)
        assert found.underground == row["underground"]
        assert section(found.underground_citation) == (row["underground_section"] or table_section)
        assert found.cover_column == (row["cover_column"] or None)
        assert found.is_liquidtight is (row["liquidtight"] == "yes")
        assert value(found.start_c) == number("ampacity_start_c")
        assert found.marked_rating is (row["marked_rating"] == "yes")
        assert value(found.cap_c) == number("ampacity_cap_c")
        assert section(found.ampacity_citation) == (row["ampacity_section"] or None)
        assert value(found.insulated_cap_c) == number("insulated_cap_c")
        assert found.insulated_cap_up_to == (row["insulated_cap_up_to"] or sizes[-1])
        assert section(found.insulated_citation) == (row["insulated_section"] or None)
        assert value(found.bundle_count) == number("bundle_count")
        assert {place: value(cell) for place, cell in found.listed_c.items()} == {
            place: number(f"temperature_{place}_c") for place in PLACES
        }
        assert value(found.ambient_limit_c) == number("ambient_limit_c")
        assert section(found.temperature_citation) == (row["temperature_section"] or None)
        assert found.made == {
            metal: (row[f"{metal}_smallest"], row[f"{metal}_largest"]) if row[f"{metal}_smallest"] else None
            for metal in METALS
        }
        assert section(found.sizes_citation) == (row["sizes_section"] or None)
        made = {
            each["trade_size"]: float(each["area_in2"])
            for each in areas.rows
            if each["wiring_method"] == row["wiring_method"] and each["area_in2"]
        }
        assert found.areas_in2 == made
        assert {size: cell.value for size, cell in found.areas.items()} == made


def test_provisions(edition: str) -> None:
    found = loader.provisions(edition)
    assert list(found) == sorted(found)
    for concept, provision in found.items():
        printed = provision_of(concept, edition)
        assert book(edition).provision(concept) == provision
        assert book(edition).citation_of(concept) == provision.citation
        assert provision.citation.publication == edition
        assert {name: (cell.value, cell.unit) for name, cell in provision.values.items()} == printed
        assert [column.name for column in provision.columns] == list(printed)
        assert [column.unit for column in provision.columns] == [unit for _, unit in printed.values()]
        for name, (content, _) in printed.items():
            if isinstance(content, str):
                assert provision.says(name) is (content == "yes")
                assert name not in provision.numbers
            else:
                assert type(provision.number(name)) is float
                assert provision.number(name) == provision.limit(name) == content
        for name in provision.optional - set(printed):
            assert provision.limit(name) == inf
        with pytest.raises(KeyError):
            provision.number("no such")


def test_citations_and_what_there_is_not(edition: str) -> None:
    for name, table in loader.tables(edition).items():
        assert book(edition).citation_of(name) == table.citation
        assert (table.citation.publication, table.name) == (edition, name)
    with pytest.raises(ProvisionLacking) as lacking:
        book(edition).citation_of("no-such-concept")
    # A finding says it to the reader.
    assert str(lacking.value) == f"{edition} has no provision on no-such-concept."
    with pytest.raises(CodebookFault, match="no_such_table"):
        book(edition)._table("no_such_table")
