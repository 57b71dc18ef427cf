"""Overcurrent devices, the conductors they protect, and the grounding conductors that go with them."""

import itertools
from collections.abc import Callable

import pytest


@pytest.mark.source("NEC 240.6(A), list of standard ampere ratings as quoted by breaker and fuse catalogues")
def test_standard_ratings_are_the_listed_ones(standard_ratings):
    ratings = standard_ratings.numbers("rating_a")
    to_50 = [15, 20, 25, 30, 35, 40, 45, 50]
    to_100 = [60, 70, 80, 90, 100]
    to_250 = [110, 125, 150, 175, 200, 225, 250]
    to_800 = [300, 350, 400, 450, 500, 600, 700, 800]
    to_6000 = [1000, 1200, 1600, 2000, 2500, 3000, 4000, 5000, 6000]
    assert [rating for rating in ratings if rating >= 15] == to_50 + to_100 + to_250 + to_800 + to_6000


@pytest.mark.source("continuing-education lesson on Table 240.6(A): 10 A is new in the 2023 edition")
def test_ten_amperes_is_standard_from_2023_on(standard_ratings):
    assert ("10" in {row["rating_a"] for row in standard_ratings.rows}) == (
        standard_ratings.edition >= "nec-2023"
    )


@pytest.mark.source("NEC 240.4(D) and footnote to Table 310.16")
def test_small_conductor_limit_is_the_60_degree_ampacity(small_conductor_limits, ampacity):
    for row in small_conductor_limits.rows:
        limit = float(row["greatest_overcurrent_device_a"])
        assert limit == ampacity.number(f"{row['material']}_60", size=row["size"]), row


def test_small_conductor_limits_name_small_conductors_only(small_conductor_limits, standard_ratings):
    assert [(row["material"], row["size"]) for row in small_conductor_limits.rows] == [
        ("copper", "14 AWG"),
        ("copper", "12 AWG"),
        ("copper", "10 AWG"),
        ("aluminum", "12 AWG"),
        ("aluminum", "10 AWG"),
    ]
    ratings = {row["rating_a"] for row in standard_ratings.rows}
    assert all(row["greatest_overcurrent_device_a"] in ratings for row in small_conductor_limits.rows)


def test_grounding_conductor_grows(grounding_conductor, circular_mils: Callable[[str], float]):
    for metal in ("copper", "aluminum"):
        areas = [circular_mils(row[metal]) for row in grounding_conductor.rows]
        assert all(lower < upper for lower, upper in itertools.pairwise(areas)), metal


def test_grounding_table_steps_at_standard_ratings(grounding_conductor, standard_ratings):
    ratings = {row["rating_a"] for row in standard_ratings.rows}
    assert {row["overcurrent_device_up_to_a"] for row in grounding_conductor.rows} <= ratings


@pytest.mark.source("resistivity: copper 100 % and aluminum 61 % IACS; two gauge steps are 1.59 in area")
def test_aluminum_grounding_conducts_as_well(grounding_conductor, conductor_properties):
    for row in grounding_conductor.rows:
        copper = conductor_properties.number("copper_stranded", size=row["copper"])
        aluminum = conductor_properties.number("aluminum_stranded", size=row["aluminum"])
        # 3/0 AWG copper and 250 kcmil aluminum are 1.49 apart in area, hence 11 %.
        assert 0.99 * copper < aluminum < 1.11 * copper, row


@pytest.mark.source("NEC 250.122(A): a grounding conductor need not be larger than the circuit conductors")
def test_grounding_table_asks_for_more_than_the_circuit_conductor_once_only(
    grounding_conductor,
    ampacity,
    small_conductor_limits,
    standard_ratings,
    circular_mils: Callable[[str], float],
):
    limits = {
        (row["material"], row["size"]): float(row["greatest_overcurrent_device_a"])
        for row in small_conductor_limits.rows
    }
    larger = set()
    compared = 0
    for rating, metal in itertools.product(standard_ratings.numbers("rating_a"), ("copper", "aluminum")):
        column = f"{metal}_60" if rating <= 100 else f"{metal}_75"
        for row in ampacity.rows:
            carries = float(row[column] or 0)
            if min(carries, limits.get((metal, row["size"]), carries)) >= rating:
                circuit = circular_mils(row["size"])
                break
        else:
            continue  # needs a circuit conductor larger than the tables here
        grounding = next(
            circular_mils(row[metal])
            for row in grounding_conductor.rows
            if float(row["overcurrent_device_up_to_a"]) >= rating
        )
        compared += 1
        if grounding > circuit:
            larger.add((rating, metal))
    assert compared > 30
    # 25 A on 10 AWG aluminum reads 8 AWG: 250.122(A) is there for such a case.
    assert larger == {(25, "aluminum")}
