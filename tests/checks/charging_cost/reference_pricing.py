"""A second pricing of tariffs, one interval after another in plain Python.

It imports nothing of the service and no array library. A tariff is the JSON of a request, times are those of
`zoneinfo`, quantities and money are fractions: nothing is rounded but what a bill says that it rounds.
"""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, timedelta
from fractions import Fraction
from functools import cache
from math import floor
from typing import Any
from zoneinfo import ZoneInfo

import holidays

Json = dict[str, Any]
Metered = Sequence[tuple["Interval", int]]
Key = tuple[str, str, str | None, str | None, int | None]
"""Kind, name, season, period and number of the tier."""

MICRO = 10**6
"""Energy is summed in whole milliwatt-hours; a bill's quantities have six digits after the point."""

WEEKDAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
COIN_DIGITS = {"JPY": 0, "KWD": 3}
"""Digits of the smallest coin, where it is not a hundredth: ISO 4217."""


COUNTED = {
    "energy": ("energy", "all-energy", "critical-peak", "export"),
    "demand": ("demand",),
    "fixed": ("fixed",),
    "credits": ("credit",),
    "riders": ("rider",),
}
"""Kinds of lines that count toward a minimum bill, by the words of a tariff."""


SOON_DAYS = 10
"""No holiday is observed so many days from its own."""


@dataclass(frozen=True)
class Interval:
    """One interval of the year."""

    starts: int
    date: date
    minute: int
    month: int
    """Place in the twelve months."""


@dataclass
class Line:
    """One line of a bill; the amount as the bill shows it, and before it was rounded."""

    quantity: Fraction
    rate: Fraction
    exact: Fraction
    amount: Fraction


@dataclass
class Bill:
    """The bill of a month."""

    month: str
    lines: dict[Key, Line] = field(default_factory=dict)
    exact: Fraction = Fraction(0)
    total: Fraction = Fraction(0)

    def of_kind(self, *kinds: str) -> Fraction:
        """Return the sum of the shown amounts of some kinds."""
        return sum((line.amount for key, line in self.lines.items() if key[0] in kinds), Fraction(0))


def fraction(text: str | float) -> Fraction:
    """Return a decimal text, or a number as JSON writes it, exactly."""
    return Fraction(str(text))


def minutes(clock: str) -> int:
    return 60 * int(clock[:2]) + int(clock[3:])


def within(minute: int, starts: str, ends: str) -> bool:
    """Say whether a minute of a date lies between two clock times of that date."""
    first, last = minutes(starts), minutes(ends)
    if first < last:
        return first <= minute < last
    return minute >= first or minute < last


