"""A finding: what one rule says of the circuit."""

from dataclasses import dataclass
from math import inf, isfinite
from typing import Annotated, Any, Literal, TypeAlias

from pydantic import Field

from branchwright.findings.citations import Citation, Value
from branchwright.findings.open_enums import open_enum

Outcome: TypeAlias = Literal["pass", "fail", "undetermined", "not-applicable"]
Force: TypeAlias = Literal["requirement", "recommendation"]
Comparison: TypeAlias = Literal["at-least", "at-most", "equal", "one-of", "present"]


@dataclass(slots=True)
class Required:
    """What the rule asks for."""

    value: Annotated[Value | list[str], Field(description="The limit, or the permitted values.")]
    unit: Annotated[str, Field(description="Unit of the value; text for names.")]
    comparison: Annotated[str, open_enum(Comparison, "How the provided value is held against it.")]


@dataclass(slots=True)
class Provided:
    """What the circuit has."""

    value: Annotated[Value, Field(description="The circuit's own value.")]
    unit: Annotated[str, Field(description="Unit of the value; text for names.")]


@dataclass(slots=True)
class RemedyChange:
    """One field of the request and what to put there."""

    pointer: Annotated[str, Field(description="JSON pointer into the request.")]
    value: Annotated[Any, Field(description="The value to put there, whatever was or was not stated.")]


@dataclass(slots=True)
class Remedy:
    """The nearest single change that was computed and reviewed again."""

    pointer: Annotated[str, Field(description="JSON pointer of the field of the request to change.")]
    given: Annotated[Value | None, Field(description="Its value now; null where it is not stated.")]
    proposed: Annotated[Value, Field(description="What to change it to, in a word or a number.")]
    changes: Annotated[
        list[RemedyChange],
        Field(description="The change as it was made for the second check, with what belongs to it."),
    ]
    message: Annotated[str, Field(description="The change in words.")]
    verdict: Annotated[
        str,
        open_enum(
            Literal["no-failure-found", "fail", "undetermined"],
            "Verdict of the whole circuit after this change alone; fail means that other failures remain.",
        ),
    ]


@dataclass(slots=True)
class Finding:
    """What one rule says of the circuit."""

    rule: Annotated[str, Field(description="Name of the rule; GET /v1/rules/{rule} explains it.")]
    outcome: Annotated[str, open_enum(Outcome, "What the rule found.")]
    force: Annotated[str, open_enum(Force, "Only requirements decide the verdict.")]
    subject: Annotated[str, Field(description="What the rule looked at.")]
    pointer: Annotated[
        str | None,
        Field(
            description="JSON pointer of the field of the request that the finding is about; query:<name> for a field "
            "of the query."
        ),
    ]
    segment: Annotated[int | None, Field(description="Index of the segment that governs, if one does.")]
    required: Annotated[Required | None, Field(description="What is asked for.")]
    provided: Annotated[Provided | None, Field(description="What there is.")]
    margin_percent: Annotated[
        float | None,
        Field(description="How far the provided value is on the safe side, in percent of the required."),
    ]
    citation: Annotated[Citation | None, Field(description="The section that the rule rests on.")]
    message: Annotated[str, Field(description="The finding in one sentence.")]
    remedy: Annotated[
        Remedy | None, Field(description="For a failure: the nearest change that was found to work.")
    ]


def margin_at_least(provided: float, required: float) -> float | None:
    """Return by how many percent a value exceeds the least permitted one; None where that is no finite number.

    >>> margin_at_least(66.0, 60.0)
    10.0
    """
    margin = (provided / required - 1.0) * 100.0 if required else inf
    return round(margin, 2) if isfinite(margin) else None


def margin_at_most(provided: float, required: float) -> float | None:
    """Return by how many percent of the limit a value stays below it; None where that is no finite number.

    >>> margin_at_most(45.0, 60.0)
    25.0
    """
    margin = (1.0 - provided / required) * 100.0 if required else inf
    return round(margin, 2) if isfinite(margin) else None
