"""A second reading of when a vehicle charges, night after night in plain Python.

It imports nothing of the service. A night has the local date of arrival; instants are those of `zoneinfo`, intervals
those of the second pricing, and what is charged after the end of the year is charged in its first small hours.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from math import sqrt
from typing import Any
from zoneinfo import ZoneInfo

from tests.checks.charging_cost.reference_pricing import WEEKDAYS, Interval, intervals, minutes, month_starts

Json = dict[str, Any]
Prices = Callable[[int], float]
"""What the next kWh costs, by the place of the interval."""

DISTANCE_KM = {"km": 1.0, "mi": 1.609344}
ASSUMED_EFFICIENCY = 0.85


@dataclass
class Night:
    """One night: what is needed, and how much each interval can bring."""

    date: date
    need_kwh: float
    room: list[tuple[int, float]]
    """Place of each interval, in order of time, and the most that it brings, kWh."""


class Schedules:
    """The nights of a year, by the JSON of a comparison's request."""

    def __init__(self, asked: Json, step_minutes: int) -> None:
        self.asked = asked
        self.charging = asked["charging"]
        zone = asked["tariffs"][0]["time_zone"]
        first_month = asked.get("first_month") or 1
        self.zone = ZoneInfo(zone)
        self.step_s = 60 * step_minutes
        self.intervals: Sequence[Interval] = intervals(zone, asked["year"], first_month, step_minutes)
        self.months = month_starts(asked["year"], first_month)
        charger, vehicle = self.charging["charger"], self.charging.get("vehicle") or {}
        current = min(charger["charging_current_a"], vehicle.get("onboard_limit_a") or 1e9)
        self.power_kw = current * charger["voltage_v"] / 1000
        if charger.get("phases") == 3:
            self.power_kw *= sqrt(3)
        self.battery_kwh = vehicle.get("battery_kwh")

    def efficiency(self) -> float:
        return self.charging["energy_need"].get("charging_efficiency") or ASSUMED_EFFICIENCY

    def need_kwh(self, day: date) -> float:
        """Return what the night of a date needs, at the wall."""
        need = self.charging["energy_need"]
        weekday = WEEKDAYS[day.weekday()]
        if need["kind"] == "energy":
            energy = need["kwh_by_weekday"].get(weekday) or 0.0
        else:
            energy = (need["distance_by_weekday"].get(weekday) or 0.0) * self.kwh_per_distance(need)
        factors = need.get("winter_factor_by_month")
        energy *= 1.0 if factors is None else factors[day.month - 1]
        return energy / self.efficiency() if need["basis"] == "battery" else energy

    @staticmethod
    def kwh_per_distance(need: Json) -> float:
        """Return the consumption in kWh for one of the request's units of distance."""
        value, unit = need["consumption"]["value"], need["consumption"]["unit"]
        energy, distance = unit.split("/")
        if energy != "kWh":
            value, distance = 1 / value, energy
        count, _, length = distance.rpartition(" ")
        per_km = value / (float(count or 1) * DISTANCE_KM[length])
        return per_km * DISTANCE_KM[need["distance_unit"]]

    def instant(self, day: date, clock: str) -> float:
        hour, minute = divmod(minutes(clock), 60)
        return datetime(day.year, day.month, day.day, hour, minute, tzinfo=self.zone).timestamp()

    def span(self, day: date, starts: str, ends: str) -> tuple[float, float]:
        """Return the instants of two clock times; an end at or before the beginning is on the next day."""
        after = day if minutes(ends) > minutes(starts) else day + timedelta(days=1)
        return self.instant(day, starts), self.instant(after, ends)

    def spans(self, day: date, schedule: Json) -> list[tuple[float, float]]:
        """Return when the schedule lets the vehicle charge in the night of a date."""
        stated = self.charging
        for other in self.charging.get("other_days") or ():
            if WEEKDAYS[day.weekday()] in other["weekdays"]:
                stated = other
        arrival, departure = self.span(day, stated["arrival"], stated["departure"])
        if schedule["kind"] != "timer":
            return [(arrival, departure)]
        found = []
        for window in schedule["windows"]:
            for back in (-1, 0, 1):
                begin, end = self.span(day + timedelta(days=back), window["from"], window["to"])
                if max(begin, arrival) < min(end, departure):
                    found.append((max(begin, arrival), min(end, departure)))
        return merged(found)

    def nights(self, schedule: Json) -> Iterator[Night]:
        """Yield every night of the year on which there is a need, or one from before may be made up."""
        begin, count = self.intervals[0].starts, len(self.intervals)
        day = self.months[0]
        while day < self.months[12]:
            room: dict[int, float] = {}
            for start, end in self.spans(day, schedule):
                place = int((start - begin) // self.step_s)
                while begin + place * self.step_s < end:
                    starts = begin + place * self.step_s
                    seconds = min(end, starts + self.step_s) - max(start, starts)
                    room[place] = room.get(place, 0.0) + self.power_kw * seconds / 3600
                    place += 1
            yield Night(day, self.need_kwh(day), [(place % count, room[place]) for place in sorted(room)])
            day += timedelta(days=1)

    def charged(self, schedule: Json, price: Prices | None = None) -> tuple[list[float], float, int]:
        """Return the energy of each interval, what is never made up, and the nights that fall short."""
        found = [0.0] * len(self.intervals)
        owed = lost = 0.0
        short = 0
        at_wall = None if self.battery_kwh is None else self.battery_kwh / self.efficiency()
        for night in self.nights(schedule):
            wanted = night.need_kwh + owed
            if at_wall is not None and wanted > at_wall:
                lost += wanted - at_wall
                wanted = at_wall
            rest = min(wanted, sum(most for _, most in night.room))
            owed = wanted - rest
            if at_wall is None:
                lost, owed, missing = lost + owed, 0.0, owed
            else:
                missing = owed
            short += missing > 1e-9
            order = night.room
            if price is not None and schedule["kind"] == "least-cost":
                order = [
                    each for _, _, each in sorted((price(each[0]), at, each) for at, each in enumerate(order))
                ]
            for place, most in order:
                taken = min(rest, most)
                found[place] += taken
                rest -= taken
        return found, lost + owed, short


def merged(spans: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
    """Return spans in order, those that meet as one."""
    found: list[tuple[float, float]] = []
    for begin, end in sorted(spans):
        if found and begin <= found[-1][1]:
            found[-1] = found[-1][0], max(found[-1][1], end)
        else:
            found.append((begin, end))
    return found
