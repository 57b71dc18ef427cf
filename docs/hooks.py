"""Fills the pages with what the code, the codebook and the tests say, when the site is built.

A page holds a line `<!-- generated: <part> -->` where a part goes; whole pages are made for each rule, table and
provision. In the navigation a name with a `*` stands for the pages that it fits, and `rules/*.md of <question>` for the
pages of a question's rules. Nothing that is generated is kept.
"""

import re
from collections.abc import Callable
from fnmatch import fnmatch
from functools import cache
from pathlib import Path
from typing import Any

from mkdocs.exceptions import PluginError
from mkdocs.structure.files import File, Files
from page_parts import (
    check_sources,
    code_book,
    contract,
    decisions,
    edition_differences,
    interpretations,
    price_keys,
    rules,
    service,
    uncertainties,
)
from page_parts.pictures import (
    ampacities,
    bills,
    estimate_spread,
    hidden_peak,
    load_methods,
    nights_met,
    pay_back,
    price_heat,
    staircase,
    temperatures,
    worst_day,
)

PARTS: dict[str, Callable[[], str]] = {
    "operations": contract.operations,
    "request-fields": contract.request_fields,
    "query-fields": contract.query_fields,
    "rules": rules.index,
    "editions": code_book.editions,
    "tables": code_book.tables_overview,
    "provisions": code_book.provisions_overview,
    "edition-differences": edition_differences.every_step,
    "interpretations-overview": interpretations.overview,
    "interpretations": interpretations.every_interpretation,
    "less-than-high": uncertainties.less_than_high,
    "not-from-print": uncertainties.sure_but_not_from_print,
    "checks-summary": check_sources.summary,
    "checks-sourced": check_sources.sourced,
    "checks-unsourced": check_sources.unsourced,
    "picture-ampacities": ampacities.picture,
    "picture-staircase": staircase.picture,
    "picture-temperatures": temperatures.picture,
    "picture-load-methods": load_methods.picture,
    "picture-hidden-peak": hidden_peak.picture,
    "picture-worst-day": worst_day.picture,
    "picture-nights-met": nights_met.picture,
    "picture-price-heat": price_heat.picture,
    "picture-bills": bills.picture,
    "picture-pay-back": pay_back.picture,
    "picture-estimate-spread": estimate_spread.picture,
    "price-keys": price_keys.prices,
    "task-keys": price_keys.tasks,
    "settings": service.settings,
    "problems": service.problems,
    "licence": service.licence,
    "decisions": decisions.index,
}

_MARKER = re.compile(r"^<!-- generated: ([a-z0-9-]+) -->$", re.MULTILINE)


@cache
def generated_pages() -> dict[str, str]:
    """Return the text of each page that is made as a whole, by its path."""
    return {**rules.pages(), **code_book.table_pages(), **code_book.provision_pages()}


def on_config(config: Any) -> None:
    """Put the pages in the place of the names with a `*` in the navigation."""
    folder = Path(config.docs_dir)
    written = sorted(file.relative_to(folder).as_posix() for file in folder.rglob("*.md"))
    config.nav = _filled(config.nav, [*generated_pages(), *written], set(_named(config.nav)))


def on_files(files: Files, config: Any) -> None:
    """Add the generated pages to those that are written."""
    for path, text in generated_pages().items():
        files.append(File.generated(config, path, content=text))


def on_page_markdown(markdown: str, page: Any, **_: Any) -> str:
    """Put each part in the place of its marker; an unknown one stops the build."""

    def part(found: re.Match[str]) -> str:
        name = found.group(1)
        if name not in PARTS:
            raise PluginError(f"{page.file.src_uri} asks for the part {name}; there are {', '.join(PARTS)}.")
        return PARTS[name]()

    return _MARKER.sub(part, markdown)


def _named(nav: Any) -> list[str]:
    """Return every page that the navigation names itself."""
    if isinstance(nav, str):
        return [] if "*" in nav else [nav]
    entries = nav.values() if isinstance(nav, dict) else nav
    return [name for entry in entries for name in _named(entry)]


def _filled(nav: list[Any], pages: list[str], named: set[str]) -> list[Any]:
    filled: list[Any] = []
    for entry in nav:
        if isinstance(entry, dict):
            filled.append(
                {
                    title: _filled(part, pages, named) if isinstance(part, list) else part
                    for title, part in entry.items()
                }
            )
        elif " of " in entry:
            filled += rules.pages_of(entry.partition(" of ")[2])
        elif "*" in entry:
            filled += [page for page in pages if fnmatch(page, entry) and page not in named]
        else:
            filled.append(entry)
    return filled
