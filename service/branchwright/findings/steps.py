"""A step: one line of arithmetic that a reader can replay with a pencil."""

from dataclasses import dataclass
from typing import Annotated

from pydantic import Field

from branchwright.findings.citations import Citation, StepInput, Value


@dataclass(slots=True)
class Step:
    """One replayable computation.

    The expression uses numbers, the names of its inputs, `+ - * / ^ ( )`, `sqrt min max floor ceil round`
    and `lookup(table, key, ..., column part, ...)`.
    """

    id: Annotated[str, Field(description="Unique within the answer; other steps name it as step:<id>.")]
    quantity: Annotated[str, Field(description="What is computed, in the words of the trade.")]
    segment: Annotated[int | None, Field(description="Index of the run's segment, if it concerns one.")]
    expression: Annotated[str, Field(description="The expression over the inputs.")]
    inputs: Annotated[
        dict[str, StepInput], Field(description="The inputs by the names that the expression uses.")
    ]
    value: Annotated[Value, Field(description="What the expression evaluates to.")]
    unit: Annotated[str, Field(description="Unit of the value; 1 for a plain number, size for a size.")]
    citation: Annotated[
        Citation | None, Field(description="The section that asks for this computation, if any.")
    ]

    def as_input(self) -> StepInput:
        """Return this step's value as an input of a later step."""
        return StepInput(self.value, self.unit, "step:" + self.id)
