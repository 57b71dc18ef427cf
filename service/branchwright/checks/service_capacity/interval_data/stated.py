"""What the caller states beside the readings, however it was sent."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from branchwright.checks.service_capacity.interval_data.facts import (
    Instructions,
    IntervalDataRequest,
    LegAssumption,
)
from branchwright.codebook import Book, at
from branchwright.questions.fields import Edition, System


@dataclass(slots=True, frozen=True)
class Stated:
    """The facts that a JSON body and a query have in common."""

    edition: Edition | None
    jurisdiction: str | None
    time_zone: str | None
    system: System | None
    phases: int | None
    has_generation: bool | None
    leg_assumption: LegAssumption | None
    readings: Mapping[str, str]
    root: str
    """What pointers to the facts begin with: / in a body, query: beside one."""

    request: Mapping[str, Any]
    """The whole request, for its digest; a body of text by its own."""

    def pointer(self, name: str) -> str:
        """Return the pointer to a fact."""
        return self.root + name

    @property
    def legs(self) -> LegAssumption:
        """How the demand is taken to lie on the legs."""
        return self.leg_assumption or "balanced"

    @property
    def book(self) -> Book | None:
        """The codebook bound to the edition and readings; None without an edition."""
        return None if self.edition is None else at(self.edition, self.readings)


def stated_in_body(request: IntervalDataRequest) -> Stated:
    """Return what a JSON body states."""
    chosen = request.readings
    return Stated(
        request.edition,
        request.jurisdiction,
        request.time_zone,
        request.system,
        request.phases,
        request.has_generation,
        request.leg_assumption,
        chosen.model_dump(by_alias=True, exclude_none=True) if chosen else {},
        "/",
        request.model_dump(by_alias=True, exclude_unset=True),
    )


def stated_in_query(instructions: Instructions, body_sha256: str) -> Stated:
    """Return what a query states beside a body with this digest."""
    names = ("measured_with_generation", "measured_demand_interval")
    return Stated(
        instructions.edition,
        instructions.jurisdiction,
        instructions.time_zone,
        instructions.system,
        instructions.phases,
        instructions.has_generation,
        instructions.leg_assumption,
        instructions.model_dump(by_alias=True, exclude_none=True, include=set(names)),
        "query:",
        {"query": instructions.model_dump(by_alias=True, exclude_unset=True), "body_sha256": body_sha256},
    )
