"""Lengths of intervals from columns with their start and their end."""

from datetime import tzinfo

import numpy as np

from branchwright.checks.service_capacity.interval_data.collected import NO_OFFSET, Collected
from branchwright.checks.service_capacity.interval_data.zones import Seconds, wall_offset
from branchwright.questions.answers import ToVerify
from branchwright.questions.local_time import DAY_S

INCLUSIVE_S = (60, 1)
"""Exports that print the last minute or second of an interval for its end are short by that."""


def lengths_of(collected: Collected, ends: Seconds, zone: tzinfo | None) -> Seconds:
    """Return the length of each interval in seconds, by the clocks at its start and its end; 0 where they do not tell.

    Where the clock was set between the two, they do not.
    """
    lengths = ends - collected.walls
    if not len(lengths):
        return lengths
    steps = np.diff(np.sort(collected.walls)).astype(np.int64)
    steps = steps[steps > 0]
    usual, step = _commonest(lengths), _commonest(steps) if len(steps) else 0
    short = step - usual
    if short in INCLUSIVE_S:
        lengths = lengths + short
        usual += short
        collected.to_verify.append(
            ToVerify(
                "query:end_column", f"ends of {short} s before the next start, taken as its last", "the file"
            )
        )
    if zone is None:
        return lengths
    for index in np.flatnonzero(lengths != usual):
        start, end = int(collected.walls[index]), int(ends[index])
        # A time of day before the start was taken for the next day's, though the clock may have been set back.
        nearby = end - DAY_S if end - start > DAY_S // 2 else end
        if collected.offsets[index] == NO_OFFSET and wall_offset(start - DAY_S // 24, zone) != wall_offset(
            nearby + DAY_S // 24, zone
        ):
            lengths[index] = 0
    return lengths


def _commonest(values: Seconds) -> int:
    found, often = np.unique(values, return_counts=True)
    return int(found[np.argmax(often)])
