"""Seeks the smallest control setting at which every night is met, and the service for it."""

from math import ceil
from typing import Final

import numpy as np

from branchwright.calculations.managed_charging import managed_service_a
from branchwright.checks.service_capacity.managed_charging.answers import SettingPoint, Smallest
from branchwright.checks.service_capacity.managed_charging.simulation import LEAST_A, Simulation
from branchwright.codebook import ProvisionLacking
from branchwright.findings import Sourced

CURVE_POINTS: Final = 25
BEYOND_A: Final = 5
MOST_TRIED: Final = 200
LEAST_TRIED: Final = 12
WORK: Final = 60_000_000
"""Places times intervals that the search may take: a few seconds of one core."""


class Search:
    """The settings that were tried, and on how many nights each of them meets every session."""

    def __init__(self, simulation: Simulation, stated_nights_met: int) -> None:
        """Try what the curve needs, and then what the smallest setting needs."""
        self._simulation = simulation
        given = simulation.given
        self.tried: dict[float, int] = {}
        house = given.house_a
        # Below the lowest nothing can charge in any interval; from the highest on nothing is limited in any.
        lowest = ceil(LEAST_A + given.margin_a + float(np.nanmin(house)))
        highest = ceil(given.greatest_house_a + given.margin_a + float(given.own_a.sum()))
        self._range = (lowest, max(lowest, highest))
        if simulation.is_monotone:
            self._halve()
        else:
            self._scan()
        self.smallest_a = min((setting for setting in self.tried if self._meets_all(setting)), default=None)
        self.settings_tried = len(self.tried)
        self._whole = sorted(self.tried)
        self.tried[given.setting_a] = stated_nights_met

    def _meets_all(self, setting_a: float) -> bool:
        return self.tried[setting_a] == len(self._simulation.nights)

    def _try(self, lowest: int, highest: int, count: int) -> None:
        """Try so many whole settings from one to another, evenly apart; none that was tried before."""
        wanted = np.unique(np.linspace(lowest, highest, count).round())
        fresh = np.array([setting for setting in wanted if setting not in self.tried])
        if len(fresh):
            self.tried.update(zip(fresh.tolist(), self._simulation.nights_met(fresh).tolist(), strict=True))

    def _gap(self) -> tuple[int, int] | None:
        """Return the smallest setting tried that meets every night, and the one below it; None without a gap."""
        whole = sorted(self.tried)
        meets = next((place for place, setting in enumerate(whole) if self._meets_all(setting)), 0)
        if meets == 0 or whole[meets] - whole[meets - 1] <= 1:
            return None
        return int(whole[meets - 1]), int(whole[meets])

    def _halve(self) -> None:
        """Halve the range: a setting below one that misses a night misses one too. Then lay out the curve."""
        lowest, highest = self._range
        self._try(lowest, highest, 2)
        while gap := self._gap():
            middle = sum(gap) // 2
            self._try(middle, middle, 1)
        meets = min((setting for setting in self.tried if self._meets_all(setting)), default=float(highest))
        # Above the smallest that meets every night the curve is flat.
        self._try(lowest, min(highest, int(meets) + BEYOND_A), CURVE_POINTS)

    def _scan(self) -> None:
        """Try every whole ampere where the work allows, else evenly, and again within the gap that is left."""
        may_try = int(np.clip(WORK // self._simulation.cells, LEAST_TRIED, MOST_TRIED))
        lowest, highest = self._range
        if highest - lowest < may_try:
            self._try(lowest, highest, highest - lowest + 1)
            return
        self._try(lowest, highest, may_try // 2)
        while (gap := self._gap()) and len(self.tried) < may_try:
            # Both ends of the gap are tried already.
            self._try(*gap, min(max(3, may_try // 4), may_try - len(self.tried)) + 2)

    @property
    def is_least(self) -> bool:
        """Whether no smaller whole ampere can meet every night; with none that does, whether none can."""
        return self._simulation.is_monotone or self.smallest_a is None or self.resolution_a == 1.0

    @property
    def resolution_a(self) -> float:
        """The widest step between the settings tried up to the smallest one; 1 where smaller ones are ruled out."""
        if self._simulation.is_monotone or self.smallest_a is None:
            return 1.0
        below = [setting for setting in self._whole if setting <= self.smallest_a]
        return float(max(np.diff(below), default=1.0))

    def points(self) -> list[SettingPoint]:
        """Return the curve, smallest setting first; the stated setting is one of its points."""
        nights = len(self._simulation.nights)
        return [
            SettingPoint(setting, met, round(100 * met / nights, 3))
            for setting, met in sorted(self.tried.items())
        ]

    def service(self) -> Sourced | None:
        """Return the smallest standard rating for the smallest setting; None without one."""
        given = self._simulation.given
        if self.smallest_a is None:
            return None
        try:
            factor = given.edition.provision("energy-management-load").number("factor")
        except ProvisionLacking:
            return None
        least_a = managed_service_a.value(factor, self.smallest_a, given.greatest_house_a)
        return given.edition.standard_rating_at_least(least_a)

    def smallest(self) -> Smallest:
        """Return what was found, and how."""
        service = self.service()
        return Smallest(
            control_setting_a=self.smallest_a,
            resolution_a=self.resolution_a,
            is_least=self.is_least,
            settings_tried=self.settings_tried,
            house_alone_a=round(self._simulation.given.greatest_house_a, 6),
            service_rating_a=None if service is None else service.number,
            why=self._why(),
        )

    def _why(self) -> str:
        lowest, highest = self._range
        if self.smallest_a is None:
            return f"No setting meets every night: from {highest} A on nothing is limited, and one is still missed."
        found = f"Every night is met at {self.smallest_a:g} A"
        if self._simulation.is_monotone:
            found += " and at no smaller whole ampere: more of a setting never takes energy away."
        elif self.is_least:
            found += f"; every whole ampere from {lowest} A was tried."
        else:
            found += (
                f"; settings at most {self.resolution_a:g} A apart were tried below it, from {lowest} A. With equal "
                "sharing a larger setting may meet fewer nights, so that one between them may do."
            )
        alone_a = self._simulation.given.greatest_house_a
        if alone_a > self.smallest_a:
            found += f" The house alone draws up to {alone_a:.1f} A: management cannot hold less than that."
        return found
