"""Collects the readings of a JSON body."""

from datetime import tzinfo

import numpy as np

from branchwright.checks.service_capacity.interval_data.collected import MARKS, MEASURED, NO_OFFSET, Collected
from branchwright.checks.service_capacity.interval_data.facts import RegularSeries, StampedSeries
from branchwright.checks.service_capacity.interval_data.faults import Faults
from branchwright.checks.service_capacity.interval_data.placing import place
from branchwright.checks.service_capacity.interval_data.time_stamps import NoStamp, iso_stamp
from branchwright.checks.service_capacity.interval_data.zones import offsets_at
from branchwright.questions.answers import ToVerify


def collect_regular(series: RegularSeries, zone: tzinfo | None, faults: Faults) -> Collected | None:
    """Return the readings of a regular series; None, with faults, where it states no values, or two kinds."""
    values = series.power_w if series.energy_wh is None else series.energy_wh
    if values is None or (series.energy_wh is not None and series.power_w is not None):
        faults.add("layout", "/series", "state either energy_wh or power_w, and not both.")
        return None
    name = "energy_wh" if series.energy_wh is not None else "power_w"
    try:
        wall, offset = iso_stamp(series.start)
    except NoStamp as error:
        faults.add("unparsed", "/series/start", str(error), series.start)
        return None
    start = Collected(
        unit="energy-wh",
        walls=np.array([wall], dtype=np.int64),
        offsets=np.array([offset], dtype=np.int64),
        values=np.zeros(1),
        marks=np.zeros(1, dtype=np.uint8),
        place=lambda _: "/series/start",
        place_of_stamp=lambda _: "/series/start",
    )
    placed = place(start, zone, faults)
    if placed is None or not placed.known[0]:
        return None
    count = len(values)
    is_bare = offset == NO_OFFSET
    if is_bare and zone is not None:
        offset = int(offsets_at(placed.instants, zone)[0])
    return Collected(
        unit="energy-wh" if name == "energy_wh" else "power-w",
        walls=placed.instants[0] + offset + np.arange(count, dtype=np.int64) * series.interval_minutes * 60,
        offsets=np.full(count, offset, dtype=np.int64),
        values=np.array([np.nan if value is None else value for value in values]),
        marks=np.full(count, MEASURED, dtype=np.uint8),
        place=lambda index: f"/series/{name}/{index}",
        place_of_stamp=lambda _: "/series/start",
        interval_minutes=series.interval_minutes,
        stated_stamps=0 if is_bare else 1,
    )


def collect_stamped(series: StampedSeries, faults: Faults) -> Collected:
    """Return the readings of a stamped series; those whose stamp is impossible are faults."""
    kept: list[int] = []
    walls: list[int] = []
    offsets: list[int] = []
    for index, reading in enumerate(series.readings):
        try:
            wall, offset = iso_stamp(reading["at"])
        except NoStamp as error:
            faults.add("unparsed", f"/series/readings/{index}/at", str(error), reading["at"])
            continue
        kept.append(index)
        walls.append(wall)
        offsets.append(offset)
    readings = [series.readings[index] for index in kept]
    values = [np.nan if (value := each["value"]) is None else value for each in readings]
    collected = Collected(
        unit=series.unit,
        walls=np.array(walls, dtype=np.int64),
        offsets=np.array(offsets, dtype=np.int64),
        values=np.array(values, dtype=np.float64),
        marks=np.array([MARKS.index(each.get("quality") or "measured") for each in readings], dtype=np.uint8),
        place=lambda at: f"/series/readings/{kept[at]}",
        place_of_stamp=lambda at: f"/series/readings/{kept[at]}/at",
        interval_minutes=series.interval_minutes,
        at_end=series.stamps_at == "end",
    )
    if series.stamps_at is None and not series.unit.startswith("register"):
        collected.to_verify.append(
            ToVerify("/series/stamps_at", "not stated, taken as start", "description of the export")
        )
    return collected
