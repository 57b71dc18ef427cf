"""The pages of the codebook: an overview by edition, one page a table, one page a provision."""

from branchwright import codebook
from branchwright.codebook import Column, Provision, Table
from page_parts.entries import EDITIONS, Entry, cell, every_entry, lacking, proof, provisions, tables
from page_parts.markdown import blocks, code, link, long_code, table, words
from page_parts.questions import RULES

WIDE = 12
"""A table of more columns than this is shown with its rows as columns, where that makes it narrower."""


def editions() -> str:
    """Return the editions that the codebook knows, with how sure we are of what they hold."""
    confidence = {edition: {"high": 0, "medium": 0, "low": 0} for edition in EDITIONS}
    for entry in every_entry():
        for edition, evidence in entry.evidence.items():
            confidence[edition][evidence.confidence] += 1
    return table(
        ("edition", "publication", "status", "entries of high, medium, low confidence", "notes"),
        [
            (
                code(item.name),
                words(item.publication),
                words(item.status),
                ", ".join(str(count) for count in confidence[item.name].values()),
                words(item.notes or ""),
            )
            for item in codebook.editions()
        ],
    )


def tables_overview() -> str:
    """Return every table with its section and confidence in each edition."""
    return _overview("table", list(tables().values()))


def provisions_overview() -> str:
    """Return every provision with its section and confidence in each edition."""
    return _overview("provision", list(provisions().values()))


def table_pages() -> dict[str, str]:
    """Return the page of each table by its path."""
    return {entry.page: _table_page(name, entry) for name, entry in tables().items()}


def provision_pages() -> dict[str, str]:
    """Return the page of each provision by its path."""
    return {entry.page: _provision_page(entry) for entry in provisions().values()}


def _overview(kind: str, entries: list[Entry]) -> str:
    return table(
        (kind, *EDITIONS),
        [
            (
                link(entry.name, entry.page),
                *(
                    f"{words(entry.evidence[edition].section)}, {entry.evidence[edition].confidence}"
                    if edition in entry.records
                    else "none"
                    for edition in EDITIONS
                ),
            )
            for entry in entries
        ],
    )


def _table_page(folder: str, entry: Entry) -> str:
    records: dict[str, Table] = {
        name: item for name, item in entry.records.items() if isinstance(item, Table)
    }
    shown = list(records.values())[-1]
    keys = ", ".join(code(key) for key in shown.row_keys)
    return blocks(
        "---\nhide: [toc]\n---" if len(shown.columns) > WIDE else "",
        f"# {entry.name}",
        f"**{words(shown.title)}**",
        f"*Look-up:* {words(shown.lookup)} Row keys: {keys}; match {code(shown.match)}.",
        lacking(entry),
        _cited_by(folder),
        "## Rows",
        *[_rows(names, item) for names, item in _same_rows(records)],
        "## Columns",
        table(
            ("column", "unit", "meaning"),
            [(long_code(column.name), words(column.unit), words(column.meaning)) for column in shown.columns],
        ),
        "## Where it was found",
        proof(entry.evidence),
    )


def _same_rows(records: dict[str, Table]) -> list[tuple[list[str], Table]]:
    """Return each different set of rows once, with the editions that print it."""
    found: list[tuple[list[str], Table]] = []
    for edition, item in records.items():
        for names, other in found:
            if other.rows == item.rows:
                names.append(edition)
                break
        else:
            found.append(([edition], item))
    return found


def _rows(names: list[str], item: Table) -> str:
    headings = [column.name for column in item.columns]
    lines = [[cell(row[name]) for name in headings] for row in item.rows]
    if len(headings) > WIDE and len(lines) < len(headings):
        turned = list(zip(headings, *lines, strict=True))
        shown = table(
            [long_code(turned[0][0]), *turned[0][1:]], [(long_code(row[0]), *row[1:]) for row in turned[1:]]
        )
    else:
        shown = table([words(name) for name in headings], lines)
    return blocks(f"### {', '.join(names)} {{ #{'-'.join(names)} }}", shown)


def _provision_page(entry: Entry) -> str:
    records: dict[str, Provision] = {
        name: item for name, item in entry.records.items() if isinstance(item, Provision)
    }
    columns: dict[str, Column] = {column.name: column for item in records.values() for column in item.columns}
    return blocks(
        f"# {entry.name}",
        f"**{words(entry.title)}**",
        lacking(entry),
        _cited_by(entry.name),
        "## Values",
        table(
            ("value", "meaning", "unit", *records),
            [
                (
                    long_code(name),
                    words(column.meaning),
                    words(column.unit),
                    *(_value(item, name) for item in records.values()),
                )
                for name, column in columns.items()
            ],
        ),
        "## Where it was found",
        proof(entry.evidence),
    )


def _value(item: Provision, name: str) -> str:
    found = item.values.get(name)
    return "none" if found is None else cell(found.value)


def _cited_by(concept: str) -> str:
    rules = [link(rule.name, f"rules/{rule.name}.md") for rule in RULES if rule.concept == concept]
    return f"Cited by the rules {', '.join(rules)}." if rules else ""
