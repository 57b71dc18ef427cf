"""Whether a separate meter pays: pay-back, net present value, and the use at which it begins to."""

from collections.abc import Callable
from decimal import Decimal
from functools import cache
from typing import Final

from branchwright.calculations.charging_schedule import delivered
from branchwright.calculations.present_value import payback_years, present_worth_years
from branchwright.checks.charging_cost.charging_comparison.answers import (
    Against,
    PayBack,
    SeparateMeterResult,
)
from branchwright.checks.charging_cost.charging_comparison.facts import SeparateMeter, Submeter
from branchwright.checks.charging_cost.charging_comparison.given import ASSUMED_YEARS, SEPARATE
from branchwright.checks.charging_cost.charging_comparison.options import NOTHING_KWH, Options
from branchwright.checks.charging_cost.charging_comparison.pricing import Choice, Priced, Pricer
from branchwright.quantities.money import rounded

SPANS: Final = 4
"""Parts into which the range of possible need is cut to find where the value changes its sign."""

MOST_TRIES: Final = 12
CLOSE: Final = 1e-4
"""How closely a break-even is found, as a part of the greatest need."""

HALVINGS: Final = 30

HELD_DIGITS: Final = 9
"""Digits after the point of a coin that a step of the answer holds before it rounds."""


class SeparateMeterSearch:
    """Holds the best option with a separate meter against those with one meter for both."""

    def __init__(self, pricer: Pricer, options: Options) -> None:
        """Take the ranked options."""
        self._given = pricer.given
        self._ranked = options.ranked
        self._digits = pricer.digits

        @cache
        def total(choice: Choice, scale: float) -> Decimal:
            return pricer.price(choice, scale).total

        self._total = total

    def result(self) -> SeparateMeterResult | None:
        """Return whether it pays; None where there are not both kinds of option, or the costs are not stated."""
        facts = self._given.request.separate_meter
        best = self._best(lambda choice: choice.arrangement in SEPARATE)
        if facts is None or best is None:
            return None
        meter = self._given.meter(self._ranked[best].choice.arrangement)
        rivals = self._rivals(self._ranked[best])
        if meter is None or not rivals:
            return None
        return SeparateMeterResult(
            option=best + 1,
            installed_cost=meter.installed_cost,
            years=facts.years or ASSUMED_YEARS,
            discount_rate_percent=facts.discount_rate_percent,
            against=[self._against(facts, meter, name, self._ranked[best], place) for name, place in rivals],
        )

    def _best(self, wanted: Callable[[Choice], bool]) -> int | None:
        """Return the place of the best option of a kind."""
        return next((place for place, each in enumerate(self._ranked) if wanted(each.choice)), None)

    def _rivals(self, option: Priced) -> list[tuple[Against, int]]:
        """Return the options with one meter for both that it is held against: those that leave as much unmet.

        Energy that one of two options does not bring is no saving of that one.
        """
        present = self._given.house_place
        unmet_kwh = option.delivery.unmet_kwh
        alike = {
            each.choice
            for each in self._ranked
            if each.choice.arrangement == "whole-house"
            and abs(each.delivery.unmet_kwh - unmet_kwh) <= NOTHING_KWH
        }
        staying = self._best(lambda each: each in alike and each.tariff == present)
        repriced = self._best(lambda each: each in alike)
        names: tuple[tuple[Against, int | None], ...] = (
            ("present-tariff", staying),
            ("whole-house-repriced", repriced),
        )
        return [(name, place) for name, place in names if place is not None]

    def _against(
        self, facts: SeparateMeter, meter: SeparateMeter | Submeter, name: Against, option: Priced, place: int
    ) -> PayBack:
        rival = self._ranked[place]
        saving, cost = rival.total - option.total, meter.installed_cost
        worth = Decimal(repr(present_worth_years(facts.discount_rate_percent, facts.years or ASSUMED_YEARS)))

        def value_at(scale: float) -> float:
            saved = self._total(rival.choice, scale) - self._total(option.choice, scale)
            return float(saved * worth - cost)

        scale = self._break_even(option.choice, rival.choice, value_at)
        distance = self._given.distance_per_year
        unit = self._given.need.distance_unit
        return PayBack(
            against=name,
            option=place + 1,
            annual_saving=saving,
            payback_years=round(payback_years.value(float(cost), float(saving)), 6) if saving > 0 else None,
            net_present_value=self._in_coins(saving * worth - cost),
            break_even_distance_per_year=(
                round(distance * scale, 1) if distance is not None and scale is not None else None
            ),
            break_even_distance_unit=unit,
            break_even_kwh_per_year=(
                None if scale is None else round(float(self._given.needed_kwh.sum()) * scale, 1)
            ),
        )

    def _in_coins(self, amount: Decimal) -> Decimal:
        """Return an amount in whole coins; the last digits of a discount rate, which is no decimal, decide no half."""
        return rounded(rounded(amount, self._digits + HELD_DIGITS), self._digits)

    def _break_even(self, one: Choice, other: Choice, value_at: Callable[[float], float]) -> float | None:
        """Return the least multiple of the need at which the value is zero, up to what both windows deliver."""
        most = min(self._greatest_scale(one), self._greatest_scale(other))
        if most <= 0:
            return None
        places = {most * part / SPANS for part in range(SPANS + 1)}
        if most > 1:
            places.add(1.0)
        low, low_value = 0.0, value_at(0.0)
        if low_value == 0:
            return low
        for high in sorted(places)[1:]:
            high_value = value_at(high)
            if high_value == 0 or (high_value > 0) != (low_value > 0):
                return _root(value_at, (low, low_value), (high, high_value), CLOSE * most)
            low, low_value = high, high_value
        return None

    def _greatest_scale(self, choice: Choice) -> float:
        """Return the greatest multiple of the need that a schedule's hours deliver; 0 where nothing is needed."""
        given, needed = self._given, self._given.needed_kwh
        most = given.windows[choice.schedule].hours_of_nights * given.power_kw
        wanted = needed > NOTHING_KWH
        if not wanted.any():
            return 0.0
        battery_kwh = given.need.battery_wall_kwh
        if battery_kwh is None:
            return float((most[wanted] / needed[wanted]).min())
        low, high = 0.0, min(float(most.sum() / needed.sum()), float(battery_kwh / needed.max()))
        for _ in range(HALVINGS):
            middle = (low + high) / 2
            is_met = delivered(needed * middle, most, battery_kwh).unmet_kwh <= NOTHING_KWH
            low, high = (middle, high) if is_met else (low, middle)
        return low


def _root(
    value_at: Callable[[float], float], low: tuple[float, float], high: tuple[float, float], close: float
) -> float:
    """Return where a value is zero between two places of opposite sign, by the Illinois method of false position.

    Source: Dowell and Jarratt, A modified regula falsi method, BIT 11 (1971).
    """
    (left, at_left), (right, at_right) = low, high
    found, moved = right, 0
    for _ in range(MOST_TRIES):
        if at_right == 0:
            return right
        found = (left * at_right - right * at_left) / (at_right - at_left)
        value = value_at(found)
        if value == 0 or right - left <= close:
            return found
        if (value > 0) == (at_right > 0):
            right, at_right = found, value
            at_left = at_left / 2 if moved == 1 else at_left
            moved = 1
        else:
            left, at_left = found, value
            at_right = at_right / 2 if moved == -1 else at_right
            moved = -1
    return found
