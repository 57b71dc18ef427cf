"""What a reader has collected from a body, before anything is put in order."""

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import get_args

import numpy as np
import numpy.typing as npt

from branchwright.checks.service_capacity.interval_data.facts import Quality, Unit
from branchwright.checks.service_capacity.interval_data.zones import Seconds
from branchwright.questions.answers import ToVerify

MARKS: tuple[str, ...] = get_args(Quality)
"""How a value came about, by the number that stands for it in arrays."""

MEASURED = MARKS.index("measured")
NOT_MEASURED = tuple(MARKS.index(mark) for mark in ("edited", "estimated", "derived", "projected", "mixed"))
DOUBTFUL = tuple(MARKS.index(mark) for mark in ("questionable", "unknown"))

NO_OFFSET = 1_000_000
"""Stands in the array of offsets for a stamp that has none."""


@dataclass(slots=True)
class Collected:
    """Readings in the order of the body: arrays of one length."""

    unit: Unit
    walls: Seconds
    """The clock of each stamp, as if it stood in UTC."""

    offsets: Seconds
    """What that clock is ahead of UTC, in seconds; NO_OFFSET where the stamp has none."""

    values: npt.NDArray[np.float64]
    """In the unit; NaN where the body has a place without a value."""

    marks: npt.NDArray[np.uint8]

    place: Callable[[int], str]
    """Where in the body a reading stands."""

    place_of_stamp: Callable[[int], str]
    """Where its stamp does."""

    lengths: Seconds | None = None
    """Of each interval in seconds, where the body states them."""

    interval_minutes: int | None = None
    """As the request states it."""

    at_end: bool = False
    """Whether stamps are the ends of their intervals."""

    stated_stamps: int | None = None
    """How many stamps, from the first, the body states; the others follow from them. None: all of them."""

    runs: npt.NDArray[np.bool_] | None = None
    """Where a new block begins: blocks may stand in any order."""

    to_verify: list[ToVerify] = field(default_factory=list[ToVerify])
    signs_of_generation: list[str] = field(default_factory=list[str])
