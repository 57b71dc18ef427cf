"""Rules about time: whether seasons and day types are laid out, and whether every hour has one price."""

from collections.abc import Iterable, Iterator
from itertools import groupby

from branchwright.checks.charging_cost.tariffs.coverage import (
    DAYS_OF_YEAR,
    WEEKDAY_NAMES,
    Unsound,
    clock,
)
from branchwright.checks.charging_cost.tariffs.given import Given
from branchwright.checks.charging_cost.tariffs.price_hours import is_in_season
from branchwright.checks.charging_cost.tariffs.rules.rule import MOST_FAULTS, Fault, listed, rule
from branchwright.findings import Finding


@rule("tariff-seasons", subject="seasons")
def tariff_seasons(given: Given) -> list[Finding]:
    """Does every date of the year lie in one season?

    Applies: where there are seasons.
    Rests on: both ends of a season belong to it, and one that ends before it begins goes over the new year. All 366
    dates of a leap year are tried. A date may lie in no season where no energy rate names one: then seasons are for
    other charges alone.
    Missing facts: none are asked for.
    """
    if not given.tariff.seasons:
        return tariff_seasons.no_question("The tariff has no seasons.")
    return tariff_seasons.judged(
        given, _season_faults(given), "No date lies in two seasons or between them.", "/seasons"
    )


def _season_faults(given: Given) -> Iterator[Fault]:
    seasons = given.tariff.seasons
    is_gap_allowed = all(rate.season is None for rate in given.tariff.energy_rates)

    def places_on(day: str) -> tuple[int, ...]:
        return tuple(place for place, season in enumerate(seasons) if is_in_season(season, day))

    for places, span in groupby(DAYS_OF_YEAR, key=places_on):
        together = list(span)
        when = together[0] if len(together) == 1 else f"{together[0]} to {together[-1]}"
        names = [seasons[place].name for place in places]
        if not places and not is_gap_allowed:
            yield Fault("/seasons", f"No season has {when}.", 1.0, 0.0, unit="count")
        elif len(places) > 1:
            message = f"{when} lies in {len(names)} seasons: {listed(names)}."
            yield Fault(f"/seasons/{places[1]}", message, 1.0, float(len(names)), unit="count")


@rule("tariff-day-types", subject="day types")
def tariff_day_types(given: Given) -> list[Finding]:
    """Can every day type come about?

    Applies: where there are day types.
    Rests on: a day type without weekdays is of holidays alone, and has to include them.
    Missing facts: none are asked for.
    """
    if not given.tariff.day_types:
        return tariff_day_types.no_question("The tariff has no day types.")
    faults = [
        Fault(
            f"/day_types/{at}/weekdays",
            f"{each.name} has no weekday and does not include holidays: no date is of this kind.",
            "a weekday, or holidays included",
            "neither",
        )
        for at, each in enumerate(given.tariff.day_types)
        if not each.weekdays and each.holidays != "included"
    ]
    return tariff_day_types.judged(given, faults, "Every day type can come about.", "/day_types")


@rule("tariff-no-hour-unpriced", subject="energy rates")
def tariff_no_hour_unpriced(given: Given) -> list[Finding]:
    """Has every hour a price?

    Applies: always.
    Rests on: every quarter of an hour of every season is tried on each weekday and, where the tariff treats holidays
    apart and says from where they come, on a holiday of that weekday. So a gap is found that the year in question does
    not show. The message names the first date of that kind.
    Missing facts: none are asked for.
    """
    together = _alike(given.coverage.gaps)
    faults = [_gap(given, alike) for alike in together[:MOST_FAULTS]]
    passed = f"Each of {given.coverage.tried} kinds of quarter hour has a price."
    return tariff_no_hour_unpriced.judged(given, faults, passed, "/energy_rates", len(together) - len(faults))


@rule("tariff-no-hour-priced-twice", subject="energy rates")
def tariff_no_hour_priced_twice(given: Given) -> list[Finding]:
    """Has no hour more than one price?

    Applies: always.
    Rests on: the same kinds of quarter hour as for gaps. Two rows that apply at once are two prices, also where they
    are equal: nobody can tell which period the energy belongs to.
    Missing facts: none are asked for.
    """
    together = _alike(given.coverage.doubles)
    faults = [_double(given, alike) for alike in together[:MOST_FAULTS]]
    passed = f"None of {given.coverage.tried} kinds of quarter hour has two prices."
    return tariff_no_hour_priced_twice.judged(
        given, faults, passed, "/energy_rates", len(together) - len(faults)
    )


def _alike(faults: Iterable[Unsound]) -> list[list[Unsound]]:
    """Return the faults that differ in their weekday alone together."""
    together: dict[tuple[object, ...], list[Unsound]] = {}
    for fault in faults:
        key = (fault.kind.season, fault.kind.is_holiday, fault.begin, fault.end, fault.rows)
        together.setdefault(key, []).append(fault)
    return list(together.values())


def _gap(given: Given, alike: list[Unsound]) -> Fault:
    return Fault(
        "/energy_rates",
        f"Nothing prices {_when(alike, has_seasons=bool(given.tariff.seasons))}; {_first(alike)}.",
        1.0,
        0.0,
        unit="count",
    )


def _double(given: Given, alike: list[Unsound]) -> Fault:
    rows = [f"{given.at('/energy_rates')}/{row}" for row in alike[0].rows]
    when = _when(alike, has_seasons=bool(given.tariff.seasons))
    return Fault(
        f"/energy_rates/{alike[0].rows[1]}",
        f"{len(rows)} rows price {when}: {listed(rows)}; {_first(alike)}.",
        1.0,
        float(len(rows)),
        unit="count",
    )


def _first(alike: list[Unsound]) -> str:
    """Return the first date of some faults in words; the months that are priced may have none."""
    dated = [(fault.day, fault) for fault in alike if fault.day is not None]
    if not dated:
        return "not in the months that are priced, but in other years"
    day, fault = min(dated, key=lambda each: each[0])
    return f"first at {day} {clock(fault.begin)}, a {WEEKDAY_NAMES[fault.kind.weekday]}"


def _when(alike: list[Unsound], *, has_seasons: bool) -> str:
    kind = alike[0].kind
    days = sorted(fault.kind.weekday for fault in alike)
    if len(days) == 7:
        on = "every day"
    elif len(days) > 2 and days[-1] - days[0] == len(days) - 1:
        on = f"{WEEKDAY_NAMES[days[0]]} to {WEEKDAY_NAMES[days[-1]]}"
    else:
        on = ", ".join(WEEKDAY_NAMES[day] for day in days)
    season = "" if kind.season is None else f" in {kind.season}"
    if kind.season is None and has_seasons:
        season = " outside the seasons"
    holiday = ", where it is a holiday" if kind.is_holiday else ""
    return f"{clock(alike[0].begin)} to {clock(alike[0].end)} on {on}{season}{holiday}"
