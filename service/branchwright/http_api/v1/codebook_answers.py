"""What the codebook is asked for and answers with over HTTP."""

from __future__ import annotations

from typing import Annotated

from pydantic import BaseModel, ConfigDict, Field

from branchwright.codebook import Column, EditionRecord
from branchwright.codebook.differences import Difference
from branchwright.codebook.records import Evidence

NextAfter = Annotated[str | None, Field(description="'after' of the next page; null on the last one.")]


class Page(BaseModel):
    """Which part of a list is wanted. Lists are ordered by name."""

    model_config = ConfigDict(extra="forbid")

    limit: Annotated[int, Field(ge=1, le=100, description="How many entries at most.")] = 20
    after: Annotated[
        str | None, Field(max_length=200, description="Only entries whose name comes after this one.")
    ] = None


class DifferencesPage(Page):
    """Which part of the differences is wanted. They are ordered by kind, then by name."""

    after: Annotated[
        str | None,
        Field(
            max_length=200, description="Only differences after this one, written kind/name as next_after is."
        ),
    ] = None


class EditionPage(BaseModel):
    """A part of the list of editions."""

    items: list[EditionRecord]
    next_after: NextAfter


class TableSummary(BaseModel):
    """A table of an edition, without its rows."""

    name: str
    title: str
    row_count: int
    evidence: Evidence


class ProvisionAnswer(BaseModel):
    """What an edition says on one concept."""

    concept: str
    title: str
    columns: Annotated[list[Column], Field(description="The values' names, units and meanings.")]
    values: dict[str, str | float]
    evidence: Evidence


class InterpretationAnswer(BaseModel):
    """A point that is read two ways."""

    name: Annotated[str, Field(description="As used in the readings of a request.")]
    question: str
    default: Annotated[str, Field(description="The reading that binds where a request chooses none.")]
    readings: Annotated[dict[str, str], Field(description="Each reading with its meaning.")]
    section: Annotated[
        str | None, Field(description="The disputed section; null where the edition has none.")
    ]
    notes: str | None


class EditionAnswer(BaseModel):
    """An edition with what the codebook holds of it."""

    edition: EditionRecord
    tables: list[TableSummary]
    provisions: list[ProvisionAnswer]
    interpretations: list[InterpretationAnswer]


class TableAnswer(BaseModel):
    """A table of an edition with its rows."""

    edition: str
    name: str
    title: str
    lookup: Annotated[str, Field(description="How the table is read.")]
    row_keys: Annotated[list[str], Field(description="The columns that find a row.")]
    columns: list[Column]
    rows: Annotated[
        list[dict[str, str | float | None]],
        Field(description="Each row by column name; null where the book prints nothing."),
    ]
    evidence: Evidence


class EditionComparison(BaseModel):
    """A part of what differs between two editions."""

    edition: Annotated[str, Field(description="This edition, from which the change is told.")]
    other: Annotated[str, Field(description="The other edition, to which it leads.")]
    items: list[Difference]
    next_after: NextAfter


class RuleSummary(BaseModel):
    """A rule: one question that a check asks."""

    name: str
    check: Annotated[str, Field(description="The check that applies it, such as circuits.")]
    subject: Annotated[str, Field(description="What it judges.")]
    force: Annotated[str, Field(description="requirement or recommendation.")]
    question: str


class RulePage(BaseModel):
    """A part of the list of rules."""

    items: list[RuleSummary]
    next_after: NextAfter


class RuleSection(BaseModel):
    """The section that a rule rests on in one edition."""

    edition: str
    section: Annotated[
        str | None,
        Field(description="Null where the edition has no such provision, or the rule rests on none."),
    ]


class RuleAnswer(RuleSummary):
    """A rule in prose, with the sections that it rests on."""

    prose: Annotated[str, Field(description="When it applies, what it rests on, what a missing fact does.")]
    sections: list[RuleSection]
    interpretations: Annotated[list[str], Field(description="The interpretations that it may consult.")]
