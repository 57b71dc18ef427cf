"""Where a value comes from: the citation, and values that carry it."""

from dataclasses import dataclass, field
from typing import Annotated, NoReturn, TypeAlias

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
            "series:<JSON pointer into the series>, bill:<JSON pointer into the worked bill>, answer:<JSON pointer "
            "into the answer>, codebook:<table or provision>/<row key>/<column>, price-book:<key>/<low, likely or "
            "high>, labour:<task, hourly_rate or condition_factors/<condition>>/<field>, or step:<id of an earlier "
            "step>. Decimal text at such a place stands for its number.",
        ),
    ]


@dataclass(slots=True)
class Sourced(StepInput):
    """A value of the codebook with its citation; it stands as the input of a step as it is.

    `number` is the value where it is a number, `name` where it is the name of a size, material or place. Each
    raises TypeError on the other kind, so that neither can be taken for the other.
    """

    citation: Citation
    number: float = field(init=False, repr=False, compare=False)
    name: str = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        """Set the one of the two that the value is."""
        if isinstance(self.value, str):
            self.name = self.value
        else:
            self.number = self.value

    def __getattr__(self, attribute: str) -> NoReturn:
        """Refuse the number of a name and the name of a number: only the attribute that is not set comes here."""
        if attribute in ("number", "name"):
            raise TypeError(f"{self.origin} is {self.value!r}, which is no {attribute}.")
        raise AttributeError(attribute)
