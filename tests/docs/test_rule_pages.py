"""Every rule has its page, which says what the rule's own docstring says and what exercises it."""

import inspect
import tomllib
from pathlib import Path
from typing import Any

import httpx
import pytest
from tests.docs.conftest import ROOT
from tests.docs.html import BuiltPage

from branchwright.checks.charging_cost import charging_comparison, tariffs
from branchwright.checks.circuits.rules import RULES as CIRCUITS
from branchwright.checks.service_capacity import capacity_review, dwelling_load, managed_charging
from branchwright.checks.service_capacity.interval_data.rules import RULES as INTERVAL_DATA
from branchwright.codebook import ProvisionLacking, editions, interpretations
from branchwright.codebook.editions import edition_book
from branchwright.jobs import installation

CHECKS: dict[str, Any] = {
    "circuits": CIRCUITS,
    "dwelling-load": dwelling_load.RULES,
    "interval-data": INTERVAL_DATA,
    "capacity-review": capacity_review.RULES,
    "managed-charging": managed_charging.RULES,
    "tariffs": tariffs.RULES,
    "charging-comparison": charging_comparison.RULES,
    "installation": installation.RULES,
}
RULES: list[Any] = [rule for rules in CHECKS.values() for rule in rules]
SITUATIONS = sorted((ROOT / "tests" / "situations").glob("*.toml"))


def page_of(site: Path, rule: Any) -> BuiltPage:
    return BuiltPage(site / "rules" / f"{rule.name}.html")


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.name)
def test_every_rule_has_its_page(site: Path, rule: Any) -> None:
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


def sections_of(rule: Any) -> dict[str, str | None]:
    """The section of each edition; None where it has no such provision."""
    found: dict[str, str | None] = {}
    for record in editions():
        try:
            found[record.name] = rule.cited(edition_book(record.name)).section
        except ProvisionLacking:
            found[record.name] = None
    return found


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.name)
def test_a_rule_names_its_section_in_every_edition(site: Path, rule: Any) -> None:
    """Rules about money rest on none."""
    page = page_of(site, rule)
    expected = sections_of(rule)
    if not any(expected.values()):
        assert page.shows("It rests on no section of the code, and cites none.", "sections")
        assert rule.name.startswith(("tariff-", "charging-", "estimate-"))
        return
    (sections,) = page.sections["sections"].tables
    shown = {row[0]: row[1] for row in sections[1:]}
    assert shown == {
        edition: section or "no such provision: undetermined" for edition, section in expected.items()
    }


def test_the_pages_are_those_of_the_rules_that_the_service_lists(site: Path, service: str) -> None:
    listed: dict[str, str] = {}
    after: str | None = ""
    while after is not None:
        page = httpx.get(service + "/v1/rules", params={"after": after} if after else {}).json()
        listed |= {rule["name"]: rule["check"] for rule in page["items"]}
        after = page["next_after"]
    assert {file.stem for file in (site / "rules").glob("*.html")} - {"index"} == set(listed)
    assert listed == {rule.name: check for check, rules in CHECKS.items() for rule in rules}


def test_the_index_has_every_rule_once_by_its_question(site: Path) -> None:
    index = BuiltPage(site / "rules" / "index.html")
    listed: dict[str, list[list[str]]] = {}
    question = ""
    for name, section in index.sections.items():
        question = name if section.level == 2 else question
        listed.setdefault(question, []).extend(row for table in section.tables for row in table[1:])
    assert [name for name, rows in listed.items() if rows] == list(CHECKS)
    for check, rules in CHECKS.items():
        questions = {rule.name: inspect.cleandoc(rule.prose).partition("\n")[0] for rule in rules}
        assert sorted(row[0] for row in listed[check]) == sorted(questions)
        for name, asks, _ in listed[check]:
            assert asks == questions[name]
            assert str((site / "rules" / f"{name}.html").resolve()) in index.linked


def test_the_navigation_has_every_rule_below_its_question(site: Path) -> None:
    """As the page of the last rule shows it: each rule once, in the order in which they are asked."""
    links = BuiltPage(site / "rules" / f"{RULES[-1].name}.html").links
    own = dict.fromkeys(link.partition("#")[0].removesuffix(".html") for link in links if "/" not in link)
    listed = [name for name in own if name in {rule.name for rule in RULES}]
    assert listed == [rule.name for rule in RULES]


@pytest.mark.parametrize("point", interpretations(), ids=lambda point: point.name)
def test_an_interpretation_says_what_it_decides(site: Path, point: Any) -> None:
    page = BuiltPage(site / "codebook" / "interpretations.html")
    consulting = [rule.name for rule in RULES if point.name in rule.consults]
    for name in consulting:
        assert page.shows(name, point.name)
    assert consulting or page.shows("Decides on the facts before the rules are asked", point.name)


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
