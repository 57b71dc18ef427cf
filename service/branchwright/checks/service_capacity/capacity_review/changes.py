"""Changes to a request, as they are tried and as an answer gives them."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, TypeAlias

from branchwright.checks.service_capacity.capacity_review.facts import CapacityReviewRequest
from branchwright.findings import RemedyChange
from branchwright.questions.changes import changed
from branchwright.questions.fields import Facts

Given: TypeAlias = float | str | bool | Facts | tuple[Facts, ...] | None


@dataclass(slots=True, frozen=True)
class Change:
    """A field of the request and what to put there."""

    pointer: str
    value: Given

    def as_json(self) -> RemedyChange:
        """Return the change as an answer gives it."""
        return RemedyChange(self.pointer, _as_json(self.value))


def _as_json(value: Given) -> Any:
    if isinstance(value, Facts):
        return value.model_dump(mode="json", exclude_none=True)
    return [_as_json(item) for item in value] if isinstance(value, tuple) else value


def changed_request(request: CapacityReviewRequest, changes: Sequence[Change]) -> CapacityReviewRequest:
    """Return the request with changes made."""
    for change in changes:
        request = changed(request, change.pointer, change.value)
    return request
