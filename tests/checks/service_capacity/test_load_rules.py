"""The rules of load calculations among the others of the service, and their lists against the codebook's."""

from typing import get_args

import pytest
from tests.checks.printed import about, column
from tests.checks.service_capacity.dwellings import D1A, EDITIONS, asked, calculated

from branchwright.checks.circuits import rules as circuits
from branchwright.checks.service_capacity.capacity_review import rules as capacity_review
from branchwright.checks.service_capacity.dwelling_load import facts
from branchwright.checks.service_capacity.dwelling_load import rules as dwelling_load
from branchwright.checks.service_capacity.interval_data import rules as interval_data
from branchwright.checks.service_capacity.managed_charging import rules as managed_charging
from branchwright.codebook import at
from branchwright.questions.fields import System


def test_names_are_unique_over_the_service() -> None:
    names = [
        rule.name
        for package in (circuits, dwelling_load, capacity_review, interval_data, managed_charging)
        for rule in package.RULES
    ]
    assert len(names) == len(set(names))


@pytest.mark.parametrize("edition", EDITIONS)
def test_every_rule_rests_on_something_that_the_edition_has(edition: str) -> None:
    for rule in dwelling_load.RULES:
        assert rule.cited(at(edition).edition).publication == edition


def test_every_rule_says_when_it_applies_and_what_missing_facts_do() -> None:
    for rule in dwelling_load.RULES:
        question = rule.prose.splitlines()[0]
        assert question.endswith("?"), rule.name
        for part in ("Applies: ", "Rests on: ", "Missing facts: "):
            assert part in rule.prose, (rule.name, part)


def test_every_answer_has_one_finding_of_each_rule() -> None:
    answer = calculated(asked("nec-2023", D1A))
    assert [finding["rule"] for finding in answer["findings"]] == [rule.name for rule in dwelling_load.RULES]


@pytest.mark.parametrize("edition", EDITIONS)
def test_the_supply_systems_are_those_of_the_codebook(edition: str) -> None:
    assert set(get_args(System)) == set(column("nominal_voltages", "system", edition))


@pytest.mark.parametrize("edition", EDITIONS)
def test_the_least_load_of_a_charger_holds_for_a_method_that_there_is(edition: str) -> None:
    values = about("provisions", "charger-load")["editions"][edition]["values"]
    assert ("least_va" in values) == ("least_holds_for" in values)
    assert values.get("least_holds_for", "standard") in get_args(facts.Method)
