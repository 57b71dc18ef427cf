"""Where a value comes from: the citation, and values that carry it."""

from dataclasses import dataclass
from typing import Annotated, TypeAlias

from pydantic import Field

Value: TypeAlias = float | str


@dataclass(slots=True, frozen=True)
class Citation:
    """A place in a publication."""

    publication: Annotated[str, Field(description="The code edition or publication, by its name here.")]
    section: Annotated[str, Field(description="Section or table number as the publication prints it.")]


@dataclass(slots=True)
class StepInput:
    """One input of a step: a value, its unit and the place that it was taken from."""

    value: Annotated[Value, Field(description="The number, or the name of a size, material or column.")]
    unit: Annotated[str, Field(description="The unit; 1 for a plain number, text for a name.")]
    origin: Annotated[
        str,
        Field(
            serialization_alias="from",
            description="request:<JSON pointer into the request>, design:<JSON pointer into the design>, "
            "codebook:<table or provision>/<row key>/<column>, or step:<id of an earlier step>.",
        ),
    ]


@dataclass(slots=True)
class Sourced(StepInput):
    """A value of the codebook with its citation; it stands as the input of a step as it is."""

    citation: Citation

    @property
    def number(self) -> float:
        """The value where it is a number; TypeError where it is a name."""
        if isinstance(self.value, str):
            raise TypeError(f"{self.origin} is the name {self.value!r}, not a number.")
        return self.value

    @property
    def name(self) -> str:
        """The value where it is the name of a size, material or place; TypeError where it is a number."""
        if isinstance(self.value, str):
            return self.value
        raise TypeError(f"{self.origin} is the number {self.value!r}, not a name.")
