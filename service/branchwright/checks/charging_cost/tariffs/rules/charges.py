"""Rules about what else stands on a bill: riders, credits, meters, and critical-peak events."""

from collections.abc import Iterator

from branchwright.checks.charging_cost.tariffs.calendar_facts import calendar_date
from branchwright.checks.charging_cost.tariffs.coverage import clock
from branchwright.checks.charging_cost.tariffs.given import Given
from branchwright.checks.charging_cost.tariffs.price_facts import BillCredit, CriticalPeakEvent, Rider
from branchwright.checks.charging_cost.tariffs.price_hours import QUARTERS, quarters_of
from branchwright.checks.charging_cost.tariffs.rules.rule import Fault, listed, rule
from branchwright.findings import Finding


@rule("tariff-riders", subject="riders")
def tariff_riders(given: Given) -> list[Finding]:
    """Is every rider either an amount for each kWh or a percentage?

    Applies: where there are riders.
    Rests on: one of the two has to be stated. What a rider applies to is said of a percentage alone: an amount for each
    kWh is on the energy taken.
    Missing facts: none are asked for.
    """
    if not given.tariff.riders:
        return tariff_riders.no_question("The tariff has no riders.")
    faults = [fault for at, rider in enumerate(given.tariff.riders) for fault in _rider_faults(at, rider)]
    return tariff_riders.judged(given, faults, "Every rider is stated in one way.", "/riders")


def _rider_faults(at: int, rider: Rider) -> Iterator[Fault]:
    fields = {"per_kwh": rider.per_kwh, "percent": rider.percent}
    stated = [field for field, value in fields.items() if value is not None]
    if len(stated) != 1:
        yield _one_of_two(f"/riders/{at}", rider.name, list(fields), stated)
    elif rider.percent is None and rider.applies_to is not None:
        yield Fault(
            f"/riders/{at}/applies_to",
            f"{rider.name} is an amount for each kWh; only a percentage is taken of {listed(rider.applies_to)}.",
            "not stated",
            listed(rider.applies_to),
        )


def _one_of_two(place: str, name: str, fields: list[str], stated: list[str]) -> Fault:
    one, other = fields
    states = "both" if stated else "neither"
    return Fault(
        place, f"{name} states {states} of {one} and {other}; state one.", fields, states, comparison="one-of"
    )


@rule("tariff-bill-credits", subject="credits")
def tariff_bill_credits(given: Given) -> list[Finding]:
    """Is every credit either an amount for each kWh or one sum?

    Applies: where there are credits.
    Rests on: one of the two has to be stated. How often is said of a sum alone, a period and a greatest energy of an
    amount for each kWh.
    Missing facts: none are asked for.
    """
    if not given.tariff.credits:
        return tariff_bill_credits.no_question("The tariff has no credits.")
    faults = [fault for at, each in enumerate(given.tariff.credits) for fault in _credit_faults(at, each)]
    return tariff_bill_credits.judged(given, faults, "Every credit is stated in one way.", "/credits")


def _credit_faults(at: int, credit: BillCredit) -> Iterator[Fault]:
    place = f"/credits/{at}"
    fields = {"per_kwh": credit.per_kwh, "amount": credit.amount}
    stated = [field for field, value in fields.items() if value is not None]
    if len(stated) != 1:
        yield _one_of_two(place, credit.name, list(fields), stated)
    elif credit.amount is None:
        if credit.per is not None:
            yield _beside(place, credit.name, "per", credit.per, "an amount for each kWh")
    else:
        if credit.period is not None:
            yield _beside(place, credit.name, "period", credit.period, "one sum")
        if credit.up_to_kwh is not None:
            yield _beside(place, credit.name, "up_to_kwh", f"{credit.up_to_kwh:g} kWh", "one sum")


def _beside(place: str, name: str, field: str, value: str, kind: str) -> Fault:
    message = f"{name} is {kind}, of which {field} says nothing; it is {value}."
    return Fault(f"{place}/{field}", message, "not stated", value)


