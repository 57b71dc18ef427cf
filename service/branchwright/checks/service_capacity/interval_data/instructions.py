"""Which of the instructions in the query mean something for a body."""

from collections.abc import Collection

from branchwright.checks.service_capacity.interval_data.facts import Instructions

ABOUT_ANY_TEXT = frozenset(
    {
        "edition",
        "jurisdiction",
        "time_zone",
        "system",
        "phases",
        "has_generation",
        "leg_assumption",
        "measured_with_generation",
        "measured_demand_interval",
    }
)
OF_CSV = frozenset(Instructions.model_fields) - ABOUT_ANY_TEXT - {"meter_reading"}


def unused(instructions: Instructions, used: Collection[str]) -> list[str]:
    """Return pointers to the instructions that were stated and are not among those used."""
    return [
        f"query:{Instructions.model_fields[name].alias or name}"
        for name in Instructions.model_fields
        if getattr(instructions, name) is not None and name not in used
    ]
