"""Every rule has its page, which says what the rule's own docstring says and what exercises it."""

import inspect
import tomllib
from pathlib import Path
from typing import Any

import pytest
from tests.docs.conftest import ROOT
from tests.docs.html import BuiltPage

from branchwright.checks.circuits.rules import RULES, Rule
from branchwright.codebook import ProvisionLacking, editions
from branchwright.codebook.editions import edition_book

SITUATIONS = sorted((ROOT / "tests" / "situations").glob("*.toml"))


def page_of(site: Path, rule: Rule) -> BuiltPage:
    return BuiltPage(site / "rules" / f"{rule.name}.html")


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.name)
def test_every_rule_has_its_page(site: Path, rule: Rule) -> None:
    page = page_of(site, rule)
    question, _, rest = inspect.cleandoc(rule.prose).partition("\n")
    assert page.shows(question)
    parts = {"Applies": "applies", "Rests on": "rests-on", "Missing facts": "missing-facts"}
    said = " ".join(rest.split())
    for label, section in parts.items():
        text = said.partition(f"{label}: ")[2]
        for next_label in parts:
            text = text.partition(f" {next_label}: ")[0]
        assert text, label
        assert page.shows(text[1:], section)
    assert page.shows(f"Force: {rule.force}")
    for interpretation in rule.consults:
        assert page.shows(interpretation, "interpretations")


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.name)
def test_a_rule_names_its_section_in_every_edition(site: Path, rule: Rule) -> None:
    (sections,) = page_of(site, rule).sections["sections"].tables
    shown = {row[0]: row[1] for row in sections[1:]}
    expected = {}
    for record in editions():
        try:
            expected[record.name] = rule.cited(edition_book(record.name)).section
        except ProvisionLacking:
            expected[record.name] = "no such provision: undetermined"
    assert shown == expected


def test_no_other_rule_has_a_page(site: Path) -> None:
    pages = {file.stem for file in (site / "rules").glob("*.html")} - {"index"}
    assert pages == {rule.name for rule in RULES}


def test_the_index_has_every_rule_once_in_order(site: Path) -> None:
    index = BuiltPage(site / "rules" / "index.html")
    listed = [row for section in index.sections.values() for table in section.tables for row in table[1:]]
    assert sorted(row[0] for row in listed) == sorted(rule.name for rule in RULES)
    questions = {rule.name: inspect.cleandoc(rule.prose).partition("\n")[0] for rule in RULES}
    for name, question, _ in listed:
        assert question == questions[name]
        assert str((site / "rules" / f"{name}.html").resolve()) in index.linked


@pytest.mark.parametrize("file", SITUATIONS, ids=lambda file: file.stem)
def test_a_situation_is_shown_with_the_rules_that_it_exercises(site: Path, file: Path) -> None:
    situation: dict[str, Any] = tomllib.loads(file.read_text("utf-8"))
    expected: dict[str, set[str]] = {}
    for edition, expect in {"": situation.get("expect", {}), **situation.get("editions", {})}.items():
        for rule, finding in expect.get("findings", {}).items():
            outcome = finding.get("outcome", "figures")
            expected.setdefault(rule, set()).add(f"{outcome} {edition}".strip())
    for rule, outcomes in expected.items():
        page = BuiltPage(site / "rules" / f"{rule}.html")
        rows = {row[0]: row for row in page.sections["situations"].tables[0][1:]}
        title, shown, source = rows[" ".join(situation["title"].split())]
        assert source == " ".join(situation["source"].split())
        for part in shown.split("; "):
            outcome, _, editions = part.rstrip(")").partition(" (")
            names = editions.split(", ") if editions else [""]
            outcomes -= {f"{outcome} {edition}".strip() for edition in names}
        assert not outcomes, (title, rule)


def test_the_tests_of_a_rule_are_named(site: Path) -> None:
    """A name of the tests that is known to stand there, and one that has nothing to do with the rule."""
    page = BuiltPage(site / "rules" / "raceway-fill.html")
    assert page.shows("checks/test_designs.py: one size smaller fails", "tests-that-name-it")
    assert not page.shows("test_remedies.py: the search", "tests-that-name-it")
