"""The page on the checks of the numbers shows every source that a test or a situation names."""

import ast
import tomllib
from pathlib import Path

import pytest
from tests.docs.conftest import ROOT
from tests.docs.html import BuiltPage


@pytest.fixture(scope="module")
def page(site: Path) -> BuiltPage:
    return BuiltPage(site / "checks-of-the-numbers.html")


def test_every_source_of_a_situation_is_among_the_checks(page: BuiltPage) -> None:
    files = sorted((ROOT / "tests" / "situations").glob("*.toml"))
    assert files
    for file in files:
        assert page.shows(tomllib.loads(file.read_text("utf-8"))["source"]), file.name


def test_every_marked_source_is_among_the_checks(page: BuiltPage) -> None:
    found = 0
    for file in sorted((ROOT / "tests").rglob("test_*.py")):
        for node in ast.walk(ast.parse(file.read_text("utf-8"))):
            if isinstance(node, ast.FunctionDef):
                for mark in node.decorator_list:
                    if isinstance(mark, ast.Call) and ast.unparse(mark.func) == "pytest.mark.source":
                        (argument,) = mark.args
                        if isinstance(argument, ast.Constant):
                            assert page.shows(str(argument.value)), file.name
                            found += 1
    assert found > 40


def test_checks_without_a_source_stand_apart(page: BuiltPage) -> None:
    names = list(page.sections)
    apart = names.index("common-practice-no-source")
    for place, name in enumerate(names):
        for table in page.sections[name].tables:
            for row in table[1:]:
                assert ("no source" in row[0]) is (place > apart), row


def test_the_checks_are_counted(page: BuiltPage) -> None:
    counted = sum(
        int(row[1]) for section in page.sections.values() for table in section.tables for row in table[1:]
    )
    assert page.shows(f"{counted} checks name where")


def test_marks_are_found_wherever_they_are_written(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.syspath_prepend(str(ROOT / "docs"))
    from page_parts import check_sources

    (tmp_path / "situations").mkdir()
    (tmp_path / "situations" / "one.toml").write_text('source = "A"\n[[more]]\nsource = "B"\n', "utf-8")
    (tmp_path / "test_one.py").write_text(
        "import pytest\nNAMED = 'C'\nNUMBERED = 'F {}'\n\n\n@pytest.mark.source(NAMED)\ndef test(): ...\n\n\n"
        "@pytest.mark.source(NUMBERED.format('1') + ', line 2')\ndef test_one(): ...\n\n\n"
        "@pytest.mark.source(NAMED + '; D '\n 'continued')\n"
        "@pytest.mark.parametrize('x', [pytest.param(1, marks=pytest.mark.source('E')),\n"
        " *[pytest.param(s, marks=pytest.mark.source(s['source'])) for s in ()]])\ndef test_two(x): ...\n",
        "utf-8",
    )
    monkeypatch.setattr(check_sources, "TESTS", tmp_path)
    assert sorted(check.source for check in check_sources.every_check()) == [
        "A",
        "B",
        "C",
        "C; D continued",
        "E",
        "F 1, line 2",
    ]
    (tmp_path / "test_two.py").write_text("pytest.mark.source(print('no text'))\n", "utf-8")
    with pytest.raises(check_sources.UnreadableSource, match=r"test_two\.py, line 1"):
        check_sources.every_check()
