"""Interval data: what meter readings say of the demand, and how good they are."""

from branchwright.checks.service_capacity.interval_data.answers import IntervalDataAnswer
from branchwright.checks.service_capacity.interval_data.entry import read_csv, read_green_button, read_json
from branchwright.checks.service_capacity.interval_data.facts import Instructions, IntervalDataRequest
from branchwright.checks.service_capacity.interval_data.unreadable import UnreadableBody

__all__ = [
    "Instructions",
    "IntervalDataAnswer",
    "IntervalDataRequest",
    "UnreadableBody",
    "read_csv",
    "read_green_button",
    "read_json",
]
