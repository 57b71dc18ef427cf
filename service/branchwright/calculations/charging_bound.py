"""A bound on shared charging: what no rule of sharing can bring, so that settings below it need no simulation."""

import numpy as np

from branchwright.calculations.arrays import Floats, Whole
from branchwright.calculations.charging_simulation import NOTHING_KWH, Sessions


class NightlyBound:
    """The energy that all vehicles of a night can have together, interval by interval.

    In an interval they take at most what the management leaves, and at most what they can take all together. The
    bound counts what is left for each night as if no other night took of it, and a vehicle as there for the whole of
    an interval: it is never too low.
    """

    def __init__(self, sessions: Sessions, night_of: Whole, interval_h: float) -> None:
        """Add up what the vehicles of each night can take; `night_of` is the night of each session, from 0, (S,)."""
        nights = int(night_of.max()) + 1
        begins = np.full(nights, np.iinfo(np.int64).max)
        np.minimum.at(begins, night_of, sessions.first)
        from_begin, to_end = sessions.first - begins[night_of], sessions.last - begins[night_of] + 1
        takes_kwh = sessions.own_a * sessions.kwh_per_ah * interval_h
        change = np.zeros((nights, int(to_end.max()) + 1))
        np.add.at(change, (night_of, from_begin), takes_kwh)
        np.add.at(change, (night_of, to_end), -takes_kwh)
        self._most_kwh = np.cumsum(change, axis=1)
        self._intervals = begins[:, None] + np.arange(change.shape[1])
        self._kwh_per_a = float(sessions.kwh_per_ah.max()) * interval_h
        self._need_kwh = np.bincount(night_of, sessions.need_kwh, nights)

    def may_meet_all(self, available: Floats) -> bool:
        """Return whether every night can have what it needs of what the management leaves, shape (K + 1,).

        False: under no rule of sharing is every vehicle met.
        """
        left = available[np.minimum(self._intervals, len(available) - 1)] * self._kwh_per_a
        together = np.minimum(left, self._most_kwh).sum(axis=1)
        # The bound is a sum of rounded numbers: what is needed exactly must not fail by its last places.
        return bool(np.all(together >= self._need_kwh * (1 - NOTHING_KWH) - NOTHING_KWH))
