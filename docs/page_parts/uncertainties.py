"""What rests on weaker ground, from the codebook's own records."""

from page_parts.entries import EDITIONS, Entry, every_entry
from page_parts.markdown import blocks, link, table, words


def less_than_high() -> str:
    """Return for each edition the entries whose confidence is medium or low, those of low confidence first."""
    return blocks(
        *[blocks(f"### {edition} {{ #{edition} }}", _weaker(edition)) for edition in reversed(EDITIONS)]
    )


def sure_but_not_from_print() -> str:
    """Return the entries of high confidence that were not read from a print, with the editions."""
    lines = []
    for entry in every_entry():
        found: dict[str, list[str]] = {}
        for edition, evidence in entry.evidence.items():
            if evidence.confidence == "high" and evidence.found != "print":
                found.setdefault(evidence.found, []).append(edition)
        lines += [(_named(entry), how, ", ".join(editions)) for how, editions in found.items()]
    return table(("entry", "found", "editions"), lines)


def _weaker(edition: str) -> str:
    found = [
        (entry, entry.evidence[edition])
        for entry in every_entry()
        if edition in entry.records and entry.evidence[edition].confidence != "high"
    ]
    found.sort(key=lambda item: item[1].confidence != "low")
    return table(
        ("entry", "section", "confidence, found", "why"),
        [
            (
                _named(entry),
                words(evidence.section),
                f"{evidence.confidence}, {evidence.found}",
                _why(entry, edition),
            )
            for entry, evidence in found
        ],
    )


def _why(entry: Entry, edition: str) -> str:
    """Return source and notes; notes that a later edition has word for word are not repeated."""
    evidence = entry.evidence[edition]
    if not evidence.notes:
        return words(evidence.source)
    later = [name for name in EDITIONS[EDITIONS.index(edition) + 1 :] if _shows(entry, name, evidence.notes)]
    notes = f"as in {later[-1]}." if later else words(evidence.notes)
    return f"{words(evidence.source.rstrip('.'))}. *Notes:* {notes}"


def _shows(entry: Entry, edition: str, notes: str) -> bool:
    """Return whether the notes of an entry stand in an edition's list."""
    evidence = entry.evidence.get(edition)
    return evidence is not None and evidence.confidence != "high" and evidence.notes == notes


def _named(entry: Entry) -> str:
    return link(entry.name, entry.page) + (" (table)" if entry.is_table else "")