@rule("tariff-meters", subject="arrangements")
def tariff_meters(given: Given) -> list[Finding]:
    """Is every fixed charge for a meter that the tariff serves?

    Applies: where the tariff states which meters it serves, and a fixed charge which of them bear it.
    Rests on: a charge of a meter that the tariff does not serve would never be billed.
    Missing facts: none are asked for.
    """
    serves, charges = given.tariff.arrangements, given.tariff.fixed_charges
    if serves is None or all(charge.arrangements is None for charge in charges):
        return tariff_meters.no_question(
            "No fixed charge is held to some of the meters that the tariff names."
        )
    faults = [
        Fault(
            f"/fixed_charges/{at}/arrangements",
            f"{charge.name} is for {listed(charge.arrangements)}; the tariff serves {listed(serves)}.",
            list(serves),
            listed(charge.arrangements),
            comparison="one-of",
        )
        for at, charge in enumerate(charges)
        if charge.arrangements is not None and not set(charge.arrangements) <= set(serves)
    ]
    return tariff_meters.judged(given, faults, "Every fixed charge is for a meter that is served.")


@rule("tariff-events-apart", subject="critical-peak events")
def tariff_events_apart(given: Given) -> list[Finding]:
    """Has no quarter hour two critical-peak events?

    Applies: where there are events.
    Rests on: of two events at once nobody can tell which price holds. Events that are added on top of the energy rates
    may meet no other either.
    Missing facts: none are asked for.
    """
    events = given.tariff.critical_peak_events
    if not events:
        return tariff_events_apart.no_question("The tariff has no critical-peak events.")
    return tariff_events_apart.judged(
        given, _overlaps(given), "No two events overlap.", "/critical_peak_events"
    )


def _overlaps(given: Given) -> Iterator[Fault]:
    by_date: dict[str, list[int]] = {}
    events = given.tariff.critical_peak_events
    for at, event in enumerate(events):
        by_date.setdefault(event.date, []).append(at)
    for day, places in by_date.items():
        if len(places) > 1:
            yield from _overlaps_of(given, day, places)


def _overlaps_of(given: Given, day: str, places: list[int]) -> Iterator[Fault]:
    """Yield each event of a date that meets an earlier one of the list, with the first that it meets."""
    events = given.tariff.critical_peak_events
    taken: dict[int, int] = {}
    for at in places:
        quarters = sorted(_quarters(events[at]))
        met = next((quarter for quarter in quarters if quarter in taken), None)
        if met is not None:
            other = f"{given.at('/critical_peak_events')}/{taken[met]}"
            yield Fault(
                f"/critical_peak_events/{at}",
                f"At {day} {clock(met)} the event meets that of {other}.",
                1.0,
                2.0,
                unit="count",
            )
        for quarter in quarters:
            taken.setdefault(quarter, at)


def _quarters(event: CriticalPeakEvent) -> set[int]:
    every = range(QUARTERS)
    return {quarter for part in quarters_of(event.begin, event.end) for quarter in every[part]}


@rule("tariff-events-in-year", subject="critical-peak events", force="recommendation")
def tariff_events_in_year(given: Given) -> list[Finding]:
    """Do the critical-peak events lie in the months that are priced?

    Applies: where there are events.
    Rests on: an event of another year changes nothing here; the year that is priced may lack its own.
    Missing facts: none are asked for.
    """
    events = given.tariff.critical_peak_events
    if not events:
        return tariff_events_in_year.no_question("The tariff has no critical-peak events.")
    first, last = given.first.isoformat(), given.last.isoformat()
    faults = [
        Fault(
            f"/critical_peak_events/{at}/date",
            f"The event of {event.date} lies outside {first} to {last} and changes nothing.",
            f"{first} to {last}",
            event.date,
        )
        for at, event in enumerate(events)
        if calendar_date(event.date) is not None and not first <= event.date <= last
    ]
    return tariff_events_in_year.judged(given, faults, "Every event lies in the months that are priced.")
