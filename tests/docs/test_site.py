"""The built site is complete, says what code and codebook say, and fetches nothing from elsewhere."""

import ast
import csv
import hashlib
import inspect
import re
import tomllib
from pathlib import Path
from typing import Any

import pytest
from tests.checks.replay import DATA
from tests.docs.conftest import PAGES, ROOT
from tests.docs.html import BuiltPage

from branchwright import __version__
from branchwright.checks.circuits.rules import RULES
from branchwright.http_api.problems import KINDS
from branchwright.http_api.settings import Settings

EDITION = "nec-2023"
TABLES = sorted(folder.name for folder in (DATA / "tables").iterdir())
PROVISIONS = sorted(file.stem for file in (DATA / "provisions").glob("*.toml"))
DECISIONS = sorted((PAGES / "decisions").glob("[0-9]*.md"))


def toml(path: Path) -> dict[str, Any]:
    return tomllib.loads(path.read_text("utf-8"))


def flat(text: str) -> str:
    return " ".join(text.split())


def shows(page: BuiltPage, text: str, section: str | None = None) -> bool:
    shown = page.text if section is None else flat(page.sections[section].text)
    return flat(text) in shown


@pytest.fixture(scope="module")
def codebook(site: Path) -> BuiltPage:
    return BuiltPage(site / "codebook.html")


@pytest.fixture(scope="module")
def every_page(site: Path) -> dict[str, BuiltPage]:
    return {file.relative_to(site).as_posix(): BuiltPage(file) for file in sorted(site.rglob("*.html"))}


def test_every_page_is_built(site: Path) -> None:
    written = {file.relative_to(PAGES).with_suffix(".html").as_posix() for file in PAGES.rglob("*.md")}
    built = {file.relative_to(site).as_posix() for file in site.rglob("*.html")}
    assert built == written | {"404.html"}


def test_no_page_fetches_anything_from_elsewhere(every_page: dict[str, BuiltPage]) -> None:
    for name, page in every_page.items():
        assert page.fetched, name
        outside = [address for address in page.fetched if re.match(r"(\w+:)?//", address)]
        assert not outside, name
        # The theme's script would fetch a drawing program for these, and only for these.
        assert "mermaid" not in page.classes, name


def test_no_style_fetches_anything_from_elsewhere(site: Path) -> None:
    styles = sorted(site.rglob("*.css"))
    assert styles
    for style in styles:
        assert not re.search(r"(?:@import|url\()\s*[\"']?(?:\w+:)?//", style.read_text("utf-8")), style.name


def test_no_page_links_to_another_host(every_page: dict[str, BuiltPage]) -> None:
    for name, page in every_page.items():
        assert not [link for link in page.links if re.match(r"\w+://", link)], name


def test_no_marker_is_left(every_page: dict[str, BuiltPage], site: Path) -> None:
    for name in every_page:
        assert "<!-- generated:" not in (site / name).read_text("utf-8"), name


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.name)
def test_every_rule_has_its_section(site: Path, rule: Any) -> None:
    page = BuiltPage(site / "rules.html")
    prose = inspect.cleandoc(rule.function.__doc__)
    question, _, rest = prose.partition("\n")
    assert shows(page, question, rule.name)
    for line in rest.strip().splitlines():
        assert shows(page, line, rule.name)
    assert rule.force in page.sections[rule.name].text
    for interpretation in rule.consults:
        assert shows(page, interpretation, rule.name)


def test_the_rules_page_has_no_other_rules(site: Path) -> None:
    sections = BuiltPage(site / "rules.html").sections
    assert {name for name, section in sections.items() if section.level == 2} == {rule.name for rule in RULES}


@pytest.mark.parametrize("name", TABLES)
def test_every_table_is_shown_with_its_rows_and_evidence(codebook: BuiltPage, name: str) -> None:
    about = toml(DATA / "tables" / name / "about.toml")
    record = about["editions"][EDITION]
    section = f"table-{name.replace('_', '-')}"
    for text in (about["title"], about["lookup"], about["match"], record["section"], record["source"]):
        assert shows(codebook, text, section)
    for text in (record["confidence"], record["found"], record["checked"], record.get("notes", "")):
        assert shows(codebook, text, section)
    with (DATA / "tables" / name / record["rows"]).open(encoding="utf-8", newline="") as lines:
        printed = list(csv.reader(lines))
    columns, rows = codebook.sections[section].tables
    assert [row[0] for row in columns[1:]] == list(about["columns"])
    assert [row[2] for row in columns[1:]] == [flat(item["meaning"]) for item in about["columns"].values()]
    assert rows[0] == printed[0]
    assert [[number_or_text(cell) for cell in row] for row in rows[1:]] == [
        [number_or_text(cell) for cell in row] for row in printed[1:]
    ]


