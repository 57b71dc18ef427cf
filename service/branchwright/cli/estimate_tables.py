"""Answers about what an installation costs as tables for a terminal: the lines, their sums, and their spread."""

from rich.console import Console
from rich.table import Table
from rich.text import Text

from branchwright.cli.tables import Answer, headed_table, show_judged, show_remarks, shown

LEVELS = ("low", "likely", "high")


def show_estimate(console: Console, answer: Answer, *, remarks: bool = True) -> None:
    """Print the lines with their amounts, the totals and their spread, and what the price does not hold."""
    show_judged(console, answer)
    if answer["lines"]:
        console.print(_lines(answer["lines"]))
    totals = answer["totals"]
    if totals is not None:
        console.print(_totals(totals, answer["hours"]))
        if not totals["is_complete"]:
            console.print("[yellow]Some lines have no amount: the job costs more than the total.[/]")
    if answer["risk"] is not None:
        risk = answer["risk"]
        console.print(
            f"One job in ten comes out below {risk['p10']}, half below {risk['p50']}, one in ten above "
            f"{risk['p90']}; on average {risk['mean']}.",
            highlight=False,
        )
    for used, what in ((answer["price_book"], "Prices"), (answer["labour_table"], "Hours")):
        invented = "; they are invented" if used["is_demo"] else ""
        console.print(Text(f"{what}: {used['name']}, of {used['dated']}{invented}."))
    if remarks:
        if answer["exclusions"]:
            console.print(Text("Not in the price", style="bold"))
            for line in answer["exclusions"]:
                console.print(Text(f"  - {line}"))
        show_remarks(console, answer)


def _lines(lines: list[Answer]) -> Table:
    table = headed_table(
        "Take-off", "item", "quantity", "hours", "unit price", "low", "likely", "high", "why"
    )
    for line in lines:
        price, hours = line["unit_price"], line["hours"]
        table.add_row(
            line["item"],
            _quantity(line["quantity"], line["unit"]),
            "" if hours is None else shown(hours["likely"]),
            "" if price is None else price["likely"],
            *_levels(line["amount"]),
            line["why"],
        )
    return table


def _quantity(quantity: float, unit: str) -> str:
    return f"{shown(quantity)}{' x' if unit[0].isdigit() else ''} {unit}"


def _totals(totals: Answer, hours: Answer | None) -> Table:
    table = headed_table(f"Totals, {totals['currency'] or 'currency not stated'}", "", *LEVELS)
    if hours is not None:
        table.add_row("hours of work", *(shown(hours[level]) for level in LEVELS))
    for name in ("material", "labour", "fees", "markup", "tax"):
        table.add_row(name, *_levels(totals[name]))
    table.add_section()
    table.add_row("total", *_levels(totals["total"]))
    return table


def _levels(amounts: Answer | None) -> list[str]:
    return ["not priced", "", ""] if amounts is None else [str(amounts[level]) for level in LEVELS]
