"""What answers have in common: the judged part, the readings that were consulted, and what to verify."""

from dataclasses import dataclass
from typing import Annotated

from pydantic import BaseModel, Field

from branchwright.findings import Finding, Provenance, Step, Verdict
from branchwright.findings.open_enums import open_enum


@dataclass(slots=True)
class OtherReading:
    """The verdict of the same facts under another reading."""

    reading: str
    verdict: Annotated[str, open_enum(Verdict, "Verdict under this reading alone.")]


@dataclass(slots=True)
class ConsultedInterpretation:
    """A disputed provision that this answer had to read one way."""

    name: str
    reading: Annotated[str, Field(description="The reading in force for this answer.")]
    other_readings: list[OtherReading]
    changes_verdict: Annotated[bool, Field(description="Whether any other reading changes the verdict.")]


@dataclass(slots=True)
class ToVerify:
    """A fact that the caller declared or left open, to be seen on site."""

    pointer: str
    stated: Annotated[str, Field(description="What was stated, or what was assumed.")]
    evidence: Annotated[str, Field(description="Where it can be seen.")]


class JudgedAnswer(BaseModel):
    """What every answer that judges has."""

    verdict: Annotated[
        str, open_enum(Verdict, "Never more than that no failure was found in what was stated.")
    ]
    findings: list[Finding]
    steps: list[Step]
    to_verify: list[ToVerify]
    not_examined: list[str]
    cautions: list[str]
    provenance: Provenance


class CodeAnswer(JudgedAnswer):
    """What every answer has that judges by a code edition."""

    edition: Annotated[str, Field(description="The code edition that was applied.")]
    jurisdiction: Annotated[
        str | None, Field(description="As stated in the request; its local amendments are not applied.")
    ]
    interpretations: list[ConsultedInterpretation]