def number_or_text(cell: str) -> float | str:
    return float(cell) if re.fullmatch(r"\d+(\.\d+)?", cell) else cell


@pytest.mark.parametrize("concept", PROVISIONS)
def test_every_provision_is_shown_with_its_values_and_evidence(codebook: BuiltPage, concept: str) -> None:
    about = toml(DATA / "provisions" / f"{concept}.toml")
    record = about["editions"][EDITION]
    section = f"provision-{concept}"
    for text in (about["title"], record["section"], record["confidence"], record["found"], record["source"]):
        assert shows(codebook, text, section)
    assert shows(codebook, record.get("notes", ""), section)
    (values,) = codebook.sections[section].tables
    shown = {row[0]: number_or_text(row[1]) for row in values[1:]}
    assert shown == record["values"]


def test_every_interpretation_is_shown_with_its_readings(codebook: BuiltPage) -> None:
    for name, item in toml(DATA / "interpretations.toml")["interpretations"].items():
        section = f"interpretation-{name}"
        assert shows(codebook, item["question"], section)
        assert shows(codebook, item["notes"], section)
        (readings,) = codebook.sections[section].tables
        assert {row[0]: row[1] for row in readings[1:]} == item["readings"]
        assert [row[0] for row in readings[1:] if row[2] == "yes"] == [item["default"]]


def test_every_weaker_entry_is_among_the_uncertainties(site: Path) -> None:
    page = BuiltPage(site / "uncertainties.html")
    entries = {f"table-{name.replace('_', '-')}": DATA / "tables" / name / "about.toml" for name in TABLES}
    entries |= {f"provision-{concept}": DATA / "provisions" / f"{concept}.toml" for concept in PROVISIONS}
    names = list(page.sections)
    second = names.index("high-confidence-but-not-from-print")
    for anchor, file in entries.items():
        about = toml(file)
        record = about["editions"][EDITION]
        sure = record["confidence"] == "high"
        assert (anchor in names) is not (sure and record["found"] == "print"), anchor
        if anchor in names:
            assert (names.index(anchor) > second) is sure, anchor
            for text in (about["title"], record["section"], record["confidence"], record["found"]):
                assert shows(page, text, anchor)
            assert shows(page, record["source"], anchor)
            assert shows(page, record.get("notes", ""), anchor)
    for name in toml(DATA / "interpretations.toml")["interpretations"]:
        assert shows(page, name, "read-two-ways")


def test_every_setting_is_shown_with_its_default(site: Path) -> None:
    (table,) = BuiltPage(site / "operating.html").sections["settings"].tables
    shown = {row[0]: row for row in table[1:]}
    assert set(shown) == {f"BRANCHWRIGHT_{name.upper()}" for name in Settings.model_fields}
    assert shown["BRANCHWRIGHT_PORT"][2:] == ["0 to 65535", "8000"]
    assert shown["BRANCHWRIGHT_CONCURRENCY_LIMIT"][2:] == ["at least 1", "not set"]
    assert shown["BRANCHWRIGHT_ALLOW_ANONYMOUS"][2:] == ["true or false", "false"]
    assert shown["BRANCHWRIGHT_LOG_LEVEL"][2:] == ["debug, info, warning, error, critical", "info"]
    assert shown["BRANCHWRIGHT_API_KEY_HASHES"][2:] == ["text, separated by commas", "not set"]


def test_every_problem_type_has_its_section(site: Path) -> None:
    page = BuiltPage(site / "problems.html")
    for slug, kind in KINDS.items():
        assert shows(page, kind.meaning, slug)
        assert shows(page, f"/problems/{slug}, status {kind.status}", slug)


