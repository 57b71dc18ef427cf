"""Answers about services as tables for a terminal."""

from rich.console import Console
from rich.table import Table
from rich.text import Text

from branchwright.cli.tables import Answer, headed_table, show_judged, show_remarks, shown

MOST_GAPS = 10
"""How many gaps of the readings are printed; the answer itself has more."""


def show_load(console: Console, answer: Answer, *, remarks: bool = True) -> None:
    """Print the methods side by side, then each line by line."""
    show_judged(console, answer)
    methods = headed_table(
        "Methods side by side", "method", "permitted", "load", "current", "least service", "neutral"
    )
    for method in answer["methods"]:
        methods.add_row(
            method["method"],
            {True: "yes", False: "no", None: "not known"}[method["permitted"]],
            _with_unit(method["total_va"], "VA"),
            _with_unit(method["current_a"], "A"),
            _with_unit(method["least_service_rating_a"], "A"),
            _with_unit(method["neutral_current_a"], "A"),
        )
    console.print(methods)
    for method in answer["methods"]:
        lines = headed_table(f"By {method['method']}", "load", "connected", "factor", "demand", "section")
        for line in method["lines"]:
            lines.add_row(
                line["item"],
                _with_unit(line["connected_va"], "VA"),
                shown(line["demand_factor"]),
                _with_unit(line["demand_va"], "VA"),
                line["citation"]["section"],
            )
        console.print(lines)
    if remarks:
        show_remarks(console, answer)


def show_capacity(console: Console, answer: Answer, *, remarks: bool = True) -> None:
    """Print what the service carries, and the ways to make the chargers fit."""
    show_judged(console, answer)
    capacity = answer["capacity"]
    largest = capacity["largest_charging_current_a"]
    table = Table(title="Capacity", show_header=False)
    for name, value, unit in (
        ("load without the chargers", capacity["existing_load_va"], "VA"),
        ("chargers", capacity["charger_load_va"], "VA"),
        ("both together", capacity["total_a"], "A"),
        ("limit", capacity["limit_a"], "A"),
        ("headroom", capacity["headroom_a"], "A"),
        ("largest charging current, unmanaged", largest["unmanaged"], "A"),
        ("largest charging current, managed", largest["managed"], "A"),
        ("counted for the control setting", capacity["managed_total_a"], "A"),
        ("load with the link lost", capacity["lost_link_total_a"], "A"),
    ):
        if value is not None:
            table.add_row(name, _with_unit(value, unit))
    console.print(table)
    if capacity["ways_to_fit"]:
        ways = headed_table("Ways to fit, the cheapest first", "way", "charging current", "what it takes")
        for way in capacity["ways_to_fit"]:
            ways.add_row(way["way"], _with_unit(way["charging_current_a"], "A"), way["why"])
        console.print(ways)
    if remarks:
        show_remarks(console, answer)


def show_interval_data(console: Console, answer: Answer, *, remarks: bool = True) -> None:
    """Print how good the readings are, and what demand they show."""
    show_judged(console, answer)
    _show_quality(console, answer["quality"])
    demand = answer["measured_demand"]
    if demand is not None:
        table = Table(title="Measured demand", show_header=False)
        table.add_row(
            "greatest", f"{_with_unit(demand['greatest_w'], 'W')} over {demand['averaging_minutes']} minutes"
        )
        table.add_row("at", demand["at"])
        table.add_row("in amperes", _with_unit(demand["greatest_a"], f"A ({demand['leg_assumption']})"))
        table.add_row("no quarter of an hour above", _with_unit(demand["bound_15_minute_w"], "W"))
        table.add_row("energy", _with_unit(demand["total_kwh"], "kWh"))
        table.add_row(
            "over", f"{shown(demand['days'])} days, {shown(demand['coverage_percent'])} % of the readings"
        )
        console.print(table)
        console.print(Text(demand["bound_why"]))
    if remarks:
        show_remarks(console, answer)


def show_study(console: Console, answer: Answer, *, remarks: bool = True) -> None:
    """Print what managed charging delivers, and what other settings would."""
    show_judged(console, answer)
    year, smallest = answer["year"], answer["smallest"]
    if year is not None:
        table = Table(title=f"Over {shown(year['days'])} days", show_header=False)
        table.add_row("nights met", f"{year['nights_met']} of {year['nights']}")
        table.add_row(
            "delivered", f"{shown(year['energy_delivered_kwh'])} of {shown(year['energy_needed_kwh'])} kWh"
        )
        table.add_row("hours paused", shown(year["hours_paused"]))
        table.add_row("greatest current while charging", _with_unit(year["greatest_total_current_a"], "A"))
        if year["worst_night"] is not None:
            worst = year["worst_night"]
            table.add_row("worst night", f"{worst['date']}, {shown(worst['unmet_kwh'])} kWh unmet")
        console.print(table)
    if answer["by_control_setting"]:
        points = headed_table("Nights met by control setting", "control setting", "nights met", "share")
        for point in answer["by_control_setting"]:
            points.add_row(
                _with_unit(point["control_setting_a"], "A"),
                str(point["nights_met"]),
                _with_unit(point["share_met_percent"], "%"),
            )
        console.print(points)
    if smallest is not None:
        console.print(Text(smallest["why"]))
    if remarks:
        show_remarks(console, answer)


def _show_quality(console: Console, quality: Answer) -> None:
    table = Table(title="The readings as data", show_header=False)
    table.add_row("readings", f"{quality['readings']} of {_known(quality['expected'])} expected")
    table.add_row("coverage", _with_unit(quality["coverage_percent"], "%"))
    table.add_row("resolution", _with_unit(quality["resolution_minutes"], "minutes"))
    for name, field in (
        ("gaps", "gap_count"),
        ("duplicates", "duplicates"),
        ("overlaps", "overlaps"),
        ("out of order", "unsorted"),
        ("zeros", "zeros"),
        ("estimated", "estimated"),
        ("questionable", "questionable"),
        ("negative", "negative"),
        ("cut off at zero", "clipped"),
        ("out of range", "out_of_range"),
        ("that could not be read", "fault_count"),
    ):
        if quality[field]:
            table.add_row(name, shown(quality[field]))
    for name, days in (("short days", quality["short_days"]), ("long days", quality["long_days"])):
        if days:
            table.add_row(name, ", ".join(f"{day['date']} ({shown(day['hours'])} h)" for day in days))
    console.print(table)
    if quality["gaps"]:
        gaps = headed_table("The longest gaps", "from", "to", "minutes")
        longest = sorted(quality["gaps"], key=lambda gap: -gap["minutes"])[:MOST_GAPS]
        for gap in longest:
            gaps.add_row(gap["from"], gap["to"], str(gap["minutes"]))
        console.print(gaps)
    if quality["months"]:
        months = headed_table("Month by month", "month", "coverage", "energy")
        for month in quality["months"]:
            months.add_row(
                month["month"], _with_unit(month["coverage_percent"], "%"), _with_unit(month["kwh"], "kWh")
            )
        console.print(months)
    if quality["faults"]:
        faults = headed_table("What could not be read", "at", "what", "given")
        for fault in quality["faults"]:
            faults.add_row(fault["at"], fault["message"], fault["given"] or "")
        console.print(faults)


def _known(value: object) -> str:
    return "not known" if value is None else shown(value)


def _with_unit(value: float | None, unit: str) -> str:
    return "not known" if value is None else f"{shown(value)} {unit}"
