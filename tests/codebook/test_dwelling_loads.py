"""The look-ups for dwellings of every edition against the printed tables, which the tests read from the files."""

import pytest
from tests.checks.replay import printed_table

from branchwright import codebook
from branchwright.codebook import DwellingLoads, loader
from branchwright.codebook.records import CodebookFault

EDITIONS = ("nec-2017", "nec-2020", "nec-2023", "nec-2026")

pytestmark = [
    pytest.mark.source("the rows files of the codebook, each held against print in test_tables_loads"),
    pytest.mark.parametrize("edition", EDITIONS),
]


def loads(edition: str) -> DwellingLoads:
    return codebook.at(edition).edition.dwelling_loads


def value(found) -> float | str | None:
    return None if found is None else found.value


def number(text: str) -> float | None:
    return float(text) if text else None


def counts(rows, key: str) -> list[tuple[int, dict[str, str]]]:
    """The least and the greatest count of each row, a large one for the open row."""
    found, least = [], 1
    for row in rows:
        greatest = int(row[key] or 10_000)
        found += [(least, row), (greatest, row)]
        least = greatest + 1
    return found


def test_parts_of_the_lighting_load(edition: str) -> None:
    rows = printed_table("lighting_demand", edition).rows
    parts = loads(edition).lighting_demand(1e9)
    assert [(value(part.up_to_va), part.percent.value) for part in parts] == [
        (number(row["up_to_va"]), float(row["percent"])) for row in rows
    ]
    # Each part begins where the one before ends.
    assert [part.above_va for part in parts] == [None, *(part.up_to_va for part in parts[:-1])]


def test_a_lighting_load_reaches_into_the_parts_below_it_and_no_other(edition: str) -> None:
    reached = [len(loads(edition).lighting_demand(load)) for load in (0, 3000, 3000.01, 120_000, 120_000.01)]
    assert reached == [1, 1, 2, 2, 3]


def test_dryers(edition: str) -> None:
    for dryers, row in counts(printed_table("dryer_demand", edition).rows, "dryers_up_to"):
        found = loads(edition).dryer_demand(dryers)
        assert found.percent.value == float(row["percent"])
        assert value(found.less_percent_per_dryer) == number(row["less_percent_per_dryer"])
        assert value(found.above_dryers) == number(row["above_dryers"])


def test_cooking_appliances(edition: str) -> None:
    for appliances, row in counts(printed_table("range_demand", edition).rows, "appliances_up_to"):
        found = loads(edition).range_demand(appliances)
        assert found.column_a_percent.value == float(row["under_3_5_kw_percent"])
        assert found.column_b_percent.value == float(row["to_8_75_kw_percent"])
        assert found.demand_kw.value == float(row["demand_kw"])
        assert value(found.demand_kw_per_appliance) == number(row["demand_kw_per_appliance"])


def test_service_sizes(edition: str) -> None:
    if edition == "nec-2017":
        # The table stands in an annex of that edition, not in its body.
        assert "dwelling_service_sizes" not in loader.tables(edition)
        assert loads(edition).service_size(200, "copper") is None
        return
    for row in printed_table("dwelling_service_sizes", edition).rows:
        for metal in ("copper", "aluminum"):
            assert value(loads(edition).service_size(float(row["rating_a"]), metal)) == row[metal]
    for rating_a in (90, 101, 450):
        assert loads(edition).service_size(rating_a, "copper") is None


def test_what_is_handed_out_says_where_it_stands(edition: str) -> None:
    def stands(found, table: str, place: str) -> None:
        assert found.origin == f"codebook:{place}"
        assert found.citation == loader.tables(edition)[table].citation

    first, *_, last = loads(edition).lighting_demand(1e9)
    stands(first.percent, "lighting_demand", "lighting-demand/3000/percent")
    stands(last.percent, "lighting_demand", "lighting-demand//percent")
    stands(loads(edition).dryer_demand(12).percent, "dryer_demand", "dryer-demand/23/percent")
    stands(loads(edition).range_demand(27).demand_kw, "range_demand", "range-demand/30/demand_kw")
    stands(loads(edition).range_demand(99).demand_kw, "range_demand", "range-demand//demand_kw")


@pytest.mark.parametrize("lacking", ["lighting_demand", "dryer_demand", "range_demand"])
def test_an_edition_without_a_demand_table_is_refused(edition: str, lacking: str) -> None:
    tables = {name: table for name, table in loader.tables(edition).items() if name != lacking}
    with pytest.raises(CodebookFault, match=f"Edition {edition} has no table {lacking}"):
        DwellingLoads(edition, tables)
