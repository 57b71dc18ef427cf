"""Rules about where and when a tariff holds: its currency, its clock, its dates and its holidays."""

from collections.abc import Iterator

from branchwright.checks.charging_cost.tariffs.calendar_facts import calendar_date
from branchwright.checks.charging_cost.tariffs.given import Given
from branchwright.checks.charging_cost.tariffs.holiday_calendar import (
    known_countries,
    known_subdivisions,
    known_years,
    names_of_holidays,
)
from branchwright.checks.charging_cost.tariffs.rules.rule import Fault, listed, nearest, rule
from branchwright.findings import Finding
from branchwright.quantities.money import DIGITS
from branchwright.questions.local_time import nearest_zone

DAYS_OF_MONTH = {"02": 29, "04": 30, "06": 30, "09": 30, "11": 30}
"""Most days of the months that have fewer than 31."""


@rule("tariff-currency", subject="currency")
def tariff_currency(given: Given) -> list[Finding]:
    """Is the currency one of which the smallest coin is known?

    Applies: always.
    Rests on: the digits after the point of the currencies of ISO 4217; bills are rounded to them.
    Missing facts: none are asked for.
    """
    currency = given.tariff.currency
    if currency in DIGITS:
        return tariff_currency.judged(given, [], f"{currency} is a currency of ISO 4217.", "/currency")
    message = f"No currency of ISO 4217 has the code {currency}.{nearest(currency, list(DIGITS))}"
    wrong = Fault("/currency", message, sorted(DIGITS), currency, comparison="one-of")
    return tariff_currency.judged(given, [wrong], "")


@rule("tariff-time-zone", subject="time zone")
def tariff_time_zone(given: Given) -> list[Finding]:
    """Is the time zone one that is known?

    Applies: always.
    Rests on: the IANA time zone database. Hours, days and months of a tariff are those of this zone's clock, which is
    put forward and back as the database says.
    Missing facts: none are asked for.
    """
    name = given.tariff.time_zone
    if given.zone is not None:
        return tariff_time_zone.judged(given, [], f"{name} is a known time zone.", "/time_zone")
    like = nearest_zone(name)
    meant = "" if like is None else f" Perhaps {like} is meant."
    wrong = Fault(
        "/time_zone",
        f"There is no time zone named {name}.{meant}",
        like or "a name of the IANA time zone database",
        name,
    )
    return tariff_time_zone.judged(given, [wrong], "", "/time_zone")


@rule("tariff-dates", subject="dates")
def tariff_dates(given: Given) -> list[Finding]:
    """Does the calendar have every date that is stated?

    Applies: always.
    Rests on: the Gregorian calendar. A season may begin or end on 02-29, which only leap years have.
    Missing facts: none are asked for.
    """
    return tariff_dates.judged(given, _impossible_dates(given), "Every stated date is in the calendar.")


def _impossible_dates(given: Given) -> Iterator[Fault]:
    tariff = given.tariff
    dates = [(f"/holiday_dates/{at}", each) for at, each in enumerate(tariff.holiday_dates or ())]
    dates += [
        (f"/critical_peak_events/{at}/date", each.date) for at, each in enumerate(tariff.critical_peak_events)
    ]
    if tariff.effective is not None:
        dates.append(("/effective/from", tariff.effective.begin))
        if tariff.effective.end is not None:
            dates.append(("/effective/to", tariff.effective.end))
    for place, stated in dates:
        if calendar_date(stated) is None:
            yield _no_such_day(place, stated)
    for at, season in enumerate(tariff.seasons):
        for end, stated in (("from", season.begin), ("to", season.end)):
            if int(stated[3:]) > DAYS_OF_MONTH.get(stated[:2], 31):
                yield _no_such_day(f"/seasons/{at}/{end}", stated)


def _no_such_day(place: str, stated: str) -> Fault:
    return Fault(place, f"The calendar has no {stated}.", "a date of the calendar", stated)


@rule("tariff-in-force", subject="dates in force")
def tariff_in_force(given: Given) -> list[Finding]:
    """Is the tariff in force on every date that is priced?

    Applies: where the dates on which it is in force are stated.
    Rests on: the prices of a tariff that has not begun or has ended are not those that will be billed.
    Missing facts: undetermined where a part of the twelve months lies outside, since nobody knows what holds there.
    """
    effective = given.tariff.effective
    if effective is None:
        return tariff_in_force.no_question("The tariff does not state when it is in force.")
    begin = calendar_date(effective.begin)
    end = None if effective.end is None else calendar_date(effective.end)
    if begin is None or (end is None and effective.end is not None):
        return tariff_in_force.open_question(given, "/effective", "A date of it is not in the calendar.")
    if end is not None and end < begin:
        message = f"The tariff ends on {end}, before it begins on {begin}."
        wrong = Fault(
            "/effective/to", message, f"{begin} or later", str(end), unit="date", comparison="at-least"
        )
        return tariff_in_force.judged(given, [wrong], "")
    if begin > given.first:
        return tariff_in_force.open_question(
            given,
            "/effective/from",
            f"The tariff begins on {begin}; the dates that are priced begin on {given.first}.",
        )
    if end is not None and end < given.last:
        return tariff_in_force.open_question(
            given,
            "/effective/to",
            f"The tariff ends on {end}; the dates that are priced end on {given.last}.",
        )
    return tariff_in_force.judged(given, [], "The tariff is in force on every date.", "/effective")


