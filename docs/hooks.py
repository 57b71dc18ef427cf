"""Fills the pages with what the code, the codebook and the tests say, when the site is built.

A page holds a line `<!-- generated: <part> -->` where a part goes. Nothing that is generated is kept.
"""

import re
from collections.abc import Callable
from typing import Any

from mkdocs.exceptions import PluginError
from page_parts import check_sources, code_book, rules, service

PARTS: dict[str, Callable[[], str]] = {
    "rules": rules.every_rule,
    "editions": code_book.editions,
    "tables": code_book.tables,
    "provisions": code_book.provisions,
    "interpretations": code_book.interpretations,
    "interpretation-defaults": code_book.interpretation_defaults,
    "less-than-high": code_book.less_than_high,
    "not-from-print": code_book.sure_but_not_from_print,
    "checks-summary": check_sources.summary,
    "checks-sourced": check_sources.sourced,
    "checks-unsourced": check_sources.unsourced,
    "settings": service.settings,
    "problems": service.problems,
}

_MARKER = re.compile(r"^<!-- generated: ([a-z-]+) -->$", re.MULTILINE)


def on_page_markdown(markdown: str, page: Any, **_: Any) -> str:
    """Put each part in the place of its marker; an unknown one stops the build."""

    def part(found: re.Match[str]) -> str:
        name = found.group(1)
        if name not in PARTS:
            raise PluginError(f"{page.file.src_uri} asks for the part {name}; there are {', '.join(PARTS)}.")
        return PARTS[name]()

    return _MARKER.sub(part, markdown)
