"""Markdown that means what the text says: escaped words, tables and anchors."""

import re
from collections.abc import Iterable, Sequence

_SPECIAL = re.compile(r"([\\`*_\[\]<>|#&])")


def words(text: str) -> str:
    """Return text as Markdown that shows these very characters on one line."""
    return _SPECIAL.sub(r"\\\1", " ".join(text.split())).replace("\\&", "&amp;").replace("\\<", "&lt;")


def code(text: str) -> str:
    """Return text in a monospaced face, also inside a table."""
    return f"`{text}`" if text else ""


def long_code(text: str) -> str:
    """Return a long name in a monospaced face, which may be broken after an underscore."""
    return "<code>" + words(text).replace("\\_", "\\_<wbr>") + "</code>"


def table(headings: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    """Return a table. Cells are Markdown; a bare bar in them must have been escaped by `words`."""
    lines = [headings, ["---"] * len(headings), *rows]
    return "\n".join("| " + " | ".join(line) + " |" for line in lines)


def blocks(*parts: str) -> str:
    """Return parts as paragraphs, those that are empty left out."""
    return "\n\n".join(part for part in parts if part)
