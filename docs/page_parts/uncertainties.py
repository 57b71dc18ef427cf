"""What rests on weaker ground, from the codebook's own records."""

from collections.abc import Callable

from branchwright.codebook.records import Evidence
from page_parts.entries import EDITIONS, every_entry
from page_parts.markdown import blocks, link, table, words


def less_than_high() -> str:
    """Return for each edition the entries whose confidence is medium or low, with source and notes."""
    return blocks(
        *[
            blocks(
                f"### {edition} {{ #{edition} }}",
                _entries(edition, lambda evidence: evidence.confidence != "high"),
            )
            for edition in EDITIONS
        ]
    )


def sure_but_not_from_print() -> str:
    """Return for each edition the entries of high confidence that were not read from a print."""
    return blocks(
        *[
            blocks(
                f"### {edition}, by heart or recomputed {{ #{edition}-not-from-print }}",
                _entries(
                    edition, lambda evidence: evidence.confidence == "high" and evidence.found != "print"
                ),
            )
            for edition in EDITIONS
        ]
    )


def _entries(edition: str, wanted: Callable[[Evidence], bool]) -> str:
    """Return the wanted entries of an edition, those of low confidence first."""
    found = [
        (entry, entry.evidence[edition])
        for entry in every_entry()
        if edition in entry.records and wanted(entry.evidence[edition])
    ]
    found.sort(key=lambda item: item[1].confidence != "low")
    if not found:
        return "None."
    return table(
        ("entry", "section", "confidence, found", "source and notes"),
        [
            (
                link(entry.name, entry.page) + (" (table)" if entry.is_table else ""),
                words(evidence.section),
                f"{evidence.confidence}, {evidence.found}",
                " ".join(
                    part
                    for part in (f"*Source:* {words(evidence.source)}", words(evidence.notes or ""))
                    if part
                ),
            )
            for entry, evidence in found
        ],
    )
