"""The closed lists of the request schema are those of the codebook's files."""

import tomllib
from typing import get_args

import pytest
from tests.checks import strategies
from tests.checks.printed import column, standard_ratings_a
from tests.checks.replay import DATA

from branchwright import codebook
from branchwright.checks.circuits import RULES, CircuitReviewRequest, facts
from branchwright.checks.circuits.rules.ground_fault_protection import COVERED, DWELLINGS
from branchwright.codebook.editions import Ground, Location, Material, RacewayMethod, WiringMethod
from branchwright.quantities.conductor_sizes import SIZES
from branchwright.quantities.trade_sizes import TRADE_SIZES

EDITIONS = tomllib.loads((DATA / "editions.toml").read_text(encoding="utf-8"))["editions"]
INTERPRETATIONS = tomllib.loads((DATA / "interpretations.toml").read_text(encoding="utf-8"))[
    "interpretations"
]
DEFINITIONS = CircuitReviewRequest.model_json_schema(by_alias=True)["$defs"]


def test_editions() -> None:
    assert set(get_args(facts.Edition)) == set(EDITIONS)
    assert {record.name for record in codebook.editions()} == set(EDITIONS)


def test_interpretations_and_their_readings() -> None:
    properties = DEFINITIONS["Readings"]["properties"]
    assert set(properties) == set(INTERPRETATIONS)
    for name, item in INTERPRETATIONS.items():
        (closed,) = [option["enum"] for option in properties[name]["anyOf"] if "enum" in option]
        assert set(closed) == set(item["readings"])
        assert item["default"] in item["readings"]
        assert set(item["sections"])
        assert set(item["sections"]) <= set(EDITIONS)


def test_what_rules_consult_are_interpretations() -> None:
    assert {name for rule in RULES for name in rule.consults} <= set(INTERPRETATIONS)


@pytest.mark.parametrize("edition", EDITIONS)
def test_wiring_methods_and_trade_sizes(edition: str) -> None:
    methods = column("wiring_methods", "wiring_method", edition)
    kinds = dict(zip(methods, column("wiring_methods", "kind", edition), strict=True))
    assert set(get_args(WiringMethod)) == set(methods)
    areas = list(
        zip(
            column("raceway_areas", "wiring_method", edition),
            column("raceway_areas", "trade_size", edition),
            strict=True,
        )
    )
    assert set(get_args(RacewayMethod)) == {method for method in methods if kinds[method] == "raceway"}
    assert set(column("burial_cover", "under", edition)) == set(get_args(Ground))
    for method in methods:
        if kinds[method] == "raceway":
            assert [size for name, size in areas if name == method] == list(TRADE_SIZES)


@pytest.mark.parametrize("edition", EDITIONS)
@pytest.mark.parametrize("table", ["ampacity", "conductor_properties", "conductor_impedance"])
def test_conductor_sizes(edition: str, table: str) -> None:
    assert column(table, "size", edition) == list(SIZES)


@pytest.mark.parametrize("edition", EDITIONS)
def test_insulations(edition: str) -> None:
    insulations = column("insulations", "insulation", edition)
    assert set(get_args(facts.Insulation)) == set(insulations)
    blocks = list(
        zip(
            column("conductor_areas", "insulation", edition),
            column("conductor_areas", "size", edition),
            strict=True,
        )
    )
    for insulation in insulations:
        assert [size for name, size in blocks if name == insulation] == list(SIZES)


@pytest.mark.parametrize("edition", EDITIONS)
def test_receptacles_supplies_and_places(edition: str) -> None:
    assert set(column("receptacles", "configuration", edition)) <= set(get_args(facts.Configuration))
    systems = DEFINITIONS["Supply"]["properties"]["system"]["enum"]
    assert set(column("nominal_voltages", "system", edition)) == set(systems)
    premises = DEFINITIONS["Premises"]["properties"]
    assert set(COVERED) == set(premises["charger_location"]["anyOf"][0]["enum"])
    assert set(premises["occupancy"]["anyOf"][0]["enum"]) > DWELLINGS


def test_metals_and_places() -> None:
    assert set(get_args(Material)) == set(strategies.MATERIALS)
    assert set(get_args(Location)) == set(strategies.LOCATIONS)


def test_the_strategies_know_every_value_of_the_schema() -> None:
    assert strategies.SIZES == SIZES
    assert strategies.TRADE_SIZES == TRADE_SIZES
    assert set(strategies.METHODS) == set(get_args(WiringMethod))
    assert set(strategies.INSULATIONS) == set(get_args(facts.Insulation))
    assert {name: set(readings) for name, readings in strategies.READINGS.items()} == {
        name: set(item["readings"]) for name, item in INTERPRETATIONS.items()
    }
    for name, item in INTERPRETATIONS.items():
        assert strategies.READINGS[name][0] == item["default"]
    assert set(strategies.EDITIONS) == set(EDITIONS)
    assert set(strategies.CONFIGURATIONS) == set(get_args(facts.Configuration))
    assert set(strategies.GROUNDS) == set(get_args(Ground))
    # 10 A is a standard rating from 2023 on.
    for edition in EDITIONS:
        assert set(strategies.RATINGS_A) - {10} <= set(standard_ratings_a(edition))
