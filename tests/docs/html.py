"""A built page as text, anchors, addresses and tables; enough to hold it against what it should show."""

from dataclasses import dataclass, field
from html.parser import HTMLParser
from pathlib import Path

HEADINGS = frozenset({"h1", "h2", "h3"})
FETCHING = {"script": "src", "img": "src", "iframe": "src", "source": "src", "link": "href", "object": "data"}


@dataclass
class Section:
    """What stands under one heading: its level, its text, and its tables as rows of cells."""

    level: int
    text: str = ""
    tables: list[list[list[str]]] = field(default_factory=list)


class BuiltPage(HTMLParser):
    """Reads the article of a page, section by section, and every address in it."""

    def __init__(self, file: Path) -> None:
        """Read a file of the built site."""
        super().__init__()
        self.fetched: list[str] = []
        self.links: list[str] = []
        self.linked: set[str] = set()
        self.classes: set[str] = set()
        self.sections: dict[str, Section] = {"": Section(0)}
        self._here = self.sections[""]
        self._in_article = False
        self._cell: list[str] | None = None
        self._folder = file.parent
        self.feed(file.read_text("utf-8"))
        self.text = " ".join(" ".join(section.text.split()) for section in self.sections.values())

    def shows(self, text: str, section: str | None = None) -> bool:
        """Whether the page, or one section of it, shows a text, however its lines are broken."""
        shown = self.text if section is None else " ".join(self.sections[section].text.split())
        return " ".join(text.split()) in shown

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = {name: value or "" for name, value in attrs}
        self.classes.update(given.get("class", "").split())
        if tag in FETCHING and given.get(FETCHING[tag]):
            self.fetched.append(given[FETCHING[tag]])
        if tag == "a" and "href" in given:
            self.links.append(given["href"])
        if tag == "article":
            self._in_article = True
        if not self._in_article:
            return
        if tag == "a" and "href" in given:
            self.linked.add(self._within_site(given["href"]))
        if tag in HEADINGS:
            self._here = self.sections.setdefault(given.get("id", ""), Section(int(tag[1])))
        elif tag == "table":
            self._here.tables.append([])
        elif tag == "tr":
            self._here.tables[-1].append([])
        elif tag in ("td", "th"):
            self._cell = []

    def _within_site(self, address: str) -> str:
        """Return the file that a link of the article leads to."""
        return str((self._folder / address.partition("#")[0]).resolve())

    def handle_endtag(self, tag: str) -> None:
        if tag == "article":
            self._in_article = False
        elif tag in ("td", "th") and self._cell is not None:
            self._here.tables[-1][-1].append(" ".join("".join(self._cell).split()))
            self._cell = None

    def handle_data(self, data: str) -> None:
        if self._in_article:
            self._here.text += data
            if self._cell is not None:
                self._cell.append(data)
