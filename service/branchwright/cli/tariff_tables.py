"""Answers about tariffs as tables for a terminal: what each hour of a week costs, and the year at a glance."""

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal
from itertools import groupby
from typing import Any

from rich.console import Console
from rich.table import Table

from branchwright.cli.tables import Answer, headed_table, show_judged, show_remarks, shown


def show_tariff(console: Console, answer: Answer, *, remarks: bool = True) -> None:
    """Print whether a tariff is sound, its periods, a week of each season and the months of the year."""
    show_judged(console, answer)
    if answer["periods"]:
        console.print(_periods(answer["periods"]))
    for week in answer["weeks"]:
        console.print(_week(week))
    if answer["price_by_month_and_hour"]:
        console.print(_months(answer["price_by_month_and_hour"]))
    if answer["holidays"]:
        holidays = headed_table("Holidays that count", "date", "name")
        for holiday in answer["holidays"]:
            holidays.add_row(holiday["date"], holiday["name"])
        console.print(holidays)
    changed = [*answer["short_days"], *answer["long_days"]]
    if changed:
        days = ", ".join(f"{day['date']} ({shown(day['hours'])} h)" for day in changed)
        console.print(f"The clock changes on {days}.", highlight=False)
    if remarks:
        show_remarks(console, answer)


def _periods(periods: list[Any]) -> Table:
    table = headed_table("Periods", "season", "period", "hours of the year", "least a kWh", "greatest a kWh")
    for period in periods:
        table.add_row(
            period["season"] or "all year",
            period["period"],
            shown(period["hours"]),
            period["least_per_kwh"],
            period["greatest_per_kwh"],
        )
    return table


@dataclass(frozen=True)
class _Stretch:
    """Hours of one date that follow each other and cost the same."""

    begin: str
    end: str
    prices: tuple[str, ...]


def _week(week: Answer) -> Table:
    """Return a week with a row for each stretch of one price; days alike that follow each other are one."""
    season = week["season"] or "the year"
    table = headed_table(
        f"The week from {week['week_start']}, {season}",
        *("days", "hours", "period", "first tier", "last tier", "with riders", "sent out"),
    )
    for (kind, stretches), alike in groupby(week["days"], _shape):
        days = [day["weekday"] for day in alike]
        named = days[0] if len(days) == 1 else f"{days[0]} to {days[-1]}"
        for number, stretch in enumerate(stretches):
            table.add_row(
                "" if number else f"{named} {kind}".rstrip(),
                f"{stretch.begin} to {stretch.end}",
                *stretch.prices,
                end_section=number == len(stretches) - 1,
            )
    return table


def _shape(day: Answer) -> tuple[str, tuple[_Stretch, ...]]:
    """Return what a date is and its stretches: what days have to share to be shown as one."""
    kind = day["holiday"] or ", ".join(day["day_types"])
    return f"({kind})" if kind else "", tuple(_stretches(day["hours"]))


def _stretches(hours: list[Any]) -> Iterator[_Stretch]:
    runs = [list(run) for _, run in groupby(hours, _prices)]
    begins = [run[0]["at"][11:16] for run in runs]
    for run, begin, end in zip(runs, begins, [*begins[1:], "24:00"], strict=True):
        yield _Stretch(begin, end, _prices(run[0]))


def _prices(hour: Answer) -> tuple[str, ...]:
    event = hour["critical_peak"]
    period = hour["period"] if event is None else f"{hour['period']}, event {event['how']}"
    return (
        period,
        hour["per_kwh"],
        hour["last_tier_per_kwh"],
        hour["with_riders_per_kwh"],
        hour["export_per_kwh"] or "",
    )


def _months(months: list[Any]) -> Table:
    table = headed_table(
        "What a kWh costs on average, riders included", "month", "cheapest hour", "dearest hour", "mean"
    )
    for month in months:
        prices = [Decimal(price) for price in month["per_kwh"]]
        least, greatest = min(prices), max(prices)
        table.add_row(
            month["month"],
            f"{least:.4f} at {prices.index(least):02}:00",
            f"{greatest:.4f} at {prices.index(greatest):02}:00",
            f"{sum(prices) / len(prices):.4f}",
        )
    return table
