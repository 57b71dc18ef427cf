"""Markdown that means what the text says: escaped words, tables and links."""

import re
from collections.abc import Iterable, Mapping, Sequence

_SPECIAL = re.compile(r"([\\`*_\[\]<>|#&])")


def words(text: str) -> str:
    """Return text as Markdown that shows these very characters on one line."""
    return _SPECIAL.sub(r"\\\1", " ".join(text.split())).replace("\\&", "&amp;").replace("\\<", "&lt;")


def code(text: str) -> str:
    """Return text in a monospaced face, also inside a table."""
    return f"`{text}`" if text else ""


def long_code(text: str) -> str:
    """Return a long name in a monospaced face, which may be broken after an underscore or a slash."""
    return "<code>" + words(text).replace("\\_", "\\_<wbr>").replace("/", "/<wbr>") + "</code>"


def link(text: str, page: str) -> str:
    """Return a link to a page, named from the folder of the pages, with its anchor where it has one."""
    return f"[{words(text)}](/{page})"


def table(headings: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    """Return a table. Cells are Markdown; a bare bar in them must have been escaped by `words`."""
    lines = [headings, ["---"] * len(headings), *rows]
    return "\n".join("| " + " | ".join(line) + " |" for line in lines)


def blocks(*parts: str) -> str:
    """Return parts as paragraphs, those that are empty left out."""
    return "\n\n".join(part for part in parts if part)


def bullets(items: Iterable[str]) -> str:
    """Return a list, items that are empty left out."""
    return "\n".join(f"- {item}" for item in items if item)


def by_edition(texts: Mapping[str, str]) -> list[tuple[str, str]]:
    """Return each different text once, after the names of the editions that say it."""
    editions: dict[str, list[str]] = {}
    for edition, text in texts.items():
        if text:
            editions.setdefault(text, []).append(edition)
    return [(", ".join(names), text) for text, names in editions.items()]
