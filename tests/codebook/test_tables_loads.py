"""Demand tables against published examples, and the sizes of service conductors against the ampacity table."""

import itertools
from collections.abc import Callable

import pytest

REMEMBERED_AMPACITIES = {
    "copper": {"300": 285, "350": 310, "400": 335, "500": 380, "600": 420},
    "aluminum": {"300": 230, "350": 250, "400": 270, "500": 310, "600": 340},
}
"""A at 75 degC by kcmil: the rows of Table 310.16 that the codebook leaves out, from memory."""


def lighting_va(table, load_va: float) -> float:
    """A load counted part by part."""
    counted, above = 0.0, 0.0
    for row in table.rows:
        up_to = float(row["up_to_va"] or load_va)
        counted += max(0.0, min(load_va, up_to) - above) * float(row["percent"]) / 100
        above = up_to
    return counted


def row_for(rows, key: str, count: int):
    """The first row that reaches the count."""
    return next(row for row in rows if row[key] == "" or int(row[key]) >= count)


def dryer_percent(table, dryers: int) -> float:
    row = row_for(table.rows, "dryers_up_to", dryers)
    if row["less_percent_per_dryer"] == "":
        return float(row["percent"])
    over = dryers - int(row["above_dryers"])
    return float(row["percent"]) - float(row["less_percent_per_dryer"]) * over


def column_c_kw(table, appliances: int) -> float:
    row = row_for(table.rows, "appliances_up_to", appliances)
    return float(row["demand_kw"]) + float(row["demand_kw_per_appliance"] or 0) * appliances


def drops(total: Callable[[int], float], up_to: int) -> list[int]:
    """The counts at which one more lowers the total."""
    return [count for count in range(2, up_to + 1) if total(count) < total(count - 1)]


@pytest.mark.source("Annex D, example D1(a); municipal ordinance 152.47, example; 25 % from memory")
def test_lighting_of_published_dwellings(lighting_demand):
    # 1500 ft2 at 3 VA, two small-appliance circuits and a laundry circuit.
    assert lighting_va(lighting_demand, 9000) == pytest.approx(5100)
    assert lighting_va(lighting_demand, 3000) == 3000
    assert lighting_va(lighting_demand, 120_000) == pytest.approx(3000 + 117_000 * 0.35)
    assert lighting_va(lighting_demand, 120_001) - lighting_va(lighting_demand, 120_000) == pytest.approx(
        0.25
    )


@pytest.mark.source(
    "municipal ordinance 152.50, example: 750 VA for 35 % of 3000, which is 1050: an error in print"
)
def test_a_printed_error_is_not_reproduced(lighting_demand):
    assert lighting_va(lighting_demand, 6000) == pytest.approx(4050)


@pytest.mark.source(
    "two pages that quote rows of Table 220.54: 9, 10, 11 and 12 to 23 dryers; the rest from memory"
)
def test_dryers_by_their_number(dryer_demand):
    percents = {1: 100, 4: 100, 5: 85, 6: 75, 7: 65, 8: 60, 9: 55, 10: 50, 11: 47, 12: 46, 23: 35}
    percents |= {24: 34.5, 30: 31.5, 42: 25.5, 43: 25, 500: 25}
    assert {dryers: dryer_percent(dryer_demand, dryers) for dryers in percents} == percents


def test_one_more_dryer_never_lowers_the_demand(dryer_demand):
    assert drops(lambda dryers: dryers * dryer_percent(dryer_demand, dryers), 200) == []
    percents = [dryer_percent(dryer_demand, dryers) for dryers in range(1, 200)]
    assert percents == sorted(percents, reverse=True)


def test_a_reduction_names_the_count_it_begins_from(dryer_demand):
    for before, row in itertools.pairwise(dryer_demand.rows):
        assert (row["less_percent_per_dryer"] == "") == (row["above_dryers"] == "")
        if row["above_dryers"]:
            assert row["above_dryers"] == before["dryers_up_to"]


@pytest.mark.source("Annex D, examples D1(a): one range; D6: 24 and 30 ranges; the rest from memory")
def test_column_c_by_the_number_of_ranges(range_demand):
    demands_kw = {1: 8, 2: 11, 3: 14, 5: 20, 6: 21, 24: 39, 25: 40, 26: 41, 30: 45, 40: 55, 41: 55.75}
    demands_kw |= {50: 62.5, 60: 70, 61: 70.75, 100: 100}
    assert {count: column_c_kw(range_demand, count) for count in demands_kw} == demands_kw


