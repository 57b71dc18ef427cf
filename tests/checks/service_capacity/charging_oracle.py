"""A second simulation of managed charging, one interval after another in plain Python.

It imports nothing of the service. Vehicles are rows of a list, times are instants of `datetime`, and currents are
handed out ampere by ampere.
"""

from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from math import floor, sqrt
from typing import Any
from zoneinfo import ZoneInfo

Json = dict[str, Any]

WEEKDAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
VOLTS = {"split-phase-120-240": (240.0, 120.0), "wye-208y-120": (208.0, 120.0)}
LEAST_A = 6
CONTINUOUS = 1.25
NOTHING_KWH = 1e-9


@dataclass
class Visit:
    """One session of one vehicle; times in seconds since 1970."""

    charger: int
    session: int
    date: str
    arrival: float
    departure: float
    need_kwh: float
    remaining_kwh: float
    paused_h: float = 0.0

    @property
    def is_met(self) -> bool:
        return self.remaining_kwh <= NOTHING_KWH


@dataclass
class Simulated:
    """What happens in every interval, and what every vehicle gets."""

    visits: list[Visit]
    left_out: int
    house_a: list[float | None]
    available_a: list[int]
    currents_a: list[list[int]] = field(default_factory=list)
    """For every interval what each charger draws."""

    def nights(self) -> dict[str, bool]:
        """Return for each date of arrival whether every vehicle was met."""
        found: dict[str, bool] = {}
        for visit in self.visits:
            found[visit.date] = found.get(visit.date, True) and visit.is_met
        return found


def house_currents(request: Json) -> list[float | None]:
    """Return the current of the largest leg in each interval; None where it is not known."""
    house, service = request["house_load"], request["service"]
    if house.get("leg_currents_a") is not None:
        return [None if None in legs else max(legs) for legs in zip(*house["leg_currents_a"], strict=True)]
    between, to_ground = VOLTS[service["system"]]
    if house.get("leg_assumption") == "all-on-one-leg":
        volts = to_ground
    else:
        volts = between * (sqrt(3) if service.get("phases") == 3 else 1.0)
    hours = house["interval_minutes"] / 60
    factor = house.get("power_factor", 1.0)
    return [None if energy is None else energy / hours / factor / volts for energy in house["energy_wh"]]


