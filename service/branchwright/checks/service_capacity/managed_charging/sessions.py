"""The sessions of all vehicles in the readings, as arrays for the simulation."""

from dataclasses import dataclass

import numpy as np

from branchwright.calculations.arrays import Flags, Floats, Whole
from branchwright.calculations.charging_simulation import Sessions, Sharing
from branchwright.calculations.managed_charging import ASSUMED_EFFICIENCY, own_limit_a, wall_energy_kwh
from branchwright.checks.service_capacity.managed_charging.facts import ManagedCharger, Session, Vehicle
from branchwright.questions.fields import LEAST_SIGNALLED_A
from branchwright.questions.local_days import WEEKDAYS, LocalDays, minutes_of

NOBODY = Vehicle()


def window_minutes(session: Session) -> tuple[int, int]:
    """Return arrival and departure in minutes since the midnight before the arrival; at most a day apart."""
    arrival, departure = minutes_of(session.arrival), minutes_of(session.departure)
    return arrival, departure if departure > arrival else departure + 1440


def efficiency_of(charger: ManagedCharger) -> float:
    """Return the charging efficiency of the vehicle at a charger, stated or assumed."""
    return (charger.vehicle or NOBODY).charging_efficiency or ASSUMED_EFFICIENCY


def wall_kwh(charger: ManagedCharger, session: Session) -> float:
    """Return the energy in kWh that a session needs at the wall."""
    if session.basis == "wall":
        return session.energy_kwh
    return wall_energy_kwh.value(session.energy_kwh, efficiency_of(charger))


def own_limit(charger: ManagedCharger, factor: float) -> float:
    """Return the whole amperes that charger, circuit and vehicle allow; 0 where that is less than any vehicle takes."""
    onboard = (charger.vehicle or NOBODY).onboard_limit_a
    setting = charger.charging_current_a
    found = own_limit_a.value(
        setting, charger.circuit_breaker_a, factor, setting if onboard is None else onboard
    )
    return found if found >= LEAST_SIGNALLED_A else 0.0


@dataclass(slots=True)
class Windows:
    """Sessions that lie in the readings, S of each, and how many do not; instants in seconds since 1970.

    `night` is the index of the local date of arrival, `session` the place of the session at its charger.
    """

    charger: Whole
    session: Whole
    night: Whole
    arrival: Whole
    departure: Whole
    need_kwh: Floats
    left_out: int


@dataclass(slots=True)
class _Occurrences:
    """One session of one charger on every date: whether it touches the readings, and its instants, shape (D,)."""

    charger: int
    session: int
    touches: Flags
    arrival: Whole
    departure: Whole
    need_kwh: float


def windows_of(chargers: tuple[ManagedCharger, ...], days: LocalDays, begin: int, end: int) -> Windows:
    """Return the sessions of all chargers in readings from one instant to another, in the order of arrival.

    A date on which any session reaches over the ends of the readings is left out with all its sessions: what would be
    left of it had the current to itself.
    """
    found = [
        _occurrences(place, number, charger, days, begin, end)
        for place, charger in enumerate(chargers)
        for number in range(len(charger.sessions))
    ]
    is_cut = np.zeros(days.count, dtype=bool)
    for each in found:
        is_cut |= each.touches & ((each.arrival < begin) | (each.departure > end))
    nights = [np.flatnonzero(each.touches & ~is_cut) for each in found]
    sizes = [len(kept) for kept in nights]
    places = np.repeat([each.charger for each in found], sizes)
    arrival = np.concatenate([each.arrival[kept] for each, kept in zip(found, nights, strict=True)])
    departure = np.concatenate([each.departure[kept] for each, kept in zip(found, nights, strict=True)])
    order = np.lexsort((places, arrival))
    return Windows(
        charger=places[order],
        session=np.repeat([each.session for each in found], sizes)[order],
        night=np.concatenate(nights)[order],
        arrival=arrival[order],
        departure=departure[order],
        need_kwh=np.repeat([each.need_kwh for each in found], sizes)[order],
        left_out=sum(int(each.touches.sum()) for each in found) - len(order),
    )


def _occurrences(
    place: int, number: int, charger: ManagedCharger, days: LocalDays, begin: int, end: int
) -> _Occurrences:
    session = charger.sessions[number]
    arrival_minutes, departure_minutes = window_minutes(session)
    wanted: Flags = np.isin(days.weekdays, [WEEKDAYS.index(day) for day in session.weekdays])
    arrival = days.instants(arrival_minutes)
    # A clock that jumps may bring the departure before the arrival: then there is no time between them.
    departure: Whole = np.maximum(days.instants(departure_minutes), arrival)
    touches: Flags = wanted & (departure > begin) & (arrival < end)
    return _Occurrences(place, number, touches, arrival, departure, wall_kwh(charger, session))


def sessions_of(
    windows: Windows,
    own_a: Floats,
    kwh_per_ah: Floats,
    begin: int,
    interval_s: int,
    sharing: Sharing,
) -> Sessions:
    """Return the sessions as the simulation takes them; `own_a` and `kwh_per_ah` are those of the chargers, (V,)."""
    arrival, departure = windows.arrival - begin, windows.departure - begin
    first = arrival // interval_s
    last = np.maximum((departure - 1) // interval_s, first)
    first_s = np.minimum(departure, (first + 1) * interval_s) - arrival
    last_s = np.where(last > first, departure - last * interval_s, first_s)
    for place in _sharing_an_interval(windows.charger, first, last):
        _begin_later(np.flatnonzero(windows.charger == place), first, last, first_s, last_s, interval_s)
    # The last key decides first.
    served = [windows.charger, windows.arrival]
    if sharing == "earliest-departure":
        served.append(windows.departure)
    rank = np.empty(len(first), dtype=np.int64)
    rank[np.lexsort(served)] = np.arange(len(first))
    return Sessions(
        charger=windows.charger,
        first=first,
        last=last,
        first_h=first_s / 3600,
        last_h=last_s / 3600,
        need_kwh=windows.need_kwh,
        own_a=own_a[windows.charger],
        kwh_per_ah=kwh_per_ah[windows.charger],
        rank=rank,
    )


def _sharing_an_interval(charger: Whole, first: Whole, last: Whole) -> Whole:
    """Return the chargers at which a session begins in an interval in which another one ends."""
    order = np.lexsort((first, charger))
    ended, begun = order[:-1], order[1:]
    same = (charger[ended] == charger[begun]) & (first[begun] <= last[ended])
    return np.unique(charger[begun[same]])


def _begin_later(
    order: Whole, first: Whole, last: Whole, first_s: Whole, last_s: Whole, interval_s: int
) -> None:
    """Let each session of a charger begin, in place, after the interval in which the one before it ends.

    `order` has the charger's sessions in the order of arrival. One that is over by then gets no time.
    """
    ended = -1
    for each in order:
        if first_s[each] == 0:
            continue
        if first[each] > ended:
            ended = int(last[each])
        elif last[each] > ended:
            first_s[each] = interval_s if last[each] > ended + 1 else last_s[each]
            first[each] = ended + 1
            ended = int(last[each])
        else:
            first[each] = last[each]
            first_s[each] = last_s[each] = 0
