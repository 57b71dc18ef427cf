"""The codebook: every table, provision and interpretation, with where each was found and how sure we are."""

from collections.abc import Callable, Iterator

from branchwright import codebook
from branchwright.codebook import Provision, Table, loader
from branchwright.codebook.records import Evidence
from branchwright.findings.citations import Value
from page_parts.markdown import blocks, code, table, words


def editions() -> str:
    """Return the editions that the codebook knows."""
    return table(
        ("edition", "title", "publication", "notes"),
        [
            (code(item.name), words(item.title), words(item.publication), words(item.notes or ""))
            for item in codebook.editions()
        ],
    )


def tables() -> str:
    """Return every table of every edition with its rows."""
    return blocks(
        *[_table(item, edition.name) for edition in codebook.editions() for item in _tables(edition.name)]
    )


def provisions() -> str:
    """Return every provision of every edition with its values."""
    return blocks(
        *[
            _provision(item, edition.name)
            for edition in codebook.editions()
            for item in loader.provisions(edition.name).values()
        ]
    )


def interpretations() -> str:
    """Return the points that are read two ways, with their readings."""
    return blocks(
        *[
            blocks(
                f"### {item.name} {{ #interpretation-{item.name} }}",
                f"**{words(item.question)}**",
                "Section: " + "; ".join(f"{words(section)} ({at})" for at, section in item.sections.items()),
                table(
                    ("reading", "meaning", "default"),
                    [
                        (code(name), words(meaning), "yes" if name == item.default else "")
                        for name, meaning in item.readings.items()
                    ],
                ),
                words(item.notes or ""),
            )
            for item in codebook.interpretations()
        ]
    )


def interpretation_defaults() -> str:
    """Return one line for each interpretation: the question, the reading that binds, the notes."""
    return table(
        ("interpretation", "question", "default", "notes"),
        [
            (
                f"[{item.name}](codebook.md#interpretation-{item.name})",
                words(item.question),
                code(item.default),
                words(item.notes or ""),
            )
            for item in codebook.interpretations()
        ],
    )


def less_than_high() -> str:
    """Return the entries whose confidence is medium or low, with the reason."""
    return _entries(lambda evidence: evidence.confidence != "high")


def sure_but_not_from_print() -> str:
    """Return the entries of high confidence that were not read from a print."""
    return _entries(lambda evidence: evidence.confidence == "high" and evidence.found != "print")


def _entries(wanted: Callable[[Evidence], bool]) -> str:
    """Return one short section an entry."""
    return blocks(
        *[
            blocks(
                f"### [{words(title)}](codebook.md#{anchor}) {{ #{anchor} }}",
                f"{words(evidence.section)}. Confidence: {evidence.confidence}. Found: {evidence.found}.",
                f"*Source:* {words(evidence.source)}",
                f"*Notes:* {words(evidence.notes)}" if evidence.notes else "",
            )
            for title, anchor, evidence in _evidence()
            if wanted(evidence)
        ]
    )


def _evidence() -> Iterator[tuple[str, str, Evidence]]:
    for edition in codebook.editions():
        for item in _tables(edition.name):
            yield item.title, f"table-{_public(item)}", item.evidence
        for provision in loader.provisions(edition.name).values():
            yield provision.title, f"provision-{provision.concept}", provision.evidence


def _tables(edition: str) -> list[Table]:
    return list(loader.tables(edition).values())


def _public(item: Table) -> str:
    """Return a table's name as paths and steps write it."""
    return item.name.replace("_", "-")


def _table(item: Table, edition: str) -> str:
    keys = ", ".join(code(key) for key in item.row_keys)
    return blocks(
        f"### {words(item.title)} {{ #table-{_public(item)} }}",
        f"{code(_public(item))}, {edition}. {words(item.evidence.section)}.",
        f"*Look-up:* {words(item.lookup)} Row keys: {keys}; match {code(item.match)}.",
        _proof(item.evidence),
        table(
            ("column", "unit", "meaning"),
            [(code(column.name), words(column.unit), words(column.meaning)) for column in item.columns],
        ),
        table(
            [column.name for column in item.columns],
            [[_cell(row[column.name]) for column in item.columns] for row in item.rows],
        ),
    )


def _provision(item: Provision, edition: str) -> str:
    return blocks(
        f"### {words(item.title)} {{ #provision-{item.concept} }}",
        f"{code(item.concept)}, {edition}. {words(item.evidence.section)}.",
        _proof(item.evidence),
        table(
            ("value", "", "unit", "meaning"),
            [
                (
                    code(column.name),
                    _cell(item.values[column.name].value),
                    words(column.unit),
                    words(column.meaning),
                )
                for column in item.columns
            ],
        ),
    )


def _proof(evidence: Evidence) -> str:
    lines = [
        f"- Confidence: {evidence.confidence}. Found: {evidence.found}. Checked: {evidence.checked}.",
        f"- Source: {words(evidence.source)}",
        f"- Notes: {words(evidence.notes)}" if evidence.notes else "",
    ]
    return "\n".join(line for line in lines if line)


def _cell(value: Value | None) -> str:
    """Return a value as it is printed; an empty cell stays empty."""
    if value is None:
        return ""
    return words(f"{value:.10g}" if isinstance(value, float) else value)
