"""What the codebook holds, entry by entry over all editions: the ground that the pages on it stand on."""

from collections.abc import Iterator
from dataclasses import dataclass

from branchwright import codebook
from branchwright.codebook import Provision, Table, loader
from branchwright.codebook.records import Evidence
from branchwright.findings.citations import Value
from page_parts.markdown import blocks, bullets, by_edition, table, words

EDITIONS = tuple(record.name for record in codebook.editions())


@dataclass(frozen=True)
class Entry:
    """A table or a provision: its public name, its title, its page, and its record in each edition that has it."""

    name: str
    title: str
    page: str
    records: dict[str, Table] | dict[str, Provision]

    @property
    def is_table(self) -> bool:
        """Whether it is a table; a provision may have the same name."""
        return isinstance(_latest(self.records), Table)

    @property
    def evidence(self) -> dict[str, Evidence]:
        """Return where each edition's values were found."""
        return {edition: record.evidence for edition, record in self.records.items()}


def tables() -> dict[str, Entry]:
    """Return every table of any edition by the name of its folder."""
    found: dict[str, dict[str, Table]] = {}
    for edition in EDITIONS:
        for name, record in loader.tables(edition).items():
            found.setdefault(name, {})[edition] = record
    return {
        name: Entry(public(name), _latest(records).title, f"codebook/tables/{public(name)}.md", records)
        for name, records in sorted(found.items())
    }


def provisions() -> dict[str, Entry]:
    """Return every provision of any edition by its concept."""
    found: dict[str, dict[str, Provision]] = {}
    for edition in EDITIONS:
        for concept, record in loader.provisions(edition).items():
            found.setdefault(concept, {})[edition] = record
    return {
        concept: Entry(concept, _latest(records).title, f"codebook/provisions/{concept}.md", records)
        for concept, records in sorted(found.items())
    }


def every_entry() -> Iterator[Entry]:
    """Return the tables, then the provisions."""
    yield from tables().values()
    yield from provisions().values()


def public(name: str) -> str:
    """Return a table's name as paths and steps write it."""
    return name.replace("_", "-")


def cell(value: Value | None) -> str:
    """Return a value as it is printed; an empty cell stays empty."""
    if value is None:
        return ""
    return words(f"{value:.10g}" if isinstance(value, float) else value)


def proof(evidence: dict[str, Evidence]) -> str:
    """Return for each edition the section and how sure we are, then the sources and notes."""
    return blocks(
        table(
            ("edition", "section", "confidence", "found", "checked"),
            [
                (edition, words(item.section), item.confidence, item.found, item.checked)
                for edition, item in evidence.items()
            ],
        ),
        bullets(
            f"*Source* ({names}): {words(text)}"
            for names, text in by_edition({name: item.source for name, item in evidence.items()})
        ),
        bullets(
            f"*Notes* ({names}): {words(text)}"
            for names, text in by_edition({name: item.notes or "" for name, item in evidence.items()})
        ),
    )


def lacking(entry: Entry) -> str:
    """Return which editions do not have an entry."""
    without = [edition for edition in EDITIONS if edition not in entry.records]
    return f"Not in {', '.join(without)}." if without else ""


def _latest(records: dict[str, Table] | dict[str, Provision]) -> Table | Provision:
    return list(records.values())[-1]
