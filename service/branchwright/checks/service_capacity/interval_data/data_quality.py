"""The report on the readings as data: what is missing, doubtful or not what it seems."""

from dataclasses import dataclass
from datetime import tzinfo

import numpy as np
import numpy.typing as npt

from branchwright.checks.service_capacity.interval_data.answers import (
    DataQuality,
    Gap,
    MonthOfData,
    UnevenDay,
)
from branchwright.checks.service_capacity.interval_data.collected import DOUBTFUL, NOT_MEASURED
from branchwright.checks.service_capacity.interval_data.faults import Faults
from branchwright.checks.service_capacity.interval_data.normalising import Counts, Grid
from branchwright.checks.service_capacity.interval_data.zones import iso, offsets_at, uneven_days
from branchwright.questions.local_time import DAY_S

MOST_GAPS = 100

GREATEST_SERVICE_W = 6000 * 208 * 3**0.5
"""What the greatest standard rating carries on three phases at 208 V: 2.16 MW. No dwelling's meter shows more."""

DAYLIGHT = (9, 16)
NIGHT = (21, 5)
CLIPPED_SHARE = 0.02
CLIPPED_OVER_NIGHT = 4
"""Zeros in more than 2 % of the readings from 9 to 16 o'clock, and four times as often as at night, look like export
cut off at zero: common practice, no source."""


@dataclass(slots=True)
class Runs:
    """Stretches of neighbouring intervals that have something in common."""

    starts: npt.NDArray[np.intp]
    lengths: npt.NDArray[np.intp]


def runs_of(holds: npt.NDArray[np.bool_]) -> Runs:
    """Return where the stretches are in which something holds."""
    edges = np.diff(np.concatenate(([False], holds, [False])).astype(np.int8))
    starts = np.flatnonzero(edges == 1)
    return Runs(starts, np.flatnonzero(edges == -1) - starts)


def coverage_percent(there: int, expected: int) -> float:
    """Return how many of the expected intervals are there, in percent."""
    return round(100 * there / expected, 3)


def report_without_grid(counts: Counts, faults: Faults) -> DataQuality:
    """Return the report on readings that no series could be made of."""
    return DataQuality(
        readings=counts.readings,
        expected=None,
        coverage_percent=None,
        resolution_minutes=None,
        gap_count=0,
        gaps=[],
        duplicates=counts.duplicates,
        conflicting_duplicates=counts.conflicting,
        overlaps=counts.overlaps,
        unsorted=counts.unsorted,
        zeros=0,
        longest_zero_run_minutes=0,
        estimated=0,
        questionable=0,
        negative=0,
        clipped=0,
        register_like=counts.register_like,
        out_of_range=0,
        months=[],
        short_days=[],
        long_days=[],
        fault_count=faults.count,
        faults=faults.kept,
    )


def report(grid: Grid, counts: Counts, zone: tzinfo, faults: Faults, *, by_zone: bool) -> DataQuality:
    """Return the report on a series; `by_zone` says whether the zone is one with rules, and not a mere offset."""
    energies = grid.energies_wh
    there = ~np.isnan(energies)
    known = int(np.count_nonzero(there))
    zeros = there & (energies == 0)
    zero_runs = runs_of(zeros)
    instants = grid.start + np.arange(len(energies), dtype=np.int64) * grid.interval_minutes * 60
    local = instants + offsets_at(instants, zone)
    found = report_without_grid(counts, faults)
    found.expected = len(energies)
    found.coverage_percent = coverage_percent(known, len(energies))
    found.resolution_minutes = grid.interval_minutes
    _enter_gaps(found, grid, there, zone)
    found.zeros = int(np.count_nonzero(zeros))
    found.longest_zero_run_minutes = int(max(zero_runs.lengths, default=0)) * grid.interval_minutes
    found.estimated = int(np.count_nonzero(there & np.isin(grid.marks, NOT_MEASURED)))
    found.questionable = int(np.count_nonzero(there & np.isin(grid.marks, DOUBTFUL)))
    found.negative = int(np.count_nonzero(energies < 0))
    found.clipped = _clipped(there, zeros, local)
    greatest_wh = GREATEST_SERVICE_W * grid.interval_minutes / 60
    found.out_of_range = int(np.count_nonzero(np.abs(energies[there]) > greatest_wh))
    found.months = _months(energies, there, local)
    if by_zone:
        for day, hours in uneven_days(int(instants[0]), int(instants[-1]), zone):
            (found.short_days if hours < DAY_S / 3600 else found.long_days).append(
                UnevenDay(day.isoformat(), hours)
            )
    return found


def _enter_gaps(found: DataQuality, grid: Grid, there: npt.NDArray[np.bool_], zone: tzinfo) -> None:
    gaps = runs_of(~there)
    found.gap_count = len(gaps.starts)
    longest = np.sort(np.argsort(-gaps.lengths, kind="stable")[:MOST_GAPS])
    found.gaps = [
        Gap(
            iso(grid.instant(int(gaps.starts[index])), zone),
            iso(grid.instant(int(gaps.starts[index] + gaps.lengths[index])), zone),
            int(gaps.lengths[index]) * grid.interval_minutes,
        )
        for index in longest
    ]


def _clipped(there: npt.NDArray[np.bool_], zeros: npt.NDArray[np.bool_], local: npt.NDArray[np.int64]) -> int:
    hours = local % DAY_S // 3600
    by_day = (hours >= DAYLIGHT[0]) & (hours < DAYLIGHT[1])
    by_night = (hours >= NIGHT[0]) | (hours < NIGHT[1])
    day_zeros = int(np.count_nonzero(zeros & by_day))
    night_zeros = int(np.count_nonzero(zeros & by_night))
    day_share = day_zeros / max(int(np.count_nonzero(there & by_day)), 1)
    night_share = night_zeros / max(int(np.count_nonzero(there & by_night)), 1)
    return day_zeros if day_share > CLIPPED_SHARE and day_share > CLIPPED_OVER_NIGHT * night_share else 0


def _months(
    energies: npt.NDArray[np.float64], there: npt.NDArray[np.bool_], local: npt.NDArray[np.int64]
) -> list[MonthOfData]:
    months, place = np.unique(local.astype("datetime64[s]").astype("datetime64[M]"), return_inverse=True)
    expected = np.bincount(place)
    known = np.bincount(place, there)
    wh = np.bincount(place, np.nan_to_num(energies))
    return [
        MonthOfData(
            str(month),
            coverage_percent(int(known[index]), int(expected[index])),
            round(float(wh[index]) / 1000, 6),
        )
        for index, month in enumerate(months)
    ]