@pytest.mark.source("Annex D, example D6: 24 ranges of 16 kW; 5 of 11, 2 of 12, 20 of 13.5 and 3 of 18 kW")
def test_range_groups_of_annex_d(range_demand):
    # 4 kW above 12, then an average of 13.6 kW whose 1.6 kW counts as 2; 5 % each.
    assert column_c_kw(range_demand, 24) * 1.20 == pytest.approx(46.8)
    assert pytest.approx(13.6) == (5 * 12 + 2 * 12 + 20 * 13.5 + 3 * 18) / 30
    assert column_c_kw(range_demand, 30) * 1.10 == pytest.approx(49.5)


@pytest.mark.source(
    "Annex D, example D2(b): 55 % for two ovens and a cooktop; page on cooking circuits: 80 % for one"
)
def test_columns_a_and_b_of_published_examples(range_demand):
    of_one, of_three = (row_for(range_demand.rows, "appliances_up_to", count) for count in (1, 3))
    assert (of_one["under_3_5_kw_percent"], of_one["to_8_75_kw_percent"]) == ("80", "80")
    assert of_three["to_8_75_kw_percent"] == "55"


def test_column_c_never_falls(range_demand):
    assert drops(lambda count: column_c_kw(range_demand, count), 200) == []


def test_where_one_more_small_appliance_lowers_the_demand(range_demand):
    def total(column: str) -> Callable[[int], float]:
        return lambda count: count * float(row_for(range_demand.rows, "appliances_up_to", count)[column])

    assert drops(total("under_3_5_kw_percent"), 200) == []
    # Column B steps down by more than an appliance at its bands: the code itself permits the drop.
    assert drops(total("to_8_75_kw_percent"), 200) == [16, 21, 26, 31, 41, 51, 61]


@pytest.mark.parametrize("column", ["under_3_5_kw_percent", "to_8_75_kw_percent"])
def test_percentages_never_rise_with_the_number(range_demand, column: str):
    percents = range_demand.numbers(column)
    assert len(percents) == len(range_demand.rows)
    assert percents == sorted(percents, reverse=True)


def test_column_a_is_never_below_column_b(range_demand):
    for row in range_demand.rows:
        assert float(row["under_3_5_kw_percent"]) >= float(row["to_8_75_kw_percent"]), row


@pytest.mark.source("a distributor's page that reprints Table 310.12 of 2020")
def test_sizes_of_dwelling_services(dwelling_service_sizes):
    printed = {
        "100": ("4 AWG", "2 AWG"),
        "110": ("3 AWG", "1 AWG"),
        "125": ("2 AWG", "1/0 AWG"),
        "150": ("1 AWG", "2/0 AWG"),
        "175": ("1/0 AWG", "3/0 AWG"),
        "200": ("2/0 AWG", "4/0 AWG"),
        "225": ("3/0 AWG", "250 kcmil"),
        "250": ("4/0 AWG", "300 kcmil"),
        "300": ("250 kcmil", "350 kcmil"),
        "350": ("350 kcmil", "500 kcmil"),
        "400": ("400 kcmil", "600 kcmil"),
    }
    assert {
        row["rating_a"]: (row["copper"], row["aluminum"]) for row in dwelling_service_sizes.rows
    } == printed


@pytest.mark.source(
    "NEC 310.12 and Table 310.16: 83 % of the rating at 75 degC; sizes above 250 kcmil from memory"
)
@pytest.mark.parametrize("metal", ["copper", "aluminum"])
def test_each_service_size_is_the_smallest_that_carries_83_percent(
    dwelling_service_sizes, ampacity, metal: str
):
    ladder = {row["size"]: float(row[f"{metal}_75"]) for row in ampacity.rows if row[f"{metal}_75"] != ""} | {
        f"{size} kcmil": float(carried) for size, carried in REMEMBERED_AMPACITIES[metal].items()
    }
    assert list(ladder.values()) == sorted(ladder.values())
    for row in dwelling_service_sizes.rows:
        least_a = 83 * float(row["rating_a"]) / 100
        assert next(size for size, carried_a in ladder.items() if carried_a >= least_a) == row[metal], row


def test_service_sizes_have_a_row_for_every_standard_rating_of_the_rule(
    dwelling_service_sizes, standard_ratings
):
    ratings = [rating for rating in standard_ratings.numbers("rating_a") if 100 <= rating <= 400]
    assert dwelling_service_sizes.numbers("rating_a") == ratings
