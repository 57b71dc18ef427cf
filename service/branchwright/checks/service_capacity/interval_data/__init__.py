"""Interval data: what meter readings say of the demand, and how good they are."""

from typing import TYPE_CHECKING

from branchwright.checks.service_capacity.interval_data.answers import IntervalDataAnswer
from branchwright.checks.service_capacity.interval_data.facts import Instructions, IntervalDataRequest
from branchwright.checks.service_capacity.interval_data.unreadable import UnreadableBody
from branchwright.questions.when_asked import when_asked

if TYPE_CHECKING:
    from branchwright.checks.service_capacity.interval_data.entry import (
        read_csv,
        read_green_button,
        read_json,
    )
    from branchwright.checks.service_capacity.interval_data.rules import RULES, DataRule

__all__ = [
    "RULES",
    "DataRule",
    "Instructions",
    "IntervalDataAnswer",
    "IntervalDataRequest",
    "UnreadableBody",
    "read_csv",
    "read_green_button",
    "read_json",
]

__getattr__ = when_asked(
    __name__,
    {
        "DataRule": "rules",
        "RULES": "rules",
        "read_csv": "entry",
        "read_green_button": "entry",
        "read_json": "entry",
    },
)
