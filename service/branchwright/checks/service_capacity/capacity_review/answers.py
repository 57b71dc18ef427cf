"""What a service capacity review answers with: open to growth, every field present."""

from dataclasses import dataclass
from typing import Annotated, Literal, TypeAlias

from pydantic import Field

from branchwright.findings import RemedyChange, Verdict
from branchwright.findings.open_enums import open_enum
from branchwright.questions.answers import CodeAnswer

Way: TypeAlias = Literal[
    "lower-setting", "energy-management", "shared-circuit", "panel-upgrade", "service-upgrade"
]


@dataclass(slots=True)
class LargestChargingCurrent:
    """The largest current that every added charger can be set to, all alike."""

    unmanaged: Annotated[
        float | None,
        Field(
            description="Without management, A: a setting that they have, access to it restricted where the edition "
            "asks for that. Null where none fits."
        ),
    ]
    managed: Annotated[
        float | None,
        Field(
            description="Under listed management of the service, A, while the house leaves room for it. "
            "Null where not even the house alone fits."
        ),
    ]


@dataclass(slots=True)
class WayToFit:
    """One way to make the chargers fit, judged again with the same rules."""

    way: Annotated[str, open_enum(Way, "What is done.")]
    charging_current_a: Annotated[
        float, Field(description="Largest current of each charger that this way leaves, A.")
    ]
    why: Annotated[str, Field(description="What it takes, and what it gives.")]
    upgrade_to_a: Annotated[
        float | None, Field(description="Standard rating of what is replaced, A; null where nothing is.")
    ]
    changes: Annotated[
        list[RemedyChange], Field(description="The changes to the request as they were judged again.")
    ]
    verdict: Annotated[str, open_enum(Verdict, "Verdict of the whole review with these changes.")]


@dataclass(slots=True)
class Capacity:
    """What the service carries, and what it could."""

    existing_load_va: Annotated[
        float | None, Field(description="Load without the chargers, VA; null where it cannot be computed.")
    ]
    charger_load_va: Annotated[
        float | None,
        Field(description="What the chargers add without management, VA, at the factor in force."),
    ]
    total_va: Annotated[float | None, Field(description="Both together, VA.")]
    total_a: Annotated[float | None, Field(description="The same in A on the busiest line, not rounded.")]
    greatest_total_a: Annotated[
        float | None,
        Field(description="The same with every missing fact at its worst, A; equal where none is missing."),
    ]
    limit_a: Annotated[float, Field(description="The least of service rating, main breaker and busbar, A.")]
    headroom_a: Annotated[
        float | None,
        Field(description="The limit less the existing load, A; below zero where that load is too large."),
    ]
    least_headroom_a: Annotated[
        float | None,
        Field(description="The same with every missing fact at its worst, A; equal where none is missing."),
    ]
    managed_total_a: Annotated[
        float | None,
        Field(description="What the control setting counts for on the service, A; null without management."),
    ]
    lost_link_total_a: Annotated[
        float | None,
        Field(
            description="Load when managed chargers have lost their monitor, A; null without management or "
            "where it is not known."
        ),
    ]
    largest_charging_current_a: LargestChargingCurrent
    ways_to_fit: Annotated[
        list[WayToFit],
        Field(
            description="Ways to make it fit, cheapest first; empty where nothing needs mending or none does."
        ),
    ]


class CapacityReviewAnswer(CodeAnswer):
    """Whether the service carries the chargers, and what would make it fit."""

    capacity: Capacity