def available(house_a: list[float | None], management: Json, interval_minutes: int) -> list[int]:
    """Return the whole amperes for charging in each interval; after a pause they come back with a delay."""
    delay = management.get("resume_delay_minutes", 15)
    wait = 0
    found = []
    for current in house_a:
        left = (
            0
            if current is None
            else floor(management["control_setting_a"] - management.get("margin_a", 0) - current)
        )
        if left < LEAST_A:
            found.append(0)
            wait = -(-delay // interval_minutes)
        elif wait > 0:
            found.append(0)
            wait -= 1
        else:
            found.append(left)
    return found


def own_limit(charger: Json) -> int:
    onboard = (charger.get("vehicle") or {}).get("onboard_limit_a", charger["charging_current_a"])
    limit = floor(min(charger["charging_current_a"], charger["circuit_breaker_a"] / CONTINUOUS, onboard))
    return limit if limit >= LEAST_A else 0


def visits_of(request: Json, begin: float, end: float) -> tuple[list[Visit], int]:
    """Return the sessions of the dates that lie in the readings with all of theirs, and how many others there are."""
    zone = ZoneInfo(request["house_load"]["time_zone"])
    day = datetime.fromtimestamp(begin, zone).date() - timedelta(days=2)
    last = datetime.fromtimestamp(end, zone).date() + timedelta(days=1)
    found: list[Visit] = []
    cut: set[str] = set()
    while day <= last:
        for place, charger in enumerate(request["chargers"]):
            vehicle = charger.get("vehicle") or {}
            for number, session in enumerate(charger["sessions"]):
                if WEEKDAYS[day.weekday()] not in session["weekdays"]:
                    continue
                arrival, departure = (
                    datetime.combine(day, datetime.strptime(session[name], "%H:%M").time(), zone)
                    for name in ("arrival", "departure")
                )
                if session["departure"] <= session["arrival"]:
                    departure += timedelta(days=1)
                comes, goes = arrival.timestamp(), departure.timestamp()
                goes = max(comes, goes)
                if goes <= begin or comes >= end:
                    continue
                if comes < begin or goes > end:
                    cut.add(day.isoformat())
                need = session["energy_kwh"]
                if session.get("basis") != "wall":
                    need /= vehicle.get("charging_efficiency", 0.85)
                found.append(Visit(place, number, day.isoformat(), comes, goes, need, need))
        day += timedelta(days=1)
    kept = [visit for visit in found if visit.date not in cut]
    return sorted(kept, key=lambda visit: (visit.arrival, visit.charger)), len(found) - len(kept)


def shared(rule: str, amperes: int, own: list[int]) -> list[int]:
    """Return what each vehicle gets; they stand in the order in which they are served, with their own limits."""
    given = [0] * len(own)
    if rule == "equal":
        taking = range(min(len(own), amperes // LEAST_A))
        for place in taking:
            given[place] = LEAST_A
            amperes -= LEAST_A
        while amperes > 0:
            below = [place for place in taking if given[place] < own[place]]
            if not below:
                break
            lowest = min(below, key=lambda place: (given[place], place))
            given[lowest] += 1
            amperes -= 1
        return given
    for place, limit in enumerate(own):
        if amperes < LEAST_A:
            break
        given[place] = min(limit, amperes)
        amperes -= given[place]
    return given


def simulate(request: Json) -> Simulated:
    """Return the course of a request that has no contradictions."""
    house = request["house_load"]
    seconds = 60 * house["interval_minutes"]
    begin = datetime.fromisoformat(house["start"]).astimezone(UTC).timestamp()
    house_a = house_currents(request)
    visits, left_out = visits_of(request, begin, begin + seconds * len(house_a))
    rule = request["management"].get("sharing", "equal")
    found = Simulated(
        visits,
        left_out,
        house_a,
        available(house_a, request["management"], house["interval_minutes"]),
    )
    own = [own_limit(charger) for charger in request["chargers"]]
    between = VOLTS[request["service"]["system"]][0]
    kilowatts = [
        between * (sqrt(3) if charger.get("phases") == 3 else 1.0) / 1000 for charger in request["chargers"]
    ]
    waiting: list[Visit] = []
    following = 0
    there: dict[int, Visit] = {}
    for interval, left in enumerate(found.available_a):
        starts = begin + interval * seconds
        ends = starts + seconds
        there = {charger: visit for charger, visit in there.items() if visit.departure > starts}
        while following < len(visits) and visits[following].arrival < ends:
            waiting.append(visits[following])
            following += 1
        waiting = [visit for visit in waiting if visit.departure > max(starts, visit.arrival)]
        for visit in waiting:
            # Whoever was there before has the charger to the end of the interval.
            there.setdefault(visit.charger, visit)
        waiting = [visit for visit in waiting if there[visit.charger] is not visit]
        active = [visit for visit in there.values() if not visit.is_met and own[visit.charger]]
        if rule == "earliest-departure":
            active.sort(key=lambda visit: (visit.departure, visit.arrival, visit.charger))
        else:
            active.sort(key=lambda visit: (visit.arrival, visit.charger))
        given = shared(rule, left, [own[visit.charger] for visit in active])
        row = [0] * len(own)
        for visit, current in zip(active, given, strict=True):
            hours = (min(ends, visit.departure) - max(starts, visit.arrival)) / 3600
            energy = current * kilowatts[visit.charger] * hours
            visit.remaining_kwh -= min(energy, visit.remaining_kwh)
            if current == 0:
                visit.paused_h += hours
            row[visit.charger] = current
        found.currents_a.append(row)
    return found
