"""The index of the decision records, from their titles."""

from pathlib import Path

from page_parts.markdown import link, table

FOLDER = Path(__file__).parents[1] / "pages" / "decisions"


def index() -> str:
    """Return every decision with its number, in order."""
    return table(("", "decision"), [_line(file) for file in sorted(FOLDER.glob("[0-9]*.md"))])


def _line(file: Path) -> tuple[str, str]:
    number, _, title = file.read_text("utf-8").partition("\n")[0].removeprefix("# ").partition(". ")
    return number, link(title, f"decisions/{file.name}")
