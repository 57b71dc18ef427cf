"""The classes of a year's intervals: those of one class differ in nothing that a bill looks at."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from branchwright.calculations.arrays import Whole
from branchwright.checks.charging_cost.tariffs.facts import Tariff
from branchwright.checks.charging_cost.tariffs.holiday_calendar import holiday_dates
from branchwright.checks.charging_cost.tariffs.local_year import LocalYear
from branchwright.checks.charging_cost.tariffs.price_facts import CriticalPeakEvent
from branchwright.checks.charging_cost.tariffs.price_hours import (
    QUARTERS,
    looks_at_holidays,
    prices_of,
    quarters_of,
    rows_of,
    seasons_of,
)


@dataclass(slots=True, frozen=True)
class Price:
    """A price of energy: the season and period of its rows, as they state them, and the first of these."""

    season: str | None
    period: str
    row: int


@dataclass(slots=True, frozen=True)
class PriceClass:
    """One class of intervals.

    `season` is that of the date, `price` the place of the price of its energy rate, None where there is none. `event`
    is the place of the group of critical-peak events that takes the price's place.
    """

    season: str | None
    price: int | None
    event: int | None


@dataclass(slots=True, frozen=True)
class EventGroup:
    """Critical-peak events of one price and kind, in order; `intervals` are those of all of them."""

    event: CriticalPeakEvent
    place: int
    intervals: Whole


class PriceClasses:
    """The classes of the N intervals of a year.

    `of_interval` is the class of each, shape (N,); `matches` how many energy rates match it, shape (N,). `prices`
    are the tariff's prices in order of appearance, `instead` and `added` its groups of critical-peak events.
    """

    def __init__(self, tariff: Tariff, year: LocalYear) -> None:
        """Class every interval; a name that nothing bears matches nothing."""
        self.prices: list[Price] = []
        self.classes: list[PriceClass] = []
        self._price_of_row: list[int] = []
        self._known: dict[PriceClass, int] = {}
        self._name_prices(tariff)
        self._season_place = seasons_of(tariff.seasons, year.days_of_year)
        names: list[str | None] = [*(season.name for season in tariff.seasons), None]
        self.season_of_day: list[str | None] = [names[place] for place in self._season_place.tolist()]
        self.of_interval, self.matches = self._class_by_calendar(tariff, year)
        groups = _event_groups(tariff, year)
        self.added = [group for group in groups if group.event.how == "added"]
        self.instead = [group for group in groups if group.event.how == "instead"]
        for place, group in enumerate(self.instead):
            self._enter_event(place, group)

    def _name_prices(self, tariff: Tariff) -> None:
        places: dict[tuple[str | None, str], int] = {}
        for row, rate in enumerate(tariff.energy_rates):
            key = (rate.season, rate.period)
            if key not in places:
                places[key] = len(places)
                self.prices.append(Price(rate.season, rate.period, row))
            self._price_of_row.append(places[key])

    def _place_of(self, wanted: PriceClass) -> int:
        """Return the place of a class, which is entered where it is new."""
        found = self._known.setdefault(wanted, len(self.classes))
        if found == len(self.classes):
            self.classes.append(wanted)
        return found

    def _class_of(self, season: str | None, row: int) -> int:
        return self._place_of(PriceClass(season, None if row < 0 else self._price_of_row[row], None))

    def _class_by_calendar(self, tariff: Tariff, year: LocalYear) -> tuple[Whole, NDArray[np.int16]]:
        """Return the class of each interval and how many energy rates match it, without regard to events."""
        # A kind of date is its season, weekday, and whether it is a holiday; most kinds are priced alike.
        codes = (self._season_place + 1) * 14 + year.weekdays * 2 + _is_holiday(tariff, year)
        _, first_days, kind_of_day = np.unique(codes, return_index=True, return_inverse=True)
        days: list[int] = first_days.tolist()
        known: dict[tuple[str | None, tuple[int, ...]], int] = {}
        classes: list[list[int]] = []
        matches: list[NDArray[np.int16]] = []
        kinds = np.empty(len(days), dtype=np.int64)
        for kind, day in enumerate(days):
            season = self.season_of_day[day]
            rows = tuple(rows_of(tariff, season, int(year.weekdays[day]), bool(codes[day] % 2)))
            if (season, rows) not in known:
                known[season, rows] = len(classes)
                prices = prices_of(tariff, rows)
                quarters = prices.row.tolist()
                class_of = {row: self._class_of(season, row) for row in dict.fromkeys(quarters)}
                classes.append([class_of[row] for row in quarters])
                matches.append(prices.matches)
            kinds[kind] = known[season, rows]
        place = kinds[kind_of_day][year.day_index] * QUARTERS + year.minute_of_day // 15
        return np.array(classes, dtype=np.int64).ravel()[place], np.concatenate(matches)[place]

    def _enter_event(self, place: int, group: EventGroup) -> None:
        """Put intervals of events that replace the price into classes of their own; the first event counts."""
        before = self.of_interval[group.intervals]
        for each in np.unique(before):
            was = self.classes[int(each)]
            if was.event is None:
                becomes = self._place_of(PriceClass(was.season, was.price, place))
                self.of_interval[group.intervals[before == each]] = becomes


def _is_holiday(tariff: Tariff, year: LocalYear) -> NDArray[np.bool_]:
    """Return which dates are holidays, shape (D,); none where no kind of day looks at them."""
    found = np.zeros(len(year.dates), dtype=np.bool_)
    if looks_at_holidays(tariff):
        listed = holiday_dates(tariff, year.dates[0], year.dates[-1])
        found[[year.place_of_date[day] for day in listed if day in year.place_of_date]] = True
    return found


def _event_groups(tariff: Tariff, year: LocalYear) -> list[EventGroup]:
    """Return the critical-peak events of one price and kind together, in order of the first of each."""
    if not tariff.critical_peak_events:
        return []
    days = {day.isoformat(): at for day, at in year.place_of_date.items()}
    quarter = year.minute_of_day // 15
    groups: dict[tuple[str, object], list[int]] = {}
    for place, event in enumerate(tariff.critical_peak_events):
        groups.setdefault((event.how, event.per_kwh), []).append(place)
    found: list[EventGroup] = []
    for places in groups.values():
        within = np.zeros(year.count, dtype=np.bool_)
        for place in places:
            event = tariff.critical_peak_events[place]
            if event.date in days:
                hit = np.zeros(QUARTERS, dtype=np.bool_)
                for part in quarters_of(event.begin, event.end):
                    hit[part] = True
                of_day = np.flatnonzero(year.day_index == days[event.date])
                within[of_day[hit[quarter[of_day]]]] = True
        found.append(EventGroup(tariff.critical_peak_events[places[0]], places[0], np.flatnonzero(within)))
    return found