@rule("tariff-holiday-calendar", subject="holidays")
def tariff_holiday_calendar(given: Given) -> list[Finding]:
    """Is there a calendar of public holidays of the country and its part?

    Applies: where a country, a part of one or a choice of its holidays is stated.
    Rests on: the calendars of the library that the service computes holidays with. A part, a choice by name and a rule
    of observed days all need the country.
    Missing facts: undetermined where the calendar does not know the year; none of its holidays is counted.
    """
    tariff = given.tariff
    country, part = tariff.country, tariff.subdivision
    if country is None:
        faults = _without_country(given)
        if not faults:
            return tariff_holiday_calendar.no_question("The tariff names no country.")
        return tariff_holiday_calendar.judged(given, faults, "")
    if not given.knows_country:
        message = f"No holiday calendar is known of a country {country}."
        wrong = Fault("/country", message, list(known_countries()), country, comparison="one-of")
        return tariff_holiday_calendar.judged(given, [wrong], "")
    if part is not None and not given.knows_place:
        known = known_subdivisions(country)
        message = f"The holiday calendar of {country} has no part {part}.{nearest(part, known)}"
        wrong = Fault("/subdivision", message, list(known), part, comparison="one-of")
        return tariff_holiday_calendar.judged(given, [wrong], "")
    years = known_years(country)
    if given.first.year not in years or given.last.year not in years:
        return tariff_holiday_calendar.open_question(
            given,
            "/country",
            f"The holiday calendar of {country} is known from {years[0]} to {years[-1]} only.",
        )
    named = country if part is None else f"{country}-{part}"
    return tariff_holiday_calendar.judged(
        given, [], f"The holidays are those of {named}.", "/country" if part is None else "/subdivision"
    )


def _without_country(given: Given) -> list[Fault]:
    tariff = given.tariff
    stated = [
        ("subdivision", tariff.subdivision),
        ("observed_holidays", tariff.observed_holidays),
        ("holiday_names", None if tariff.holiday_names is None else listed(tariff.holiday_names)),
    ]
    return [
        Fault(f"/{field}", f"{field} is stated without the country that it belongs to.", "country", value)
        for field, value in stated
        if value is not None
    ]


@rule("tariff-holiday-names", subject="holidays")
def tariff_holiday_names(given: Given) -> list[Finding]:
    """Is every holiday that is chosen by name in the calendar?

    Applies: where holidays are chosen by name and the calendar of the place is known.
    Rests on: the names of that calendar in the years of the twelve months, without those of observed days: a name
    stands for the holiday's own day and for the one on which it is observed.
    Missing facts: none are asked for.
    """
    tariff = given.tariff
    if tariff.holiday_names is None or tariff.country is None or not given.knows_place:
        return tariff_holiday_names.no_question("No holiday of a known calendar is chosen by name.")
    known = names_of_holidays(tariff.country, tariff.subdivision, given.first.year, given.last.year)
    faults = [
        Fault(
            f"/holiday_names/{at}",
            f"The calendar has no {name} in {_years(given)}; it has {listed(known)}.",
            list(known),
            name,
            comparison="one-of",
        )
        for at, name in enumerate(tariff.holiday_names)
        if name not in known
    ]
    return tariff_holiday_names.judged(
        given, faults, "Every holiday that is named is in the calendar.", "/holiday_names"
    )


def _years(given: Given) -> str:
    first, last = given.first.year, given.last.year
    return f"{first}" if first == last else f"{first} or {last}"


@rule("tariff-holidays-known", subject="holidays")
def tariff_holidays_known(given: Given) -> list[Finding]:
    """Is it known which dates are holidays, where prices depend on it?

    Applies: where some day type includes or excludes holidays.
    Rests on: a country whose public holidays count, or dates that are stated.
    Missing facts: undetermined where neither is stated; no date is counted as a holiday.
    """
    if not given.looks_at_holidays:
        return tariff_holidays_known.no_question("No day type treats holidays apart.")
    if not given.has_holidays:
        return tariff_holidays_known.open_question(
            given,
            "/country",
            "Day types treat holidays apart, and neither country nor holiday_dates is stated.",
        )
    count = len(given.holidays)
    return tariff_holidays_known.judged(given, [], f"{count} dates count as holidays.")
