"""Seeks the smallest control setting at which every night is met, and the service for it."""

from collections.abc import Iterable
from itertools import pairwise
from math import ceil
from typing import Final

import numpy as np

from branchwright.calculations.managed_charging import least_operating_service_a, managed_service_a
from branchwright.checks.service_capacity.managed_charging.answers import SettingPoint, Smallest
from branchwright.checks.service_capacity.managed_charging.simulation import LEAST_A, Simulation
from branchwright.codebook import ProvisionLacking
from branchwright.findings import Sourced

CURVE_POINTS: Final = 25
BEYOND_A: Final = 5
MOST_TRIED: Final = 200
MOST_AT_ONCE: Final = 16
WORK: Final = 150_000_000
"""Work that is left to curve and search, in the simulation's measure: a few seconds of one core."""


class Search:
    """The settings that were tried, and on how many nights each of them meets every session."""

    def __init__(self, simulation: Simulation, stated_nights_met: int) -> None:
        """Try what the curve needs, and what the smallest setting needs."""
        self._simulation = simulation
        self._worked_before = simulation.worked
        # As many as cost no more than twice what one does are tried side by side.
        at_once = [
            count for count in range(1, MOST_AT_ONCE + 1) if simulation.work(count) <= 2 * simulation.work(1)
        ]
        self._at_once = at_once[-1]
        given = simulation.given
        self._met: dict[int, int] = {}
        if given.setting_a.is_integer():
            self._met[int(given.setting_a)] = stated_nights_met
        # Below the lowest nothing can charge in any interval; from the highest on nothing is limited in any.
        self._lowest = ceil(LEAST_A + given.margin_a + float(np.nanmin(given.house_a)))
        highest = ceil(given.greatest_house_a + given.margin_a + float(given.own_a.sum()))
        self._highest = max(self._lowest, highest)
        self._bound = simulation.least_possible(self._lowest, self._highest)
        if self._bound is not None:
            self._descend(self._bound)
        if simulation.is_monotone:
            self._narrow()
        self._lay_out_the_curve()
        self._narrow()
        self._points: dict[float, int] = {float(setting): met for setting, met in self._met.items()}
        self._points[given.setting_a] = stated_nights_met

    @property
    def smallest_a(self) -> int | None:
        """The smallest setting tried that meets every night; None where none does."""
        return min((setting for setting in self._met if self._meets_all(setting)), default=None)

    def _meets_all(self, setting: int) -> bool:
        """Return whether a setting that was tried meets every night."""
        return self._met[setting] == len(self._simulation.nights)

    def _try(self, settings: Iterable[int]) -> None:
        """Simulate settings that were not tried before."""
        fresh = sorted(set(settings) - self._met.keys())
        if fresh:
            met = self._simulation.nights_met(np.array(fresh, dtype=np.float64))
            self._met.update(zip(fresh, met.tolist(), strict=True))

    def _may_go_on(self) -> bool:
        return self._work_left() > 0 and len(self._met) < MOST_TRIED

    def _work_left(self) -> int:
        return WORK - (self._simulation.worked - self._worked_before)

    def _descend(self, bound: int) -> None:
        """Try the highest setting, and then half as far above the bound each time, until one misses a night.

        Where the stated setting meets every night there is nothing to look for above it. A setting at which much is
        unmet takes the most work, so that the search comes from above.
        """
        if self.smallest_a is not None:
            return
        above = self._highest - bound
        self._try([self._highest])
        while above and self._meets_all(bound + above) and self._may_go_on():
            above //= 2
            self._try([bound + above])

    def _lay_out_the_curve(self) -> None:
        """Try settings evenly apart, up to a little above the smallest one: there the curve is flat."""
        if not self._may_go_on():
            return
        affordable = [
            count
            for count in range(2, CURVE_POINTS + 1)
            if 2 * self._simulation.work(count) <= self._work_left()
        ]
        meets = self.smallest_a
        last = self._highest if meets is None else min(self._highest, meets + BEYOND_A)
        self._try(
            int(setting) for setting in np.linspace(self._lowest, last, max(affordable, default=2)).round()
        )

    def _narrow(self) -> None:
        """Part the widest gap below the smallest setting again and again, while there is work left for it."""
        while (gap := self._widest_gap()) and self._may_go_on():
            below, above = gap
            self._try(int(setting) for setting in np.linspace(below, above, self._at_once + 2)[1:-1].round())

    def _widest_gap(self) -> tuple[int, int] | None:
        """Return the two settings tried, or ruled out, that lie farthest apart up to the smallest; None without any."""
        smallest_a = self.smallest_a
        if self._bound is None or smallest_a is None:
            return None
        tried = [self._bound - 1, *sorted(each for each in self._met if self._bound <= each <= smallest_a)]
        gaps = list(pairwise(tried))
        if self._simulation.is_monotone:
            gaps = gaps[-1:]
        below, above = max(gaps, key=lambda gap: gap[1] - gap[0])
        return (below, above) if above - below > 1 else None

    @property
    def is_least(self) -> bool:
        """Whether no smaller whole ampere can meet every night; where none does, whether none can."""
        return self._widest_gap() is None

    @property
    def resolution_a(self) -> float:
        """The widest step between the settings tried up to the smallest one; 1 where smaller ones are ruled out."""
        gap = self._widest_gap()
        return 1.0 if gap is None else float(gap[1] - gap[0])

    def points(self) -> list[SettingPoint]:
        """Return the curve, smallest setting first; the stated setting is one of its points."""
        nights = len(self._simulation.nights)
        return [
            SettingPoint(float(setting), met, round(100 * met / nights, 3))
            for setting, met in sorted(self._points.items())
        ]

    def service(self) -> Sourced | None:
        """Return the smallest standard rating for the smallest setting; None without one."""
        given = self._simulation.given
        if self.smallest_a is None:
            return None
        try:
            provision = given.edition.provision("energy-management-load")
        except ProvisionLacking:
            return None
        factor, house_a = provision.number("factor"), given.greatest_house_a
        least_a = managed_service_a.value(factor, self.smallest_a, house_a)
        if provision.says("least_currents_count"):
            chargers = len(given.request.chargers)
            least_a = max(least_a, least_operating_service_a.value(factor, house_a, LEAST_A, chargers))
        return given.edition.standard_rating_at_least(least_a)

    def smallest(self) -> Smallest:
        """Return what was found, and how."""
        service = self.service()
        return Smallest(
            control_setting_a=None if self.smallest_a is None else float(self.smallest_a),
            resolution_a=self.resolution_a,
            is_least=self.is_least,
            settings_tried=len(self._points),
            house_alone_a=round(self._simulation.given.greatest_house_a, 6),
            service_rating_a=None if service is None else service.number,
            why=self._why(),
        )

    def _why(self) -> str:
        if self.smallest_a is None:
            return f"No setting meets every night: from {self._highest} A on nothing is limited, and one still fails."
        found = f"Every night is met at {self.smallest_a} A"
        if self.is_least and self._simulation.is_monotone:
            found += " and at no smaller whole ampere: more of a setting never takes energy away."
        elif self.is_least:
            found += " and at no smaller whole ampere: each was tried, or leaves less than a night needs."
        elif self._simulation.is_monotone:
            found += f" and not {self.resolution_a:g} A below it; those between were not tried."
        else:
            found += (
                f"; below {self._bound} A there is less than a night needs, and from there on settings at most "
                f"{self.resolution_a:g} A apart were tried. With equal sharing a larger setting may meet fewer nights, "
                "so that one between them may do."
            )
        alone_a = self._simulation.given.greatest_house_a
        if alone_a > self.smallest_a:
            found += f" The house alone draws up to {alone_a:.1f} A: management cannot hold less than that."
        return found
