"""Collects the readings of a Green Button file."""

from collections.abc import Sequence
from datetime import tzinfo
from itertools import accumulate

import numpy as np
import numpy.typing as npt

from branchwright.checks.service_capacity.interval_data.collected import Collected
from branchwright.checks.service_capacity.interval_data.faults import Faults
from branchwright.checks.service_capacity.interval_data.green_button.choosing import Chosen
from branchwright.checks.service_capacity.interval_data.green_button.elements import mark_of_code
from branchwright.checks.service_capacity.interval_data.green_button.local_time import NoLocalTime, file_zone
from branchwright.checks.service_capacity.interval_data.green_button.resources import MISSING, Block
from branchwright.checks.service_capacity.interval_data.zones import EARLIEST_S, LATEST_S, Seconds
from branchwright.questions.answers import ToVerify


def collect_series(chosen: Chosen, faults: Faults) -> Collected:
    """Return the readings of the chosen series, block after block as they stand in the file."""
    blocks = [block for block in chosen.series.blocks if len(block.values)]
    length = _interval_length(chosen, faults)
    starts = np.concatenate([_starts(block, length) for block in blocks])
    seconds = np.concatenate([np.array(block.seconds, dtype=np.int64) for block in blocks])
    seconds[seconds == MISSING] = length
    marks = np.concatenate([np.array(block.marks, dtype=np.uint8) for block in blocks])
    default = mark_of_code(chosen.fields.get("defaultQuality", "0"))
    marks[marks == 0] = default
    begins = np.zeros(len(starts), dtype=np.bool_)
    firsts = [0, *accumulate(len(block.values) for block in blocks)]
    begins[firsts[:-1]] = True
    kept = _placed(blocks, firsts, starts, faults)
    return Collected(
        unit=chosen.unit,
        walls=starts[kept],
        offsets=np.zeros(len(kept), dtype=np.int64),
        values=np.concatenate([np.array(block.values) for block in blocks])[kept] * chosen.factor,
        marks=marks[kept],
        place=lambda index: _place(blocks, firsts, int(kept[index])),
        place_of_stamp=lambda index: _place(blocks, firsts, int(kept[index])),
        lengths=None if chosen.unit.startswith("register") else seconds[kept],
        stated_stamps=0,
        runs=begins[kept],
        to_verify=chosen.to_verify,
        signs_of_generation=chosen.signs_of_generation,
    )


def _interval_length(chosen: Chosen, faults: Faults) -> int:
    """Return the length of intervals in seconds by the reading type; 0 where it states none."""
    text = chosen.fields.get("intervalLength", "0")
    if text.isdecimal() and text.isascii() and len(text) <= 9:
        return int(text)
    kind = chosen.series.reading_type
    faults.add(
        "unparsed", kind.entry.name if kind else "body", "its intervalLength is no whole number.", text
    )
    return 0


def _starts(block: Block, length: int) -> Seconds:
    """Return the start of each reading; without one of its own it follows from the block's start."""
    starts = np.array(block.starts, dtype=np.int64)
    bare = starts == MISSING
    if bare.any() and block.start != MISSING and length:
        starts[bare] = (block.start + (np.array(block.numbers, dtype=np.int64) - 1) * length)[bare]
    return starts


def _placed(
    blocks: Sequence[Block], firsts: Sequence[int], starts: Seconds, faults: Faults
) -> npt.NDArray[np.intp]:
    """Return which readings have a time; those that have none, or an impossible one, are faults."""
    holds = (starts >= EARLIEST_S) & (starts <= LATEST_S)
    for index in np.flatnonzero(~holds):
        where = _place(blocks, firsts, int(index))
        if starts[index] == MISSING:
            faults.add("unparsed", where, "it has no start, and block and reading type do not tell it.")
        else:
            faults.add("unparsed", where, "its start is no time of a meter reading.", str(starts[index]))
    return np.flatnonzero(holds)


def _place(blocks: Sequence[Block], firsts: Sequence[int], index: int) -> str:
    at = int(np.searchsorted(firsts, index, side="right")) - 1
    block = blocks[at]
    return f"{block.entry.name}, reading {block.numbers[index - firsts[at]]}"


def local_time_of(chosen: Chosen, faults: Faults, to_verify: list[ToVerify]) -> tzinfo | None:
    """Return the local time that the file brings for the series; None where it brings none, or none that can be."""
    parameters = chosen.series.local_time
    if parameters is None:
        return None
    try:
        zone = file_zone(parameters)
    except NoLocalTime as error:
        faults.add("zone", parameters.entry.name, str(error))
        return None
    to_verify.append(
        ToVerify(
            "body:LocalTimeParameters", "months and days by the file's own local time", "place of the meter"
        )
    )
    return zone
