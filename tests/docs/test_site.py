"""The built site is complete, says what code and codebook say, and fetches nothing from elsewhere."""

import hashlib
import json
import re
from pathlib import Path

import pytest
from tests.docs.conftest import PAGES, ROOT
from tests.docs.html import BuiltPage

from branchwright import __version__
from branchwright.http_api.problems import KINDS
from branchwright.http_api.settings import Settings

DECISIONS = sorted((PAGES / "decisions").glob("[0-9]*.md"))


@pytest.fixture(scope="module")
def every_page(site: Path) -> dict[str, BuiltPage]:
    return {file.relative_to(site).as_posix(): BuiltPage(file) for file in sorted(site.rglob("*.html"))}


def test_every_page_is_built(site: Path) -> None:
    written = {file.relative_to(PAGES).with_suffix(".html").as_posix() for file in PAGES.rglob("*.md")}
    built = {file.relative_to(site).as_posix() for file in site.rglob("*.html")}
    made = {
        name for name in built if re.match(r"(rules|codebook/tables|codebook/provisions)/(?!index)", name)
    }
    assert built == written | made | {"404.html"}


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
        assert page.shows(kind.meaning, slug)
        assert page.shows(f"/problems/{slug}, status {kind.status}", slug)


@pytest.mark.parametrize("decision", DECISIONS, ids=lambda path: path.stem)
def test_every_decision_has_its_parts(site: Path, decision: Path) -> None:
    text = decision.read_text("utf-8")
    number = int(decision.name[:4])
    assert re.match(rf"# {number}\. \S", text)
    assert re.findall(r"^## (.+)$", text, re.MULTILINE) == ["Context", "Decision", "Consequences"]
    for part in re.split(r"^## .+$", text, flags=re.MULTILINE)[1:]:
        assert len(part.split()) > 15
    title = text.partition("\n")[0].partition(". ")[2]
    (index,) = BuiltPage(site / "decisions" / "index.html").sections["decisions"].tables
    assert [str(number), title] in index


def test_no_number_of_a_decision_is_given_twice() -> None:
    numbers = [decision.name[:4] for decision in DECISIONS]
    assert len(numbers) == len(set(numbers))


def test_the_changelog_names_this_version() -> None:
    sections = re.findall(r"^## (\S+)", (PAGES / "changelog.md").read_text("utf-8"), re.MULTILINE)
    assert __version__ in sections


@pytest.mark.source(
    "Apache License, Version 2.0, January 2004: SHA-256 of the plain text that its publisher serves"
)
def test_the_licence_is_the_whole_text() -> None:
    digest = hashlib.sha256((ROOT / "docs" / "LICENSE.txt").read_bytes()).hexdigest()
    assert digest == "cfc7749b96f63bd31c3c42b5c471bf756814053e847c10f3eb003417bc523d30"


def test_the_glossary_explains_every_wiring_method_and_names_every_edition(site: Path) -> None:
    contract = json.loads((ROOT / "openapi" / "v1.json").read_text("utf-8"))["components"]["schemas"]
    page = BuiltPage(site / "glossary.html")
    methods = contract["Segment"]["properties"]["wiring_method"]["enum"]
    (table,) = [table for table in page.sections["the-run"].tables if table[0][0] == "wiring method"]
    assert sorted(method for row in table[1:] for method in row[0].split(", ")) == sorted(methods)
    assert all(row[1] for row in table[1:])
    for edition in contract["CircuitDesignRequest"]["properties"]["edition"]["enum"]:
        assert page.shows(edition, "the-code")


def test_the_policies_say_what_is(site: Path) -> None:
    """Released contracts are kept, and nothing is deprecated as long as the page says so."""
    page = BuiltPage(site / "policies.html")
    assert page.shows("Every released contract is kept in openapi/released/")
    assert list((ROOT / "openapi" / "released").glob("v1-*.json"))
    contract = (ROOT / "openapi" / "v1.json").read_text("utf-8")
    assert page.shows("Nothing is deprecated today") is ('"deprecated": true' not in contract)


def test_every_endpoint_and_every_object_of_a_request_is_shown(site: Path) -> None:
    contract = json.loads((ROOT / "openapi" / "v1.json").read_text("utf-8"))
    (endpoints,) = BuiltPage(site / "guides" / "operations.html").sections["all-endpoints"].tables
    assert [row[1] for row in endpoints[1:]] == [
        f"{method.upper()} {path}" for path, methods in contract["paths"].items() for method in methods
    ]
    fields = BuiltPage(site / "guides" / "fields.html")
    for name in (
        "CircuitDesignRequest",
        "Installed",
        "Segment",
        "CurrentComparisonRequest",
        "Underground",
        "LoadCalculationRequest",
        "IntervalDataRequest",
        "CapacityReviewRequest",
        "ManagedChargingRequest",
        "TariffReviewRequest",
        "Tariff",
        "EnergyRate",
        "ChargingComparisonRequest",
        "InstallationEstimateRequest",
        "PriceBook",
        "LabourTable",
    ):
        (table,) = fields.sections[name.lower()].tables
        schema = contract["components"]["schemas"][name]
        shown = [row[0].removesuffix(", required") for row in table[1:]]
        assert shown == list(schema["properties"])
        assert [row[0].removesuffix(", required") for row in table[1:] if row[0].endswith(", required")] == [
            field for field in schema["properties"] if field in schema.get("required", [])
        ]


def test_every_field_of_a_query_is_shown(site: Path) -> None:
    contract = json.loads((ROOT / "openapi" / "v1.json").read_text("utf-8"))
    fields = contract["paths"]["/v1/interval-data"]["post"]["parameters"]
    (table,) = BuiltPage(site / "guides" / "fields.html").sections["the-query-of-interval-data"].tables
    assert [row[0] for row in table[1:]] == [field["name"] for field in fields if field["in"] == "query"]
    forms = {row[0]: row[3] for row in table[1:]}
    assert forms["edition"] == "text/csv, application/xml"
    assert forms["value_column"] == "text/csv"
    assert forms["meter_reading"] == "application/xml"


def test_the_licence_page_has_the_whole_text(site: Path) -> None:
    text = (ROOT / "docs" / "LICENSE.txt").read_text("utf-8")
    assert BuiltPage(site / "licence.html").shows(text, "apache-license-20")


def test_the_pages_are_grouped(site: Path) -> None:
    page = (site / "index.html").read_text("utf-8")
    tabs = re.findall(r'class="md-tabs__link">\s*([^<]+?)\s*</a>', page)
    assert tabs == ["Start", "Guides", "Rules", "Codebook", "Trust", "Operate", "Decisions"]