@pytest.mark.parametrize("decision", DECISIONS, ids=lambda path: path.stem)
def test_every_decision_has_its_parts(decision: Path) -> None:
    text = decision.read_text("utf-8")
    number = int(decision.name[:4])
    assert re.match(rf"# {number}\. \S", text)
    assert re.findall(r"^## (.+)$", text, re.MULTILINE) == ["Context", "Decision", "Consequences"]
    for part in re.split(r"^## .+$", text, flags=re.MULTILINE)[1:]:
        assert len(part.split()) > 15
    title = text.partition("\n")[0].partition(". ")[2]
    assert f"| {number} | [{title}]({decision.name}) |" in (decision.parent / "index.md").read_text("utf-8")


def test_decisions_are_numbered_without_a_gap() -> None:
    assert [int(decision.name[:4]) for decision in DECISIONS] == list(range(1, len(DECISIONS) + 1))


def test_every_source_of_a_situation_is_among_the_checks(site: Path) -> None:
    page = BuiltPage(site / "checks-of-the-numbers.html")
    files = sorted((ROOT / "tests" / "situations").glob("*.toml"))
    for file in files:
        assert shows(page, toml(file)["source"]), file.name


def test_every_marked_source_is_among_the_checks(site: Path) -> None:
    page = BuiltPage(site / "checks-of-the-numbers.html")
    found = 0
    for file in sorted((ROOT / "tests").rglob("test_*.py")):
        for node in ast.walk(ast.parse(file.read_text("utf-8"))):
            if isinstance(node, ast.FunctionDef):
                for mark in node.decorator_list:
                    if isinstance(mark, ast.Call) and ast.unparse(mark.func) == "pytest.mark.source":
                        (argument,) = mark.args
                        assert isinstance(argument, ast.Constant), ast.unparse(mark)
                        assert shows(page, str(argument.value)), file.name
                        found += 1
    assert found > 40


def test_checks_without_a_source_stand_apart(site: Path) -> None:
    sections = BuiltPage(site / "checks-of-the-numbers.html").sections
    names = list(sections)
    apart = names.index("common-practice-no-source")
    for place, name in enumerate(names):
        for table in sections[name].tables:
            for row in table[1:]:
                assert ("no source" in row[0]) is (place > apart), row


def test_the_checks_are_counted(site: Path) -> None:
    page = BuiltPage(site / "checks-of-the-numbers.html")
    counted = sum(
        int(row[1]) for section in page.sections.values() for table in section.tables for row in table[1:]
    )
    assert shows(page, f"{counted} checks name where")


def test_marks_are_found_wherever_they_are_written(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.syspath_prepend(str(ROOT / "docs"))
    from page_parts import check_sources

    (tmp_path / "situations").mkdir()
    (tmp_path / "situations" / "one.toml").write_text('source = "A"\n[[more]]\nsource = "B"\n', "utf-8")
    (tmp_path / "test_one.py").write_text(
        "import pytest\nNAMED = 'C'\n\n\n@pytest.mark.source(NAMED)\ndef test(): ...\n\n\n"
        "@pytest.mark.source('D '\n 'continued')\n"
        "@pytest.mark.parametrize('x', [pytest.param(1, marks=pytest.mark.source('E')),\n"
        " *[pytest.param(s, marks=pytest.mark.source(s['source'])) for s in ()]])\ndef test_two(x): ...\n",
        "utf-8",
    )
    monkeypatch.setattr(check_sources, "TESTS", tmp_path)
    assert sorted(check.source for check in check_sources.every_check()) == [
        "A",
        "B",
        "C",
        "D continued",
        "E",
    ]
    (tmp_path / "test_two.py").write_text("pytest.mark.source(print('no text'))\n", "utf-8")
    with pytest.raises(check_sources.UnreadableSource, match=r"test_two\.py, line 1"):
        check_sources.every_check()


def test_the_changelog_names_this_version() -> None:
    assert f"\n## {__version__}\n" in (PAGES / "changelog.md").read_text("utf-8")


@pytest.mark.source(
    "Apache License, Version 2.0, January 2004: SHA-256 of the plain text that its publisher serves"
)
def test_the_licence_is_the_whole_text() -> None:
    digest = hashlib.sha256((ROOT / "docs" / "LICENSE.txt").read_bytes()).hexdigest()
    assert digest == "cfc7749b96f63bd31c3c42b5c471bf756814053e847c10f3eb003417bc523d30"
