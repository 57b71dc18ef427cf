"""What a load calculation answers with: open to growth, every field present."""

from dataclasses import dataclass
from typing import Annotated, Literal, TypeAlias

from pydantic import Field

from branchwright.checks.service_capacity.dwelling_load.facts import Method
from branchwright.findings import Citation, Verdict
from branchwright.findings.open_enums import open_enum
from branchwright.questions.answers import CodeAnswer

Group: TypeAlias = Literal[
    "lighting",
    "cooking",
    "dryers",
    "appliances",
    "heating",
    "cooling",
    "largest-motor",
    "chargers",
    "pool",
]


@dataclass(slots=True)
class LoadItem:
    """One load that a method counts, before any demand factor."""

    group: Annotated[str, open_enum(Group, "Which lines it is part of.")]
    item: Annotated[str, Field(description="What it is, in words.")]
    pointer: Annotated[
        str | None, Field(description="JSON pointer of the field of the request that states it, if one does.")
    ]
    connected_va: Annotated[float, Field(description="Its load as the edition counts it, VA.")]


@dataclass(slots=True)
class LoadLine:
    """One line of a load calculation. The connected loads of a group's lines are those of its items."""

    group: Annotated[str, open_enum(Group, "What the line belongs to.")]
    item: Annotated[str, Field(description="What it is, in words.")]
    pointer: Annotated[
        str | None,
        Field(
            description="JSON pointer of the field of the request that it rests on; null where several do."
        ),
    ]
    connected_va: Annotated[float, Field(description="Load before the demand factor, VA.")]
    demand_factor: Annotated[
        float,
        Field(
            description="Demand over connected load; 0 for a load that is left out. Where a table prints the demand "
            "itself, the factor that it comes to."
        ),
    ]
    demand_va: Annotated[
        float, Field(description="What counts, VA. The demands of a method add up to its total.")
    ]
    citation: Citation


@dataclass(slots=True)
class MethodAnswer:
    """The load by one method."""

    method: Annotated[str, open_enum(Method, "The method.")]
    permitted: Annotated[
        bool | None, Field(description="Whether the method may be used here; null where a fact is missing.")
    ]
    why: Annotated[str, Field(description="Why it may, may not, or cannot be told.")]
    items: Annotated[list[LoadItem], Field(description="The loads one by one.")]
    lines: Annotated[list[LoadLine], Field(description="The calculation line by line.")]
    total_va: Annotated[
        float | None,
        Field(description="Sum of the demands, to a millionth of a VA; null where a load is undetermined."),
    ]
    current_a: Annotated[
        float | None, Field(description="Line current of the total, unrounded; null without a voltage.")
    ]
    rounded_current_a: Annotated[float | None, Field(description="The same, rounded as the edition does.")]
    least_service_rating_a: Annotated[
        float | None,
        Field(
            description="Least standard rating for that current, and no less than the edition asks of any service; "
            "null where none is made."
        ),
    ]
    neutral_lines: Annotated[
        list[LoadLine], Field(description="The neutral's load line by line; by every method the same.")
    ]
    neutral_va: Annotated[float | None, Field(description="Load of the neutral, VA.")]
    neutral_current_a: Annotated[
        float | None,
        Field(description="Current of the neutral, unrounded, after the reduction of a large one."),
    ]
    rounded_neutral_current_a: Annotated[
        float | None, Field(description="The same, rounded as the edition does.")
    ]
    verdict: Annotated[
        str | None,
        open_enum(Verdict, "By this method alone; null where no rating of the service is stated."),
    ]


class LoadCalculationAnswer(CodeAnswer):
    """The dwelling's load by each method that was asked for."""

    methods: Annotated[
        list[MethodAnswer],
        Field(description="In the order standard, optional-new, optional-existing."),
    ]
