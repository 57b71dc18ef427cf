"""Answers about the cost of charging as tables for a terminal: options side by side, the meter's pay-back, a bill."""

from collections.abc import Mapping
from typing import Any

from rich.console import Console
from rich.table import Table
from rich.text import Text

from branchwright.cli.tables import Answer, headed_table, show_judged, show_remarks, shown

MOST_OPTIONS = 20
"""How many options are printed, the best first; the answer itself has all."""


def show_charging(console: Console, answer: Answer, *, remarks: bool = True) -> None:
    """Print the options side by side, what the schedules bring, what a separate meter pays, and the worked bill."""
    show_judged(console, answer)
    options = answer["options"]
    if options:
        console.print(_options(answer))
        if len(options) > MOST_OPTIONS:
            console.print(f"{len(options) - MOST_OPTIONS} more options cost more.", highlight=False)
    if answer["windows"]:
        console.print(
            _windows(
                answer["windows"], {option["schedule"]["index"]: _schedule(option) for option in options}
            )
        )
    for item in answer["not_offered"]:
        console.print(Text(f"Not offered: {item['tariff']}, {item['arrangement']}: {item['why']}"))
    if answer["separate_meter"] is not None:
        console.print(_separate_meter(answer["separate_meter"], answer["currency"]))
    if answer["worked_bill"] is not None:
        console.print(_bill(answer["worked_bill"], answer["currency"]))
    if remarks:
        show_remarks(console, answer)


def _options(answer: Answer) -> Table:
    currency = answer["currency"]
    table = headed_table(
        f"A year from {answer['priced_from']}, {currency}",
        *("", "tariff", "meter", "schedule", "all bills", "charging", "a kWh", "distance", "kW", "unmet"),
    )
    for option in answer["options"][:MOST_OPTIONS]:
        distance = option["per_distance"]
        table.add_row(
            str(option["rank"]),
            option["tariff"],
            option["arrangement"],
            _schedule(option),
            option["annual"]["with_charging"],
            option["annual"]["charging"],
            option["per_kwh"] or "",
            "" if distance is None else f"{distance['amount']} a {distance['unit']}",
            shown(option["greatest_demand_kw"]),
            f"{shown(option['unmet_kwh'])} kWh" if option["unmet_kwh"] else "",
        )
    return table


def _schedule(option: Answer) -> str:
    name: str = option["schedule"]["name"] or option["schedule"]["kind"]
    return name


def _windows(windows: list[Any], schedules: Mapping[int, str]) -> Table:
    table = headed_table(
        "What the schedules bring",
        *("schedule", "nights met", "worst winter night", "needed", "deliverable", "current that would do"),
    )
    for window in windows:
        worst = window["worst_day"]
        met = f"{window['nights_met']} of {window['nights']}"
        schedule = schedules.get(window["schedule"], f"schedule {window['schedule']}")
        if worst is None:
            table.add_row(schedule, met, "", "", "", "")
            continue
        current = worst["current_that_would_do_a"]
        table.add_row(
            schedule,
            met,
            worst["date"],
            f"{shown(worst['needed_kwh'])} kWh",
            f"{shown(worst['deliverable_kwh'])} kWh",
            "none" if current is None else f"{shown(current)} A",
        )
    return table


def _separate_meter(result: Answer, currency: str | None) -> Table:
    table = headed_table(
        f"A separate meter for {result['installed_cost']} {currency}, over {result['years']} years at "
        f"{shown(result['discount_rate_percent'])} %: option {result['option']}",
        *("against", "option", "saves a year", "paid back in", "net present value", "break-even a year"),
    )
    for row in result["against"]:
        years = row["payback_years"]
        table.add_row(
            row["against"],
            str(row["option"]),
            row["annual_saving"],
            "never" if years is None else f"{years:.1f} years",
            row["net_present_value"],
            _break_even(row),
        )
    return table


def _break_even(row: Answer) -> str:
    distance, energy = row["break_even_distance_per_year"], row["break_even_kwh_per_year"]
    if energy is None:
        return "none"
    stated = f"{energy:,.0f} kWh"
    return stated if distance is None else f"{distance:,.0f} {row['break_even_distance_unit']} ({stated})"


def _bill(bill: Answer, currency: str | None) -> Table:
    table = headed_table(
        f"The bill of {bill['month']}, option {bill['option']}",
        *("account", "for", "line", "quantity", "rate", f"amount, {currency}"),
    )
    for line in bill["lines"]:
        tier = None if line["tier"] is None else f"tier {line['tier'] + 1}"
        parts = [part for part in (line["season"], line["period"], tier) if part and part != line["name"]]
        table.add_row(
            line["account"],
            line["kind"],
            f"{line['name']} ({', '.join(parts)})" if parts else line["name"],
            f"{line['quantity']} {line['unit']}",
            line["rate"],
            line["amount"],
        )
    table.add_section()
    table.add_row("", "", "total", "", "", bill["total"])
    return table
