"""Places every stamp on the one line of time, by its offset or by the zone."""

from dataclasses import dataclass
from datetime import timedelta, timezone, tzinfo

import numpy as np
import numpy.typing as npt

from branchwright.checks.service_capacity.interval_data.collected import NO_OFFSET, Collected
from branchwright.checks.service_capacity.interval_data.faults import Faults
from branchwright.checks.service_capacity.interval_data.zones import (
    WALL_EPOCH,
    Seconds,
    offsets_at,
    place_walls,
)


@dataclass(slots=True)
class Placement:
    """The instants of the stamps."""

    instants: Seconds
    known: npt.NDArray[np.bool_]
    own_zone: tzinfo | None
    """The offset of the first stamp that has one; None where none has."""

    disagreeing: int
    """Stamps whose offset is not the one that the stated zone has at that instant."""

    first_disagreeing: str | None


def place(collected: Collected, zone: tzinfo | None, faults: Faults) -> Placement | None:
    """Return the instant of every stamp; None, with a fault, where some have no offset and no zone is stated."""
    walls, offsets = collected.walls, collected.offsets
    naive = offsets == NO_OFFSET
    bare = np.flatnonzero(naive)
    if len(bare) and zone is None:
        faults.add(
            "zone",
            collected.place_of_stamp(int(bare[0])),
            f"{len(bare)} of {len(walls)} stamps have no offset from UTC, and no known time_zone is stated.",
            _clock(int(walls[bare[0]])),
        )
        return None
    instants = walls - offsets
    known = np.ones(len(walls), dtype=np.bool_)
    if len(bare) and zone is not None:
        _place_bare(collected, bare, zone, faults, instants, known)
    stamped = np.flatnonzero(~naive)[: collected.stated_stamps]
    own_zone, disagreeing, first = None, 0, None
    if len(stamped):
        own_zone = timezone(timedelta(seconds=int(offsets[stamped[0]])))
        if zone is not None:
            differs = np.flatnonzero(offsets_at(instants[stamped], zone) != offsets[stamped])
            disagreeing = len(differs)
            first = collected.place_of_stamp(int(stamped[differs[0]])) if disagreeing else None
    return Placement(instants, known, own_zone, disagreeing, first)


def _place_bare(
    collected: Collected,
    bare: npt.NDArray[np.intp],
    zone: tzinfo,
    faults: Faults,
    instants: Seconds,
    known: npt.NDArray[np.bool_],
) -> None:
    """Place the stamps without offset by the zone, into `instants` and `known`."""
    walls, values = collected.walls, collected.values
    placed = place_walls(walls[bare], zone)
    instants[bare] = placed.instants
    for at in placed.never:
        index = int(bare[at])
        known[index] = False
        # Many exports print the hour that was skipped with nothing in it.
        if not np.isnan(values[index]) and values[index] != 0:
            faults.add(
                "zone",
                collected.place_of_stamp(index),
                f"the clock in {zone} skips this time, yet there is a value of {values[index]:g}: is the meter's clock "
                "never put forward, state a zone without daylight saving.",
                _clock(int(walls[index])),
            )
    for at in placed.unordered:
        index = int(bare[at])
        known[index] = False
        faults.add(
            "zone",
            collected.place_of_stamp(index),
            f"the clock in {zone} shows this time twice, and the order of the readings does not tell which is meant.",
            _clock(int(walls[index])),
        )
    for at in placed.single:
        index = int(bare[at])
        faults.add(
            "autumn",
            collected.place_of_stamp(index),
            f"the clock in {zone} shows this hour twice, and the readings have it once: taken for the first passing, "
            "it may hold the energy of both.",
            _clock(int(walls[index])),
        )


def _clock(wall: int) -> str:
    return (WALL_EPOCH + timedelta(seconds=wall)).isoformat()
