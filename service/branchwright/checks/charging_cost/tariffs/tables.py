"""The tables of a review: a week of each season hour by hour, the year by month and hour, its periods and days."""

from collections.abc import Iterator
from datetime import date, timedelta
from itertools import groupby, pairwise

import numpy as np

from branchwright.checks.charging_cost.tariffs.answers import (
    CountedHoliday,
    CriticalPeakPrice,
    DayOfOtherLength,
    PricedDay,
    PricedHour,
    PricedMonth,
    PricedWeek,
    ReviewedPeriod,
)
from branchwright.checks.charging_cost.tariffs.given import Given
from branchwright.checks.charging_cost.tariffs.local_year import LocalYear
from branchwright.checks.charging_cost.tariffs.next_kwh import NextKwh
from branchwright.checks.charging_cost.tariffs.price_hours import has_day
from branchwright.checks.charging_cost.tariffs.priced import PricedTariff
from branchwright.questions.local_days import WEEKDAYS

DAY_HOURS = 24.0


def counted_holidays(given: Given) -> list[CountedHoliday]:
    """Return the dates that count as holidays."""
    return [CountedHoliday(day.isoformat(), name) for day, name in given.holidays.items()]


def days_of_other_length(year: LocalYear) -> tuple[list[DayOfOtherLength], list[DayOfOtherLength]]:
    """Return the dates that are shorter and those that are longer than 24 h."""
    days = [
        DayOfOtherLength(day.isoformat(), float(hours))
        for day, hours in zip(year.dates, year.hours_of_days(), strict=True)
        if hours != DAY_HOURS
    ]
    return [day for day in days if day.hours < DAY_HOURS], [day for day in days if day.hours > DAY_HOURS]


def reviewed_periods(priced: PricedTariff) -> list[ReviewedPeriod]:
    """Return each period of each season, in the order of the tariff."""
    classes = priced.classes
    counts = np.bincount(classes.of_interval, minlength=len(classes.classes))
    found: list[ReviewedPeriod] = []
    for place, price in enumerate(classes.prices):
        mine = [count for each, count in zip(classes.classes, counts, strict=True) if each.price == place]
        rates = [tier.per_kwh for tier in priced.tariff.energy_rates[price.row].tiers]
        hours = float(sum(mine)) * priced.year.step_h
        found.append(ReviewedPeriod(price.season, price.period, hours, min(rates), max(rates)))
    return found


def priced_months(priced: PricedTariff, prices: NextKwh) -> list[PricedMonth]:
    """Return the averages of each month by the hour of the clock."""
    return [
        PricedMonth(month, hours) for month, hours in zip(priced.year.months, prices.averages(), strict=True)
    ]


class Weeks:
    """The weeks of a review: one for each season that the year has."""

    def __init__(self, given: Given, priced: PricedTariff, prices: NextKwh) -> None:
        """Find where each date begins among the intervals."""
        self._given = given
        self._tariff = priced.tariff
        self._year = priced.year
        self._prices = prices
        self._seasons = dict(zip(priced.year.dates, priced.classes.season_of_day, strict=True))
        begins = np.flatnonzero(np.diff(priced.year.day_index, prepend=-1))
        spans = pairwise([*begins.tolist(), priced.year.count])
        self._spans = dict(zip(priced.year.dates, spans, strict=True))

    def weeks(self) -> Iterator[PricedWeek]:
        """Yield the week of each season in the order of the tariff; dates that no season has come last."""
        for season in (*(season.name for season in self._tariff.seasons), None):
            days = self._days_of(season)
            if days:
                monday = days[0] - timedelta(days=days[0].weekday())
                yield PricedWeek(season, monday.isoformat(), [self._day(day) for day in days])

    def _days_of(self, season: str | None) -> list[date]:
        """Return the first whole week of a season; where it has none, what it has of the first."""
        parts: dict[date, list[date]] = {}
        for day, of in self._seasons.items():
            if of == season:
                parts.setdefault(day - timedelta(days=day.weekday()), []).append(day)
        weeks = list(parts.values())
        whole = [days for days in weeks if len(days) == len(WEEKDAYS)]
        return (whole or weeks or [[]])[0]

    def _day(self, day: date) -> PricedDay:
        holiday = self._given.holidays.get(day)
        kinds = [
            each.name for each in self._tariff.day_types if has_day(each, day.weekday(), holiday is not None)
        ]
        return PricedDay(day.isoformat(), WEEKDAYS[day.weekday()], kinds, holiday, list(self._hours(day)))

    def _hours(self, day: date) -> Iterator[PricedHour]:
        """Yield the hours by the local clock, parted where the price or the clock changes."""
        begin, end = self._spans[day]
        clocks = {interval: self._year.clock(interval) for interval in range(begin, end)}

        def alike(interval: int) -> tuple[object, ...]:
            at = clocks[interval]
            return at.hour, at.utcoffset(), self._prices.of_interval[interval]

        for _, span in groupby(clocks, key=alike):
            intervals = list(span)
            price = self._prices.at(intervals[0])
            event = price.event
            yield PricedHour(
                clocks[intervals[0]].isoformat(),
                len(intervals) * self._year.step_minutes,
                price.price.period,
                price.per_kwh,
                price.last_tier_per_kwh,
                price.with_riders_per_kwh,
                price.export_per_kwh,
                None if event is None else CriticalPeakPrice(event.per_kwh, event.how),
            )