def month_starts(year: int, first_month: int) -> list[date]:
    """Return the first dates of twelve months, and of the one after them."""
    return [
        date(year + (first_month - 1 + index) // 12, (first_month - 1 + index) % 12 + 1, 1)
        for index in range(13)
    ]


@cache
def intervals(zone: str, year: int, first_month: int, step_minutes: int) -> tuple[Interval, ...]:
    """Return the intervals of twelve local months: even in time, whatever the clock shows."""
    where = ZoneInfo(zone)
    firsts = month_starts(year, first_month)
    places = {(first.year, first.month): index for index, first in enumerate(firsts[:12])}
    begin, end = (
        int(datetime(first.year, first.month, 1, tzinfo=where).timestamp())
        for first in (firsts[0], firsts[12])
    )
    found = []
    for starts in range(begin, end, 60 * step_minutes):
        local = datetime.fromtimestamp(starts, UTC).astimezone(where)
        found.append(
            Interval(starts, local.date(), 60 * local.hour + local.minute, places[local.year, local.month])
        )
    return tuple(found)


@cache
def public_holidays(
    country: str, subdivision: str | None, year: int
) -> tuple[dict[date, str], dict[date, str]]:
    """Return the holidays about a year on their own days, and with the days on which they are observed."""
    years = range(year - 1, year + 2)
    own = dict(holidays.country_holidays(country, subdiv=subdivision, years=years, observed=False))
    return own, dict(holidays.country_holidays(country, subdiv=subdivision, years=years, observed=True))


class Reference:
    """A tariff, priced over twelve months."""

    def __init__(self, tariff: Json, year: int, step_minutes: int, first_month: int = 1) -> None:
        self.tariff = tariff
        self.step_hours = Fraction(step_minutes, 60)
        self.step_minutes = step_minutes
        self.intervals = intervals(tariff["time_zone"], year, first_month, step_minutes)
        self.months = month_starts(year, first_month)
        rounding = tariff.get("rounding") or {}
        self.rounds_lines = rounding.get("line") is not False
        self.half_to_even = rounding.get("half") == "even"
        self._seasons: dict[date, str | None] = {}
        self._rates: dict[tuple[date, int], Json] = {}

    def season(self, day: date) -> str | None:
        """Return the season of a date; None in a tariff without seasons."""
        if day not in self._seasons:
            text = f"{day:%m-%d}"
            found = [
                each["name"]
                for each in self.tariff.get("seasons", ())
                if (
                    each["from"] <= text <= each["to"]
                    if each["from"] <= each["to"]
                    else text >= each["from"] or text <= each["to"]
                )
            ]
            assert len(found) == bool(self.tariff.get("seasons")), f"{day}: {found}"
            self._seasons[day] = found[0] if found else None
        return self._seasons[day]

    def is_holiday(self, day: date) -> bool:
        """Say whether a date counts as a holiday."""
        tariff = self.tariff
        if day.isoformat() in (tariff.get("holiday_dates") or ()):
            return True
        if tariff.get("country") is None:
            return False
        own, observed = public_holidays(tariff["country"], tariff.get("subdivision"), day.year)
        if tariff.get("observed_holidays") == "actual-day":
            return day in own
        if tariff.get("observed_holidays") == "observed-day":
            return day in observed and not any(
                name.startswith(own.get(day, "never")) and 0 < abs(each - day).days < SOON_DAYS
                for each, name in observed.items()
                if each not in own
            )
        return day in observed

    def is_of(self, day: date, name: str | None) -> bool:
        """Say whether a date is of a day type."""
        if name is None:
            return True
        kind = next(each for each in self.tariff["day_types"] if each["name"] == name)
        on_weekday = WEEKDAYS[day.weekday()] in kind["weekdays"]
        treated = kind.get("holidays") or "ignored"
        if treated == "ignored" or not self.is_holiday(day):
            return on_weekday
        return treated == "included"

    def rate(self, at: Interval) -> Json:
        """Return the one energy rate of an interval."""
        key = at.date, at.minute
        if key not in self._rates:
            found = [
                each
                for each in self.tariff["energy_rates"]
                if each.get("season") in (None, self.season(at.date))
                and within(at.minute, each["from"], each["to"])
                and self.is_of(at.date, each.get("day_type"))
            ]
            assert len(found) == 1, f"{key}: {len(found)} prices"
            self._rates[key] = found[0]
        return self._rates[key]

    def event(self, at: Interval) -> Json | None:
        """Return the critical-peak event of an interval, if there is one."""
        found = [
            each
            for each in self.tariff.get("critical_peak_events", ())
            if each["date"] == at.date.isoformat() and within(at.minute, each["from"], each["to"])
        ]
        assert len(found) <= 1
        return found[0] if found else None

    def days(self, month: int, season: str | None = None) -> int:
        """Return how many days of a month lie in a season; all of them without one."""
        first, after = self.months[month], self.months[month + 1]
        every = [first + timedelta(days=index) for index in range((after - first).days)]
        return sum(1 for day in every if season is None or self.season(day) == season)

    def rounded(self, amount: Fraction) -> Fraction:
        """Return an amount in whole coins of the currency."""
        coins = abs(amount) * 10 ** COIN_DIGITS.get(self.tariff["currency"], 2)
        below = floor(coins)
        rest = coins - below
        up = rest > Fraction(1, 2) or (rest == Fraction(1, 2) and (not self.half_to_even or below % 2 == 1))
        found = Fraction(below + up, 10 ** COIN_DIGITS.get(self.tariff["currency"], 2))
        return -found if amount < 0 else found

    def bills(self, net_kwh: Sequence[float], arrangement: str = "whole-house") -> list[Bill]:
        """Return the twelve bills of what flows in (above zero) and out in each interval."""
        assert len(net_kwh) == len(self.intervals)
        flows = [round(each * MICRO) for each in net_kwh]
        peaks = [self.peaks(charge, flows) for charge in self.tariff.get("demand_charges", ())]
        found = []
        for month in range(12):
            bill = Bill(f"{self.months[month]:%Y-%m}")
            metered = [(at, kwh) for at, kwh in zip(self.intervals, flows, strict=True) if at.month == month]
            self.add_energy(bill, month, metered)
            self.add_demand(bill, month, peaks)
            self.add_fixed(bill, month, arrangement)
            self.add_credits(bill, month, metered)
            self.add_riders(bill, month, metered, is_tax=False)
            self.add_minimum(bill, month)
            self.add_riders(bill, month, metered, is_tax=True)
            bill.exact = sum((line.amount for line in bill.lines.values()), Fraction(0))
            bill.total = self.rounded(bill.exact)
            found.append(bill)
        return found

    def enter(
        self, bill: Bill, key: Key, quantity: Fraction, rate: Fraction, exact: Fraction | None = None
    ) -> None:
        """Enter a line, unless it is of nothing."""
        amount = quantity * rate if exact is None else exact
        if quantity != 0:
            shown = self.rounded(amount) if self.rounds_lines else amount
            assert key not in bill.lines
            bill.lines[key] = Line(quantity, rate, amount, shown)

    def steps(
        self, tiers: Sequence[Json], allowance_per: str | None, season: str | None, month: int, kwh: Fraction
    ) -> Iterator[tuple[int, Fraction, Fraction]]:
        """Yield the number, the energy and the price of each tier that is reached."""
        below = Fraction(0)
        for number, tier in enumerate(tiers):
            end = kwh
            if tier.get("up_to_kwh") is not None:
                share = Fraction(self.days(month, season))
                if allowance_per != "day":
                    share /= self.days(month)
                end = min(kwh, fraction(tier["up_to_kwh"]) * share)
            if end > below:
                yield number, end - below, fraction(tier["per_kwh"])
                below = end

    def add_energy(self, bill: Bill, month: int, metered: Metered) -> None:
        drawn: Counter[tuple[str | None, str]] = Counter()
        fed: Counter[tuple[str | None, str]] = Counter()
        special: Counter[int] = Counter()
        by_season: Counter[str | None] = Counter()
        first_rates: dict[tuple[str | None, str], Json] = {}
        for at, kwh in metered:
            rate = self.rate(at)
            key = rate.get("season"), rate["period"]
            first_rates[key] = rate
            if kwh < 0:
                fed[key] -= kwh
                continue
            event = self.event(at)
            if event is not None:
                place = self.tariff["critical_peak_events"].index(event)
                special[place] += kwh
                if event["how"] == "instead":
                    continue
            drawn[key] += kwh
            by_season[self.season(at.date)] += kwh
        for key, kwh in drawn.items():
            rate = first_rates[key]
            for number, part, price in self.steps(
                rate["tiers"], rate.get("allowance_per"), key[0], month, Fraction(kwh, MICRO)
            ):
                place = number if len(rate["tiers"]) > 1 else None
                self.enter(bill, ("energy", key[1], *key, place), part, price)
        for stepped in self.tariff.get("tiers_on_all_energy", ()):
            season = stepped.get("season")
            kwh = sum(each for name, each in by_season.items() if season in (None, name))
            for number, part, price in self.steps(
                stepped["tiers"], stepped.get("allowance_per"), season, month, Fraction(kwh, MICRO)
            ):
                place = number if len(stepped["tiers"]) > 1 else None
                self.enter(bill, ("all-energy", stepped["name"], season, None, place), part, price)
        for place, kwh in special.items():
            event = self.tariff["critical_peak_events"][place]
            key = "critical-peak", f"{event['date']} {event['from']}", None, None, None
            self.enter(bill, key, Fraction(kwh, MICRO), fraction(event["per_kwh"]))
        for (season, period), kwh in fed.items():
            price = first_rates[season, period].get("export_per_kwh")
            if price is not None:
                key = "export", period, season, period, None
                self.enter(bill, key, Fraction(kwh, MICRO), -fraction(price))

    def peaks(self, charge: Json, flows: Sequence[int]) -> list[Fraction]:
        """Return the greatest average power of each month in the hours that are meant; 0 where there are none."""
        together = max(1, charge["averaging_minutes"] // self.step_minutes)
        found = [Fraction(0)] * 12
        for first in range(0, len(flows), together):
            at = self.intervals[first]
            if charge.get("season") not in (None, self.season(at.date)):
                continue
            if charge.get("period") not in (None, self.rate(at)["period"]):
                continue
            power = Fraction(sum(flows[first : first + together]), MICRO) / (together * self.step_hours)
            found[at.month] = max(found[at.month], power)
        return found

    def add_demand(self, bill: Bill, month: int, peaks: Sequence[Sequence[Fraction]]) -> None:
        """Add what the greatest power costs; a season that splits the month bears its part of it by days."""
        for charge, by_month in zip(self.tariff.get("demand_charges", ()), peaks, strict=True):
            billed = by_month[month]
            ratchet = charge.get("ratchet")
            if ratchet is not None:
                before = [by_month[(month - back) % 12] for back in range(1, ratchet["months"] + 1)]
                billed = max(billed, max(before) * fraction(ratchet["percent"]) / 100)
            billed = max(billed, fraction(charge.get("least_kw") or 0))
            key = "demand", charge["name"], charge.get("season"), charge.get("period"), None
            share = Fraction(self.days(month, charge.get("season")), self.days(month))
            self.enter(bill, key, billed * share, fraction(charge["per_kw"]))

    def often(self, per: str | None, season: str | None, month: int) -> Fraction:
        """Return how often an amount is due: each day, or each month and in one that a season splits a part."""
        days = Fraction(self.days(month, season))
        return days if per == "day" else days / self.days(month)

    def add_fixed(self, bill: Bill, month: int, arrangement: str) -> None:
        for charge in self.tariff.get("fixed_charges", ()):
            if arrangement in (charge.get("arrangements") or [arrangement]):
                key = "fixed", charge["name"], charge.get("season"), None, None
                often = self.often(charge["per"], charge.get("season"), month)
                self.enter(bill, key, often, fraction(charge["amount"]))

    def add_credits(self, bill: Bill, month: int, metered: Metered) -> None:
        for credit in self.tariff.get("credits", ()):
            season, period = credit.get("season"), credit.get("period")
            key = "credit", credit["name"], season, period, None
            if credit.get("amount") is not None:
                self.enter(
                    bill, key, self.often(credit.get("per"), season, month), -fraction(credit["amount"])
                )
                continue
            meant = (
                each
                for at, each in metered
                if each > 0
                and season in (None, self.season(at.date))
                and period in (None, self.rate(at)["period"])
            )
            kwh = Fraction(sum(meant), MICRO)
            if credit.get("up_to_kwh") is not None:
                share = Fraction(self.days(month, season), self.days(month))
                kwh = min(kwh, fraction(credit["up_to_kwh"]) * share)
            self.enter(bill, key, kwh, -fraction(credit["per_kwh"]))

    def add_riders(self, bill: Bill, month: int, metered: Metered, *, is_tax: bool) -> None:
        base = Bill(bill.month, dict(bill.lines))
        kind = "tax" if is_tax else "rider"
        for rider in self.tariff.get("riders", ()):
            if bool(rider.get("is_tax")) != is_tax:
                continue
            season = rider.get("season")
            key = kind, rider["name"], season, None, None
            if rider.get("per_kwh") is not None:
                meant = (each for at, each in metered if each > 0 and season in (None, self.season(at.date)))
                self.enter(bill, key, Fraction(sum(meant), MICRO), fraction(rider["per_kwh"]))
                continue
            kinds = rider.get("applies_to")
            if kinds is None and is_tax:
                # A bill below zero bears no tax.
                amount = max(sum((line.amount for line in base.lines.values()), Fraction(0)), Fraction(0))
            else:
                named = kinds or ["energy", "demand", "fixed", "critical-peak"]
                more = ["all-energy"] if "energy" in named else []
                amount = base.of_kind(*named, *more)
            amount *= Fraction(self.days(month, season), self.days(month))
            self.enter(bill, key, amount, fraction(rider["percent"]) / 100)

    def add_minimum(self, bill: Bill, month: int) -> None:
        least = self.tariff.get("minimum_bill")
        if least is None:
            return
        counts = {kind for each in least["counts"] for kind in COUNTED[each]}
        amount = fraction(least["amount"]) * (self.days(month) if least["per"] == "day" else 1)
        lacks = amount - bill.of_kind(*counts)
        if lacks > 0:
            self.enter(bill, ("minimum-bill", "minimum bill", None, None, None), Fraction(1), lacks)
